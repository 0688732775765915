"""What became of the dishes is said by a person, with the reading and its limit; a recall says it again."""

from datetime import datetime, time, timedelta
from uuid import uuid4

import pytest
from django.utils import timezone

from curriculum.errors import RuleBroken
from curriculum.people.models import College
from kitchen.safety.models import Reading
from kitchen.stores.became.actions import say_kit_given, say_what_became
from kitchen.stores.became.cooling import BecameEntry, Cooling, Portions
from kitchen.stores.became.models import Became
from kitchen.stores.became.queries import bench_rows, shared_kits, take_home_labels
from kitchen.stores.models import Kit, Lot, Movement
from kitchen.stores.recall.queries import plate_of, recall_of
from tests.builders.lessons_left import left_stage
from tests.builders.stores import QUICHE_DAY

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


@pytest.fixture
def stage():
    """Two benches whose kits have left, on the college's day."""
    made = left_stage(benches=("R01", "R01", "V1"))
    College.objects.update_or_create(
        pk=1, defaults={"name": "Tillow College", "short_name": "Tillow", "shown_today": QUICHE_DAY}
    )
    return made


def home(minutes=75, decicelsius=70, **more):
    at = datetime.combine(QUICHE_DAY, time(11), timezone.get_current_timezone())
    cooling = Cooling(at, at + timedelta(minutes=minutes), decicelsius) if minutes else None
    said = {"eat_by": QUICHE_DAY + timedelta(2), "keep_words": "In the fridge."} | more
    return BecameEntry(Portions(eaten=4, home=4), cooling, **said)


def say(stage, entry, *numbers, key=None):
    places = [stage.place(number) for number in numbers or (1,)]
    return say_what_became(lesson=stage.lesson, places=places, entry=entry, by=stage.lecturer, key=key)


def test_one_saying_stands_for_several_benches_and_the_last_one_stands(stage):
    key = uuid4()
    assert say(stage, home(), 1, 2, key=key) == say(stage, home(), 1, 2, key=key) == 2
    assert Became.objects.count() == 2 and Reading.objects.count() == 2
    assert set(Reading.objects.values_list("verdict", flat=True)) == {"kept"}
    say(stage, BecameEntry(Portions(wasted=8)), 1)
    rows = {row.place.bench.number: row for row in bench_rows(stage.lesson)}
    assert rows[1].said == "8 thrown away." and not rows[1].label
    assert "4 taken home, cooled 11:00 to 12:15 (75 min), 7\xa0°C" in rows[2].said and rows[2].label
    assert rows[3].said == ""


@pytest.mark.parametrize("entry", [home(minutes=91), home(decicelsius=81), home(minutes=0)])
def test_a_limit_that_is_not_kept_asks_who_decided(stage, entry):
    with pytest.raises(RuleBroken, match="Cooled within 90 minutes") as refused:
        say(stage, entry)
    assert refused.value.facts["field"] == "decided" and not Became.objects.exists()


def test_more_portions_than_twice_the_planned_are_a_slip(stage):
    assert stage.place(1).dish.portions_a_bench == 8
    say(stage, BecameEntry(Portions(eaten=8, sold=8)))
    with pytest.raises(RuleBroken, match="at most 16") as refused:
        say(stage, BecameEntry(Portions(eaten=8, sold=9)))
    assert refused.value.code == "more_than_made" and Became.objects.count() == 1


def test_nothing_is_read_in_the_future(stage):
    today = timezone.localdate()
    College.objects.update(shown_today=None)
    stage.lesson.on = today
    stage.lesson.save()
    at = timezone.localtime() + timedelta(minutes=5)
    cooling = Cooling(at - timedelta(minutes=60), at, 60)
    with pytest.raises(RuleBroken, match="not when it will be") as refused:
        say(stage, BecameEntry(Portions(home=4), cooling, today + timedelta(2), "In the fridge."))
    assert refused.value.facts["field"] == "read_at" and not Reading.objects.exists()


