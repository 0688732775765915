"""From marks and faults seen to Seen, Why, Do, and what it moves."""

from dataclasses import replace
from fractions import Fraction

import pytest

from assessments.feedback.advice import (
    FaultKnown,
    TechniqueKnown,
    about_the_person,
    drafted,
    lacks,
    next_time,
    standard_of,
)
from assessments.schemes.card import Card, Mark, Subject
from tests.builders.recipes import fixture
from tests.builders.schemes import card, college_scheme

SOGGY = FaultKnown("blind_1", "blind", "the base is soggy", "beans out too early", "Bake on; tap it")
BLIND = TechniqueKnown("blind", "Blind baking", "base dry and matt, wall stands")
SWEAT = TechniqueKnown("sweat", "Sweating", "soft, no colour")


def a_card(blind=1, sweat=3, texture=5, organisation=2):
    marks = (
        Mark("organisation", Fraction(organisation)),
        Mark("technique", Fraction(blind), "blind"),
        Mark("technique", Fraction(sweat), "sweat"),
        Mark("texture", Fraction(texture)),
    )
    return Card(marks, (Subject("blind", "Blind baking"), Subject("sweat", "Sweating")))


def draft(seen=None, **marks):
    scheme = college_scheme("hundred_points")
    known = {"blind": BLIND, "sweat": SWEAT}
    return drafted(scheme, a_card(**marks), seen or {}, {SOGGY.code: SOGGY}, known)


def about(place, advice):
    return next(each for each in advice if each.place == place)


def test_a_mark_below_the_standard_with_a_fault_gives_seen_why_do_and_what_it_moves():
    advice = about("technique.blind", draft({"technique.blind": ("blind_1",)}))
    assert advice.kind == "practise"
    assert advice.seen == "The base is soggy."
    assert advice.why == "Beans out too early."
    assert advice.do == "Bake on; tap it."
    assert advice.cue == "Base dry and matt, wall stands."
    assert advice.moves == "This moves blind baking from 1 to 2: 2.5 points."
    assert lacks(advice) == ()


def test_a_technique_below_the_standard_without_a_fault_lacks_its_cause():
    advice = about("technique.blind", draft())
    assert advice.why == ""
    assert lacks(advice) == ("Blind baking, 1 of 3: choose a fault or write why it happened.",)
    assert lacks(replace(advice, why="The beans came out early.")) == ()
    assert lacks(replace(advice, why="Early.", do=" ")) == ("Blind baking: say what to do next time.",)


def test_a_product_mark_below_the_standard_quotes_its_descriptor_and_the_next_one():
    advice = about("texture", draft(texture=5))
    assert advice.seen == "Servable, with a fault that a guest would see."
    assert advice.do == "To reach 6: good, one small fault."
    assert advice.moves == "This moves product: texture from 5 to 6: 1 point."
    assert lacks(advice) == ()


def test_what_meets_the_standard_went_well_and_the_weakest_comes_first():
    advice = draft(blind=1, sweat=3, texture=5, organisation=2)
    assert [each.place for each in advice] == [
        "technique.blind",
        "texture",
        "organisation",
        "technique.sweat",
    ]
    assert [each.kind for each in advice] == ["practise", "practise", "well", "well"]


def test_a_fault_is_worth_saying_even_where_the_standard_is_met():
    advice = about("technique.blind", draft({"technique.blind": ("blind_1",)}, blind=2))
    assert advice.kind == "practise"
    assert advice.moves == "This moves blind baking from 2 to 3: 2.5 points."


def test_the_top_of_the_page_says_one_thing_to_do():
    assert next_time(draft({"technique.blind": ("blind_1",)})) == "Next time, blind baking: bake on."
    assert next_time([]) == "Next time: keep to the cues, and take on the next technique."


def test_a_line_not_yet_met_says_so_and_what_to_wait_for():
    scheme = college_scheme("competence")
    given = card(by_technique={"techniques": [1, 0]}, workplace=1)
    known = {"t2": TechniqueKnown("t2", "Technique 2", "the cue")}
    advice = about("techniques.t2", drafted(scheme, given, {}, {}, known))
    assert (advice.given, advice.kind) == ("not yet met", "practise")
    assert advice.moves == "This moves technique 2 from not yet met to met."
    assert advice.do == "Work to the cue: The cue."


def test_three_judges_are_told_as_their_mean():
    scheme = college_scheme("judges_and_measures")
    advice = about("process", drafted(scheme, card(judged={"process": [1, 2, 2]}), {}, {}, {}))
    assert advice.given == "1.67 of 3"
    assert advice.kind == "practise"
    assert advice.moves == "This moves working method from 1.67 to 2: 2.22 points."


@pytest.mark.parametrize(
    "scheme, code, standard",
    [("hundred_points", "hygiene", 2), ("hundred_points", "texture", 6), ("competence", "product", 1)],
)
def test_the_standard_of_each_kind(scheme, code, standard):
    assert standard_of(college_scheme(scheme).criterion(code)) == standard


@pytest.mark.parametrize("words", ["Careless work.", "You are slow.", "Good effort"])
def test_words_about_the_person_are_found(words):
    assert about_the_person(words)


def test_the_words_of_the_catalogue_are_about_the_plate():
    for technique in fixture("techniques.json")["techniques"]:
        for fault in technique["faults"]:
            words = " ".join(fault[name] for name in ("seen", "cause", "remedy"))
            assert about_the_person(words) == "", words
