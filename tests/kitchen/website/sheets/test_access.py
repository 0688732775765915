"""Whose bench it is: one's own, or any for the staff; what was agreed only for who teaches."""

import pytest
from django.core.exceptions import PermissionDenied
from django.http import Http404

from kitchen.website.sheets.access import own_seat, seat_at, seats_of
from tests.builders.cast import build_cast
from tests.builders.lessons import benches

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


def test_a_learner_has_their_own_seat_only(cast):
    seat = own_seat(cast.student, cast.lesson.code)
    assert (seat.place, seat.learners, seat.is_own) == (cast.place, (cast.learner,), True)
    assert seat_at(cast.student, cast.lesson.code, cast.place.code).is_own
    with pytest.raises(Http404):
        seat_at(cast.student, cast.lesson.code, "ANOTHER2")
    with pytest.raises(Http404):
        own_seat(cast.other_student, cast.lesson.code)


def test_staff_have_no_seat_of_their_own(cast):
    with pytest.raises(PermissionDenied):
        own_seat(cast.lecturer, cast.lesson.code)


def test_only_who_teaches_reads_what_was_agreed(cast):
    seats = {
        name: seat_at(cast.person(name), cast.lesson.code, cast.place.code).learners
        for name in ("lecturer", "cover", "technician", "other_lecturer")
    }
    both = {cast.learner, cast.partner}
    assert set(seats["lecturer"]) == set(seats["cover"]) == both
    assert seats["technician"] == seats["other_lecturer"] == ()


def test_a_guest_sees_no_bench(cast):
    with pytest.raises(PermissionDenied):
        seat_at(cast.external, cast.lesson.code, cast.place.code)


def test_staff_read_every_bench_in_order_and_only_who_teaches_what_was_agreed(cast):
    benches(cast, 3)
    lesson, seats = seats_of(cast.lecturer, cast.lesson.code)
    assert lesson == cast.lesson
    assert [seat.place.bench.number for seat in seats] == [1, 2, 3]
    assert set(seats[0].learners) == {cast.learner, cast.partner}
    assert all(seat.learners == () for seat in seats_of(cast.technician, cast.lesson.code)[1])


def test_learners_and_guests_do_not_read_the_benches_of_a_lesson(cast):
    for by in (cast.student, cast.external):
        with pytest.raises(PermissionDenied):
            seats_of(by, cast.lesson.code)
