"""What the demonstration's pages and the stores read, in a fixed number of queries."""

import pytest

from curriculum.techniques.models import Fault, Technique
from curriculum.wording import clock_minutes
from kitchen.timeplan.actions import accept_draft
from kitchen.timeplan.demonstrations.queries import (
    accepted_demonstration,
    ahead_batches,
    class_clock,
    faults_of,
    page_of,
    shows_of,
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


def test_the_stores_are_told_what_to_make_before(cast):
    assert ahead_batches(cast.lesson) == ()
    accept(cast, 30)
    made = ahead_batches(cast.lesson)
    assert [(each.components, each.batches) for each in made] == [(("A",), 1)] * len(made)


def test_more_batches_than_the_lesson_has_are_said_on_the_page(cast):
    accept(cast, 30)
    page = page_of(shows_of(cast.lesson), accepted_demonstration(cast.lesson), None, (), 45)
    assert any("The lesson is booked with no batch" in words for words in page.written.remarks)
    cast.lesson.demonstration_batches = 5
    page = page_of(shows_of(cast.lesson), accepted_demonstration(cast.lesson), None, (), 45)
    assert page.written.remarks == ()


def test_the_accepted_time_plan_of_the_class_rules_the_clock(cast):
    accept(cast, 30)
    assert class_clock(cast.lesson) == ()
    plan = plan_page(cast.lesson)
    accept_draft(lesson=cast.lesson, draft=plan.draft, by=cast.lecturer)
    said = class_clock(cast.lesson)[0]
    for show in plan.draft.plan.shows:
        assert f"step {show.step} at {clock_minutes(show.start)}" in said
    assert plan.draft.plan.shows
    page = page_of(shows_of(cast.lesson), accepted_demonstration(cast.lesson), None, (), 45)
    assert said in page.written.remarks
