"""What the stores do for a lesson after its kits have left: give more, and take back.

The rules of every action of the stores hold here too (``kitchen.stores.actions``); stock is
written by ``kitchen.stores.ledgers`` alone.
"""

import uuid
from collections.abc import Iterable
from dataclasses import asdict
from datetime import date
from uuid import UUID

from django.db import transaction
from django.utils import timezone

from curriculum import wording
from curriculum.allergens import printed
from curriculum.errors import RuleBroken
from curriculum.foods.models import Food
from curriculum.foods.queries import foods_data
from curriculum.people.models import User
from curriculum.people.queries import the_college, today_at
from curriculum.recipes.models import Version
from curriculum.records.actions import draw_code, once
from kitchen.lessons.diets import Avoids
from kitchen.lessons.models import Lesson, Place
from kitchen.lessons.queries import avoidances_by_day
from kitchen.stores.actions import lesson_locked
from kitchen.stores.against import avoided_food, named
from kitchen.stores.allocation import Draw, LineNeed, allocate
from kitchen.stores.deliveries.models import AcceptedFor
from kitchen.stores.ledgers import Move, lots_locked, move
from kitchen.stores.lots.managers import label_of
from kitchen.stores.made.bowls import together
from kitchen.stores.models import Kit, KitLine, KitSet, Lot, MadePart, Movement, Weighing
from kitchen.stores.moves.lesson import queries
from kitchen.stores.moves.lesson.back import REWORK, CameBack, Out, less, shared_out
from kitchen.stores.moves.queries import piece_of
from kitchen.stores.queries import dish_of, stock_for, use_of, with_labels


@transaction.atomic
def give_more(
    *,
    lesson: Lesson,
    place: Place | None,
    food: Food,
    milligrams: int,
    reason: str,
    by: User,
    reason_code: str | None = None,
    key: UUID | None = None,
) -> Kit:
    """Give a bench (or, without a place, the demonstration) more of a food; it is a kit of its own.

    Its lots are chosen as for every kit. RuleBroken "lesson_cancelled", "no_kits", "not_issued",
    "label_not_read", "not_free_from", "somebody_avoids_it", "short".
    """

    def do() -> dict:
        lesson_locked(lesson)
        kit_set = _kits_that_left(lesson)
        version = place.version if place else dish_of(lesson).version
        _demand_label(Food.objects.select_for_update().get(pk=food.pk), version, place, lesson)
        lots = lots_locked(Lot.objects.filter(food=food).values_list("pk", flat=True))
        draws, by_code = _draws(lesson, food, version, milligrams, lots)
        line = _line(kit_set, place, version, food, milligrams, reason)
        moves = [_more(by_code[draw.lot], draw.milligrams, line, reason, reason_code) for draw in draws]
        move(lots=lots, moves=moves, by=by)
        Weighing.objects.create(kit_line=line, number=1, milligrams=milligrams, key=uuid.uuid4(), by=by)
        return {"kit": line.kit_id}

    said = {"lesson": lesson.code, "place": place.pk if place else 0, "food": food.code}
    said |= {"milligrams": milligrams, "reason": reason}
    return Kit.objects.get(pk=once(key=key, action="give_more", by=by, said=said, do=do)["kit"])


def _more(lot: int, milligrams: int, line: KitLine, reason: str, code: str | None) -> Move:
    kind = Movement.Kind.SUPPLEMENTARY
    return Move(lot, -milligrams, kind, uuid.uuid4(), line.pk, reason, reason_code=code)


def _kits_that_left(lesson: Lesson) -> KitSet:
    """The kits of the lesson, locked before its food, as whoever reads a label locks them."""
    kit_set = queries.standing_set(lesson)
    if kit_set is None:
        raise RuleBroken("no_kits", "No kits are made for this lesson yet. Make the kits, then issue them.")
    if not queries.has_left(kit_set):
        raise RuleBroken(
            "not_issued",
            "The kits of this lesson have not left yet. Issue them first; more is given after that.",
        )
    return KitSet.objects.select_for_update().get(pk=kit_set.pk)


