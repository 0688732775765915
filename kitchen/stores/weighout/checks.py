"""The second check of a weight: of which foods, in which of three ways, and when it is passed.

For the weigh-out, the issue of kits and the college's own setting. Plain data in, plain data
out. A college chooses one way: a second person's *initials* at each weight, a *check weight*
(the pot goes on a scale once more), or *sampled* kits: every n-th kit is weighed once more,
drawn by a seed of the kit set, so that nobody chooses which. A check is asked for only once
the weight stands, so that a sampled pot is weighed like any other.

Worked example: nine kits and every fourth: the seed decides whether kits 1, 5 and 9, or 2 and
6, or 3 and 7, or 4 and 8 are weighed again. A pot of 30 g of salt on a 1 g scale passes from
29 to 31 g: 2 % of it would be 0.6 g, and the scale shows no less than a gram.

Sources: that a second person initials raising agents, salt, sugar, gelatine and nuts is trade
practice (common practice, no source); the figures are our own choice.
"""

import hashlib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from curriculum.allergens import GROUPS
from curriculum.foods.data import FoodData

#: The name of the college's setting that holds all of this.
SETTING = "weigh_out"
WAYS = (
    ("initials", "A second person’s initials at each of these weights"),
    ("check_weight", "A check weight: each of these pots goes on a scale once more"),
    ("sampled", "Sampled kits: every so many kits are weighed once more"),
)
GROUPS_TO_CHECK = (
    ("leavening", "Raising agents"),
    ("salt", "Salt"),
    ("sugar", "Sugar"),
    ("gelling", "Gelatine and what else sets"),
    ("nuts", "Nuts and peanuts"),
)
NUTS = frozenset((*GROUPS["nuts"][1], "peanuts"))


@dataclass(frozen=True, slots=True)
class WeighOutRule:
    """What a college has chosen; without a choice, what stands here (our own choice, no source).

    ``every`` counts kits where they are sampled; tolerances are tenths of a per cent: of a
    check weight, and of what was weighed out of a pack; ``cold_minutes`` is how long chilled
    food is weighed before it is used, at most.
    """

    way: str = "initials"
    every: int = 5
    groups: frozenset[str] = frozenset(code for code, _ in GROUPS_TO_CHECK)
    check_per_mille: int = 20
    bulk_per_mille: int = 10
    cold_minutes: int = 30


def read_rule(kept: Mapping[str, Any] | None) -> WeighOutRule:
    """The rule from the college's setting; what is not said there is as usual."""
    if not kept:
        return WeighOutRule()
    said = {name: kept[name] for name in WeighOutRule.__dataclass_fields__ if name in kept}
    return WeighOutRule(**(said | ({"groups": frozenset(said["groups"])} if "groups" in said else {})))


def kept_rule(rule: WeighOutRule) -> dict[str, Any]:
    """The rule as the college's setting keeps it."""
    return {name: getattr(rule, name) for name in rule.__dataclass_fields__} | {"groups": sorted(rule.groups)}


def rule_words(rule: WeighOutRule) -> dict[str, Any]:
    """The rule in words: its way, and the foods that are looked at twice."""
    groups = [words for code, words in GROUPS_TO_CHECK if code in rule.groups]
    return {"way": dict(WAYS)[rule.way], "groups": groups}


def group_of(food: FoodData) -> str:
    """Which of the groups a food is of; empty for one that nobody looks at twice."""
    words = set(food.code.split("_"))
    if food.scaling_class in ("leavening", "gelling"):
        return food.scaling_class
    named = next((word for word in ("salt", "sugar") if word in words), "")
    return named or ("nuts" if NUTS & set(food.contains) else "")


def sampled(kits: Sequence[str], seed: str, every: int) -> frozenset[str]:
    """Codes of the kits that are weighed once more: every so many, from one that the seed draws."""
    step = max(1, min(every, len(kits)))
    first = int(hashlib.sha256(seed.encode()).hexdigest(), 16) % step
    return frozenset(kits[first::step])


def way_for(rule: WeighOutRule, food: FoodData, kit: str, sample: Iterable[str]) -> str:
    """How this weight is looked at once more: "initials", "check_weight", or empty for not at all."""
    if group_of(food) not in rule.groups:
        return ""
    if rule.way == "sampled":
        return "check_weight" if kit in sample else ""
    return rule.way


def check_tolerance(rule: WeighOutRule, expected: int, step: int, pieces: int = 0) -> int:
    """How far a check weight may be off, in milligrams: the college's share, but no less than a step.

    Of what is counted not one piece may be missing: a third of a piece is only the rounding of its weight.
    """
    if pieces:
        return expected // pieces // 3
    return max(step, int(Fraction(expected * rule.check_per_mille, 1000)))


def passes(milligrams: int, expected: int, tolerance: int) -> bool:
    """Whether a check weight agrees with the weight that it checks."""
    return abs(milligrams - expected) <= tolerance
