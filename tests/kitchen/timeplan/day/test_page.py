"""The rows of the day: what is now, what is next, how late, and which buttons a person has."""

import pytest

from kitchen.timeplan.day.live import Deed, live
from kitchen.timeplan.day.page import bench_rows, bench_steps, board_rows
from kitchen.timeplan.day.told import Told, after_a_wait, clause, short_words
from kitchen.timeplan.lead import plan_lesson
from tests.builders.day import as_planned
from tests.builders.timeplan_lessons import college_lesson


@pytest.fixture(scope="module")
def planned():
    return plan_lesson(college_lesson("main-2"), None)


def at(planned, now, *deeds, as_it_should=True):
    taps = as_planned(planned.problem, planned.solved.answer, now) if as_it_should else []
    more = [Deed(len(taps) + n, *deed) for n, deed in enumerate(deeds, 1)]
    names = {oven.code: oven.name for oven in planned.plan.ovens}
    return Told(planned.plan, live(planned.problem, planned.solved.answer, [*taps, *more], now), names)


def test_every_bench_has_one_first_row_at_every_minute(planned):
    for now in range(-15, planned.plan.finish_minutes + 10, 7):
        rows = [row for row in bench_rows(at(planned, now)) if not row.also]
        assert [row.name for row in rows] == [bench.name for bench in planned.plan.benches]
        assert not any(row.needs_a_hand for row in rows), now


def test_every_row_at_work_can_be_ended_and_every_row_to_start_begun(planned):
    for now in range(0, planned.plan.finish_minutes, 7):
        for row in bench_rows(at(planned, now)):
            whats = [tap.what for tap in row.taps]
            if row.state == "doing":
                assert whats[0] == "done"
            elif row.state == "todo":
                assert whats[0] == "started"


def test_nobody_tapping_makes_a_row_late(planned):
    first = min(planned.solved.answer.starts[t.name] for t in planned.problem.tasks if t.hands)
    rows = bench_rows(at(planned, first + 6, as_it_should=False))
    late = [row for row in rows if row.state == "late"]
    assert late
    assert late[0].state_words == "Late by 6 min"
    assert (late[0].minutes, late[0].counted) == (-6, "late")


def test_an_oven_that_failed_stops_the_row_of_its_bench(planned):
    bake = next(t for t in planned.problem.tasks if t.bake)
    now = planned.solved.answer.starts[bake.name] + 2
    oven = planned.solved.answer.ovens[bake.name]
    rows = bench_rows(at(planned, now, ("failed", now, "", "", oven)))
    (row,) = [row for row in rows if row.name == bake.bench and not row.also]
    assert (row.state, row.state_words) == ("stopped", "No oven")


def test_a_bench_without_anybody_says_so_and_the_board_does_not_say_why(planned):
    away = [("absent", 3, "", "1")] * 2
    told = at(planned, 3, *away)
    assert bench_rows(told)[0].state_words == "Absent"
    board = board_rows(told)[0]
    assert (board.words, board.state_words) == ("Not in use.", "")


def test_the_board_has_numbers_and_words_and_no_person(planned):
    names = {part for bench in planned.plan.benches for name in bench.learners for part in name.split()}
    for row in board_rows(at(planned, 30)):
        assert row.who == ""
        assert row.taps == ()
        assert not names & set(row.words.replace(",", " ").split())


def test_the_board_says_the_ordinary_recipe_at_a_bench_with_a_variant(planned):
    ordinary = {line.step: line.words for b in planned.plan.benches if not b.free_from for line in b.lines}
    variants = [b.name for b in planned.plan.benches if b.free_from]
    for row in board_rows(at(planned, 20)):
        step = row.words.split(".")[0]
        if row.name in variants and step.isdigit():
            assert row.words.startswith(f"{step}. {clause(ordinary[int(step)])}")


def test_the_bench_page_has_every_part_by_the_clock(planned):
    told = at(planned, 40)
    steps = bench_steps(told, planned.plan.benches[0])
    assert len(steps) == sum(t.bench == "1" for t in planned.problem.tasks)
    assert [step.planned for step in steps] == sorted(step.planned for step in steps)
    assert any(tap.what == "again" for step in steps for tap in step.taps)


@pytest.mark.parametrize(
    ("words", "short"),
    [
        ("Bake. Turn once.", "Bake"),
        ("Whisk the custard, strain it", "Whisk the custard"),
        ("Cool, then cut", "Cool, then cut"),
    ],
)
def test_a_row_says_the_first_clause(words, short):
    assert clause(words) == short
    assert len(short_words("word " * 30)) < 60


def test_what_comes_after_a_wait_is_said_in_other_words_than_the_wait(planned):
    bench = planned.plan.benches[0]
    cooled = [step for step in bench_steps(at(planned, 0), bench) if step.words.startswith("4. ")]
    assert [step.words for step in cooled] == [
        "4. Cool a little, on the bench",
        "4. then beat in egg by stages",
    ]


def test_no_two_buttons_of_a_bench_are_called_alike(planned):
    for bench in planned.plan.benches:
        labels = [tap.label for step in bench_steps(at(planned, 0), bench) for tap in step.taps]
        assert len(labels) == len(set(labels)) > 9


@pytest.mark.parametrize(
    ("words", "then"),
    [
        ("Cool on a wire, then unmould, portion and present.", "then unmould, portion and present"),
        ("Rest, then cut in four: even pieces.", "then cut in four"),
        ("Cool level and trim.", ""),
    ],
)
def test_the_clause_after_a_wait(words, then):
    assert after_a_wait(words) == then
