"""What the stores do with made lots: make one out of whole pieces, and give it out in their place.

The rules of every action of the stores hold here too (``kitchen.stores.actions``); stock is
written by ``kitchen.stores.ledgers`` alone.
"""

import uuid
from collections.abc import Iterable
from dataclasses import replace
from uuid import UUID

from django.db import transaction
from django.utils import timezone

from curriculum import wording
from curriculum.errors import RuleBroken
from curriculum.foods.models import Food
from curriculum.people.models import User
from curriculum.people.queries import now_at, the_college
from curriculum.records.actions import draw_code, once
from kitchen.lessons.models import Lesson
from kitchen.stores.actions import lesson_locked
from kitchen.stores.allocation import barred
from kitchen.stores.ledgers import Move, lots_locked, move
from kitchen.stores.made import queries
from kitchen.stores.made.bowls import MadeEntry, demand, together
from kitchen.stores.models import KitLine, KitSet, Lot, MadePart, Movement
from kitchen.stores.queries import lot_data, use_of, with_labels
from kitchen.stores.weighout.managers import set_aside


@transaction.atomic
def make_lot(*, lesson: Lesson, entry: MadeEntry, by: User, key: UUID | None = None) -> Lot:
    """Make a lot for a lesson out of pieces of other lots: they leave those, and it comes in.

    RuleBroken "lesson_cancelled", "not_made_here", "lot_barred", "label_not_read", "weighs_more",
    "made_later", "discard_before_made", "discard_passed", "lot_too_small".
    """

    def do() -> dict:
        lesson_locked(lesson)
        food = _food(lesson, entry)
        taken = _taken(food, entry)
        made = _made(lesson, entry, food, taken, by)
        pieces, unit = dict(entry.pieces), food.made_from.piece_milligrams
        out = [
            Move(
                lot.pk,
                -pieces[lot.code] * unit,
                Movement.Kind.ISSUE,
                uuid.uuid4(),
                reason=f"Into made lot {made.code}",
            )
            for lot in taken.values()
        ]
        into = Move(made.pk, entry.milligrams, Movement.Kind.RECEIVE, uuid.uuid4(), reason="Made here")
        rows = move(lots=taken | lots_locked([made.pk]), moves=[*out, into], by=by)
        MadePart.objects.bulk_create(MadePart(made=made, movement=row) for row in rows[:-1])
        return {"lot": made.pk}

    said = {"lesson": lesson.code, "food": entry.food, "pieces": entry.pieces, "milligrams": entry.milligrams}
    said |= {"times": [entry.made_at.isoformat(), entry.discard_at.isoformat()], "where": entry.kept_where}
    return Lot.objects.get(pk=once(key=key, action="make_lot", by=by, said=said, do=do)["lot"])


@transaction.atomic
def give_from_made(*, lot: Lot, lines: Iterable[int], by: User, key: UUID | None = None) -> int:
    """Let these kit lines take from a made lot of their lesson instead of whole pieces; returns how many.

    The lines then carry the weight of the part; they leave the stores with the kits like any
    other. RuleBroken "lesson_cancelled", "made_lot_barred", "line_changed", "bowl_too_small".
    """
    keys = sorted(set(lines))

    def do() -> dict:
        lesson = lesson_locked(lot.made_in)
        list(KitSet.objects.select_for_update().filter(lesson=lesson, state=KitSet.State.ACCEPTED))
        list(KitLine.objects.select_for_update().filter(pk__in=keys).order_by("pk"))
        lots_locked([lot.pk])
        why = barred(lot_data(with_labels(Lot.objects.filter(pk=lot.pk)).get()), use_of(lesson))
        if why:
            raise RuleBroken("made_lot_barred", why)
        food = Food.objects.select_related("made_from").get(pk=lot.food_id)
        chosen = [each for each in queries.takers(lesson, food) if each.line.pk in keys]
        _demand_lines(chosen, keys)
        _demand_room(lesson, food, sum(each.milligrams for each in chosen))
        for each in chosen:
            _take_from_bowl(each, food)
        KitLine.objects.bulk_update([each.line for each in chosen], CHANGED)
        return {"lines": len(chosen)}

    said = {"lot": lot.code, "lines": keys}
    return once(key=key, action="give_from_made", by=by, said=said, do=do)["lines"]


