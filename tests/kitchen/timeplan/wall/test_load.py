"""The load of the room: by the minute as bars say it, in words for each quarter of an hour."""

from dataclasses import replace

from kitchen.timeplan.plan import Bar, BenchPlan, PlanLine
from kitchen.timeplan.wall.load import Held, Run, hands_by_minute, lecturer_by_minute, load_table
from tests.builders.timeplan_plans import a_plan


def bench(name, *bars, beside=""):
    lines = tuple(PlanLine(b.start, b.end, b.step, "Work.", b.minutes, beside=beside) for b in bars)
    return BenchPlan(name, (), "Tart", 1, bars, lines)


def hands(start, minutes, step=1):
    return Bar(start, minutes, "hands", step)


def test_hands_are_counted_from_minute_to_minute():
    plan = a_plan(bench("1", hands(555, 10)), bench("2", hands(560, 10)))
    assert hands_by_minute(plan) == (
        Run(540, 555, 0),
        Run(555, 560, 1),
        Run(560, 565, 2),
        Run(565, 570, 1),
        Run(570, 720, 0),
    )


def test_a_count_that_stays_the_same_is_one_stretch():
    plan = a_plan(bench("1", hands(555, 10)), bench("2", hands(565, 10)))
    assert hands_by_minute(plan) == (Run(540, 555, 0), Run(555, 575, 1), Run(575, 720, 0))


def test_what_ends_as_a_quarter_begins_is_none_of_it():
    plan = a_plan(bench("1", hands(555, 15), beside="young"))
    rows = {row.at: row for row in load_table(replace(plan, shows=()))}
    assert (rows["09:00"].lecturer, rows["09:15"].lecturer) == ("", "beside bench 1")
    assert (rows["09:30"].hands, rows["09:30"].lecturer) == (0, "")


def test_the_lecturer_is_held_by_demonstrations_and_by_who_needs_somebody_beside():
    plan = a_plan(bench("1", hands(555, 10), beside="young"), bench("2", hands(560, 10)))
    shows = plan.shows
    assert lecturer_by_minute(plan)[-1] == Held(555, 565, "1", False)
    assert [held.words for held in lecturer_by_minute(plan) if held.shows] == [f"D{s.step}" for s in shows]


def test_the_table_says_the_most_of_each_quarter():
    plan = a_plan(bench("1", hands(555, 10)), bench("2", hands(560, 10), Bar(570, 20, "oven", 2, "Oven 1")))
    rows = {row.at: row for row in load_table(plan)}
    assert (rows["09:15"].hands, rows["09:15"].bakes) == (2, 0)
    assert (rows["09:30"].hands, rows["09:30"].bakes) == (0, 1)
    assert rows["11:45"] == replace(rows["11:45"], hands=0, bakes=0, lecturer="")


def test_a_demonstration_is_said_in_words():
    assert "demonstration of step 2" in [
        row.lecturer for row in load_table(a_plan(bench("1", hands(580, 5))))
    ]
