"""What stores and technician do at the scale: clean start, weights, lids, second looks, readings.

Nothing here moves stock: a weight says from which lot it came, and the lots change when the
kits are issued. Every action locks the kit set first, so that two tablets never both weigh.
"""

import uuid
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from uuid import UUID

from django.db import transaction

from curriculum import wording
from curriculum.errors import RuleBroken
from curriculum.foods.queries import foods_data
from curriculum.people.models import College, User
from curriculum.people.queries import the_college, today_at
from curriculum.records.actions import once
from kitchen.lessons.models import Lesson
from kitchen.stores.allocation import Draw
from kitchen.stores.ledgers import lots_locked
from kitchen.stores.models import Kit, KitLine, KitSet, Lot, Movement, Weighing
from kitchen.stores.queries import WEIGHINGS, current_weighings, planned_draws
from kitchen.stores.weighout import queries
from kitchen.stores.weighout.checks import SETTING, WeighOutRule, check_tolerance, kept_rule, passes
from kitchen.stores.weighout.lids.actions import demand_lids_first, demand_open, lid_is_on, without_lid
from kitchen.stores.weighout.managers import not_left
from kitchen.stores.weighout.models import (
    AllTheSame,
    BulkReading,
    Cleaned,
    Lid,
    SecondCheck,
    WeighedFrom,
)


@dataclass(frozen=True, slots=True)
class Tapped:
    """What came of a tap: how many lines are weighed by it, or who had weighed them before."""

    weighed: int
    before: str = ""


@transaction.atomic
def tick_clean(*, kit_set: KitSet, thing: str, by: User) -> Cleaned:
    """Note that bench, scale, scoops or hands are clean today. Ticked twice is ticked once."""
    locked(kit_set)
    row = Cleaned.objects.filter(kit_set=kit_set, thing=thing, on=today_at(the_college())).first()
    return row or Cleaned.objects.create(kit_set=kit_set, thing=thing, on=today_at(the_college()), by=by)


@transaction.atomic
def weigh(
    *, kit_set: KitSet, weights: Iterable[tuple[str, str]], by: User, key: UUID | None = None
) -> Tapped:
    """Note that foods stand weighed on trays (kit, food), as they are issued, and from which lots.

    What is weighed already stays as it is, and who did it is said. RuleBroken
    "lesson_cancelled", "kits_made_again", "kit_blocked", "kit_has_left", "lids_first", "lid_is_on",
    "book_lacks".
    """

    wanted = sorted(weights)

    def do() -> dict:
        current = open_set(kit_set)
        lines = lines_locked(current, wanted)
        demand_here(lines)
        demand_lids_first(current, lines)
        weighed = current_weighings(lines)
        rows = [line for line in lines if line.pk not in weighed and line.stock_milligrams]
        demand_open(rows)
        _write(current, rows, by, key)
        before = next((queries.noted(each.at, each.by) for each in weighed.values()), "")
        return {"weighed": len(rows), "before": "" if rows else before}

    return Tapped(**once(key=key, action="weigh", by=by, said={"weights": wanted}, do=do))


@transaction.atomic
def take_back(*, kit_set: KitSet, kit: str, food: str, by: User, key: UUID | None = None) -> int:
    """Undo the weight of a food on a tray; both stay written. Returns how many lines.

    RuleBroken "kit_has_left", and "lid_is_on" for a kit that must be opened first.
    """

    def do() -> dict:
        lines = lines_locked(locked(kit_set), [(kit, food)])
        demand_not_left(lines)
        if lines and lid_is_on(lines[0].kit):
            raise RuleBroken("lid_is_on", "The lid of this kit is on. Take the lid off, then this weight.")
        done = [line for line in lines if line.pk in current_weighings(lines)]
        Weighing.objects.bulk_create(weighing(line, True, by, key) for line in done)
        return {"taken_back": len(done)}

    return once(key=key, action="take_back", by=by, said={"kit": kit, "food": food}, do=do)["taken_back"]


