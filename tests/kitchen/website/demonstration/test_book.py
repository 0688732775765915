"""The recipe book of the demonstration is what its files say, approved by somebody who did not write it."""

from datetime import date

import pytest

from curriculum.courses.models import PlannedLesson
from curriculum.recipes.models import Version
from curriculum.recipes.queries import book_data
from kitchen.website.demonstration.book import write_book
from kitchen.website.demonstration.college import write_college, write_courses
from tests.builders.demonstration import taken_back
from tests.builders.recipes import RECIPE_CODES, VARIANT_CODES, college_recipe

pytestmark = pytest.mark.django_db


@pytest.fixture(scope="module")
def written(django_db_setup, django_db_blocker):
    """The college with its recipe book, for this file."""
    with taken_back(django_db_blocker):
        write_college(date(2027, 2, 17))
        write_book()
        yield


@pytest.fixture
def book(written, db):
    """The recipe book as it was written."""


def test_every_recipe_reaches_the_calculations_as_its_file_says(book):
    found = {recipe.code: recipe for recipe in book_data()}
    assert set(found) == {*RECIPE_CODES, *VARIANT_CODES}
    for code, recipe in found.items():
        assert recipe == college_recipe(code)


def test_every_recipe_is_approved_by_another_person_than_its_writer(book):
    versions = Version.objects.select_related("written_by", "checked_by")
    assert {version.state for version in versions} == {"approved"}
    assert all(version.written_by != version.checked_by for version in versions)
    assert Version.objects.get(recipe__code="V2").written_by.username == "marek"


def test_the_schemes_of_work_plan_dishes_of_the_book(book):
    write_courses()
    dishes = PlannedLesson.objects.filter(course__group__code="PC2-A").values_list("week", "recipe__code")
    assert dict(dishes)[7] == "R01"
