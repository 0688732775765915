"""Who may open the pages of kits and stock."""

from datetime import timedelta
from uuid import uuid4

from curriculum.foods.models import Food
from curriculum.people.queries import now_at
from kitchen.stores.actions import accept_kits, issue_kits
from kitchen.stores.entries import LotEntry
from kitchen.stores.lots.actions import hold_lot, receive_lots
from kitchen.stores.made.actions import make_lot
from kitchen.stores.made.bowls import MadeEntry
from kitchen.stores.models import Kit, KitLine, Movement
from kitchen.stores.requisitions.actions import query_requisition, submit_requisition
from tests.access_matrix import Row, answers
from tests.builders.cast import TERM, TODAY

READERS = answers(200, "lecturer cover stores technician", 404, "other_lecturer", rest=403)
HANDS = answers(200, "stores technician", rest=403)
HANDS_POST = answers(302, "stores technician", rest=403)
OWN = answers(200, "lecturer cover", 404, "other_lecturer", rest=403)
OWN_POST = answers(302, "lecturer cover", 404, "other_lecturer", rest=403)
ONE_DAY = timedelta(days=1)


def lesson(cast):
    return {"lesson": cast.lesson.code}


def stocked(cast):
    """Two full lots, labels read."""
    entries = [
        LotEntry(code=code, food=food, milligrams=10**7, received_on=TERM, label_read_on=TERM)
        for code, food in (("FL-1", "plain_flour"), ("BU-1", "butter"))
    ]
    return receive_lots(entries=entries, by=cast.stores)


def made(cast):
    """Kits accepted and lots there."""
    stocked(cast)
    accept_kits(lesson=cast.lesson, by=cast.stores)
    return lesson(cast)


def keyed(cast):
    return {"key": str(uuid4())}


def asked(cast):
    """A requisition that waits for the stores."""
    submit_requisition(lesson=cast.lesson, by=cast.lecturer)
    return lesson(cast)


def perhaps(cast):
    """A kit made without egg, whose flour may contain egg by its label."""
    sheet = cast.recipe_version.sheet | {"free_from": ["egg"]}
    cast.recipe_version.__class__.objects.filter(pk=cast.recipe_version.pk).update(sheet=sheet)
    flour = Food.objects.get(code="plain_flour")
    flour.allergens.create(kind="egg", presence="may_contain")
    return made(cast) | {"recipe": cast.recipe_version.recipe.code}


def queried(cast):
    """The stores have asked something about it."""
    row = submit_requisition(lesson=cast.lesson, by=cast.lecturer)
    query_requisition(requisition=row, words="Which butter?", by=cast.stores)
    return lesson(cast)


def a_lot(cast):
    return {"code": stocked(cast)[0].code}


def a_held_lot(cast):
    lot = stocked(cast)[0]
    hold_lot(lot=lot, why="It smells.", by=cast.stores)
    return {"code": lot.code}


def an_issue(cast):
    made(cast)
    issue_kits(lesson=cast.lesson, by=cast.stores)
    movement = Movement.objects.filter(kind="issue").select_related("lot").first()
    return {"code": movement.lot.code, "number": movement.number}


def came_back(cast):
    return keyed(cast) | {"grams": "10", "sealed_and_cold": "on"}


def a_delivery(cast):
    food = Food.objects.get(code="plain_flour")
    lot = {"code": "NEW-1", "amount": "500", "received_on": f"{TODAY:%d %b %Y}", "date_kind": "none"}
    return keyed(cast) | lot | {"food": str(food.pk)}


def a_label(cast):
    facts = dict.fromkeys(("meat", "pork", "fish", "slaughter_by_product", "alcohol", "animal_rennet"), "no")
    return keyed(cast) | facts | {"contains": ["wheat"]}


def eggs(cast):
    """The lesson's recipe uses beaten egg, and a lot of eggs is there."""
    whole = Food.objects.create(
        code="egg", name="Egg", counted_in="pieces", piece_milligrams=57_000, label_read_on=TERM
    )
    beaten = Food.objects.create(
        code="egg_beaten", name="Beaten egg", made_from=whole, made_from_milligrams=50_000, label_read_on=TERM
    )
    component = cast.recipe_version.components.create(code="A", name="Paste", basis="portions", position=1)
    component.lines.create(position=1, food=beaten, milligrams=50_000)
    entry = LotEntry(code="EG-1", food="egg", milligrams=570_000, received_on=TERM, label_read_on=TERM)
    receive_lots(entries=[entry], by=cast.stores)
    return lesson(cast) | {"food": "egg_beaten"}


