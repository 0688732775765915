"""Words for paper: every letter in a font that has it, lines that fit, names of any script."""

from hypothesis import given, settings
from hypothesis import strategies as st

from curriculum.lettering import Ink, Lettering, allergen, joined, letters_of, listed, merged, strong

LATIN, ARABIC = "Latin", "Arabic"


def has(font, letter):
    return letter.isascii() if font == LATIN else "\u0600" <= letter <= "\uffff"


def lettering():
    return Lettering(
        {"plain": (LATIN, ARABIC), "strong": (LATIN,)}, has, lambda words, font, size: len(words) * size
    )


def text_of(lines):
    return ["".join(text for _, text in line) for line in lines]


def test_words_are_broken_at_blanks_to_fit_the_width():
    assert text_of(lettering().lines("one two three", 1, 8)) == ["one two ", "three"]


def test_a_bracket_stays_with_its_word():
    words = ("flour (", allergen("milk"), ")")
    assert text_of(lettering().lines(words, 1, 11)) == ["flour ", "(milk)"]


def test_a_word_longer_than_the_line_is_cut_and_nothing_is_lost():
    lines = lettering().lines("a" * 25, 1, 10)
    assert [len(text) for text in text_of(lines)] == [10, 10, 5]


@given(st.text(max_size=80), st.integers(1, 40))
@settings(max_examples=200, deadline=None)
def test_no_letter_is_lost_whatever_is_written(text, width):
    lines = lettering().lines(text, 1, width)
    wanted = [letter for letter in letters_of(text) if letter not in " \n"]
    assert [letter for line in text_of(lines) for letter in line if letter != " "] == wanted


@given(st.text(alphabet="ab \n", max_size=80), st.integers(1, 40))
@settings(max_examples=200, deadline=None)
def test_no_line_is_wider_than_asked(text, width):
    lines = lettering().lines(text, 1, width)
    assert all(len(line.rstrip(" ")) <= width for line in text_of(lines))


def test_what_no_font_has_is_named_and_set_as_its_number():
    assert lettering().unprintable(["Łukasz 3\U00013000"]) == ("Ł", "\U00013000")
    assert lettering().runs("a\U00013000b", "plain") == ((LATIN, "a[U+13000]b"),)


def test_each_letter_takes_the_first_font_that_has_it():
    assert [font for font, _ in lettering().runs("ab\u4e2dc", "plain")] == [LATIN, ARABIC, LATIN]


def test_words_from_right_to_left_are_turned_and_joined():
    drawn = "".join(text for _, text in lettering().runs("\u0633\u0627", "plain"))
    assert drawn[0] in "\u0627\ufe8e"
    assert drawn != "\u0633\u0627"


def test_a_number_that_is_no_letter_yet_beside_arabic_does_not_stop_a_sheet():
    drawn = "".join(text for _, text in lettering().runs("\u06fa\U0002fa1e", "plain"))
    assert "[U+2FA1E]" in drawn


def test_what_only_steers_a_screen_is_left_out():
    assert letters_of("a\u202eb\u200dc\td\x07") == "abc d"


def test_a_joiner_stays_where_it_shapes_a_letter_and_is_never_a_box():
    assert letters_of("\u0639\u0644\u06cc\u200c\u0631") == "\u0639\u0644\u06cc\u200c\u0631"
    assert letters_of("\U0001f600\u200d\U0001f600") == "\U0001f600\U0001f600"
    assert lettering().unprintable(["\u0915\u200d"]) == ()
    assert "\u200d" in lettering().runs("\u0915\u200d\u0937", "plain")[0][1]
    without = Lettering({"plain": (LATIN,)}, lambda font, letter: letter.isascii(), lambda *words: 1.0)
    assert without.runs("\u0915\u200d", "plain") == ((LATIN, "[U+0915]"),)


def test_marks_are_composed_with_their_letter():
    assert letters_of("z\u0307") == "\u017c"


def test_names_stay_as_they_are_written():
    assert text_of(lettering().lines("<b>Leif</b> & Co", 1, 99)) == ["<b>Leif</b> & Co"]


def test_two_words_of_one_name_are_one_run():
    name = Ink("one two")
    assert merged([(name, "one"), (name, " "), (name, "two")]) == ((name, "one two"),)
    assert len(merged([(Ink("a"), "a"), (strong("a"), "a")])) == 2


def test_inks_are_listed_with_commas():
    assert listed([strong("a"), strong("b")]) == (strong("a"), ", ", strong("b"))
    assert joined("x", ("y", strong("z"))) == ("x", "y", strong("z"))


def test_a_heat_is_never_broken_before_its_degrees_whoever_wrote_it():
    assert text_of(lettering().lines("bake at 155 °C fan", 1, 14)) == ["bake at ", "155\xa0°C ", "fan"]
