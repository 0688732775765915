from dataclasses import replace

import pytest

from curriculum.recipes.data import AfterData, LineData
from curriculum.recipes.interchange import drafting, json_ld, plain_text
from curriculum.recipes.pasting.matching import Proposal
from tests.builders.interchange import ROUNDS, accepted


def test_steps_follow_one_another_without_minutes_and_belong_to_the_only_component():
    recipe = accepted(json_ld.read(ROUNDS))
    assert [step.active_minutes for step in recipe.steps] == [0, 0, 0]
    assert [step.after for step in recipe.steps] == [(), (AfterData(1),), (AfterData(2),)]
    assert all(step.components == ("A",) for step in recipe.steps)
    assert [line.position for line in recipe.components[0].lines] == [1, 2, 3]


def test_headings_become_components_and_sections_of_steps_find_them():
    lines = "Paste:\n200 g soft wheat flour\n\nFilling:\n100 g caster sugar\n50 g unsalted butter\n"
    text = f"Tart\n\n{lines}\nMethod\n1. Mix.\n"
    imported = plain_text.read(text)
    step = replace(imported.steps[0], section="filling")
    recipe = accepted(replace(imported, steps=(step,)))
    assert [(each.code, each.name, len(each.lines)) for each in recipe.components] == [
        ("A", "Paste", 1),
        ("B", "Filling", 2),
    ]
    assert recipe.steps[0].components == ("B",) and recipe.carried == ()


def test_many_headings_do_not_outrun_the_codes():
    text = "Tart\n\n" + "".join(
        f"Part {chr(97 + n % 26)}{chr(97 + n // 26)}:\n1 g fine salt\n\n" for n in range(40)
    )
    recipe = accepted(plain_text.read(text))
    assert len(recipe.components) == 20 and sum(len(each.lines) for each in recipe.components) == 40


READ = Proposal("", "butter", 100, None, "", "")


@pytest.mark.parametrize(
    ("line", "proposal", "changed"),
    [
        (LineData(0, "butter", 100), READ, False),
        (LineData(0, "butter", 101), READ, True),
        (LineData(0, "oil", 92), READ, False),
        (LineData(0, "butter", 5), replace(READ, milligrams=None), False),
        (LineData(0, "butter", 100, 2), replace(READ, milligrams=None, pieces=2), False),
        (LineData(0, "butter", 100, 3), replace(READ, milligrams=None, pieces=2), True),
        (LineData(0, "butter", 90), replace(READ, least=80, most=100), False),
        (LineData(0, "butter", 79), replace(READ, least=80, most=100), True),
    ],
)
def test_a_line_is_changed_when_its_food_weighs_something_else_than_was_read(line, proposal, changed):
    assert drafting.is_changed(line, proposal) is changed
