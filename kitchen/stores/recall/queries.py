"""What a recall reads: lots and the lots in them, kits, benches, learners; forward and back."""

from collections.abc import Iterable
from dataclasses import dataclass

from django.db.models import Prefetch, Q, QuerySet
from django.db.models.functions import Coalesce

from curriculum import wording
from curriculum.people.models import User
from curriculum.people.queries import the_college, today_at
from kitchen.lessons.models import Attendance, Lesson, Place, PlaceLearner
from kitchen.stores.became.models import Became
from kitchen.stores.became.queries import became_words, given_of, last_became
from kitchen.stores.models import Kit, Lot, MadePart, Movement
from kitchen.stores.moves.counting import amount_words
from kitchen.stores.moves.queries import piece_of
from kitchen.stores.recall.account import INTO_KITS, Moved, account, faults, used_by_kit
from kitchen.stores.recall.page import BenchRow, LessonRow, LotRow, Plate, Recall, became
from kitchen.stores.recall.plates import KitAt, PlaceAt, plates_of, reached


def with_made(keys: Iterable[int]) -> set[int]:
    """These lots and every lot that something of them went into. One query for each making, and one."""
    return _closed(keys, lambda now: MadePart.objects.filter(movement__lot__in=now).values_list("made"))


def with_parts(keys: Iterable[int]) -> set[int]:
    """These lots and every lot that went into them. One query for each making, and one."""
    return _closed(keys, lambda now: MadePart.objects.filter(made__in=now).values_list("movement__lot"))


def _closed(keys: Iterable[int], step: object) -> set[int]:
    found, now = set(), set(keys)
    while now:
        found |= now
        now = {key for (key,) in step(now)} - found
    return found


def moves_of(lots: Iterable[int]) -> dict[int, list[Moved]]:
    """Every movement of these lots in their order, by lot. One query."""
    rows = (
        Movement.objects.filter(lot__in=lots)
        .annotate(way=Coalesce("corrects__kind", "kind"))
        .order_by("lot", "number")
        .values_list(
            *("lot", "number", "milligrams", "balance_milligrams", "way"),
            *("kit_line__kit", "made_part__made"),
        )
    )
    found: dict[int, list[Moved]] = {}
    for row in rows:
        found.setdefault(row[0], []).append(Moved(*row))
    return found


def kits_of(lots: Iterable[int], only: User | None = None) -> list[Kit]:
    """The kits that something of these lots was given to, of one lecturer's lessons or of all. One query."""
    moved = Movement.objects.filter(lot__in=lots, kind__in=INTO_KITS, kit_line__isnull=False)
    kits = Kit.objects.filter(pk__in=moved.values("kit_line__kit"))
    if only is not None:
        kits = kits.filter(_theirs(only, "kit_set__lesson__"))
    return list(kits.select_related("kit_set").only(*OF_A_KIT).order_by("pk"))


#: What is read of a kit and of a bench's place, so that no recipe is carried along.
OF_A_KIT = ("code", "kind", "place", "kit_set__lesson")
OF_A_PLACE = ("code", "shift__lesson", "bench__number", "version__recipe__title")


def _theirs(by: User, way: str) -> Q:
    return Q(**{f"{way}lecturer": by}) | Q(**{f"{way}cover": by})


def reaches(lots: Iterable[Lot], by: User) -> bool:
    """Whether something of these lots went to a lesson of the lecturer."""
    return bool(kits_of(with_made(lot.pk for lot in lots), by))


def lots_in_words(keys: Iterable[int], moves: dict[int, list[Moved]]) -> tuple[LotRow, ...]:
    """These lots with their sums, those from suppliers first. Three queries."""
    rows = (
        Lot.objects.filter(pk__in=keys)
        .select_related("food", "supplier")
        .prefetch_related(Prefetch("parts", MadePart.objects.select_related("movement__lot")))
        .order_by("made_at", "received_on", "code")
    )
    return tuple(_lot_row(lot, moves.get(lot.pk, [])) for lot in rows)


