"""From the marks given to the result, in the scheme's printed order, with every step shown.

A scheme prints the order in which it is reckoned; each word of that order is one step
here, and they are done in that order and no other. Points are exact fractions all the
way; they are rounded once, where the order says "rounding", a half going up.

Worked example (one hundred points): organisation 2 of 3 of 15 is 10; hygiene 1 of 3 of
15 is 5; four techniques 3, 2, 2, 1 of 3 at 7.5 each are 7.5 + 5 + 5 + 2.5 = 20; product
7 + 6 + 8 = 21; a portion of 133 g for 140 g is 5 % under, within 5 %, 3 of 3; 47 °C in
45 to 50 °C is 2 of 2; 4 started minutes late are 5 − 8, not below nought, 0. Sum 61,
rounded 61. Hygiene was 1 of 3: the total is held at 39.
"""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from assessments.schemes import competence, judges
from assessments.schemes.card import Card
from assessments.schemes.conditions import CORE, acts, minutes_late
from assessments.schemes.content import CriterionContent, RuleContent, SchemeContent
from assessments.schemes.figures import count, half_up, plain, points
from assessments.schemes.ladders import ladder_points
from assessments.schemes.measures import earned_share, no_target
from assessments.schemes.sums import SumLine, Working, earned_line, sentence


@dataclass(frozen=True, slots=True)
class Outcome:
    """The result with its arithmetic. ``milli_total`` and ``band`` are None until all is given.

    ``missing`` and ``again`` say in words what is still to be given or marked again;
    ``so_far`` of ``so_far_of`` are the thousandths given until now; ``remarks`` are those
    of the rules that acted; ``before_cap`` is the rounded sum before any cap.
    """

    lines: tuple[SumLine, ...]
    milli_total: int | None
    band: str | None
    missing: tuple[str, ...]
    again: tuple[str, ...]
    remarks: tuple[str, ...]
    before_cap: int | None
    so_far: Fraction
    so_far_of: int

    @property
    def complete(self) -> bool:
        """Everything was given and nothing must be marked again."""
        return not self.missing and not self.again


def reckon(scheme: SchemeContent, card: Card) -> Outcome:
    """The result of a card by a scheme, every step as a line to show.

    KeyError when the scheme's order names a step that nobody knows (``checks`` says so
    in words before a scheme can be used).
    """
    work = Working()
    _look_for_events(scheme, card, work)
    for name in scheme.order:
        STEPS[name](scheme, card, work)
    done = not work.missing and not work.again
    if done and work.total is not None:
        _close(scheme, work)
    return Outcome(
        lines=tuple(work.lines),
        milli_total=int(work.total) if done and work.total is not None else None,
        band=work.band if done or work.stopped else None,
        missing=tuple(work.missing) if not work.stopped else (),
        again=tuple(work.again),
        remarks=tuple(work.remarks),
        before_cap=work.before_cap if done else None,
        so_far=sum(work.earned.values(), Fraction(0)),
        so_far_of=work.available,
    )


def _judgements(scheme: SchemeContent, card: Card, work: Working) -> None:
    for criterion in scheme.criteria:
        if criterion.kind == "judgement":
            _one_judgement(criterion, card, work)
        elif criterion.kind == "judgement_by_technique":
            _by_technique(criterion, card, work)


def _one_judgement(criterion: CriterionContent, card: Card, work: Working) -> None:
    value = card.value(criterion.code)
    if value is None:
        work.missing.append(criterion.name)
        return
    milli = ladder_points(value, criterion.scale_maximum, criterion.milli_points or 0)
    words = f"{criterion.name}, {plain(value)} of {criterion.scale_maximum}"
    work.earn(criterion, words, milli)


def _by_technique(criterion: CriterionContent, card: Card, work: Working) -> None:
    each_milli = criterion.milli_points_per_technique
    given, parts = Fraction(0), []
    for subject in card.subjects:
        value = card.value(criterion.code, subject.code)
        if value is None:
            work.missing.append(f"{criterion.name}: {subject.name}")
            continue
        milli = ladder_points(value, criterion.scale_maximum, each_milli)
        given += milli
        words = f"{subject.name}, {plain(value)} of {criterion.scale_maximum}"
        parts.append(earned_line(f"{criterion.code}:{subject.code}", words, milli, each_milli, "part"))
    if not card.subjects:
        work.missing.append(f"{criterion.name}: the brief names no technique")
    if parts:
        words = criterion.name
        if len(parts) < len(card.subjects):
            words += f", {len(parts)} of {len(card.subjects)} techniques given"
        work.earn(criterion, words, given, of_milli=each_milli * len(parts))
        work.lines.extend(parts)


def _measures(scheme: SchemeContent, card: Card, work: Working) -> None:
    for criterion in scheme.criteria:
        if criterion.kind != "measured" or criterion.minus_milli_points_per_started_minute:
            continue
        reason = no_target(criterion, card.targets)
        value = card.value(criterion.code)
        if value is None and not reason:
            work.missing.append(criterion.name)
            continue
        share, words = (1000, reason) if reason else earned_share(criterion, value, card)
        milli = Fraction((criterion.milli_points or 0) * share, 1000)
        work.earn(criterion, f"{criterion.name}: {words}", milli)


