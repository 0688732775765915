"""The picture on the projector: classes only, letters that are read from three metres, valid."""

import re
from xml.etree import ElementTree

import pytest

from kitchen.timeplan.wall.svg import MOST_HIGH, SHAPE, UNIT, wall_pictures
from tests.builders.timeplan_plans import a_bench, a_plan


@pytest.mark.parametrize(("count", "screens"), [(1, 1), (7, 1), (30, 1), (60, 2)])
def test_a_letter_has_18_of_a_thousand_lines_or_more(count, screens):
    pictures = wall_pictures(a_plan(*(a_bench(n) for n in range(1, count + 1))))
    assert len(pictures) == screens
    for drawn in pictures:
        wide, high = map(float, re.search(r'viewBox="0 0 (\S+) (\S+)"', drawn).groups())
        assert UNIT * min(1920 / wide, 1000 / high) >= 1000 / MOST_HIGH > 18 or wide / high >= SHAPE * 0.99
        assert 1920 / wide * UNIT > 17


def test_it_is_well_formed_without_style_and_without_colour():
    (drawn,) = wall_pictures(a_plan(a_bench("<1>", beside="young")))
    root = ElementTree.fromstring(drawn)
    assert not re.search(r"style=|fill=|stroke=|#[0-9a-f]{3}", drawn)
    kinds = {element.get("class") for element in root.iter()}
    assert {"work", "wait", "inoven", "demo", "heat", "check", "load"} <= kinds
    assert root.find("title").text == "Time plan, Leek tart"
