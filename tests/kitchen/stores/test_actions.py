"""Kits are accepted once, weighed by tap, and issued lot by lot; a refusal changes nothing."""

from uuid import uuid4

import pytest
from django.db import transaction

from curriculum.errors import RuleBroken
from curriculum.foods.models import Food
from curriculum.foods.one.actions import write_label
from curriculum.foods.one.said import LabelSaid
from kitchen.lessons.actions import place_learners
from kitchen.lessons.models import Dish, Lesson, Place
from kitchen.lessons.places import Placed
from kitchen.lessons.queries import places_of
from kitchen.stores import queries
from kitchen.stores.actions import accept_kits, issue_kits
from kitchen.stores.entries import LabelRead
from kitchen.stores.ledgers import Move, lots_locked, move
from kitchen.stores.lots.actions import read_label, return_to_lot
from kitchen.stores.lots.labels.actions import read_lot_label
from kitchen.stores.models import Kit, KitLine, KitSet, Lot, Movement
from tests.builders.stores import QUICHE_DAY, a_lesson_of, a_lot, college_lots, kits_made, quiche_stage

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]

FREE_FROM_WHEAT = LabelRead(contains=(), may_contain=("lupin",))


def read_the_flour(stage, read=FREE_FROM_WHEAT):
    food = Food.objects.get(code="gluten_free_flour_blend")
    for lot in food.lots.filter(label_read_on=None):
        read_lot_label(lot=lot, read=read, on=QUICHE_DAY, by=stage.stores)
    return read_label(food=food, read=read, on=QUICHE_DAY, by=stage.stores)


def ready_stage():
    """A lesson with kits accepted, stores full and every label read."""
    stage = quiche_stage()
    college_lots()
    read_the_flour(stage)
    kits_made(stage)
    return stage


def ledger_faults():
    """Lots whose copy of the end differs from their ledger."""
    return [
        lot.code
        for lot in Lot.objects.all()
        if (lot.on_hand_milligrams, lot.moves)
        != (sum(each.milligrams for each in lot.movements.all()), lot.movements.count())
    ]


def placed_without(stage, bench):
    """The same class with nobody at one of its benches, said by its lecturer."""
    places = []
    for place in places_of(stage.lesson):
        cooks = tuple(place.learners.values_list("student", flat=True))
        if place.bench.number != bench:
            places.append(Placed(place.bench.number, place.version.recipe.code, cooks))
    return place_learners(lesson=stage.lesson, places=places, by=stage.lesson.lecturer)


def test_a_bench_is_taken_away_after_its_kit_was_made_and_the_next_kits_leave_it_out():
    """Two are absent at 08:50: the kit made for them stays written, and no kit is made again for nobody."""
    stage = quiche_stage()
    made = kits_made(stage)
    gone = Kit.objects.get(kit_set=made, place__bench__number=5)
    assert len(placed_without(stage, 5)) == 6
    assert queries.kits_page(stage.lesson).changed == ("Bench 5 is not worked any more.",)
    again = accept_kits(lesson=stage.lesson, by=stage.stores)
    benches = again.kits.filter(kind="bench").values_list("place__bench__number", flat=True)
    assert sorted(benches) == [1, 2, 3, 4, 6, 7]
    gone.refresh_from_db()
    assert gone.place.code == Place.objects.get(shift__lesson=stage.lesson, bench__number=5).code
    assert not gone.place.learners.exists()


def test_accepted_kits_keep_what_they_were_reckoned_from():
    stage = quiche_stage()
    kit_set = kits_made(stage)
    assert [kit.kind for kit in kit_set.kits.all()] == ["bench"] * 7 + ["demonstration", "spare"] + [
        "ahead"
    ] * 3
    assert kit_set.inputs["shape"] == 1 and kit_set.inputs["ahead_steps"] == [1, 2]
    assert len(kit_set.inputs_hash) == 64
    butter = KitLine.objects.filter(kit__kit_set=kit_set, food__code="unsalted_butter")
    assert sum(line.milligrams for line in butter) == 1_440_000


def test_a_form_sent_twice_makes_one_kit_set():
    stage, key = quiche_stage(), uuid4()
    first = accept_kits(lesson=stage.lesson, by=stage.stores, key=key)
    assert accept_kits(lesson=stage.lesson, by=stage.stores, key=key) == first
    assert KitSet.objects.count() == 1


def test_kits_made_again_supersede_the_ones_before():
    stage = quiche_stage()
    first, second = kits_made(stage), kits_made(stage)
    first.refresh_from_db()
    assert (first.state, second.state, second.number) == ("superseded", "accepted", 2)


def test_a_lesson_without_a_dish_or_a_bench_has_no_kits_and_says_what_to_do():
    stage = quiche_stage(benches=())
    stage.lesson.demonstration_batches = 0
    with pytest.raises(RuleBroken) as refused:
        accept_kits(lesson=stage.lesson, by=stage.stores)
    assert refused.value.code == "nobody_placed"
    Dish.objects.all().delete()
    with pytest.raises(RuleBroken) as refused:
        accept_kits(lesson=stage.lesson, by=stage.stores)
    assert refused.value.code == "no_dish" and not KitSet.objects.exists()


