from fractions import Fraction

import pytest

from curriculum.recipes.scaled.asked import Asked
from curriculum.recipes.scaled.forms import ScaleItForm
from curriculum.recipes.weighing import Scales
from tests.builders.recipes import college_recipe


def form(code="R01", costs=True, **said):
    return ScaleItForm(said or None, recipe=college_recipe(code), costs=costs)


def asked(code="R01", **said):
    sent = form(code, **said)
    assert sent.is_valid(), sent.errors
    return sent.asked()


def test_a_form_that_was_not_sent_asks_for_the_recipe_as_written():
    assert form().asked() == Asked(8)
    assert asked(benches="1") == Asked(8)


def test_everything_that_is_said_is_asked():
    found = asked(
        "R05",
        benches="7",
        portions="16",
        portion_weight="230 g",
        learners="14",
        egg_size="large",
        bloom="160",
        leaf="2.5 g",
        bulk_step="5000",
        small_step="100",
        fine_step="none",
        pool="on",
        price="£3.20",
        share="30",
    )
    assert (found.benches, found.portions, found.learners) == (7, 16, 14)
    assert (found.portion_milligrams, found.shell_milligrams) == (230_000, 68_000)
    assert (found.bloom, found.leaf_milligrams, found.pool) == (160, 2_500, True)
    assert found.scales == Scales(5000, 100, None, True)
    assert (found.selling_pence, found.share_per_mille) == (320, 300)


def test_another_diameter_keeps_the_rest_of_the_tin():
    (tin,) = asked(tin1_diameter_mm="20").tins
    old = college_recipe("R01").tins[0]
    assert (tin.diameter_mm, tin.depth_mm, tin.lined_with) == (200, old.depth_mm, "A")


def test_another_shape_takes_its_own_measures_and_keeps_the_depth():
    (tin,) = asked(tin1_shape="square", tin1_length_mm="20", tin1_count="2").tins
    assert (tin.shape, tin.length_mm, tin.diameter_mm, tin.depth_mm, tin.count) == (
        "square",
        200,
        None,
        30,
        2,
    )


def test_a_mould_of_a_volume_in_place_of_another():
    (tin,) = asked("R05", tin1_volume_ml="120").tins
    assert (tin.volume_ml, tin.shape) == (120, "dariole")


def test_how_a_tin_is_filled():
    filled = asked(fill_inside="outside", old_part="80", new_part="60").filled
    assert (filled.inside, filled.factor) == (False, Fraction(3, 4))


def test_the_temperatures_of_a_dough_are_asked_together():
    found = asked("R06", wanted="26", flour_at="20", room_at="22", friction="8").temperatures
    assert (found.wanted, found.tap, found.preferment) == (260, 120, None)
    assert asked("R06", wanted="26", flour_at="20", room_at="22", friction="8", tap="0").temperatures.tap == 0


WRONG = [
    ("R01", {"benches": "0"}, "benches", "from 1 to 200"),
    ("R01", {"benches": "many"}, "benches", "“many”"),
    ("R01", {"portions": "-8"}, "portions", "from 1 to 1,000"),
    ("R01", {"portions": "8.5"}, "portions", "“8.5”"),
    ("R01", {"portion_weight": "a handful"}, "portion_weight", "a handful"),
    ("R01", {"tin1_shape": "square"}, "tin1_length_mm", "needs its length, in centimetres"),
    (
        "R01",
        {"tin1_shape": "rectangular", "tin1_length_mm": "20"},
        "tin1_width_mm",
        "needs its width, in centimetres",
    ),
    ("R01", {"tin1_diameter_mm": "twenty"}, "tin1_diameter_mm", "twenty"),
    ("R01", {"tin1_depth_mm": "0.2"}, "tin1_depth_mm", "thicker than"),
    ("R01", {"new_part": "0"}, "new_part", "“0”"),
    ("R01", {"bulk_step": "3"}, "bulk_step", "not listed"),
    ("R01", {"egg_size": "ostrich"}, "egg_size", "not listed"),
    ("R06", {"known_food": "whole_milk"}, "known_weight", "needed too"),
    ("R06", {"known_weight": "500"}, "known_food", "needed too"),
    ("R06", {"wanted": "26"}, "flour_at", "needed too"),
    ("R06", {"friction": "8"}, "wanted", "needed too"),
    ("R05", {"bloom": "9"}, "bloom", "from 50 to 400"),
    ("R01", {"price": "dear"}, "price", "“dear”"),
    ("R01", {"price": "0"}, "price", "above nothing"),
    ("R01", {"share": "130"}, "share", "“130”"),
]


@pytest.mark.parametrize(("code", "said", "field", "words"), WRONG)
def test_what_cannot_be_read_is_said_at_its_field_and_kept(code, said, field, words):
    sent = form(code, **said)
    assert not sent.is_valid() and words in sent.errors[field][0]
    for name, value in said.items():
        assert sent[name].value() == value


def test_only_what_the_recipe_has_a_use_for_is_asked():
    assert "tin1_shape" not in form("R03").fields and "old_part" not in form("R03").fields
    assert "bloom" in form("R05").fields and "bloom" not in form("R01").fields
    assert "wanted" in form("R06").fields and "wanted" not in form("R10").fields
    assert "egg_size" not in form("R09").fields


def test_a_learner_is_not_asked_for_a_price():
    assert not {"price", "share"} & set(form(costs=False).fields)
    assert asked(benches="2").selling_pence is None


def test_a_group_of_fields_is_open_where_something_was_written_or_refused():
    assert [part.title for part in form(benches="2").parts() if part.is_open] == []
    assert [part.title for part in form(tin1_diameter_mm="20").parts() if part.is_open] == ["Another tin"]
    refused = form("R06", wanted="26")
    assert not refused.is_valid()
    assert [part.title for part in refused.parts() if part.is_open] == ["Water of the dough"]
