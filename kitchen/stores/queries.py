"""What the pages and the actions of the stores read: questions, trays, lots, movements.

One function a dataclass turns rows into it; each takes a fixed number of queries, however
many benches a lesson has.
"""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from django.db.models import F, Max, OuterRef, Prefetch, Q, QuerySet, Subquery, Sum
from django.db.models.functions import Coalesce
from django.utils import timezone

from curriculum.allergens import kinds_of
from curriculum.foods.models import Avoidance
from curriculum.people.models import Student
from curriculum.people.queries import now_at, the_college
from curriculum.recipes.data import RecipeData
from curriculum.recipes.queries import recipes_data
from kitchen.lessons.models import Dish, Lesson, Place, PlaceLearner
from kitchen.lessons.queries import places_taken
from kitchen.stores.allocation import Allocation, LineNeed, LotData, Use, allocate
from kitchen.stores.changes import changes, component_names, plated
from kitchen.stores.deliveries.models import AcceptedFor
from kitchen.stores.kits import KINDS_OF_KIT, words_kept
from kitchen.stores.kits_page import KitsPage, accepted_page, proposed_page, read_anew
from kitchen.stores.learning.figures import laid_on
from kitchen.stores.learning.kept.queries import figures_for
from kitchen.stores.lots.managers import last_on, names_more
from kitchen.stores.models import Kit, KitLine, KitSet, Lot, MadePart, Movement, Weighing
from kitchen.stores.proposal import BenchAsked, Question, hash_of, inputs_of, prepare
from kitchen.stores.tools.queries import shortages_of as equipment_short
from kitchen.stores.trays import Tray, TrayLine, initials
from kitchen.stores.weighout.managers import set_aside, weighed_from
from kitchen.timeplan.demonstrations.queries import demonstration_for_stores

#: A lesson's stock lines as one list: kits with place and learners, lines with food and weighings.
LEARNERS = Prefetch(
    "place__learners", PlaceLearner.objects.select_related("student__user").order_by("student__user__name")
)

ACCEPTED = Prefetch("accepted_for", AcceptedFor.objects.select_related("lesson").order_by("pk"))
WEIGHINGS = Prefetch("weighings", Weighing.objects.select_related("by").order_by("number"))


def dish_of(lesson: Lesson) -> Dish | None:
    """What is cooked in the lesson, or None when nothing is chosen yet."""
    return Dish.objects.filter(lesson=lesson).select_related("version__recipe").order_by("pk").first()


def kit_question(lesson: Lesson, *, anew: bool = False) -> Question | None:
    """Everything the kits of a lesson are reckoned from, or None without a dish. 23 queries at most.

    While kits stand, the figures count that were learned by the time they were made; ``anew`` all.
    """
    dish = dish_of(lesson)
    if dish is None:
        return None
    places = list(_places(lesson))
    versions = {place.version_id: place.version for place in places} | {dish.version_id: dish.version}
    recipes = recipes_data(versions.values())
    learned = figures_for(lesson, recipes.values(), anew=anew)
    recipes = {key: laid_on(recipe, learned) for key, recipe in recipes.items()}
    return Question(
        lesson=lesson.code,
        use_on=lesson.on,
        portions=dish.portions_a_bench,
        version=dish.version_id,
        recipes=recipes,
        benches=tuple(_bench(place) for place in places),
        demonstration_batches=lesson.demonstration_batches,
        spare_batches=lesson.spare_batches,
        plates=(dish.tasting_plates, dish.photograph_plates, dish.second_marker_plates),
        shown=demonstration_for_stores(lesson, recipes[dish.version_id]),
        learned=learned,
        ahead_steps=tuple(dish.ahead_steps),
        lots=lots_data(_foods_of(recipes.values()), lesson),
        equipment=equipment_short(lesson),
    )


def lots_data(foods: Iterable[str], lesson: Lesson | None = None) -> tuple[LotData, ...]:
    """The lots of these foods that hold something, less what other trays hold of them. Four queries.

    ``lesson`` is the one that asks: what stands weighed for it is not taken from its lots.
    """
    rows = Lot.objects.filter(food__code__in=set(foods), on_hand_milligrams__gt=0)
    return stock_for(with_labels(rows), lesson)


