"""A person decides about a learned figure: accepts, declines, takes back; or writes an allowance.

The rules of every action of the stores hold here too (``kitchen.stores.actions``). What is
reckoned from is reckoned before; the action keeps what the person saw and decided.
"""

from uuid import UUID

from django.db import transaction
from django.db.models import QuerySet
from django.utils import timezone

from curriculum.errors import RuleBroken
from curriculum.foods.models import Food
from curriculum.foods.one.actions import use_own_yield
from curriculum.people.models import User
from curriculum.recipes.models import Recipe
from curriculum.records.actions import once
from curriculum.techniques.models import Technique
from kitchen.stores.learning.evidence import OVER_ISSUE, USABLE, WASTAGE, Proposal
from kitchen.stores.learning.models import KeptFigure

State = KeptFigure.State
NOT_ENOUGH = "This rests on too few lessons or tests yet. Write down what comes back, and look again."


@transaction.atomic
def accept_figure(
    *, proposal: Proposal, of: str, words: str, before_source: str, by: User, key: UUID | None = None
) -> KeptFigure:
    """From now on the stores reckon with what was proposed; what stood before is superseded.

    ``of`` says which of the techniques of an allowance it stands for. RuleBroken "not_enough",
    "not_of_these", "decided_meanwhile", "tested_meanwhile".
    """
    if not proposal.enough:
        raise RuleBroken("not_enough", NOT_ENOUGH)
    if of not in (proposal.of, *proposal.others):
        raise RuleBroken(
            "not_of_these", "This technique is not worked in these lessons. Choose one of them.", field="of"
        )

    def do() -> dict:
        food = Food.objects.select_for_update().get(code=proposal.food)
        _demand_undecided(proposal, food)
        row = _row(proposal, food, of, words, before_source, State.ACCEPTED, by)
        _supersede(row, by)
        row.save()
        if row.kind == USABLE:
            _demand_the_same(use_own_yield(food=food, by=by), row)
        return {"figure": row.pk}

    said = {"mark": proposal.mark, "of": of, "words": words}
    return _kept(once(key=key, action="accept_figure", by=by, said=said, do=do))


@transaction.atomic
def decline_figure(
    *, proposal: Proposal, words: str, before_source: str, by: User, key: UUID | None = None
) -> KeptFigure:
    """Leave everything as it is, and say why; another lesson brings another proposal.

    RuleBroken "says_why" without words, "decided_meanwhile".
    """
    if not words:
        raise RuleBroken("says_why", "Say in a few words why it is declined.", field="words")

    def do() -> dict:
        food = Food.objects.select_for_update().get(code=proposal.food)
        _demand_undecided(proposal, food)
        row = _row(proposal, food, proposal.of, words, before_source, State.DECLINED, by)
        row.save()
        return {"figure": row.pk}

    said = {"mark": proposal.mark, "words": words}
    return _kept(once(key=key, action="decline_figure", by=by, said=said, do=do))


@transaction.atomic
def write_allowance(
    *,
    food: Food | None,
    technique: Technique | None,
    per_mille: int,
    words: str,
    by: User,
    key: UUID | None = None,
) -> KeptFigure:
    """An allowance by hand, for a food, a technique, or a food worked by a technique.

    RuleBroken "of_nothing".
    """
    if food is None and technique is None:
        raise RuleBroken("of_nothing", "Choose a food, a technique, or both.", field="food")

    def do() -> dict:
        _locked(food, technique)
        row = KeptFigure(
            kind=WASTAGE, food=food, technique=technique, amount=per_mille, words=words[:200], by=by
        )
        _supersede(row, by)
        row.save()
        return {"figure": row.pk}

    said = {"food": food.code if food else "", "technique": technique.code if technique else ""}
    said |= {"per_mille": per_mille, "words": words}
    return _kept(once(key=key, action="write_allowance", by=by, said=said, do=do))


