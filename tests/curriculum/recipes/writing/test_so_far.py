from dataclasses import replace

from curriculum.foods.costs import PackPrice
from curriculum.recipes.data import ComponentData, FinishedData, LineData
from curriculum.recipes.writing.so_far import so_far
from tests.builders.recipes import college_recipe

TART = college_recipe("R02")
FOOD = TART.components[0].lines[0].food
PASTE = ComponentData("A", "Paste", "portions", (LineData(1, FOOD, 404_000),))
CUSTARD = ComponentData(
    "B", "Custard", "portions", (LineData(1, FOOD, 446_000), LineData(2, FOOD, 10_000, enters_portion=False))
)
SMALL = replace(
    TART, components=(PASTE, CUSTARD), tins=(), finished=(), portions_stated=8, unit="wedge", not_served=()
)


def test_each_component_and_the_whole_are_weighed():
    sums = so_far(SMALL, {})
    assert sums.weights == (("Paste", "404 g"), ("Custard", "456 g"))
    assert sums.total == "860 g"


def test_what_is_put_in_for_one_portion_leaves_out_what_is_taken_out_again():
    assert ("Put in for one wedge", "106.3 g") in so_far(SMALL, {}).gives
    assert ("Put in for one wedge", "50.5 g") in so_far(replace(SMALL, not_served=("B",)), {}).gives


def test_portions_come_from_the_finished_weights_less_rejects():
    assert ("By finished weights", "none written") in so_far(SMALL, {}).gives
    weighed = replace(SMALL, finished=(FinishedData(("A", "B"), 760_000, 95_000),), reject_per_mille=100)
    assert ("By finished weights, less rejects", "7 wedges") in so_far(weighed, {}).gives


def test_the_cost_so_far_is_of_what_is_used_and_names_what_has_no_price():
    without = so_far(SMALL, {})
    assert without.says == (f"Without a price, so not counted: {SMALL.food(FOOD).name}.",)
    priced = so_far(SMALL, {FOOD: PackPrice(FOOD, 1_000_000, 100, None)})
    assert priced.cost == (("Cost so far", "£0.86"), ("For one portion stated", "£0.11")) and not priced.says


def test_what_has_to_be_mended_is_counted():
    empty = replace(SMALL, components=(), steps=())
    assert so_far(empty, {}).stopping == 2 and so_far(empty, {}).total == "0 g"
