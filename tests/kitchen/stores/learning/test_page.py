"""The words of what was learned."""

from datetime import date

from kitchen.stores.learning import page
from kitchen.stores.learning.effect import Change
from kitchen.stores.learning.evidence import Proposal, Row
from kitchen.stores.learning.figures import Figure

NAMES = page.Names(
    {"flour": "Soft wheat flour"},
    {"flour": "ambient"},
    {"R01": "Leek and Cheddar quiche"},
    {"lining": "Lining a tin", "baking": "Blind baking", "rubbing": "Rubbing in", "resting": "Resting"},
)
DAY = date(2027, 2, 16)


def rows(*values, far=()):
    return tuple(
        Row(f"L{n}", "Quiche", DAY, "G", 7, (("Kits held", 20_000), ("Given later", 0)), value, n in far)
        for n, value in enumerate(values)
    )


def over(*values, far=(), same=()):
    return Proposal("over_issue", "flour", "R01", 30_000, 20_000, rows(*values, far=far), same_food_in=same)


def lost(*values, others=()):
    return Proposal("wastage", "flour", "lining", 70, 0, rows(*values), others=others)


def test_a_proposal_says_how_many_lessons_and_benches_from_where_to_where_and_the_middle():
    assert page.evidence_words(over(27_000, 29_000, 30_000, 34_000)) == (
        "Four lessons with 28 benches: 27 g to 34 g taken a bench, the middle 29 g."
    )


def test_too_few_lessons_say_how_many_are_needed():
    assert page.evidence_words(lost(60, 60)) == (
        "Two lessons with 14 benches: 6 % of what was planned lost, the middle 6 %; four lessons are needed."
    )


def test_a_lesson_far_off_is_said_and_not_hidden():
    said = over(27_000, 29_000, 30_000, 900_000, far=(3,))
    assert page.evidence_words(said).endswith("One lesson lies far off.")
    assert any("counts like the others" in words for words in page.caveats(said, NAMES))


def test_yield_tests_say_their_range_and_the_share_by_weight():
    tests = Proposal("usable", "flour", "", 840, 750, rows(800, 867))
    assert page.evidence_words(tests) == (
        "Two yield tests: 80 % to 86.7 %, together by weight 84 %; three tests are needed."
    )
    assert page.title(tests, NAMES) == "Soft wheat flour: usable share"


def test_techniques_that_lessons_cannot_tell_apart_are_named_up_to_three():
    assert page.title(lost(60), NAMES) == "Soft wheat flour: allowance for lining a tin"
    assert page.title(lost(60, others=("baking",)), NAMES).endswith("lining a tin or blind baking")
    many = lost(60, others=("baking", "resting", "rubbing"))
    assert page.title(many, NAMES).endswith("lining a tin or 3 others")


def test_common_practice_stands_beside_an_allowance_as_such():
    assert any("no source" in words for words in page.caveats(lost(60), NAMES))


def test_the_same_food_in_the_dough_is_a_caveat_of_over_issue():
    (words,) = page.caveats(over(30_000, same=("Shortcrust paste",)), NAMES)
    assert words.startswith("Soft wheat flour also stands in Shortcrust paste:")


def test_columns_in_which_nothing_ever_stands_are_left_out():
    (line,) = page.evidence_lines(over(30_000))
    assert line.cells == (("Kits held", "20 g"),)


def test_what_lessons_take_more_is_said_in_grams_and_pence_and_added_up():
    changes = [Change("A", "Quiche", DAY, "G", 90_000, 8), Change("B", "Quiche", DAY, "G", 70_000, 6)]
    lines = page.change_lines(changes)
    assert (lines[0].amount, lines[0].money) == ("90 g more", "£0.08 more")
    assert page.change_sum(changes) == "Together 160 g more, £0.14 more, in two lessons."
    assert page.change_sum([]) == ""
    assert page.change_lines([Change("A", "Quiche", DAY, "G", -90_000, -8)])[0].amount == "90 g less"


def test_a_requisition_says_by_which_figures_it_goes_and_when_others_stand_since():
    leek = Figure("usable", "flour", "", 705, "learned from three yield tests")
    other = Figure("wastage", "salt", "", 50, "")
    every = Figure("wastage", "", "lining", 50, "written by Hana")
    assert page.learned_words([leek, other, every], NAMES.foods) == (
        "Soft wheat flour: usable 70.5 %, learned from three yield tests.",
        "Every food: allowance 5 %, written by Hana.",
    )
    assert page.learned_since(None, None) == page.learned_since([{}], [{}]) == ()
    assert page.learned_since(None, [{}]) == (
        "Figures learned from lessons were accepted or taken back since.",
    )


def test_every_technique_that_the_lessons_share_is_named_where_it_is_decided():
    said = page.caveats(lost(60, others=("baking", "resting", "rubbing")), NAMES)
    assert said[0].endswith("loses it: lining a tin; blind baking; resting; rubbing in.")
