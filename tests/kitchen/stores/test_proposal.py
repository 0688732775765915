"""The same question has the same answer; what is short is named, and what it came from is kept."""

from dataclasses import replace

from kitchen.stores.proposal import BenchAsked, Question, hash_of, inputs_of, prepare, shortages_of
from tests.builders.kits import QUICHE_DAY, college_lots
from tests.builders.recipes import college_recipe

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
    equipment={each.item: 50 for each in RECIPES[1].equipment},
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


def test_the_spare_needs_no_tin_and_the_demonstration_does():
    short = prepare(replace(QUESTION, equipment={})).equipment
    tins = next(need for need, _ in short if need.item == "flan_tin_fluted_24")
    assert tins.needed == 3


def test_shortages_are_plain_words_and_figures():
    few = [replace(lot, on_hand_milligrams=100_000) for lot in QUESTION.lots if lot.food == "leek"]
    proposal = prepare(replace(QUESTION, lots=tuple(few), equipment={}))
    found = {each["code"]: each for each in shortages_of(proposal, {"leek": "Leek"})}
    assert found["leek"]["name"] == "Leek"
    assert found["leek"]["short_milligrams"] == 5 * 400_000 - 100_000
    assert found["flan_tin_fluted_24"]["what"] == "equipment"


def test_another_place_or_portion_is_another_question_and_stock_or_a_label_is_not():
    same = hash_of(inputs_of(QUESTION))
    relabelled = replace(
        RECIPES[1], foods=tuple(replace(food, label_read_on=QUICHE_DAY) for food in RECIPES[1].foods)
    )
    for change in ({"lots": ()}, {"recipes": {**RECIPES, 1: relabelled}}):
        assert hash_of(inputs_of(replace(QUESTION, **change))) == same
    for change in (
        {"portions": 10},
        {"benches": QUESTION.benches[:1]},
        {"ahead_steps": ()},
    ):
        assert hash_of(inputs_of(replace(QUESTION, **change))) != same
