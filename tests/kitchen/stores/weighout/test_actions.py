"""At the scale: lids before flour, once each, looked at, and nothing leaves a lot by it."""

from uuid import uuid4

import pytest

from curriculum.errors import RuleBroken
from curriculum.foods.models import Food
from kitchen.lessons.actions import cancel_lesson
from kitchen.stores import queries as stores_queries
from kitchen.stores.actions import issue_kits
from kitchen.stores.entries import LabelRead
from kitchen.stores.lots.actions import hold_lot, read_label
from kitchen.stores.models import Kit, KitLine, Lot, Movement, Weighing
from kitchen.stores.moves.actions import waste_from_lot
from kitchen.stores.weighout import queries
from kitchen.stores.weighout.actions import (
    Tapped,
    check_weight,
    go_on,
    initial,
    keep_rule,
    put_lid,
    read_bulk,
    take_back,
    tick_clean,
    weigh,
)
from kitchen.stores.weighout.checks import WeighOutRule
from kitchen.stores.weighout.managers import set_aside, weighed_from
from kitchen.stores.weighout.models import AllTheSame, Cleaned, Lid, SecondCheck, WeighedFrom
from kitchen.stores.weighout.old_trays.actions import take_apart
from tests.builders.book import TERM, a_person
from tests.builders.stores import a_lot, college_lots, kits_made, quiche_stage
from tests.builders.weighout import all_weighed, stop_at, weighed_at, weights_of, whole_kits_lidded

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


@pytest.fixture
def stage():
    """Two ordinary benches and one without egg; the stores are full."""
    made = quiche_stage(benches=("R01", "R01", "V2"), ahead=())
    college_lots()
    return made


@pytest.fixture
def kit_set(stage):
    return kits_made(stage)


def refused(code, do, **said):
    with pytest.raises(RuleBroken) as caught:
        do(**said)
    assert caught.value.code == code
    return caught.value.message


def the_free_kit(kit_set):
    return next(stop for stop in queries.weigh_out(kit_set).order if stop.is_kit)


def weigh_flour(kit_set, by):
    return weighed_at(kit_set, "soft_wheat_flour", by)


def test_a_clean_start_is_ticked_once_a_day_with_who(stage, kit_set):
    for _ in range(2):
        tick_clean(kit_set=kit_set, thing="scale", by=stage.stores)
    assert Cleaned.objects.get().by == stage.stores
    assert set(queries.cleaned_today(kit_set)) == {"scale"}


def test_flour_stays_shut_until_the_free_from_kit_has_its_lid(stage, kit_set):
    words = refused("lids_first", weigh_flour, kit_set=kit_set, by=stage.stores)
    assert "one free-from kit is not lidded yet" in words and not Weighing.objects.exists()
    whole_kits_lidded(kit_set, stage.stores)
    assert not weigh_flour(kit_set, stage.stores).waiting


def test_what_holds_nothing_of_it_may_be_weighed_before(stage, kit_set):
    assert not weighed_at(kit_set, "fine_salt", stage.stores).waiting


def test_somebody_goes_on_with_a_reason_that_is_kept(stage, kit_set):
    row = go_on(kit_set=kit_set, reason="No free-from kit is near.", by=stage.stores)
    assert row == go_on(kit_set=kit_set, reason="No free-from kit is near.", by=stage.stores)
    assert row.standing == [the_free_kit(kit_set).code]
    assert not weigh_flour(kit_set, stage.stores).waiting
    assert "No free-from kit is near." in queries.weigh_out(kit_set).went_on


def test_a_lid_that_comes_off_again_shuts_the_flour_again(stage, kit_set):
    whole_kits_lidded(kit_set, stage.stores)
    kit = the_free_kit(kit_set).code
    put_lid(kit_set=kit_set, kit=kit, is_on=False, by=stage.stores)
    refused("lids_first", weigh_flour, kit_set=kit_set, by=stage.stores)
    assert [row.is_on for row in Lid.objects.order_by("number")] == [True, False]


def test_the_lid_waits_for_every_weight_and_goes_on_once(stage, kit_set):
    kit = the_free_kit(kit_set)
    words = refused("not_all_weighed", put_lid, kit_set=kit_set, kit=kit.code, is_on=True, by=stage.stores)
    assert "not weighed yet" in words
    whole_kits_lidded(kit_set, stage.stores)
    assert put_lid(kit_set=kit_set, kit=kit.code, is_on=True, by=stage.stores) is None


