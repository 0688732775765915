"""When a rule of a scheme acts: late, core not reached, unsafe, a mark at most so high."""

from assessments.schemes.card import Card
from assessments.schemes.clock import started_minutes_late
from assessments.schemes.content import RuleContent, SchemeContent

CORE = "core_celsius_below_recipe"
UNSAFE = "critical_line_unsafe"
LATE = "minutes_late"


def minutes_late(scheme: SchemeContent, card: Card) -> int | None:
    """Started minutes late by the scheme's own clock; None while nobody wrote the time down."""
    for criterion in scheme.criteria:
        if criterion.is_clock:
            elapsed = card.value(criterion.code)
            return None if elapsed is None else started_minutes_late(elapsed, card.allowed_minutes)
    return None


def acts(rule: RuleContent, scheme: SchemeContent, card: Card) -> bool:
    """Whether a rule's condition holds on this card. KeyError for a condition nobody knows."""
    if rule.watches:
        value = card.value(rule.watches)
        return value is not None and value <= (rule.at_most or 0)
    if rule.when == LATE:
        return (minutes_late(scheme, card) or 0) > (rule.above or 0)
    if rule.when == CORE:
        reading, wanted = card.value(rule.code), card.targets.core_decicelsius
        return reading is not None and wanted is not None and reading * 10 < wanted
    if rule.when == UNSAFE:
        return any(mark.criterion == rule.code and mark.value >= 1 for mark in card.marks)
    raise KeyError(rule.when)
