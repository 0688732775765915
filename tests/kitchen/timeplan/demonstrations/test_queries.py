"""What the demonstration's pages and the stores read, in a fixed number of queries."""

from dataclasses import replace

import pytest

from curriculum.techniques.models import Fault, Technique
from curriculum.wording import clock_minutes
from kitchen.timeplan.actions import accept_draft
from kitchen.timeplan.demonstration import chosen, plan
from kitchen.timeplan.demonstration_data import Shown
from kitchen.timeplan.demonstrations.queries import (
    accepted_demonstration,
    class_of,
    demonstration_for_stores,
    faults_of,
    page_of,
    shows_of,
    what_follows,
)
from kitchen.timeplan.queries import plan_page
from tests.builders.cast import build_cast
from tests.kitchen.timeplan.demonstrations.test_actions import accept

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


def a_fault(number=1):
    technique = Technique.objects.get(code="rubbing_in")
    return Fault.objects.create(
        technique=technique, code=f"fault-{number}", seen="Greasy crumbs.", cause="Warm hands", remedy="Chill"
    )


def test_the_dish_is_read_with_its_techniques_and_the_minute_it_begins(cast):
    shows = shows_of(cast.lesson)
    assert shows.recipe.title == "Shortbread"
    assert shows.techniques == {"rubbing_in": "Rubbing in"}
    assert shows.begins == 9 * 60 + 15


def test_a_lesson_without_a_dish_shows_nothing(cast):
    cast.lesson.shifts.get().places.all().delete()
    cast.lesson.dishes.all().delete()
    assert shows_of(cast.lesson) is None


def test_techniques_done_ahead_are_not_shown_unasked(cast):
    assert shows_of(cast.lesson).usual_targets == ("rubbing_in",)
    cast.dish.ahead_steps = [1]
    cast.dish.save()
    assert shows_of(cast.lesson).usual_targets == ()


@pytest.mark.parametrize("count", [3, 30])
def test_a_page_takes_as_many_queries_for_many_faults_as_for_few(cast, count, django_assert_num_queries):
    for number in range(count):
        a_fault(number)
    accept(cast)
    with django_assert_num_queries(8):
        shows, row = shows_of(cast.lesson), accepted_demonstration(cast.lesson)
        page_of(shows, row, None, shows.usual_targets, 45)


def test_the_page_shows_what_is_taken_until_something_else_is_asked(cast):
    accept(cast, 30)
    shows, row = shows_of(cast.lesson), accepted_demonstration(cast.lesson)
    taken = page_of(shows, row, None, (), 45)
    assert taken.is_taken
    assert [offer.slot for offer in taken.offers if offer.is_taken] == [30]
    other = page_of(shows, row, 45, (), 45)
    assert not other.is_taken
    assert [offer.slot for offer in other.offers if offer.is_looked_at] == [45]


def test_nobody_is_asked_the_same_twice(cast):
    a_fault()
    shows = shows_of(cast.lesson)
    page = page_of(shows, None, 30, (), 45)
    questions = [stage.question for stage in page.written.stages if stage.question]
    assert questions == ["What has gone wrong when you see this: greasy crumbs?"]


def test_retired_faults_are_not_asked(cast):
    fault = a_fault()
    assert faults_of(["rubbing_in"])
    fault.retired_at = "2027-01-01T00:00Z"
    fault.save()
    assert not faults_of(["rubbing_in"])


def test_the_stores_weigh_the_trays_and_what_is_worked_on_the_table(cast):
    recipe = shows_of(cast.lesson).recipe
    assert demonstration_for_stores(cast.lesson, recipe) is None
    accept(cast, 30)
    shown = demonstration_for_stores(cast.lesson, recipe)
    assert shown.batches() == {"A": len(shown.trays) + len(shown.live)}
    assert demonstration_for_stores(cast.lesson, replace(recipe, code="another dish")) is None


def the_page(cast):
    return page_of(shows_of(cast.lesson), accepted_demonstration(cast.lesson), None, (), 45)


def test_a_lesson_that_is_cooked_has_no_clock_of_its_own(cast):
    accept(cast, 30)
    page = the_page(cast)
    assert page.written.clock == "open" and "none is accepted yet" in page.written.clock_words
    assert all(stage.clock == "" for stage in page.written.stages)
    assert not any(char.isdigit() and ":" in tray.when for tray in page.written.trays for char in tray.when)


def test_the_accepted_time_plan_of_the_class_is_the_clock(cast):
    accept(cast, 30)
    draft = plan_page(cast.lesson).draft
    accept_draft(lesson=cast.lesson, draft=draft, by=cast.lecturer)
    page = the_page(cast)
    assert page.written.clock == "class"
    clocks = {stage.step: stage.clock for stage in page.written.stages}
    assert clocks == {show.step: clock_minutes(show.start) for show in draft.plan.shows} != {}


def test_a_time_plan_that_shows_other_stages_gives_no_clock_and_says_what_to_do(cast):
    accept(cast, 30)
    accept_draft(lesson=cast.lesson, draft=plan_page(cast.lesson).draft, by=cast.lecturer)
    accept(cast, 12, chosen(shows_of(cast.lesson).recipe, (Shown(1, "live", 9),), 12))
    page = the_page(cast)
    assert page.written.clock == "open" and "plan the class again" in page.written.clock_words


def test_a_lesson_that_is_only_shown_has_its_own_clock(cast):
    cast.lesson.kind = "demonstration"
    cast.lesson.save()
    assert class_of(cast.lesson).shows is None
    accept(cast, 30)
    page = the_page(cast)
    assert (page.written.clock, page.written.clock_words) == ("own", "")
    assert page.written.stages[0].clock == "09:15"
    assert "09:15 to" in page.written.facts


def test_what_another_demonstration_changes_is_said_before_it_is_taken(cast):
    recipe = shows_of(cast.lesson).recipe
    assert "the stores weigh them" in what_follows(cast.lesson, plan(recipe, 30))
    accept(cast, 30)
    assert "no longer fit" not in what_follows(cast.lesson, plan(recipe, 30))
    accept_draft(lesson=cast.lesson, draft=plan_page(cast.lesson).draft, by=cast.lecturer)
    other = chosen(recipe, (Shown(1, "live", 9), Shown(2, "stage_tray", 3)), 12)
    said = what_follows(cast.lesson, other)
    assert "Kits and a requisition made for the one before no longer fit" in said
    assert "plan it again" in said