def test_what_the_book_lacks_keeps_no_lid_off(stage, kit_set):
    kit = the_free_kit(kit_set)
    food = kit.items[0].food
    for lot in Lot.objects.filter(food__code=food):
        hold_lot(lot=lot, why="It smells.", by=stage.stores)
    rest = [(item.kit, item.food) for item in kit.items if item.food != food]
    weigh(kit_set=kit_set, weights=rest[1:], by=stage.stores)
    assert not the_free_kit(kit_set).wants_lid
    refused("not_all_weighed", put_lid, kit_set=kit_set, kit=kit.code, is_on=True, by=stage.stores)
    weigh(kit_set=kit_set, weights=rest[:1], by=stage.stores)
    assert the_free_kit(kit_set).wants_lid
    assert put_lid(kit_set=kit_set, kit=kit.code, is_on=True, by=stage.stores).is_on


def test_a_weight_under_a_lid_is_taken_back_only_when_the_lid_is_off(stage, kit_set):
    whole_kits_lidded(kit_set, stage.stores)
    item = the_free_kit(kit_set).items[0]
    said = {"kit_set": kit_set, "kit": item.kit, "food": item.food, "by": stage.stores}
    refused("lid_is_on", take_back, **said)
    put_lid(kit_set=kit_set, kit=item.kit, is_on=False, by=stage.stores)
    assert take_back(**said) >= 1


def test_a_line_is_weighed_once_and_who_was_first_is_said(stage, kit_set):
    weight = weights_of([stop_at(kit_set, "fine_salt")])[:1]
    assert weigh(kit_set=kit_set, weights=weight, by=stage.stores).weighed == 2
    second = weigh(kit_set=kit_set, weights=weight, by=stage.lecturer)
    assert second.weighed == 0 and second.before.endswith(", H")
    assert Weighing.objects.count() == 2


def test_the_same_tap_sent_twice_is_one(stage, kit_set):
    weight, key = weights_of([stop_at(kit_set, "nutmeg")])[:1], uuid4()
    told = [weigh(kit_set=kit_set, weights=weight, by=stage.stores, key=key) for _ in range(2)]
    assert told == [Tapped(1), Tapped(1)] and Weighing.objects.count() == 1


def test_a_weight_taken_back_can_be_weighed_again_and_all_stays_written(stage, kit_set):
    kit, food = weights_of([stop_at(kit_set, "nutmeg")])[0]
    for _ in range(2):
        weigh(kit_set=kit_set, weights=[(kit, food)], by=stage.stores)
        take_back(kit_set=kit_set, kit=kit, food=food, by=stage.stores)
    rows = Weighing.objects.order_by("number")
    assert [row.undone for row in rows] == [False, True, False, True]


def test_the_tap_is_never_weighed(stage, kit_set):
    line = KitLine.objects.filter(food__code="water").select_related("kit").first()
    assert weigh(kit_set=kit_set, weights=[(line.kit.code, "water")], by=stage.stores) == Tapped(0)


def test_a_weight_says_its_lots_and_nothing_leaves_them(stage, kit_set):
    weighed_at(kit_set, "fine_salt", stage.stores)
    rows = WeighedFrom.objects.filter(weighing__kit_line__food__code="fine_salt")
    assert sum(row.milligrams for row in rows) == sum(
        line.stock_milligrams
        for line in KitLine.objects.filter(food__code="fine_salt", kit__version__recipe__code="R01")
    )
    assert not Movement.objects.exclude(kind="receive").exists()


def test_what_was_weighed_leaves_from_its_own_lot_although_an_earlier_date_came_in(stage, kit_set):
    all_weighed(kit_set, stage.stores)
    before = weighed_from(kit_set)
    a_lot("fine_salt", "EARLY-1", 5000, date_kind="best_before", dated_on=stage.lesson.on)
    issue_kits(lesson=stage.lesson, by=stage.stores)
    left = {(row.kit_line_id, row.lot.code, -row.milligrams) for row in Movement.objects.filter(kind="issue")}
    assert left == {(line, lot, grams) for line, taken in before.items() for lot, grams in taken}


