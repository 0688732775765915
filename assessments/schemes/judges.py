"""Several judges on one criterion: who is missing, how far apart they are, their mean."""

from fractions import Fraction

from assessments.schemes.card import Card
from assessments.schemes.content import CriterionContent, RuleContent, SchemeContent
from assessments.schemes.figures import count, plain
from assessments.schemes.ladders import judged_points, spread
from assessments.schemes.sums import SumLine, Working


def all_in(scheme: SchemeContent, card: Card, work: Working) -> None:
    """Which judges have not marked yet."""
    for criterion in scheme.criteria:
        if criterion.kind != "judged":
            continue
        lacking = scheme.assessors - len(card.values(criterion.code))
        if lacking > 0:
            work.waiting.add(criterion.code)
            work.missing.append(f"{criterion.name}: {count(lacking, 'judge')} of {scheme.assessors}")


def spreads(scheme: SchemeContent, card: Card, work: Working) -> None:
    """Judges too far apart talk it over and all mark again; no mean is taken until then."""
    for rule in scheme.rules:
        if rule.kind != "mark_again":
            continue
        for criterion in scheme.criteria:
            scores = card.values(criterion.code) if criterion.kind == "judged" else ()
            if len(scores) > 1 and spread(scores) > (rule.above or 0):
                _ask_again(criterion, scores, rule, work)


def _ask_again(
    criterion: CriterionContent, scores: tuple[Fraction, ...], rule: RuleContent, work: Working
) -> None:
    given = ", ".join(plain(score) for score in scores)
    limit = count(rule.above or 0, "step")
    words = (
        f"{criterion.name}: {given} are {count(int(spread(scores)), 'step')} apart, more than {limit}; "
        "talk it over, then every judge marks again"
    )
    work.again.append(words)
    work.waiting.add(criterion.code)
    work.lines.append(SumLine(criterion.code, words, "to mark again", "again"))


def means(scheme: SchemeContent, card: Card, work: Working) -> None:
    """The mean of the judges, once all are in and near enough."""
    for criterion in scheme.criteria:
        scores = card.values(criterion.code) if criterion.kind == "judged" else ()
        if not scores or criterion.code in work.waiting:
            continue
        milli = judged_points(scores, criterion.scale_maximum, criterion.milli_points or 0)
        given = ", ".join(plain(score) for score in scores)
        mean = plain(sum(scores, Fraction(0)) / len(scores))
        words = f"{criterion.name}: {given}, mean {mean} of {criterion.scale_maximum}"
        work.earn(criterion, words, milli)