def _lot_row(lot: Lot, moves: list[Moved]) -> LotRow:
    sums, unit = account(moves, lot.on_hand_milligrams), piece_of(lot.food)
    dated = f"{lot.get_date_kind_display()} {wording.long_date(lot.date)}" if lot.date else "no date"
    return LotRow(
        code=lot.code,
        food=lot.food.name,
        supplier=lot.supplier.name if lot.supplier else "",
        batch=lot.batch,
        dated=dated,
        came=wording.long_date(lot.received_on),
        received=amount_words(sums.received, unit),
        counted=amount_words(sums.counted, unit) if sums.counted > 0 else _less(sums.counted, unit),
        issued=amount_words(sums.issued, unit),
        returned=amount_words(sums.returned, unit),
        made=amount_words(sums.made, unit),
        wasted=amount_words(sums.wasted, unit),
        left=amount_words(sums.left, unit),
        where=lot.kept_where or lot.food.get_storage_display(),
        is_left=lot.on_hand_milligrams > 0,
        held=(lot.held_why or "no reason is written") if lot.held else "",
        out_of=tuple(sorted({part.movement.lot.code for part in lot.parts.all()})),
        faults=faults(moves, lot.on_hand_milligrams),
    )


def recall_of(lots: list[Lot], only: User | None = None) -> Recall:
    """Everything the book knows of these lots. Twelve queries and one for each making."""
    keys = with_made(lot.pk for lot in lots)
    moves = moves_of(keys)
    kits = kits_of(keys, only)
    rows = lots_in_words(keys, moves)
    had = _had_of(moves)
    lessons = lessons_with(kits, had)
    return Recall(tuple(lot.code for lot in lots), rows, lessons, only is None)


def _had_of(moves: dict[int, list[Moved]]) -> dict[int, list[str]]:
    """What each kit had of each lot, in words, in the order of the lots' codes. One query."""
    had: dict[int, list[str]] = {}
    for lot in Lot.objects.filter(pk__in=moves).select_related("food").order_by("code"):
        for kit, milligrams in used_by_kit(moves[lot.pk]).items():
            had.setdefault(kit, []).append(_had(milligrams, lot))
    return had


def _had(milligrams: int, lot: Lot) -> str:
    if milligrams <= 0:
        return f"all of lot {lot.code} came back"
    return f"{amount_words(milligrams, piece_of(lot.food))} of lot {lot.code}"


def _less(milligrams: int, unit: int) -> str:
    """What counts took off, with its sign; empty when they changed nothing."""
    return f"−{amount_words(-milligrams, unit)}" if milligrams else ""


def places_in(lessons: Iterable[int]) -> QuerySet[Place]:
    """The benches of these lessons with dishes and learners. Two queries."""
    learners = PlaceLearner.objects.select_related("student__user").order_by("student__user__name")
    return (
        Place.objects.filter(shift__lesson__in=lessons)
        .select_related("shift", "bench", "version__recipe")
        .only(*OF_A_PLACE)
        .prefetch_related(Prefetch("learners", learners))
        .order_by("shift__number", "bench__number")
    )


def lessons_with(kits: list[Kit], had: dict[int, list[str]]) -> tuple[LessonRow, ...]:
    """The lessons of these kits with every bench they may have reached. Seven queries at most."""
    by_key = {kit.pk: kit for kit in kits}
    given = given_of(kit.pk for kit in kits if kit.place_id is None)
    keys = {kit.kit_set.lesson_id for kit in kits}
    places = {place.pk: place for place in places_in(keys)}
    plates = plates_of(
        [KitAt(kit.pk, kit.kit_set.lesson_id, kit.place_id, given.get(kit.pk)) for kit in kits],
        [PlaceAt(place.pk, place.shift.lesson_id) for place in places.values()],
    )
    there, said = _states(keys), last_became(places)
    benches: dict[int, list[BenchRow]] = {}
    for place, own in plates.items():
        known = [key for key in own if by_key[key].place_id or key in given]
        row = _bench_row(places[place], _had_by(by_key, known, had), there, said.get(place))
        benches.setdefault(places[place].shift.lesson_id, []).append(row)
    shared: dict[int, list[str]] = {}
    for kit in kits:
        if kit.place_id is None and not given.get(kit.pk):
            shared.setdefault(kit.kit_set.lesson_id, []).extend(_had_by(by_key, (kit.pk,), had))
    return tuple(
        _lesson_row(lesson, benches.get(lesson.pk, ()), shared.get(lesson.pk, ()))
        for lesson in _lessons(keys)
    )


def _lessons(keys: Iterable[int]) -> QuerySet[Lesson]:
    rows = Lesson.objects.filter(pk__in=keys).select_related("group", "room", "lecturer", "cover")
    return rows.order_by("-on", "-starts", "pk")


