"""Which foods might replace one: those that are like it in a dough, on a shelf, by name.

A proposal only; a person chooses. Common practice, no source: the same part of a dough or
mix counts most, then each word of the name that both have, then the same storage; each kind
of allergen that was not there counts against it, meat and fish twice as much.
"""

import re
from collections.abc import Iterable

from curriculum.recipes.data import FoodData
from curriculum.wording import plain

OF_PART, OF_WORD, OF_STORAGE = 4, 2, 1
MOST = 8
#: Words of names that say how a food is and not what it is.
HOW = frozenset(
    [
        "beaten",
        "black",
        "brown",
        "coarse",
        "cold",
        "cooked",
        "dark",
        "double",
        "dried",
        "dry",
        "extra",
        "fat",
        "fine",
        "free",
        "fresh",
        "full",
        "ground",
        "hard",
        "leaf",
        "light",
        "low",
        "mature",
        "medium",
        "mild",
        "plain",
        "powder",
        "salted",
        "semi",
        "single",
        "soft",
        "strong",
        "unsalted",
        "whole",
        "white",
        "with",
        "without",
        "and",
        "for",
    ]
)


def proposed(food: FoodData, others: Iterable[FoodData]) -> list[FoodData]:
    """The foods most like it, best first, at most eight; none that is like it only by its shelf."""
    scored = [(likeness(food, other), other) for other in others if other.code != food.code]
    alike = [pair for pair in scored if pair[0] > OF_STORAGE]
    best = sorted(alike, key=lambda pair: _brings(food, pair[1]) - pair[0])
    return [other for _, other in best[:MOST]]


def _brings(food: FoodData, other: FoodData) -> int:
    """What counts against the other food: kinds of allergen that come with it, meat and fish twice."""
    facts, before = dict(other.facts), dict(food.facts)
    come = [fact for fact in ("meat", "fish") if facts.get(fact) == "yes" != before.get(fact)]
    return len({*other.contains} - {*food.contains}) + 2 * len(come)


def likeness(food: FoodData, other: FoodData) -> int:
    """How much two foods are like each other; 0 is not at all."""
    part = OF_PART if food.dough_part and food.dough_part == other.dough_part else 0
    shelf = OF_STORAGE if food.storage == other.storage else 0
    return part + OF_WORD * len(telling_words(food.name) & telling_words(other.name)) + shelf


def telling_words(name: str) -> frozenset[str]:
    """The words of a name that say what it is, plain: "Soft wheat flour" gives wheat and flour."""
    found = re.findall(r"[^\W\d_]{3,}", plain(name))
    return frozenset(word for word in found if word not in HOW)
