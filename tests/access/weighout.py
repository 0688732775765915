"""Who may open the pages of the weigh-out."""

from uuid import uuid4

from kitchen.lessons.actions import cancel_lesson
from kitchen.stores.models import Kit, KitLine, KitSet
from kitchen.stores.weighout.actions import weigh
from tests.access.stores import HANDS, HANDS_POST, keyed, made
from tests.access_matrix import Row, answers

RULE = {
    "way": "sampled",
    "every": "4",
    "groups": ["salt"],
    "check_per_mille": "2",
    "bulk_per_mille": "1",
    "cold_minutes": "30",
}


def at_flour(cast):
    return made(cast) | {"stop": "plain_flour"}


def line_of(cast, food):
    lines = KitLine.objects.filter(kit__kit_set__lesson=cast.lesson, food__code=food)
    return lines.select_related("kit").order_by("kit__position").first()


def a_tap(cast):
    return keyed(cast) | {"kit": line_of(cast, "plain_flour").kit.code, "food": "plain_flour"}


def weighed(cast):
    """The flour of the lesson stands weighed."""
    facts = at_flour(cast)
    kit_set = KitSet.objects.get(lesson=cast.lesson)
    weights = [(line_of(cast, "plain_flour").kit.code, "plain_flour")]
    weigh(kit_set=kit_set, weights=weights, by=cast.stores)
    return facts


def second_look(cast):
    kit = line_of(cast, "plain_flour").kit.code
    return keyed(cast) | {"second": cast.lecturer.username, "weights": [f"{kit}:plain_flour"]}


def check_weight(cast):
    kit = line_of(cast, "plain_flour").kit.code
    return keyed(cast) | {"weight": f"{kit}:plain_flour", "shown": "100"}


def a_pack(cast):
    return keyed(cast) | {"lot": "FL-1", "left": "9000"}


def a_free_from_kit(cast):
    """The kit of the lesson leaves something out, so that it gets a lid."""
    facts = made(cast)
    kit = Kit.objects.filter(kit_set__lesson=cast.lesson, kind="bench").earliest("position")
    kit.version.sheet["free_from"] = ["celery"]
    kit.version.save(update_fields=["sheet"])
    return facts | {"stop": kit.code}


def a_lid(cast):
    return keyed(cast) | {"lid": "off"}


def cancelled(cast):
    """Flour stands weighed for a lesson that was cancelled."""
    facts = weighed(cast)
    cancel_lesson(lesson=cast.lesson, why="Burst pipe", by=cast.lecturer)
    return {"lesson": facts["lesson"]}


def an_old_tray(cast):
    return {"key": str(uuid4()), "kit": line_of(cast, "plain_flour").kit.code}


ROWS = (
    Row("stores:weigh", "GET", HANDS, made),
    Row("stores:weigh_clean", "GET", HANDS, made),
    Row("stores:weigh_clean", "POST", HANDS_POST, made, {"thing": "scale"}),
    Row("stores:old_trays", "GET", HANDS, cancelled),
    Row("stores:old_trays", "POST", HANDS_POST, cancelled, an_old_tray),
    Row("stores:weigh_station", "GET", HANDS, at_flour),
    Row("stores:weigh_station", "POST", HANDS_POST, at_flour, a_tap),
    Row("stores:take_back", "POST", HANDS_POST, weighed, a_tap),
    Row("stores:weigh_lid", "POST", HANDS_POST, a_free_from_kit, a_lid),
    Row("stores:weigh_go_on", "POST", HANDS_POST, at_flour, {"reason": "The kits stand elsewhere."}),
    Row("stores:weigh_initial", "POST", HANDS_POST, weighed, second_look),
    Row("stores:weigh_check", "POST", HANDS_POST, weighed, check_weight),
    Row("stores:weigh_bulk", "POST", HANDS_POST, weighed, a_pack),
    Row(
        "stores:weigh_rule",
        "GET",
        answers(200, "lecturer other_lecturer cover stores technician manager", rest=403),
    ),
    Row("stores:weigh_rule", "POST", answers(302, "stores manager", rest=403), {}, RULE),
)
