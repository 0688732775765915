"""A delivery is checked at the door: what is taken in, rejected, stopped and decided, each once."""

from dataclasses import replace
from datetime import timedelta
from uuid import uuid4

import pytest

from curriculum.errors import RuleBroken
from curriculum.foods.models import Food, FoodAllergen
from kitchen.lessons.models import Lesson
from kitchen.safety.models import Reading
from kitchen.stores.actions import accept_kits, issue_kits
from kitchen.stores.allocation import Use, barred
from kitchen.stores.deliveries import actions
from kitchen.stores.deliveries.check import Rule
from kitchen.stores.deliveries.models import AcceptedFor, Delivery, DeliveryLine
from kitchen.stores.made.bowls import Label
from kitchen.stores.models import Lot, Movement
from kitchen.stores.orders.actions import cancel_order
from kitchen.stores.queries import lot_data
from tests.builders.cast import TERM, TODAY, build_cast
from tests.builders.deliveries import a_delivery, a_pack, an_order, as_ordered, checked

pytestmark = pytest.mark.django_db
#: What a draft has not.
ENDS = {"draft": {"sent_at": None, "sent_by": None}}


@pytest.fixture
def cast():
    """The small college; its flour and butter have labels that were read."""
    made = build_cast()
    Food.objects.update(label_read_on=TERM)
    return made


@pytest.fixture
def flour(cast):
    """A line of an order: four packs of plain flour, its delivery begun."""
    order = an_order(a_pack("plain_flour", 1500), by=cast.stores)
    return a_delivery(order, by=cast.stores), order.lines.get()


def refused(call, *args, **more):
    """What a refusal says; nothing was written."""
    before = (DeliveryLine.objects.count(), Lot.objects.count(), Reading.objects.count())
    with pytest.raises(RuleBroken) as error:
        call(*args, **more)
    assert (DeliveryLine.objects.count(), Lot.objects.count(), Reading.objects.count()) == before
    return error.value


@pytest.mark.parametrize(
    ("state", "words"),
    [
        ("draft", "has not been sent"),
        ("cancelled", "was cancelled (Twice.)"),
        ("delivered", "has come and was checked"),
    ],
)
def test_only_an_order_that_was_sent_is_checked_and_what_came_all_the_same_without_one(cast, state, words):
    order = an_order(a_pack("plain_flour", 1500), by=cast.stores)
    type(order).objects.filter(pk=order.pk).update(state=state, cancelled_why="Twice.", **ENDS.get(state, {}))
    error = refused(actions.begin_delivery, on=TODAY, order=order, by=cast.stores)
    assert (error.code, words in error.message, error.facts["field"]) == ("order_not_sent", True, "order")
    assert not Delivery.objects.exists()
    assert actions.begin_delivery(on=TODAY, supplier=order.supplier, by=cast.stores).order is None


def test_an_order_is_not_cancelled_while_what_came_of_it_is_checked(cast, flour):
    delivery, line = flour
    error = refused(cancel_order, order=line.order, why="Too late.", by=cast.stores)
    assert error.code == "check_begun" and delivery.code in error.message
    actions.close_delivery(delivery=delivery, by=cast.stores)
    assert cancel_order(order=line.order, why="Too late.", by=cast.stores).state == "cancelled"


def test_a_line_as_ordered_is_a_lot_with_its_first_movement(cast, flour):
    delivery, line = flour
    ends = TODAY + timedelta(days=30)
    entry = as_ordered(line, batch="B7", date_kind="best_before", dated_on=ends, lot_code="FL-9")
    made = checked(delivery, entry, cast.stores)
    lot = made.lot
    assert (made.verdict, made.number) == ("taken", 1)
    assert (lot.code, lot.batch, lot.date, lot.on_hand_milligrams) == ("FL-9", "B7", ends, 6_000_000)
    assert (lot.supplier, lot.label_read_on, lot.label_read_by) == (delivery.supplier, TODAY, cast.stores)
    assert (lot.pence, lot.movements.get().kind) == (1000, "receive")


def test_a_lot_without_a_code_is_given_one_of_ours(cast, flour):
    delivery, line = flour
    assert len(checked(delivery, as_ordered(line), cast.stores).lot.code) == 8


