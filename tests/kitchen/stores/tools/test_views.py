"""The pages of small equipment, as people use them."""

from uuid import uuid4

import pytest
from django.urls import reverse

from curriculum.recipes.models import Version
from kitchen.lessons.models import Place
from kitchen.rooms.models import Bench, Equipment, Room
from kitchen.stores.tools.models import EquipmentMove
from tests.builders.cast import build_cast

pytestmark = pytest.mark.django_db
BACKEND = "django.contrib.auth.backends.ModelBackend"


@pytest.fixture
def cast():
    """Each bench takes two knives and a whisk; the room has eight knives and no whisk, the larder one."""
    cast = build_cast()
    Version.objects.update(equipment=[{"item": "chef_knife", "count": 2}, {"item": "whisk", "count": 1}])
    larder = Room.objects.create(code="larder", name="Larder", purpose="stores")
    Equipment.objects.create(room=cast.room, item="chef_knife", at_first=8, count=8)
    Equipment.objects.create(room=larder, item="whisk", at_first=1, count=1)
    return cast


@pytest.fixture
def knives(cast):
    return Equipment.objects.get(item="chef_knife")


@pytest.fixture
def technician(client, cast):
    client.force_login(cast.technician, BACKEND)
    return client


def words_of(answer):
    return " ".join(answer.content.decode().split())


def at(name, cast, **more):
    return reverse(f"stores:{name}", kwargs={"lesson": cast.lesson.code, **more})


def out(cast, knives, count, **more):
    return {"key": str(uuid4()), "seen": "0:0", f"n_{knives.pk}": count, **more}


def test_knives_are_counted_out_bench_by_bench_and_in_and_the_missing_one_is_written_off(
    technician, cast, knives
):
    page = words_of(technician.get(at("count_out", cast)))
    assert 'value="2"' in page and "Bench by bench" in page
    told = out(cast, knives, "3", **{f"to_{knives.pk}": "bench"})
    page = words_of(technician.post(at("count_out", cast), told, follow=True))
    assert "3 things counted out." in page and "Knives and peelers: 3 out, 0 in." in page
    assert list(EquipmentMove.objects.values_list("place", "out_change").order_by("number")) == [
        (None, 1),
        (cast.place.pk, 2),
    ]
    back = {"key": str(uuid4()), "seen": f"{knives.pk}:2", f"n_{knives.pk}_0": "1"}
    back[f"n_{knives.pk}_{cast.place.pk}"] = "1"
    page = words_of(technician.post(at("count_in", cast), back, follow=True))
    assert "Knives and peelers: 3 out, 2 in." in page
    assert "Bench 1 had 2: Learner N100 and Learner N101." in page
    gone = {"key": str(uuid4()), "count": "1", "reason": "other", "note": ""}
    address = at("write_off", cast, thing=knives.pk, place=cast.place.pk)
    assert "Write in a few words what it was." in words_of(technician.post(address, gone))
    page = words_of(technician.post(address, gone | {"note": "Fell into the drain"}, follow=True))
    assert "1 chef knife written off." in page and "All of it is back or written off" in page
    assert technician.get(address).status_code == 404
    knives.refresh_from_db()
    assert (knives.count, knives.out) == (7, 0)


def test_a_refusal_stands_at_its_box_and_what_was_typed_is_kept(technician, cast, knives):
    page = words_of(technician.post(at("count_out", cast), out(cast, knives, "9")))
    assert "Quince Kitchen has 8 chef knives in the book; 9 were to be taken." in page and 'value="9"' in page
    page = words_of(technician.post(at("count_out", cast), out(cast, knives, "a few")))
    assert "You wrote “a few”." in page
    page = words_of(technician.post(at("count_out", cast), out(cast, knives, "")))
    assert "Nothing is counted. Write a figure beside one thing at least." in page
    technician.post(at("count_out", cast), out(cast, knives, "4"))
    page = words_of(technician.post(at("count_out", cast), out(cast, knives, "4")))
    assert "Somebody else counted chef knives since this page was opened." in page
    assert not EquipmentMove.objects.exclude(out_change=4).exists()


def test_what_another_tablet_has_counted_in_is_said_where_it_was_written(technician, cast, knives):
    technician.post(at("count_out", cast), out(cast, knives, "4"))
    back = {"seen": f"{knives.pk}:1", f"n_{knives.pk}_0": "4"}
    technician.post(at("count_in", cast), back | {"key": str(uuid4())})
    page = words_of(technician.post(at("count_in", cast), back | {"key": str(uuid4())}))
    assert "Somebody else counted chef knives since this page was opened." in page
    assert "Nothing is out" in words_of(technician.get(at("count_in", cast)))


def test_the_lecturer_counts_and_writes_nothing_off_and_sees_what_is_short(client, cast, knives):
    client.force_login(cast.lecturer, BACKEND)
    page = words_of(client.post(at("count_out", cast), out(cast, knives, "4"), follow=True))
    assert "Knives and peelers: 4 out, 0 in." in page and "Write off" not in page
    assert "Short of 1 whisk: 1 needed, 0 here. Free elsewhere then: 1 from Larder." in page
    page = words_of(client.get(at("lesson_stores", cast)))
    assert (
        "Knives and peelers: 4 out, 0 in." in page and "4 chef knives of Quince Kitchen are not back." in page
    )


