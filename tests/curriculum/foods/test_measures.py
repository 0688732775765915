from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from curriculum.foods import measures, units
from curriculum.foods.measures import Unreadable, read_amount, read_line

F = Fraction


@pytest.mark.parametrize(
    ("text", "system", "figure", "unit"),
    [
        ("250g", None, 250, units.GRAM),
        ("250 G", None, 250, units.GRAM),
        ("1.5 KG", None, F(3, 2), units.KILOGRAM),
        ("1,5 l", None, F(3, 2), units.LITRE),
        ("1500 g", None, 1500, units.GRAM),
        ("0,250 kg", None, F(1, 4), units.KILOGRAM),
        ("1 1/2 cups", "us", F(3, 2), units.US_CUP),
        ("1½ cup", "us", F(3, 2), units.US_CUP),
        ("½ tsp", "metric", F(1, 2), units.METRIC_TEASPOON),
        ("1 tbsp.", "australian", 1, units.AUSTRALIAN_TABLESPOON),
        ("1 pint", "imperial", 1, units.IMPERIAL_PINT),
        ("5 fl. oz.", "imperial", 5, units.IMPERIAL_FLUID_OUNCE),
        ("2 Fluid Ounces", "us", 2, units.US_FLUID_OUNCE),
        ("1 stick", "us", 1, units.STICK),
        ("1 lb 3 oz", None, 19, units.OUNCE),
        ("1 lb and 3 oz", None, 19, units.OUNCE),
        ("3/4 cup 2 Tbsp", "us", 14, units.US_TABLESPOON),
        ("1 qt 1 1/4 cups", "us", F(21, 4), units.US_CUP),
        ("a pinch", None, 1, units.PINCH),
        ("a dozen", None, 12, units.PIECE),
        ("half a dozen", None, 6, units.PIECE),
    ],
)
def test_an_amount_is_read_as_a_cook_means_it(text, system, figure, unit):
    amount = read_amount(text, system)
    assert (amount.least, amount.most, amount.unit) == (figure, figure, unit)


@pytest.mark.parametrize("text", ["2-3", "2 – 3", "2 to 3", "2 or 3"])
def test_a_range_keeps_both_ends(text):
    amount = read_amount(text)
    assert (amount.least, amount.most) == (2, 3)


def test_a_range_of_dozens_is_of_dozens_at_both_ends():
    amount = read_amount("1-2 dozen")
    assert (amount.least, amount.most) == (12, 24)


def test_a_range_of_a_measure_has_the_measure_at_both_ends():
    amount = read_amount("1-1½ tbsp", "metric")
    assert (amount.least, amount.most, amount.unit) == (1, F(3, 2), units.METRIC_TABLESPOON)


def test_so_many_times_an_amount_is_the_product_and_remembers_how_many():
    amount = read_amount("2 x 400 g")
    assert amount.milligrams == 800_000 and amount.times == 2


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("1 cup", "not the same everywhere"),
        ("1 tbsp", "US 14.8 ml"),
        ("1 pint", "imperial 568.3 ml"),
        ("3 T", "teaspoon or a tablespoon"),
        ("2 c", "cup or a centilitre"),
        ("50 gr", "gram or a grain"),
        ("2 units", "can be counted"),
        ("1.500 g", "two ways"),
        ("1.234.567", "two ways"),
        ("3-2 g", "goes down"),
        ("-5 g", "below nothing"),
        ("0 g", "amount of nothing"),
        ("1/0 g", "divides by nothing"),
        ("2 x 400", "of how much"),
        ("250 g flour", "left over"),
        ("flour", "begins with no amount"),
        ("", "begins with no amount"),
        ("9999999999999 g", "too long"),
    ],
)
def test_what_cannot_be_read_is_handed_back_with_its_reason(text, says):
    with pytest.raises(Unreadable, match=says):
        read_amount(text)


