"""Kits whose labels may contain what they are made without go only on a lecturer's word."""

from datetime import timedelta
from uuid import uuid4

import pytest

from curriculum.errors import RuleBroken
from curriculum.foods.models import Food
from kitchen.stores.actions import issue_kits
from kitchen.stores.entries import LabelRead
from kitchen.stores.letting.actions import let_go
from kitchen.stores.letting.models import LetGo
from kitchen.stores.letting.queries import decided, to_decide
from kitchen.stores.lots.actions import read_label
from kitchen.stores.models import Kit, Lot, Movement
from kitchen.stores.queries import kits_page, trays_of
from tests.builders.book import TERM
from tests.builders.stores import QUICHE_DAY, college_lots, kits_made, quiche_stage

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]
BLEND = "gluten_free_flour_blend"


def read_as(stage, contains=(), may_contain=()):
    read = LabelRead(contains=contains, may_contain=may_contain)
    on = QUICHE_DAY - timedelta(days=2)
    read_label(food=Food.objects.get(code=BLEND), read=read, on=on, by=stage.stores)


@pytest.fixture
def stage():
    """A quiche of seven benches, two without gluten; the flour of those may contain wheat."""
    made = quiche_stage()
    college_lots()
    Lot.objects.filter(label_read_on=None).update(label_read_on=TERM)
    made.kit_set = kits_made(made)
    read_as(made, may_contain=("wheat",))
    return made


def stopped():
    return set(Kit.objects.exclude(blocked_why="").values_list("version__recipe__code", flat=True))


def test_they_wait_with_the_food_and_what_it_may_contain(stage):
    assert stopped() == {"V1"}
    why = Kit.objects.exclude(blocked_why="").first().blocked_why
    assert "may contain wheat" in why and "made without" in why
    (found,) = to_decide(stage.lesson)
    waiting = Kit.objects.exclude(blocked_why="").count()
    assert (found.recipe, len(found.kits), found.stopped) == ("V1", waiting, "")


def test_the_lecturers_word_lets_them_go_and_their_box_says_no_longer_free_from(stage):
    count = let_go(kit_set=stage.kit_set, recipe="V1", why="Talked over with Otto.", by=stage.lecturer)
    assert count == LetGo.objects.count() and not stopped()
    (row,) = decided(stage.lesson)
    assert (row.why, row.by) == ("Talked over with Otto.", stage.lecturer) and "may contain wheat" in row.what
    trays = [tray for tray in trays_of(stage.kit_set) if "gluten" in tray.free_from]
    with_it = [tray for tray in trays if BLEND in {line.food for line in tray.lines}]
    said = "MADE WITHOUT GLUTEN, MAY CONTAIN GLUTEN (WHEAT)"
    assert with_it and all(tray.free_from_box.startswith(said) for tray in with_it)
    assert all(tray.free_from_box.startswith("FREE FROM") for tray in trays if tray not in with_it)


def test_sent_twice_it_is_written_once_and_cannot_be_changed(stage):
    said = {"kit_set": stage.kit_set, "recipe": "V1", "why": "Asked.", "by": stage.lecturer, "key": uuid4()}
    assert let_go(**said) == let_go(**said)
    with pytest.raises(TypeError, match="ledger"):
        LetGo.objects.first().delete()


def test_what_a_label_contains_is_let_go_by_nobody(stage):
    let_go(kit_set=stage.kit_set, recipe="V1", why="Asked.", by=stage.lecturer)
    read_as(stage, contains=("wheat",))
    assert stopped() == {"V1"}
    issue_kits(lesson=stage.lesson, by=stage.stores, short_accepted=True)
    assert not Movement.objects.filter(kit_line__kit__version__recipe__code="V1", kind="issue").exists()


@pytest.mark.parametrize("recipe", ["R01", "NOSUCH"])
def test_where_nothing_may_contain_it_nothing_is_decided(stage, recipe):
    with pytest.raises(RuleBroken) as refused:
        let_go(kit_set=stage.kit_set, recipe=recipe, why="Asked.", by=stage.lecturer)
    assert refused.value.code == "nothing_to_decide" and not LetGo.objects.exists()


def test_with_an_unread_label_besides_nothing_is_decided(stage):
    Food.objects.filter(code="xanthan_gum").update(label_read_on=None)
    with pytest.raises(RuleBroken) as refused:
        let_go(kit_set=stage.kit_set, recipe="V1", why="Asked.", by=stage.lecturer)
    assert "No label read" in refused.value.message and not LetGo.objects.exists()


def test_kits_made_again_ask_again(stage):
    let_go(kit_set=stage.kit_set, recipe="V1", why="Asked.", by=stage.lecturer)
    kits_made(stage)
    assert {tray.title[:2] for tray in kits_page(stage.lesson).trays if tray.blocked_why}
    with pytest.raises(RuleBroken) as refused:
        let_go(kit_set=stage.kit_set, recipe="V1", why="Asked.", by=stage.lecturer)
    assert refused.value.code == "kits_made_again"