@transaction.atomic
def put_lid(*, kit_set: KitSet, kit: str, is_on: bool, by: User, key: UUID | None = None) -> Lid | None:
    """Put the lid on a kit, which ends it, or take it off again; None where it is so already.

    RuleBroken "not_all_weighed", "kit_has_left", "kits_made_again".
    """

    def do() -> dict:
        row = Kit.objects.select_for_update().get(kit_set=open_set(kit_set), code=kit)
        lines = tray_locked(kit_set, kit)
        demand_not_left(lines)
        if is_on:
            demand_here(lines)
            _demand_weighed(kit_set, lines)
        if lid_is_on(row) == is_on:
            return {"lid": None}
        return {"lid": Lid.objects.create(kit=row, number=row.lids.count() + 1, is_on=is_on, by=by).pk}

    found = once(key=key, action="put_lid", by=by, said={"kit": kit, "is_on": is_on}, do=do)["lid"]
    return Lid.objects.get(pk=found) if found else None


@transaction.atomic
def go_on(*, kit_set: KitSet, reason: str, by: User) -> AllTheSame:
    """Weigh on before the free-from kits are lidded, with the reason; it holds for the kits waiting now.

    Said twice in the same words it is said once.
    """
    current = open_set(kit_set)
    waiting = sorted(code for code, _ in without_lid(current))
    said = {"kit_set": current, "what": AllTheSame.What.BEFORE_LIDS, "reason": reason, "standing": waiting}
    return AllTheSame.objects.filter(**said, by=by).first() or AllTheSame.objects.create(**said, by=by)


@transaction.atomic
def initial(
    *, kit_set: KitSet, weights: Iterable[tuple[str, str]], second: User, by: User, key: UUID | None = None
) -> int:
    """Note that a second person has looked at these weights (kit, food). Returns how many.

    RuleBroken "second_is_first" when the second person weighed one of them, "kit_has_left".
    """
    wanted = sorted(weights)

    def do() -> dict:
        current = open_set(kit_set)
        standing = queries.taps_of(current).standing
        looked = queries.looked_at(current, standing)
        fresh = [each for each in wanted if each in standing and not _passed(looked, each)]
        demand_here(lines_locked(current, fresh))
        if any(standing[each].by == second.pk for each in fresh):
            raise RuleBroken(
                "second_is_first",
                f"{second.name} weighed one of these. Somebody else looks at it, not who weighed it.",
                field="second",
            )
        SecondCheck.objects.bulk_create(
            SecondCheck(
                weighing_id=standing[each].last,
                how=SecondCheck.How.INITIALS,
                expected_milligrams=_expected(current, *each),
                passed=True,
                second_by=second,
                by=by,
            )
            for each in fresh
        )
        return {"initialled": len(fresh)}

    said = {"weights": wanted, "second": second.pk}
    return once(key=key, action="initial", by=by, said=said, do=do)["initialled"]


@transaction.atomic
def check_weight(
    *, kit_set: KitSet, kit: str, food: str, milligrams: int, by: User, key: UUID | None = None
) -> SecondCheck:
    """Write down what a pot weighed on the scale once more; it passes or stays open.

    RuleBroken "not_weighed" when the weight was taken back meanwhile, "kit_has_left".
    """

    def do() -> dict:
        current = open_set(kit_set)
        tap = queries.taps_of(current).standing.get((kit, food))
        if tap is None:
            raise RuleBroken("not_weighed", "This weight was taken back. Weigh it, then check it.")
        demand_here(lines_locked(current, [(kit, food)]))
        lines = queries.lines_of(current, kit, food)
        expected, pieces = sum(each.milligrams for each in lines), sum(each.pieces or 0 for each in lines)
        step = foods_data([food])[food].increment_milligrams
        tolerance = check_tolerance(queries.rule_of(the_college()), expected, step, pieces)
        row = SecondCheck.objects.create(
            weighing_id=tap.last,
            how=SecondCheck.How.CHECK_WEIGHT,
            milligrams=milligrams,
            expected_milligrams=expected,
            passed=passes(milligrams, expected, tolerance),
            by=by,
        )
        return {"check": row.pk}

    said = {"kit": kit, "food": food, "milligrams": milligrams}
    return SecondCheck.objects.get(pk=once(key=key, action="check_weight", by=by, said=said, do=do)["check"])


