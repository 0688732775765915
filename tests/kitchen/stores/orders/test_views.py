"""The pages of the week and of orders: what was typed is kept, the same button twice is one order."""

from datetime import date, timedelta
from uuid import uuid4

import pytest
from django.urls import reverse

from curriculum.foods.models import Food, Supplier
from curriculum.people.models import College
from kitchen.stores.models import RequisitionLine
from kitchen.stores.orders import queries
from kitchen.stores.orders.actions import set_keeping
from kitchen.stores.orders.changed import as_it_stands
from kitchen.stores.orders.closed.actions import close_day
from kitchen.stores.orders.entries import KeepingEntry
from kitchen.stores.orders.models import Order, WeekPlan
from kitchen.stores.requisitions.actions import approve_requisition, submit_requisition
from tests.builders.stores import quiche_stage

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]
MONDAY = date(2027, 2, 15)
WEEK = "/stores/week/2027-02-17/"


@pytest.fixture
def stage():
    """Seven pairs make quiches on Tuesday; it is the Tuesday before, and their requisition is approved."""
    College.objects.update(shown_today=MONDAY - timedelta(6))
    found = quiche_stage()
    Supplier.objects.update(least_order_pence=0)
    row = submit_requisition(lesson=found.lesson, by=found.lecturer)
    approve_requisition(requisition=row, by=found.stores)
    return found


@pytest.fixture
def hana(client, stage):
    """The stores person, signed in."""
    client.force_login(stage.stores)
    return client


def filled():
    """The form of the week as the page hands it out."""
    page = queries.week_page(MONDAY)
    boxes = {line.box: str(line.count) for drop in page.drops for line in drop.lines}
    return {"key": str(uuid4()), "number": page.number, "seen": page.inputs_hash} | boxes


def text(answer):
    return " ".join(answer.content.decode().split())


def test_the_week_shows_lessons_stock_packs_and_the_two_simpler_ways(hana, stage):
    page = text(hana.get(WEEK))
    for said in ("Unsalted butter", "proved", "rounded up alone", "best single pack", "Send it by"):
        assert said in page, said
    assert reverse("stores:requisition", args=[stage.lesson.code]) in page


def test_an_order_below_every_least_order_is_refused_with_what_is_short_and_its_boxes(hana):
    Supplier.objects.update(least_order_pence=900_000)
    page = text(hana.get(WEEK))
    assert (
        "No order can be placed with" in page
        and "short by" in page
        and "takes orders from £9,000.00 on" in page
    )
    assert "Note what was agreed" in page, "Packs can be written in by hand where the supplier agrees."
    refused = queries.week_page(MONDAY).refused
    assert refused and all(row.short_pence == row.least_pence - row.reached_pence > 0 for row in refused)


def test_what_was_typed_into_a_refused_order_is_kept_when_the_form_comes_back(hana):
    Supplier.objects.update(least_order_pence=900_000)
    found = queries.week_page(MONDAY)
    box = found.refused[0].lines[0].box
    said = {"key": str(uuid4()), "number": found.number, "seen": found.inputs_hash, box: "a few"}
    page = text(hana.post(WEEK, said))
    assert f'name="{box}"' in page and 'value="a few"' in page and "Nothing is ordered yet" in page
    assert not Order.objects.exists()
    hana.post(WEEK, said | {box: "7"})
    assert Order.objects.get().lines.get().count == 7, "The supplier agreed, and it is noted."


def test_a_least_order_that_is_reached_by_what_always_lies_in_stock_is_proposed(hana, stage):
    plain = queries.week_page(MONDAY).proposal.answer
    dearest = max(plain.drops, key=lambda drop: sum(buy.pence for buy in plain.buys if buy.drop == drop))
    food = next(buy.pack.food for buy in plain.buys if buy.drop == dearest)
    Supplier.objects.filter(code=dearest.supplier).update(least_order_pence=20_000)
    assert queries.week_page(MONDAY).refused, "Without it the order is below its least."
    set_keeping(
        food=Food.objects.get(code=food),
        entry=KeepingEntry(par_milligrams=200_000_000, delivered_days=90, source="The label, invented."),
        by=stage.stores,
    )
    found = queries.week_page(MONDAY)
    assert found.proposal.answer.proved and not found.refused
    assert "Accept these orders" in text(hana.get(WEEK))


