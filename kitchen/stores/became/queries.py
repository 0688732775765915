"""What the pages of what became of the dishes read, and what a recall asks of them."""

from collections.abc import Iterable
from dataclasses import dataclass

from django.db.models import Q, Sum
from django.db.models.functions import Coalesce
from django.utils import timezone

from curriculum import wording
from curriculum.allergens import KINDS, printed
from curriculum.people.queries import the_college
from kitchen.lessons.models import Lesson, Place
from kitchen.lessons.queries import places_of
from kitchen.stores.became.cooling import Cooling, Portions, said_words
from kitchen.stores.became.models import Became, KitGiven
from kitchen.stores.became.paper import TakeHome
from kitchen.stores.models import Kit, KitLine, KitSet, Lot, Movement
from kitchen.stores.recall.plates import KitAt, PlaceAt, reached

#: What takes food out of a lot for a kit, and what brings it back.
LEFT_AND_BACK = (Movement.Kind.ISSUE, Movement.Kind.SUPPLEMENTARY, Movement.Kind.RETURN)


@dataclass(frozen=True, slots=True)
class BenchRow:
    """One bench: who, which dish, how many portions were planned, what became of it, and its label."""

    place: Place
    bench: str
    dish: str
    portions: int
    said: str
    by: str
    home: bool
    label: bool


@dataclass(frozen=True, slots=True)
class SharedRow:
    """One kit without a bench, and what was said of where it went; ``to`` are keys of places."""

    kit: Kit
    words: str
    said: str
    to: tuple[int, ...] | None


def last_became(places: Iterable[int]) -> dict[int, Became]:
    """What was said last of each of these places. One query."""
    rows = Became.objects.filter(place__in=places).select_related("by", "reading").order_by("number")
    return {row.place_id: row for row in rows}


def became_words(row: Became) -> str:
    """One row in words."""
    return said_words(portions_of(row), cooling_of(row), row.eat_by, row.decided)


def portions_of(row: Became) -> Portions:
    """The portions of a row."""
    return Portions(row.eaten_portions, row.sold_portions, row.home_portions, row.wasted_portions)


def cooling_of(row: Became) -> Cooling | None:
    """The cooling of a row on the college's clock; None when none was written."""
    if row.reading is None:
        return None
    since, read_at = timezone.localtime(row.cooling_from), timezone.localtime(row.cooled_at)
    return Cooling(since, read_at, row.reading.decicelsius)


def bench_rows(lesson: Lesson) -> list[BenchRow]:
    """Every bench of the lesson. Four queries."""
    places = places_of(lesson)
    said = last_became([place.pk for place in places])
    return [_bench_row(place, said.get(place.pk)) for place in places]


def _bench_row(place: Place, row: Became | None) -> BenchRow:
    names = wording.listed(each.student.user.printed_name for each in place.learners.all())
    number = f"Bench {place.bench.number}"
    home = row is not None and row.home_portions > 0
    return BenchRow(
        place=place,
        bench=f"{number}: {names}" if names else number,
        dish=place.version.recipe.title,
        portions=place.dish.portions_a_bench,
        said=became_words(row) if row else "",
        by=f"{row.by.printed_name}, {wording.short_date(timezone.localtime(row.at).date())}" if row else "",
        home=home,
        label=home and labelled(row),
    )


def labelled(row: Became) -> bool:
    """Whether a label is printed: not for what was cooled and did not keep the limit."""
    cooling = cooling_of(row)
    return cooling is None or cooling.kept


def last_words() -> str:
    """The words of the college's procedure as they were written last; proposed again. One query."""
    row = Became.objects.exclude(keep_words="").order_by("-pk").values_list("keep_words", flat=True).first()
    return row or ""


def shared_kits(lesson: Lesson) -> list[SharedRow]:
    """Kits without a bench of which something left the stores, and where each went. Four queries."""
    kits = list(
        Kit.objects.filter(kit_set__lesson=lesson, kit_set__state=KitSet.State.ACCEPTED, place=None)
        .filter(lines__movements__isnull=False)
        .select_related("version__recipe")
        .order_by("position", "pk")
        .distinct()
    )
    given = given_of(kit.pk for kit in kits)
    benches = {place.pk: f"bench {place.bench.number}" for place in places_of(lesson)}
    return [_shared_row(kit, given.get(kit.pk), benches) for kit in kits]


def _shared_row(kit: Kit, to: frozenset[int] | None, benches: dict[int, str]) -> SharedRow:
    words = f"{kit.get_kind_display()[:1].upper()}{kit.get_kind_display()[1:]}: {kit.version.recipe.title}"
    if to is None:
        return SharedRow(kit, words, "", None)
    named = wording.listed(words for key, words in benches.items() if key in to)
    return SharedRow(kit, words, f"Given to {named}." if named else "Given to no bench.", tuple(sorted(to)))


