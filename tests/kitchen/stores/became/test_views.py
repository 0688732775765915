"""What became of it through the client: words at the field, what was typed is kept, labels on paper."""

from io import BytesIO
from uuid import uuid4

import pytest
from django.urls import reverse
from pypdf import PdfReader

from curriculum.people.models import College
from curriculum.records.models import HealthRead
from kitchen.stores.became.models import Became
from kitchen.stores.became.queries import shared_kits
from tests.builders.lessons_left import left_stage
from tests.builders.stores import QUICHE_DAY

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


@pytest.fixture
def stage():
    """Two benches whose kits have left, on the college's day."""
    made = left_stage()
    College.objects.update_or_create(
        pk=1, defaults={"name": "Tillow College", "short_name": "Tillow", "shown_today": QUICHE_DAY}
    )
    return made


@pytest.fixture
def marek(client, stage):
    """The lecturer of the lesson, signed in."""
    client.force_login(stage.lecturer, "django.contrib.auth.backends.ModelBackend")
    return client


def words_of(answer):
    return " ".join(answer.content.decode().split())


def at(stage, name="became", **more):
    return reverse(f"stores:{name}", kwargs={"lesson": stage.lesson.code, **more})


def said(stage, **more):
    cooled = {"since": "11:20", "read_at": "12:35", "celsius": "7", "eat_by": "18 Feb 2027"}
    words = {
        "keep_words": "In the fridge.",
        "decided": "",
        "eaten": "4",
        "home": "4",
        "sold": "",
        "wasted": "",
    }
    return {"key": uuid4(), "benches": [stage.place(1).code], **cooled, **words, **more}


def test_it_is_said_for_a_bench_and_its_label_is_printed(marek, stage):
    page = words_of(marek.post(at(stage), said(stage), follow=True))
    assert "One bench is written down." in page and "4 taken home, cooled 11:20 to 12:35 (75 min)" in page
    assert "is safe" not in page and 'value="In the fridge."' in page
    answer = marek.get(at(stage, "take_home_labels"))
    text = " ".join(each.extract_text() for each in PdfReader(BytesIO(answer.content)).pages)
    assert (
        "Eat by Thursday 18 February 2027" in " ".join(text.split()) and "milk" in text and "Tillow" in text
    )
    assert "safe" not in text.replace("Food safety", "")


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ({"benches": []}, "No bench is ticked."),
        ({"celsius": ""}, "Write all three."),
        ({"read_at": "11:00"}, "It is read after cooling began."),
        ({"celsius": "9.5"}, "the limit is: Cooled within 90 minutes"),
        ({"eat_by": ""}, "a day and words of the college"),
        ({"eaten": "", "home": ""}, "No portion is written."),
        ({"eaten": "some"}, "You wrote “some”"),
    ],
)
def test_what_cannot_be_is_said_at_its_field_and_what_was_typed_stays(marek, stage, typed, words):
    page = words_of(marek.post(at(stage), said(stage) | typed))
    assert words in page and 'value="In the fridge."' in page and not Became.objects.exists()


def test_where_a_shared_kit_went_is_said_from_the_page(marek, stage):
    kit = shared_kits(stage.lesson)[0].kit
    url = at(stage, "kit_given", kit=kit.code)
    assert url in words_of(marek.get(at(stage)))
    assert "No bench is ticked." in words_of(marek.post(url, {"key": uuid4()}))
    both = {"key": uuid4(), "benches": [stage.place(1).code], "to_none": "on"}
    assert "Benches are ticked above." in words_of(marek.post(url, both))
    page = words_of(marek.post(url, {"key": uuid4(), "benches": [stage.place(1).code]}, follow=True))
    assert "Given to bench 1." in page and "Say it anew" in page


@pytest.mark.parametrize("often", [1, 10])
def test_the_page_takes_a_fixed_number_of_queries(marek, stage, often, django_assert_num_queries):
    for _ in range(often):
        marek.post(at(stage), said(stage))
    with django_assert_num_queries(20):
        marek.get(at(stage))


def test_that_a_learner_works_a_variant_is_noted_as_read(marek, stage):
    assert "without" in words_of(marek.get(at(stage)))
    assert {row.page for row in HealthRead.objects.filter(reader=stage.lecturer)} == {"what became"}
