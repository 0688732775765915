"""What a tray says: issued beside exact, who, what it is free from."""

from dataclasses import replace
from fractions import Fraction

from kitchen.stores.trays import Tray, TrayLine, initials, lots_words, same_trays, tray_of
from tests.builders.kits import quiche_kits

LINE = TrayLine(1, "Paste", "butter", "Butter", Fraction(275_000, 3), 92_000)


def test_a_rounded_weight_shows_what_it_would_be_and_an_even_one_says_exact():
    assert (LINE.amount, LINE.exact_words) == ("92 g", "exact 91.67 g")
    assert replace(LINE, exact=Fraction(92_000)).exact_words == "exact"


def test_pieces_say_their_exact_number():
    eggs = replace(LINE, exact=Fraction(43, 10), pieces=5, milligrams=285_000)
    assert (eggs.amount, eggs.exact_words) == ("5 pieces", "exact 4.3")
    assert replace(eggs, exact=Fraction(1, 2), pieces=1).amount == "1 piece"


def test_a_weight_more_than_three_per_cent_off_is_named():
    assert replace(LINE, exact=Fraction(960), milligrams=1000).far_off == "+4.2 %"
    assert replace(LINE, exact=Fraction(1040), milligrams=1000).far_off == "−3.8 %"
    assert LINE.far_off == ""


def test_one_lot_is_named_and_several_come_with_their_weights():
    assert lots_words([("LS-2207", 110_000)]) == ("lot LS-2207",)
    several = lots_words([("LS-2207", 110_000), ("LS-2219", 20_000)])
    assert several == ("110 g from lot LS-2207", "20 g from lot LS-2219")
    eggs = lots_words([("MP-0710", 31 * 57_000), ("MP-0741", 57_000)], 57_000)
    assert eggs == ("31 pieces from lot MP-0710", "1 piece from lot MP-0741")


def test_a_line_that_no_lot_covers_says_what_it_is_short_of():
    line = replace(LINE, stock_milligrams=92_000, draws=(("LS-2207", 60_000),))
    assert (line.short, replace(line, draws=(("LS-2207", 92_000),)).short) == ("short of 32 g", "")
    eggs = replace(
        LINE, milligrams=570_000, pieces=10, stock_milligrams=570_000, draws=(("MP-0741", 228_000),)
    )
    assert eggs.short == "short of 6 pieces"
    assert Tray("spare", "S", "Quiche", (line,)).short


def test_a_free_from_kit_names_what_and_for_whom():
    tray = Tray("bench", "6", "Quiche", (), ("Otto", "Jonas"), ("gluten",), ("Otto",))
    assert (tray.free_from_words, tray.free_from_box) == ("Free from gluten", "FREE FROM GLUTEN, Otto")
    assert Tray("bench", "1", "Quiche", ()).free_from_box == ""


def test_trays_that_hold_the_same_are_shown_once_with_all_their_plates():
    groups = same_trays(tray_of(kit) for kit in quiche_kits())
    assert groups[0].heading == "Benches 1, 2, 3, 4 and 5, demonstration and spare kit"
    assert [group.heading for group in groups[1:3]] == ["Bench 6", "Bench 7"]
    assert groups[3].heading == "Prepared ahead, 7 batches"


def test_components_stand_in_tray_order():
    tray = tray_of(quiche_kits(ahead_steps=())[0])
    assert [name for name, _ in tray.components][:2] == ["Shortcrust paste", "Leek and cheese filling"]


def test_initials_of_a_name_in_any_script():
    assert (initials("Hana Bellweather"), initials("Ólafur Þór Jónsson"), initials("")) == ("HB", "ÓÞJ", "")