def _demand_label(food: Food, version: Version, place: Place | None, lesson: Lesson) -> None:
    """Nothing leaves unread, nor what a free-from bench is made without, nor what its learners avoid."""
    if food.label_read_on is None:
        raise RuleBroken(
            "label_not_read", f"Nobody has read the label of {food.name}. Read it first.", field="food"
        )
    known = foods_data([food.code])
    data = known[food.code]
    where = f"Bench {place.bench.number}" if place else "The demonstration"
    found = named(data, version.sheet["free_from"])
    if found.contains or found.may:
        without = wording.listed(code.replace("_", " ") for code in version.sheet["free_from"])
        raise RuleBroken(
            "not_free_from",
            f"{where} works free from {without}, and the label of {food.name} names "
            f"{wording.listed(map(printed, (*found.contains, *found.may)))}. Give another food.",
            field="food",
        )
    whole = known[data.made_from.food] if data.made_from else data
    avoided = avoided_food(data, whole, _avoided_at(place, lesson))
    if avoided:
        words = f"Somebody at bench {place.bench.number} {avoided} in {food.name}. Give another food."
        raise RuleBroken("somebody_avoids_it", words, field="food")


def _avoided_at(place: Place | None, lesson: Lesson) -> list[tuple[Avoids, ...]]:
    """What each learner at a bench avoids on the day; nobody stands at the demonstration."""
    students = place.learners.values_list("student", flat=True) if place else ()
    return list(avoidances_by_day((student, lesson.on) for student in students).values())


def _draws(
    lesson: Lesson, food: Food, version: Version, milligrams: int, lots: dict[int, Lot]
) -> tuple[tuple[Draw, ...], dict[str, int]]:
    """From which lots it comes, and their keys by code; nothing that stands on trays. RuleBroken "short"."""
    need = LineNeed(0, food.code, milligrams, piece_of(food), bool(version.sheet["free_from"]))
    stock = stock_for(with_labels(Lot.objects.filter(pk__in=lots)), None)
    answer = allocate([need], stock, use_of(lesson))
    if answer.shortages:
        short = answer.shortages[0]
        raise RuleBroken(
            "short",
            " ".join(
                (
                    f"{wording.amount(short.needed_milligrams)} were asked and "
                    f"{wording.amount(short.issued_milligrams)} may leave.",
                    *short.left_out,
                    "Write less, or count in what lies there.",
                )
            ),
            field="amount",
        )
    return answer.draws, {lot.code: lot.pk for lot in lots.values()}


def _line(
    kit_set: KitSet, place: Place | None, version: Version, food: Food, milligrams: int, reason: str
) -> KitLine:
    label, piece = label_of(food), piece_of(food)
    pieces = milligrams // piece if piece else None
    same_place = Kit.objects.filter(kit_set=kit_set, place=place)
    kit = Kit.objects.create(
        kit_set=kit_set,
        code=draw_code(Kit),
        kind=Kit.Kind.SUPPLEMENTARY,
        position=kit_set.kits.count() + 1,
        place=place,
        part=same_place.count() + 1,
        version=version,
    )
    return KitLine.objects.create(
        kit=kit,
        position=1,
        food=food,
        component=f"Given later: bench {place.bench.number}" if place else "Given later",
        food_words=food.name,
        allergens_words=", ".join(map(printed, label.contains)),
        may_contain_words=", ".join(map(printed, label.may_contain)),
        label_read_on=food.label_read_on,
        exact=str(pieces if pieces is not None else milligrams),
        milligrams=milligrams,
        stock_milligrams=milligrams,
        pieces=pieces,
        note=reason[:200],
    )


