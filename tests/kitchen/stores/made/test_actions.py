"""A bowl is made once, out of lots that may be used, and leaves with the kits; a refusal changes nothing."""

from dataclasses import replace
from datetime import timedelta
from uuid import uuid4

import pytest

from curriculum.errors import RuleBroken
from curriculum.people.models import College
from kitchen.stores.actions import accept_kits, issue_kits
from kitchen.stores.lots.actions import hold_lot
from kitchen.stores.made.actions import give_from_made, make_lot
from kitchen.stores.made.queries import takers
from kitchen.stores.models import KitLine, KitSet, Lot, MadePart, Movement
from kitchen.stores.queries import kits_page, trays_of
from kitchen.stores.weighout.actions import go_on, weigh
from kitchen.stores.weighout.managers import set_aside
from kitchen.website.ledger_checks import faults
from tests.builders.bowls import a_bowl, an_entry, now
from tests.builders.stores import a_lot, college_lots, kits_made, quiche_stage
from tests.builders.weighout import weighed_at, whole_kits_lidded

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


@pytest.fixture
def stage():
    """Three quiche benches, one of them without egg; full stores and accepted kits."""
    made = quiche_stage(benches=("R01", "R01", "V2"))
    college_lots()
    kits_made(made)
    return made


def eggs_of(stage, code="MP-0710"):
    return Lot.objects.get(code=code).on_hand_milligrams


def waiting(stage, bowl):
    return takers(stage.lesson, bowl.food)


def given(stage, bowl, count=2, **said):
    lines = [each.line.pk for each in waiting(stage, bowl)[:count]]
    return give_from_made(lot=bowl, lines=lines, by=stage.stores, **said)


def test_a_bowl_takes_its_pieces_out_of_their_lots_and_comes_in_with_its_weight(stage):
    before = eggs_of(stage)
    bowl = a_bowl(stage, {"MP-0710": 6, "MP-0741": 3})
    assert before - eggs_of(stage) == 6 * 57_000
    assert (bowl.on_hand_milligrams, bowl.made_in, bowl.food.code) == (450_000, stage.lesson, "egg_beaten")
    parts = MadePart.objects.filter(made=bowl).values_list("movement__lot__code", "movement__milligrams")
    assert sorted(parts) == [("MP-0710", -6 * 57_000), ("MP-0741", -3 * 57_000)]
    assert set(bowl.parts.values_list("movement__reason", flat=True)) == {f"Into made lot {bowl.code}"}
    assert faults() == []


def test_eggs_that_stand_weighed_on_a_tray_go_into_no_bowl(stage):
    kit_set = KitSet.objects.get(lesson=stage.lesson, state=KitSet.State.ACCEPTED)
    whole_kits_lidded(kit_set, stage.stores)
    weighed_at(kit_set, "egg_in_shell", stage.stores)
    eggs = Lot.objects.filter(food__code="egg_in_shell")
    ((pk, aside),) = set_aside(eggs.values_list("pk", flat=True)).items()
    code, there = eggs.values_list("code", "on_hand_milligrams").get(pk=pk)
    free = (there - aside) // 57_000
    before = eggs_of(stage, code)
    with pytest.raises(RuleBroken) as refused:
        a_bowl(stage, {code: free + 1})
    assert (refused.value.code, refused.value.facts["field"]) == ("lot_too_small", f"lot_{code}")
    assert "weighed on trays" in refused.value.message and eggs_of(stage, code) == before
    assert a_bowl(stage, {code: free})


def test_a_bowl_carries_what_the_labels_of_its_lots_say_together(stage):
    a_lot("egg_in_shell", "MP-9", contains=("egg",), may_contain=("milk",))
    Lot.objects.get(code="MP-9").food.allergens.create(kind="milk", presence="may_contain")
    bowl = a_bowl(stage, {"MP-0710": 1, "MP-9": 1})
    assert (bowl.label_allergens, bowl.label_may_contain) == (["egg"], ["milk"])


def test_a_form_sent_twice_makes_one_bowl(stage):
    said = {"lesson": stage.lesson, "entry": an_entry(), "by": stage.stores, "key": uuid4()}
    assert make_lot(**said) == make_lot(**said)
    assert Lot.objects.filter(made_in=stage.lesson).count() == 1


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"pieces": (("MP-0710", 9_999),)}, "lot_too_small"),
        ({"pieces": (("LS-2207", 2),)}, "lot_barred"),
        ({"pieces": (("NONE-1", 2),)}, "lot_barred"),
        ({"food": "lemon_juice"}, "not_made_here"),
        ({"milligrams": 600_000}, "weighs_more"),
    ],
)
def test_what_may_not_be_made_is_refused_and_nothing_moves(stage, changes, code):
    before = Movement.objects.count()
    with pytest.raises(RuleBroken) as refused:
        make_lot(lesson=stage.lesson, entry=replace(an_entry(), **changes), by=stage.stores)
    assert refused.value.code == code
    assert (Movement.objects.count(), Lot.objects.filter(made_in=stage.lesson).count()) == (before, 0)


