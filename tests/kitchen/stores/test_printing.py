"""Labels and the issue sheet say what the trays say."""

from dataclasses import replace

from kitchen.stores.printing import issue_foods, kit_label, whose
from kitchen.stores.trays import tray_of
from tests.builders.kits import quiche_kits

TRAYS = [tray_of(kit, ("Otto", "Jonas") if kit.label == "6" else ()) for kit in quiche_kits(ahead_steps=())]


def label(tray):
    return kit_label(
        tray, 6, 9, when="16 Feb, 09:00", where="PC2-A, Juniper Kitchen", link="https://kitchen.example/"
    )


def test_a_label_carries_the_free_from_box_the_block_and_allergens_by_kind():
    tray = replace(TRAYS[5], free_for=("Otto",))
    made = label(tray)
    assert made.free_from == "FREE FROM GLUTEN, Otto"
    assert made.blocked_why.startswith("No label read")
    assert (made.number, made.of, made.names) == (6, 9, ("Otto", "Jonas"))
    assert label(TRAYS[0]).lines[0].contains == ("gluten (wheat)",)
    assert "mustard" in made.may_contain


def test_a_kit_of_nobody_says_what_it_is():
    assert label(TRAYS[-1]).names == ("Spare kit",)


def test_the_issue_sheet_has_each_food_once_with_its_sum_and_no_tap():
    foods = {food.words: food for food in issue_foods(TRAYS)}
    assert foods["Unsalted butter"].amounts == ("160",) * 9
    assert foods["Unsalted butter"].total == "1,440 g"
    assert foods["Hen egg in shell, medium"].total == "40 pieces"
    assert foods["Hen egg in shell, medium"].amounts[6] == ""
    assert "Water" not in foods


def test_the_list_below_names_whose_kit_it_is():
    assert ("6", "Bench 6, Otto and Jonas, Free from gluten") in whose(TRAYS)
