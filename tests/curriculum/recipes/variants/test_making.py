from dataclasses import replace

from curriculum.recipes import editing
from curriculum.recipes.variants.avoided import affected
from curriculum.recipes.variants.making import LineChange, changed
from tests.builders.recipes import college_foods, college_recipe

QUICHE = college_recipe("R01")


def _flour(recipe):
    return next(line for line in recipe.components[0].lines if line.position == _at())


def _at():
    return next(line.position for line in QUICHE.components[0].lines if line.food == "soft_wheat_flour")


def test_a_line_replaced_keeps_its_place_and_lets_go_what_was_said_of_the_old_food():
    said = replace(
        _flour(QUICHE),
        written="2 cups",
        scaling_class="linear",
        yield_per_mille=900,
        held_back_milligrams=26_000,
        least_milligrams=250_000,
        most_milligrams=270_000,
        note="Sifted.",
    )
    recipe = editing.with_lines(QUICHE, "A", (said,))
    made = changed(recipe, [LineChange("A", _at(), "rice_flour", 130_000)], (), college_foods())
    line = _flour(made)
    assert (line.food, line.milligrams, line.held_back_milligrams) == ("rice_flour", 130_000, 13_000)
    assert (line.written, line.scaling_class, line.yield_per_mille) == ("", None, None)
    assert (line.least_milligrams, line.note) == (None, "Sifted.")
    assert "soft_wheat_flour" in {food.code for food in made.foods}


def test_two_lines_of_one_component_are_left_out_each_at_its_own_place():
    first, last = QUICHE.components[0].lines[0], QUICHE.components[0].lines[-1]
    changes = [LineChange("A", first.position, None, None), LineChange("A", last.position, None, None)]
    made = changed(QUICHE, changes, (), {})
    kept = [line.food for line in made.components[0].lines]
    assert kept == [line.food for line in QUICHE.components[0].lines[1:-1]]


def test_a_component_without_lines_is_left_out_and_its_foods_with_it():
    changes = [
        LineChange(each.component.code, each.line.position, None, None) for each in affected(QUICHE, "egg")
    ]
    made = changed(QUICHE, changes, (), {})
    assert "D" not in {component.code for component in made.components}
    assert not {"egg_beaten", "egg_in_shell"} & {food.code for food in made.foods}
    assert len(made.steps) == len(QUICHE.steps)


def test_a_technique_lost_is_trained_at_no_step_any_more():
    lost = QUICHE.step(2).techniques[0]
    made = changed(QUICHE, [], (lost,), {})
    assert made.techniques_lost == (lost,)
    assert all(lost not in step.techniques for step in made.steps)
