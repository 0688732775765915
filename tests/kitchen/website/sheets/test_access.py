"""Whose bench it is: one's own, or any for the staff; what was agreed only for who teaches."""

import pytest
from django.core.exceptions import PermissionDenied
from django.http import Http404

from kitchen.website.sheets.access import own_seat, seat_at
from tests.builders.cast import build_cast

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