@transaction.atomic
def take_back_from_lesson(
    *,
    lesson: Lesson,
    rows: Iterable[CameBack],
    sealed_and_cold: bool,
    rework_until: date | None = None,
    why: tuple[str, str | None] = ("", None),
    by: User,
    key: UUID | None = None,
    seen: int | None = None,
) -> int:
    """Write down what came back of all kits of a lesson; returns how many lots something came back of.

    ``why`` is words and their code in the college's list, empty when nobody said. Sealed food goes
    back into its lot; opened food is thrown away by reason or becomes a re-work lot of its own, held
    where its lot is and gone by ``rework_until``. A cancelled lesson gives back too. ``seen``: how many
    returns the page had seen. RuleBroken "taken_back_meanwhile", "opened", "more_than_issued",
    "no_rework", "rework_until".
    """
    came = sorted(rows, key=lambda each: each.lot)

    def do() -> dict:
        Lesson.objects.select_for_update().get(pk=lesson.pk)
        _demand_seen(lesson, seen)
        lots = lots_locked(each.lot for each in came)
        known = {each.pk: each for each in with_labels(Lot.objects.filter(pk__in=lots))}
        outs = queries.outs_of(lesson)
        _demand_back(came, known, outs, sealed_and_cold, rework_until)
        for each in came:
            sealed, opened = _shares(each, outs)
            move(lots=lots, moves=_moves_back(each, sealed, opened, why), by=by)
            if opened and each.opened_to == REWORK:
                _rework(lesson, known[each.lot], lots, opened, rework_until, by)
        return {"lots": len(came)}

    said = {"lesson": lesson.code, "rows": [asdict(each) for each in came], "cold": sealed_and_cold}
    said |= {"until": rework_until.isoformat() if rework_until else "", "why": why[0]}
    return once(key=key, action="take_back_from_lesson", by=by, said=said, do=do)["lots"]


def _demand_seen(lesson: Lesson, seen: int | None) -> None:
    """What comes back is not written down on two tablets."""
    if seen is None or seen == queries.backs_of(lesson):
        return
    last = queries.last_back(lesson)
    raise RuleBroken(
        "taken_back_meanwhile",
        f"{last.by.name} wrote down what came back at {timezone.localtime(last.at):%H:%M}. Nothing of yours "
        "is in the book yet: send it again only if it came back besides.",
    )


def _shares(came: CameBack, outs: list[Out]) -> tuple[list[tuple[int, int]], list[tuple[int, int]]]:
    """What came back of one lot over the lines it had left for: sealed, and opened."""
    mine = [out for out in outs if out.lot == came.lot]
    sealed = shared_out(came.sealed_milligrams, mine)
    return sealed, shared_out(came.opened_milligrams, less(mine, sealed))


def _moves_back(
    came: CameBack, sealed: list[tuple[int, int]], opened: list[tuple[int, int]], why: tuple[str, str | None]
) -> list[Move]:
    """Everything of one lot comes back; what was opened leaves it again, unless it is kept for re-work."""
    moves = [_back(came.lot, share, "Sealed and cold", why) for share in sealed]
    moves += [_back(came.lot, share, "Opened", why) for share in opened]
    return moves if came.opened_to == REWORK else [*moves, *(_thrown(came, share) for share in opened)]


def _back(lot: int, share: tuple[int, int], how: str, why: tuple[str, str | None]) -> Move:
    (line, milligrams), (words, code) = share, why
    reason = f"{how}. {words}" if words else how
    return Move(lot, milligrams, Movement.Kind.RETURN, uuid.uuid4(), line, reason, reason_code=code)


def _thrown(came: CameBack, share: tuple[int, int]) -> Move:
    line, milligrams = share
    code = came.opened_code
    return Move(
        came.lot, -milligrams, Movement.Kind.WASTE, uuid.uuid4(), line, came.opened_to, reason_code=code
    )


