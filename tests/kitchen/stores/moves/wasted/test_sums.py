"""Waste added up by reason, food and lesson comes to the same total; no cell of the table is a formula."""

from fractions import Fraction

from kitchen.stores.moves.wasted.sums import Wasted, summed, table, total

ROWS = (
    Wasted("Dropped", "Butter", "A", 400_000, Fraction(32)),
    Wasted("Dropped", "Butter", "B", 100_000, Fraction(8)),
    Wasted("Burnt", "Flour", "A", 500_000, None),
)


def test_the_worked_example_adds_up_each_way():
    by_reason = summed(ROWS, lambda each: each.reason)
    assert [(each.name, each.milligrams, each.pence) for each in by_reason] == [
        ("Dropped", 500_000, 40),
        ("Burnt", 500_000, 0),
    ]
    by_lesson = summed(ROWS, lambda each: each.lesson)
    assert [(each.name, each.milligrams, each.pence) for each in by_lesson] == [
        ("A", 900_000, 32),
        ("B", 100_000, 8),
    ]
    assert by_lesson[0].share_words == "90 %" and by_lesson[0].weight == "900 g"
    assert total(ROWS).milligrams == 1_000_000 and total(ROWS).pence == 40


def test_nothing_is_nothing():
    assert summed((), lambda each: each.food) == () and total(()).milligrams == 0


def test_pence_are_rounded_once_a_row_and_not_before():
    rows = [Wasted("Dropped", "Salt", "A", 1, Fraction(1, 3)) for _ in range(3)]
    assert total(rows).pence == 1


def test_the_table_has_a_row_each_and_an_apostrophe_before_what_could_be_a_formula():
    lines = table(
        [Wasted("=1+1", "Nutmeg", "@lesson", 2_700, Fraction(3, 2))], "2027-02-01", "2027-02-28"
    ).splitlines()
    assert lines[0] == "from,until,reason,food,lesson,grams,pence"
    assert lines[1] == "2027-02-01,2027-02-28,'=1+1,Nutmeg,'@lesson,2.7,2"
