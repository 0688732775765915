"""What the pages of a lesson's stores read: benches, what may be given, what is out, what it cost."""

from dataclasses import dataclass
from fractions import Fraction

from django.db.models import F, Q, QuerySet, Sum
from django.db.models.functions import Coalesce

from curriculum import wording
from curriculum.foods.costs import Use
from curriculum.foods.models import Food
from curriculum.foods.queries import prices
from kitchen.lessons.models import Lesson, Place
from kitchen.lessons.queries import attendance_of, bench_numbers, places_of, places_taken
from kitchen.stores.models import Kit, KitLine, KitSet, Lot, Movement
from kitchen.stores.moves.counting import amount_words
from kitchen.stores.moves.lesson.back import Out
from kitchen.stores.moves.lesson.tally import Asked, Money, Moved, Tally, money, summed, tallies
from kitchen.stores.moves.queries import piece_of, unit_words
from kitchen.stores.proposal import prepare
from kitchen.stores.queries import kit_question


@dataclass(frozen=True, slots=True)
class Given:
    """One supplementary issue in words: when, where to, what, why, and who gave it."""

    kit: Kit
    where: str
    food: str
    amount: str
    why: str
    by: str
    at: str


def standing_set(lesson: Lesson) -> KitSet | None:
    """The accepted kits of a lesson, locked; None when none are made."""
    rows = KitSet.objects.select_for_update()
    return rows.filter(lesson=lesson, state=KitSet.State.ACCEPTED).first()


def has_left(kit_set: KitSet) -> bool:
    """Whether kits of the set have left the stores."""
    return Movement.objects.filter(kit_line__kit__kit_set=kit_set, kind=Movement.Kind.ISSUE).exists()


def benches_of(lesson: Lesson) -> list[tuple[str, str]]:
    """The places of a lesson for a form: key and "Bench 3: Clio and Edgar". Four queries at most."""
    return [(str(place.pk), _bench_words(place)) for place in places_of(lesson)]


def place_of(lesson: Lesson, key: str) -> Place | None:
    """The place of that key in the lesson; None for the demonstration."""
    return Place.objects.filter(shift__lesson=lesson, pk=key).select_related("bench", "version").first()


def foods_to_give(lesson: Lesson) -> list[tuple[str, list[tuple[str, str]]]]:
    """Foods of which a lot holds something, those of the lesson's kits first. Two queries."""
    of_kits = KitLine.objects.filter(kit__kit_set__lesson=lesson).values("food")
    foods = Food.objects.filter(lots__on_hand_milligrams__gt=0, from_tap=False).distinct().order_by("name")
    own = set(foods.filter(pk__in=of_kits).values_list("code", flat=True))
    told = [(food.code, f"{food.name}, in {unit_words(food)}") for food in foods]
    return [
        ("In the kits of this lesson", [row for row in told if row[0] in own]),
        ("Everything else in stock", [row for row in told if row[0] not in own]),
    ]


def supplementary_of(lesson: Lesson) -> QuerySet[Kit]:
    """The supplementary kits of a lesson with bench, lines and movements, in the order given."""
    return (
        Kit.objects.filter(kit_set__lesson=lesson, kind=Kit.Kind.SUPPLEMENTARY)
        .filter(Q(kit_set__state=KitSet.State.ACCEPTED) | Q(lines__movements__isnull=False))
        .select_related("place__bench")
        .prefetch_related("lines__food", "lines__movements__by")
        .order_by("pk")
        .distinct()
    )


def given_rows(lesson: Lesson) -> list[Given]:
    """What was given later, in words. Five queries at most."""
    return [_given(kit) for kit in supplementary_of(lesson)]


def _given(kit: Kit) -> Given:
    line = kit.lines.all()[0]
    first = line.movements.all()[0]
    return Given(
        kit=kit,
        where=f"Bench {kit.place.bench.number}" if kit.place else "The demonstration",
        food=line.food_words,
        amount=amount_words(line.milligrams, piece_of(line.food)),
        why=line.note,
        by=first.by.name,
        at=wording.short_date(first.at.date()),
    )


