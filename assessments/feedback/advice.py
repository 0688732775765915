"""From marks and faults seen to words a learner can cook by: Seen, Why, Do, and what it moves.

For each mark below the standard a piece of advice is drafted; the lecturer edits it. The
words are about the plate and the work at the bench, never about the person. A technique
below the standard needs the cue that was missed, a cause and one remedy before it is
handed back; ``lacks`` says what is still wanting.

Worked example: blind baking 1 of 3 at 7.5 points, the fault "The base is soggy" chosen.
Seen: The base is soggy. Why: the fault's cause. Do: its remedy. Wait for: the technique's
cue. One step up, from 1 to 2 of 3, moves 7.5 / 3 = 2.5 points.
"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from assessments.schemes.card import Card
from assessments.schemes.content import JUDGED_KINDS, MET_KINDS, CriterionContent, SchemeContent
from assessments.schemes.figures import plain, points

#: Words about a person, which do not belong in feedback about a plate (common practice, no source).
ABOUT_THE_PERSON = re.compile(
    r"\b(lazy|careless|stupid|clumsy|sloppy|useless|hopeless|incompetent|bad attitude|not trying|"
    r"you are (?:not )?(?:good|bad|weak|slow|talented)|good effort|good boy|good girl)\b",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class FaultKnown:
    """A fault of the college's catalogue: what is seen, why it happens, the one remedy."""

    code: str
    technique: str
    seen: str
    cause: str
    remedy: str


@dataclass(frozen=True, slots=True)
class TechniqueKnown:
    """A technique with the cue by which success is seen."""

    code: str
    name: str
    cue: str


@dataclass(frozen=True, slots=True)
class Advice:
    """One piece of feedback about one mark.

    ``given`` is the mark in words ("1 of 3", "not yet met"); ``milli`` and ``most`` its value
    in thousandths of a step and the highest step; ``kind`` is practise or well. ``cue`` is
    what to wait for, ``moves`` what one step more is worth, ``again`` the next planned
    lesson that practises it.
    """

    place: str
    name: str
    technique: str
    given: str
    kind: str
    milli: int
    most: int
    seen: str = ""
    why: str = ""
    do: str = ""
    cue: str = ""
    moves: str = ""
    again: str = ""