def test_shortages_of_food_and_equipment_are_named_before_anything_is_issued():
    stage = quiche_stage(benches=("R01",) * 2)
    stage.lesson.room.equipment.filter(item="flan_tin_fluted_24").update(count=2)
    short = {each["code"]: each for each in kits_made(stage).shortages}
    assert short["flan_tin_fluted_24"]["short"] == 1
    assert short["unsalted_butter"]["short_milligrams"] == 4 * 160_000


def test_issuing_draws_the_butter_that_ends_today_and_then_the_next_lot():
    stage = ready_stage()
    issue_kits(lesson=stage.lesson, by=stage.stores)
    gone = {
        code: -sum(each.milligrams for each in Movement.objects.filter(lot__code=code, kind="issue"))
        for code in ("LS-2207", "LS-2219")
    }
    assert gone == {"LS-2207": 1_000_000, "LS-2219": 440_000}
    assert ledger_faults() == []
    assert KitSet.objects.get().issued_at is not None


def test_every_line_knows_the_lots_it_came_from_and_gets_what_was_printed():
    stage = ready_stage()
    issue_kits(lesson=stage.lesson, by=stage.stores)
    for line in KitLine.objects.prefetch_related("movements"):
        assert -sum(each.milligrams for each in line.movements.all()) == line.stock_milligrams


def test_the_same_button_pressed_twice_issues_once():
    stage, key = ready_stage(), uuid4()
    first = issue_kits(lesson=stage.lesson, by=stage.stores, key=key)
    assert issue_kits(lesson=stage.lesson, by=stage.stores, key=key) == first
    assert Movement.objects.filter(kind="issue").count() == first
    with pytest.raises(RuleBroken) as refused:
        issue_kits(lesson=stage.lesson, by=stage.stores, key=uuid4())
    assert refused.value.code == "already_issued"


def test_a_blocked_kit_stays_until_its_label_is_read_and_the_others_leave():
    stage = quiche_stage()
    college_lots()
    kit_set = kits_made(stage)
    issue_kits(lesson=stage.lesson, by=stage.stores)
    kit_set.refresh_from_db()
    waiting = set(kit_set.kits.exclude(blocked_why="").values_list("version__recipe__code", flat=True))
    assert waiting == {"V1"} and kit_set.issued_at is None
    with pytest.raises(RuleBroken) as refused:
        issue_kits(lesson=stage.lesson, by=stage.stores)
    assert refused.value.code == "label_not_read"
    read_the_flour(stage)
    assert issue_kits(lesson=stage.lesson, by=stage.stores) > 0
    kit_set.refresh_from_db()
    assert kit_set.issued_at is not None and ledger_faults() == []


def test_a_label_that_says_wheat_stops_the_kit_that_is_free_from_gluten():
    stage = quiche_stage()
    kits_made(stage)
    read_the_flour(stage, LabelRead(contains=("wheat",)))
    why = Kit.objects.filter(version__recipe__code="V1").first().blocked_why
    assert "says that it contains wheat; this kit is free from cereals containing gluten" in why
    line = KitLine.objects.filter(food__code="gluten_free_flour_blend").first()
    assert (line.allergens_words, line.label_read_on) == ("gluten (wheat)", QUICHE_DAY)


def test_a_shortage_is_refused_by_name_until_somebody_accepts_it():
    versions = quiche_stage().versions
    stage = a_lesson_of(versions, "R03", ("R03",) * 4 + ("V3",), portions=12)
    college_lots()
    kits_made(stage)
    with pytest.raises(RuleBroken) as refused:
        issue_kits(lesson=stage.lesson, by=stage.stores)
    assert refused.value.message.startswith("Short of 600 g White fondant icing paste.")
    assert "Lot QS-0871 is open already: a free-from kit takes an unopened" in refused.value.message
    assert not Movement.objects.filter(kind="issue").exists()
    issue_kits(lesson=stage.lesson, by=stage.stores, short_accepted=True)
    given = KitLine.objects.filter(food__code="white_fondant", movements__kind="issue").distinct()
    assert given.count() == 5
    assert "R03" not in {line.kit.version.recipe.code for line in given if line.kit.kind == "spare"}
    assert not given.filter(kit__version__recipe__code="V3").exists()  # the only pack is open


def test_a_lot_whose_label_nobody_has_read_does_not_leave():
    stage = ready_stage()
    Lot.objects.filter(code="MP-0633").update(label_read_on=None)
    with pytest.raises(RuleBroken) as refused:
        issue_kits(lesson=stage.lesson, by=stage.stores)
    assert "MP-0633 waits for its label" in refused.value.message
    assert not Movement.objects.filter(kind="issue").exists()


def test_a_lot_whose_own_label_names_more_than_the_food_was_last_read_with_stays():
    stage = ready_stage()
    Lot.objects.filter(food__code="mature_cheddar").update(label_allergens=["milk", "almond"])
    with pytest.raises(RuleBroken) as refused:
        issue_kits(lesson=stage.lesson, by=stage.stores)
    assert refused.value.code == "short" and "Mature Cheddar" in refused.value.message
    left_out = next(iter(refused.value.facts["shortages"])).left_out
    assert all("almond" in words and "Read the label again" in words for words in left_out) and left_out
    assert not Movement.objects.filter(kind="issue").exists()