def _timing(scheme: SchemeContent, card: Card, work: Working) -> None:
    for criterion in scheme.criteria:
        minus = criterion.minus_milli_points_per_started_minute
        if not minus:
            continue
        late = minutes_late(scheme, card)
        if late is None:
            work.missing.append(f"{criterion.name}: when the plate was presented")
            continue
        full = criterion.milli_points or 0
        milli = max(Fraction(criterion.floor_milli_points), Fraction(full - late * minus))
        words = f"{criterion.name}: in time" if not late else _late_words(criterion, late)
        work.earn(criterion, words, milli)


def _late_words(criterion: CriterionContent, late: int) -> str:
    minus = points(criterion.minus_milli_points_per_started_minute)
    floor = points(criterion.floor_milli_points)
    full = points(criterion.milli_points or 0)
    return (
        f"{criterion.name}: {count(late, 'started minute')} late, "
        f"{full} less {late} times {minus}, not below {floor}"
    )


def _zero_parts(scheme: SchemeContent, card: Card, work: Working) -> None:
    for rule in scheme.rules:
        if rule.kind != "zero_part" or not acts(rule, scheme, card):
            continue
        members = [each.code for each in scheme.criteria if each.part_of == rule.part]
        lost = sum((work.earned.get(code, Fraction(0)) for code in members), Fraction(0))
        for code in members:
            work.earned[code] = Fraction(0)
        words = f"{sentence(rule.remark)}: {rule.part} {points(lost)} becomes 0"
        work.lines.append(SumLine(rule.code, words, f"\N{MINUS SIGN}{points(lost)}", "rule", -lost))
        work.remarks.append(rule.remark)


def _sum(scheme: SchemeContent, card: Card, work: Working) -> None:
    total = sum(work.earned.values(), Fraction(0))
    if (work.missing or work.again) and not work.available:
        return
    if work.missing or work.again:
        words = "Given so far"
        figure = f"{points(total)} of {points(work.available)}"
    else:
        words, work.total = "Sum", total
        figure = f"{points(total)} of {points(scheme.total_milli_points or work.available)}"
    work.lines.append(SumLine("sum", words, figure, "sum", total, work.available))


def _rounding(scheme: SchemeContent, card: Card, work: Working) -> None:
    step = scheme.rounding_milli_points
    if work.total is None or not step:
        return
    rounded = Fraction(half_up(work.total, step))
    if rounded != work.total:
        words = f"Rounded to whole steps of {points(step)}, a half up"
        work.lines.append(SumLine("rounding", words, points(rounded), "sum", rounded))
    work.total = rounded
    work.before_cap = int(rounded)


def _caps(scheme: SchemeContent, card: Card, work: Working) -> None:
    for rule in scheme.rules:
        if rule.kind not in ("cap", "gate") or not acts(rule, scheme, card):
            continue
        work.remarks.append(rule.remark)
        if rule.kind == "gate":
            _shut_gate(scheme, rule, work)
        elif work.total is not None and rule.cap_milli_points is not None:
            _hold(rule, work)


def _hold(rule: RuleContent, work: Working) -> None:
    cap = Fraction(rule.cap_milli_points or 0)
    held = min(work.total or Fraction(0), cap)
    words = f"{sentence(rule.remark)}: held at {points(cap)}"
    if held == work.total:
        words = f"{sentence(rule.remark)}: at most {points(cap)}, no change"
    work.lines.append(SumLine(rule.code, words, points(held), "rule", held))
    work.total = held


def _shut_gate(scheme: SchemeContent, rule: RuleContent, work: Working) -> None:
    work.gated = True
    words = f"{sentence(rule.remark)}: the gate is shut"
    work.lines.append(SumLine(rule.code, words, scheme.result_bands[0].name, "rule"))


def _look_for_events(scheme: SchemeContent, card: Card, work: Working) -> None:
    for rule in scheme.events():
        if rule.when == CORE and card.targets.core_decicelsius and card.value(rule.code) is None:
            work.missing.append("Core temperature of the food")


def _close(scheme: SchemeContent, work: Working) -> None:
    work.band = _band(scheme, work)
    total = work.total or Fraction(0)
    figure = points(total)
    if scheme.total_milli_points:
        figure += f" of {points(scheme.total_milli_points)}"
    work.lines.append(SumLine("total", f"Total: {work.band}", figure, "total", total))


def _band(scheme: SchemeContent, work: Working) -> str:
    if work.gated:
        return scheme.result_bands[0].name
    reached = [band for band in scheme.result_bands if (band.from_milli_points or 0) <= (work.total or 0)]
    return reached[-1].name


Step = Callable[[SchemeContent, Card, Working], None]

#: What each word of a scheme's printed order does.
STEPS: dict[str, Step] = {
    "criteria": _judgements,
    "tolerances": _measures,
    "timing": _timing,
    "zero_parts": _zero_parts,
    "sum": _sum,
    "rounding": _rounding,
    "caps": _caps,
    "judges": judges.all_in,
    "spread": judges.spreads,
    "means": judges.means,
    "measures": _measures,
    "lines": competence.lines,
    "result": competence.result,
}