#: What changes on a kit line that takes from a bowl.
CHANGED = ("food", "food_words", "exact", "milligrams", "stock_milligrams", "pieces", "note", "pooled")


def _food(lesson: Lesson, entry: MadeEntry) -> Food:
    food = queries.foods_to_make(lesson).filter(code=entry.food).first()
    if food is None:
        raise RuleBroken(
            "not_made_here", "No recipe of this lesson uses that out of whole pieces. Choose another food."
        )
    return food


def _taken(food: Food, entry: MadeEntry) -> dict[int, Lot]:
    """The lots that pieces are taken from, locked and judged; what stands weighed on trays is not free."""
    codes = [code for code, _ in entry.pieces]
    keys = Lot.objects.filter(code__in=codes, food=food.made_from).values_list("pk", flat=True)
    taken = lots_locked(keys)
    if len(taken) != len(set(codes)):
        raise RuleBroken("lot_barred", f"Not every lot is a lot of {food.made_from.name}. Choose again.")
    aside = set_aside(taken)
    data = {
        lot.code: replace(lot_data(lot), aside_milligrams=aside.get(lot.pk, 0))
        for lot in with_labels(Lot.objects.filter(pk__in=taken))
    }
    unread = [lot.code for lot in taken.values() if lot.label_read_on is None]
    demand(entry, data, unread, food.made_from.piece_milligrams, now_at(the_college()))
    return taken


def _made(lesson: Lesson, entry: MadeEntry, food: Food, taken: dict[int, Lot], by: User) -> Lot:
    own = [(row.kind, row.presence) for row in food.allergens.all()]
    of_food = [[kind for kind, said in own if said == presence] for presence in ("contains", "may_contain")]
    label = together(
        [tuple(of_food), *((lot.label_allergens, lot.label_may_contain) for lot in taken.values())]
    )
    day = timezone.localtime(entry.made_at).date()
    return Lot.objects.create(
        code=draw_code(Lot),
        food=food,
        received_on=day,
        date_kind=Lot.DateKind.NONE,
        label_allergens=list(label.contains),
        label_may_contain=list(label.may_contain),
        label_read_on=day,
        label_read_by=by,
        made_in=lesson,
        made_at=entry.made_at,
        discard_at=entry.discard_at,
        kept_where=entry.kept_where,
    )


def _demand_lines(chosen: list[queries.Taker], keys: list[int]) -> None:
    if not keys:
        raise RuleBroken("line_changed", "No kit is ticked. Tick the kits that take from this bowl.")
    if len(chosen) != len(keys):
        raise RuleBroken(
            "line_changed",
            "One of these kits has left, is weighed or was made again meanwhile. Open the page again.",
        )


def _demand_room(lesson: Lesson, food: Food, wanted: int) -> None:
    """Refuse more than the bowls of the lesson hold beside what they have promised already."""
    free = queries.free_milligrams(lesson, food, now_at(the_college()))
    if wanted > free:
        raise RuleBroken(
            "bowl_too_small",
            f"These kits take {wording.amount(wanted)} and {wording.amount(free)} of {food.name} is free. "
            "Tick fewer kits, or make more.",
            wanted_milligrams=wanted,
            free_milligrams=free,
        )


def _take_from_bowl(taker: queries.Taker, food: Food) -> None:
    line = taker.line
    line.food, line.food_words, line.pooled = food, food.name, True
    line.exact, line.pieces = str(taker.exact), None
    line.milligrams = line.stock_milligrams = taker.milligrams
    line.note = "; ".join(part for part in ("out of a pooled bowl", line.note) if part)[:200]
