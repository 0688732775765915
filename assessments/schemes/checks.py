"""What is wrong with a scheme, in words, before anybody can mark by it.

Called before a version is kept and again before a brief may use it. Every complaint is a
full sentence that says where and what would be right; an empty tuple means usable.
"""

from collections.abc import Iterator

from assessments.schemes.conditions import CORE, LATE, UNSAFE
from assessments.schemes.content import (
    AT_MOST,
    JUDGED_KINDS,
    KINDS,
    MET_KINDS,
    RULE_KINDS,
    TOLERANCES,
    CriterionContent,
    RuleContent,
    SchemeContent,
)
from assessments.schemes.figures import points
from assessments.schemes.points import STEPS

#: Conditions that are not about the mark of one criterion.
CONDITIONS = (LATE, CORE, UNSAFE, "spread_steps")
#: Which word of the order reckons which kind of criterion or rule.
RECKONED_BY = {
    "judgement": ("criteria",),
    "judgement_by_technique": ("criteria",),
    "judged": ("judges", "means"),
    "measured": ("tolerances", "measures"),
    "met_or_not_yet": ("lines",),
    "met_or_not_yet_by_technique": ("lines",),
    "zero_part": ("zero_parts",),
    "cap": ("caps",),
    "gate": ("caps",),
    "mark_again": ("spread",),
    "stop_and_record": ("result",),
}


def complaints(scheme: SchemeContent) -> tuple[str, ...]:
    """Everything that is wrong with a scheme; empty when it can be used."""
    found: list[str] = []
    for check in (_order, _weights, _each_criterion, _each_rule, _gates_and_caps, _bands):
        found += check(scheme)
    return tuple(found)


def _order(scheme: SchemeContent) -> Iterator[str]:
    for name in scheme.order:
        if name not in STEPS:
            yield f"The order names “{name}”, which is no step of reckoning."
    if len(set(scheme.order)) != len(scheme.order):
        yield "The order names a step twice."
    if "rounding" in scheme.order and not _before("sum", "rounding", scheme.order):
        yield "The order rounds before it sums; marks are rounded once, after the sum."
    if "caps" in scheme.order and not _before("sum", "caps", scheme.order):
        yield "The order caps before it sums; a cap holds the sum."
    if "zero_parts" in scheme.order and not _before("zero_parts", "sum", scheme.order):
        yield "The order sums before it sets parts to nought; the sum would still hold them."


def _before(first: str, second: str, order: tuple[str, ...]) -> bool:
    return first in order and second in order and order.index(first) < order.index(second)


def _weights(scheme: SchemeContent) -> Iterator[str]:
    if scheme.total_milli_points is None:
        return
    total = sum(criterion.milli_points or 0 for criterion in scheme.criteria)
    if total != scheme.total_milli_points:
        yield (
            f"The criteria add up to {points(total)} points, the scheme says "
            f"{points(scheme.total_milli_points)}. Change a weight or the total."
        )


def _each_criterion(scheme: SchemeContent) -> Iterator[str]:
    codes = [criterion.code for criterion in scheme.criteria]
    if not codes:
        yield "The scheme has no criterion. Add one."
    for code in sorted({code for code in codes if codes.count(code) > 1}):
        yield f"Two criteria are called “{code}”. Give one of them another code."
    for criterion in scheme.criteria:
        if criterion.kind not in KINDS:
            yield f"{criterion.name}: “{criterion.kind}” is no kind of criterion."
            continue
        yield from _reckoned(criterion.name, criterion.kind, criterion, scheme)
        yield from _points_of(criterion)
        yield from _ladder(criterion)
        yield from _tolerance(criterion)


def _reckoned(name: str, kind: str, what: object, scheme: SchemeContent) -> Iterator[str]:
    words = RECKONED_BY[kind]
    if isinstance(what, CriterionContent) and what.minus_milli_points_per_started_minute:
        words = ("timing",)
    if not set(words) & set(scheme.order):
        yield f"{name}: the order has no step that reckons it ({' or '.join(words)})."


def _points_of(criterion: CriterionContent) -> Iterator[str]:
    if criterion.kind in MET_KINDS:
        return
    if not criterion.milli_points:
        yield f"{criterion.name}: it earns no points. Give it a weight."
    each = criterion.technique_count * criterion.milli_points_per_technique
    if criterion.kind == "judgement_by_technique" and each != criterion.milli_points:
        yield (
            f"{criterion.name}: {criterion.technique_count} techniques of "
            f"{points(criterion.milli_points_per_technique)} points are {points(each)}, "
            f"not {points(criterion.milli_points or 0)}."
        )