@transaction.atomic
def read_bulk(
    *, kit_set: KitSet, lot: Lot, milligrams: int, by: User, key: UUID | None = None
) -> BulkReading:
    """Write down what the pack of a lot weighs now, beside what must be left in it."""

    def do() -> dict:
        current = locked(kit_set)
        expected = queries.expected_in(Lot.objects.select_for_update().get(pk=lot.pk))
        said = {"milligrams": milligrams, "expected_milligrams": expected}
        return {"reading": BulkReading.objects.create(kit_set=current, lot=lot, by=by, **said).pk}

    said = {"lot": lot.code, "milligrams": milligrams}
    return BulkReading.objects.get(pk=once(key=key, action="read_bulk", by=by, said=said, do=do)["reading"])


@transaction.atomic
def keep_rule(*, rule: WeighOutRule, by: User) -> WeighOutRule:
    """Keep how this college weighs out."""
    college = College.objects.select_for_update().get(pk=1)
    college.settings = {**college.settings, SETTING: kept_rule(rule)}
    college.save(update_fields=["settings"])
    return rule


def locked(kit_set: KitSet) -> KitSet:
    """The kit set as it stands now, with its lesson, locked."""
    return KitSet.objects.select_for_update(of=("self",)).select_related("lesson").get(pk=kit_set.pk)


def open_set(kit_set: KitSet) -> KitSet:
    """The kit set, locked, while it is weighed out. RuleBroken "lesson_cancelled", "kits_made_again"."""
    current = locked(kit_set)
    if current.lesson.state == Lesson.State.CANCELLED:
        raise RuleBroken("lesson_cancelled", "This lesson is cancelled. Nothing more is weighed for it.")
    if current.state != KitSet.State.ACCEPTED:
        raise RuleBroken(
            "kits_made_again", "The kits of this lesson were made again meanwhile. Open the weigh-out again."
        )
    return current


def tray_locked(kit_set: KitSet, kit: str) -> list[KitLine]:
    """The lines of a tray with their weights, locked in key order."""
    rows = KitLine.objects.select_for_update(of=("self",)).filter(kit__kit_set=kit_set, kit__code=kit)
    return list(rows.select_related("kit__version", "food").prefetch_related(WEIGHINGS).order_by("pk"))


def lines_locked(kit_set: KitSet, weights: Iterable[tuple[str, str]]) -> list[KitLine]:
    """The lines of these weights (kit, food) with what is weighed of them, locked in key order."""
    wanted = set(weights)
    rows = KitLine.objects.select_for_update(of=("self",)).filter(
        kit__kit_set=kit_set,
        kit__code__in={kit for kit, _ in wanted},
        food__code__in={food for _, food in wanted},
    )
    found = rows.select_related("kit__version", "food").prefetch_related(WEIGHINGS).order_by("pk")
    return [line for line in found if (line.kit.code, line.food.code) in wanted]


def demand_here(lines: list[KitLine]) -> None:
    """Nothing is put on a kit that waits or has left. RuleBroken "kit_blocked", "kit_has_left"."""
    blocked = next((line.kit.blocked_why for line in lines if line.kit.blocked_why), "")
    if blocked:
        raise RuleBroken("kit_blocked", blocked)
    demand_not_left(lines)


def demand_not_left(lines: list[KitLine]) -> None:
    """Nothing is noted on a kit that has left; one that waits may be taken apart. RuleBroken."""
    issues = [Movement.Kind.ISSUE, Movement.Kind.SUPPLEMENTARY]
    if Movement.objects.filter(kit_line__in=[line.pk for line in lines], kind__in=issues).exists():
        raise RuleBroken(
            "kit_has_left", "This kit has left the stores. What comes back is written down on its own page."
        )


