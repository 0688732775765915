"""The diet table says what was found and what happens at the bench, on the college's own recipes."""

from kitchen.lessons.diet_table import Eater, diet_table
from kitchen.lessons.diets import Avoids
from tests.builders.recipes import college_recipe

QUICHE, EGGS = college_recipe("R01"), college_recipe("R10")
NO_GLUTEN, NO_EGG = college_recipe("V1"), college_recipe("V2")
DISHES = [(QUICHE, (NO_GLUTEN, NO_EGG))]


def row(eater, dishes=DISHES, book=()):
    return diet_table([eater], dishes, book)[0]


def test_a_variant_that_its_bench_works_needs_nobody():
    found = row(Eater("Amir", (Avoids(kind="egg"),), 7, "V2"))
    assert (found.shape, found.found, found.hand) == ("swap", "Needs the variant", False)
    assert found.happens == f"Bench 7 works {NO_EGG.title}; its kit is a kit of its own."


def test_egg_wash_and_every_other_line_is_named():
    found = row(Eater("Amir", (Avoids(kind="egg"),), 7, "V2"))
    assert any("(Seal)" in why for why in found.why)


def test_whoever_needs_the_variant_and_stands_at_another_bench_needs_a_hand():
    found = row(Eater("Amir", (Avoids(kind="egg"),), 2, "R01"))
    assert found.hand
    assert found.happens == f"Bench 2 is put to {QUICHE.title}. Change it."


def test_over_issue_counts():
    found = row(Eater("Otto", (Avoids(kind="gluten"),), 6, "V1"))
    assert any("(Over-issue)" in why for why in found.why)


def test_an_unread_label_is_its_own_finding_and_needs_a_hand():
    found = row(Eater("Otto", (Avoids(kind="gluten"),), 6, "V1"))
    assert (found.shape, found.found, found.hand) == ("cannot", "No label read", True)
    assert "until somebody has read the label" in found.happens


def test_nobody_at_a_bench_needs_a_hand_too():
    found = row(Eater("Idris", (Avoids(kind="nuts"),)))
    assert (found.found, found.happens, found.hand) == (
        "Nothing declared against it",
        "Not at a bench yet.",
        True,
    )


def test_cannot_names_other_dishes_with_techniques_in_common():
    book = [college_recipe(f"R{number:02d}") for number in range(1, 13)]
    found = row(Eater("Amir", (Avoids(kind="egg"),)), [(EGGS, ())], book)
    assert (found.shape, found.found) == ("cannot", f"Cannot work {EGGS.title}")
    assert all(other.in_common > 0 for other in found.others)
    assert EGGS.code not in {other.code for other in found.others}


def test_a_learner_at_a_second_dish_is_held_against_that_dish():
    dishes = [(EGGS, ()), (QUICHE, (NO_GLUTEN, NO_EGG))]
    found = row(Eater("Amir", (Avoids(kind="egg"),), 3, "V2"), dishes)
    assert found.found == "Needs the variant"


def test_the_word_of_comfort_is_never_said():
    eaters = [Eater("A", (Avoids(kind=kind),), 1, "R01") for kind in ("egg", "gluten", "nuts", "milk")]
    for found in diet_table(eaters, DISHES):
        assert "safe" not in f"{found.found} {found.happens} {found.why}".lower()
