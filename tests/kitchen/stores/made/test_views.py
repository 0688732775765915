"""A bowl through the client: written down, refused in words, given to kits, its label printed."""

from uuid import uuid4

import pytest
from django.urls import reverse

from kitchen.stores.made.queries import takers
from kitchen.stores.models import KitLine, Lot, Movement
from tests.builders.bowls import a_bowl
from tests.builders.stores import a_lesson_of, college_lots, kits_made, quiche_stage, the_book

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]
FORM = {"made_on": "16 Feb 2027", "made_at": "00:00", "discard_on": "17 Feb 2027", "discard_at": "00:30"}
FORM |= {"lot_MP-0710": "5", "grams": "240", "kept_where": "Walk-in fridge"}


@pytest.fixture
def stage():
    """Two quiche benches, full stores and accepted kits."""
    made = quiche_stage(benches=("R01", "R01"))
    college_lots()
    kits_made(made)
    return made


@pytest.fixture
def hana(client, stage):
    """The stores person, signed in."""
    client.force_login(stage.stores, "django.contrib.auth.backends.ModelBackend")
    return client


def address(name, stage, **more):
    return reverse(f"stores:{name}", kwargs={"lesson": stage.lesson.code, **more})


def words_of(answer):
    return " ".join(answer.content.decode().split())


def sent(hana, stage, **changes):
    return hana.post(address("make_lot", stage, food="egg_beaten"), FORM | {"key": uuid4()} | changes)


def test_the_page_says_what_waits_and_the_form_proposes_lot_weight_and_time(hana, stage):
    assert "Make a bowl" in words_of(hana.get(address("made", stage)))
    page = words_of(hana.get(address("make_lot", stage, food="egg_beaten")))
    assert "together: 18 pieces." in page
    assert 'name="lot_MP-0710" value="18"' in page and 'value="900"' in page
    assert "Common practice, no source; the college sets its own time" in page


def test_a_bowl_that_is_written_down_stands_on_the_page_with_its_lots(hana, stage):
    assert sent(hana, stage).status_code == 302
    page = words_of(hana.get(address("made", stage)))
    assert "MP-0710, 5 pieces" in page and "Throw away by" in page and "240 g" in page


def test_a_form_sent_twice_makes_one_bowl(hana, stage):
    key = uuid4()
    assert [sent(hana, stage, key=key).status_code for _ in range(2)] == [302, 302]
    assert Lot.objects.filter(made_in=stage.lesson).count() == 1


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"lot_MP-0710": ""}, "No piece is written down."),
        ({"grams": "9000"}, "285 g went into it"),
        ({"made_on": "18 Feb 2027", "discard_on": "19 Feb 2027"}, "made later than now"),
        ({"discard_on": "16 Feb 2027", "discard_at": "00:00"}, "thrown away after it was made"),
        ({"lot_MP-0710": "500"}, "71"),
    ],
)
def test_a_refusal_keeps_what_was_written_and_moves_nothing(hana, stage, changes, words):
    before = Movement.objects.count()
    page = words_of(sent(hana, stage, **changes))
    assert "Nothing is made in the book yet." in page and words in page and "Walk-in fridge" in page
    assert Movement.objects.count() == before


def test_as_many_kits_are_ticked_as_the_bowl_is_enough_for_and_get_their_weight(hana, stage):
    bowl = a_bowl(stage)
    url = address("give_from_made", stage, code=bowl.code)
    page = words_of(hana.get(url))
    assert page.count(" checked") == 2 and "have 450 g free" in page
    line = takers(stage.lesson, bowl.food)[0].line
    assert hana.post(url, {"key": uuid4(), "lines": [line.pk]}).status_code == 302
    assert KitLine.objects.get(pk=line.pk).food == bowl.food
    assert "have 235 g free" in words_of(hana.get(url))


def test_more_than_the_bowl_holds_is_refused_in_words(hana, stage):
    bowl = a_bowl(stage)
    lines = [each.line.pk for each in takers(stage.lesson, bowl.food)]
    answer = hana.post(address("give_from_made", stage, code=bowl.code), {"key": uuid4(), "lines": lines})
    assert "The kits still get whole pieces." in words_of(answer) and "450 g of Hen egg" in words_of(answer)


def test_the_lot_page_leads_from_the_bowl_to_its_lots_and_from_the_lot_to_the_bowl(hana, stage):
    bowl = a_bowl(stage)
    assert "9 pieces of <a" in words_of(hana.get(reverse("stores:lot", kwargs={"code": bowl.code})))
    page = words_of(hana.get(reverse("stores:lot", kwargs={"code": "MP-0710"})))
    assert f"made lot {bowl.code}" in page and f"Into made lot {bowl.code}" in page
    assert "Came back" not in page


def test_what_went_into_a_bowl_does_not_come_back(hana, stage):
    a_bowl(stage)
    number = Movement.objects.get(lot__code="MP-0710", kind="issue").number
    url = reverse("stores:give_back", kwargs={"code": "MP-0710", "number": number})
    assert hana.get(url).status_code == 404


def test_the_label_is_a_pdf_and_a_bowl_of_another_lesson_is_not_found(hana, stage):
    bowl = a_bowl(stage)
    answer = hana.get(address("made_label", stage, code=bowl.code))
    assert answer["Content-Type"] == "application/pdf" and answer.content.startswith(b"%PDF")
    other = a_lesson_of(the_book(), "R03", ("R03",), portions=12)
    assert hana.get(address("made_label", other, code=bowl.code)).status_code == 404
    assert hana.get(address("make_lot", stage, food="egg_yolk")).status_code == 404