def _bench_words(place: Place) -> str:
    names = wording.listed(row.student.user.printed_name for row in place.learners.all())
    number = f"Bench {place.bench.number}"
    return f"{number}: {names}" if names else number


def food_to_give(code: str) -> Food:
    """One food with what its label says. Two queries."""
    return Food.objects.prefetch_related("allergens").get(code=code)


#: What takes food out of a lot for a kit line, and what brings it back.
LEFT_AND_BACK = (Movement.Kind.ISSUE, Movement.Kind.SUPPLEMENTARY, Movement.Kind.RETURN)


def outs_of(lesson: Lesson) -> list[Out]:
    """What each kit line of the lesson still has out of each lot, corrections counted. One query."""
    rows = (
        Movement.objects.filter(kit_line__kit__kit_set__lesson=lesson)
        .annotate(way=Coalesce("corrects__kind", "kind"))
        .filter(way__in=LEFT_AND_BACK)
        .order_by("lot", "kit_line")
        .values_list("lot", "kit_line", "kit_line__kit__kind")
        .annotate(moved=Sum("milligrams"))
    )
    return [Out(lot, line, kind, -moved) for lot, line, kind, moved in rows if moved < 0]


def lots_out(lesson: Lesson) -> list[tuple[Lot, int]]:
    """The lots of which something is out with the lesson, and how much, by storage and food. Two queries."""
    out: dict[int, int] = {}
    for each in outs_of(lesson):
        out[each.lot] = out.get(each.lot, 0) + each.milligrams
    rows = (
        Lot.objects.filter(pk__in=out).select_related("food").order_by("food__storage", "food__name", "code")
    )
    return [(lot, out[lot.pk]) for lot in rows]


@dataclass(frozen=True, slots=True)
class FoodRow:
    """One food of a lesson in words: what left, what was given later, what came back, what was used."""

    food: str
    issued: str
    more: str
    returned: str
    opened: str
    used: str


@dataclass(frozen=True, slots=True)
class LessonPage:
    """The stores of a lesson: its foods, what was given later, and the cost before and after.

    ``shown`` and ``shown_after`` are the part of the demonstration and its stage trays in both. ``reckoned``:
    no kits are made yet, and what is planned is reckoned from the recipes as the kits would be.
    """

    rows: tuple[FoodRow, ...]
    given: tuple[Given, ...]
    planned: Money
    after: Money
    wasted: Money
    learners: int
    portions: int
    without_price: str
    shown: Money
    shown_after: Money
    reckoned: bool = False


def lesson_page(lesson: Lesson) -> LessonPage:
    """What a lesson took and cost. A fixed number of queries; more before kits are made."""
    moved, asked = _moved(lesson), _planned(lesson)
    reckoned = not asked
    asked = asked or _reckoned(lesson)
    tally, planned = tallies(moves for moves, _ in moved), summed(asked)
    keys = {*tally, *planned}
    foods = {food.pk: food for food in Food.objects.filter(pk__in=keys).select_related("made_from")}
    codes = {(food.made_from or food).code for food in foods.values()}
    costed = prices(lesson.on, codes)
    learners, portions = _heads(lesson)

    def cost(amounts: dict[int, int]) -> Money:
        uses = [use_as_bought(foods[key], milligrams) for key, milligrams in amounts.items() if milligrams]
        return money(uses, costed, learners, portions)

    shown = tallies(moves for moves, is_shown in moved if is_shown)
    before = cost(planned)
    after = cost({key: each.paid for key, each in tally.items()})
    names = {(food.made_from or food).code: (food.made_from or food).name for food in foods.values()}
    missing = {*before.without_price, *after.without_price}
    return LessonPage(
        rows=tuple(
            _food_row(food, tally[food.pk])
            for food in sorted(foods.values(), key=lambda food: food.name)
            if food.pk in tally
        ),
        given=tuple(given_rows(lesson)),
        planned=before,
        after=after,
        wasted=cost({key: each.wasted for key, each in tally.items()}),
        learners=learners,
        portions=portions,
        without_price=wording.listed(sorted(names[code] for code in missing)),
        shown=cost(summed(each for each in asked if each.shown)),
        shown_after=cost({key: each.paid for key, each in shown.items()}),
        reckoned=reckoned and bool(asked),
    )


