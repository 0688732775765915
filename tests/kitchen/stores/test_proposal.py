"""The same question has the same answer; what is short is named, and what it came from is kept."""

from dataclasses import replace

from kitchen.stores.proposal import (
    BenchAsked,
    Question,
    batches_of,
    hash_of,
    inputs_of,
    prepare,
    shortages_of,
)
from kitchen.stores.tools.lending import Loan
from kitchen.stores.tools.standing import Standing
from kitchen.timeplan.demonstration_kept import for_stores
from tests.builders.kits import QUICHE_DAY, college_lots
from tests.builders.recipes import college_recipe
from tests.kitchen.timeplan.test_demonstration import the_quiche

RECIPES = {1: college_recipe("R01"), 2: college_recipe("V1")}
QUESTION = Question(
    lesson="LESSQN22",
    use_on=QUICHE_DAY,
    portions=8,
    version=1,
    recipes=RECIPES,
    benches=(BenchAsked(11, "1", 1, 1, ("Wren",)), BenchAsked(12, "2", 2, 2, ("Otto",))),
    demonstration_batches=1,
    spare_batches=2,
    ahead_steps=(1, 2),
    lots=tuple(college_lots()),
)


def test_benches_come_in_order_then_demonstration_and_spare():
    labels = [(kit.kind, kit.label) for kit in prepare(QUESTION).kits]
    assert labels[:5] == [
        ("bench", "1"),
        ("bench", "2"),
        ("demonstration", "D"),
        ("spare", "S1"),
        ("spare", "S2"),
    ]


TINS = Standing("flan_tin_fluted_24", 9, 6, (Loan(2, "Saffron Kitchen", 1),), (Loan(3, "Copper Room", 1),))


def test_equipment_that_is_lent_is_no_more_short():
    lent = Standing("whisk", 9, 6, (Loan(2, "Saffron Kitchen", 3),))
    assert prepare(replace(QUESTION, equipment=(TINS, lent))).equipment == (TINS,)


def test_shortages_are_plain_words_and_figures():
    few = [replace(lot, on_hand_milligrams=100_000) for lot in QUESTION.lots if lot.food == "leek"]
    proposal = prepare(replace(QUESTION, lots=tuple(few), equipment=(TINS,)))
    found = {each["code"]: each for each in shortages_of(proposal, {"leek": "Leek"})}
    assert found["leek"]["name"] == "Leek"
    assert found["leek"]["short_milligrams"] == 5 * 400_000 - 100_000
    assert found["flan_tin_fluted_24"] == {
        "what": "equipment",
        "code": "flan_tin_fluted_24",
        "name": "flan tin fluted 24",
        "short": 2,
        "needed": 9,
        "there": 7,
        "elsewhere": 1,
    }


def test_another_place_or_portion_is_another_question_and_stock_or_a_label_is_not():
    same = hash_of(inputs_of(QUESTION))
    relabelled = replace(
        RECIPES[1], foods=tuple(replace(food, label_read_on=QUICHE_DAY) for food in RECIPES[1].foods)
    )
    for change in ({"lots": ()}, {"recipes": {**RECIPES, 1: relabelled}}, {"plates": (1, 0, 1)}):
        assert hash_of(inputs_of(replace(QUESTION, **change))) == same
    for change in (
        {"portions": 10},
        {"benches": QUESTION.benches[:1]},
        {"ahead_steps": ()},
    ):
        assert hash_of(inputs_of(replace(QUESTION, **change))) != same


SHOWN = replace(QUESTION, shown=for_stores(the_quiche()))


def test_an_accepted_demonstration_takes_the_place_of_the_batches_that_were_booked():
    kits = [(kit.kind, kit.label) for kit in prepare(SHOWN).kits]
    assert kits[2:8] == [
        ("demonstration", "D"),
        ("stage_tray", "T1"),
        ("stage_tray", "T2"),
        ("stage_tray", "T3"),
        ("spare", "S1"),
        ("spare", "S2"),
    ]
    assert batches_of(SHOWN) == batches_of(replace(SHOWN, demonstration_batches=9))


def test_each_tray_holds_its_components_and_what_is_prepared_ahead_lies_with_the_benches():
    kits = {kit.label: kit for kit in prepare(SHOWN).kits}
    assert {line.component for line in kits["D"].lines} == {"Seal", "dusting"}
    assert "Savoury custard" in {line.component for line in kits["T3"].lines}
    assert "Shortcrust paste" not in {line.component for line in kits["T3"].lines}
    ahead = next(kit for kit in kits.values() if kit.kind == "ahead" and kit.recipe == "R01")
    assert (ahead.batches, ahead.title.endswith("3 of 6 batches for stage trays")) == (6, True)


def grams(question):
    return {need.food: need.milligrams // 1000 for need in prepare(question).needs}


def test_trays_reach_the_needs_of_the_class_by_component():
    """Three pastes, one filling, one custard, two seals; one of each was booked."""
    assert grams(SHOWN)["unsalted_butter"] == grams(QUESTION)["unsalted_butter"] + 2 * 130
    assert grams(SHOWN)["leek"] == grams(QUESTION)["leek"]


def test_a_tray_that_was_forgotten_would_be_seen():
    """Planted: the shell's tray is left out."""
    robbed = replace(SHOWN, shown=replace(SHOWN.shown, trays=(SHOWN.shown.trays[0], SHOWN.shown.trays[2])))
    assert grams(robbed)["unsalted_butter"] == grams(SHOWN)["unsalted_butter"] - 130
    assert hash_of(inputs_of(robbed)) != hash_of(inputs_of(SHOWN))


def test_another_demonstration_makes_kits_stale_and_none_at_all_keeps_old_ones_as_they_were():
    assert "shown" not in inputs_of(QUESTION)
    assert hash_of(inputs_of(SHOWN)) != hash_of(inputs_of(QUESTION))
    assert hash_of(inputs_of(SHOWN)) == hash_of(inputs_of(replace(SHOWN, demonstration_batches=4)))


def test_a_lesson_that_is_only_shown_has_trays_and_no_bench():
    only = replace(SHOWN, benches=(), spare_batches=0, demonstration_batches=0)
    assert only.asks_for_something and only.demonstrates
    assert {kit.kind for kit in prepare(only).kits} == {"demonstration", "stage_tray", "ahead"}
    assert not replace(only, shown=None).asks_for_something
