"""A scheme and a brief as their pages show them: every figure already in words."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from assessments.schemes.briefs import read_targets
from assessments.schemes.card import Subject, Targets
from assessments.schemes.content import (
    MET_KINDS,
    Band,
    CriterionContent,
    RuleContent,
    SchemeContent,
)
from assessments.schemes.figures import count, plain, points
from assessments.schemes.measures import limit_words, share_words

KIND_WORDS = {
    "judgement": "judged on a ladder",
    "judgement_by_technique": "judged on a ladder, one technique at a time",
    "judged": "judged apart by each assessor",
    "measured": "measured",
    "met_or_not_yet": "met or not yet met",
    "met_or_not_yet_by_technique": "met or not yet met, one technique at a time",
}
ORDER_WORDS = {
    "criteria": "judged criteria",
    "tolerances": "measured criteria by tolerance",
    "timing": "timing",
    "zero_parts": "parts set to nought",
    "sum": "the sum",
    "rounding": "rounding, a half up",
    "caps": "caps and gates",
    "judges": "every judge’s mark",
    "spread": "judges too far apart mark again",
    "means": "the mean of the judges",
    "measures": "measured criteria by tolerance",
    "lines": "every line",
    "result": "the result",
}


@dataclass(frozen=True, slots=True)
class CriterionShown:
    """One criterion in words; ``ladder`` best first, ``steps`` of a tolerance as they earn."""

    code: str
    name: str
    worth: str
    how: str
    ladder: tuple[tuple[int, str], ...]
    steps: tuple[str, ...]
    note: str


@dataclass(frozen=True, slots=True)
class SchemeShown:
    """A scheme in words."""

    code: str
    name: str
    facts: str
    note: str
    criteria: tuple[CriterionShown, ...]
    rules: tuple[str, ...]
    order: tuple[str, ...]
    bands: tuple[str, ...]
    late_rule: str
    tasting_rule: str


@dataclass(frozen=True, slots=True)
class BriefShown:
    """One brief with its row, the techniques marked and what measures aim at, in words."""

    row: Any
    techniques: tuple[str, ...]
    targets: tuple[str, ...]


def scheme_shown(scheme: SchemeContent) -> SchemeShown:
    """A scheme as its page shows it."""
    total = scheme.total_milli_points
    facts = [f"{points(total)} points" if total else "no points", count(scheme.assessors, "assessor")]
    facts.append("totals may compensate" if scheme.compensation else "nothing compensates")
    return SchemeShown(
        code=scheme.code,
        name=scheme.name,
        facts=f"Version {scheme.number}: {', '.join(facts)}.",
        note=scheme.note,
        criteria=tuple(_criterion(each) for each in scheme.criteria),
        rules=tuple(rule_words(rule, scheme) for rule in scheme.rules),
        order=tuple(ORDER_WORDS[name] for name in scheme.order),
        bands=tuple(_band(band) for band in scheme.result_bands),
        late_rule=scheme.late_rule,
        tasting_rule=scheme.tasting_rule,
    )


def _criterion(criterion: CriterionContent) -> CriterionShown:
    steps = [f"{limit_words(step)}: {share_words(step.share_per_mille)}" for step in criterion.tolerance]
    if criterion.minus_milli_points_per_started_minute:
        minus = points(criterion.minus_milli_points_per_started_minute)
        steps.append(f"less {minus} a started minute late, not below {points(criterion.floor_milli_points)}")
    if criterion.by_technique and criterion.technique_count:
        each = points(criterion.milli_points_per_technique)
        steps.append(f"{criterion.technique_count} techniques, {each} points each")
    worth = points(criterion.milli_points) if criterion.milli_points else ""
    if criterion.kind in MET_KINDS and criterion.critical:
        steps.append("critical: an unsafe act here stops the sitting")
    return CriterionShown(
        code=criterion.code,
        name=criterion.name,
        worth=worth,
        how=KIND_WORDS[criterion.kind],
        ladder=tuple((rung.mark, rung.words) for rung in reversed(criterion.ladder)),
        steps=tuple(steps),
        note=criterion.note,
    )


def rule_words(rule: RuleContent, scheme: SchemeContent) -> str:
    """A rule as a sentence."""
    return f"{_when(rule, scheme)}: {_then(rule)} (“{rule.remark}”)."


def _when(rule: RuleContent, scheme: SchemeContent) -> str:
    if rule.watches:
        return f"{scheme.criterion(rule.watches).name} at {rule.at_most} or less"
    return {
        "minutes_late": f"More than {count(rule.above or 0, 'minute')} late",
        "core_celsius_below_recipe": "The core temperature of the recipe is not reached",
        "critical_line_unsafe": "An unsafe act on a critical line",
        "spread_steps": f"Judges more than {count(rule.above or 0, 'step')} apart",
    }[rule.when]


def _then(rule: RuleContent) -> str:
    return {
        "zero_part": f"the {rule.part} earns 0",
        "cap": f"the total is held at {points(rule.cap_milli_points or 0)}",
        "gate": "the result is the lowest band, whatever the total",
        "stop_and_record": "the sitting ends and is recorded",
        "mark_again": "they talk it over and every judge marks again",
    }[rule.kind]


def _band(band: Band) -> str:
    if band.from_milli_points is None:
        return band.name
    return f"{band.name}, from {points(band.from_milli_points)}"


def brief_shown(row: Any, subjects: tuple[Subject, ...]) -> BriefShown:
    """A brief as its page shows it."""
    targets = targets_words(read_targets(row.targets))
    return BriefShown(row, tuple(subject.name for subject in subjects), targets)


def targets_words(targets: Targets) -> tuple[str, ...]:
    """What measured criteria aim at, in words."""
    found = []
    if targets.portion_milligrams:
        found.append(f"a portion of {plain(Fraction(targets.portion_milligrams, 1000))} g")
    if targets.portions:
        found.append(f"{count(targets.portions, 'portion')} a bench")
    if targets.serve_low_decicelsius is not None and targets.serve_high_decicelsius is not None:
        low = plain(Fraction(targets.serve_low_decicelsius, 10))
        high = plain(Fraction(targets.serve_high_decicelsius, 10))
        found.append(f"served at {low} to {high} °C")
    if targets.core_decicelsius:
        held = f" for {targets.core_seconds} s" if targets.core_seconds else ""
        found.append(f"core {plain(Fraction(targets.core_decicelsius, 10))} °C{held}")
    return tuple(found)
