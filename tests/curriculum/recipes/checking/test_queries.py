import pytest

from curriculum.people.models import College
from curriculum.recipes import actions
from curriculum.recipes.checking.queries import teaching_for
from tests.builders.book import a_book, a_person
from tests.builders.recipes import college_recipe

pytestmark = pytest.mark.django_db


def test_it_knows_the_techniques_and_a_usual_lesson_of_four_hours(django_assert_num_queries):
    a_book()
    with django_assert_num_queries(4):
        teaching = teaching_for(college_recipe("R05"))
    assert teaching.cooking_minutes == 240 - 15 - 30
    assert teaching.techniques["anglaise"].needs == ("probing",) and "probing" in teaching.techniques


def test_a_college_writes_how_long_its_usual_lesson_is():
    a_book()
    College.objects.update(settings={"usual_lesson_minutes": 180})
    assert teaching_for(college_recipe("R05")).cooking_minutes == 135


def test_what_is_to_look_at_stands_on_the_page_of_the_draft(client):
    a_book()
    College.objects.update(settings={"usual_lesson_minutes": 120})
    actions.write_recipe(recipe=college_recipe("R05"), by=a_person("odile"))
    client.force_login(a_person("marek"))
    page = client.get("/recipes/R05/1/").content.decode()
    assert "Looked over" in page and "To look at" in page and "a usual lesson has 75 min to cook." in page