def _had_by(kits: dict[int, Kit], keys: Iterable[int], had: dict[int, list[str]]) -> tuple[str, ...]:
    found = []
    for key in keys:
        kit = kits[key]
        shared = "" if kit.place_id else f" in the {kit.get_kind_display()} kit"
        found += [f"{words}{shared}" for words in had.get(key, ())]
    return tuple(found)


def _states(lessons: Iterable[int]) -> dict[tuple[int, int], str]:
    """What the register last said of each learner. One query."""
    rows = Attendance.objects.filter(lesson__in=lessons).order_by("number")
    return {(row.lesson_id, row.student_id): row.state for row in rows}


def _bench_row(
    place: Place, had: tuple[str, ...], there: dict[tuple[int, int], str], said: Became | None
) -> BenchRow:
    names = []
    for row in place.learners.all():
        state = there.get((place.shift.lesson_id, row.student_id), "")
        absent = ", absent by the register" if state == Attendance.State.ABSENT else ""
        names.append(f"{row.student.user.printed_name} ({row.student.college_number}){absent}")
    dish = place.version.recipe.title
    went = became_words(said) if said else ""
    return BenchRow(place.code, f"Bench {place.bench.number}", dish, tuple(names), had, went)


def _lesson_row(lesson: Lesson, benches: Iterable[BenchRow], shared: Iterable[str]) -> LessonRow:
    people = [lesson.lecturer, *([lesson.cover] if lesson.cover else [])]
    return LessonRow(
        code=lesson.code,
        title=lesson.title,
        group=lesson.group.code,
        when=f"{wording.long_date(lesson.on)}, {wording.clock(lesson.starts)}",
        room=lesson.room.name,
        ask=tuple(person.printed_name for person in people),
        became=became(lesson.food_becomes),
        benches=tuple(benches),
        shared=tuple(shared),
    )


def plate_of(place: Place) -> Plate:
    """What may have reached one bench, back to the suppliers. Thirteen queries and one for each making."""
    lesson = place.shift.lesson_id
    mine = Q(place=place) | Q(place=None)
    given = Kit.objects.filter(mine, kit_set__lesson=lesson, lines__movements__kind__in=INTO_KITS)
    rows = list(given.select_related("kit_set").only(*OF_A_KIT).distinct().order_by("pk"))
    said = given_of(kit.pk for kit in rows)
    here = PlaceAt(place.pk, lesson)
    kits = [kit for kit in rows if reached(KitAt(kit.pk, lesson, kit.place_id, said.get(kit.pk)), here)]
    moved = Movement.objects.filter(kit_line__kit__in=kits, kind__in=INTO_KITS)
    keys = with_parts(moved.values_list("lot", flat=True))
    moves = moves_of(keys)
    had = _had_of(moves)
    by_key = {kit.pk: kit for kit in kits}
    row = places_in([lesson]).get(pk=place.pk)
    last = last_became([place.pk]).get(place.pk)
    bench = _bench_row(row, _had_by(by_key, by_key, had), _states([lesson]), last)
    return Plate(_lesson_row(_lessons([lesson])[0], (bench,), ()), bench, lots_in_words(keys, moves))


@dataclass(frozen=True, slots=True)
class Asked:
    """What is looked for: a text or a batch, and any of supplier, food and days of receipt."""

    text: str = ""
    batch: str = ""
    supplier: int | None = None
    food: int | None = None
    first: object = None
    last: object = None


def place_named(code: str) -> str:
    """The code of a bench's place where the text is one, or of the bench that a kit of that code is for."""
    word = code.strip().upper()
    place = Place.objects.filter(Q(code=word) | Q(kits__code=word)).first() if word else None
    return place.code if place else ""


def lots_asked(asked: Asked) -> list[Lot]:
    """The lots that are looked for: our code goes before a supplier's batch. Two queries at most."""
    rows = Lot.objects.select_related("supplier").order_by("code")
    if asked.text:
        ours = list(rows.filter(code__iexact=asked.text))
        if ours:
            return ours
    batch = asked.batch or asked.text
    said = {"batch__iexact": batch} if batch else {}
    said |= {"supplier": asked.supplier} if asked.supplier else {}
    said |= {"food": asked.food} if asked.food else {}
    said |= {"received_on__gte": asked.first} if asked.first else {}
    said |= {"received_on__lte": asked.last} if asked.last else {}
    return list(rows.filter(**said)) if said else []


def this_year() -> int:
    """The college's year, for dates of two digits on a pack."""
    return today_at(the_college()).year
