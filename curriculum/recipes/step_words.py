"""The steps of a recipe in words: the deed, its minutes and heat, its ways, its faults.

For the recipe page, the writing page, the sheets. A step that has a machine way and a hand
way shows both with their minutes and with the least and the most that one load takes; the
faults are those of the techniques that the step trains.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from curriculum import wording
from curriculum.recipes.data import StayData, StepData, WayData
from curriculum.recipes.reach import batch_of
from curriculum.recipes.scaling import ScaledRecipe
from curriculum.techniques.entries import FaultEntry

PLACES = {
    "oven": "oven",
    "ring": "ring",
    "chiller": "chiller",
    "blast_chiller": "blast chiller",
    "cool_cabinet": "cool cabinet",
    "prover": "prover",
    "freezer": "freezer",
    "mixer": "mixer",
    "food_processor": "food processor",
    "torch_station": "torch station",
    "pass": "pass",
    "fryer": "fryer",
    "bench": "bench",
}
#: Trained by every dish: their faults are not printed with each.
EVERYDAY = frozenset(("mise_en_place", "weighing"))
DOORS = {"may_open": "", "shut": "the door stays shut", "off_and_shut": "heat off, door shut"}


@dataclass(frozen=True, slots=True)
class WayWords:
    """One way of a step: "By machine, mixer", its minutes, what one load takes, how."""

    name: str
    minutes: str
    load: str
    words: str

    @property
    def said(self) -> str:
        """In sentences: "By hand: 14 min. Whisk over ice."."""
        load = f" One load takes {self.load}." if self.load else ""
        return f"{self.name}: {self.minutes}.{load} {self.words}".strip()


@dataclass(frozen=True, slots=True)
class FaultsWords:
    """The faults of one technique.

    On paper they stand once, at the first step that trains it, and not those of every dish.
    """

    code: str
    name: str
    faults: tuple[FaultEntry, ...]
    is_printed: bool


@dataclass(frozen=True, slots=True)
class StepWords:
    """One step: the deed, the cue, minutes, core, other heat and order, ways, faults, caution.

    ``ways`` is empty where there is only one; ``care`` says who watches.
    """

    position: int
    words: str
    cue: str
    times: str
    core: str
    watch: str
    techniques: tuple[tuple[str, str], ...]
    caution: str
    care: tuple[str, ...]
    ways: tuple[WayWords, ...] = ()
    faults: tuple[FaultsWords, ...] = ()

    @property
    def meta(self) -> str:
        """Minutes, heat, core and order in one paragraph, for the sheets."""
        return " ".join(words for words in (self.times, self.core, self.watch) if words)

    @property
    def points(self) -> tuple[str, ...]:
        """Who watches, and the other ways as sentences, for the sheets."""
        return (*self.care, *(way.said for way in self.ways[1:]))

    @property
    def prints_faults(self) -> bool:
        """Whether any of its faults stand on paper."""
        return any(each.is_printed for each in self.faults)

    @property
    def has_load(self) -> bool:
        """Whether any way says what one load takes."""
        return any(way.load for way in self.ways)


def steps_words(
    steps: tuple[StepData, ...],
    names: Mapping[str, str],
    faults: Mapping[str, tuple[FaultEntry, ...]],
    scaled: ScaledRecipe,
) -> tuple[StepWords, ...]:
    """Every step; ``names`` and ``faults`` are by the code of a technique."""
    seen: set[str] = set()
    made = []
    for step in steps:
        made.append(_step(step, names, faults, seen, scaled))
        seen.update(step.techniques)
    return tuple(made)


def _step(
    step: StepData,
    names: Mapping[str, str],
    faults: Mapping[str, tuple[FaultEntry, ...]],
    seen: set[str],
    scaled: ScaledRecipe,
) -> StepWords:
    named = tuple((code, names.get(code, code.replace("_", " "))) for code in step.techniques)
    return StepWords(
        step.position,
        step.words,
        step.cue,
        times=_sentences(_times(step)),
        core=_sentences(_core(step)),
        watch=_sentences(_watch(step)),
        techniques=named,
        caution=step.caution,
        care=tuple(_care(step)),
        ways=tuple(_way(way, step, scaled) for way in step.ways) if len(step.ways) > 1 else (),
        faults=tuple(
            FaultsWords(code, name, faults[code], code not in seen | EVERYDAY)
            for code, name in named
            if faults.get(code)
        ),
    )


def _sentences(parts: list[str]) -> str:
    return " ".join(wording.sentence(part) for part in parts)


def _care(step: StepData) -> list[str]:
    said = ["Only with the lecturer beside."] if step.supervised else []
    said += ["Shown first."] if step.shown_first else []
    return said + (["Looked at by the lecturer before going on."] if step.checked_by_lecturer else [])


def _way(way: WayData, step: StepData, scaled: ScaledRecipe) -> WayWords:
    place = "" if way.at == "bench" else f", {PLACES.get(way.at, way.at)}"
    return WayWords(
        f"By {way.name}{place}", wording.duration(way.active_minutes), _load(way, step, scaled), way.words
    )


def _load(way: WayData, step: StepData, scaled: ScaledRecipe) -> str:
    """What one load takes, and that this batch is outside it: "at least 374.4 g"."""
    least, most = way.least_milligrams, way.most_milligrams
    if least is None and most is None:
        return ""
    if least is not None and most is not None:
        said = wording.amount_range(least, most)
    else:
        said = f"at most {wording.amount(most)}" if least is None else f"at least {wording.amount(least)}"
    batch = batch_of(step, scaled)
    outside = (least is not None and batch < least) or (most is not None and batch > most)
    return f"{said}; this batch of {wording.amount(batch)} is outside it" if outside else said


def _times(step: StepData) -> list[str]:
    parts = []
    if step.active_minutes:
        each = step.ways[0].portion_seconds
        of_it = f" ({wording.seconds(each)} of it for each portion)" if each else ""
        parts.append(f"{wording.duration(step.active_minutes)} at work{of_it}")
    if step.waiting_minutes:
        parts.append(f"{wording.duration(step.waiting_minutes)} waiting{' first' if step.wait_first else ''}")
    return [*([", ".join(parts)] if parts else []), *_stays(step)]


def _core(step: StepData) -> list[str]:
    if step.core_decicelsius is None:
        return []
    held = f", held {wording.seconds(step.core_seconds)}" if step.core_seconds else ""
    return [f"core {wording.temperature_range(step.core_decicelsius, step.core_most_decicelsius)}{held}"]


def _watch(step: StepData) -> list[str]:
    """Another temperature, then what comes before."""
    target = wording.temperature_range(step.target_low_decicelsius, step.target_high_decicelsius)
    said = [f"{step.target_of} {target}"] if step.target_of and target else []
    return said + [_after(each.needs, each.least_minutes, each.longest_minutes) for each in step.after]


def _stays(step: StepData) -> list[str]:
    """The stays in words; a single one without its minutes, which stand before it."""
    if len(step.stays) != 1:
        return [stay_words(stay) for stay in step.stays]
    stay = step.stays[0]
    said_below = step.target_of != "" and step.target_of == stay.appliance_kind
    plain = stay.appliance_kind is None and stay.decicelsius is None
    return [] if said_below or plain else [stay_words(stay).rpartition(", ")[0]]


def stay_words(stay: StayData) -> str:
    """Where the food stays: "oven, 180 °C fan, 25 min"."""
    place = PLACES.get(stay.appliance_kind or "bench", stay.appliance_kind or "bench")
    parts = [place]
    if stay.decicelsius is not None:
        parts.append(f"{wording.temperature(stay.decicelsius)} {stay.heat}".strip())
    if DOORS[stay.door]:
        parts.append(DOORS[stay.door])
    return ", ".join([*parts, wording.duration(stay.minutes)])


def _after(needs: int, least: int, longest: int | None) -> str:
    limits = [f"at least {wording.duration(least)} later"] if least else []
    limits += [f"within {wording.duration(longest)}"] if longest is not None else []
    return f"after step {needs}" + (f" ({', '.join(limits)})" if limits else "")
