"""Schemes of the demonstration college and cards of marks, for tests that need arithmetic.

``college_scheme("hundred_points")`` is a whole SchemeContent; ``scheme_json`` its kept JSON
(a copy: change it freely); ``card`` builds a card from plain figures.
"""

from copy import deepcopy
from fractions import Fraction

from assessments.schemes.card import Card, Mark, Subject, Targets
from assessments.schemes.content import SchemeContent, read_scheme
from tests.builders.recipes import fixture

SCHEME_CODES = ("hundred_points", "competence", "judges_and_measures")

#: The quiche: a wedge of 140 g, eight of them, served at 45 to 50 °C.
QUICHE = Targets(
    portion_milligrams=140_000, portions=8, serve_low_decicelsius=450, serve_high_decicelsius=500
)


def scheme_json(code: str) -> dict:
    """The kept content (shape 1) of a scheme of the college, as a copy."""
    for each in fixture("schemes.json")["schemes"]:
        if each["code"] == code:
            return {**deepcopy(each), "shape": 1}
    raise KeyError(code)


def college_scheme(code: str, **changed: object) -> SchemeContent:
    """A scheme of the college, read; ``changed`` replaces fields of its JSON."""
    return read_scheme({**scheme_json(code), **changed})


def techniques(number: int) -> tuple[Subject, ...]:
    """So many made-up techniques of a brief."""
    return tuple(Subject(f"t{each}", f"Technique {each}") for each in range(1, number + 1))


def card(
    *,
    by_technique: dict[str, list] | None = None,
    judged: dict[str, list] | None = None,
    targets: Targets = QUICHE,
    allowed: Fraction | int = 165,
    **marks: object,
) -> Card:
    """A card: single marks by criterion, lists by technique, lists of judges' marks."""
    given = [Mark(code, Fraction(str(value))) for code, value in marks.items() if value is not None]
    subjects: tuple[Subject, ...] = ()
    for code, values in (by_technique or {}).items():
        subjects = techniques(len(values))
        given += [
            Mark(code, Fraction(value), subject=subject.code)
            for subject, value in zip(subjects, values, strict=True)
            if value is not None
        ]
    for code, values in (judged or {}).items():
        given += [Mark(code, Fraction(value), judge=number) for number, value in enumerate(values, 1)]
    return Card(tuple(given), subjects, targets, Fraction(allowed))