def test_the_same_button_twice_is_one_lot(cast, flour):
    delivery, line = flour
    key = uuid4()
    said = {"delivery": delivery, "entry": as_ordered(line), "on": TODAY, "by": cast.stores, "key": key}
    assert actions.check_line(**said) == actions.check_line(**said)
    assert Lot.objects.count() == Movement.objects.count() == 1


def test_a_second_tablet_is_told_and_doubles_nothing(cast, flour):
    delivery, line = flour
    checked(delivery, as_ordered(line, lot_code="FL-9"), cast.stores)
    error = refused(checked, delivery, as_ordered(line), cast.technician)
    assert error.code == "checked_meanwhile"
    assert "Delia Oxhey has checked Plain flour meanwhile: 4, taken in, lot FL-9" in error.message
    other = as_ordered(line, food="butter", substitute=True, why="No flour came.")
    assert refused(checked, delivery, other, cast.technician).code == "checked_meanwhile"
    assert checked(delivery, as_ordered(line, seen=1), cast.technician).number == 2


def test_a_second_check_of_an_open_order_leads_to_the_first(cast, flour):
    delivery, line = flour
    error = refused(actions.begin_delivery, on=TODAY, by=cast.technician, order=line.order)
    assert (error.code, error.facts["delivery"]) == ("begun_already", delivery.code)


def test_a_lot_code_of_the_book_is_refused_at_its_field(cast, flour):
    delivery, line = flour
    checked(delivery, as_ordered(line, lot_code="FL-9"), cast.stores)
    error = refused(checked, delivery, as_ordered(line, lot_code="FL-9", seen=1), cast.stores)
    assert error.code == "lot_code_taken"


def test_an_unread_label_makes_a_lot_that_waits_for_it(cast, flour):
    delivery, line = flour
    made = checked(delivery, as_ordered(line, label_read=False), cast.stores)
    assert made.verdict == "taken"
    assert "waits for its label" in barred(lot_data(made.lot), TODAY)


def test_the_first_label_of_a_food_that_anybody_reads_is_the_foods(cast, flour):
    delivery, line = flour
    Food.objects.filter(code="plain_flour").update(label_read_on=None)
    made = checked(delivery, as_ordered(line, contains=("wheat", "rye")), cast.stores)
    food = Food.objects.get(code="plain_flour")
    assert made.verdict == "taken" and food.label_read_on == TODAY
    assert set(food.allergens.values_list("kind", flat=True)) == {"wheat", "rye"}


class TestTemperature:
    """Chilled and frozen food is read at the door."""

    @pytest.fixture
    def cold(self, cast):
        pack = a_pack("cream")
        Food.objects.filter(code="cream").update(storage="chilled")
        order = an_order(pack, by=cast.stores)
        return a_delivery(order, by=cast.stores), order.lines.get()

    def test_it_is_not_taken_in_unread(self, cast, cold):
        delivery, line = cold
        error = refused(checked, delivery, as_ordered(line), cast.stores)
        assert (error.code, error.facts["field"]) == ("temperature_missing", "celsius")

    def test_it_is_not_taken_in_too_warm(self, cast, cold):
        delivery, line = cold
        error = refused(checked, delivery, as_ordered(line, decicelsius=92), cast.stores)
        assert error.code == "too_warm" and "9.2\u00a0°C" in error.message and "8 °C" in error.message

    def test_its_reading_is_kept_with_the_limit_of_that_moment(self, cast, cold):
        delivery, line = cold
        made = checked(delivery, as_ordered(line, decicelsius=40), cast.stores)
        assert (made.reading.verdict, made.reading.decicelsius) == ("kept", 40)
        assert made.reading.limit["decicelsius"] == 80 and made.reading.limit["source"]

    def test_a_rejected_line_keeps_the_reading_that_it_was_rejected_for(self, cast, cold):
        delivery, line = cold
        entry = as_ordered(line, decicelsius=92, taken=False, why="9.2 °C at the door.")
        made = checked(delivery, entry, cast.stores)
        assert (made.verdict, made.reading.verdict, made.lot) == ("rejected", "not kept", None)

    def test_the_colleges_stricter_rule_counts(self, cast, cold):
        delivery, line = cold
        actions.set_rule(storage="chilled", rule=Rule(50), by=cast.stores)
        error = refused(checked, delivery, as_ordered(line, decicelsius=60), cast.stores)
        assert "own rule" in error.message


