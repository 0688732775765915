"""Stations of a lesson, and what each reader of them does next."""

from datetime import date

import pytest

from kitchen.website.stations import Progress, lecturer_tasks, stations_of, stores_tasks


def named(progress):
    return {
        station.name: (station.state, station.words) for station in stations_of(progress, date(2027, 1, 5))
    }


def test_a_lesson_just_booked_has_everything_ahead_but_the_booking():
    stations = stations_of(Progress(learners=14), date(2027, 1, 5))
    assert [station.name for station in stations if not station.ahead] == ["Booked"]
    assert stations[0].words == "5 Jan"


def test_a_learner_without_a_bench_is_counted():
    assert named(Progress(learners=14, placed=13))["Places"] == ("doing", "13 of 14 placed")


def test_a_plan_that_does_not_fit_asks_for_a_hand():
    assert named(Progress(plan_fits=False))["Time plan"] == ("late", "does not fit")


def test_held_back_kits_stop_the_station_until_a_label_is_read():
    assert named(Progress(kits=9, kits_blocked=1))["Kits"] == ("stopped", "1 held back")
    assert named(Progress(kits=9, kits_blocked=1, issued=True))["Kits"] == ("done", "issued")


@pytest.mark.parametrize(
    "progress, first",
    [
        (Progress(learners=14), "lessons:places"),
        (Progress(learners=14, placed=14), "timeplan:plan"),
        (Progress(learners=14, placed=14, plan_fits=False), "timeplan:plan"),
        (Progress(learners=14, placed=14, plan_fits=True), "stores:kits"),
        (
            Progress(
                learners=14,
                placed=14,
                plan_fits=True,
                requisition="approved",
                attended=14,
                sittings=14,
                submitted=3,
            ),
            "marking:lesson",
        ),
    ],
)
def test_the_lecturer_does_first_what_the_others_wait_for(progress, first):
    assert lecturer_tasks(progress, past=False)[0].url_name == first


def test_after_the_lesson_only_marks_and_feedback_are_asked_for():
    progress = Progress(learners=14, attended=12, sittings=12, submitted=12, handed_back=2)
    tasks = lecturer_tasks(progress, past=True)
    assert [task.what for task in tasks] == ["Hand back feedback"]
    assert tasks[0].why == "10 not handed back."


def test_nothing_is_asked_when_all_is_done():
    done = Progress(
        learners=14,
        placed=14,
        plan_fits=True,
        requisition="approved",
        kits=9,
        lines=100,
        lines_weighed=100,
        issued=True,
        attended=14,
        sittings=14,
        submitted=14,
        handed_back=14,
    )
    assert lecturer_tasks(done, past=False) == []
    assert stores_tasks(done) == []


def test_the_stores_start_with_the_requisition_and_end_with_the_issue():
    assert stores_tasks(Progress(requisition="submitted"))[0].what == "Approve or query the requisition"
    assert stores_tasks(Progress(requisition="approved"))[0].what == "Make the kits"
    blocked = stores_tasks(Progress(requisition="approved", kits=9, kits_blocked=1, lines=90))
    assert [task.what for task in blocked] == ["Read the labels", "Weigh out"]
    assert blocked[0].copper
    weighed = Progress(requisition="approved", kits=9, lines=90, lines_weighed=90)
    assert stores_tasks(weighed)[0].what == "Issue the kits"
