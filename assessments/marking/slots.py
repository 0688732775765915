"""What there is to mark: one slot for each mark, in the order in which a bench is walked.

For the page at the bench, for what a sheet still lacks and for what an entry may be. A
slot is a criterion, or a criterion with one technique or one critical line under it.
"""

from dataclasses import dataclass
from fractions import Fraction

from assessments.schemes.card import Subject, Targets
from assessments.schemes.conditions import CORE, UNSAFE
from assessments.schemes.content import (
    JUDGED_KINDS,
    MET_KINDS,
    CriterionContent,
    RuleContent,
    Rung,
    SchemeContent,
)
from assessments.schemes.figures import count, plain, points
from assessments.schemes.measures import no_target, unit_of, window_minutes

#: How a slot is marked.
RUNGS, RULER, MET, MEASURE, CLOCK, CORE_READING, STOP = (
    "rungs",
    "ruler",
    "met",
    "measure",
    "clock",
    "core",
    "stop",
)
#: Ladders up to this many steps are shown as rungs with their words, longer ones as a ruler.
RUNGS_AT_MOST = 5


@dataclass(frozen=True, slots=True)
class Slot:
    """One thing to mark. ``unit`` is that of a typed figure, ``most`` the highest it may be.

    ``asks`` says what is wanted, ``worth`` what it earns at most, both in words;
    ``needed`` is False for what is only recorded when it happens.
    """

    criterion: str
    subject: str
    name: str
    control: str
    kind: str
    unit: str = ""
    most: int = 0
    ladder: tuple[Rung, ...] = ()
    asks: str = ""
    worth: str = ""
    needed: bool = True

    @property
    def place(self) -> str:
        """A name for the slot in addresses and on the page: "technique.blind_baking"."""
        return f"{self.criterion}.{self.subject}" if self.subject else self.criterion


def slots(
    scheme: SchemeContent, subjects: tuple[Subject, ...], targets: Targets, *, judge: int = 1
) -> tuple[Slot, ...]:
    """Every slot of one marker's sheet. Judges after the first mark only what is judged."""
    found: list[Slot] = []
    for criterion in scheme.criteria:
        if judge > 1 and scheme.assessors > 1 and criterion.kind != "judged":
            continue
        found += _of_criterion(criterion, subjects, targets)
        if criterion.critical:
            found += _stops(criterion, scheme)
    if judge == 1 or scheme.assessors == 1:
        found += [_core(rule, targets) for rule in scheme.events() if _needs_core(rule, targets)]
    return tuple(found)


def slot_at(place: str, among: tuple[Slot, ...]) -> Slot | None:
    """The slot of that place, or None."""
    return next((slot for slot in among if slot.place == place), None)


def _of_criterion(criterion: CriterionContent, subjects: tuple[Subject, ...], targets: Targets) -> list[Slot]:
    if criterion.by_technique:
        return [_judged(criterion, subject) for subject in subjects]
    if criterion.kind in JUDGED_KINDS or criterion.kind in MET_KINDS:
        return [_judged(criterion, None)]
    if criterion.is_clock:
        return [_clock(criterion)]
    return [] if no_target(criterion, targets) else [_measure(criterion, targets)]


def _judged(criterion: CriterionContent, subject: Subject | None) -> Slot:
    met = criterion.kind in MET_KINDS
    rungs = criterion.scale_maximum <= RUNGS_AT_MOST
    worth = criterion.milli_points_per_technique if criterion.by_technique else criterion.milli_points
    return Slot(
        criterion=criterion.code,
        subject=subject.code if subject else "",
        name=subject.name if subject else criterion.name,
        control=MET if met else RUNGS if rungs else RULER,
        kind=criterion.kind,
        most=1 if met else criterion.scale_maximum,
        ladder=criterion.ladder,
        asks=criterion.name if subject else criterion.note,
        worth=f"{points(worth)} points" if worth else "",
    )


def _clock(criterion: CriterionContent) -> Slot:
    window = ""
    if criterion.tolerance:
        window = f", in the {count(window_minutes(criterion), 'minute')} up to the deadline"
    return Slot(
        criterion=criterion.code,
        subject="",
        name=criterion.name,
        control=CLOCK,
        kind=criterion.kind,
        unit="time",
        asks=f"When the plate was presented at the pass{window}.",
        worth=f"{points(criterion.milli_points or 0)} points",
    )


def _measure(criterion: CriterionContent, targets: Targets) -> Slot:
    return Slot(
        criterion=criterion.code,
        subject="",
        name=criterion.name,
        control=MEASURE,
        kind=criterion.kind,
        unit=unit_of(criterion),
        most=_highest(criterion),
        asks=_target_words(criterion, targets),
        worth=f"{points(criterion.milli_points or 0)} points",
    )


def _highest(criterion: CriterionContent) -> int:
    """The largest figure that is believed: 300 °C, 500 pieces, 20 kg."""
    return {"°C": 300, "pieces": 500}.get(unit_of(criterion), 20_000)


def _target_words(criterion: CriterionContent, targets: Targets) -> str:
    kind = criterion.tolerance[0].kind
    if kind == "within_per_mille":
        return f"The target is {plain(Fraction(targets.portion_milligrams or 0, 1000))} g."
    if kind == "missing_pieces":
        return f"The dish gives {count(targets.portions or 0, 'piece')}."
    if kind == "outside_by_decicelsius":
        low = plain(Fraction(targets.serve_low_decicelsius or 0, 10))
        high = plain(Fraction(targets.serve_high_decicelsius or 0, 10))
        return f"Served at {low} to {high} °C, measured in the food."
    return "Weigh what was thrown away."


def _stops(line: CriterionContent, scheme: SchemeContent) -> list[Slot]:
    """What ends the sitting stands beside the line it belongs to."""
    return [
        Slot(rule.code, line.code, line.name, STOP, "event", asks=rule.remark, needed=False)
        for rule in scheme.events()
        if rule.when == UNSAFE
    ]


def _needs_core(rule: RuleContent, targets: Targets) -> bool:
    return rule.when == CORE and bool(targets.core_decicelsius)


def _core(rule: RuleContent, targets: Targets) -> Slot:
    wanted = f"The dish asks for {plain(Fraction(targets.core_decicelsius or 0, 10))} °C in the middle"
    wanted += f" for {targets.core_seconds} seconds." if targets.core_seconds else "."
    return Slot(rule.code, "", "Core temperature", CORE_READING, "event", "°C", 300, asks=wanted)