def test_a_use_by_that_has_passed_is_never_taken_in(cast, flour):
    delivery, line = flour
    gone = {
        "date_kind": "use_by",
        "dated_on": TODAY - timedelta(days=1),
        "short_date_why": "The lesson is tomorrow.",
    }
    assert refused(checked, delivery, as_ordered(line, **gone), cast.stores).code == "past_use_by"
    made = checked(delivery, as_ordered(line, **gone, taken=False, why="Past its date."), cast.stores)
    assert made.verdict == "rejected"


def test_too_few_days_are_taken_in_only_when_somebody_says_why(cast, flour):
    delivery, line = flour
    actions.set_rule(storage="ambient", rule=Rule(None, 10), by=cast.stores)
    few = as_ordered(line, date_kind="best_before", dated_on=TODAY + timedelta(days=3))
    error = refused(checked, delivery, few, cast.stores)
    assert (error.code, error.facts["field"]) == ("short_dated", "short_date_why")
    made = checked(delivery, replace(few, short_date_why="It is used on Thursday."), cast.stores)
    assert made.lot and "leaves 3 days" in made.short_date
    assert made.short_date_why == "It is used on Thursday."


def test_a_reason_for_a_date_that_is_not_short_is_not_kept(cast, flour):
    delivery, line = flour
    long = as_ordered(line, date_kind="best_before", dated_on=TODAY + timedelta(days=300))
    made = checked(delivery, replace(long, short_date_why="Left in the box by mistake."), cast.stores)
    assert (made.short_date, made.short_date_why) == ("", "")


def test_a_line_is_not_rejected_without_a_reason(cast, flour):
    delivery, line = flour
    error = refused(checked, delivery, as_ordered(line, taken=False), cast.stores)
    assert (error.code, error.facts["field"]) == ("why_missing", "why")


def test_a_number_scanned_for_the_first_time_is_remembered_once(cast, flour):
    delivery, line = flour
    checked(delivery, as_ordered(line, gtin="09501101530003"), cast.stores)
    checked(delivery, as_ordered(line, gtin="06291041500213", seen=1), cast.stores)
    line.pack.refresh_from_db()
    assert line.pack.gtin == "09501101530003"