def test_after_the_last_moment_to_order_the_page_says_when_it_was(hana):
    College.objects.update(shown_today=MONDAY)
    page = text(hana.get(WEEK))
    assert "cannot come in time" in page and "had to reach" in page
    assert queries.week_page(MONDAY).too_late


def test_a_day_on_which_the_stores_take_nothing_in_moves_the_delivery_and_is_named(hana, stage):
    day = min(drop.on for drop in queries.week_page(MONDAY).drops)
    close_day(on=day, words="Stocktaking", by=stage.stores)
    found = queries.week_page(MONDAY)
    assert day not in {drop.on for drop in found.drops}
    assert "tocktaking" in text(hana.get(WEEK))


def test_a_week_of_nothing_says_what_to_do_next(hana):
    assert "Nothing is needed in this week yet" in text(hana.get("/stores/week/2027-05-03/"))
    assert "Nothing was ordered yet" in text(hana.get("/stores/orders/"))
    assert hana.get("/stores/week/no-day/").status_code == 404
    assert hana.get("/stores/week/0001-01-01/").status_code == 404
    assert hana.get("/stores/week/9999-12-31/").status_code == 404


def test_the_same_button_twice_draws_the_orders_up_once(hana):
    said = filled()
    assert [hana.post(WEEK, said).status_code for _ in range(2)] == [302, 302]
    assert WeekPlan.objects.count() == 1 and "Nothing more to order" in text(hana.get(WEEK))


def test_a_count_that_is_none_is_told_at_its_box_and_every_other_is_kept(hana):
    said = filled()
    first, second = [name for name in said if name.startswith("n_")][:2]
    page = text(hana.post(WEEK, said | {first: "three", second: "77"}))
    assert "three" in page and 'value="77"' in page and "Nothing is ordered yet." in page
    assert not Order.objects.exists()


def test_counts_are_a_persons_and_what_was_proposed_stays_beside_them(hana):
    said = filled()
    first = next(name for name in said if name.startswith("n_"))
    hana.post(WEEK, said | {first: "9"})
    line = next(line for order in Order.objects.all() for line in order.lines.all() if line.count == 9)
    assert line.proposed == int(first.rpartition("_")[2])


def test_whoever_is_second_is_told_and_sees_what_is_left(hana):
    said = filled()
    hana.post(WEEK, said)
    page = text(hana.post(WEEK, said | {"key": str(uuid4())}))
    assert "Hana accepted orders for this week" in page and WeekPlan.objects.count() == 1


def test_a_draft_is_changed_sent_and_then_only_read(hana):
    hana.post(WEEK, filled())
    order = Order.objects.first()
    url, pack = f"/stores/orders/{order.code}/", order.lines.first().pack_id
    counts = {f"n_{line.pack_id}": str(line.count) for line in order.lines.all()} | {"seen": mark(order)}
    page = text(hana.post(url, {"key": uuid4(), **counts, f"n_{pack}": "x", "add_count": "2"}))
    assert "Choose the pack that is added." in page and 'value="x"' in page
    assert hana.post(url, {"key": uuid4(), **counts, f"n_{pack}": "600"}).status_code == 302
    assert hana.post(f"{url}sent/", {"key": uuid4()}).status_code == 302
    page = text(hana.get(url))
    assert "Keep these counts" not in page and "600" in page and "Cancel this order" in page
    refused = text(hana.post(url, {"key": uuid4(), **counts}))
    assert "is sent and is not changed any more" in refused
    assert order.lines.get(pack=pack).count == 600


def mark(order):
    return as_it_stands(order.lines.values_list("pack", "count"))


