"""What the pages of made lots read: what can be made, what was made, which kits can take from it.

Also the way of a lot through a bowl: what went into a made lot, and which made lots a
supplier's lot went into.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, datetime
from fractions import Fraction

from django.db.models import Prefetch, Q, QuerySet, Sum
from django.utils import timezone

from curriculum import wording
from curriculum.allergens import printed
from curriculum.foods.models import Food
from curriculum.foods.queries import food_data
from curriculum.people.queries import now_at, the_college
from curriculum.recipes.models import Line
from curriculum.recipes.scaling import issued
from kitchen.lessons.models import Dish, Lesson
from kitchen.lessons.queries import places_taken
from kitchen.stores.allocation import LotData, Use, barred, in_order
from kitchen.stores.made.bowls import field_of, lots_for, pieces_for
from kitchen.stores.made.paper import MadeLabel
from kitchen.stores.models import Kit, KitLine, KitSet, Lot, MadePart, Movement
from kitchen.stores.queries import WEIGHINGS, current_weighings, lot_data, with_labels
from kitchen.stores.weighout.managers import set_aside


@dataclass(frozen=True, slots=True)
class PartRow:
    """What went into a made lot out of one lot: "nine pieces"."""

    lot: str
    amount: str


@dataclass(frozen=True, slots=True)
class MadeRow:
    """One made lot in words; ``why`` says why nothing leaves it, empty while it may be given out."""

    lot: Lot
    on_hand: str
    made: str
    discard: str
    parts: tuple[PartRow, ...]
    by: str
    why: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class LotChoice:
    """One lot that pieces can be taken from: its field, what is there, and how many are proposed."""

    field: str
    code: str
    words: str
    there: int
    proposed: int


@dataclass(frozen=True, slots=True)
class Makeable:
    """A food that a bowl can be made of, and what the kits that wait would take of it together."""

    food: Food
    kits: int
    exact_milligrams: Fraction
    pieces: int

    @property
    def words(self) -> str:
        """ "Five kits wait for 1,075 g together: 22 pieces."."""
        if not self.kits:
            return "No kit waits for it alone."
        waits = wording.counted_words(self.kits, "kit waits", "kits wait")
        need = wording.amount(self.exact_milligrams)
        return wording.sentence(f"{waits} for {need} together: {wording.counted(self.pieces, 'piece')}")


@dataclass(frozen=True, slots=True)
class Taker:
    """One kit line that can take from a made lot instead of whole pieces: "Bench 3", 215 g."""

    line: KitLine
    milligrams: int
    exact: Fraction

    @property
    def words(self) -> str:
        """ "Bench 3: 215 g instead of 5 pieces"."""
        place = self.line.kit.place
        where = f"Bench {place.bench.number}" if place else self.line.kit.get_kind_display().capitalize()
        pieces = wording.counted(self.line.pieces or 0, "piece")
        title, given = self.line.kit.version.recipe.title, wording.amount(self.milligrams)
        return f"{where}, {title}: {given} instead of {pieces}"


def foods_to_make(lesson: Lesson) -> QuerySet[Food]:
    """Foods that the lesson's recipes take out of whole pieces: beaten egg, yolk, juice."""
    versions = [
        *Dish.objects.filter(lesson=lesson).values_list("version", flat=True),
        *places_taken().filter(shift__lesson=lesson).values_list("version", flat=True),
    ]
    used = Line.objects.filter(component__version__in=versions, food__made_from__isnull=False)
    foods = Food.objects.filter(pk__in=used.values("food"), made_from__piece_milligrams__gt=0)
    return foods.select_related("made_from").order_by("name")


def makeable(lesson: Lesson) -> list[Makeable]:
    """Every food that can be made for the lesson, with what waits for it. One query and three a food."""
    return [waits_for(lesson, food) for food in foods_to_make(lesson)]


def waits_for(lesson: Lesson, food: Food) -> Makeable:
    """What the kits that wait would take of one food together. Three queries."""
    waiting = takers(lesson, food)
    exact = sum((each.exact for each in waiting), Fraction(0))
    return Makeable(food, len(waiting), exact, pieces_for(exact, food.made_from_milligrams))