def test_a_held_lot_and_one_whose_label_nobody_read_are_refused_by_name(stage):
    hold_lot(lot=Lot.objects.get(code="MP-0710"), why="Cracked.", by=stage.stores)
    with pytest.raises(RuleBroken, match="Lot MP-0710 is held"):
        a_bowl(stage)
    a_lot("egg_in_shell", "MP-8", label_read_on=None)
    with pytest.raises(RuleBroken, match="Nobody has read the label of lot MP-8"):
        a_bowl(stage, {"MP-8": 2})


def test_a_lot_past_its_use_by_before_the_bowl_is_thrown_away_is_refused(stage):
    with pytest.raises(RuleBroken, match="MP-0710 is past its use-by date of 22 Feb"):
        a_bowl(stage, discard_at=now() + timedelta(days=7))


def test_kits_take_from_the_bowl_by_weight_and_carry_the_lots_in_it(stage):
    bowl = a_bowl(stage)
    assert given(stage, bowl) == 2
    lines = KitLine.objects.filter(food=bowl.food)
    assert [(line.pieces, line.milligrams, line.exact) for line in lines] == [(None, 215_000, "215000")] * 2
    assert all(line.allergens_words == "egg" for line in lines)
    issue_kits(lesson=stage.lesson, by=stage.stores, short_accepted=True)
    bowl.refresh_from_db()
    assert bowl.on_hand_milligrams == 450_000 - 2 * 215_000
    tray = trays_of(lines[0].kit.kit_set)[0]
    line = next(line for line in tray.lines if line.food == "egg_beaten")
    assert line.lot_codes == (bowl.code, "MP-0710")
    assert faults() == []


def test_the_kits_page_counts_the_bowl_and_fewer_eggs(stage):
    before = {row.food: row for row in kits_page(stage.lesson).needs}["Hen egg in shell, medium"]
    given(stage, a_bowl(stage))
    after = {row.food: row for row in kits_page(stage.lesson).needs}
    assert after["Hen egg, beaten whole"].issued == "430 g"
    assert int(before.issued.split()[0]) - int(after["Hen egg in shell, medium"].issued.split()[0]) == 10


def test_no_more_is_promised_out_of_a_bowl_than_it_holds(stage):
    bowl = a_bowl(stage)
    given(stage, bowl, 1)
    with pytest.raises(RuleBroken) as refused:
        given(stage, bowl, 2)
    assert refused.value.code == "bowl_too_small"
    assert "235 g of Hen egg, beaten whole is free" in refused.value.message
    assert KitLine.objects.filter(food=bowl.food).count() == 1


def test_a_bowl_past_its_time_is_given_to_no_kit_and_issued_to_none(stage):
    bowl = a_bowl(stage)
    given(stage, bowl, 1)
    Lot.objects.filter(pk=bowl.pk).update(made_at=now() - timedelta(hours=5), discard_at=now())
    with pytest.raises(RuleBroken, match="was to be thrown away by"):
        given(stage, bowl, 1)
    with pytest.raises(RuleBroken, match="was to be thrown away by"):
        issue_kits(lesson=stage.lesson, by=stage.stores)
    issue_kits(lesson=stage.lesson, by=stage.stores, short_accepted=True)
    assert bowl.movements.count() == 1


def test_kits_that_are_weighed_or_made_again_meanwhile_are_refused(stage):
    bowl = a_bowl(stage)
    line = waiting(stage, bowl)[0].line
    kit_set = KitSet.objects.get(lesson=stage.lesson)
    go_on(kit_set=kit_set, reason="No free-from kit is near.", by=stage.stores)
    weigh(kit_set=kit_set, weights=[(line.kit.code, line.food.code)], by=stage.stores)
    with pytest.raises(RuleBroken) as refused:
        give_from_made(lot=bowl, lines=[line.pk], by=stage.stores)
    assert refused.value.code == "line_changed"
    old = waiting(stage, bowl)[0].line
    accept_kits(lesson=stage.lesson, by=stage.stores)
    with pytest.raises(RuleBroken):
        give_from_made(lot=bowl, lines=[old.pk], by=stage.stores)


def test_giving_twice_by_one_form_gives_once(stage):
    bowl, key = a_bowl(stage), uuid4()
    lines = [waiting(stage, bowl)[0].line.pk]
    for _ in range(2):
        assert give_from_made(lot=bowl, lines=lines, by=stage.stores, key=key) == 1
    assert KitLine.objects.filter(food=bowl.food).count() == 1


def test_kits_made_again_get_whole_pieces_again(stage):
    bowl = a_bowl(stage)
    given(stage, bowl)
    accept_kits(lesson=stage.lesson, by=stage.stores)
    assert not KitLine.objects.filter(food=bowl.food, kit__kit_set__state="accepted").exists()


def test_nothing_is_made_for_a_cancelled_lesson(stage):
    stage.lesson.state = "cancelled"
    stage.lesson.save()
    with pytest.raises(RuleBroken) as refused:
        a_bowl(stage)
    assert refused.value.code == "lesson_cancelled"


def test_the_day_of_a_bowl_is_the_college_s_own(stage):
    assert a_bowl(stage).received_on == College.objects.get().shown_today