def stock_for(lots: QuerySet[Lot], lesson: Lesson | None) -> tuple[LotData, ...]:
    """These lots, read with ``with_labels``, as the allocation needs them for a lesson. Four queries."""
    rows = list(lots)
    aside = set_aside([lot.pk for lot in rows], lesson)
    return tuple(replace(lot_data(lot), aside_milligrams=aside.get(lot.pk, 0)) for lot in rows)


def with_labels(lots: QuerySet[Lot]) -> QuerySet[Lot]:
    """Lots with what ``lot_data`` reads: food, its label, lessons they are accepted for. Three queries."""
    return lots.select_related("food__keeping", "made_in").prefetch_related("food__allergens", ACCEPTED)


def use_of(lesson: Lesson) -> Use:
    """What lots are wanted for when this lesson draws from them now. One query.

    They are judged by the day of the lesson; what leaves late by the day on which it leaves.
    """
    now = now_at(the_college())
    return Use(max(lesson.on, now.date()), lesson.code, now)


def lots_inside(lesson: Lesson) -> dict[str, tuple[str, ...]]:
    """For each made lot that the lesson has or took from, the lots that went into it. One query."""
    took = Movement.objects.filter(kit_line__kit__kit_set__lesson=lesson).values("lot")
    rows = MadePart.objects.filter(Q(made__made_in=lesson) | Q(made__in=took)).order_by("movement__lot__code")
    found: dict[str, tuple[str, ...]] = defaultdict(tuple)
    for made, lot in rows.values_list("made__code", "movement__lot__code"):
        found[made] += (lot,)
    return found


def lot_data(lot: Lot) -> LotData:
    """One lot as the allocation needs it."""
    return LotData(
        code=lot.code,
        food=lot.food.code,
        on_hand_milligrams=lot.on_hand_milligrams,
        received_on=lot.received_on,
        date_kind=lot.date_kind,
        dated_on=lot.date,
        held=lot.held,
        reserved_free_from=lot.reserved_free_from,
        opened=lot.opened_on is not None,
        names_more=names_more(lot),
        made_in=lot.made_in.code if lot.made_in else "",
        discard_at=timezone.localtime(lot.discard_at) if lot.discard_at else None,
        unread=lot.label_read_on is None,
        last_on=last_on(lot),
        only_for=tuple(row.lesson.code for row in lot.accepted_for.all()) if lot.restricted else None,
    )


def standing_kits(lesson: Lesson) -> KitSet | None:
    """The accepted kit set of a lesson, or None."""
    return (
        KitSet.objects.filter(lesson=lesson, state=KitSet.State.ACCEPTED)
        .select_related("lesson", "by")
        .first()
    )


def something_is_out(kit_set: KitSet) -> bool:
    """Whether anything that left the stores for these kits is not back in its lot. One query."""
    moves = Movement.objects.filter(kit_line__kit__kit_set=kit_set).values("lot", "kit_line")
    return moves.annotate(out=Sum("milligrams")).filter(out__lt=0).exists()


def kits_of(kit_set: KitSet) -> QuerySet[Kit]:
    """The kits of a set with bench, learners, lines, foods, weighings and movements."""
    lines = KitLine.objects.select_related("food").prefetch_related(
        WEIGHINGS,
        Prefetch("movements", Movement.objects.select_related("lot").order_by("pk")),
    )
    return kit_set.kits.select_related("place__bench", "place__shift", "version__recipe").prefetch_related(
        LEARNERS, Prefetch("lines", lines)
    )


def open_lines(kit_set: KitSet, *, blocked_too: bool = False) -> list[KitLine]:
    """Lines of the set of which something still has to leave the stores, free-from kits first. One query.

    ``to_come`` on each is how much: a line that was short gets the rest later. Those of kits
    that may not leave yet come only with ``blocked_too``. What a kit is made without is what its
    approved version says: a draft of the recipe may say otherwise meanwhile.
    """
    issues = Movement.objects.filter(kit_line=OuterRef("pk"), kind=Movement.Kind.ISSUE)
    issued = issues.order_by().values("kit_line").annotate(sum=Sum("milligrams")).values("sum")
    lines = KitLine.objects.filter(kit__kit_set=kit_set, kit__kind__in=KINDS_OF_KIT).annotate(
        to_come=F("stock_milligrams") + Coalesce(Subquery(issued), 0)
    )
    rows = (
        (lines if blocked_too else lines.filter(kit__blocked_why=""))
        .filter(to_come__gt=0)
        .select_related("food", "kit")
        .annotate(kinds_left_out=F("kit__version__sheet__free_from"))
        .order_by("kit__position", "position")
    )
    return sorted(rows, key=lambda line: (not line.kinds_left_out, KINDS_OF_KIT.index(line.kit.kind)))


