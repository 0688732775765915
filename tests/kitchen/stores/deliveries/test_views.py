"""The pages of a delivery: one scan and one tap, refusals that keep what was typed, a stop that asks."""

import re
from datetime import timedelta
from uuid import uuid4

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from curriculum.foods.models import Avoidance, Food, FoodAllergen
from curriculum.records.models import HealthRead
from kitchen.stores.deliveries.models import DeliveryLine
from kitchen.stores.models import Lot
from tests.builders.cast import TERM, TODAY, build_cast
from tests.builders.deliveries import GTIN, a_delivery, a_pack, an_order, as_ordered, checked

pytestmark = pytest.mark.django_db
SCAN = "010950110153000315271231310300250010LOT42"


@pytest.fixture
def cast(client):
    """The small college, its labels read, its stores person signed in; flour is cooked in its lessons."""
    made = build_cast()
    Food.objects.update(label_read_on=TERM)
    component = made.recipe_version.components.create(code="A", name="Paste", basis="portions", position=1)
    component.lines.create(position=1, food=Food.objects.get(code="plain_flour"), milligrams=50_000)
    client.force_login(made.stores)
    return made


@pytest.fixture
def begun(cast):
    """The check of four packs of flour whose number is known."""
    order = an_order(a_pack("plain_flour", 1500, gtin=GTIN), by=cast.stores)
    return a_delivery(order, by=cast.stores)


def at(name, delivery, query="", **more):
    return reverse(f"stores:{name}", kwargs={"code": delivery.code, **more}) + query


def filled(response):
    """What a page's form is filled with: name -> value of its boxes and chosen options."""
    html = response.content.decode()
    form = html[html.index('id="line"') :]
    found = {}
    for tag in re.findall(r"<input[^>]*>", form):
        said = dict(re.findall(r'([\w-]+)="([^"]*)"', tag))
        if "name" not in said or (said.get("type") in ("radio", "checkbox") and "checked" not in tag):
            continue
        found.setdefault(said["name"], said.get("value", ""))
    for name, inside in re.findall(r'<select name="(\w+)"[^>]*>(.*?)</select>', form, re.S):
        chosen = re.search(r'value="([^"]*)" selected', inside)
        found[name] = chosen[1] if chosen else ""
    return found


def test_one_scan_and_one_tap_take_a_line_in(client, begun):
    page = client.get(at("delivery_line", begun, f"?scan={SCAN}"))
    said = filled(page) | {"taken": "yes"}
    assert (said["batch"], said["date_kind"], said["dated_on"], said["grams"]) == (
        "LOT42",
        "best_before",
        "31 Dec 2027",
        "2500",
    )
    client.post(at("delivery_line", begun, f"?scan={SCAN}"), said)
    line = DeliveryLine.objects.select_related("lot").get()
    assert line.order_line == begun.order.lines.get()
    assert (line.lot.batch, line.lot.on_hand_milligrams) == ("LOT42", 2_500_000)
    shown = client.get(at("delivery", begun)).content.decode()
    assert "waits for its label" in shown and line.lot.code in shown


def test_a_code_that_cannot_be_read_says_where_and_why(client, begun):
    page = client.get(at("delivery_line", begun, "?scan=(01)09501101530004(10)A1")).content.decode()
    assert "Place 1" in page and "should be 3" in page and 'value="A1"' in page


def test_a_number_nobody_knows_is_chosen_once_and_known_then(client, cast, begun):
    page = client.get(at("delivery_line", begun, "?scan=6291041500213"))
    assert "choose it once" in page.content.decode()
    pack = begun.order.lines.get().pack
    pack.gtin = ""
    pack.save()
    said = filled(page) | {"taken": "yes", "pack": pack.pk, "count": "4"}
    client.post(at("delivery_line", begun), said)
    pack.refresh_from_db()
    assert pack.gtin == "06291041500213"