def _demand_weighed(kit_set: KitSet, lines: list[KitLine]) -> None:
    """Refuse a lid while something that is there is not weighed; what the book lacks comes after."""
    weighed = current_weighings(lines)
    left = [line for line in lines if line.stock_milligrams and line.pk not in weighed]
    covered = _covered(planned_draws(kit_set).draws) if left else {}
    left = [line for line in left if covered.get(line.pk, 0) >= line.stock_milligrams]
    if left:
        names = wording.listed(dict.fromkeys(line.food_words for line in left))
        raise RuleBroken("not_all_weighed", f"The lid stays off: {names} not weighed yet.")


def _passed(looked: dict, weight: tuple[str, str]) -> bool:
    return weight in looked and bool(looked[weight].passed)


def _expected(kit_set: KitSet, kit: str, food: str) -> int:
    return sum(line.milligrams for line in queries.lines_of(kit_set, kit, food))


def _write(kit_set: KitSet, lines: list[KitLine], by: User, key: UUID | None) -> None:
    """The weights of these lines and their lots, locked first: nobody throws them away at that moment."""
    keys = {line.pk for line in lines}
    there = Lot.objects.filter(food__in=[line.food_id for line in lines], on_hand_milligrams__gt=0)
    lots_locked(there.values_list("pk", flat=True))
    draws = [draw for draw in planned_draws(kit_set).draws if draw.key in keys] if keys else []
    _demand_in_the_book(lines, draws)
    rows = Weighing.objects.bulk_create(weighing(line, False, by, key) for line in lines)
    by_line = {row.kit_line_id: row for row in rows}
    lots = dict(Lot.objects.filter(code__in={draw.lot for draw in draws}).values_list("code", "pk"))
    WeighedFrom.objects.bulk_create(
        WeighedFrom(weighing=by_line[draw.key], lot_id=lots[draw.lot], milligrams=draw.milligrams)
        for draw in draws
    )


def _demand_in_the_book(lines: list[KitLine], draws: list[Draw]) -> None:
    """Refuse a weight that no lot covers: the issue would take it out of what comes in later."""
    covered = _covered(draws)
    lacking = next((line for line in lines if covered.get(line.pk, 0) < line.stock_milligrams), None)
    if lacking is not None and _old_trays_hold(lacking):
        raise RuleBroken(
            "stands_on_old_trays",
            f"{lacking.food_words} stands weighed on trays of kits made before. Say first what becomes of "
            "those trays; nothing is counted in.",
        )
    if lacking is not None:
        short = lacking.stock_milligrams - covered.get(lacking.pk, 0)
        raise RuleBroken(
            "book_lacks",
            f"The book has {wording.amount(short)} too little {lacking.food_words} for this tray. If you "
            "have it in your hand, count it in with its lot first; then its weight stands for that lot.",
        )


def _old_trays_hold(line: KitLine) -> bool:
    """Whether the food of a line stands on trays of kits of the same lesson that were made before."""
    others = not_left().filter(weighing__kit_line__kit__kit_set__lesson=line.kit.kit_set.lesson_id)
    return (
        others.filter(weighing__kit_line__food=line.food_id)
        .exclude(weighing__kit_line__kit__kit_set=line.kit.kit_set_id)
        .exists()
    )


def _covered(draws: Iterable[Draw]) -> dict[int, int]:
    """How much the lots hold for each line, by its key."""
    found: dict[int, int] = defaultdict(int)
    for draw in draws:
        found[draw.key] += draw.milligrams
    return found


def weighing(line: KitLine, undone: bool, by: User, key: UUID | None) -> Weighing:
    """The next row of a line; its key is its own, also where one request writes several."""
    own = uuid.uuid4() if key is None else uuid.uuid5(key, f"{line.pk}:{undone}")
    number = len(line.weighings.all()) + 1
    return Weighing(kit_line=line, number=number, milligrams=line.milligrams, undone=undone, key=own, by=by)