def needs_of(kit_set: KitSet, lines: Iterable[KitLine]) -> list[LineNeed]:
    """Lines as the allocation needs them, with the lots they stand weighed from; keys are the lines'."""
    weighed = weighed_from(kit_set)
    return [
        LineNeed(
            line.pk,
            line.food.code,
            line.to_come,
            (line.food.piece_milligrams or 0) if line.pieces is not None else 0,
            bool(line.kinds_left_out),
            weighed.get(line.pk, ()),
        )
        for line in lines
    ]


def planned_draws(kit_set: KitSet) -> Allocation:
    """Which lots the lines still to be issued would be filled from, waiting kits included. Seven queries."""
    lines = open_lines(kit_set, blocked_too=True)
    stock = lots_data((line.food.code for line in lines), kit_set.lesson)
    return allocate(needs_of(kit_set, lines), stock, use_of(kit_set.lesson))


def trays_of(kit_set: KitSet) -> tuple[Tray, ...]:
    """The kits of a set as they are shown, with lots: issued from, or to be issued from."""
    planned: dict[int, list[tuple[str, int]]] = defaultdict(list)
    for draw in planned_draws(kit_set).draws:
        planned[draw.key].append((draw.lot, draw.milligrams))
    kits = list(kits_of(kit_set))
    avoided = kinds_avoided(kit_set.lesson)
    inside = lots_inside(kit_set.lesson)
    counted = {kind: sum(kit.kind == kind for kit in kits) for kind in Kit.Kind.values}
    seen: dict[str, int] = defaultdict(int)
    trays = []
    for kit in kits:
        seen[kit.kind] += 1
        tray = _tray(kit, _label(kit, seen[kit.kind], counted[kit.kind]), planned, avoided, inside)
        ordinary = kit.version_id == kit_set.inputs["version"]
        trays.append(plated(tray, kit_set.inputs, seen[kit.kind], ordinary=ordinary))
    return tuple(trays)


def current_weighings(lines: Iterable[KitLine]) -> dict[int, Weighing]:
    """The weighing that stands for each line that is weighed, by the key of the line."""
    last = {line.pk: (list(line.weighings.all()) or [None])[-1] for line in lines}
    return {key: row for key, row in last.items() if row is not None and not row.undone}


def kits_page(lesson: Lesson) -> KitsPage | None:
    """The kits page of a lesson: the accepted kits, or a proposal; None without a dish or a bench."""
    question = kit_question(lesson)
    if question is None or not question.asks_for_something:
        return None
    proposal = prepare(question)
    kit_set = standing_kits(lesson)
    if kit_set is None:
        return proposed_page(question, proposal)
    now = inputs_of(question)
    stale = kit_set.inputs_hash != hash_of(now)
    changed = changes(kit_set.inputs, now, component_names(question)) if stale else ()
    trays = trays_of(kit_set)
    changed += read_anew(trays, {food.code: food for r in question.recipes.values() for food in r.foods})
    stale = stale or bool(changed)
    return accepted_page(trays, proposal, planned_draws(kit_set), stale=stale, changed=changed)


def kinds_avoided(lesson: Lesson) -> dict[int, frozenset[str]]:
    """The kinds of allergen that each learner at a bench avoids on the day, by learner. One query."""
    rows = Avoidance.objects.filter(
        Q(until_on=None) | Q(until_on__gte=lesson.on),
        student__places__shift__lesson=lesson,
        from_on__lte=lesson.on,
    ).exclude(kind="")
    found: dict[int, frozenset[str]] = defaultdict(frozenset)
    for student, kind in rows.values_list("student", "kind").distinct():
        found[student] |= kinds_of(kind)
    return dict(found)