class TestSubstitute:
    """What comes in place of what was ordered, with a label that names more."""

    @pytest.fixture
    def stopped(self, cast, flour):
        delivery, line = flour
        entry = as_ordered(line, substitute=True, why="Another mill.", contains=("wheat", "soya"))
        FoodAllergen.objects.get_or_create(
            food=line.pack.food, kind="wheat", defaults={"presence": "contains"}
        )
        return checked(delivery, entry, cast.stores)

    def test_it_waits_and_is_in_no_stock(self, stopped):
        assert (stopped.verdict, stopped.lot, Lot.objects.count()) == ("waiting", None, 0)

    def test_it_waits_for_its_label_and_is_taken_in_when_that_names_no_more(self, cast, flour):
        delivery, line = flour
        entry = as_ordered(line, substitute=True, why="Another mill.", label_read=False)
        waits = checked(delivery, entry, cast.stores)
        assert waits.verdict == "waiting"
        error = refused(actions.accept_substitute, line=waits, lessons=[], by=cast.stores)
        assert error.code == "label_not_read"
        made = actions.read_line_label(line=waits, label=Label((), ()), on=TODAY, by=cast.technician)
        assert (made.verdict, made.lot.label_read_by) == ("taken", cast.technician)

    def test_a_label_that_names_more_stops_what_was_ordered_as_well(self, cast, flour):
        delivery, line = flour
        assert (
            checked(delivery, as_ordered(line, contains=("wheat", "egg")), cast.stores).verdict == "waiting"
        )

    def test_it_is_accepted_for_one_lesson_and_no_other(self, cast, stopped):
        made = actions.accept_substitute(line=stopped, lessons=[cast.lesson], by=cast.technician)
        data = lot_data(made.lot)
        assert (made.decided_by, AcceptedFor.objects.get().by) == (cast.technician, cast.technician)
        assert barred(data, Use(TODAY, cast.lesson.code)) == ""
        assert "not accepted for this lesson" in barred(data, Use(TODAY, cast.other_lesson.code))

    def test_the_food_then_names_what_both_labels_name_and_its_kits_are_judged(self, cast, stopped):
        actions.accept_substitute(line=stopped, lessons=[cast.lesson], by=cast.stores)
        food = Food.objects.get(code="plain_flour")
        assert set(food.allergens.values_list("kind", flat=True)) >= {"wheat", "soya"}
        assert food.label_read_on == TERM

    def test_its_kits_leave_from_it_for_the_accepted_lesson_alone(self, cast, stopped):
        for lesson in (cast.lesson, cast.other_lesson):
            accept_kits(lesson=lesson, by=cast.stores)
        actions.accept_substitute(line=stopped, lessons=[cast.lesson], by=cast.stores)
        issue_kits(lesson=cast.lesson, by=cast.stores, short_accepted=True)
        assert Movement.objects.filter(kind="issue", lot__food__code="plain_flour").exists()
        with pytest.raises(RuleBroken, match="not accepted for this lesson"):
            issue_kits(lesson=cast.other_lesson, by=cast.stores)

    def test_accepted_for_none_it_stays(self, cast, stopped):
        made = actions.accept_substitute(line=stopped, lessons=[], by=cast.stores)
        assert "for no lesson" in barred(lot_data(made.lot), Use(TODAY, cast.lesson.code))
        assert not Food.objects.get(code="plain_flour").allergens.filter(kind="soya").exists()

    def test_it_is_sent_back_and_never_stood_in_the_stores(self, cast, stopped):
        made = actions.send_back(line=stopped, why="Soya.", by=cast.stores)
        assert (made.verdict, made.why, Lot.objects.count()) == ("sent_back", "Another mill. Soya.", 0)

    def test_sent_back_twice_by_the_same_button_is_sent_back_once(self, cast, stopped):
        said = {"line": stopped, "lessons": None, "why": "Soya.", "by": cast.stores, "key": uuid4()}
        assert actions.decide_line(**said) == actions.decide_line(**said)
        stopped.refresh_from_db()
        assert stopped.why == "Another mill. Soya."

    def test_who_decides_second_is_told(self, cast, stopped):
        actions.send_back(line=stopped, why="", by=cast.stores)
        error = refused(actions.accept_substitute, line=stopped, lessons=[], by=cast.technician)
        assert error.code == "decided_already" and "Delia Oxhey" in error.message

    def test_the_check_is_not_closed_while_it_waits(self, cast, stopped):
        assert refused(actions.close_delivery, delivery=stopped.delivery, by=cast.stores).code == "line_waits"


def test_nothing_is_written_into_a_closed_check(cast, flour):
    delivery, line = flour
    assert actions.close_delivery(delivery=delivery, by=cast.stores).closed_by == cast.stores
    assert refused(checked, delivery, as_ordered(line), cast.stores).code == "closed"
    assert a_delivery(line.order, by=cast.stores).pk != delivery.pk


def test_an_order_that_came_whole_is_delivered_when_the_check_is_closed(cast, flour):
    delivery, line = flour
    checked(delivery, as_ordered(line, count=3, milligrams=3_000_000), cast.stores)
    actions.close_delivery(delivery=delivery, by=cast.stores)
    line.order.refresh_from_db()
    assert line.order.state == "sent"
    later = a_delivery(line.order, by=cast.stores)
    checked(later, as_ordered(line, count=1, taken=False, why="Torn."), cast.stores)
    actions.close_delivery(delivery=later, by=cast.technician)
    line.order.refresh_from_db()
    assert (line.order.state, line.order.ended_by) == ("delivered", cast.technician)


def test_food_without_an_order_is_checked_alike(cast):
    pack = a_pack("honey")
    delivery = a_delivery(by=cast.stores)
    line = as_ordered(an_order(pack, by=cast.stores).lines.get(), order_line=None)
    made = checked(delivery, line, cast.stores)
    assert made.lot.food.code == "honey" and Delivery.objects.get().order is None


def test_a_decision_by_codes_is_one_of_the_two(cast, flour):
    delivery, line = flour
    stopped = checked(delivery, as_ordered(line, contains=("egg",)), cast.stores)
    made = actions.decide_line(line=stopped, lessons=[cast.lesson.code, "NOSUCH22"], why="", by=cast.stores)
    assert [row.lesson for row in AcceptedFor.objects.all()] == [Lesson.objects.get(pk=cast.lesson.pk)]
    assert made.verdict == "taken"