def test_two_tablets_do_not_write_over_each_others_counts(hana):
    """Both opened the draft as it was proposed; each changed another line."""
    hana.post(WEEK, filled())
    order = next(each for each in Order.objects.order_by("pk") if each.lines.count() > 1)
    url, (one, other) = f"/stores/orders/{order.code}/", list(order.lines.order_by("pk"))[:2]
    said = {f"n_{line.pack_id}": str(line.count) for line in order.lines.all()} | {"seen": mark(order)}
    assert hana.post(url, {"key": uuid4()} | said | {f"n_{one.pack_id}": "77"}).status_code == 302
    told = hana.post(url, {"key": uuid4()} | said | {f"n_{other.pack_id}": "88"})
    assert "Somebody changed this order" in text(told) and 'value="88"' in text(told)
    assert dict(order.lines.values_list("pack", "count"))[one.pack_id] == 77
    again = (
        {"key": uuid4()} | said | {"seen": mark(order), f"n_{one.pack_id}": "77", f"n_{other.pack_id}": "88"}
    )
    assert hana.post(url, again).status_code == 302
    found = dict(order.lines.values_list("pack", "count"))
    assert (found[one.pack_id], found[other.pack_id]) == (77, 88)


def test_an_order_is_not_cancelled_without_a_reason(hana):
    hana.post(WEEK, filled())
    order = Order.objects.first()
    page = text(hana.post(f"/stores/orders/{order.code}/cancel/", {"key": uuid4(), "why": ""}))
    assert "The order still stands." in page and Order.objects.get(pk=order.pk).state == "draft"


def test_paper_and_table_are_of_the_same_order(hana):
    hana.post(WEEK, filled())
    order = Order.objects.first()
    paper = hana.get(f"/stores/orders/{order.code}/order.pdf")
    table = hana.get(f"/stores/orders/{order.code}/order.csv")
    assert paper.content.startswith(b"%PDF") and order.code in table.content.decode()
    assert table["Content-Type"].startswith("text/csv")


def test_days_without_a_source_are_sent_back_and_kept(hana):
    url = "/stores/par/caster_sugar/"
    page = text(hana.post(url, {"key": uuid4(), "par_milligrams": "5 kg", "opened_days": "9", "source": ""}))
    assert "Say where the days are from" in page and 'value="5 kg"' in page
    said = {"key": uuid4(), "par_milligrams": "5 kg", "opened_days": "9", "source": "The label."}
    assert hana.post(url, said).status_code == 302 and "9 days" in text(hana.get("/stores/par/"))


def test_a_page_takes_as_many_queries_for_thirty_lines_of_needs_as_for_three(
    hana, stage, django_assert_max_num_queries
):
    hana.get(WEEK)
    few = RequisitionLine.objects.exclude(food__code__in=("unsalted_butter", "leek", "egg_in_shell"))
    with django_assert_max_num_queries(40) as all_lines:
        hana.get(WEEK)
    few.delete()
    with django_assert_max_num_queries(40) as three_lines:
        hana.get(WEEK)
    assert len(all_lines) == len(three_lines)


def test_orders_come_in_pages_and_none_is_out_of_reach(hana, stage):
    supplier = Supplier.objects.first()
    days = [MONDAY + timedelta(at) for at in range(queries.A_PAGE + 1)]
    facts = {"supplier": supplier, "by": stage.stores}
    Order.objects.bulk_create(Order(code=f"PAGE{at:04}", for_on=day, **facts) for at, day in enumerate(days))
    first, second = (text(hana.get("/stores/orders/", {"page": page})) for page in (1, 2))
    assert "PAGE0050" in first and "PAGE0000" not in first and "Earlier orders" in first
    assert "PAGE0000" in second and "Later orders" in second and "Page 2 of 2" in second


def test_a_week_that_reaches_no_least_order_compares_no_sums_and_notes_what_was_agreed(hana):
    Supplier.objects.update(least_order_pence=999_900)
    page = text(hana.get(WEEK))
    assert "No order reaches the least that its supplier takes." in page and "Note what was agreed" in page
    assert "rounded up alone" not in page and "Accept these orders" not in page
