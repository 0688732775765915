"""What the stores do with the kits of a lesson: accept and issue; what lies between is ``weighout``.

Lots, labels and requisitions have action files of their own beside this one.

Pages, commands and tests call these. Each is one change: keywords only, ``by`` the person,
``key`` where it may be sent twice (the second time gives the first answer and changes
nothing), one transaction, rows locked in key order before they are judged. A refused action
changes nothing and says in words what would help. Who may call what is ``access.py``'s.
"""

from uuid import UUID

from django.db import transaction
from django.db.models import F
from django.utils import timezone

from curriculum import wording
from curriculum.errors import RuleBroken
from curriculum.foods.models import Food
from curriculum.foods.queries import foods_data
from curriculum.people.models import User
from curriculum.records.actions import draw_code, once, own_key
from kitchen.lessons.models import Lesson
from kitchen.stores import queries
from kitchen.stores.allocation import Allocation, allocate
from kitchen.stores.kits import KitLinePlan, KitPlan, label_words, says_as_printed, words_kept
from kitchen.stores.ledgers import Move, lots_locked, move
from kitchen.stores.managers import judge_blocks, kits_to_come
from kitchen.stores.models import Kit, KitLine, KitSet, Lot, Movement
from kitchen.stores.moves.counting import amount_words
from kitchen.stores.moves.queries import piece_of
from kitchen.stores.proposal import Proposal, Question, hash_of, inputs_of, prepare, shortages_of
from kitchen.stores.weighout.leaving.actions import demand_checked


@transaction.atomic
def accept_kits(*, lesson: Lesson, by: User, key: UUID | None = None) -> KitSet:
    """Keep the kits of a lesson as they are reckoned now, with what they were reckoned from.

    Kits kept before and not issued, or wholly taken back, are superseded. RuleBroken
    "lesson_cancelled", "no_dish", "nobody_placed", "already_issued".
    """

    def do() -> dict:
        lesson_locked(lesson)
        question = _question(lesson)
        _supersede(lesson)
        return {"kit_set": _keep(lesson, question, prepare(question), by).pk}

    answer = once(key=key, action="accept_kits", by=by, said={"lesson": lesson.code}, do=do)
    return KitSet.objects.get(pk=answer["kit_set"])


@transaction.atomic
def issue_kits(
    *,
    lesson: Lesson,
    by: User,
    key: UUID | None = None,
    short_accepted: bool = False,
    unchecked_why: str = "",
) -> int:
    """Issue every kit that may leave: movements out of the lots, those first that it was weighed from.

    Returns how many movements were written. Blocked kits stay; when their label is read they
    are issued by the same action. RuleBroken "lesson_cancelled", "no_kits", "benches_changed",
    "label_read_anew", "label_not_read", "already_issued", "lot_may_not_leave" while food of such
    a lot stands on a tray, "check_open" while a lid or a second check is missing, unless
    ``unchecked_why`` says why they leave all the same, and "short" unless ``short_accepted``:
    then what is there is issued, and the rest of each line stays open.
    """

    def do() -> dict:
        lesson_locked(lesson)
        kit_set = _kit_set_locked(lesson)
        lines = _lines_to_leave(kit_set)
        lots = lots_locked(
            Lot.objects.filter(food__in={line.food_id for line in lines}).values_list("pk", flat=True)
        )
        demand_checked(kit_set=kit_set, kits={line.kit_id for line in lines}, why=unchecked_why, by=by)
        stock = queries.stock_for(queries.with_labels(Lot.objects.filter(pk__in=lots)), lesson)
        answer = allocate(queries.needs_of(kit_set, lines), stock, queries.use_of(lesson))
        _demand_covered(answer, lines, short_accepted)
        moves = _moves(answer, lots, key)
        move(lots=lots, moves=moves, by=by)
        _note_issued(kit_set)
        return {"movements": len(moves)}

    said = {"lesson": lesson.code, "short_accepted": short_accepted, "unchecked_why": unchecked_why}
    return once(key=key, action="issue_kits", by=by, said=said, do=do)["movements"]


def lesson_locked(lesson: Lesson) -> Lesson:
    """The lesson as it stands now, locked; RuleBroken "lesson_cancelled" when nobody cooks in it."""
    row = Lesson.objects.select_for_update().get(pk=lesson.pk)
    if row.state == Lesson.State.CANCELLED:
        raise RuleBroken("lesson_cancelled", "This lesson is cancelled. Nothing is prepared for it.")
    return row


def _question(lesson: Lesson) -> Question:
    question = queries.kit_question(lesson, anew=True)
    if question is None:
        raise RuleBroken("no_dish", "No dish is chosen for this lesson. Book the dish, then make the kits.")
    if not question.asks_for_something:
        raise RuleBroken(
            "nobody_placed", "No bench is given out yet. Give out the places, then make the kits."
        )
    return question


def _supersede(lesson: Lesson) -> None:
    standing = KitSet.objects.select_for_update().filter(lesson=lesson, state=KitSet.State.ACCEPTED).first()
    if standing is None:
        return
    if queries.something_is_out(standing):
        raise RuleBroken(
            "already_issued",
            "Kits of this lesson have left the stores. Issue what is missing; they are made again only "
            "when all that left is back in its lots.",
        )
    standing.state = KitSet.State.SUPERSEDED
    standing.save(update_fields=["state"])


