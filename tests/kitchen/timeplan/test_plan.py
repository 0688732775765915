"""The plan as people read it: bars, lines, ovens and demonstrations on the clock."""

from dataclasses import replace

import pytest

from kitchen.timeplan.calls import calls_of
from kitchen.timeplan.effort import Effort
from kitchen.timeplan.lead import plan_lesson
from kitchen.timeplan.pages import strip_lines
from kitchen.timeplan.paper import strip_rows
from kitchen.timeplan.picture import described, picture
from kitchen.timeplan.plan import Bar
from kitchen.timeplan.words import slip
from tests.builders.timeplan_lessons import class_of, college_lesson


@pytest.fixture(scope="module")
def plan():
    return plan_lesson(college_lesson("main-1"), Effort(work=0.6)).plan


def test_every_bench_has_its_steps_in_order_of_the_clock(plan):
    for bench in plan.benches:
        starts = [line.start for line in bench.lines]
        assert starts == sorted(starts)
        assert {line.step for line in bench.lines} == {3, 4, 5, 6, 7, 8, 9}


def test_nothing_is_before_cooking_or_after_the_finish(plan):
    bars = [bar for bench in plan.benches for bar in bench.bars]
    assert min(bar.start for bar in bars) >= plan.cooking_from == 9 * 60 + 15
    assert max(bar.end for bar in bars) == plan.finish_at


def test_the_line_says_where_food_stays_and_until_when(plan):
    line = next(line for line in plan.benches[0].lines if line.step == 5)
    out = line.start + 4 + 14
    bar = next(bar for bar in plan.benches[0].bars if bar.step == 5 and bar.kind == "oven")
    assert line.points == (f"Until {out // 60:02d}:{out % 60:02d} in {bar.where}: 180\xa0°C fan for 14 min.",)


def test_cooling_first_is_said_from_its_beginning(plan):
    line = next(line for line in plan.benches[0].lines if line.step == 9)
    assert line.points[0].startswith("From ")
    assert "on the bench: 25 min." in line.points[0]


def test_a_variant_has_its_own_words_and_minutes(plan):
    line = next(line for line in plan.benches[6].lines if line.step == 7)
    assert line.hands_minutes == 10
    assert plan.benches[6].free_from == ("egg",)
    assert plan.benches[0].free_from == ()


def test_ovens_are_lit_in_time(plan):
    seconds = {each.code: each.heat_seconds_per_10 for each in college_lesson("main-1").appliances}
    for oven in plan.ovens:
        first = oven.heats[0]
        minutes = (first.decicelsius - 200) / 100 * seconds[oven.code] / 60
        assert 0 <= first.start - oven.light_at - minutes < 1
        assert oven.light_at >= plan.cooking_from
    assert {heat.decicelsius for oven in plan.ovens for heat in oven.heats} == {1800, 1550}


def test_with_ovens_enough_none_changes_its_heat(plan):
    assert [len(oven.heats) for oven in plan.ovens] == [1] * len(plan.ovens)


@pytest.fixture(scope="module")
def assessed():
    lesson = replace(college_lesson("main-1"), minutes=240, minutes_a_plate=4)
    return plan_lesson(lesson, Effort(work=0.6)).plan


def test_every_plate_goes_to_the_pass_within_minutes_of_its_last_step(assessed):
    for bench in assessed.benches:
        line = bench.lines[-1]
        assert (line.step, line.end - line.start, line.called) == (0, 4, False)
        done = max(bar.end for bar in bench.bars if bar.kind != "pass")
        assert 0 <= line.start - done <= 10


def test_one_taster_takes_one_plate_after_another(assessed):
    tasted = sorted((bench.lines[-1].start, bench.lines[-1].end) for bench in assessed.benches)
    for (_, end), (start, _) in zip(tasted, tasted[1:], strict=False):
        assert end <= start


def test_demonstrations_are_on_the_fives_and_one_after_another(plan):
    assert [show.start % 5 for show in plan.shows] == [0, 0, 0, 0]
    for first, second in zip(plan.shows, plan.shows[1:], strict=False):
        assert first.start + first.minutes <= second.start
    assert [show.step for show in plan.shows] == [4, 5, 6, 8]


def test_figures_of_the_plan_agree(plan):
    assert plan.fits
    assert plan.spare_minutes == 135 - plan.finish_minutes
    assert plan.gap_minutes == plan.finish_minutes - plan.bound_minutes >= 0
    assert plan.minutes_over == 0


def test_an_oven_that_changes_while_the_food_is_in_shows_both_heats():
    plan = plan_lesson(class_of("R03", "saffron", 1, 240), None).plan
    assert [heat.decicelsius for heat in plan.ovens[0].heats] == [1800, 1500]
    line = next(line for line in plan.benches[0].lines if line.step == 6)
    assert line.points[0].endswith("180\xa0°C fan for 25 min, then 150\xa0°C fan for 15 min, door shut.")


def test_a_demonstration_is_in_the_words_of_the_ordinary_recipe(plan):
    sealing = next(show for show in plan.shows if show.step == 6)
    assert "brush it with beaten egg" in sealing.words


@pytest.fixture(scope="module")
def with_break():
    lesson = college_lesson("main-1")
    lesson = replace(
        lesson, break_after=75, break_minutes=15, contingency_minutes=5, minutes=lesson.minutes + 30
    )
    return plan_lesson(lesson, None).plan


def test_a_break_that_begins_in_the_start_up_stands_with_the_part_after_it():
    lesson = replace(college_lesson("main-1"), break_after=10, break_minutes=15)
    plan = plan_lesson(lesson, None).plan
    assert (plan.break_at, plan.break_minutes) == (plan.cooking_from, 10)
    plan = plan_lesson(replace(lesson, break_minutes=5), None).plan
    assert (plan.break_at, plan.break_minutes) == (0, 0)


def test_a_break_stands_on_the_page_the_picture_the_strips_and_the_papers(with_break):
    plan, bench = with_break, with_break.benches[0]
    assert (plan.break_at, plan.break_end, plan.clear_at) == (615, 630, plan.ends - 30)
    assert plan.usable_minutes == plan.clear_at - plan.cooking_from - 5
    for each in plan.benches:
        assert not [b for b in each.bars if b.kind == "hands" and b.start < 630 and b.end > 615]
    (call,) = [call for call in calls_of(plan) if call.kind == "break"]
    assert (call.at, call.minutes) == ("10:15", 15)
    (line,) = [line for line in strip_lines(plan, bench) if line.head == "Break"]
    assert (line.at, line.minutes) == ("10:15", 15)
    assert [row[0] for row in strip_rows(plan, bench) if str(row[1]).startswith("Break until 10:30")] == [
        "10:15"
    ]
    assert "Everybody has a break from 10:15 to 10:30." in described(plan)
    assert 'class="pause"' in picture(plan)
    figures = {line.words: line.figure for line in slip(plan, 100)}
    assert (figures["Break within it"], figures["Kept free before clear-down"]) == ("15 min", "5 min")


def test_food_that_is_ready_in_the_break_is_named_for_whoever_minds_the_ovens(with_break):
    bench = with_break.benches[0]
    alone = replace(bench, bars=(*bench.bars, Bar(602, 20, "oven", 9, "Oven 1")))
    calls = calls_of(replace(with_break, benches=(alone,)))
    (call,) = [call for call in calls if call.kind == "break"]
    assert f"Out of the oven at 10:22: bench {bench.name}." in call.points
