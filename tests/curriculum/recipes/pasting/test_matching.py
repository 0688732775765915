import pytest

from curriculum.foods.data import FoodData
from curriculum.foods.measures import read_line
from curriculum.recipes.pasting.matching import ALSO_CALLED, meant, propose
from tests.builders.recipes import college_foods

FOODS = list(college_foods().values())


@pytest.mark.parametrize(
    ("words", "code"),
    [
        ("unsalted butter", "unsalted_butter"),
        ("Butter, unsalted", "unsalted_butter"),
        ("caster sugar", "caster_sugar"),
        ("leeks", "leek"),
        ("crème fraîche", "creme_fraiche_30"),
        ("creme fraiche", "creme_fraiche_30"),
        ("sugar", None),
        ("plain flour", "soft_wheat_flour"),
        ("moon dust", None),
        ("", None),
    ],
)
def test_a_line_means_the_one_food_whose_words_it_has(words, code):
    found = meant(words, FOODS)
    assert (found.code if found else None) == code


def test_what_is_counted_means_a_food_in_pieces():
    assert meant("eggs", FOODS, counted=True).code == "egg_in_shell"
    assert meant("eggs", FOODS) is None


def _proposed(text, system=None):
    return propose(read_line(text, system), FOODS)


def test_a_weight_of_a_known_food_has_no_trouble():
    line = _proposed("80 g caster sugar, sifted")
    assert (line.food, line.milligrams, line.pieces, line.note, line.trouble) == (
        "caster_sugar",
        80_000,
        None,
        "sifted",
        "",
    )


def test_pieces_of_a_counted_food_stay_pieces():
    line = _proposed("2 lemons")
    assert (line.food, line.milligrams, line.pieces, line.trouble) == ("lemon", None, 2, "")


def test_an_unknown_food_is_quoted_and_its_weight_kept():
    line = _proposed("300 g quinces, cored")
    assert (line.food, line.milligrams, line.note) == (None, 300_000, "quinces; cored")
    assert "“quinces” is not one food of the book" in line.trouble


def test_a_volume_without_a_density_asks_for_the_weight():
    line = _proposed("2 tbsp lemon juice", "metric")
    assert line.food == "lemon_juice"
    assert (line.milligrams is None) == ("no density" in line.trouble)


def test_a_range_takes_the_larger_amount_keeps_both_ends_and_says_so():
    line = _proposed("230-260 g caster sugar")
    assert line.milligrams == 260_000 and "larger amount" in line.trouble
    assert (line.least, line.most) == (230_000, 260_000)


def test_a_line_says_how_its_grams_were_found_and_keeps_what_was_typed():
    line = _proposed("1 lb 3 oz caster sugar")
    assert line.written == "1 lb 3 oz" and line.how == "“1 lb 3 oz” is read as 538.64 g of Caster sugar."


def test_a_measure_that_is_not_understood_keeps_its_food_and_its_reason():
    line = _proposed("1 cup caster sugar")
    assert (
        line.food == "caster_sugar" and line.milligrams is None and "not the same everywhere" in line.trouble
    )


def test_a_pinch_is_no_weight():
    line = _proposed("a pinch of fine salt")
    assert line.food == "fine_salt" and line.milligrams is None and line.written == "a pinch"
    assert "1/16 tsp in tables, 0.37 g of Fine salt; practice varies" in line.trouble


def test_a_line_that_can_mean_several_foods_names_them_with_their_weights():
    leaves = [
        FoodData("gold", "Leaf gelatine, gold", piece_weights=(("leaf", 2000),)),
        FoodData("silver", "Leaf gelatine, silver", piece_weights=(("leaf", 2500),)),
    ]
    line = propose(read_line("2 leaves gelatine"), leaves)
    assert line.food is None
    assert "can be Leaf gelatine, gold (4 g) or Leaf gelatine, silver (5 g)" in line.trouble


def test_a_word_of_size_is_passed_over_where_no_food_has_it():
    assert meant("large egg yolks", FOODS, counted=True).code == "egg_yolk"


def test_another_word_for_a_food_is_read_and_shown_to_be_looked_at():
    line = _proposed("200 g plain flour")
    assert (line.food, line.milligrams) == ("soft_wheat_flour", 200_000)
    assert line.trouble == (
        "“plain flour” is taken for Soft wheat flour. Choose another food where it is not that."
    )
    assert _proposed("200 g plain flour, sifted").food == "soft_wheat_flour"


def test_a_word_more_than_the_name_is_never_passed_over_in_silence():
    line = _proposed("200 g leek powder")
    assert line.food == "leek" and "“leek powder” is taken for Leek." in line.trouble


@pytest.mark.parametrize("text", ["200 g sliced leeks", "2 large lemons", "200 g leek, cut fine"])
def test_words_of_size_and_of_getting_ready_ask_nothing(text):
    assert _proposed(text).trouble == ""


def test_every_other_word_leads_to_a_name_and_not_to_another_other_word():
    plain = {also.casefold() for also in ALSO_CALLED}
    assert not plain & set(ALSO_CALLED.values())
