"""Weighed trays after a cancelled lesson or after kits were made again: apart, or kept as they stand."""

import pytest

from curriculum.errors import RuleBroken
from kitchen.lessons.actions import cancel_lesson
from kitchen.stores.models import Kit, Lot, Movement, Weighing
from kitchen.stores.weighout.managers import weighed_from
from kitchen.stores.weighout.old_trays.actions import keep_tray, take_apart
from kitchen.stores.weighout.old_trays.queries import old_trays, some_old
from kitchen.stores.weighout.queries import weigh_out
from tests.builders.stores import college_lots, kits_made, quiche_stage
from tests.builders.weighout import all_weighed, weighed_at, whole_kits_lidded

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


@pytest.fixture
def stage():
    made = quiche_stage(benches=("R01", "V2"), ahead=())
    college_lots()
    return made


@pytest.fixture
def weighed(stage):
    """All trays stand weighed, the one without egg with its lid on."""
    kit_set = kits_made(stage)
    all_weighed(kit_set, stage.stores)
    return kit_set


def kit_of(code):
    return Kit.objects.select_related("kit_set").get(code=code)


def test_a_cancelled_lesson_names_every_weighed_tray_and_where_its_food_goes(stage, weighed):
    assert not some_old(stage.lesson)
    lesson = cancel_lesson(lesson=stage.lesson, why="Burst pipe", by=stage.lecturer)
    found = old_trays(lesson)
    assert some_old(lesson) and [tray.label for tray in found.apart] == ["1", "2", "", ""]
    back = {(amount, food): where for amount, food, where in found.apart[0].back}
    assert "only if it never left the cold" in back["160 g", "Unsalted butter"]
    assert "whole." in back["5 pieces", "Hen egg in shell, medium"]
    assert any("the lid stayed on" in where for _, _, where in found.apart[1].back)
    assert not Movement.objects.exclude(kind="receive").exists()


def test_a_tray_taken_apart_stands_nowhere_any_more_and_its_lots_are_free_again(stage, weighed):
    lesson = cancel_lesson(lesson=stage.lesson, why="Burst pipe", by=stage.lecturer)
    for tray in old_trays(lesson).apart:
        assert take_apart(kit=kit_of(tray.kit), by=stage.stores) == len(tray.lines)
    assert old_trays(lesson).count == 0 and not some_old(lesson)
    assert weighed_from(weighed) == {}


def test_trays_of_kits_made_again_just_the_same_may_stay_with_their_lots(stage, weighed):
    new = kits_made(stage)
    found = old_trays(stage.lesson)
    assert len(found.kept) == 4 and found.apart == ()
    tray = found.kept[0]
    assert keep_tray(old=kit_of(tray.kit), new=kit_of(tray.same_as), by=stage.stores) == len(tray.lines)
    taken = weighed_from(new)
    assert len(taken) == len(tray.lines) and len(old_trays(stage.lesson).kept) == 3
    weights = {item.kit for stop in weigh_out(new).order for item in stop.weighed}
    assert weights == {tray.same_as}


def test_a_bench_that_works_another_amount_now_is_taken_apart(stage, weighed):
    stage.lesson.dishes.update(portions_a_bench=10)
    kits_made(stage)
    found = old_trays(stage.lesson)
    assert found.kept == () and len(found.apart) == 4


def test_what_is_weighed_of_half_a_tray_stays_with_its_lots_and_a_wrong_pair_is_refused(stage):
    old = kits_made(stage)
    weighed_at(old, "fine_salt", stage.stores)
    before = weighed_from(old)
    new = kits_made(stage)
    found = old_trays(stage.lesson)
    assert len(found.kept) == 3 and {tray.stays for tray in found.kept} == {frozenset({"fine_salt"})}
    first, second = found.kept[:2]
    with pytest.raises(RuleBroken) as refused:
        keep_tray(old=kit_of(first.kit), new=kit_of(second.same_as), by=stage.stores)
    assert refused.value.code == "not_the_same"
    for tray in found.kept:
        assert keep_tray(old=kit_of(tray.kit), new=kit_of(tray.same_as), by=stage.stores)
    assert sorted(weighed_from(new).values()) == sorted(before.values())
    assert weighed_from(old) == {} and old_trays(stage.lesson).count == 0


def test_food_on_an_old_tray_is_not_asked_to_be_counted_in_again(stage):
    old = kits_made(stage)
    weighed_at(old, "fine_salt", stage.stores)
    taken = sum(grams for lots in weighed_from(old).values() for _, grams in lots)
    Lot.objects.filter(food__code="fine_salt").update(on_hand_milligrams=taken)
    new = kits_made(stage)
    with pytest.raises(RuleBroken, match="trays of kits made before") as refused:
        weighed_at(new, "fine_salt", stage.stores)
    assert refused.value.code == "stands_on_old_trays" and weighed_from(new) == {}
    for tray in old_trays(stage.lesson).kept:
        keep_tray(old=kit_of(tray.kit), new=kit_of(tray.same_as), by=stage.stores)
    assert sum(grams for lots in weighed_from(new).values() for _, grams in lots) == taken


def test_of_a_tray_whose_other_amounts_changed_the_rest_comes_off(stage, weighed):
    new = kits_made(stage)
    tray = next(each for each in old_trays(stage.lesson).kept if each.label == "1")
    other = new.kits.get(code=tray.same_as).lines.filter(food__code="fine_salt").first()
    type(other).objects.filter(pk=other.pk).update(milligrams=other.milligrams + 1000)
    changed = next(each for each in old_trays(stage.lesson).kept if each.label == "1")
    assert "fine_salt" not in changed.stays and [what for _, what, _ in changed.back] == ["Fine salt"]
    keep_tray(old=kit_of(tray.kit), new=kit_of(tray.same_as), by=stage.stores)
    assert tray.kit not in {each.kit for each in old_trays(stage.lesson).apart}
    items = {
        item.food: item.done
        for stop in weigh_out(new).order
        for item in stop.items
        if item.kit == tray.same_as
    }
    assert not items["fine_salt"] and all(done for food, done in items.items() if food != "fine_salt")


def test_a_tray_of_an_ordinary_kit_never_stands_for_a_free_from_kit(stage, weighed):
    new = kits_made(stage)
    tray = next(each for each in old_trays(stage.lesson).kept if each.label == "1")
    free = new.kits.get(place__version__recipe__code="V2").version
    new.kits.filter(code=tray.same_as).update(version=free)
    assert tray.kit in {each.kit for each in old_trays(stage.lesson).apart}
    with pytest.raises(RuleBroken, match="not what the new kit asks for"):
        keep_tray(old=kit_of(tray.kit), new=kit_of(tray.same_as), by=stage.stores)


def test_a_lid_comes_off_with_the_tray(stage):
    kit_set = kits_made(stage)
    whole_kits_lidded(kit_set, stage.stores)
    kits_made(stage)
    tray = next(tray for tray in old_trays(stage.lesson).kept if tray.lidded)
    take_apart(kit=kit_of(tray.kit), by=stage.stores)
    assert [row.is_on for row in kit_of(tray.kit).lids.order_by("number")] == [True, False]


def test_a_tray_is_kept_once(stage, weighed):
    kits_made(stage)
    tray = old_trays(stage.lesson).kept[0]
    pair = {"old": kit_of(tray.kit), "new": kit_of(tray.same_as), "by": stage.stores}
    keep_tray(**pair)
    count = Weighing.objects.count()
    with pytest.raises(RuleBroken):
        keep_tray(**pair)
    assert Weighing.objects.count() == count