def test_a_requisition_shows_the_loan_before_and_after_it_is_approved(client, cast):
    client.force_login(cast.lecturer, BACKEND)
    page = words_of(client.post(at("requisition", cast), {"key": str(uuid4())}, follow=True))
    assert "To borrow" in page and "1 whisk: 1 from Larder." in page
    client.force_login(cast.stores, BACKEND)
    page = words_of(client.post(at("approve_requisition", cast), {"number": 1}, follow=True))
    assert ">Lent" in page and "otherwise than it was asked for" not in page
    Equipment.objects.filter(item="chef_knife").update(count=1, at_first=1)
    assert "otherwise than it was asked for" in words_of(client.get(at("requisition", cast)))


def test_the_sheet_is_a_pdf(technician, cast, knives):
    technician.post(at("count_out", cast), out(cast, knives, "4", **{f"to_{knives.pk}": "bench"}))
    answer = technician.get(at("equipment_sheet", cast))
    assert answer["Content-Type"] == "application/pdf" and answer.content.startswith(b"%PDF")


def test_the_stock_shows_every_place_or_one_and_what_is_not_back(technician, cast, knives):
    technician.post(at("count_out", cast), out(cast, knives, "4"))
    type(cast.lesson).objects.filter(pk=cast.lesson.pk).update(on="2027-02-12")
    page = words_of(technician.get(reverse("stores:equipment")))
    assert "4 chef knives of Quince Kitchen are not back." in page and "Quince Kitchen 8 (4 out)" in page
    page = words_of(technician.get(reverse("stores:equipment"), {"room": "larder"}))
    assert "What Larder has." in page and "Quince Kitchen 8" not in page


def test_a_thing_is_corrected_moved_and_added_with_reasons_that_stay_readable(technician, cast, knives):
    def post(name, told, **where):
        address = reverse(f"stores:{name}", kwargs=where)
        return words_of(technician.post(address, {"key": str(uuid4()), "note": "", **told}, follow=True))

    here = {"item": "chef_knife", "room": "quince"}
    page = post("correct_thing", {"count": "9", "reason": "bought", "seen": "0"}, **here)
    assert "Quince Kitchen has 9 chef knives in the book." in page and "Bought" in page
    page = post("move_thing", {"count": "2", "to": "larder", "reason": "gathered"}, **here)
    assert "2 moved away" in page and "2 moved in" in page and "Gathered in the stores" in page
    page = post("correct_thing", {"count": "9", "reason": "bought", "seen": "0"}, **here)
    assert "Somebody else counted chef knives" in page
    new = {"name": "Oyster Knife", "room": "larder", "count": "2", "reason": "bought"}
    assert "Larder has 2 oyster knives now." in post("add_thing", new)
    assert "Correct how many there are instead." in post("add_thing", new)
    assert "Write it in letters, figures and spaces" in post("add_thing", new | {"name": "tin/24"})


def test_minutes_for_washing_are_kept_and_a_wrong_figure_is_said_at_its_field(technician, cast):
    address = reverse("stores:equipment_wash")
    page = words_of(technician.post(address, {"minutes": "20"}, follow=True))
    assert "Between two lessons 20 min are kept for washing." in page and 'value="20"' in page
    page = words_of(technician.post(address, {"minutes": "a while"}))
    assert "You wrote “a while”." in page and "What each place has." in page


@pytest.mark.parametrize("benches", [3, 30])
@pytest.mark.parametrize(
    ("name", "queries"),
    [("lesson_equipment", 20), ("count_out", 23), ("count_in", 13), ("equipment_sheet", 16)],
)
def test_the_pages_take_as_many_queries_for_thirty_benches_as_for_three(
    technician, cast, knives, benches, name, queries, django_assert_num_queries
):
    Equipment.objects.filter(pk=knives.pk).update(count=80, at_first=80)
    for number in range(3, benches + 1):
        bench = Bench.objects.create(room=cast.room, number=number)
        Place.objects.create(
            shift=cast.place.shift,
            bench=bench,
            dish=cast.dish,
            version=cast.recipe_version,
            code=f"PL{number}",
        )
    technician.post(at("count_out", cast), out(cast, knives, "70", **{f"to_{knives.pk}": "bench"}))
    with django_assert_num_queries(queries):
        technician.get(at(name, cast))


@pytest.mark.parametrize("things", [3, 30])
def test_the_stock_takes_as_many_queries_for_thirty_things_as_for_three(
    technician, cast, things, django_assert_num_queries
):
    for number in range(things):
        Equipment.objects.create(room=cast.room, item=f"thing_{number}", at_first=1, count=1)
    with django_assert_num_queries(10):
        technician.get(reverse("stores:equipment"))