def _rework(
    lesson: Lesson, lot: Lot, lots: dict[int, Lot], shares: list[tuple[int, int]], until: date, by: User
) -> Lot:
    """Opened food as a lot of its own: out of its lot, into the new one, which knows where it is from."""
    made = _rework_lot(lesson, lot, until)
    AcceptedFor.objects.bulk_create(
        AcceptedFor(lot=made, lesson_id=each.lesson_id, by_id=each.by_id) for each in lot.accepted_for.all()
    )
    total = sum(milligrams for _, milligrams in shares)
    reason = f"Into re-work lot {made.code}"
    out = Move(lot.pk, -total, Movement.Kind.ISSUE, uuid.uuid4(), reason=reason)
    into = [
        Move(made.pk, milligrams, Movement.Kind.REWORK, uuid.uuid4(), line, f"Out of lot {lot.code}")
        for line, milligrams in shares
    ]
    first, *_ = move(lots={lot.pk: lots[lot.pk]} | lots_locked([made.pk]), moves=[out, *into], by=by)
    MadePart.objects.create(made=made, movement=first)
    return made


def _rework_lot(lesson: Lesson, lot: Lot, until: date) -> Lot:
    """The new lot: what bars its own lot bars it too, and it was opened when that was."""
    today = today_at(the_college())
    label = together([_label(lot), (lot.label_allergens, lot.label_may_contain)])
    dated = lot.date if lot.date_kind == Lot.DateKind.USE_BY else None
    return Lot.objects.create(
        code=draw_code(Lot),
        food=lot.food,
        received_on=today,
        date_kind=Lot.DateKind.USE_BY,
        date=min(until, dated) if dated else until,
        opened_on=min(lot.opened_on or today, today),
        label_allergens=list(label.contains),
        label_may_contain=list(label.may_contain),
        label_read_on=lot.label_read_on,
        label_read_by=lot.label_read_by,
        restricted=lot.restricted,
        held=lot.held,
        held_why=lot.held_why,
        note=f"Re-work out of {lesson.title}, {wording.short_date(lesson.on)}"[:200],
    )


def _label(lot: Lot) -> tuple[tuple[str, ...], tuple[str, ...]]:
    label = label_of(lot.food)
    return label.contains, label.may_contain


def _demand_back(
    came: list[CameBack], lots: dict[int, Lot], outs: list[Out], sealed_and_cold: bool, until: date | None
) -> None:
    """Refuse, each at its field, what cannot come back so."""
    if any(each.sealed_milligrams for each in came) and not sealed_and_cold:
        raise RuleBroken(
            "opened",
            "Only what is sealed and was kept cold goes back into its lot. Tick that it is so, or write it "
            "down as opened.",
            field="sealed_and_cold",
        )
    over = [(each, sum(out.milligrams for out in outs if out.lot == each.lot)) for each in came]
    wrong = [
        (
            f"sealed_{each.lot}",
            f"{wording.amount(each.milligrams)} were to come back of lot {lots[each.lot].code} and "
            f"{wording.amount(out)} are out. Write what came back.",
        )
        for each, out in over
        if each.milligrams > out
    ]
    if wrong:
        raise RuleBroken("more_than_issued", wrong[0][1], at_fields=tuple(wrong))
    _demand_rework(came, lots, until)


def _demand_rework(came: list[CameBack], lots: dict[int, Lot], until: date | None) -> None:
    """Refuse re-work of what was kept cold, and re-work without its day."""
    kept = [each for each in came if each.opened_milligrams and each.opened_to == REWORK]
    cold = [each for each in kept if lots[each.lot].food.storage != Food.Storage.AMBIENT]
    if cold:
        words = (
            "Food that is kept chilled or frozen is not kept for re-work once opened. Say why it is waste."
        )
        raise RuleBroken("no_rework", words, at_fields=tuple((f"to_{each.lot}", words) for each in cold))
    if kept and (until is None or until < today_at(the_college())):
        raise RuleBroken(
            "rework_until",
            "Re-work has a day by which it is thrown away, today or later, by the college’s own procedure.",
            field="rework_until",
        )
