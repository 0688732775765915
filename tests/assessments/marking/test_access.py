"""Whose sheet a person marks."""

import pytest

from assessments.marking import actions
from assessments.marking.access import latest_row, own_part
from curriculum.people.models import RoleGrant
from tests.builders.cast import TERM, build_cast
from tests.builders.marking import opened

pytestmark = pytest.mark.django_db


def test_a_second_marker_who_is_made_cover_stays_blind_to_the_first_sheet():
    cast = build_cast()
    opened(cast)
    actions.name_marker(lesson=cast.lesson, marker=cast.second_marker, by=cast.lecturer)
    RoleGrant.objects.create(user=cast.second_marker, role="lecturer", from_on=TERM)
    cast.lesson.cover = cast.second_marker
    cast.lesson.save()
    row = latest_row(cast.lesson, cast.learner.college_number)
    assert own_part(cast.second_marker, cast.lesson, row) == "second"
    assert own_part(cast.lecturer, cast.lesson, row) == "first"
