from datetime import date

import pytest

from curriculum.recipes.scaled.queries import part_uses, parts_of, the_book
from tests.builders.book import a_book
from tests.builders.recipes import college_recipe

pytestmark = pytest.mark.django_db
DAY = date(2027, 2, 16)


def test_an_egg_gives_its_parts(django_assert_num_queries):
    a_book()
    with django_assert_num_queries(1):
        found = {part.part: part.milligrams_per_piece for part in parts_of(["egg_in_shell"])}
    assert found["egg_white"] == 30_000 and found["egg_yolk"] == 18_000


def test_a_batch_of_the_book_takes_the_sum_of_its_lines_and_drafts_are_not_asked(django_assert_num_queries):
    a_book("R02", "R08")
    with django_assert_num_queries(1):
        found = {(use.part, use.recipe): use.milligrams for use in part_uses(["egg_white", "egg_yolk"])}
    assert found == {("egg_white", "R08"): 150_000, ("egg_yolk", "R02"): 50_000, ("egg_yolk", "R08"): 40_000}


def test_the_book_is_read_in_three_queries_and_in_one_without_eggs(django_assert_num_queries):
    a_book("R03", "R08", "R09")
    with django_assert_num_queries(3):
        book = the_book(college_recipe("R03"), DAY)
    assert book.prices["egg_in_shell"].pieces and {use.recipe for use in book.uses} >= {"R08"}
    with django_assert_num_queries(1):
        assert the_book(college_recipe("R09"), DAY).uses == ()
