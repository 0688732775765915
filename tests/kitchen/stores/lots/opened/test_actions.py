"""A lot is opened or thawed by a person on a day, and that is taken back while nothing went out since."""

from datetime import timedelta
from uuid import uuid4

import pytest

from curriculum.errors import RuleBroken
from curriculum.foods.models import Food
from curriculum.people.queries import the_college, today_at
from kitchen.stores.allocation import barred
from kitchen.stores.lots.models import Opening
from kitchen.stores.lots.opened.actions import open_lot, undo_opening
from kitchen.stores.lots.opened.queries import opened_page
from kitchen.stores.models import Lot
from kitchen.stores.moves.actions import waste_from_lot
from kitchen.stores.orders.models import Keeping
from kitchen.stores.queries import lot_data
from kitchen.stores.weighout.models import WeighedFrom
from tests.builders.book import a_person
from tests.builders.stores import a_lot, college_lots, kits_made, quiche_stage
from tests.builders.weighout import weighed_at

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


@pytest.fixture
def hana():
    """The stores person."""
    return a_person("hana", "stores")


@pytest.fixture
def today():
    """The college's day."""
    return today_at(the_college())


@pytest.fixture
def cream(hana, today):
    """A lot of butter that keeps three days once it is opened."""
    food = Food.objects.get(code="unsalted_butter")
    row = {"par_milligrams": 0, "opened_days": 3, "source": "the label", "by": hana}
    Keeping.objects.create(food=food, **row)
    return a_lot("unsalted_butter", "C-1", 1000, received_on=today - timedelta(2))


def test_an_opened_lot_keeps_as_long_as_the_stores_have_written(hana, cream, today):
    lot = open_lot(lot=cream, kind="opened", on=today, by=hana)
    assert lot.opened_on == today
    assert barred(lot_data(lot), today + timedelta(3)) == ""
    assert "was opened or thawed" in barred(lot_data(lot), today + timedelta(4))
    page = opened_page(lot)
    assert page.rows[0].by == "Hana" and page.rows[0].keeps.endswith("(3 days after opening, the label).")
    assert (page.may_open, page.may_undo) == ((), "opened")


def test_one_button_pressed_twice_opens_once(hana, cream, today):
    said = {"lot": cream, "kind": "opened", "on": today, "by": hana, "key": uuid4()}
    assert open_lot(**said) == open_lot(**said)
    assert Opening.objects.count() == 1


def test_a_lot_that_stands_weighed_on_a_tray_is_no_unopened_one(hana, today):
    stage = quiche_stage(benches=("R01",), ahead=())
    college_lots()
    weighed_at(kits_made(stage), "fine_salt", hana)
    lot = WeighedFrom.objects.first().lot
    Lot.objects.filter(pk=lot.pk).update(received_on=today)
    open_lot(lot=lot, kind="opened", on=today, by=hana)
    assert opened_page(Lot.objects.get(pk=lot.pk)).may_undo == ""
    with pytest.raises(RuleBroken, match="stand weighed on trays, so it stays opened"):
        undo_opening(lot=lot, why="Another pack.", by=hana)


def test_it_is_taken_back_by_a_row_of_its_own_while_nothing_went_out(hana, cream, today):
    open_lot(lot=cream, kind="opened", on=today, by=hana)
    lot = undo_opening(lot=cream, why="Another pack.", by=hana)
    assert lot.opened_on is None
    assert list(Opening.objects.values_list("number", "undone", "why")) == [
        (1, False, ""),
        (2, True, "Another pack."),
    ]
    with pytest.raises(RuleBroken, match="Nobody said here"):
        undo_opening(lot=cream, why="Again.", by=hana)
    assert open_lot(lot=cream, kind="opened", on=today, by=hana).opened_on == today


def test_it_stays_open_once_something_went_out(hana, cream, today):
    waste_from_lot(lot=cream, milligrams=1000, reason="Dropped", by=hana)
    open_lot(lot=cream, kind="opened", on=today, by=hana)
    assert opened_page(Lot.objects.get(pk=cream.pk)).may_undo == "opened"
    waste_from_lot(lot=cream, milligrams=2500, reason="Dropped", by=hana)
    with pytest.raises(RuleBroken, match="2.5 g went out of lot C-1 since it was opened") as refused:
        undo_opening(lot=cream, why="No.", by=hana)
    assert refused.value.code == "went_out" and Opening.objects.count() == 1
    assert opened_page(Lot.objects.get(pk=cream.pk)).may_undo == ""


@pytest.mark.parametrize(
    ("kind", "days", "code"),
    [("opened", 1, "not_yet"), ("opened", -3, "before_it_came"), ("thawed", 0, "not_frozen")],
)
def test_a_day_that_cannot_be_and_food_that_is_not_frozen_are_refused(hana, cream, today, kind, days, code):
    with pytest.raises(RuleBroken) as refused:
        open_lot(lot=cream, kind=kind, on=today + timedelta(days), by=hana)
    assert refused.value.code == code and refused.value.facts["field"] in ("on", "kind")
    assert not Opening.objects.exists()


def test_what_is_open_or_empty_is_not_opened_again(hana, cream, today):
    open_lot(lot=cream, kind="opened", on=today, by=hana)
    with pytest.raises(RuleBroken) as refused:
        open_lot(lot=cream, kind="opened", on=today, by=hana)
    assert refused.value.code == "said_already"
    empty = a_lot("fine_salt", "S-1", 1, received_on=today)
    waste_from_lot(lot=empty, milligrams=1000, reason="Dropped", by=hana)
    with pytest.raises(RuleBroken) as refused:
        open_lot(lot=empty, kind="opened", on=today, by=hana)
    assert refused.value.code == "nothing_left"


def test_frozen_food_is_thawed_and_says_when_nobody_wrote_how_long_it_keeps(hana, today):
    Food.objects.filter(code="fine_salt").update(storage="frozen")
    lot = a_lot("fine_salt", "S-1", 100, received_on=today)
    assert opened_page(lot).may_open == ("opened", "thawed")
    row = opened_page(open_lot(lot=lot, kind="thawed", on=today, by=hana)).rows[0]
    assert (row.word, row.keeps, row.unsaid) == ("Thawed", "", True)
