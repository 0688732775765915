"""A demonstration in words: when each thing is made, how long it keeps, what to ask the class.

For the demonstration's page and its sheet. ``at`` is the minute of the day from which its minutes
count (09:15 is 555), None while nobody knows it: then no time of day is said.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from curriculum import wording
from curriculum.recipes.data import RecipeData, StepData
from kitchen.timeplan.demonstration_data import Ahead, Demonstration, Stage

WAYS = {"live": "Live", "swapped": "Live, then the finished one", "stage_tray": "Stage tray"}
#: From so many minutes on it may be made the day before: the evening to the end of the next morning.
#: Common practice, no source.
OVER_NIGHT = 18 * 60
#: Nobody begins before this minute of the day. Common practice, no source.
FIRST_HOUR = 7 * 60
#: Nobody watches hands for longer without a word. Common practice, no source.
LONGEST_SILENCE = 3
#: So many faults are shown beside the one that is asked about.
FAULTS_SHOWN = 2


@dataclass(frozen=True, slots=True)
class FaultWords:
    """One fault of a technique: what is seen, why, and what helps."""

    seen: str
    cause: str
    remedy: str


@dataclass(frozen=True, slots=True)
class StageWords:
    """One stage as it is shown: clock, title, cue, question with its answer, what comes in.

    ``points`` are what to tell while the hands work, ``faults`` what to show gone wrong.
    """

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
    points: tuple[str, ...] = ()
    faults: tuple[str, ...] = ()

    @property
    def is_silent(self) -> bool:
        """Whether the hands work longer than anybody should be silent, and nothing is there to tell."""
        return self.minutes > LONGEST_SILENCE and not (self.points or self.question or self.cue)


@dataclass(frozen=True, slots=True)
class AheadWords:
    """One thing made before: what, of which components, when, how long it keeps."""

    title: str
    components: str
    when: str
    keeps: str
    minutes: int
    use: str


def stage_words(
    stage: Stage,
    at: int | None,
    faults: Mapping[str, Sequence[FaultWords]],
    points: tuple[str, ...] = (),
    plates: Mapping[int, str] | None = None,
) -> StageWords:
    """A stage in words; ``faults`` are those of each technique by code, ``plates`` of the trays by step.

    The question is of the last technique that has one: what is particular to a step stands last.
    """
    known = [each for code in reversed(stage.techniques) for each in faults.get(code, ())]
    fault = known[0] if known else None
    return StageWords(
        clock="" if at is None else wording.clock_minutes(at + stage.starts),
        minutes=stage.minutes,
        step=stage.step,
        way=stage.way,
        way_words=WAYS[stage.way],
        words=stage.words,
        cue=stage.cue,
        caution=stage.caution,
        comes_in=_comes_in(stage, plates or {}),
        question=f"What has gone wrong when you see this: {_lowered(fault.seen)}?" if fault else "",
        answer=f"{wording.sentence(fault.cause)} {wording.sentence(fault.remedy)}" if fault else "",
        points=points,
        faults=tuple(wording.sentence(each.seen) for each in known[1 : 1 + FAULTS_SHOWN]),
    )


def keeps_of(recipe: RecipeData, position: int) -> int | None:
    """Minutes for which what a step gives keeps: the shortest of all that take it up; None for no limit."""
    longest = [
        after.longest_minutes for step in recipe.steps for after in step.after if after.needs == position
    ]
    return min((each for each in longest if each is not None), default=None)


def key_points(step: StepData, keeps: int | None) -> tuple[str, ...]:
    """What to tell about a step while it is worked: figures to watch, oven, how long it keeps."""
    target = wording.temperature_range(step.target_low_decicelsius, step.target_high_decicelsius)
    core = wording.temperature_range(step.core_decicelsius, step.core_most_decicelsius)
    heats = [stay for stay in step.stays if stay.decicelsius is not None]
    told = [
        wording.sentence(f"{step.target_of or 'temperature'} {target}") if target else "",
        f"Core {core}." if core else "",
        f"{', then '.join(f'{wording.temperature(s.decicelsius or 0)} for {s.minutes} min' for s in heats)}."
        if heats
        else "",
        "The door stays shut." if any(stay.door != "may_open" for stay in step.stays) else "",
        f"Taken up within {wording.duration(keeps)}." if keeps is not None and keeps < OVER_NIGHT else "",
        "Nobody does this alone: stand beside it." if step.supervised else "",
    ]
    return tuple(each for each in told if each)


def _comes_in(stage: Stage, plates: Mapping[int, str]) -> str:
    steps = [
        f"{plates[each]} (step\xa0{each})" if each in plates else f"step\xa0{each}"
        for each in dict.fromkeys(stage.brings_in)
    ]
    if not steps:
        return ""
    when = " at the end" if stage.way == "swapped" and stage.brings_in == (stage.step,) else ""
    return f"Comes in finished{when}: {wording.listed(steps)}."


def _lowered(words: str) -> str:
    text = words.strip().rstrip(".")
    return text[:1].lower() + text[1:]


def ahead_words(thing: Ahead, at: int | None, components: Mapping[str, str]) -> AheadWords:
    """One thing made before in words; ``components`` are names by code."""
    steps = wording.sentence(_steps(thing.steps))
    return AheadWords(
        title=f"As far as {'the wait of ' if thing.waited_only else ''}step {thing.step}",
        components=wording.listed(components.get(code, code) for code in thing.components),
        when=_when(thing, at),
        keeps=keeps_words(thing.keeps_minutes),
        minutes=thing.own_minutes,
        use=f"{steps} {_use(thing, at)}",
    )


def _use(thing: Ahead, at: int | None) -> str:
    if at is None:
        return "Shown to the class." if thing.is_shown else "On the table, not shown by itself."
    clock = wording.clock_minutes(at + thing.needed_at)
    return f"Shown at {clock}." if thing.is_shown else f"On the table at {clock}, not shown by itself."


def _when(thing: Ahead, at: int | None) -> str:
    takes = f"it takes {wording.duration(thing.whole_minutes)} with its waits"
    keeps = thing.keeps_minutes
    if at is None:
        early = f"finished at most {wording.duration(keeps)} before it is wanted" if keeps else "made before"
        return wording.sentence(f"{early}; {takes}")
    ready = wording.clock_minutes(at + thing.needed_at)
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


def difference(before: Demonstration, after: Demonstration) -> str:
    """What another demonstration takes beside the one before, in sentences; "" when it is the same."""
    counted = [{each.code: each for each in plan.batches} for plan in (before, after)]
    told = []
    for code in dict.fromkeys([*counted[0], *counted[1]]):
        old, new = ((each[code].ahead + each[code].live if code in each else 0) for each in counted)
        if old != new:
            name = (counted[1].get(code) or counted[0][code]).name.lower()
            was, now = (wording.number(each) if each else "none" for each in (old, new))
            told.append(f"{name} {now} in place of {was}")
    if not told and _made(before) == _made(after):
        return ""
    batches = f"Batches: {wording.listed(told)}. " if told else "The trays are made to other steps. "
    return f"{batches}Kits and a requisition made for the one before no longer fit; the stores see why."


def _made(plan: Demonstration) -> list[tuple[int, bool]]:
    return [(each.step, each.waited_only) for each in plan.ahead]


def summary(plan: Demonstration) -> str:
    """One sentence on a plan."""
    live = sum(stage.way != "stage_tray" for stage in plan.stages)
    return (
        f"{wording.counted_words(live, 'step', 'steps')} live, "
        f"{wording.counted_words(plan.trays, 'thing', 'things')} made before, "
        f"{wording.duration(plan.preparation_minutes)} of hands to prepare."
    ).capitalize()
