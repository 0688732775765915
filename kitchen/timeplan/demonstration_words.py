"""A demonstration in words: when each thing is made, how long it keeps, what to ask the class.

For the demonstration's page and its sheet. ``at`` is the minute of the day at which the
demonstration begins (09:15 is 555).
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from curriculum import wording
from kitchen.timeplan.demonstration import Ahead, Demonstration, Stage

WAYS = {"live": "Live", "swapped": "Live, then the finished one", "stage_tray": "Stage tray"}
#: From so many minutes on it may be made the day before: the evening to the end of the next morning.
#: Common practice, no source.
OVER_NIGHT = 18 * 60
#: Nobody begins before this minute of the day. Common practice, no source.
FIRST_HOUR = 7 * 60


@dataclass(frozen=True, slots=True)
class FaultWords:
    """One fault of a technique: what is seen, why, and what helps."""

    seen: str
    cause: str
    remedy: str


@dataclass(frozen=True, slots=True)
class StageWords:
    """One stage as it is shown: clock, title, cue, question with its answer, what comes in."""

    clock: str
    minutes: int
    step: int
    way: str
    way_words: str
    words: str
    cue: str
    caution: str
    comes_in: str
    question: str
    answer: str


@dataclass(frozen=True, slots=True)
class AheadWords:
    """One thing made before: what, of which components, when, how long it keeps."""

    title: str
    components: str
    when: str
    keeps: str
    minutes: int
    use: str


def stage_words(stage: Stage, at: int, faults: Mapping[str, Sequence[FaultWords]]) -> StageWords:
    """A stage in words; ``faults`` are those of each technique by its code.

    The question is of the last technique that has one: what is particular to a step stands last.
    """
    fault = next((each for code in reversed(stage.techniques) for each in faults.get(code, ())), None)
    return StageWords(
        clock=wording.clock_minutes(at + stage.starts),
        minutes=stage.minutes,
        step=stage.step,
        way=stage.way,
        way_words=WAYS[stage.way],
        words=stage.words,
        cue=stage.cue,
        caution=stage.caution,
        comes_in=_comes_in(stage),
        question=f"What has gone wrong when you see this: {_lowered(fault.seen)}?" if fault else "",
        answer=f"{wording.sentence(fault.cause)} {wording.sentence(fault.remedy)}" if fault else "",
    )


def _comes_in(stage: Stage) -> str:
    steps = [f"step\xa0{each}" for each in dict.fromkeys(stage.brings_in)]
    if not steps:
        return ""
    when = " at the end" if stage.way == "swapped" and stage.brings_in == (stage.step,) else ""
    return f"Comes in finished{when}: {wording.listed(steps)}."


def _lowered(words: str) -> str:
    text = words.strip().rstrip(".")
    return text[:1].lower() + text[1:]


def ahead_words(thing: Ahead, at: int, components: Mapping[str, str]) -> AheadWords:
    """One thing made before in words; ``components`` are names by code."""
    steps = wording.sentence(_steps(thing.steps))
    return AheadWords(
        title=f"As far as {'the wait of ' if thing.waited_only else ''}step {thing.step}",
        components=wording.listed(components.get(code, code) for code in thing.components),
        when=_when(thing, at),
        keeps=keeps_words(thing.keeps_minutes),
        minutes=thing.hands_minutes,
        use=f"{steps} {_use(thing, at)}",
    )


def _use(thing: Ahead, at: int) -> str:
    clock = wording.clock_minutes(at + thing.needed_at)
    return f"Shown at {clock}." if thing.is_shown else f"On the table at {clock}, not shown by itself."


def _when(thing: Ahead, at: int) -> str:
    ready = wording.clock_minutes(at + thing.needed_at)
    takes = f"it takes {wording.duration(thing.whole_minutes)} with its waits"
    keeps = thing.keeps_minutes
    if keeps is not None and keeps < OVER_NIGHT:
        earliest = at + (thing.ready_from or 0)
        if earliest < 0:
            return f"Finished by {ready}, at most {wording.duration(keeps)} before; {takes}."
        return f"Finished between {wording.clock_minutes(earliest)} and {ready}; {takes}."
    begun = at + thing.begun_by
    if begun < FIRST_HOUR:
        return f"Made the day before, ready by {ready}; {takes}."
    return f"Ready by {ready}: begun by {wording.clock_minutes(begun)}, or the day before; {takes}."


def keeps_words(minutes: int | None) -> str:
    """How long it keeps: "Keeps 24 h.", "Keeps 15 min."."""
    if minutes is None:
        return "No limit is written in the recipe."
    return f"Keeps {wording.duration(minutes)}."


def shown_words(plan: Demonstration) -> str:
    """Which steps are shown: "Steps 4 and 6 live, step 5 as a tray."."""
    live = sorted(stage.step for stage in plan.stages if stage.way != "stage_tray")
    trays = sorted(stage.step for stage in plan.stages if stage.way == "stage_tray")
    words = f"{_steps(live)} live" if live else "nothing live"
    if trays:
        words += f", {_steps(trays)} as {'a tray' if len(trays) == 1 else 'trays'}"
    return wording.sentence(words)


def _steps(positions: Sequence[int]) -> str:
    many = "" if len(positions) == 1 else "s"
    return f"step{many} {wording.listed(str(each) for each in positions)}"


def more_than_booked(plan: Demonstration, booked: int) -> str:
    """What is said where a plan takes more batches of a component than the lesson has for it, or ""."""
    most = max(plan.batches, key=lambda each: each.ahead + each.live, default=None)
    if most is None or most.ahead + most.live <= booked:
        return ""
    has = wording.counted_words(booked, "batch", "batches") if booked else "no batch"
    return (
        f"The lesson is booked with {has} to demonstrate, and these stages take "
        f"{wording.number(most.ahead + most.live)} of {most.name.lower()}. "
        "Ask the stores for the rest, or show fewer things finished."
    )


def summary(plan: Demonstration) -> str:
    """One sentence on a plan."""
    live = sum(stage.way != "stage_tray" for stage in plan.stages)
    return (
        f"{wording.counted_words(live, 'step', 'steps')} live, "
        f"{wording.counted_words(plan.trays, 'thing', 'things')} made before, "
        f"{wording.duration(plan.preparation_minutes)} of hands to prepare."
    ).capitalize()