def takers(lesson: Lesson, food: Food) -> list[Taker]:
    """Kit lines of whole pieces that go into this one part alone and have not left. Three queries.

    A kit that separates its eggs, or wants whole ones beside beaten ones, keeps its own; so does
    a free-from kit, and a line that stands weighed on its tray.
    """
    whole = food.made_from_id
    others = Food.objects.filter(Q(made_from=whole) | Q(pk=whole)).exclude(pk=food.pk)
    mixed = Line.objects.filter(food__in=others).values("component__version")
    uses = Line.objects.filter(food=food).values("component__version")
    lines = (
        KitLine.objects.filter(
            kit__kit_set__lesson=lesson,
            kit__kit_set__state=KitSet.State.ACCEPTED,
            kit__version__in=uses,
            food=food.made_from,
            pieces__gt=0,
            movements=None,
            kit__version__sheet__free_from=[],
        )
        .exclude(kit__version__in=mixed)
        .select_related("kit__place__bench", "kit__version__recipe")
        .prefetch_related(WEIGHINGS)
        .order_by("kit__position", "position")
    )
    rows = list(lines)
    weighed = current_weighings(rows)
    data = food_data(food)
    found = []
    for line in rows:
        if line.pk not in weighed:
            exact = Fraction(line.exact) * food.made_from_milligrams
            found.append(Taker(line, issued(exact, data), exact))
    return found


def promised_milligrams(lesson: Lesson, food: Food) -> int:
    """What lines that take from the lesson's bowls of this food still have to get. One query."""
    lines = KitLine.objects.filter(
        kit__kit_set__lesson=lesson, kit__kit_set__state=KitSet.State.ACCEPTED, food=food, movements=None
    )
    return lines.aggregate(total=Sum("stock_milligrams"))["total"] or 0


def free_milligrams(lesson: Lesson, food: Food, now: datetime) -> int:
    """What the lesson's bowls of this food hold beside what they have promised. Three queries."""
    return max(0, there_milligrams(lesson, food, now) - promised_milligrams(lesson, food))


def there_milligrams(lesson: Lesson, food: Food, now: datetime) -> int:
    """What the lesson's bowls of this food hold that may still be given out. Two queries."""
    lots = with_labels(Lot.objects.filter(made_in=lesson, food=food, on_hand_milligrams__gt=0))
    use = Use(lesson.on, lesson.code, now)
    return sum(each.on_hand_milligrams for each in map(lot_data, lots) if not barred(each, use))


def lot_choices(food: Food, pieces: int) -> list[LotChoice]:
    """The lots that pieces for a bowl can come from, earliest date first, and how many. Four queries.

    What stands weighed on trays is left out.
    """
    on = now_at(the_college()).date()
    lots = with_labels(
        Lot.objects.filter(food=food.made_from, on_hand_milligrams__gt=0, made_in=None).exclude(
            label_read_on=None
        )
    )
    rows = list(lots)
    aside = set_aside(lot.pk for lot in rows)
    free = [_less(lot_data(lot), aside.get(lot.pk, 0)) for lot in rows]
    stock = [each for each in free if not barred(each, on)]
    unit = food.made_from.piece_milligrams
    proposed = lots_for(pieces, unit, stock, on)
    return [_choice(each, unit, on, proposed.get(each.code, 0)) for each in in_order(stock)]


def _less(lot: LotData, aside: int) -> LotData:
    return replace(lot, on_hand_milligrams=lot.on_hand_milligrams - aside)


def _choice(lot: LotData, unit: int, today: date, proposed: int) -> LotChoice:
    there = lot.on_hand_milligrams // unit
    kinds = {"use_by": "use by", "best_before": "best before"}
    dated = (
        f", {kinds[lot.date_kind]} {wording.short_date(lot.dated_on, today)}" if lot.dated_on else ", no date"
    )
    return LotChoice(
        field_of(lot.code), lot.code, f"{wording.counted(there, 'piece')} there{dated}", there, proposed
    )