@transaction.atomic
def take_back_figure(*, figure: KeptFigure, words: str, by: User, key: UUID | None = None) -> KeptFigure:
    """A decision stands no more; what it had superseded stands again. Kits already made keep theirs.

    RuleBroken "stands_no_more".
    """

    def do() -> dict:
        food = _locked(figure.food, figure.technique)
        row = KeptFigure.objects.select_for_update().get(pk=figure.pk)
        if row.state not in (State.ACCEPTED, State.DECLINED):
            raise RuleBroken("stands_no_more", "This was taken back or superseded already.")
        accepted = row.state == State.ACCEPTED
        row.state, row.ended_by, row.ended_at, row.ended_words = State.TAKEN_BACK, by, timezone.now(), words
        row.save(update_fields=["state", "ended_by", "ended_at", "ended_words"])
        if accepted:
            _stand_again(row)
            _share_back(row, food)
        return {"figure": row.pk}

    said = {"figure": figure.pk, "words": words}
    return _kept(once(key=key, action="take_back_figure", by=by, said=said, do=do))


def _row(
    proposal: Proposal, food: Food, of: str, words: str, before_source: str, state: str, by: User
) -> KeptFigure:
    return KeptFigure(
        kind=proposal.kind,
        food=food,
        recipe=Recipe.objects.get(code=of) if proposal.kind == OVER_ISSUE else None,
        technique=Technique.objects.get(code=of) if proposal.kind == WASTAGE else None,
        amount=proposal.amount,
        before=proposal.in_use,
        before_source=before_source[:200],
        count=len(proposal.rows),
        evidence=[
            {
                "lesson": row.lesson,
                "title": row.title,
                "on": row.on.isoformat(),
                "group": row.group,
                "benches": row.benches,
                "figures": [list(each) for each in row.figures],
                "value": row.value,
                "far": row.far,
            }
            for row in proposal.rows
        ],
        mark=proposal.mark,
        words=words[:200],
        state=state,
        by=by,
    )


def _demand_undecided(proposal: Proposal, food: Food) -> None:
    """Refuse what another person has accepted since the page was opened; the food is locked."""
    rows = KeptFigure.objects.filter(kind=proposal.kind, food=food, mark=proposal.mark, state=State.ACCEPTED)
    row = rows.select_related("by").first()
    if row is not None:
        raise RuleBroken(
            "decided_meanwhile",
            f"{row.by.printed_name} has accepted this already. Take that back first to decide otherwise.",
        )


def _demand_the_same(food: Food, row: KeptFigure) -> None:
    """The share that the food has now is the one that was proposed, or a test came in between."""
    if food.usable_per_mille != row.amount:
        raise RuleBroken(
            "tested_meanwhile",
            f"Another yield test of {food.name} was written down meanwhile. Look at the new figure, "
            "then decide.",
        )


def _locked(food: Food | None, technique: Technique | None) -> Food | None:
    """What a figure is of, locked: the food where there is one, else the technique."""
    if food is not None:
        return Food.objects.select_for_update().get(pk=food.pk)
    Technique.objects.select_for_update().get(pk=technique.pk)
    return None


def _same(row: KeptFigure, state: str) -> QuerySet[KeptFigure]:
    return KeptFigure.objects.filter(
        kind=row.kind, food=row.food, recipe=row.recipe, technique=row.technique, state=state
    )


def _supersede(row: KeptFigure, by: User) -> None:
    _same(row, State.ACCEPTED).update(state=State.SUPERSEDED, ended_by=by, ended_at=timezone.now())


def _stand_again(row: KeptFigure) -> None:
    """What was superseded last before it stands again."""
    before = _same(row, State.SUPERSEDED).filter(pk__lt=row.pk).order_by("-pk").first()
    if before is not None:
        before.state, before.ended_by, before.ended_at = State.ACCEPTED, None, None
        before.save(update_fields=["state", "ended_by", "ended_at"])


def _share_back(row: KeptFigure, food: Food | None) -> None:
    """The food's usable share as it was before, unless somebody chose another since."""
    if row.kind == USABLE and food is not None and food.usable_per_mille == row.amount and row.before:
        food.usable_per_mille, food.usable_source = row.before, row.before_source
        food.save(update_fields=["usable_per_mille", "usable_source"])


def _kept(answer: dict) -> KeptFigure:
    return KeptFigure.objects.get(pk=answer["figure"])
