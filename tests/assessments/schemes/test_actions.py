"""Keeping schemes, writing briefs, having them checked by another person."""

import pytest

from assessments.marking.actions import open_sittings
from assessments.schemes.actions import check_briefs, keep_scheme, write_briefs
from assessments.schemes.models import Brief, SchemeVersion
from curriculum.errors import RuleBroken
from tests.builders.cast import build_cast
from tests.builders.marking import briefed, kept_scheme
from tests.builders.schemes import scheme_json

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


def refused(code, do):
    with pytest.raises(RuleBroken) as error:
        do()
    assert error.value.code == code
    return error.value.message


def test_the_same_scheme_is_kept_once_and_a_changed_one_is_a_new_version(cast):
    first = keep_scheme(content=scheme_json("hundred_points"), by=cast.manager)
    assert keep_scheme(content=scheme_json("hundred_points"), by=cast.manager) == first
    changed = {**scheme_json("hundred_points"), "note": "Another note."}
    assert keep_scheme(content=changed, by=cast.manager).number == 2
    assert SchemeVersion.objects.get(pk=first.pk).content == scheme_json("hundred_points")


def test_criteria_and_events_become_rows_that_marks_can_point_to(cast):
    version = keep_scheme(content=scheme_json("hundred_points"), by=cast.manager)
    codes = list(version.criteria.values_list("code", "kind"))
    assert codes[0] == ("organisation", "judgement")
    assert codes[-1] == ("core_not_reached", "event")


def test_a_scheme_that_does_not_add_up_is_refused_in_words(cast):
    content = scheme_json("hundred_points")
    content["criteria"][0]["milli_points"] = 10_000
    message = refused("scheme_unusable", lambda: keep_scheme(content=content, by=cast.manager))
    assert "add up to 95 points" in message
    assert SchemeVersion.objects.count() == 0


def write(cast, **more):
    return write_briefs(
        **{"lesson": cast.lesson, "scheme_version": kept_scheme(cast), "by": cast.lecturer, **more}
    )


def test_a_brief_copies_targets_and_proposes_techniques(cast):
    (brief,) = write(cast)
    assert brief.techniques == ["rubbing_in"]
    assert brief.targets["portion_milligrams"] == 35_000
    assert (brief.minutes, brief.checked_by) == (cast.lesson.usable_minutes, None)


def test_nobody_checks_the_brief_they_wrote(cast):
    write(cast)
    refused("checked_by_another", lambda: check_briefs(lesson=cast.lesson, by=cast.lecturer))
    (brief,) = check_briefs(lesson=cast.lesson, by=cast.verifier)
    assert brief.checked_by == cast.verifier and brief.checked_at


def test_a_brief_written_again_is_checked_again(cast):
    write(cast)
    check_briefs(lesson=cast.lesson, by=cast.verifier)
    (brief,) = write(cast, minutes=120)
    assert (brief.minutes, brief.checked_by) == (120, None)
    assert Brief.objects.count() == 1


def test_once_sheets_are_open_the_brief_stays(cast):
    briefed(cast)
    open_sittings(lesson=cast.lesson, by=cast.lecturer)
    refused("marking_has_begun", lambda: write(cast))


def test_techniques_that_the_dish_does_not_train_are_refused(cast):
    message = refused("not_trained", lambda: write(cast, techniques=["flambé"]))
    assert "flambé" in message


def test_too_few_techniques_for_the_scheme_are_refused(cast):
    four = keep_scheme(content=scheme_json("hundred_points"), by=cast.manager)
    message = refused("too_few_techniques", lambda: write(cast, scheme_version=four))
    assert "marks 4 techniques; Shortbread has 1" in message


def test_there_is_nothing_to_check_before_a_brief_is_written(cast):
    refused("no_brief", lambda: check_briefs(lesson=cast.lesson, by=cast.verifier))
