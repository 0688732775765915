"""Labels against kits: what is still to come, what learners avoid, what was printed before."""

import contextlib
from datetime import timedelta
from uuid import uuid4

import pytest
from django.db import transaction

from curriculum.errors import RuleBroken
from curriculum.foods.models import Avoidance, Food
from curriculum.foods.one.actions import write_label
from curriculum.foods.one.said import LabelSaid
from curriculum.people.models import College
from kitchen.lessons.models import Place
from kitchen.stores import queries
from kitchen.stores.actions import issue_kits
from kitchen.stores.entries import LabelRead
from kitchen.stores.ledgers import Move, lots_locked, move
from kitchen.stores.lots.actions import read_label
from kitchen.stores.models import Kit, KitSet, Lot, Movement
from tests.builders.book import TERM
from tests.builders.stores import QUICHE_DAY, a_lot, college_lots, kits_made, quiche_stage

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


def read_the_flour(stage, read):
    food = Food.objects.get(code="gluten_free_flour_blend")
    return read_label(food=food, read=read, on=QUICHE_DAY, by=stage.stores)


def ready_stage():
    """A lesson with kits accepted, stores full and every label read."""
    stage = quiche_stage()
    college_lots()
    Lot.objects.filter(label_read_on=None).update(label_read_on=TERM)
    Food.objects.filter(label_read_on=None).update(label_read_on=TERM)
    kits_made(stage)
    return stage


def without_enough_blend():
    """A quiche at a bench without gluten, whose blend was short when its kit left; the rest is to come."""
    stage = quiche_stage(benches=("R01", "V1"), ahead=())
    college_lots()
    Lot.objects.filter(label_read_on=None).update(label_read_on=TERM)
    Food.objects.filter(label_read_on=None).update(label_read_on=TERM)
    blend = Lot.objects.get(food__code="gluten_free_flour_blend")
    out = Move(blend.pk, 50_000 - blend.on_hand_milligrams, "waste", uuid4(), reason="spoilt")
    with transaction.atomic():
        move(lots=lots_locked([blend.pk]), moves=[out], by=stage.stores)
    stage.kit_set = kits_made(stage)
    issue_kits(lesson=stage.lesson, by=stage.stores, short_accepted=True)
    return stage


def test_the_rest_of_a_kit_that_left_short_is_held_against_the_label_as_it_is_read_now():
    stage = without_enough_blend()
    assert KitSet.objects.get().issued_at is not None
    read_the_flour(stage, LabelRead(contains=("wheat",)))
    a_lot("gluten_free_flour_blend", "NEW-1", 2000, contains=("wheat",))
    with contextlib.suppress(RuleBroken):
        issue_kits(lesson=stage.lesson, by=stage.stores, short_accepted=True)
    assert not Movement.objects.filter(lot__code="NEW-1", kind="issue").exists()
    assert "contains wheat" in Kit.objects.get(place__bench__number=2).blocked_why


def avoids_soya(stage, bench=1):
    place = Place.objects.get(shift__lesson=stage.lesson, bench__number=bench)
    student = place.learners.first().student
    return Avoidance.objects.create(student=student, kind="soya", from_on=TERM, noted_by=stage.stores)


def butter_with_soya(stage):
    butter = Food.objects.get(code="unsalted_butter")
    read_label(food=butter, read=LabelRead(("milk", "soya"), ()), on=QUICHE_DAY, by=stage.stores)


def test_an_ordinary_kit_does_not_leave_with_what_its_learner_avoids_by_now():
    stage = ready_stage()
    avoids_soya(stage)
    butter_with_soya(stage)
    stopped = Kit.objects.exclude(blocked_why="")
    assert {(kit.place and kit.place.bench.number) for kit in stopped} == {1, None}
    assert "somebody who works this kit avoids soya" in stopped.filter(kind="bench").get().blocked_why
    issue_kits(lesson=stage.lesson, by=stage.stores, short_accepted=True)
    assert not Movement.objects.filter(kit_line__kit__in=stopped, kind="issue").exists()


def test_what_a_learner_avoids_only_after_the_lesson_stops_nothing():
    stage = ready_stage()
    Avoidance.objects.filter(pk=avoids_soya(stage).pk).update(from_on=QUICHE_DAY + timedelta(days=1))
    butter_with_soya(stage)
    assert not Kit.objects.exclude(blocked_why="").exists()


def test_kits_whose_printed_labels_say_less_than_a_label_read_since_are_made_again_first():
    """The page of the food knows no kits: its words are held against the printed ones at the issue."""
    stage = ready_stage()
    butter = Food.objects.get(code="unsalted_butter")
    said = LabelSaid(contains=("milk", "soya"), may_contain=(), facts=(), read_on=QUICHE_DAY)
    write_label(food=butter, said=said, by=stage.stores, today=QUICHE_DAY)
    page = queries.kits_page(stage.lesson)
    assert page.stale and "The label of Unsalted butter was read anew" in " ".join(page.changed)
    with pytest.raises(RuleBroken) as refused:
        issue_kits(lesson=stage.lesson, by=stage.stores)
    assert refused.value.code == "label_read_anew" and not Movement.objects.filter(kind="issue").exists()
    kits_made(stage)
    assert not queries.kits_page(stage.lesson).stale
    assert issue_kits(lesson=stage.lesson, by=stage.stores)


def test_what_leaves_after_its_lesson_day_is_judged_by_the_day_on_which_it_leaves():
    """The cheese keeps until the day of the lesson: three days later it goes into no kit."""
    stage = ready_stage()
    Lot.objects.filter(food__code="mature_cheddar").update(date_kind="use_by", date=QUICHE_DAY)
    College.objects.update(shown_today=QUICHE_DAY + timedelta(days=3))
    with pytest.raises(RuleBroken, match="past its use-by date"):
        issue_kits(lesson=stage.lesson, by=stage.stores)
    College.objects.update(shown_today=QUICHE_DAY)
    assert issue_kits(lesson=stage.lesson, by=stage.stores)
