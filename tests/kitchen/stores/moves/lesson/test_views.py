"""The stores of a lesson through the client: more for a bench, with words at the field."""

from uuid import uuid4

import pytest
from django.urls import reverse

from kitchen.stores.models import Kit, Movement
from kitchen.stores.moves.lesson.actions import give_more
from kitchen.stores.moves.lesson.queries import backs_of, lots_out
from tests.builders.lessons_left import given_to, left_stage

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]
QUERIES = 16
BACKEND = "django.contrib.auth.backends.ModelBackend"


@pytest.fixture
def stage():
    """Two benches whose kits have left."""
    return left_stage()


@pytest.fixture
def hana(client, stage):
    """The stores person, signed in."""
    client.force_login(stage.stores, BACKEND)
    return client


def words_of(answer):
    return " ".join(answer.content.decode().split())


def address(name, stage):
    return reverse(f"stores:{name}", kwargs={"lesson": stage.lesson.code})


def asked(stage, **more):
    said = {"place": str(stage.place(1).pk), "food": "unsalted_butter", "amount": "100", "reason": "dropped"}
    return {"key": str(uuid4()), "note": "tray slipped"} | said | more


def test_more_is_given_from_the_page_and_listed_below(hana, stage):
    assert address("more", stage) in words_of(hana.get(address("kits", stage)))
    page = words_of(hana.post(address("more", stage), asked(stage), follow=True))
    assert "It is given out." in page and "Dropped: tray slipped" in page
    assert Kit.objects.get(kind="supplementary").place == stage.place(1)


def test_what_cannot_leave_is_said_at_its_field_and_what_was_typed_stays(hana, stage):
    page = words_of(hana.post(address("more", stage), asked(stage, amount="999999")))
    assert "may leave." in page and 'value="999999"' in page and 'value="tray slipped"' in page
    page = words_of(hana.post(address("more", stage), asked(stage, place="0", food="gold")))
    assert "What was chosen is not listed any more." in page
    assert not Movement.objects.filter(kind="supplementary").exists()


@pytest.mark.parametrize("often", [3, 30])
def test_the_page_takes_as_many_queries_for_thirty_kits_as_for_three(
    hana, stage, often, django_assert_num_queries
):
    for _ in range(often):
        give_more(**given_to(stage, 1))
    with django_assert_num_queries(QUERIES):
        hana.get(address("more", stage))


def test_what_came_back_is_written_for_all_kits_on_one_page(hana, stage):
    lot, _ = lots_out(stage.lesson)[0]
    said = {"key": str(uuid4()), "seen": "0", f"sealed_{lot.pk}": "10", "sealed_and_cold": "on"}
    page = words_of(hana.post(address("back", stage), said, follow=True))
    assert "What came back is in the book." in page and "Issued, returned, used" in page
    assert Movement.objects.filter(kind="return").exists()


def test_the_same_is_not_written_back_on_two_tablets(hana, stage):
    lot, _ = lots_out(stage.lesson)[0]
    said = {"seen": "0", f"sealed_{lot.pk}": "10", "sealed_and_cold": "on"}
    hana.post(address("back", stage), said | {"key": str(uuid4())})
    told = words_of(hana.post(address("back", stage), said | {"key": str(uuid4())}))
    assert "wrote down what came back at" in told and 'value="10"' in told
    first = backs_of(stage.lesson)
    assert first == Movement.objects.filter(kind="return").count() > 0
    hana.post(address("back", stage), said | {"key": str(uuid4()), "seen": str(first)})
    assert backs_of(stage.lesson) > first


def test_opened_food_without_a_reason_and_an_empty_page_are_refused_and_nothing_typed_is_lost(hana, stage):
    lot, _ = lots_out(stage.lesson)[0]
    empty = words_of(hana.post(address("back", stage), {"key": str(uuid4()), "seen": "0"}))
    assert "Nothing came back. Write what did beside one lot at least." in empty
    said = {"key": str(uuid4()), "seen": "0", f"opened_{lot.pk}": "7"}
    page = words_of(hana.post(address("back", stage), said))
    assert "Some of it was opened. Say what becomes of it." in page and 'value="7"' in page
    page = words_of(
        hana.post(address("back", stage), said | {f"opened_{lot.pk}": "", f"sealed_{lot.pk}": "8"})
    )
    assert "Only what is sealed and was kept cold" in page and 'value="8"' in page
    assert not Movement.objects.filter(kind="return").exists()


def test_the_lecturer_reads_the_cost_and_sees_no_button_of_the_stores(client, stage):
    client.force_login(stage.lecturer, BACKEND)
    page = words_of(client.get(address("lesson_stores", stage)))
    assert "Planned: all kits, demonstration and spare" in page and address("back", stage) not in page


@pytest.mark.parametrize(("name", "queries"), [("back", 11), ("lesson_stores", 19)])
@pytest.mark.parametrize("often", [3, 30])
def test_the_pages_after_a_lesson_take_a_fixed_number_of_queries(
    hana, stage, name, queries, often, django_assert_num_queries
):
    for _ in range(often):
        give_more(**given_to(stage, 1))
    with django_assert_num_queries(queries):
        hana.get(address(name, stage))


def test_tenths_of_a_gram_are_given_and_come_back(hana, stage):
    hana.post(address("more", stage), asked(stage, amount="2.7"))
    assert Kit.objects.get(kind="supplementary").lines.get().milligrams == 2_700
    lot, _ = lots_out(stage.lesson)[0]
    said = {"key": str(uuid4()), "seen": "0", f"sealed_{lot.pk}": "2,7", "sealed_and_cold": "on"}
    hana.post(address("back", stage), said)
    assert Movement.objects.get(kind="return").milligrams == 2_700


def test_a_part_of_an_egg_is_not_given(hana, stage):
    page = words_of(hana.post(address("more", stage), asked(stage, food="egg_in_shell", amount="1.5")))
    assert "counted in whole pieces" in page and 'value="1.5"' in page


def test_why_it_came_back_and_why_the_opened_is_waste_are_codes_on_their_movements(hana, stage):
    lot, _ = lots_out(stage.lesson)[0]
    said = {
        f"sealed_{lot.pk}": "10",
        f"opened_{lot.pk}": "5",
        f"to_{lot.pk}": "burnt",
        "sealed_and_cold": "on",
    }
    hana.post(address("back", stage), {"key": str(uuid4()), "seen": "0", "why_back": "absent"} | said)
    rows = Movement.objects.filter(kind__in=["return", "waste"]).order_by("pk")
    codes = {(row.kind, row.reason_code) for row in rows}
    assert codes == {("return", "absent"), ("waste", "burnt")}
    assert rows[0].reason == "Sealed and cold. A learner was away"
    hana.post(address("more", stage), asked(stage))
    assert Movement.objects.get(kind="supplementary").reason_code == "dropped"
