"""The pages of what lessons teach: evidence, decisions, what was typed is kept."""

from uuid import uuid4

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from curriculum.foods.models import Food, YieldTest
from kitchen.stores.learning.models import KeptFigure
from kitchen.stores.learning.queries import learned, learning_page, proposal_page
from tests.builders.book import a_person
from tests.builders.held_lessons import FLOUR, GRAM, a_quiche, given, held_lesson
from tests.builders.stores import QUICHE_DAY

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]
LIST = "/stores/learning/"
OVER = f"/stores/learning/over-issue/R01/{FLOUR}/"


@pytest.fixture
def hana(client):
    """The stores person, signed in."""
    client.force_login(a_person("hana", "stores"))
    return client


@pytest.fixture
def four_lessons():
    """In each of four lessons two benches took 30 g of flour for dusting and lost some butter."""
    for week in range(1, 5):
        lesson = held_lesson(week, benches=2)
        given(lesson, 20)
        given(lesson, 20, "Dropped", "unsalted_butter")


def the(kind, food):
    return next(each for each in learned().proposals if (each.kind, each.food) == (kind, food))


def decided(decision, **more):
    return {
        "key": str(uuid4()),
        "decision": decision,
        "words": "",
        "seen": the("over_issue", FLOUR).mark,
    } | more


def text(answer):
    return " ".join(answer.content.decode().split())


def test_without_lessons_the_page_says_what_it_takes(hana):
    assert "Nothing is proposed. Four lessons" in text(hana.get(LIST))


def test_four_lessons_propose_and_the_page_shows_each_with_its_figures(hana, four_lessons):
    page = text(hana.get(LIST))
    assert "over-issue in Leek and Cheddar quiche" in page and "Instead of 20 g." in page
    a_quiche(-1, benches=3, state="approved")
    detail = text(hana.get(OVER))
    assert "Four lessons with 8 benches: 30 g taken a bench, the middle 30 g." in detail
    assert detail.count("Quiche, G-R01,") == 5
    assert "30 g more" in detail and "Accept 30 g" in detail


def test_accepted_it_stands_in_the_list_with_who_and_when_and_is_taken_back_by_a_page(hana, four_lessons):
    answer = hana.post(OVER, decided("accept", words="Seen it."), follow=True)
    page = text(answer)
    assert "Learned from four lessons." in page and "Accepted by Hana" in page and "Seen it." in page
    row = KeptFigure.objects.get()
    back = reverse("stores:take_back_figure", kwargs={"number": row.pk})
    assert "What was in use before is in use again: 20 g" in text(hana.get(back))
    assert "This is empty." in text(hana.post(back, {"key": str(uuid4()), "words": ""}))
    hana.post(back, {"key": str(uuid4()), "words": "Wrong."})
    row.refresh_from_db()
    assert row.state == "taken_back"
    assert hana.get(back).status_code == 404


def test_declining_without_words_is_refused_at_the_field(hana, four_lessons):
    page = text(hana.post(OVER, decided("decline")))
    assert "Say in a few words why it is declined." in page
    assert not KeptFigure.objects.exists()


def test_what_is_declined_is_not_proposed_again_until_another_lesson_comes(hana, four_lessons):
    hana.post(OVER, decided("decline", words="A new group."))
    assert FLOUR not in {line.food for line in learning_page().to_decide}
    assert "A new group." in text(hana.get(LIST))
    given(held_lesson(5, benches=2), 20)
    assert FLOUR in {line.food for line in learning_page().to_decide}


def test_another_lesson_since_the_page_was_opened_is_told_and_nothing_is_written(hana, four_lessons):
    said = decided("accept", words="Kept words.")
    given(held_lesson(5, benches=2), 20)
    page = text(hana.post(OVER, said))
    assert "Another lesson or test came in" in page and "Kept words." in page
    assert not KeptFigure.objects.exists()


def test_an_allowance_asks_which_technique_loses_the_food(hana, four_lessons):
    proposal = the("wastage", "unsalted_butter")
    address = f"/stores/learning/wastage/{proposal.of}/unsalted_butter/"
    said = {"key": str(uuid4()), "decision": "accept", "words": "", "seen": proposal.mark}
    page = text(hana.post(address, said))
    assert "Say which technique the allowance stands for." in page
    assert "no source" in page
    hana.post(address, said | {"of": proposal.others[0]})
    assert KeptFigure.objects.get().technique.code == proposal.others[0]
    assert "unsalted_butter" not in {line.food for line in learning_page().to_decide}


def test_an_allowance_by_hand_keeps_what_was_typed_when_it_is_refused(hana):
    address = "/stores/learning/allowance/"
    said = {"key": str(uuid4()), "technique": "", "food": "", "per_cent": "5", "words": "Our own."}
    page = text(hana.post(address, said))
    assert "Choose a technique, a food, or both." in page and "Our own." in page
    assert hana.post(address, said | {"food": "leek"}).status_code == 302
    assert "5 %" in text(hana.get(LIST)) and "Written by Hana." in text(hana.get(LIST))


def test_yield_tests_stand_beside_what_tables_print(hana):
    leek = Food.objects.get(code="leek")
    leek.yield_figures.create(usable_per_mille=440, source="A printed table")
    for usable in (690, 700, 720):
        YieldTest.objects.create(
            food=leek,
            on=QUICHE_DAY,
            purchased_milligrams=10**6,
            usable_milligrams=usable * GRAM,
            by=a_person("hana", "stores"),
        )
    page = text(hana.get("/stores/learning/usable/all/leek/"))
    assert "Three yield tests: 69 % to 72 %, together by weight 70.3 %." in page
    assert "44 %: A printed table" in page


@pytest.mark.parametrize("address", ["magic/R01/leek", "usable/all/leek", "over-issue/R99/leek"])
def test_what_nothing_teaches_is_no_page(hana, address):
    assert hana.get(f"/stores/learning/{address}/").status_code == 404


def counted(read):
    with CaptureQueriesContext(connection) as seen:
        read()
    return len(seen)


def test_the_pages_ask_as_often_for_four_lessons_as_for_seven(four_lessons):
    def both():
        read = learned()
        return counted(learning_page), counted(lambda: proposal_page(read, the_flour(read)))

    def the_flour(read):
        return next(each for each in read.proposals if each.food == FLOUR and each.kind == "over_issue")

    a_quiche(-1, state="approved")
    few = both()
    for week in (5, 6, 7):
        given(held_lesson(week, benches=3), 20)
        a_quiche(-1, state="approved")
    assert both() == few
    assert few[0] <= 22 and few[1] <= 7
