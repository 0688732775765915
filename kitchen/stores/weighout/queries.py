"""What the weigh-out reads: its order with everything known of it, the tally of a stop, old trays.

Each function takes a fixed number of queries, however many benches a lesson has.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime

from django.db.models import Max
from django.utils import timezone

from curriculum import wording
from curriculum.foods.data import FoodData
from curriculum.foods.queries import foods_data
from curriculum.foods.rounding import scale_step
from curriculum.people.models import College, RoleGrant, User
from curriculum.people.queries import the_college, today_at
from curriculum.people.roles import KITCHEN_HANDS, LECTURER
from curriculum.recipes.queries import recipes_data
from kitchen.lessons.models import Lesson
from kitchen.stores.allocation import barred
from kitchen.stores.models import Kit, KitLine, KitSet, Lot, Weighing
from kitchen.stores.queries import dish_of, stock_for, trays_of, use_of, with_labels
from kitchen.stores.trays import Tray, initials
from kitchen.stores.weighout.checks import SETTING, WeighOutRule, read_rule, sampled
from kitchen.stores.weighout.managers import set_aside, weighed_from
from kitchen.stores.weighout.models import AllTheSame, BulkReading, Cleaned, Lid, SecondCheck
from kitchen.stores.weighout.moments import (
    Clock,
    Moment,
    first_step,
    moment_of,
)
from kitchen.stores.weighout.order import Facts, Looked, Stop, stops, without_lid
from kitchen.stores.weighout.page import WeighOut, clean_ticks, gate_words, last_tap
from kitchen.stores.weighout.tally import (
    FoodTally,
    LotTally,
    Reading,
    blind_words,
    reading_words,
    tolerance_of,
)
from kitchen.timeplan.queries import ruling_plan


def rule_of(college: College) -> WeighOutRule:
    """How this college weighs out."""
    return read_rule(college.settings.get(SETTING))


def second_people(by: User) -> list[User]:
    """Who can look at a weight: whoever works in the kitchen, the person at the tablet too. One query."""
    grants = RoleGrant.objects.filter(role__in=(*KITCHEN_HANDS, LECTURER), until_on=None)
    people = User.objects.filter(pk__in=grants.values("user"), is_active=True).order_by("name")
    return sorted(people, key=lambda person: person.pk == by.pk)


def noted(at: datetime, by: User) -> str:
    """When and by whom something was noted: "10:51, HB"."""
    return f"{timezone.localtime(at):%H:%M}, {initials(by.name)}"


@dataclass(frozen=True, slots=True)
class Standing:
    """The weights of one food on one tray that stand: the last of their rows, its person, its second."""

    last: int
    by: int
    who: str = ""
    second: str = ""


@dataclass(frozen=True, slots=True)
class Taps:
    """What was tapped: weights that stand by kit and food, and the last tap of one person."""

    standing: Mapping[tuple[str, str], Standing]
    last: tuple[str, str] | None


def taps_of(kit_set: KitSet, by: User | None = None) -> Taps:
    """The weights of a set that stand, and the last of ``by`` where it still does. One query."""
    rows = Weighing.objects.filter(kit_line__kit__kit_set=kit_set).select_related(
        "kit_line__kit", "kit_line__food", "by", "second_by"
    )
    last: dict[int, Weighing] = {row.kit_line_id: row for row in rows.order_by("number")}
    own = max((row for row in last.values() if by is not None and row.by_id == by.pk), key=_pk, default=None)
    standing: dict[tuple[str, str], Standing] = {}
    for row in sorted(last.values(), key=_pk):
        if not row.undone:
            second = initials(row.second_by.name) if row.second_by else ""
            standing[_kit_and_food(row)] = Standing(row.pk, row.by_id, initials(row.by.name), second)
    return Taps(standing, _kit_and_food(own) if own is not None and not own.undone else None)


def _pk(row: Weighing) -> int:
    return row.pk


def _kit_and_food(row: Weighing) -> tuple[str, str]:
    return row.kit_line.kit.code, row.kit_line.food.code


def lids_of(kit_set: KitSet) -> dict[str, str]:
    """When and by whom the lid was put on each kit that has it on, by the kit's code. One query."""
    rows = Lid.objects.filter(kit__kit_set=kit_set).select_related("kit", "by").order_by("number")
    last = {row.kit.code: row for row in rows}
    return {code: noted(row.at, row.by) for code, row in last.items() if row.is_on}


