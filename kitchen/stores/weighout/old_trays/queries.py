"""Which weighed trays of a lesson are no longer wanted, and what stands on them."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, replace

from django.db.models import Exists, OuterRef, Q, QuerySet, Subquery

from kitchen.lessons.models import Lesson
from kitchen.stores.models import Kit, KitLine, KitSet, Movement, Weighing
from kitchen.stores.queries import WEIGHINGS, current_weighings
from kitchen.stores.trays import PLATE_WORDS
from kitchen.stores.weighout.managers import standing_from
from kitchen.stores.weighout.models import Lid
from kitchen.stores.weighout.old_trays.trays import (
    NewKit,
    WeighedLine,
    WeighedTray,
    amount_of,
    matched,
    pots,
)


@dataclass(frozen=True, slots=True)
class OldTrays:
    """The trays to take apart, and those of which a new kit asks for some pots just as they stand."""

    apart: tuple[WeighedTray, ...]
    kept: tuple[WeighedTray, ...]

    @property
    def count(self) -> int:
        """How many trays stand there that nobody wants as they are."""
        return len(self.apart) + len(self.kept)


def unwanted(lesson: Lesson) -> QuerySet[Kit]:
    """Kits of a lesson that are not asked for: of sets made again, and all once it is cancelled."""
    rows = Kit.objects.filter(kit_set__lesson=lesson).exclude(kind=Kit.Kind.SUPPLEMENTARY)
    if lesson.state == Lesson.State.CANCELLED:
        return rows
    return rows.exclude(kit_set__state=KitSet.State.ACCEPTED)


def clearable(lesson: Lesson) -> QuerySet[Kit]:
    """Kits whose trays may be taken apart: what nobody wants, and what a label stops by now."""
    return unwanted(lesson) | Kit.objects.filter(kit_set__lesson=lesson).exclude(blocked_why="")


def some_old(lesson: Lesson) -> bool:
    """Whether a weighed tray of the lesson is asked for by nobody. One query."""
    last = Weighing.objects.filter(kit_line=OuterRef("pk")).order_by("-number").values("undone")[:1]
    lines = KitLine.objects.filter(kit__in=unwanted(lesson)).annotate(undone=Subquery(last))
    out = Movement.objects.filter(kit_line__kit=OuterRef("kit"), milligrams__lt=0)
    return lines.filter(undone=False).exclude(Exists(out)).exists()


def old_trays(lesson: Lesson) -> OldTrays:
    """The weighed trays that nobody wants as they are, with their lots. Six queries at most."""
    trays = _weighed(unwanted(lesson))
    same = matched(trays, _new_kits(lesson)) if trays else {}
    kept = tuple(
        replace(tray, same_as=same[tray.kit][0], stays=same[tray.kit][1])
        for tray in trays
        if tray.kit in same
    )
    return OldTrays(tuple(tray for tray in trays if tray.kit not in same), kept)


def _weighed(kits: QuerySet[Kit]) -> list[WeighedTray]:
    lines = _lines_of(kits)
    lots: dict[int, list[str]] = defaultdict(list)
    rows = standing_from().filter(weighing__kit_line__in=[line.pk for line in lines]).order_by("pk")
    for line, lot in rows.values_list("weighing__kit_line", "lot__code"):
        lots[line].append(lot)
    weighed = current_weighings(lines)
    lids = _lidded(kits)
    by_kit: dict[Kit, list[KitLine]] = defaultdict(list)
    for line in lines:
        by_kit[line.kit].append(line)
    return [
        _tray(kit, found, weighed, lots, kit.pk in lids)
        for kit, found in by_kit.items()
        if any(line.pk in weighed for line in found)
    ]


def _lines_of(kits: QuerySet[Kit]) -> list[KitLine]:
    """The lines to weigh of these kits that have not left, with their weights. Two queries."""
    out = Movement.objects.filter(kit_line__kit=OuterRef("kit"), milligrams__lt=0)
    rows = KitLine.objects.filter(kit__in=kits, stock_milligrams__gt=0).exclude(Exists(out))
    return list(
        rows.select_related("food", "kit__kit_set", "kit__version", "kit__place__bench", "kit__place__shift")
        .prefetch_related(WEIGHINGS)
        .order_by("kit__kit_set__number", "kit__position", "position")
    )


def _lidded(kits: QuerySet[Kit]) -> set[int]:
    rows = Lid.objects.filter(kit__in=kits).order_by("number").values_list("kit", "is_on")
    return {kit for kit, is_on in dict(rows).items() if is_on}


def _tray(
    kit: Kit,
    lines: list[KitLine],
    weighed: dict[int, Weighing],
    lots: dict[int, list[str]],
    lidded: bool,
) -> WeighedTray:
    label = kit.place.plate if kit.place else ""
    return WeighedTray(
        kit=kit.code,
        kind=kit.kind,
        label=label,
        name=f"{PLATE_WORDS[kit.kind]} {label}".strip(),
        set_number=kit.kit_set.number,
        lines=tuple(_line(line, lots[line.pk]) for line in lines if line.pk in weighed),
        lidded=lidded,
        free_from=tuple(kit.version.sheet["free_from"]),
    )


def _line(line: KitLine, lots: Iterable[str] = ()) -> WeighedLine:
    return WeighedLine(
        food=line.food.code,
        words=line.food_words,
        amount=amount_of(line.milligrams, line.pieces),
        component=line.component,
        milligrams=line.milligrams,
        pieces=line.pieces,
        storage=line.food.storage,
        lots=tuple(lots),
    )


def _new_kits(lesson: Lesson) -> list[NewKit]:
    """The accepted kits with what is not weighed on them yet, as ``matched`` takes them. Two queries."""
    if lesson.state == Lesson.State.CANCELLED:
        return []
    kits = Kit.objects.filter(Q(blocked_why=""), kit_set__lesson=lesson, kit_set__state=KitSet.State.ACCEPTED)
    lines = _lines_of(kits)
    standing = current_weighings(lines)
    by_kit: dict[Kit, list[KitLine]] = defaultdict(list)
    for line in lines:
        by_kit[line.kit].append(line)
    return [
        NewKit(
            kit=kit.code,
            kind=kit.kind,
            label=kit.place.plate if kit.place else "",
            free_from=tuple(kit.version.sheet["free_from"]),
            asks=pots(asked(line) for line in found if line.pk not in standing),
        )
        for kit, found in by_kit.items()
    ]


def asked(line: KitLine) -> tuple[str, str, int, int | None]:
    """What a line asks for: food, component, milligrams, pieces."""
    return line.food.code, line.component, line.milligrams, line.pieces
