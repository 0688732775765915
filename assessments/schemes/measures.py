"""What a measured criterion earns: how far the figure is from its target, step by step.

A portion of 128 g for 140 g is 12 g under, 8.6 %: not within 5 %, within 10 %, half.
Food at 41 °C for 45 to 50 °C is 4 °C outside: within 5 °C, half.
"""

from fractions import Fraction

from assessments.schemes.card import Card, Targets
from assessments.schemes.clock import minutes_outside
from assessments.schemes.content import CriterionContent, Tolerance
from assessments.schemes.figures import count, percent, plain

#: Unit in which a person types and reads a figure compared by each kind of tolerance.
UNITS = {
    "within_per_mille": "g",
    "outside_by_decicelsius": "°C",
    "missing_pieces": "pieces",
    "at_most_milligrams": "g",
    "minutes_outside": "minutes from the start",
}


def unit_of(criterion: CriterionContent) -> str:
    """The unit of a measured criterion's figure."""
    if criterion.is_clock:
        return UNITS["minutes_outside"]
    return UNITS[criterion.tolerance[0].kind]


def no_target(criterion: CriterionContent, targets: Targets) -> str:
    """Why a criterion cannot be measured on this dish, in words; empty when it can.

    The scheme gives full points then: nobody loses points for what the dish does not ask.
    """
    kind = criterion.tolerance[0].kind if criterion.tolerance else ""
    if kind == "outside_by_decicelsius" and targets.serve_low_decicelsius is None:
        return "the dish has no serving range, full points"
    if kind == "within_per_mille" and not targets.portion_milligrams:
        return "the dish states no portion weight, full points"
    if kind == "missing_pieces" and not targets.portions:
        return "the dish states no number of pieces, full points"
    return ""


def window_minutes(criterion: CriterionContent) -> int:
    """The window of a criterion whose target reads "window_minutes 5". ValueError without a number."""
    return int(criterion.target.split()[-1])


def earned_share(criterion: CriterionContent, value: Fraction, card: Card) -> tuple[int, str]:
    """The share per mille that a figure earns, and the words for it."""
    kind = criterion.tolerance[0].kind
    distance, words = DISTANCES[kind](criterion, value, card)
    for step in criterion.tolerance:
        if distance <= step.limit:
            reached = f", {limit_words(step)}" if step.limit else ""
            return step.share_per_mille, f"{words}{reached}: {share_words(step.share_per_mille)}"
    return criterion.otherwise_per_mille, f"{words}, outside every step"


def _portion(criterion: CriterionContent, grams: Fraction, card: Card) -> tuple[Fraction, str]:
    target = Fraction(card.targets.portion_milligrams or 0, 1000)
    share = (grams - target) / target
    return abs(share) * 1000, f"{plain(grams)} g for {plain(target)} g, {percent(share)}"


def _temperature(criterion: CriterionContent, celsius: Fraction, card: Card) -> tuple[Fraction, str]:
    low = Fraction(card.targets.serve_low_decicelsius or 0, 10)
    high = Fraction(card.targets.serve_high_decicelsius or 0, 10)
    outside = max(Fraction(0), low - celsius, celsius - high)
    where = "inside" if not outside else f"{plain(outside)} °C outside"
    return outside * 10, f"{plain(celsius)} °C, {where} {plain(low)} to {plain(high)} °C"


def _pieces(criterion: CriterionContent, pieces: Fraction, card: Card) -> tuple[Fraction, str]:
    wanted = card.targets.portions or 0
    return max(Fraction(0), wanted - pieces), f"{plain(pieces)} of {wanted} pieces"


def _waste(criterion: CriterionContent, grams: Fraction, card: Card) -> tuple[Fraction, str]:
    return grams * 1000, f"{plain(grams)} g"


def _window(criterion: CriterionContent, elapsed: Fraction, card: Card) -> tuple[Fraction, str]:
    window = window_minutes(criterion)
    outside = minutes_outside(elapsed, card.allowed_minutes, window)
    span = f"the {count(window, 'minute')} up to the deadline"
    return outside, f"inside {span}" if not outside else f"{plain(outside, 1)} min outside {span}"


def share_words(share_per_mille: int) -> str:
    """A share of the points: "full", "half", "none", "25 %"."""
    share = {1000: "full", 500: "half", 0: "none"}.get(share_per_mille)
    return share or f"{plain(Fraction(share_per_mille, 10))} %"


def limit_words(step: Tolerance) -> str:
    """How far a figure may be from its target for this step of the tolerance."""
    if not step.limit:
        return "exactly as asked" if step.kind == "missing_pieces" else "inside"
    return {
        "within_per_mille": f"within {plain(Fraction(step.limit, 10))} %",
        "outside_by_decicelsius": f"at most {plain(Fraction(step.limit, 10))} °C outside",
        "missing_pieces": f"at most {step.limit} missing",
        "at_most_milligrams": f"at most {plain(Fraction(step.limit, 1000))} g",
        "minutes_outside": f"at most {step.limit} min outside",
    }[step.kind]


DISTANCES = {
    "within_per_mille": _portion,
    "outside_by_decicelsius": _temperature,
    "missing_pieces": _pieces,
    "at_most_milligrams": _waste,
    "minutes_outside": _window,
}