def looked_at(kit_set: KitSet, standing: Mapping[tuple[str, str], Standing]) -> dict[tuple[str, str], Looked]:
    """What came of the second looks at the weights that stand. One query."""
    rows = SecondCheck.objects.filter(weighing__kit_line__kit__kit_set=kit_set)
    by_weighing = {row.weighing_id: row for row in rows.select_related("by", "second_by").order_by("pk")}
    found = {}
    for weight, tap in standing.items():
        row = by_weighing.get(tap.last)
        if row is not None:
            found[weight] = _looked(row)
        elif tap.second:
            found[weight] = Looked(tap.second)
    return found


def _looked(row: SecondCheck) -> Looked:
    if row.how == SecondCheck.How.INITIALS:
        return Looked(noted(row.at, row.second_by))
    words = f"{wording.amount(row.milligrams)} on the second scale"
    if row.passed:
        return Looked(f"{words}, {noted(row.at, row.by)}")
    return Looked(failed=f"{words} instead of {wording.amount(row.expected_milligrams)}: weigh it again.")


def sample_of(kit_set: KitSet, trays: Iterable[Tray], rule: WeighOutRule) -> frozenset[str]:
    """The kits that are weighed once more; the codes of all kits are its seed, and nobody chooses them."""
    codes = [tray.code for tray in trays if tray.kind != Kit.Kind.SUPPLEMENTARY]
    if rule.way != "sampled":
        return frozenset()
    return sampled(codes, f"{kit_set.inputs_hash} {' '.join(codes)}", rule.every)


def clock_of(lesson: Lesson, kits: Iterable[Kit]) -> Clock:
    """What the times of a lesson are read from. Two queries."""
    ruling, dish = ruling_plan(lesson), dish_of(lesson)
    day = f": {wording.short_date(dish.ahead_on)}" if dish and dish.ahead_on else ""
    starts = lesson.starts.hour * 60 + lesson.starts.minute
    return Clock(
        starts=starts,
        plan=ruling.plan if ruling else None,
        ahead_words=f"What is prepared ahead is weighed when it is made{day}.",
        later=tuple((kit.place.plate, _minute(kit) - starts) for kit in kits if kit.place),
    )


def _minute(kit: Kit) -> int:
    return kit.place.shift.starts.hour * 60 + kit.place.shift.starts.minute


def moments_of(kit_set: KitSet, trays: Iterable[Tray]) -> dict[tuple[str, str], Moment]:
    """When each food of each tray is needed, by kit and food. Six queries."""
    kits = list(kit_set.kits.select_related("version__recipe", "place__shift", "place__bench"))
    versions = {kit.code: kit.version_id for kit in kits}
    recipes = recipes_data({kit.version_id: kit.version for kit in kits}.values())
    clock, ahead = clock_of(kit_set.lesson, kits), tuple(kit_set.inputs.get("ahead_steps", ()))
    found: dict[tuple[str, str], list[Moment]] = defaultdict(list)
    for tray in trays:
        recipe = recipes[versions[tray.code]]
        for line in tray.lines:
            step = first_step(recipe, line.component, ahead)
            found[tray.code, line.food].append(moment_of(clock, tray.kind, tray.label, step))
    return {weight: min(moments, key=_minute_of) for weight, moments in found.items()}


def _minute_of(moment: Moment) -> int:
    return 24 * 60 if moment.minute is None else moment.minute


def cleaned_today(kit_set: KitSet) -> dict[str, str]:
    """What was ticked as clean for this weigh-out on the college's day. Two queries."""
    rows = Cleaned.objects.filter(kit_set=kit_set, on=today_at(the_college())).select_related("by")
    return {row.thing: noted(row.at, row.by) for row in rows}


def went_on(kit_set: KitSet, waiting: Iterable[str]) -> str:
    """Why somebody weighed on before the lids of these kits; empty where nobody did for all. One query."""
    rows = AllTheSame.objects.filter(kit_set=kit_set, what=AllTheSame.What.BEFORE_LIDS).select_related("by")
    wanted = set(waiting)
    row = next((each for each in rows.order_by("-pk") if wanted <= set(each.standing)), None)
    return f"{row.reason} ({noted(row.at, row.by)})" if row and wanted else ""


