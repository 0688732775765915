"""Keeping a scheme, writing the briefs of a lesson, checking them by another person."""

import hashlib
import json
from collections.abc import Collection
from uuid import UUID

from django.db import transaction
from django.utils import timezone

from assessments.schemes.briefs import proposed_techniques, targets_of, techniques_of, write_targets
from assessments.schemes.checks import complaints
from assessments.schemes.content import SchemeContent, UnreadableScheme, read_scheme
from assessments.schemes.models import Brief, Criterion, Scheme, SchemeVersion
from assessments.schemes.queries import Cooked, briefs_of, cooked_in, levels_of, marking_has_begun
from curriculum.errors import RuleBroken
from curriculum.people.models import User
from curriculum.records.actions import once
from kitchen.lessons.models import Lesson


def content_hash(content: dict) -> str:
    """SHA-256 of a scheme's content as canonical JSON."""
    text = json.dumps(content, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()


@transaction.atomic
def keep_scheme(*, content: dict, by: User) -> SchemeVersion:
    """Keep a scheme's content (shape 1) as an approved version; the same content changes nothing.

    RuleBroken "scheme_unusable" names everything that is wrong with it.
    """
    scheme_content = _usable(content)
    scheme, _ = Scheme.objects.get_or_create(code=scheme_content.code, defaults={"name": scheme_content.name})
    kept = scheme.versions.filter(content_hash=content_hash(content)).first()
    if kept is not None:
        return kept
    newest = scheme.versions.order_by("-number").first()
    version = SchemeVersion.objects.create(
        scheme=scheme,
        number=newest.number + 1 if newest else 1,
        state=SchemeVersion.State.APPROVED,
        content=content,
        content_hash=content_hash(content),
        written_by=by,
    )
    Criterion.objects.bulk_create(_criteria(version, scheme_content))
    return version


def _usable(content: dict) -> SchemeContent:
    try:
        scheme = read_scheme(content)
    except UnreadableScheme as error:
        raise RuleBroken("scheme_unusable", str(error)) from error
    found = complaints(scheme)
    if found:
        raise RuleBroken("scheme_unusable", f"This scheme cannot be used. {' '.join(found)}", found=found)
    return scheme


def _criteria(version: SchemeVersion, scheme: SchemeContent) -> list[Criterion]:
    """A row for each criterion, and one for each event that a rule needs recorded."""
    rows = [(each.code, each.name, each.kind, each.milli_points) for each in scheme.criteria]
    rows += [(rule.code, rule.remark, "event", None) for rule in scheme.events()]
    return [
        Criterion(
            version=version, position=position, code=code, name=name[:160], kind=kind, milli_points=milli
        )
        for position, (code, name, kind, milli) in enumerate(rows, 1)
    ]


def write_briefs(
    *,
    lesson: Lesson,
    scheme_version: SchemeVersion,
    by: User,
    techniques: Collection[str] = (),
    minutes: int | None = None,
    key: UUID | None = None,
) -> list[Brief]:
    """Write the brief of every version cooked in a lesson; variants get what their dish allows.

    ``techniques`` are those to mark one by one; a variant that does not train one of them is
    marked on the next of its own method. ``minutes`` is the working time without extra time;
    without it the usable minutes of the lesson. A brief written again must be checked again.
    RuleBroken: "marking_has_begun", "too_few_techniques", "not_trained", "nothing_cooked".
    """
    said = {
        "lesson": lesson.code,
        "scheme": scheme_version.pk,
        "techniques": sorted(techniques),
        "minutes": minutes,
    }

    def do() -> dict:
        _demand_not_begun(lesson)
        cooked = cooked_in(lesson)
        _demand_trained(techniques, cooked)
        for each in cooked:
            _write_one(lesson, each, scheme_version, by, techniques, minutes or lesson.usable_minutes)
        lesson.briefs.exclude(version__in=[each.version for each in cooked]).delete()
        return {}

    once(key=key, action="schemes.write_briefs", by=by, said=said, do=do)
    return briefs_of(lesson)


def _demand_not_begun(lesson: Lesson) -> None:
    Lesson.objects.select_for_update().get(pk=lesson.pk)
    if marking_has_begun(lesson):
        raise RuleBroken(
            "marking_has_begun",
            "Mark sheets are open for this lesson, so its brief stays as it is. "
            "Book another sitting to use another brief.",
        )


def _demand_trained(techniques: Collection[str], cooked: list[Cooked]) -> None:
    if not cooked:
        raise RuleBroken("nothing_cooked", "This lesson has no dish yet. Book its dish before the brief.")
    trained = {code for each in cooked for code in techniques_of(each.recipe)}
    strange = sorted(set(techniques) - trained)
    if strange:
        raise RuleBroken(
            "not_trained",
            f"No dish of this lesson trains {', '.join(strange)}. Choose techniques of its method.",
            field="techniques",
        )


def _write_one(
    lesson: Lesson,
    cooked: Cooked,
    scheme_version: SchemeVersion,
    by: User,
    wanted: Collection[str],
    minutes: int,
) -> None:
    wants = [each for each in read_scheme(scheme_version.content).criteria if each.by_technique]
    count = max((each.technique_count for each in wants), default=0)
    chosen: tuple[str, ...] = ()
    if wants:
        levels = levels_of(techniques_of(cooked.recipe))
        chosen = proposed_techniques(cooked.recipe, count, wanted, levels)
    if wants and (len(chosen) < count or not chosen or (count and len(wanted) > count)):
        raise RuleBroken(
            "too_few_techniques",
            f"The scheme marks {count or 'some'} techniques; {cooked.recipe.title} has {len(chosen)} and "
            f"{len(wanted)} were chosen. Choose as many as the scheme marks.",
            field="techniques",
        )
    Brief.objects.update_or_create(
        lesson=lesson,
        version=cooked.version,
        defaults={
            "scheme_version": scheme_version,
            "techniques": list(chosen),
            "targets": write_targets(targets_of(cooked.recipe, cooked.portions)),
            "minutes": minutes,
            "written_by": by,
            "checked_by": None,
            "checked_at": None,
        },
    )


@transaction.atomic
def check_briefs(*, lesson: Lesson, by: User) -> list[Brief]:
    """Check the briefs of a lesson, which another person wrote; checking twice changes nothing.

    RuleBroken: "no_brief", "checked_by_another".
    """
    briefs = list(lesson.briefs.select_for_update().order_by("pk"))
    if not briefs:
        raise RuleBroken("no_brief", "This lesson has no brief yet. Its lecturer writes one first.")
    if any(brief.written_by_id == by.pk for brief in briefs):
        raise RuleBroken(
            "checked_by_another",
            "You wrote this brief, so another person checks it: the verifier or another lecturer.",
        )
    for brief in briefs:
        if brief.checked_by_id is None:
            brief.checked_by, brief.checked_at = by, timezone.now()
            brief.save(update_fields=["checked_by", "checked_at"])
    return briefs
