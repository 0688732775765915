"""Lines that are met or not yet met, and the result they make: nothing compensates."""

from fractions import Fraction

from assessments.schemes.card import Card
from assessments.schemes.conditions import acts
from assessments.schemes.content import SchemeContent
from assessments.schemes.sums import SumLine, Working, sentence


def lines(scheme: SchemeContent, card: Card, work: Working) -> None:
    """Every line of the card: met, or not yet."""
    for criterion in scheme.criteria:
        if criterion.kind == "met_or_not_yet":
            _one_met(criterion.code, criterion.name, card.value(criterion.code), work)
        elif criterion.kind == "met_or_not_yet_by_technique":
            for subject in card.subjects:
                name = f"{criterion.name}: {subject.name}"
                value = card.value(criterion.code, subject.code)
                _one_met(f"{criterion.code}:{subject.code}", name, value, work)


def _one_met(code: str, name: str, value: Fraction | None, work: Working) -> None:
    if value is None:
        work.missing.append(name)
        return
    met = value >= 1
    work.all_met = work.all_met and met
    figure, kind = ("met", "met") if met else ("not yet met", "notyet")
    work.lines.append(SumLine(code, name, figure, kind))


def result(scheme: SchemeContent, card: Card, work: Working) -> None:
    """The last band when every line is met, the first when one is not or the sitting was stopped."""
    for rule in scheme.rules:
        if rule.kind == "stop_and_record" and acts(rule, scheme, card):
            work.stopped = True
            work.remarks.append(rule.remark)
            work.lines.append(SumLine(rule.code, sentence(rule.remark), "the sitting ended", "rule"))
    if work.missing and not work.stopped:
        return
    work.band = scheme.result_bands[-1 if work.all_met and not work.stopped else 0].name
    work.lines.append(SumLine("result", "Result", work.band, "total"))