def spoiled(kit_set: KitSet, trays: Iterable[Tray]) -> tuple[str, ...]:
    """Weights whose lot may not leave any more, in words, also where the book has none of it left.

    Seven queries at most.
    """
    taken, names = weighed_from(kit_set), {}
    for tray in trays:
        if not tray.issued:
            names |= {line.key: (tray, line) for line in tray.lines if line.key in taken}
    codes = {lot for key in names for lot, _ in taken[key]}
    lots_there = stock_for(with_labels(Lot.objects.filter(code__in=codes)), kit_set.lesson)
    data = {lot.code: lot for lot in lots_there}
    use, said = use_of(kit_set.lesson), []
    for key, (tray, line) in names.items():
        lots = [data[lot] for lot, _ in taken[key]]
        why = next((why for lot in lots if (why := barred(lot, use, bool(tray.free_from), weighed=True))), "")
        if why:
            said.append(f"{tray.name}, {line.amount} {line.words}: {why} Take it back and weigh it again.")
    return tuple(said)


def packs_of(trays: Iterable[Tray]) -> dict[str, str]:
    """How the packs of the lots for free-from kits stand: "reserved", "open" or "unopened". One query."""
    codes = {lot for tray in trays if tray.free_from for line in tray.lines for lot, _ in line.draws}
    rows = Lot.objects.filter(code__in=codes).values_list("code", "reserved_free_from", "opened_on")
    return {
        code: "reserved" if reserved else "open" if opened else "unopened" for code, reserved, opened in rows
    }


def foods_of(trays: Iterable[Tray]) -> dict[str, FoodData]:
    """The foods on trays, as they stand today. Two queries."""
    return foods_data(line.food for tray in trays for line in tray.lines)


def weigh_out(kit_set: KitSet, by: User | None = None) -> WeighOut:
    """Everything of the weigh-out of a kit set, as ``by`` sees it."""
    trays = trays_of(kit_set)
    foods, taps, rule = foods_of(trays), taps_of(kit_set, by), rule_of(the_college())
    lids = lids_of(kit_set)
    facts = Facts(
        rule=rule,
        sample=sample_of(kit_set, trays, rule),
        lids=lids,
        looked=looked_at(kit_set, taps.standing),
        moments=moments_of(kit_set, trays),
        packs=packs_of(trays),
    )
    order, waiting = stops(trays, foods, facts), without_lid(trays, lids)
    return WeighOut(
        trays=trays,
        order=order,
        foods=foods,
        clean=clean_ticks(cleaned_today(kit_set)),
        waiting=waiting,
        went_on=went_on(kit_set, [each.kit for each in waiting]),
        spoiled=spoiled(kit_set, trays),
        cancelled=kit_set.lesson.state == Lesson.State.CANCELLED,
        last=last_tap(order, taps.last),
    )


@dataclass(frozen=True, slots=True)
class StillOpen:
    """What stands against the issue of kits that have not left, in words; nothing for what was not weighed.

    ``checks`` are lids and second looks, which a reason opens; ``spoiled`` weights whose lot may not leave.
    """

    checks: tuple[str, ...] = ()
    spoiled: tuple[str, ...] = ()


def what_is_open(kit_set: KitSet) -> StillOpen:
    """What must be put right at the scale before these kits leave."""
    if not Weighing.objects.filter(kit_line__kit__kit_set=kit_set).exists():
        return StillOpen()
    page = weigh_out(kit_set)
    here = [tray.code for tray in page.trays if not tray.issued]
    return StillOpen(tuple(gate_words(page.order, here, page.waiting)), page.spoiled)


def seen_of(kit_set: KitSet) -> str:
    """What changes whenever anybody notes anything here: for a page that asks again. Five queries."""
    of_kits = {"kit_line__kit__kit_set": kit_set}
    last = (
        Weighing.objects.filter(**of_kits),
        Lid.objects.filter(kit__kit_set=kit_set),
        SecondCheck.objects.filter(weighing__kit_line__kit__kit_set=kit_set),
        BulkReading.objects.filter(kit_set=kit_set),
        AllTheSame.objects.filter(kit_set=kit_set),
    )
    return "-".join(str(rows.aggregate(last=Max("pk"))["last"] or 0) for rows in last)