def test_a_weight_out_of_a_lot_that_is_held_since_is_named(stage, kit_set):
    weighed_at(kit_set, "fine_salt", stage.stores, count=1)
    lot = WeighedFrom.objects.first().lot
    hold_lot(lot=lot, why="It smells.", by=stage.stores)
    words = queries.weigh_out(kit_set).spoiled
    assert words and f"Lot {lot.code} is held. Take it back and weigh it again." in words[0]


def test_food_of_a_lot_that_is_held_since_leaves_with_no_reason_until_it_is_weighed_again(stage, kit_set):
    all_weighed(kit_set, stage.stores)
    lot = WeighedFrom.objects.filter(lot__food__code="fine_salt").first().lot
    a_lot("fine_salt", "OTHER-1", 5000)
    hold_lot(lot=lot, why="It smells.", by=stage.stores)
    free = lot.on_hand_milligrams - set_aside([lot.pk])[lot.pk]
    waste_from_lot(lot=lot, milligrams=free, reason="Dropped", by=stage.stores)
    said = {"lesson": stage.lesson, "by": stage.stores, "unchecked_why": "No time."}
    words = refused("lot_may_not_leave", issue_kits, **said)
    assert f"Lot {lot.code} is held" in words and not Movement.objects.filter(kind="issue").exists()
    for stop in [each for each in queries.weigh_out(kit_set).order if each.is_kit]:
        put_lid(kit_set=kit_set, kit=stop.code, is_on=False, by=stage.stores)
    for kit, food in {
        (line.kit.code, "fine_salt") for line in KitLine.objects.filter(food__code="fine_salt")
    }:
        take_back(kit_set=kit_set, kit=kit, food=food, by=stage.stores)
    all_weighed(kit_set, stage.stores)
    assert issue_kits(**said) > 0
    assert not Movement.objects.filter(kind="issue", lot=lot).exists()


def test_what_stands_weighed_for_one_lesson_is_not_offered_to_another(stage, kit_set):
    weighed_at(kit_set, "fine_salt", stage.stores)
    lot = WeighedFrom.objects.first().lot
    mine = {each.code: each for each in stores_queries.lots_data(["fine_salt"], stage.lesson)}
    others = {each.code: each for each in stores_queries.lots_data(["fine_salt"])}
    assert mine[lot.code].aside_milligrams == 0
    assert others[lot.code].aside_milligrams == sum(row.milligrams for row in WeighedFrom.objects.all())


def test_a_free_from_kit_is_not_offered_a_lot_that_is_open(stage, kit_set):
    Lot.objects.filter(food__code="fine_salt").update(opened_on=stage.lesson.on)
    item = next(item for item in the_free_kit(kit_set).items if item.food == "fine_salt")
    assert item.lots == "" and item.short.startswith("short of")
    assert not any(each.short for each in stop_at(kit_set, "fine_salt").items)


def test_initials_are_of_somebody_else_than_who_weighed(stage, kit_set):
    weights = weights_of([weighed_at(kit_set, "fine_salt", stage.stores)])
    said = {"kit_set": kit_set, "weights": weights, "by": stage.stores}
    assert "Somebody else looks" in refused("second_is_first", initial, second=stage.stores, **said)
    assert initial(second=stage.lecturer, **said) == len(weights)
    assert initial(second=stage.lecturer, **said) == 0
    assert not stop_at(kit_set, "fine_salt").unchecked


def test_a_weight_that_is_taken_back_takes_its_second_look_with_it(stage, kit_set):
    kit, food = weights_of([weighed_at(kit_set, "fine_salt", stage.stores)])[0]
    initial(kit_set=kit_set, weights=[(kit, food)], second=stage.lecturer, by=stage.stores)
    take_back(kit_set=kit_set, kit=kit, food=food, by=stage.stores)
    weigh(kit_set=kit_set, weights=[(kit, food)], by=stage.stores)
    assert stop_at(kit_set, food).items[0].check_open


def test_a_check_weight_passes_or_stays_open_with_both_figures(stage, kit_set):
    keep_rule(rule=WeighOutRule("check_weight"), by=stage.stores)
    item = weighed_at(kit_set, "fine_salt", stage.stores).items[0]
    said = {"kit_set": kit_set, "kit": item.kit, "food": item.food, "by": stage.stores}
    assert check_weight(milligrams=item.milligrams * 2, **said).passed is False
    failed = stop_at(kit_set, "fine_salt").items[0]
    assert failed.check_open and "instead of 7 g: weigh it again" in failed.looked.failed
    assert check_weight(milligrams=item.milligrams, **said).passed is True
    assert not stop_at(kit_set, "fine_salt").items[0].check_open
    take_back(kit_set=kit_set, kit=item.kit, food=item.food, by=stage.stores)
    refused("not_weighed", check_weight, milligrams=7000, **said)
    assert SecondCheck.objects.count() == 2


