"""What a sheet reads: names as people write them or as they are printed, what was agreed when."""

import pytest

from kitchen.website.sheets.access import Seat, seats_of
from kitchen.website.sheets.queries import not_printed, sheet_of, sheets_of
from tests.builders.cast import build_cast
from tests.builders.lessons import an_adjustment, benches

#: Whatever the number of benches: access, benches with learners, recipes, techniques, people, agreed, day.
QUERIES = 13

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    cast = build_cast()
    cast.lesson.assessed = True
    cast.lesson.save()
    return cast


def own(cast):
    return Seat(cast.lesson, cast.place, (cast.learner,), is_own=True)


def staff(cast, *learners):
    return Seat(cast.lesson, cast.place, learners, is_own=False)


def test_names_to_print_stand_on_paper_only(cast):
    cast.student.name_to_print = "Ib"
    cast.student.save()
    assert sheet_of(own(cast)).names == ("Learner N100", "Learner N101")
    assert sheet_of(own(cast), printed=True).names == ("Ib", "Learner N101")


def test_letters_that_cannot_be_printed_are_told_before_and_on_the_sheet(cast):
    assert not_printed([own(cast)]) == ""
    assert sheet_of(own(cast), printed=True).name_note == ""
    cast.student.name = "\U00013000 Ib"
    cast.student.save()
    assert "every letter of \U00013000 Ib" in not_printed([own(cast)])
    sheet = sheet_of(own(cast), printed=True)
    assert sheet.names == ("Ib (1 letter not printed)", "Learner N101")
    assert "Write it in by hand" in sheet.name_note
    assert sheet_of(own(cast)).names[0] == "\U00013000 Ib"


def test_a_name_to_print_without_its_letters_gives_way_to_the_name(cast):
    cast.student.name_to_print = "\U00013000"
    cast.student.save()
    assert sheet_of(own(cast), printed=True).names == ("Learner N100", "Learner N101")


def test_practice_has_no_extra_time(cast):
    an_adjustment(cast, cast.learner)
    assert sheet_of(own(cast)).adjustments == ("Extra time of 25 % is agreed.",)
    cast.lesson.assessed = False
    assert sheet_of(own(cast)).adjustments == ()


@pytest.mark.parametrize("count", [3, 30])
def test_the_sheets_of_a_lesson_take_a_fixed_number_of_queries(cast, count, django_assert_num_queries):
    benches(cast, count)
    with django_assert_num_queries(QUERIES):
        lesson, seats = seats_of(cast.lecturer, cast.lesson.code)
        sheets = sheets_of(seats, printed=True)
    assert [sheet.plate for sheet in sheets] == [str(number) for number in range(1, count + 1)]


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
