"""From a booking to kits that have left the stores, through the pages alone."""

import pytest
from django.db.models import Sum

from kitchen.lessons.models import Lesson
from kitchen.stores.models import Kit, KitLine, Movement
from tests.builders.cast import build_cast
from tests.builders.lessons import avoids
from tests.builders.stores import a_lot
from tests.flows.person import Person

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    made = build_cast()
    a_lot("plain_flour", "FLOUR-1", grams=3000)
    a_lot("butter", "BUTTER-1", grams=2000)
    return made


def booked(cast):
    """The lecturer books a lesson and gives out the benches as they are proposed."""
    lecturer = Person(cast.lecturer)
    lecturer.open("lessons:book")
    lecturer.send(
        version=cast.recipe_version.pk,
        kind="practical",
        working="pair",
        portions_a_bench="8",
        on="23 February 2027",
        starts="09:00",
        ends="12:00",
        room=cast.room.pk,
        group=cast.group.pk,
        lecturer=cast.lecturer.pk,
        demonstration_batches="1",
        spare_batches="0",
    )
    lesson = Lesson.objects.exclude(pk__in=[cast.lesson.pk, cast.other_lesson.pk]).get()
    lecturer.open("lessons:places", lesson=lesson.code)
    lecturer.send()
    return lesson


def test_a_booked_lesson_has_its_learners_on_benches_and_their_diets_looked_at(cast):
    avoids(cast, cast.learner, kind="milk")
    avoids(cast, cast.partner, kind="egg")
    lesson = booked(cast)
    lecturer = Person(cast.lecturer)
    lecturer.open("lessons:diets", lesson=lesson.code)
    lecturer.sees("Learner N100", "Cannot", "Learner N101", "Nothing declared against it")
    assert "safe" not in lecturer.words()


def test_the_kits_are_made_issued_and_every_gram_left_a_named_lot(cast):
    lesson = booked(cast)
    stores = Person(cast.stores)
    stores.open("stores:kits", lesson=lesson.code)
    stores.sees("Plain flour", "200 g")
    stores.send("stores:make_kits", kwargs={"lesson": lesson.code})
    assert [kit.kind for kit in Kit.objects.order_by("position")] == ["bench", "demonstration"]
    stores.open("stores:issue", lesson=lesson.code)
    stores.send()
    stores.open("stores:lot", code="FLOUR-1")
    stores.sees("2,600 g", "bench 1")
    left = -Movement.objects.filter(kind="issue").aggregate(all=Sum("milligrams"))["all"]
    assert left == KitLine.objects.aggregate(all=Sum("stock_milligrams"))["all"] == 600_000


def test_a_form_of_issue_sent_twice_is_done_once(cast):
    lesson = booked(cast)
    stores = Person(cast.stores)
    stores.open("stores:kits", lesson=lesson.code)
    stores.send("stores:make_kits", kwargs={"lesson": lesson.code})
    stores.open("stores:issue", lesson=lesson.code)
    form = stores.page
    stores.send()
    before = Movement.objects.count()
    stores.page = form
    stores.send()
    assert Movement.objects.count() == before


def test_a_clash_is_refused_in_words_and_what_was_typed_is_kept(cast):
    booked(cast)
    lecturer = Person(cast.lecturer)
    lecturer.open("lessons:book")
    lecturer.send(
        status=200,
        version=cast.recipe_version.pk,
        kind="practical",
        working="pair",
        portions_a_bench="8",
        on="23 February 2027",
        starts="10:00",
        ends="13:00",
        room=cast.room.pk,
        group=cast.group.pk,
        lecturer=cast.lecturer.pk,
        demonstration_batches="1",
        spare_batches="0",
    )
    lecturer.sees("Not booked yet.")
    assert 'value="10:00"' in lecturer.page
    assert Lesson.objects.count() == 3