def made_lots(lesson: Lesson) -> list[MadeRow]:
    """What was made for the lesson, the newest first. Four queries."""
    now = now_at(the_college())
    rows = with_labels(Lot.objects.filter(made_in=lesson)).select_related(
        "food__made_from", "made_in", "label_read_by"
    )
    return [_made_row(lot, now) for lot in rows.prefetch_related(PARTS).order_by("-made_at", "-pk")]


PARTS = Prefetch(
    "parts", MadePart.objects.select_related("movement__lot__food").order_by("movement__lot__code")
)


def made_row(lot: Lot) -> MadeRow:
    """One made lot in words. Four queries."""
    row = with_labels(Lot.objects.filter(pk=lot.pk)).select_related(
        "food__made_from", "made_in", "label_read_by"
    )
    return _made_row(row.prefetch_related(PARTS).get(), now_at(the_college()))


def parts_of(lot: Lot) -> list[PartRow]:
    """What went into a made lot, by lot; nothing for a lot that was delivered. One query."""
    parts = MadePart.objects.filter(made=lot).select_related("movement__lot__food")
    return [_part_row(part) for part in parts.order_by("movement__lot__code")]


def made_lots_with(lots: Iterable[Lot]) -> list[Lot]:
    """Made lots that something of any of these lots went into, newest first. One query.

    Forward from a supplier's lot, for whoever looks for what it went into.
    """
    found = Lot.objects.filter(parts__movement__lot__in=[lot.pk for lot in lots]).distinct()
    return list(found.select_related("food", "made_in__group").order_by("-made_at", "pk"))


def kits_with(made: Iterable[Lot]) -> list[Kit]:
    """Kits that something of these made lots was issued to. One query."""
    moves = Movement.objects.filter(lot__in=[lot.pk for lot in made], kind=Movement.Kind.ISSUE)
    kits = Kit.objects.filter(lines__movements__in=moves).distinct()
    return list(kits.select_related("kit_set__lesson", "place__bench").order_by("kit_set", "position"))


def label_of(lot: Lot) -> MadeLabel:
    """What the label of a made lot says. Five queries."""
    row = made_row(lot)
    lesson = row.lot.made_in
    return MadeLabel(
        code=lot.code,
        what=row.lot.food.name,
        amount=wording.amount(_first_milligrams(row.lot)),
        by=row.by,
        made=row.made,
        discard=row.discard,
        where=lot.kept_where,
        lesson=f"{lesson.title}, {wording.short_date(lesson.on)}, {wording.clock(lesson.starts)}",
        contains=tuple(printed(kind) for kind in row.lot.label_allergens),
        may_contain=tuple(printed(kind) for kind in row.lot.label_may_contain),
        parts=tuple((each.lot, each.amount) for each in row.parts),
    )


def _first_milligrams(lot: Lot) -> int:
    return lot.movements.get(kind=Movement.Kind.RECEIVE).milligrams


def _made_row(lot: Lot, now: datetime) -> MadeRow:
    return MadeRow(
        lot=lot,
        on_hand=wording.amount(lot.on_hand_milligrams),
        made=_when(lot.made_at, now),
        discard=_when(lot.discard_at, now),
        parts=tuple(_part_row(part) for part in lot.parts.all()),
        by=lot.label_read_by.printed_name if lot.label_read_by else "",
        why=barred(lot_data(lot), Use(lot.made_in.on, lot.made_in.code, now)),
        note=_note(lot),
    )


def _note(lot: Lot) -> str:
    """That the bowl is gone before the lesson begins; empty where it is not."""
    gone, lesson = timezone.localtime(lot.discard_at), lot.made_in
    early = (gone.date(), gone.time()) <= (lesson.on, lesson.starts)
    return "The lesson begins only after that time." if early else ""


def _part_row(part: MadePart) -> PartRow:
    unit = part.movement.lot.food.piece_milligrams or 0
    gone = -part.movement.milligrams
    return PartRow(
        part.movement.lot.code,
        wording.counted(gone // unit, "piece") if unit else wording.amount(gone),
    )


def _when(at: datetime, now: datetime) -> str:
    """ "16 Feb, 08:30" on the college's wall."""
    local = timezone.localtime(at)
    return f"{wording.short_date(local.date(), now.date())}, {wording.clock(local.time())}"
