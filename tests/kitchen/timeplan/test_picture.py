"""The picture: classes only, everything in it, and words for those who do not see it."""

import re
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from kitchen.timeplan.lead import plan_lesson
from kitchen.timeplan.picture import described, load_of, picture
from tests.builders.timeplan_lessons import college_lesson

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def plan():
    return plan_lesson(college_lesson("main-1"), None).plan


@pytest.fixture(scope="module")
def drawn(plan):
    return ElementTree.fromstring(
        picture(plan).replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1)
    )


def test_it_has_a_title_and_a_description(drawn, plan):
    assert drawn.find(f"{SVG}title").text == "Time plan, Leek and Cheddar quiche"
    assert drawn.find(f"{SVG}desc").text == described(plan)


def test_it_has_no_style_and_no_colour(plan):
    assert not re.search(r"style=|fill=|stroke=|#[0-9a-f]{3}", picture(plan))


def test_every_bench_oven_and_demonstration_is_there(drawn, plan):
    words = [element.text for element in drawn.iter(f"{SVG}text")]
    assert [f"Bench {n}" for n in range(1, 8)] == [w for w in words if w.startswith("Bench ")]
    kinds = [element.get("class") for element in drawn.iter()]
    assert kinds.count("demo") == 4
    assert kinds.count("heat") == 2 * len(plan.ovens)
    assert kinds.count("inoven") == 3 * 7


def test_nothing_is_drawn_outside_the_paper(drawn):
    _, _, wide, high = map(float, drawn.get("viewBox").split())
    for rect in drawn.iter(f"{SVG}rect"):
        assert 0 <= float(rect.get("x")) <= float(rect.get("x")) + float(rect.get("width")) <= wide + 0.2
        assert 0 <= float(rect.get("y")) <= float(rect.get("y")) + float(rect.get("height")) <= high


def test_blocks_of_one_lane_do_not_cover_one_another(drawn):
    rects = [r for r in drawn.iter(f"{SVG}rect") if r.get("class") == "work"]
    spans = [tuple(float(r.get(k)) for k in ("x", "y", "width", "height")) for r in rects]
    for i, (x, y, wide, high) in enumerate(spans):
        for x2, y2, wide2, high2 in spans[i + 1 :]:
            apart = x + wide <= x2 + 0.15 or x2 + wide2 <= x + 0.15 or y + high <= y2 or y2 + high2 <= y
            assert apart, (x, y, x2, y2)


def test_names_are_not_read_as_markup(plan):
    odd = replace(plan.benches[0], learners=("<b>Zoë & Åsa</b>",))
    assert "&lt;b&gt;Zoë" in picture(replace(plan, benches=(odd, *plan.benches[1:])))


def test_the_load_counts_hands_at_work(plan):
    load = dict(load_of(plan))
    first = plan.benches[0].lines[0].start
    assert load[plan.starts] == 0
    assert load[first - first % 5] == 7


def test_two_who_work_at_once_have_a_lane_each(drawn, plan):
    """Docking and leeks beside each other: both blocks are drawn, at half the height."""
    heights = {float(rect.get("height")) for rect in drawn.iter(f"{SVG}rect") if rect.get("class") == "work"}
    assert heights == {44.0, 21.0}


def test_a_deck_is_named_under_its_oven(plan):
    decks = replace(plan.ovens[0], name="Oven 1, upper deck")
    words = picture(replace(plan, ovens=(decks,)))
    assert ">Oven 1<" in words
    assert ">upper, " in words


@pytest.mark.parametrize(
    ("name", "benches", "says"),
    [
        ("Oven 1, lower deck", ("1",), "lower, bench 1"),
        ("Oven 1, lower deck", ("1", "2"), "lower, 1 and 2"),
        ("Oven 13", ("7", "1", "3", "4", "5", "6"), "1 and 3 to 7"),
        ("Oven 13", ("1", "2", "3"), "benches 1 to 3"),
    ],
)
def test_the_benches_of_an_oven_stand_under_it_without_being_cut(plan, name, benches, says):
    heat = replace(plan.ovens[0].heats[0], benches=benches)
    drawn = picture(replace(plan, ovens=(replace(plan.ovens[0], name=name, heats=(heat,)),)))
    assert f">{says}<" in drawn