def _keep(lesson: Lesson, question: Question, proposal: Proposal, by: User) -> KitSet:
    codes = {line.food for plan in proposal.kits for line in plan.lines}
    foods = {food.code: food for food in Food.objects.filter(code__in=codes)}
    inputs = inputs_of(question)
    kit_set = KitSet.objects.create(
        lesson=lesson,
        number=queries.next_number(KitSet.objects.filter(lesson=lesson)),
        inputs=inputs,
        inputs_hash=hash_of(inputs),
        shortages=shortages_of(proposal, {code: food.name for code, food in foods.items()}),
        by=by,
    )
    versions = {recipe.code: key for key, recipe in question.recipes.items()}
    places = {each.label: each.place for each in question.benches}
    kits = Kit.objects.bulk_create(
        _kit(kit_set, position, plan, versions[plan.recipe], places)
        for position, plan in enumerate(proposal.kits, start=1)
    )
    KitLine.objects.bulk_create(
        _kit_line(kit, line, foods[line.food])
        for kit, plan in zip(kits, proposal.kits, strict=True)
        for line in plan.lines
    )
    judge_blocks(kits_to_come().filter(kit_set=kit_set))
    return kit_set


def _kit(kit_set: KitSet, position: int, plan: KitPlan, version: int, places: dict[str, int]) -> Kit:
    return Kit(
        kit_set=kit_set,
        code=draw_code(Kit),
        kind=plan.kind,
        position=position,
        place_id=places[plan.label] if plan.kind == Kit.Kind.BENCH else None,
        version_id=version,
        batches=plan.batches,
        blocked_why=plan.blocked_why[:300],
    )


def _kit_line(kit: Kit, line: KitLinePlan, food: Food) -> KitLine:
    return KitLine(
        kit=kit,
        position=line.position,
        food=food,
        component=line.component,
        food_words=line.words,
        allergens_words=label_words(line.contains),
        may_contain_words=label_words(line.may_contain),
        label_read_on=line.label_read_on,
        exact=str(line.exact),
        milligrams=line.milligrams,
        stock_milligrams=line.stock_milligrams,
        pieces=line.pieces,
        note=line.note[:200],
    )


def _kit_set_locked(lesson: Lesson) -> KitSet:
    kit_set = KitSet.objects.select_for_update().filter(lesson=lesson, state=KitSet.State.ACCEPTED).first()
    if kit_set is None:
        raise RuleBroken("no_kits", "No kits are made for this lesson yet. Make the kits, then issue them.")
    return kit_set


def _lines_to_leave(kit_set: KitSet) -> list[KitLine]:
    """Lines of the kits that the labels let leave as they are read now. RuleBroken."""
    judge_blocks(kits_to_come().filter(kit_set=kit_set))
    lines = queries.open_lines(kit_set)
    _demand_as_placed(lines)
    _demand_as_printed(lines)
    _demand_lines(kit_set, lines)
    return lines


def _demand_as_printed(lines: list[KitLine]) -> None:
    """No kit leaves under a label that says less than the label of its food by now."""
    foods = foods_data(line.food.code for line in lines)
    for line in lines:
        now = foods[line.food.code]
        if not says_as_printed(now, words_kept(line.allergens_words), words_kept(line.may_contain_words)):
            raise RuleBroken(
                "label_read_anew",
                f"The label of {line.food.name} was read anew since these kits were made, and names other "
                "kinds. Make the kits again: weights that still hold stay. Print their labels again, then "
                "issue them.",
            )


def _demand_as_placed(lines: list[KitLine]) -> None:
    """No kit leaves for a bench that works another recipe by now than the one it was made for."""
    kits = Kit.objects.filter(pk__in={line.kit_id for line in lines}).exclude(place=None)
    moved = kits.exclude(version=F("place__version"))
    kit = moved.select_related("place__bench").order_by("position").first()
    if kit is not None:
        raise RuleBroken(
            "benches_changed",
            f"Bench {kit.place.bench.number} works another recipe now than its kit was made for. "
            "Make the kits again, then issue them.",
            bench=kit.place.bench.number,
        )


def _demand_lines(kit_set: KitSet, lines: list[KitLine]) -> None:
    """Refuse when nothing can leave: every kit left is blocked, or all have left."""
    if lines:
        return
    blocked = kit_set.kits.exclude(blocked_why="").first()
    if blocked is not None:
        raise RuleBroken("label_not_read", blocked.blocked_why)
    raise RuleBroken("already_issued", "Every kit of this lesson has left the stores already.")


def _demand_covered(answer: Allocation, lines: list[KitLine], short_accepted: bool) -> None:
    """Refuse a shortage that nobody has accepted, by name and figure."""
    if short_accepted or not answer.shortages:
        return
    foods = {line.food.code: line.food for line in lines}
    short = [
        f"{amount_words(each.short_milligrams, piece_of(foods[each.food]))} {foods[each.food].name}"
        for each in answer.shortages
    ]
    left_out = [why for each in answer.shortages for why in each.left_out]
    raise RuleBroken(
        "short",
        " ".join(
            (
                f"Short of {wording.listed(short)}.",
                *left_out,
                "Take more in, or issue what is there and say so.",
            )
        ),
        field="short_accepted",
        shortages=answer.shortages,
    )


def _moves(answer: Allocation, lots: dict[int, Lot], key: UUID | None) -> list[Move]:
    """One movement out of a lot for each draw."""
    by_code = {lot.code: lot.pk for lot in lots.values()}
    kind = Movement.Kind.ISSUE
    return [
        Move(by_code[draw.lot], -draw.milligrams, kind, own_key(key, draw.key, draw.lot), draw.key)
        for draw in answer.draws
    ]


def _note_issued(kit_set: KitSet) -> None:
    """The set is issued when no kit waits for a label."""
    if not kit_set.kits.exclude(blocked_why="").exists():
        kit_set.issued_at = timezone.now()
        kit_set.save(update_fields=["issued_at"])