def test_what_was_decided_is_written_with_the_reading_and_gets_no_label(stage):
    say(stage, home(minutes=120, decided="M. Bell, by sheet 4"))
    assert Reading.objects.get().verdict == "not kept"
    assert "the limit was not kept, decided: M. Bell, by sheet 4" in bench_rows(stage.lesson)[0].said
    assert take_home_labels(stage.lesson) == []


@pytest.mark.parametrize(
    ("entry", "code"),
    [
        (BecameEntry(Portions()), "nothing_became"),
        (home(eat_by=None), "home_says_how_long"),
        (home(keep_words=""), "home_says_how_long"),
        (home(eat_by=QUICHE_DAY - timedelta(1)), "eat_by"),
    ],
)
def test_what_is_not_whole_is_refused_at_its_field(stage, entry, code):
    with pytest.raises(RuleBroken) as refused:
        say(stage, entry)
    assert refused.value.code == code and refused.value.facts["field"]


def test_a_lesson_that_is_still_to_come_has_become_nothing(stage):
    College.objects.update(shown_today=QUICHE_DAY - timedelta(1))
    with pytest.raises(RuleBroken) as refused:
        say(stage, home())
    assert refused.value.code == "not_yet"


def test_the_label_names_what_the_lots_of_this_bench_named_and_what_was_near(stage):
    Lot.objects.filter(food__code="unsalted_butter").update(label_may_contain=["sesame"])
    say(stage, home(), 1)
    (label,) = take_home_labels(stage.lesson)
    assert {"milk", "egg", "gluten (wheat)"} <= set(label.contains)
    assert "sesame" in label.may_contain and not set(label.contains) & set(label.may_contain)
    assert not set(label.near) & ({*label.contains} | {*label.may_contain})
    assert label.eat_by.startswith("Thursday 18 February") and label.cooled.startswith("Cooled 11:00")
    assert label.lots and "Unsalted butter" in label.foods


def test_a_recall_says_what_really_became_of_each_bench(stage):
    say(stage, home(), 1)
    movement = Movement.objects.filter(kit_line__kit__place=stage.place(1)).first()
    lesson = recall_of([movement.lot]).lessons[0]
    assert "4 taken home" in next(row.went for row in lesson.benches if row.bench == "Bench 1")
    assert next(row.went for row in lesson.benches if row.bench == "Bench 2") == ""
    assert "4 taken home" in plate_of(stage.place(1)).bench.went


def shared(stage):
    """A kit without a bench, and a lot that it had."""
    row = shared_kits(stage.lesson)[0]
    return row.kit, Movement.objects.filter(kit_line__kit=row.kit).first().lot


def test_a_shared_kit_names_the_benches_it_was_given_to_once_somebody_said(stage):
    kit, lot = shared(stage)
    say_kit_given(kit=kit, places=[stage.place(2)], by=stage.lecturer)
    assert shared_kits(stage.lesson)[0].said == "Given to bench 2."
    had = {row.bench: row.had for row in recall_of([lot]).lessons[0].benches}
    named = [bench for bench, words in had.items() if any(" kit" in each for each in words)]
    assert named == ["Bench 2"]
    words = plate_of(stage.place(1)).bench.had
    assert not any(f"of lot {lot.code} in the {kit.get_kind_display()} kit" in each for each in words)


def test_said_again_the_last_word_stands_and_no_bench_is_a_word_too(stage):
    kit, _ = shared(stage)
    say_kit_given(kit=kit, places=[stage.place(2)], by=stage.lecturer)
    say_kit_given(kit=kit, places=[], by=stage.lecturer)
    assert shared_kits(stage.lesson)[0].said == "Given to no bench." and kit.given.count() == 2


def test_a_kit_of_a_bench_went_nowhere_else(stage):
    kit = Kit.objects.filter(place=stage.place(1)).first()
    with pytest.raises(RuleBroken) as refused:
        say_kit_given(kit=kit, places=[stage.place(2)], by=stage.lecturer)
    assert refused.value.code == "kit_of_a_bench"