def test_an_orders_own_code_begins_its_check(client, cast):
    order = an_order(a_pack("honey"), by=cast.stores)
    answer = client.get(reverse("stores:deliveries"), {"scan": order.code.lower()})
    assert answer.url.endswith(f"begin/?order={order.pk}")
    other = client.get(reverse("stores:deliveries"), {"scan": "NOSUCH22"}).content.decode()
    assert "has the code NOSUCH22" in other and order.code in other


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"count": "many"}, "many"),
        ({"count": "0"}, "How many packs"),
        ({"celsius": "lukewarm"}, "Write a temperature such as"),
        ({"dated_on": "31 Feb 2027", "date_kind": "use_by"}, "28 days"),
        ({"date_kind": "use_by", "dated_on": ""}, "Write the date"),
        ({"pack": ""}, "Choose the pack, or the food"),
        ({"label": "otherwise"}, "Nothing is ticked below"),
        ({"contains": ["soya"]}, "Say that they were read"),
        ({"code": "A B"}, "letters, figures and dashes"),
        ({"taken": "no", "why": ""}, "why it is rejected"),
        ({"date_kind": "use_by", "dated_on": "1 Feb 2027"}, "Its use-by date was"),
    ],
)
def test_what_is_wrong_is_said_at_its_field_and_what_was_typed_is_kept(client, begun, changes, words):
    page = client.get(at("delivery_line", begun, f"?order_line={begun.order.lines.get().pk}"))
    said = filled(page) | {"taken": "yes", "batch": "KEPT-7"} | changes
    answer = client.post(at("delivery_line", begun, f"?order_line={begun.order.lines.get().pk}"), said)
    html = answer.content.decode()
    assert answer.status_code == 200 and words in html and "KEPT-7" in html
    assert not DeliveryLine.objects.exists()


def test_a_lot_code_twice_is_an_error_at_its_field(client, cast, begun):
    line = begun.order.lines.get()
    checked(begun, as_ordered(line, lot_code="FL-9"), cast.stores)
    page = client.get(at("delivery_line", begun))
    said = filled(page) | {"taken": "yes", "pack": line.pack_id, "count": "1", "code": "FL-9"}
    answer = client.post(at("delivery_line", begun), said)
    assert "Our lot: Lot FL-9 is in the book already" in answer.content.decode()
    assert Lot.objects.count() == 1


def test_a_second_tablet_is_told_and_may_then_send_it_again(client, cast, begun):
    line = begun.order.lines.get()
    address = at("delivery_line", begun, f"?order_line={line.pk}")
    said = filled(client.get(address)) | {"taken": "yes"}
    checked(begun, as_ordered(line), cast.technician)
    told = client.post(address, said)
    assert "Emlyn Sarratt has checked Plain flour meanwhile" in told.content.decode()
    assert DeliveryLine.objects.count() == 1
    client.post(address, filled(told) | {"taken": "yes", "key": str(uuid4())})
    assert DeliveryLine.objects.count() == 2


def test_a_second_tablet_that_begins_the_same_check_is_led_to_the_first(client, begun):
    said = {"order": begun.order_id, "on": f"{TODAY:%d %b %Y}", "key": str(uuid4())}
    answer = client.post(reverse("stores:begin_delivery"), said, follow=True)
    assert answer.request["PATH_INFO"] == at("delivery", begun)
    assert "has begun the check of order" in answer.content.decode()


def test_a_check_is_not_begun_without_anybody_who_brings_it(client, cast):
    answer = client.post(reverse("stores:begin_delivery"), {"on": "16 Feb 2027", "key": str(uuid4())})
    assert "Choose an order, or who brings it" in answer.content.decode()