def learners_with_variants(lesson: Lesson) -> list[Student]:
    """Learners at benches that work a variant: what they avoid can be told from it."""
    rows = PlaceLearner.objects.filter(
        shift__lesson=lesson, place__version__recipe__variant_of__isnull=False
    ).select_related("student")
    return [row.student for row in rows]


def next_number(rows: QuerySet) -> int:
    """The number after the highest of these rows; 1 for the first."""
    return (rows.aggregate(last=Max("number"))["last"] or 0) + 1


def _places(lesson: Lesson) -> QuerySet[Place]:
    learners = Prefetch(
        "learners", PlaceLearner.objects.select_related("student__user").order_by("student__user__name")
    )
    return (
        places_taken()
        .filter(shift__lesson=lesson)
        .select_related("bench", "shift", "version__recipe")
        .prefetch_related(learners)
        .order_by("shift__number", "bench__number")
    )


def _bench(place: Place) -> BenchAsked:
    return BenchAsked(
        place=place.pk,
        label=place.plate,
        bench=place.bench.number,
        version=place.version_id,
        cooks=tuple(row.student.user.printed_name for row in place.learners.all()),
    )


def _label(kit: Kit, index: int, of: int) -> str:
    if kit.kind == Kit.Kind.BENCH:
        return kit.place.plate
    letter = {"demonstration": "D", "spare": "S", "ahead": "A", "stage_tray": "T"}.get(kit.kind, "+")
    return letter if of == 1 else f"{letter}{index}"


def _foods_of(recipes: Iterable[RecipeData]) -> set[str]:
    return {food.code for recipe in recipes for food in recipe.foods}


def _tray(
    kit: Kit,
    label: str,
    planned: dict[int, list[tuple[str, int]]],
    avoided: dict[int, frozenset[str]],
    inside: dict[str, tuple[str, ...]],
) -> Tray:
    learners = [row.student for row in kit.place.learners.all()] if kit.place else []
    free_from = tuple(kit.version.sheet["free_from"])
    left_out = frozenset(kind for code in free_from for kind in kinds_of(code))
    lines = list(kit.lines.all())
    weighed = current_weighings(lines)
    issued = [line for line in lines if line.movements.all()]
    return Tray(
        kind=kit.kind,
        label=label,
        title=kit.version.recipe.title,
        lines=tuple(
            _tray_line(line, planned.get(line.pk, []), weighed.get(line.pk), inside) for line in lines
        ),
        cooks=tuple(student.user.printed_name for student in learners),
        free_from=free_from,
        free_for=tuple(
            student.user.printed_name
            for student in learners
            if left_out & avoided.get(student.pk, frozenset())
        ),
        batches=kit.batches,
        blocked_why=kit.blocked_why,
        code=kit.code,
        issued=bool(issued),
    )


def _tray_line(
    line: KitLine,
    planned: list[tuple[str, int]],
    weighing: Weighing | None,
    inside: dict[str, tuple[str, ...]],
) -> TrayLine:
    moved = [(each.lot.code, -each.milligrams) for each in line.movements.all() if each.milligrams < 0]
    draws = (*moved, *planned)
    return TrayLine(
        position=line.position,
        component=line.component,
        food=line.food.code,
        words=line.food_words,
        exact=Fraction(line.exact),
        milligrams=line.milligrams,
        pieces=line.pieces,
        note=line.note,
        allergens=words_kept(line.allergens_words),
        may_contain=words_kept(line.may_contain_words),
        label_read_on=line.label_read_on,
        from_tap=line.stock_milligrams == 0,
        key=line.pk,
        draws=draws,
        inside=tuple(dict.fromkeys(each for lot, _ in draws for each in inside.get(lot, ()))),
        stock_milligrams=line.stock_milligrams,
        weighed=weighed_words(weighing),
        storage=line.food.storage,
    )


def weighed_words(weighing: Weighing | None) -> str:
    """When a line was weighed and by whom: "10:51, HB"."""
    if weighing is None:
        return ""
    return f"{timezone.localtime(weighing.at):%H:%M}, {initials(weighing.by.name)}"