def stop_with_pieces(kit_set):
    """The code of the first food that is counted and not weighed."""
    order = queries.weigh_out(kit_set).order
    return next(stop.code for stop in order if not stop.is_kit and stop.items[0].unit_milligrams)


def test_of_counted_food_not_one_piece_may_be_missing(stage, kit_set):
    keep_rule(rule=WeighOutRule("check_weight", check_per_mille=500), by=stage.stores)
    whole_kits_lidded(kit_set, stage.stores)
    food = stop_with_pieces(kit_set)
    item = next(each for each in weighed_at(kit_set, food, stage.stores).items if each.unit_milligrams)
    said = {"kit_set": kit_set, "kit": item.kit, "food": item.food, "by": stage.stores}
    count = item.milligrams // item.unit_milligrams
    assert check_weight(milligrams=(count - 1) * item.unit_milligrams, **said).passed is False
    assert check_weight(milligrams=count * item.unit_milligrams, **said).passed is True


def test_sampled_kits_are_drawn_from_the_set_and_stay_the_same(stage, kit_set):
    keep_rule(rule=WeighOutRule("sampled", every=2), by=stage.stores)
    first = {item.kit for item in weighed_at(kit_set, "fine_salt", stage.stores).unchecked}
    assert 0 < len(first) < len(stop_at(kit_set, "fine_salt").items)
    assert first == {item.kit for item in stop_at(kit_set, "fine_salt").unchecked}


def test_kits_with_an_open_check_leave_only_with_a_reason_that_is_kept(stage, kit_set):
    whole_kits_lidded(kit_set, stage.stores)
    weighed_at(kit_set, "fine_salt", stage.stores)
    words = refused("check_open", issue_kits, lesson=stage.lesson, by=stage.stores)
    assert "Fine salt" in words and not Movement.objects.filter(kind="issue").exists()
    issue_kits(lesson=stage.lesson, by=stage.stores, unchecked_why="The second person is ill.")
    row = AllTheSame.objects.get(what="open_checks")
    assert row.reason == "The second person is ill." and row.standing
    assert Movement.objects.filter(kind="issue").exists()


def test_kits_that_were_never_weighed_here_leave_as_they_always_did(stage, kit_set):
    assert issue_kits(lesson=stage.lesson, by=stage.stores) > 0


def test_kits_that_are_looked_at_and_lidded_leave_and_are_not_weighed_again(stage, kit_set):
    all_weighed(kit_set, stage.stores)
    assert queries.what_is_open(kit_set) == queries.StillOpen()
    assert issue_kits(lesson=stage.lesson, by=stage.stores) > 0
    kit, food = weights_of([stop_at(kit_set, "nutmeg")])[0]
    said = {"kit_set": kit_set, "by": stage.stores}
    refused("kit_has_left", take_back, kit=kit, food=food, **said)
    refused("kit_has_left", weigh, weights=[(kit, food)], **said)


def test_nobody_looks_a_second_time_at_what_has_left(stage, kit_set):
    whole_kits_lidded(kit_set, stage.stores)
    kit, food = weights_of([weighed_at(kit_set, "fine_salt", stage.stores)])[0]
    issue_kits(lesson=stage.lesson, by=stage.stores, unchecked_why="The second person is ill.")
    said = {"kit_set": kit_set, "by": stage.stores}
    refused("kit_has_left", initial, weights=[(kit, food)], second=stage.lecturer, **said)
    refused("kit_has_left", check_weight, kit=kit, food=food, milligrams=7000, **said)
    assert not SecondCheck.objects.exists()


def test_a_pack_is_noted_beside_what_must_be_left_in_it(stage, kit_set):
    weighed_at(kit_set, "fine_salt", stage.stores)
    lot = WeighedFrom.objects.first().lot
    taken = sum(row.milligrams for row in WeighedFrom.objects.filter(lot=lot))
    row = read_bulk(kit_set=kit_set, lot=lot, milligrams=100_000, by=stage.stores)
    assert row.expected_milligrams == lot.on_hand_milligrams - taken
    page = queries.weigh_out(kit_set)
    tally = queries.tally_of(kit_set, page.stop("fine_salt"), page.trays)
    assert "less" in tally.off[0] and tally.tally.weighed == taken


