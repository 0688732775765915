"""What stands on a label is told apart facet by facet; which lot it comes from is no facet."""

from dataclasses import replace

import pytest

from kitchen.lessons.papers.force import WHOLE, Issue, Printed, voids
from kitchen.stores.prints.said import issue_sheet_parts, label_parts, requisition_parts
from kitchen.stores.trays import tray_of
from tests.builders.kits import quiche_kits

TRAYS = tuple(tray_of(kit, ("Otto",)) for kit in quiche_kits(ahead_steps=()))
WHEN = ("2027-02-16", "09:00", "Juniper Kitchen", "PC2-A")
FIRST = replace(TRAYS[0], code="K1")


def labels(tray, when=WHEN, cold=""):
    return label_parts([tray], when, {tray.code: cold})


def changed(**changes):
    """The facets that a change of the first tray makes others."""
    said = {"when": changes.pop("when", WHEN), "cold": changes.pop("cold", "")}
    printed = Printed(1, "labels", 1, None, labels(FIRST))
    now = Issue("labels", 2, None, labels(replace(FIRST, **changes), said["when"], said["cold"]))
    return tuple(facet for void in voids(printed, now) for facet in void.facets)


@pytest.mark.parametrize(
    ("change", "facet"),
    [
        ({"cooks": ("Jonas",)}, "names"),
        ({"title": "Quiche without gluten"}, "recipe"),
        ({"lines": FIRST.lines[1:]}, "weights"),
        ({"free_for": ("Otto",)}, "allergens"),
        ({"blocked_why": "No label read."}, "whether it may leave"),
        ({"when": ("2027-02-18", *WHEN[1:])}, "time and place"),
        ({"cold": "09:40"}, "time out of the cold"),
    ],
)
def test_each_change_of_a_tray_is_a_facet(change, facet):
    assert facet in changed(**change)


def test_nothing_changed_another_code_and_other_lots_are_no_change():
    lots = tuple(replace(line, draws=(("LT-9", 1000),), weighed="10:51, HB") for line in FIRST.lines)
    assert changed() == changed(code="K2") == changed(lines=lots) == ()


def test_a_sheet_is_one_part_and_knows_its_sums_and_state():
    assert set(issue_sheet_parts(TRAYS, WHEN)) == {WHOLE}
    assert issue_sheet_parts(TRAYS, WHEN) != issue_sheet_parts(TRAYS[1:], WHEN)
    one = requisition_parts({"butter": 1_280_000}, "approved", WHEN)
    assert one != requisition_parts({"butter": 1_440_000}, "approved", WHEN)
    assert one != requisition_parts({"butter": 1_280_000}, "submitted", WHEN)
