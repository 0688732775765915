"""A made-up candidate scored by a scheme, so that everybody sees its arithmetic before it is used."""

from fractions import Fraction

from assessments.schemes.card import Card, Mark, Subject, Targets
from assessments.schemes.content import JUDGED_KINDS, MET_KINDS, CriterionContent, SchemeContent
from assessments.schemes.points import Outcome, reckon

TARGETS = Targets(140_000, 8, 450, 500)
ALLOWED = Fraction(165)
#: A little off each target, so that tolerances show: 128 g for 140 g, 47 °C, one of eight short.
FIGURES = {
    "within_per_mille": 128,
    "outside_by_decicelsius": 47,
    "missing_pieces": 7,
    "at_most_milligrams": 150,
    "minutes_outside": 163,
}
LATE_MINUTES = 1


def example(scheme: SchemeContent) -> Outcome:
    """The outcome of a middling candidate, one minute late, one step of a ladder below its top."""
    subjects = _subjects(scheme)
    marks = [mark for criterion in scheme.criteria for mark in _marks(criterion, subjects, scheme)]
    return reckon(scheme, Card(tuple(marks), subjects, TARGETS, ALLOWED))


def _subjects(scheme: SchemeContent) -> tuple[Subject, ...]:
    count = max((each.technique_count or 3 for each in scheme.criteria if each.by_technique), default=0)
    return tuple(Subject(f"technique_{number}", f"Technique {number}") for number in range(1, count + 1))


def _marks(criterion: CriterionContent, subjects: tuple[Subject, ...], scheme: SchemeContent) -> list[Mark]:
    if criterion.kind == "judged":
        top = criterion.scale_maximum
        return [
            Mark(criterion.code, Fraction(top - (judge > 1)), judge=judge)
            for judge in range(1, scheme.assessors + 1)
        ]
    if criterion.by_technique:
        values = [_middling(criterion, place) for place in range(len(subjects))]
        return [
            Mark(criterion.code, value, subject.code) for value, subject in zip(values, subjects, strict=True)
        ]
    return [Mark(criterion.code, _middling(criterion, 0))]


def _middling(criterion: CriterionContent, place: int) -> Fraction:
    if criterion.kind in MET_KINDS:
        return Fraction(0 if place == 2 else 1)
    if criterion.kind in JUDGED_KINDS:
        return Fraction(max(1, criterion.scale_maximum * 2 // 3 - place % 2))
    if criterion.minus_milli_points_per_started_minute:
        return ALLOWED + LATE_MINUTES
    return Fraction(FIGURES[criterion.tolerance[0].kind])