def test_nothing_is_weighed_for_a_cancelled_lesson_or_for_kits_made_again(stage, kit_set):
    weights = weights_of([stop_at(kit_set, "fine_salt")])
    kits_made(stage)
    refused("kits_made_again", weigh, kit_set=kit_set, weights=weights, by=stage.stores)
    cancel_lesson(lesson=stage.lesson, why="Burst pipe", by=stage.lecturer)
    refused("lesson_cancelled", weigh, kit_set=kit_set, weights=weights, by=stage.stores)


def test_a_second_person_can_be_the_technician_too(stage, kit_set):
    weights = weights_of([weighed_at(kit_set, "fine_salt", stage.stores)])
    second = a_person("desmond", "technician")
    assert second in queries.second_people(stage.stores)
    assert queries.second_people(stage.stores)[-1] == stage.stores
    assert initial(kit_set=kit_set, weights=weights, second=second, by=second) == len(weights)


BLEND = "gluten_free_flour_blend"


class TestTwoFreeFromKits:
    """One without egg, whose paste takes wheat flour, and one without gluten."""

    @pytest.fixture
    def stage(self):
        made = quiche_stage(benches=("V2", "V1"), ahead=())
        college_lots()
        Food.objects.filter(label_read_on=None).update(label_read_on=TERM)
        Lot.objects.filter(label_read_on=None).update(label_read_on=TERM)
        return made

    def kit(self, kit_set, bench):
        return Kit.objects.get(kit_set=kit_set, place__bench__number=bench)

    def test_the_flour_of_one_waits_for_the_lid_of_the_other(self, stage, kit_set):
        weight = [(self.kit(kit_set, 1).code, "soft_wheat_flour")]
        refused("lids_first", weigh, kit_set=kit_set, weights=weight, by=stage.stores)
        butter = [(self.kit(kit_set, 1).code, "unsalted_butter")]
        assert weigh(kit_set=kit_set, weights=butter, by=stage.stores).weighed == 2

    def test_nothing_is_weighed_into_a_kit_under_its_lid(self, stage, kit_set):
        code = self.kit(kit_set, 2).code
        lot = Lot.objects.get(food__code=BLEND)
        waste_from_lot(lot=lot, milligrams=lot.on_hand_milligrams, reason="Torn.", by=stage.stores)
        stop = next(each for each in queries.weigh_out(kit_set).order if each.code == code)
        first = [(item.kit, item.food) for item in stop.items if item.food != BLEND]
        weigh(kit_set=kit_set, weights=first, by=stage.stores)
        put_lid(kit_set=kit_set, kit=code, is_on=True, by=stage.stores)
        a_lot(BLEND, "GF-9", 1000)
        words = refused("lid_is_on", weigh, kit_set=kit_set, weights=[(code, BLEND)], by=stage.stores)
        assert "Take it off" in words
        put_lid(kit_set=kit_set, kit=code, is_on=False, by=stage.stores)
        assert weigh(kit_set=kit_set, weights=[(code, BLEND)], by=stage.stores).weighed

    def test_what_stands_on_a_kit_that_a_label_stops_is_taken_back_or_apart(self, stage, kit_set):
        kit = self.kit(kit_set, 2)
        weigh(kit_set=kit_set, weights=[(kit.code, "unsalted_butter")], by=stage.stores)
        weigh(kit_set=kit_set, weights=[(kit.code, "fine_salt")], by=stage.stores)
        read = LabelRead(contains=("wheat",), may_contain=())
        read_label(food=Food.objects.get(code=BLEND), read=read, on=TERM, by=stage.stores)
        cheese = {"kit_set": kit_set, "weights": [(kit.code, "mature_cheddar")], "by": stage.stores}
        refused("kit_blocked", weigh, **cheese)
        assert take_back(kit_set=kit_set, kit=kit.code, food="fine_salt", by=stage.stores)
        kits_made(stage)
        assert take_apart(kit=kit, by=stage.stores)
        assert not set_aside(Lot.objects.filter(food__code="unsalted_butter").values_list("pk", flat=True))
