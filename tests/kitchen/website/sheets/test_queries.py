"""What a sheet reads: names as people write them or as they are printed, what was agreed when."""

import pytest

from kitchen.website.sheets.access import Seat
from kitchen.website.sheets.queries import names_of, not_printed, sheet_of
from tests.builders.cast import build_cast
from tests.builders.lessons import an_adjustment

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


def own(cast):
    return Seat(cast.lesson, cast.place, (cast.learner,), is_own=True)


def staff(cast, *learners):
    return Seat(cast.lesson, cast.place, learners, is_own=False)


def test_names_to_print_stand_on_paper_only(cast):
    cast.student.name_to_print = "Ib"
    cast.student.save()
    assert names_of(own(cast), printed=False) == ("Learner N100", "Learner N101")
    assert names_of(own(cast), printed=True) == ("Ib", "Learner N101")


def test_letters_that_cannot_be_printed_are_told(cast):
    assert not_printed(own(cast)) == ""
    cast.student.name = "\U00013000"
    cast.student.save()
    assert "No font here has \U00013000." in not_printed(own(cast))


def test_what_has_ended_before_the_lesson_is_not_on_the_sheet(cast):
    row = an_adjustment(cast, cast.learner)
    assert sheet_of(own(cast)).adjustments == ("Extra time of 25 % is agreed.",)
    row.until_on = row.from_on
    row.save()
    assert sheet_of(own(cast)).adjustments == ()


def test_two_of_one_bench_get_the_longer_time(cast):
    an_adjustment(cast, cast.learner)
    an_adjustment(cast, cast.partner, kind="extra_time", percent=50)
    assert sheet_of(staff(cast, cast.learner, cast.partner)).adjustments == ("Extra time of 50 % is agreed.",)


def test_the_words_of_other_adjustments_stay_with_the_learner(cast):
    an_adjustment(cast, cast.learner, kind="quiet_bench", words="sits by the door")
    assert sheet_of(own(cast)).adjustments == ("Sits by the door.",)
    assert sheet_of(staff(cast, cast.learner)).adjustments == ()


def test_somebody_who_reads_large_on_the_screen_prints_large(cast):
    assert not sheet_of(own(cast)).large_print
    cast.student.large_print = True
    cast.student.save()
    cast.learner.user.refresh_from_db()
    assert sheet_of(own(cast)).large_print
