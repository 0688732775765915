"""A learner's first page leads to the order of work that they write themselves."""

import pytest
from django.urls import reverse

from kitchen.website.days.student import student_day
from tests.builders.cast import TODAY, build_cast
from tests.builders.own_order import assess, handed_in, kept

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


def lines(cast):
    page = student_day(cast.student, TODAY)
    return next(section.lines for section in page.sections if section.heading == "Your order of work")


def test_each_coming_lesson_has_its_order_of_work(cast):
    (line,) = lines(cast)
    assert line.url == reverse("timeplan:own_order", kwargs={"lesson": cast.lesson.code})
    assert (line.state_words, line.detail) == ("Not begun", "Bench 1.")


def test_the_line_says_how_far_it_is(cast):
    kept(cast)
    assert lines(cast)[0].state_words == "Being written"


def test_where_it_is_assessed_the_line_says_so(cast):
    assess(cast)
    handed_in(cast)
    (line,) = lines(cast)
    assert line.state_words == "Handed in"
    assert line.detail.startswith("Assessed: the site’s plan is shown once yours is handed in.")


def test_a_lesson_that_is_only_shown_asks_for_none(cast):
    cast.lesson.kind = "demonstration"
    cast.lesson.save()
    assert lines(cast) == []
