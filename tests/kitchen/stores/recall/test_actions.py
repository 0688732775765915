"""Everything is held at once, what was made of it too, and once for a key."""

from uuid import uuid4

import pytest
from django.db import transaction

from kitchen.stores.models import Lot
from kitchen.stores.recall import actions
from kitchen.stores.recall.actions import hold_everything
from tests.builders.bowls import a_bowl
from tests.builders.stores import college_lots, quiche_stage

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


@pytest.fixture
def stage():
    """A bowl made of eggs."""
    made = quiche_stage(benches=("R01",))
    college_lots()
    a_bowl(made)
    return made


def held():
    return set(Lot.objects.filter(held=True).values_list("code", flat=True))


def test_the_lot_and_the_bowl_made_of_it_are_held_with_the_reason(stage):
    eggs, bowl = Lot.objects.get(code="MP-0710"), Lot.objects.get(made_in=stage.lesson)
    before = held()
    assert hold_everything(lots=[eggs], why="Salmonella", by=stage.stores) == sorted([eggs.code, bowl.code])
    assert held() - before == {eggs.code, bowl.code}
    assert "Salmonella" in Lot.objects.get(pk=bowl.pk).held_why


def test_sent_twice_it_is_done_once_and_a_held_lot_keeps_its_reason(stage):
    eggs, key = Lot.objects.get(code="MP-0710"), uuid4()
    Lot.objects.filter(pk=eggs.pk).update(held=True, held_why="Cracked")
    first = hold_everything(lots=[eggs], why="Rang", by=stage.stores, key=key)
    assert first == hold_everything(lots=[eggs], why="Rang", by=stage.stores, key=key)
    assert eggs.code not in first and Lot.objects.get(pk=eggs.pk).held_why == "Cracked"


def test_when_it_breaks_in_the_middle_nothing_is_held(stage, monkeypatch):
    def breaks(**said):
        said["do"]()
        raise OSError

    before = held()
    monkeypatch.setattr(actions, "once", breaks)
    with pytest.raises(OSError), transaction.atomic():
        hold_everything(lots=[Lot.objects.get(code="MP-0710")], why="Rang", by=stage.stores)
    assert held() == before