def a_bowl_form(cast):
    day = f"{TODAY:%d %b %Y}"
    times = {"made_on": day, "made_at": "00:00", "discard_on": f"{TODAY + ONE_DAY:%d %b %Y}"}
    return (
        keyed(cast) | times | {"lot_EG-1": "2", "grams": "100", "discard_at": "12:00", "kept_where": "Fridge"}
    )


def a_made_lot(cast):
    """A bowl, and kits that wait for one egg."""
    eggs(cast)
    accept_kits(lesson=cast.lesson, by=cast.stores)
    kit = Kit.objects.filter(kit_set__lesson=cast.lesson, kind="bench").get()
    whole = Food.objects.get(code="egg")
    kit.lines.create(position=9, food=whole, food_words="Egg", exact="1", milligrams=57_000, pieces=1)
    now = now_at(cast.college)
    entry = MadeEntry("egg_beaten", (("EG-1", 2),), 100_000, now, now + ONE_DAY)
    return lesson(cast) | {"code": make_lot(lesson=cast.lesson, entry=entry, by=cast.stores).code}


def who_takes(cast):
    return keyed(cast) | {"lines": [KitLine.objects.get(food__code="egg").pk]}


ROWS = (
    Row("stores:kits", "GET", READERS, made),
    Row("stores:make_kits", "POST", HANDS_POST, lesson, keyed),
    Row("stores:labels_pdf", "GET", READERS, made),
    Row("stores:issue_sheet_pdf", "GET", READERS, made),
    Row("stores:issue", "GET", HANDS, made),
    Row("stores:issue", "POST", HANDS_POST, made, keyed),
    Row("stores:let_go", "GET", OWN, perhaps),
    Row("stores:let_go", "POST", OWN_POST, perhaps, lambda cast: keyed(cast) | {"why": "Talked over."}),
    Row("stores:requisition", "GET", READERS, lesson),
    Row(
        "stores:requisition",
        "POST",
        answers(302, "lecturer cover", 404, "other_lecturer", rest=403),
        lesson,
        keyed,
    ),
    Row("stores:approve_requisition", "POST", HANDS_POST, asked, {"number": 1}),
    Row("stores:query_requisition", "POST", HANDS_POST, asked, {"query": "Which butter?"}),
    Row("stores:reply_to_query", "POST", OWN_POST, queried, {"reply": "The salted one."}),
    Row("stores:withdraw_requisition", "POST", OWN_POST, asked, {"why": "Another dish."}),
    Row("stores:requisitions", "GET", HANDS, lambda cast: asked(cast) and {}),
    Row("stores:made", "GET", HANDS, lesson),
    Row("stores:make_lot", "GET", HANDS, eggs),
    Row("stores:make_lot", "POST", HANDS_POST, eggs, a_bowl_form),
    Row("stores:give_from_made", "GET", HANDS, a_made_lot),
    Row("stores:give_from_made", "POST", HANDS_POST, a_made_lot, who_takes),
    Row("stores:made_label", "GET", HANDS, a_made_lot),
    Row("stores:stock", "GET", HANDS),
    Row("stores:receive", "GET", HANDS),
    Row("stores:receive", "POST", HANDS_POST, {}, a_delivery),
    Row("stores:lot", "GET", HANDS, a_lot),
    Row("stores:hold", "POST", HANDS_POST, a_lot, {"why": "It smells."}),
    Row("stores:release", "POST", HANDS_POST, a_held_lot),
    Row("stores:give_back", "GET", HANDS, an_issue),
    Row("stores:give_back", "POST", HANDS_POST, an_issue, came_back),
    Row("stores:labels", "GET", HANDS),
    Row("stores:label", "GET", HANDS, {"food": "butter"}),
    Row("stores:label", "POST", HANDS_POST, {"food": "plain_flour"}, a_label),
)
