"""Who may plan and change, and whose work a key names."""

import pytest
from django.core.exceptions import PermissionDenied
from django.http import Http404

from kitchen.timeplan import access
from kitchen.timeplan.actions import plan_longer
from tests.builders.cast import build_cast

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


def test_lecturer_plans_and_changes_cover_only_plans(cast):
    assert access.may(cast.lecturer, cast.lesson) == {"plan": True, "change": True, "read_fixed": True}
    assert access.may(cast.cover, cast.lesson) == {"plan": True, "change": False, "read_fixed": True}
    nothing = {"plan": False, "change": False, "read_fixed": False}
    assert access.may(cast.technician, cast.lesson) == nothing
    assert access.may(cast.people["manager"], cast.lesson) == nothing | {"read_fixed": True}


def test_work_is_found_by_its_key_and_lesson(cast):
    job = plan_longer(lesson=cast.lesson, by=cast.lecturer)
    assert access.job_of(cast.lesson, str(job.key)) == job
    with pytest.raises(Http404):
        access.job_of(cast.other_lesson, str(job.key))
    with pytest.raises(Http404):
        access.job_of(cast.lesson, "")


def test_a_strip_is_only_its_learners(cast):
    assert access.own_place(cast.student, cast.lesson.code).place == cast.place
    with pytest.raises(Http404):
        access.own_place(cast.other_student, cast.lesson.code)
    with pytest.raises(PermissionDenied):
        access.own_place(cast.lecturer, cast.lesson.code)