def _ladder(criterion: CriterionContent) -> Iterator[str]:
    if criterion.kind not in JUDGED_KINDS:
        return
    marks = [rung.mark for rung in criterion.ladder]
    if criterion.scale_maximum < 1:
        yield f"{criterion.name}: its scale has no highest mark."
    elif sorted(set(marks)) != marks or not marks or marks[0] != 0 or marks[-1] != criterion.scale_maximum:
        yield (
            f"{criterion.name}: the ladder goes from 0 to {criterion.scale_maximum}, each step once, "
            "the lowest first."
        )
    if any(not rung.words.strip() for rung in criterion.ladder):
        yield f"{criterion.name}: a step of the ladder has no descriptor."


def _tolerance(criterion: CriterionContent) -> Iterator[str]:
    if criterion.kind != "measured" or criterion.minus_milli_points_per_started_minute:
        return
    steps = criterion.tolerance
    kinds = {step.kind for step in steps}
    if len(kinds) != 1 or not kinds <= set(TOLERANCES):
        yield f"{criterion.name}: it needs tolerance steps of one known kind."
        return
    limits = [step.limit for step in steps]
    shares = [step.share_per_mille for step in steps]
    if sorted(set(limits)) != limits or sorted(set(shares), reverse=True) != shares:
        yield f"{criterion.name}: a wider tolerance step must earn less than the one before it."
    if kinds == {"minutes_outside"} and not criterion.target[-1:].isdigit():
        yield f"{criterion.name}: the window needs its minutes, such as “window_minutes 5”."


def _each_rule(scheme: SchemeContent) -> Iterator[str]:
    codes = {criterion.code for criterion in scheme.criteria}
    parts = {criterion.part_of for criterion in scheme.criteria if criterion.part_of}
    for rule in scheme.rules:
        if rule.kind not in RULE_KINDS:
            yield f"Rule {rule.code}: “{rule.kind}” is no kind of rule."
            continue
        yield from _reckoned(f"Rule {rule.code}", rule.kind, rule, scheme)
        yield from _condition(rule, codes, scheme)
        if rule.kind == "zero_part" and rule.part not in parts:
            yield f"Rule {rule.code}: no criterion is part of “{rule.part}”."
        if not rule.remark.strip():
            yield f"Rule {rule.code}: it needs a remark, which is printed where it acts."
        if rule.code in codes:
            yield f"Rule {rule.code}: a criterion has the same code. Give one of them another."


def _condition(rule: RuleContent, codes: set[str], scheme: SchemeContent) -> Iterator[str]:
    if rule.watches:
        if rule.watches not in codes:
            yield f"Rule {rule.code}: there is no criterion “{rule.watches}”."
        elif rule.at_most is None or rule.at_most >= scheme.criterion(rule.watches).scale_maximum:
            yield f"Rule {rule.code}: say at which mark of the scale it acts, below the highest."
    elif rule.when not in CONDITIONS:
        yield f"Rule {rule.code}: nobody knows when “{rule.when}” is; a mark is watched as “code{AT_MOST}”."
    if rule.when == LATE and not any(criterion.is_clock for criterion in scheme.criteria):
        yield f"Rule {rule.code}: the scheme has no clock, so nobody is late by it."
    if rule.when == UNSAFE and not any(criterion.critical for criterion in scheme.criteria):
        yield f"Rule {rule.code}: no line of the scheme is marked as critical."


def _gates_and_caps(scheme: SchemeContent) -> Iterator[str]:
    pass_mark = scheme.result_bands[1].from_milli_points if len(scheme.result_bands) > 1 else None
    caps = [rule for rule in scheme.rules if rule.kind == "cap"]
    for cap in caps:
        if not cap.cap_milli_points:
            yield f"Rule {cap.code}: a cap says at how many points it holds the total."
    for gate in (rule for rule in scheme.rules if rule.kind == "gate"):
        for cap in (rule for rule in caps if rule.watches == gate.watches):
            yield from _disagreement(gate, cap, pass_mark)


def _disagreement(gate: RuleContent, cap: RuleContent, pass_mark: int | None) -> Iterator[str]:
    if gate.at_most != cap.at_most:
        yield (
            f"Gate {gate.code} shuts at {gate.at_most} or less and cap {cap.code} acts at {cap.at_most} or "
            f"less of the same criterion. Let both act at the same mark."
        )
    if pass_mark is not None and (cap.cap_milli_points or 0) >= pass_mark:
        yield (
            f"Gate {gate.code} takes the pass, cap {cap.code} holds at {points(cap.cap_milli_points or 0)}, "
            f"which passes from {points(pass_mark)}. Hold below {points(pass_mark)} or leave the gate out."
        )


def _bands(scheme: SchemeContent) -> Iterator[str]:
    if len(scheme.result_bands) < 2:
        yield "The scheme needs at least two results, the lowest first."
    if scheme.total_milli_points is None:
        return
    froms = [band.from_milli_points for band in scheme.result_bands]
    known = [value for value in froms if value is not None]
    if len(known) != len(froms) or known[:1] != [0] or sorted(set(known)) != known:
        yield "The result bands start at 0 and go up, each with the points it starts from."
    elif known[-1] > scheme.total_milli_points:
        yield "The highest band starts above the total, so that nobody can reach it."
