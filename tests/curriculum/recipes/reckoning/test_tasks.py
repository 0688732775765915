from datetime import date
from io import StringIO

import pytest
from django.core.management import call_command

from curriculum.foods.models import Pack
from curriculum.people.models import College
from curriculum.recipes.actions import write_recipe
from curriculum.recipes.models import Version
from curriculum.recipes.queries import recipe_data
from curriculum.recipes.reckoning.queries import are_due, kept_versions
from curriculum.recipes.reckoning.tasks import reckon_book, reckon_when_due
from kitchen.website.management.commands import work
from tests.builders.book import a_book, a_copy, a_person, an_approved
from tests.builders.recipes import college_recipe

pytestmark = pytest.mark.django_db
TODAY, TOMORROW = date(2027, 2, 16), date(2027, 2, 17)


def _tomorrow():
    College.objects.update(shown_today=TOMORROW)


def test_a_price_that_changed_is_in_the_book_when_it_is_reckoned_and_the_sheet_stays():
    version = a_book("R01")["R01"]
    before = Version.objects.get(pk=version.pk)
    Pack.objects.update(pence=10_000)
    assert reckon_book() == 1
    after = Version.objects.get(pk=version.pk)
    assert after.portion_pence > before.portion_pence and after.costed_on == TODAY
    assert (after.sheet, after.sheet_hash) == (before.sheet, before.sheet_hash)


def test_a_food_that_lost_its_price_leaves_neither_cost_nor_day():
    version = a_book("R01")["R01"]
    Pack.objects.update(for_costing=False)
    reckon_book()
    kept = Version.objects.get(pk=version.pk)
    assert (kept.portion_pence, kept.costed_on) == (None, None) and kept.one_cook_minutes > 0


def test_what_is_taught_and_what_is_written_is_reckoned_what_was_replaced_is_not():
    taught = a_book("R01")["R01"]
    draft = write_recipe(recipe=college_recipe("R02"), by=a_person("odile"))
    assert kept_versions() == [taught.pk, draft.pk]
    Version.objects.filter(pk=taught.pk).update(state=Version.State.WITHDRAWN)
    assert kept_versions() == [draft.pk]


def test_the_book_is_reckoned_once_on_each_day_of_the_college():
    a_book("R01")
    assert not are_due(TODAY) and reckon_when_due() == 0
    _tomorrow()
    assert are_due(TOMORROW) and reckon_when_due() == 1
    assert Version.objects.get().costed_on == TOMORROW and reckon_when_due() == 0


def test_a_book_without_any_cost_is_due():
    a_book("R01")
    Version.objects.update(portion_pence=None, costed_on=None)
    assert are_due(TODAY) and reckon_when_due() == 1


def test_a_worker_with_nothing_to_do_reckons_the_book_of_yesterday(monkeypatch):
    a_book("R01")
    _tomorrow()
    monkeypatch.setattr(work, "close_old_connections", lambda: None)
    call_command("work", "--until-empty")
    assert Version.objects.get().costed_on == TOMORROW


def test_the_command_says_how_many_it_reckoned():
    a_book("R01")
    said = StringIO()
    call_command("reckon_recipes", stdout=said)
    assert said.getvalue() == "1 recipes reckoned.\n"


def test_a_batch_takes_as_many_queries_for_twenty_recipes_as_for_three(django_assert_max_num_queries):
    a_book("R01")
    for number in range(2):
        an_approved(a_copy(college_recipe("R01"), number), a_person("odile"), a_person("solveig"))
    with django_assert_max_num_queries(14) as few:
        reckon_book()
    for number in range(2, 19):
        an_approved(a_copy(college_recipe("R01"), number), a_person("odile"), a_person("solveig"))
    with django_assert_max_num_queries(14) as many:
        assert reckon_book() == 20
    assert len(few) == len(many)
    assert recipe_data(Version.objects.first()).code == "R01"