# The tally of a stop


@dataclass(frozen=True, slots=True)
class TallyPage:
    """The tally of one food, with what the readings of its packs say against the book."""

    tally: FoodTally
    off: tuple[str, ...]
    blind: str


def tally_of(kit_set: KitSet, stop: Stop, trays: Iterable[Tray]) -> TallyPage:
    """How much of the stop's food is weighed, and what must be left in each of its packs. Five queries."""
    by_tray = [[line for line in tray.lines if line.food == stop.code] for tray in trays]
    lines = [line for own in by_tray for line in own]
    taken, rule = weighed_from(kit_set), rule_of(the_college())
    mine: dict[str, list[int]] = defaultdict(list)
    for own in by_tray:
        weights: dict[str, int] = defaultdict(int)
        for lot, milligrams in (each for line in own for each in taken.get(line.key, ())):
            weights[lot] += milligrams
        for lot, milligrams in weights.items():
            mine[lot].append(milligrams)
    to_come: dict[str, int] = defaultdict(int)
    for lot, milligrams in (each for line in lines if not line.weighed for each in line.draws):
        to_come[lot] += milligrams
    unit = next((item.unit_milligrams for item in stop.items if item.unit_milligrams), 0)
    rows = Lot.objects.filter(code__in={*mine, *to_come}).select_related("food").order_by("code")
    lots = _lot_tallies(kit_set, list(rows), mine, to_come, unit)
    tally = FoodTally(
        needed=sum(line.stock_milligrams for line in lines),
        weighed=sum(line.stock_milligrams for line in lines if line.weighed),
        lots=lots,
        unit=unit,
    )
    step = _step_of(rows, lines)
    off = [_off(each, rule, step) for each in lots]
    smallest = [weight for each in lots for weight in each.weights]
    blind = "" if unit else blind_words(smallest, tolerance_of(smallest, rule.bulk_per_mille, step))
    return TallyPage(tally, tuple(words for words in off if words), blind)


def _step_of(lots: Iterable[Lot], lines: list) -> int:
    increment = next((lot.food.increment_milligrams for lot in lots), 1000)
    return int(scale_step(max((line.milligrams for line in lines), default=0), increment))


def _off(tally: LotTally, rule: WeighOutRule, step: int) -> str:
    if tally.reading is None:
        return ""
    tolerance = 0 if tally.unit else tolerance_of(tally.weights, rule.bulk_per_mille, step)
    said = reading_words(tally.reading, tally.weights, tolerance, tally.unit)
    return f"Lot {tally.lot}, {tally.reading.noted}: {said}" if said else ""


def _lot_tallies(
    kit_set: KitSet,
    lots: list[Lot],
    mine: Mapping[str, list[int]],
    to_come: Mapping[str, int],
    unit: int,
) -> tuple[LotTally, ...]:
    aside = set_aside([lot.pk for lot in lots])
    readings = BulkReading.objects.filter(kit_set=kit_set, lot__in=lots).select_related("by").order_by("pk")
    last = {
        row.lot_id: Reading(row.milligrams, row.expected_milligrams, noted(row.at, row.by))
        for row in readings
    }
    return tuple(
        LotTally(
            lot=lot.code,
            in_book=lot.on_hand_milligrams,
            to_come=to_come.get(lot.code, 0),
            weights=tuple(mine.get(lot.code, ())),
            elsewhere=max(0, aside.get(lot.pk, 0) - sum(mine.get(lot.code, ()))),
            unit=unit,
            reading=last.get(lot.pk),
        )
        for lot in lots
    )


def expected_in(lot: Lot) -> int:
    """What must be left in the pack of a lot now, in milligrams; the lot is read anew. Two queries."""
    lot.refresh_from_db(fields=["on_hand_milligrams"])
    return lot.on_hand_milligrams - set_aside([lot.pk]).get(lot.pk, 0)


def lines_of(kit_set: KitSet, kit: str, food: str) -> list[KitLine]:
    """The lines of one food on one tray, in their order. One query."""
    rows = KitLine.objects.filter(kit__kit_set=kit_set, kit__code=kit, food__code=food)
    return list(rows.select_related("kit", "food").order_by("pk"))