class TestTheStop:
    """A substitute whose label names soya, in a lesson where somebody avoids it."""

    @pytest.fixture
    def stopped(self, cast, begun):
        line = begun.order.lines.get()
        Avoidance.objects.create(student=cast.learner, kind="soya", from_on=TERM, noted_by=cast.lecturer)
        entry = as_ordered(line, substitute=True, why="Another mill.", contains=("soya",))
        return checked(begun, entry, cast.stores)

    def test_it_shows_lessons_and_learners_and_notes_who_read_that(self, client, cast, stopped):
        page = client.get(at("decide_line", stopped.delivery, number=1)).content.decode()
        assert "names soya, and the book does not" in page
        assert "Shortbread, BK1" in page and "Shortbread, BK2" in page
        assert "Learner N100 (soya)" in page and "Learner N101" not in page
        assert HealthRead.objects.get().student == cast.learner

    def test_it_is_decided_by_lesson(self, client, cast, stopped):
        said = {"key": str(uuid4()), "what": "accept", "lessons": [cast.other_lesson.code]}
        client.post(at("decide_line", stopped.delivery, number=1), said)
        lot = Lot.objects.get()
        assert [row.lesson for row in lot.accepted_for.all()] == [cast.other_lesson]
        assert lot.code in client.get(at("decide_line", stopped.delivery, number=1)).content.decode()

    def test_it_goes_back_with_a_reason_and_not_without_one(self, client, stopped):
        bare = {"key": str(uuid4()), "what": "send_back", "why": ""}
        page = client.post(at("decide_line", stopped.delivery, number=1), bare).content.decode()
        stopped.refresh_from_db()
        assert "Write why it goes back." in page and stopped.verdict == "waiting"
        said = {"key": str(uuid4()), "what": "send_back", "why": "Soya."}
        client.post(at("decide_line", stopped.delivery, number=1), said)
        stopped.refresh_from_db()
        assert stopped.verdict == "sent_back" and not Lot.objects.exists()

    def test_the_check_says_why_it_cannot_be_closed(self, client, stopped):
        answer = client.post(at("close_delivery", stopped.delivery), follow=True)
        assert "Line 1 waits for a decision" in answer.content.decode()

    def test_an_unread_one_asks_for_its_label_and_a_form_without_ticks_is_refused(self, client, cast, begun):
        entry = as_ordered(begun.order.lines.get(), substitute=True, why="Another mill.", label_read=False)
        checked(begun, entry, cast.stores)
        assert "Nobody has read its label" in client.get(at("decide_line", begun, number=1)).content.decode()
        address = at("line_label", begun, number=1)
        assert "Tick what the label names" in client.post(address, {"key": str(uuid4())}).content.decode()
        client.post(address, {"key": str(uuid4()), "contains": ["soya"]})
        assert DeliveryLine.objects.get().label_allergens == ["soya"]


def test_the_colleges_rule_is_set_and_shown(client, cast):
    client.post(reverse("stores:delivery_rules"), {"storage": "chilled", "warmest": "5", "least_days": "3"})
    page = client.get(reverse("stores:delivery_rules")).content.decode()
    assert "The college’s own rule" in page and "3 days" in page


@pytest.mark.parametrize("name", ["deliveries", "delivery"])
def test_empty_pages_say_what_to_do(client, begun, name):
    if name == "deliveries":
        begun.delete()
        page = client.get(reverse("stores:deliveries"))
        assert "Orders that wait" in page.content.decode()
    else:
        assert "Nothing is checked yet" in client.get(at("delivery", begun)).content.decode()


def test_another_orders_line_and_another_delivery_are_not_there(client, cast, begun):
    other = an_order(a_pack("honey"), code="THER2345", by=cast.stores).lines.get()
    assert client.get(at("delivery_line", begun, f"?order_line={other.pk}")).status_code == 404
    assert client.get(at("delivery_line", begun, "?order_line=x")).status_code == 404
    assert client.get(at("decide_line", begun, number=9)).status_code == 404


def queries_of(client, django_assert_max_num_queries, address):
    with django_assert_max_num_queries(60) as seen:
        assert client.get(address).status_code == 200
    return len(seen)


