"""The picture for the wall: everything on it, nothing outside it, on as many pages as it needs."""

from dataclasses import replace

import pytest

from kitchen.timeplan.picture import in_lanes
from kitchen.timeplan.plan import Bar, BenchPlan
from kitchen.timeplan.wall.layout import HEAD, height_of, oven_words, pages, short
from tests.builders.timeplan_plans import a_bench, a_plan


def of(marks, kind):
    return [mark for mark in marks if mark.kind == kind]


@pytest.mark.parametrize("count", [1, 7, 30])
def test_every_bench_is_on_it_once_and_nothing_is_outside(count):
    plan = a_plan(*(a_bench(n) for n in range(1, count + 1)))
    (marks,) = pages(plan, 60)
    names = [mark.words for mark in of(marks, "name")]
    assert names[:count] == [f"Bench {n}" for n in range(1, count + 1)]
    assert names[count:] == ["Oven 1", f"Hands: {count}", f"Ovens: {count}", "Lecturer"]
    assert all(mark.x >= 0 and mark.x + mark.wide <= 60 for mark in marks)
    assert max(mark.y + mark.high for mark in marks) == pytest.approx(height_of(plan))


def test_nobody_is_named_on_it():
    (marks,) = pages(a_plan(a_bench(1)), 60)
    assert not [mark for mark in marks if "Ada" in mark.words]


def test_states_differ_in_shape_and_not_only_in_colour():
    (marks,) = pages(a_plan(a_bench(1, beside="young")), 60)
    shapes = ("hands", "wait", "baking", "show", "heat", "beside", "rest")
    assert all(of(marks, kind) for kind in shapes)
    assert [mark.words for mark in of(marks, "hands")] == ["2"]
    assert "180\xa0°C" in [mark.words for mark in of(marks, "figure")]


def test_a_small_page_goes_on_over_the_next_under_the_same_clock():
    plan = a_plan(*(a_bench(n) for n in range(1, 31)))
    found = pages(plan, 56, 36)
    assert len(found) > 1
    assert all(max(mark.y + mark.high for mark in marks) <= 36 for marks in found)
    assert len({tuple(m.words for m in of(marks, "hour")) for marks in found}) == 1
    assert sum(len([m for m in of(marks, "name") if "Bench" in m.words]) for marks in found) == 30


def test_columns_of_demonstrations_go_through_the_benches_of_each_page():
    first, *_ = pages(a_plan(*(a_bench(n) for n in range(1, 31))), 56, 36)
    column = max(of(first, "show"), key=lambda mark: mark.high)
    assert column.y == HEAD
    assert column.high == pytest.approx(26 * 1.3, abs=1.3)


def test_words_over_columns_that_would_touch_stand_together():
    plan = a_plan(a_bench(1))
    again = replace(plan.shows[0], start=546, minutes=3, step=7)
    (marks,) = pages(replace(plan, shows=(*plan.shows, again)), 60)
    assert [mark.words for mark in of(marks, "over")] == ["D2 D7"]


@pytest.mark.parametrize(("minutes", "words"), [(1, ""), (30, "12")])
def test_a_step_is_written_into_its_bar_only_where_it_fits(minutes, words):
    own = BenchPlan("1", (), "Tart", 1, (Bar(560, minutes, "hands", 12),), ())
    (marks,) = pages(a_plan(own), 60)
    assert [mark.words for mark in of(marks, "hands")] == [words]


def test_two_pieces_of_work_at_once_have_a_lane_each():
    both = (Bar(560, 20, "hands", 2), Bar(570, 20, "hands", 3), Bar(600, 5, "hands", 4))
    assert [lane for _, lane in in_lanes(BenchPlan("1", (), "Tart", 1, both, ()))] == [0, 1, None]


def test_a_long_name_is_cut_with_a_sign():
    assert short("Convection oven", 9) == "Convecti…"


def test_the_two_decks_of_an_oven_never_read_the_same():
    assert oven_words("Oven 13") == "Oven 13"
    assert [oven_words(f"Oven 12, {deck} deck") for deck in ("upper", "lower")] == ["12 upper", "12 lower"]