def standard_of(criterion: CriterionContent) -> Fraction:
    """The step from which a mark meets the standard: 2 of 3, 6 of 10 ("good"), met.

    Common practice, no source: the ladders of the college say "meets the standard" at 2 of 3
    and "good" at 6 of 10; other scales take the step at six tenths, rounded up.
    """
    if criterion.kind in MET_KINDS:
        return Fraction(1)
    return Fraction(-(-criterion.scale_maximum * 6 // 10))


def drafted(
    scheme: SchemeContent,
    card: Card,
    seen: Mapping[str, tuple[str, ...]],
    faults: Mapping[str, FaultKnown],
    techniques: Mapping[str, TechniqueKnown],
) -> tuple[Advice, ...]:
    """A draft for every judged mark of a card, the weakest first.

    ``seen`` holds the fault codes tapped for each place ("technique.blind_baking").
    """
    made = []
    for criterion in scheme.criteria:
        if criterion.kind not in JUDGED_KINDS and criterion.kind not in MET_KINDS:
            continue
        for subject in card.subjects if criterion.by_technique else (None,):
            code = subject.code if subject else ""
            values = card.values(criterion.code, code)
            if not values:
                continue
            value = sum(values, Fraction(0)) / len(values)
            place = f"{criterion.code}.{code}" if code else criterion.code
            known = [faults[each] for each in seen.get(place, ()) if each in faults]
            name = subject.name if subject else criterion.name
            made.append(_one(criterion, place, name, value, known, techniques.get(code)))
    return tuple(sorted(made, key=lambda advice: Fraction(advice.milli, advice.most)))


def _one(
    criterion: CriterionContent,
    place: str,
    name: str,
    value: Fraction,
    known: list[FaultKnown],
    technique: TechniqueKnown | None,
) -> Advice:
    most = criterion.scale_maximum or 1
    below = value < standard_of(criterion)
    advice = Advice(
        place=place,
        name=name,
        technique=technique.code if technique else "",
        given=_given(criterion, value),
        kind="practise" if below or known else "well",
        milli=round(value * 1000),
        most=most,
        seen=" ".join(_sentence(fault.seen) for fault in known) or _rung_words(criterion, value),
        cue=_sentence(technique.cue) if technique else "",
    )
    if advice.kind == "well":
        return advice
    return replace(
        advice,
        why=" ".join(_sentence(fault.cause) for fault in known),
        do=" ".join(_sentence(fault.remedy) for fault in known) or _next_rung(criterion, value, technique),
        moves=_moves(criterion, name, value),
    )


def _given(criterion: CriterionContent, value: Fraction) -> str:
    if criterion.kind in MET_KINDS:
        return "met" if value >= 1 else "not yet met"
    return f"{plain(value)} of {criterion.scale_maximum}"


def _rung_words(criterion: CriterionContent, value: Fraction) -> str:
    """The descriptor of the step reached, as it stands in the scheme."""
    reached = [rung.words for rung in criterion.ladder if rung.mark <= value]
    return reached[-1] if reached else ""


def _next_rung(criterion: CriterionContent, value: Fraction, technique: TechniqueKnown | None) -> str:
    """Without a fault: the cue of the technique, or what the next step of the ladder asks."""
    if technique:
        return f"Work to the cue: {_sentence(technique.cue)}"
    above = [rung for rung in criterion.ladder if rung.mark > value]
    return f"To reach {above[0].mark}: {_inside(above[0].words)}" if above else ""


def _moves(criterion: CriterionContent, name: str, value: Fraction) -> str:
    if criterion.kind in MET_KINDS:
        return f"This moves {_inside(name)} from not yet met to met." if value < 1 else ""
    if value >= criterion.scale_maximum:
        return ""
    worth = criterion.milli_points_per_technique if criterion.by_technique else criterion.milli_points or 0
    step = (value.numerator // value.denominator) + 1
    gained = (step - value) * worth / criterion.scale_maximum
    noun = "point" if gained == 1000 else "points"
    return f"This moves {_inside(name)} from {plain(value)} to {step}: {points(gained)} {noun}."


def lacks(advice: Advice) -> tuple[str, ...]:
    """What a piece of advice still needs before it can be handed back, in words."""
    if advice.kind != "practise":
        return ()
    wanting = []
    if not advice.seen.strip():
        wanting.append(f"{advice.name}: say what was seen.")
    if advice.technique and not advice.why.strip():
        wanting.append(f"{advice.name}, {advice.given}: choose a fault or write why it happened.")
    if not advice.do.strip():
        wanting.append(f"{advice.name}: say what to do next time.")
    return tuple(wanting)


def about_the_person(words: str) -> str:
    """The first word that is about the person and not about the plate; empty when there is none."""
    match = ABOUT_THE_PERSON.search(words)
    return match.group(0) if match else ""


def next_time(advice: Iterable[Advice]) -> str:
    """The one sentence for the top of the page: the first action of the weakest mark.

    A mark with a known cause comes before one whose step is only quoted from the ladder.
    """
    practise = [each for each in advice if each.kind == "practise"]
    for each in sorted(practise, key=lambda each: not each.why):
        if each.do:
            first = re.split(r"(?<=[.;])\s", each.do, maxsplit=1)[0].rstrip(".;")
            return f"Next time, {_inside(each.name)}: {_inside(first)}."
    return "Next time: keep to the cues, and take on the next technique."


def _sentence(words: str) -> str:
    """A phrase of the catalogue as a sentence."""
    words = words.strip()
    if not words:
        return ""
    words = words[:1].upper() + words[1:]
    return words if words.endswith((".", "?")) else f"{words}."


def _inside(words: str) -> str:
    """A name or phrase as it stands inside a sentence."""
    return words[:1].lower() + words[1:]
