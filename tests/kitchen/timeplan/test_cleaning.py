"""Time to clean stands in the strip where hands are free, and contingency before clear-down."""

from dataclasses import replace

from kitchen.timeplan.cleaning import free_times
from kitchen.timeplan.plan import Bar, BenchPlan
from tests.builders.timeplan_plans import a_plan


def bench(*spans):
    bars = [Bar(start, end - start, "hands", step) for step, (start, end) in enumerate(spans, 1)]
    return BenchPlan("1", (), "Tart", 1, tuple(bars), ())


def spans(plan, own):
    return [(free.start, free.end, free.before) for free in free_times(plan, own)]


def test_hands_that_are_free_between_two_pieces_of_work_clean():
    own = bench((560, 580), (600, 610))
    assert spans(a_plan(own), own) == [(580, 600, 2)]


def test_four_minutes_are_no_time_to_clean_and_five_are():
    own = bench((560, 580), (584, 590), (595, 600))
    assert spans(a_plan(own), own) == [(590, 595, 3)]


def test_nobody_cleans_while_something_is_shown_or_in_the_break():
    own = bench((560, 580), (620, 630))
    plan = a_plan(own)
    show = replace(plan.shows[0], start=590, minutes=5)
    busy = replace(plan, shows=(show,), break_at=605, break_minutes=10)
    assert spans(busy, own) == [(580, 590, 2), (595, 605, 2), (615, 620, 2)]


def test_what_is_shown_or_a_break_after_the_last_work_leaves_no_time_to_clean_before_it():
    own = bench((560, 580), (600, 610))
    plan = a_plan(own)
    show = replace(plan.shows[0], start=640, minutes=5)
    assert spans(replace(plan, shows=(show,)), own) == [(580, 600, 2)]
    assert spans(replace(plan, break_at=640, break_minutes=10), own) == [(580, 600, 2)]


def test_two_pieces_of_work_at_once_leave_no_gap_where_one_goes_on():
    own = bench((560, 600), (565, 570), (602, 610))
    assert spans(a_plan(own), own) == []


def test_contingency_is_the_last_before_clear_down():
    own = bench((560, 580))
    plan = replace(a_plan(own), contingency_minutes=10)
    (free,) = free_times(plan, own)
    assert (free.kind, free.minutes, free.end) == ("contingency", 10, plan.clear_at)
    assert free_times(a_plan(own), own) == ()


def test_a_bench_without_work_has_nothing_to_clean():
    assert free_times(a_plan(bench()), bench()) == ()
