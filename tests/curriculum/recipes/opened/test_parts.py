from dataclasses import replace

from curriculum.recipes.opened import parts
from tests.builders.recipes import college_recipe

QUICHE = college_recipe("R01")


def test_the_same_recipe_has_the_same_fingerprint_and_a_changed_one_another():
    again = college_recipe("R01")
    assert parts.fingerprint(parts.whole(QUICHE)) == parts.fingerprint(parts.whole(again))
    other = replace(QUICHE, notes="Turn the tin.")
    assert parts.fingerprint(parts.whole(other)) != parts.fingerprint(parts.whole(QUICHE))


def test_labels_of_foods_are_not_the_writers_and_do_not_count():
    read = replace(QUICHE, foods=QUICHE.foods[1:])
    assert parts.whole(read) == parts.whole(QUICHE) and parts.head(read) == parts.head(QUICHE)


def test_a_change_of_a_step_leaves_the_head_as_it_was_seen():
    other = replace(QUICHE, steps=QUICHE.steps[1:])
    assert parts.head(other) == parts.head(QUICHE) and parts.whole(other) != parts.whole(QUICHE)


def test_a_part_is_found_and_none_where_it_is_gone():
    component = QUICHE.components[0]
    assert parts.component_in(QUICHE, component.code) == component
    assert parts.lines_in(QUICHE, component.code, [1]) == component.lines[:1]
    assert parts.step_in(QUICHE, 2) == QUICHE.steps[1]
    assert parts.component_in(QUICHE, "Q") is None and parts.step_in(QUICHE, 99) is None
    assert parts.lines_in(QUICHE, "Q", [1]) == ()