def test_nothing_is_prepared_for_a_cancelled_lesson():
    stage = ready_stage()
    Lesson.objects.update(state=Lesson.State.CANCELLED)
    for act in (accept_kits, issue_kits):
        with pytest.raises(RuleBroken) as refused:
            act(lesson=stage.lesson, by=stage.stores)
        assert refused.value.code == "lesson_cancelled"
    assert KitSet.objects.count() == 1 and not Movement.objects.filter(kind="issue").exists()


def test_a_kit_does_not_leave_for_a_bench_that_works_another_recipe_by_now():
    stage = ready_stage()
    Place.objects.filter(bench__number=1).update(version=stage.versions["V1"])
    with pytest.raises(RuleBroken) as refused:
        issue_kits(lesson=stage.lesson, by=stage.stores)
    assert refused.value.code == "benches_changed" and refused.value.message.startswith("Bench 1 ")
    assert not Movement.objects.filter(kind="issue").exists()
    kits_made(stage)
    assert issue_kits(lesson=stage.lesson, by=stage.stores)


def test_kits_are_made_again_when_all_that_left_is_back():
    stage = ready_stage()
    issue_kits(lesson=stage.lesson, by=stage.stores)
    out = list(Movement.objects.filter(kind="issue").order_by("pk"))
    for issue in out[1:]:
        return_to_lot(issue=issue, milligrams=-issue.milligrams, sealed_and_cold=True, by=stage.stores)
    with pytest.raises(RuleBroken):
        kits_made(stage)
    return_to_lot(issue=out[0], milligrams=-out[0].milligrams, sealed_and_cold=True, by=stage.stores)
    assert kits_made(stage).number == 2


def test_kits_that_have_left_are_not_made_again():
    stage = ready_stage()
    issue_kits(lesson=stage.lesson, by=stage.stores)
    with pytest.raises(RuleBroken) as refused:
        kits_made(stage)
    assert refused.value.code == "already_issued"


def test_issuing_before_there_are_kits_says_so():
    stage = quiche_stage()
    with pytest.raises(RuleBroken) as refused:
        issue_kits(lesson=stage.lesson, by=stage.stores)
    assert refused.value.code == "no_kits"


def test_a_planted_movement_past_the_ledger_is_caught():
    lot = a_lot_of_salt()
    Lot.objects.filter(pk=lot.pk).update(on_hand_milligrams=1)
    assert ledger_faults() == [lot.code]


def a_lot_of_salt():
    quiche_stage()
    return a_lot("fine_salt", "S-1", grams=10)


def test_stock_never_falls_below_nothing():
    lot = a_lot_of_salt()
    too_much = Move(lot.pk, -20_000, Movement.Kind.WASTE, uuid4())
    with pytest.raises(RuleBroken) as refused:
        move(lots=lots_locked([lot.pk]), moves=[too_much], by=lot.label_read_by)
    assert "has 10 g and 20 g were to leave it" in refused.value.message
    assert lot.movements.count() == 1


def test_what_a_line_was_short_of_leaves_once_more_is_taken_in_and_no_gram_twice():
    stage = ready_stage()
    butter = Lot.objects.get(code="LS-2219")
    out = Move(butter.pk, 300_000 - butter.on_hand_milligrams, "waste", uuid4(), reason="spoilt")
    with transaction.atomic():
        move(lots=lots_locked([butter.pk]), moves=[out], by=stage.stores)
    issue_kits(lesson=stage.lesson, by=stage.stores, short_accepted=True)
    assert _butter_out() == 1_300_000
    assert queries.kits_page(stage.lesson).shortages
    a_lot("unsalted_butter", "NEW-9", 5000, contains=("milk",))
    assert not queries.kits_page(stage.lesson).issued
    issue_kits(lesson=stage.lesson, by=stage.stores)
    assert _butter_out() == 1_440_000
    assert queries.kits_page(stage.lesson).issued and not ledger_faults()


def _butter_out():
    rows = Movement.objects.filter(kind="issue", kit_line__food__code="unsalted_butter")
    return -sum(row.milligrams for row in rows)


def test_a_label_written_on_the_page_of_its_food_stops_the_kits_that_have_not_left():
    stage = ready_stage()
    assert not Kit.objects.exclude(blocked_why="").exists()
    flour = Food.objects.get(code="gluten_free_flour_blend")
    said = LabelSaid(contains=("wheat",), may_contain=(), facts=(), read_on=QUICHE_DAY)
    write_label(food=flour, said=said, by=stage.stores, today=QUICHE_DAY)
    issue_kits(lesson=stage.lesson, by=stage.stores, short_accepted=True)
    stopped = Kit.objects.exclude(blocked_why="")
    assert set(stopped.values_list("version__recipe__code", flat=True)) == {"V1"}
    assert not Movement.objects.filter(kit_line__kit__in=stopped).exists()
    assert Movement.objects.filter(kit_line__kit__version__recipe__code="R01").exists()