def test_a_measure_that_a_system_does_not_have_is_refused():
    with pytest.raises(Unreadable, match="no measure of this system"):
        read_amount("1 pint", "metric")


@pytest.mark.parametrize(
    ("text", "food", "note"),
    [
        ("200 g plain flour, sifted", "plain flour", "sifted"),
        ("200 g (7 oz) butter", "butter", "7 oz"),
        ("- 3 cloves of garlic", "garlic", ""),
        ("• 6 eggs", "eggs", ""),
        ("half a lemon", "lemon", ""),
        ("200 g crème fraîche 30 %", "crème fraîche 30 %", ""),
        ("salt, to taste", "salt", "to taste"),
        ("flour for dusting", "flour", "for dusting"),
        ("100 g 葛粉", "葛粉", ""),
    ],
)
def test_a_line_is_parted_into_amount_food_and_note(text, food, note):
    line = read_line(text)
    assert (line.food, line.note, line.trouble) == (food, note, "")


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("Salt", "No amount"),
        ("a little oil", "No amount"),
        ("half fat crème fraîche", "No amount"),
        ("100 g", "No food"),
        ("3 cloves", "No food"),
        ("1 cup and 500 sugar", "not the same everywhere"),
        ("2 large 400 g tins tomatoes", "another figure"),
        ("2 % milk", "another figure"),
        ("1 cup sugar", "not the same everywhere"),
        ("2 mugs rice", "no one size"),
    ],
)
def test_a_line_that_is_not_understood_says_so_and_keeps_its_text(text, says):
    line = read_line(text)
    assert says in line.trouble and line.text == text


def test_a_measure_that_is_not_understood_still_leaves_its_food():
    line = read_line("1 1/2 cups plain flour, sifted")
    assert (line.amount, line.food, line.note) == (None, "plain flour", "sifted") and line.trouble


def test_empty_lines_of_a_pasted_text_are_passed_over():
    assert [line.food for line in measures.read_lines("100 g flour\n\n  \n50 g butter\n")] == [
        "flour",
        "butter",
    ]


def test_a_volume_becomes_a_weight_only_by_the_density_of_the_food():
    milk = read_amount("100 ml")
    assert measures.weight_of(milk, 1030) == 103_000
    assert measures.weight_of(milk, None) is None
    assert measures.weight_of(read_amount("1 lb"), None) == F(45359237, 100)
    assert measures.weight_of(read_amount("3"), 1000) is None


def test_a_weight_is_not_turned_into_a_volume():
    with pytest.raises(Unreadable, match="without knowing the food"):
        measures.convert(1, units.GRAM, units.LITRE)
    with pytest.raises(Unreadable):
        measures.convert(1, units.PIECE, units.PIECE)


@given(st.fractions(min_value=F(1, 1000), max_value=1000), st.sampled_from(units.MEASURES), st.data())
def test_there_and_back_is_the_start(value, unit, data):
    same = [other for other in units.MEASURES if other.dimension == unit.dimension]
    to = data.draw(st.sampled_from(same))
    assert measures.convert(measures.convert(value, unit, to), to, unit) == value
    assert measures.convert(value, unit, to) == value * unit.size / to.size


@given(st.text(max_size=60))
def test_no_text_breaks_the_reader(text):
    line = read_line(text)
    assert line.trouble or (line.amount is not None and line.food)


@given(st.integers(1, 99_999), st.sampled_from(["g", "kg", "ml", "l"]), st.sampled_from(["", " "]))
def test_a_written_figure_is_read_as_itself(figure, unit, gap):
    assert read_amount(f"{figure}{gap}{unit}").most == figure


@pytest.mark.parametrize("text", ["(" * 1_000_000, "1" * 1_000_000, "1 " * 500_000, "½" * 300_000])
def test_a_line_without_end_is_refused_and_not_worked_through(text):
    assert "letters" in read_line(text).trouble
    with pytest.raises(Unreadable):
        read_amount(text)
