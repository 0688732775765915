"""Accepting a demonstration plan; the one that stood is superseded."""

from uuid import UUID

from django.db import transaction
from django.db.models import Max

from curriculum.errors import RuleBroken
from curriculum.people.models import User
from curriculum.records.actions import once
from kitchen.lessons.models import Lesson
from kitchen.timeplan.demonstration_data import Demonstration
from kitchen.timeplan.demonstration_kept import kept_demonstration
from kitchen.timeplan.models import DemonstrationPlan, PlanState


@transaction.atomic
def accept_demonstration(
    *,
    lesson: Lesson,
    plan: Demonstration,
    inputs: tuple[dict, str],
    by: User,
    key: UUID | None = None,
) -> DemonstrationPlan:
    """Keep a plan with what it was computed from (``inputs``: the question and its hash).

    Accepting what stands once more changes nothing. RuleBroken for a cancelled lesson, for
    stages that take longer than the slot, and for no stage at all.
    """
    answer = kept_demonstration(plan)
    said = {"lesson": lesson.pk, "hash": inputs[1], "stages": answer["shown"]}

    def keep() -> dict:
        current = Lesson.objects.select_for_update().get(pk=lesson.pk)
        _demand(current, plan)
        rows = DemonstrationPlan.objects.filter(lesson=current)
        standing = rows.filter(state=PlanState.ACCEPTED).first()
        if standing and standing.inputs_hash == inputs[1] and standing.answer["shown"] == answer["shown"]:
            return {"plan": standing.pk}
        rows.filter(state=PlanState.ACCEPTED).update(state=PlanState.SUPERSEDED)
        made = DemonstrationPlan.objects.create(
            lesson=current,
            number=(rows.aggregate(last=Max("number"))["last"] or 0) + 1,
            slot_minutes=plan.slot,
            inputs=inputs[0],
            inputs_hash=inputs[1],
            answer=answer,
            by=by,
        )
        return {"plan": made.pk}

    done = once(key=key, action="accept_demonstration", by=by, said=said, do=keep)
    return DemonstrationPlan.objects.get(pk=done["plan"])


def _demand(lesson: Lesson, plan: Demonstration) -> None:
    if lesson.state == Lesson.State.CANCELLED:
        raise RuleBroken("cancelled", "This lesson is cancelled; nothing is shown in it any more.")
    if not plan.stages:
        raise RuleBroken("nothing_shown", "No step is shown. Choose at least one.")
    if plan.minutes > plan.slot:
        raise RuleBroken(
            "longer_than_the_slot",
            f"The stages take {plan.minutes} minutes and you give {plan.slot}. "
            "Give more, or show less of them.",
            field="minutes",
        )