#: Kits of what is shown: they are no bench's food.
SHOWN = (Kit.Kind.DEMONSTRATION, Kit.Kind.STAGE_TRAY)


def _moved(lesson: Lesson) -> list[tuple[Moved, bool]]:
    """What moved by food and way, and whether it was for what is shown. One query."""
    rows = (
        Movement.objects.filter(kit_line__kit__kit_set__lesson=lesson)
        .annotate(way=Coalesce("corrects__kind", "kind"), place=F("kit_line__kit__place"))
        .order_by("lot__food", "way")
        .values_list("lot__food", "way", "kit_line__kit__kind", "place")
        .annotate(moved=Sum("milligrams"))
    )
    return [(Moved(food, way, moved), _shown(kind, place)) for food, way, kind, place, moved in rows]


def _shown(kind: str, place: int | None) -> bool:
    """Whether a kit is of what is shown; what was given later without a bench was given to it."""
    return kind in SHOWN or (kind == Kit.Kind.SUPPLEMENTARY and place is None)


def _planned(lesson: Lesson) -> list[Asked]:
    """What the accepted kits take from stock: benches, demonstration, spare, ahead. One query."""
    rows = (
        KitLine.objects.filter(kit__kit_set__lesson=lesson, kit__kit_set__state=KitSet.State.ACCEPTED)
        .exclude(kit__kind=Kit.Kind.SUPPLEMENTARY)
        .order_by("food")
        .values_list("food", "kit__kind")
        .annotate(stock=Sum("stock_milligrams"))
    )
    return [Asked(food, stock, kind in SHOWN) for food, kind, stock in rows if stock]


def _reckoned(lesson: Lesson) -> list[Asked]:
    """What the kits would take from stock if they were made now."""
    question = kit_question(lesson)
    kits = prepare(question).kits if question else ()
    codes = {line.food for kit in kits for line in kit.lines}
    keys = dict(Food.objects.filter(code__in=codes).values_list("code", "pk"))
    return [
        Asked(keys[line.food], line.stock_milligrams, kit.kind in SHOWN)
        for kit in kits
        for line in kit.lines
        if line.stock_milligrams
    ]


def _heads(lesson: Lesson) -> tuple[int, int]:
    """How many learners were there (placed, less those marked absent), and portions of all benches."""
    absent = {key for key, row in attendance_of(lesson).items() if row.state == row.State.ABSENT}
    learners = sum(key not in absent for key in bench_numbers(lesson))
    portions = places_taken().filter(shift__lesson=lesson).aggregate(sum=Sum("dish__portions_a_bench"))["sum"]
    return learners, portions or 0


def backs_of(lesson: Lesson) -> int:
    """How many times something of a lesson's kits came back into a lot. One query."""
    return _backs(lesson).count()


def last_back(lesson: Lesson) -> Movement | None:
    """The last of them, with who wrote it. One query."""
    return _backs(lesson).select_related("by").order_by("-pk").first()


def _backs(lesson: Lesson) -> QuerySet[Movement]:
    kinds = (Movement.Kind.RETURN, Movement.Kind.REWORK)
    return Movement.objects.filter(kit_line__kit__kit_set__lesson=lesson, kind__in=kinds)


def use_as_bought(food: Food, milligrams: int) -> Use:
    """So much of a food as it is bought: a beaten egg as its share of whole eggs."""
    whole = food.made_from
    if whole is None or not whole.piece_milligrams or not food.made_from_milligrams:
        return Use(food.code, Fraction(milligrams))
    return Use(whole.code, Fraction(milligrams * whole.piece_milligrams, food.made_from_milligrams))


def _food_row(food: Food, tally: Tally) -> FoodRow:

    def said(milligrams: int) -> str:
        return amount_words(milligrams, piece_of(food)) if milligrams else "none"

    opened = [f"{said(tally.wasted)} thrown away"] * bool(tally.wasted)
    opened += [f"{said(tally.reworked)} for re-work"] * bool(tally.reworked)
    return FoodRow(
        food.name,
        said(tally.issued),
        said(tally.more),
        said(tally.returned),
        ", ".join(opened) or "none",
        said(tally.used),
    )