def given_of(kits: Iterable[int]) -> dict[int, frozenset[int]]:
    """For each of these kits of which it was said: the places that it was given to. Two queries."""
    rows = KitGiven.objects.filter(kit__in=list(kits)).prefetch_related("places").order_by("number")
    return {row.kit_id: frozenset(each.place_id for each in row.places.all()) for row in rows}


def take_home_labels(lesson: Lesson) -> list[TakeHome]:
    """A label for each bench of which something went home and was cooled in time. Eleven queries at most."""
    places = {place.pk: place for place in places_of(lesson)}
    said = {key: row for key, row in last_became(places).items() if row.home_portions and labelled(row)}
    kits = Kit.objects.filter(kit_set__lesson=lesson, lines__movements__kind__in=LEFT_AND_BACK).distinct()
    places_by_kit = dict(kits.values_list("pk", "place"))
    given = given_of(places_by_kit)
    lots = _lots_by_kit(lesson)
    foods = _foods_by_kit(places_by_kit)
    college = the_college().name
    labels = []
    for key, row in said.items():
        here = PlaceAt(key, lesson.pk)
        mine = [
            kit
            for kit, place in places_by_kit.items()
            if reached(KitAt(kit, lesson.pk, place, given.get(kit)), here)
        ]
        own = [lot for kit in mine for lot in lots.get(kit, ())]
        if own:
            others = [lot for rows in lots.values() for lot in rows]
            names = sorted({food for kit in mine for food in foods.get(kit, ())})
            labels.append(_label(college, places[key], row, own, others, names))
    return labels


def _lots_by_kit(lesson: Lesson) -> dict[int, list[Lot]]:
    """The lots of which each kit kept something. Three queries."""
    rows = (
        Movement.objects.filter(kit_line__kit__kit_set__lesson=lesson)
        .annotate(way=Coalesce("corrects__kind", "kind"))
        .filter(way__in=LEFT_AND_BACK)
        .order_by("kit_line__kit", "lot")
        .values_list("kit_line__kit", "lot")
        .annotate(moved=Sum("milligrams"))
    )
    kept = [(kit, lot) for kit, lot, moved in rows if moved < 0]
    found = Lot.objects.filter(pk__in={lot for _, lot in kept}).select_related("food")
    lots = {lot.pk: lot for lot in found.prefetch_related("food__allergens")}
    by_kit: dict[int, list[Lot]] = {}
    for kit, lot in kept:
        by_kit.setdefault(kit, []).append(lots[lot])
    return by_kit


def _foods_by_kit(kits: Iterable[int]) -> dict[int, set[str]]:
    rows = KitLine.objects.filter(kit__in=list(kits)).filter(Q(milligrams__gt=0) | Q(pieces__gt=0))
    found: dict[int, set[str]] = {}
    for kit, food in rows.values_list("kit", "food__name"):
        found.setdefault(kit, set()).add(food)
    return found


def _label(
    college: str, place: Place, row: Became, own: list[Lot], others: list[Lot], names: list[str]
) -> TakeHome:
    contains, may = _named(own)
    near = (_named(others)[0] | _named(others)[1]) - contains - may
    cooling = cooling_of(row)
    return TakeHome(
        dish=place.version.recipe.title,
        college=college,
        bench=f"Bench {place.bench.number}",
        code=place.code,
        made=wording.long_date(place.shift.lesson.on),
        contains=_in_order(contains),
        may_contain=_in_order(may - contains),
        near=_in_order(near),
        foods=tuple(names),
        lots=tuple(sorted({lot.code for lot in own})),
        cooled=wording.sentence(cooling.words)
        if cooling
        else f"No cooling is written. Decided: {row.decided}.",
        eat_by=wording.long_date(row.eat_by),
        keep_words=row.keep_words,
    )


def _named(lots: Iterable[Lot]) -> tuple[set[str], set[str]]:
    """Kinds that the packs or the labels of their foods name: contained, and perhaps contained."""
    contains: set[str] = set()
    may: set[str] = set()
    for lot in lots:
        contains |= set(lot.label_allergens)
        may |= set(lot.label_may_contain)
        contains |= {row.kind for row in lot.food.allergens.all() if row.presence == "contains"}
        may |= {row.kind for row in lot.food.allergens.all() if row.presence == "may_contain"}
    return contains, may - contains


def _in_order(kinds: set[str]) -> tuple[str, ...]:
    order = {kind: place for place, kind in enumerate(KINDS)}
    return tuple(printed(kind) for kind in sorted(kinds, key=lambda kind: (order.get(kind, 99), kind)))