def test_a_check_asks_as_often_with_three_lines_as_with_thirty(client, cast, django_assert_max_num_queries):
    counts = {}
    for many in (3, 30):
        packs = [a_pack(f"food_{many}_{number}") for number in range(many)]
        delivery = a_delivery(an_order(*packs, code=f"RDER22{many:02}", by=cast.stores), by=cast.stores)
        for line in list(delivery.order.lines.select_related("pack__food"))[: many - 1]:
            checked(delivery, as_ordered(line), cast.stores)
        counts[many] = [
            queries_of(client, django_assert_max_num_queries, each)
            for each in (at("delivery", delivery), at("delivery_line", delivery, f"?scan={SCAN}"))
        ]
    assert counts[3] == counts[30]


def test_a_decision_asks_as_often_whoever_is_touched(client, cast, begun, django_assert_max_num_queries):
    line = begun.order.lines.get()
    for kind in ("soya", "egg"):
        checked(begun, as_ordered(line, contains=(kind,), seen=9), cast.stores)
    address = at("decide_line", begun, number=1)
    first = queries_of(client, django_assert_max_num_queries, address)
    for student in (cast.learner, cast.partner, cast.other_learner):
        for kind in ("soya", "egg"):
            Avoidance.objects.create(student=student, kind=kind, from_on=TERM, noted_by=cast.lecturer)
    FoodAllergen.objects.filter(kind="soya").delete()
    assert queries_of(client, django_assert_max_num_queries, address) <= first + 1  # the note of who read it


@pytest.mark.parametrize("closed", [3, 30])
def test_closed_checks_come_in_pages_and_older_ones_are_a_page_on(client, begun, cast, closed):
    for number in range(closed):
        row = a_delivery(by=cast.stores)
        row.note_number, row.closed_at, row.closed_by = f"note {number}.", timezone.now(), cast.stores
        row.save()
    with CaptureQueriesContext(connection) as counted:
        first = client.get(reverse("stores:deliveries")).content.decode()
    assert len(counted) <= 12
    assert f"note {closed - 1}." in first
    assert ("note 0." in first, "Earlier checks" in first) == (
        (True, False) if closed == 3 else (False, True)
    )
    if closed == 30:
        later = client.get(reverse("stores:deliveries"), {"page": 2}).content.decode()
        assert "note 0." in later and "note 29." not in later and "Later checks" in later


def test_lines_are_still_to_be_checked_until_the_check_is_closed_and_short_weight_is_said(client, begun):
    assert (
        "One line of the order is still to be checked." in client.get(at("delivery", begun)).content.decode()
    )
    page = client.get(at("delivery_line", begun, f"?scan={SCAN}"))
    client.post(at("delivery_line", begun), filled(page) | {"taken": "yes"})
    shown = " ".join(client.get(at("delivery", begun)).content.decode().split())
    assert "1 × 1,500 g, weighed 2,500 g: 1,000 g more than the packs say" in shown
    client.post(at("close_delivery", begun))
    assert "One line of the order did not come whole." in client.get(at("delivery", begun)).content.decode()


def test_a_short_date_is_asked_for_its_reason_kept_and_told_on_the_order_and_the_lot(client, begun, cast):
    """Flour, best before the day before a lesson that it was bought for."""
    early = SCAN.replace("15271231", f"15{cast.lesson.on - timedelta(days=1):%y%m%d}")
    address = at("delivery_line", begun, f"?scan={early}")
    said = filled(client.get(address)) | {"taken": "yes"}
    asked = client.post(address, said).content.decode()
    assert "write why it is taken in with that date" in asked and 'name="short_date_why"' in asked
    assert 'value="LOT42"' in asked and not DeliveryLine.objects.exists()
    client.post(address, said | {"short_date_why": "The mill had no other."})
    line = DeliveryLine.objects.select_related("lot").get()
    for page in (at("delivery", begun), order_page(begun), lot_page(line)):
        shown = client.get(page).content.decode()
        assert "The mill had no other." in shown and "does not reach" in shown


def order_page(delivery):
    return reverse("stores:order", kwargs={"code": delivery.order.code})


def lot_page(line):
    return reverse("stores:lot", kwargs={"code": line.lot.code})
