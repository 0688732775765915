"""A bench's own recipe sheet: its portions, its variant, its adjustments, what was done before.

For the learner's page on the phone and for the printed sheet, which are made from the same
``BenchSheet``. Plain data in, plain data out. Extra time lengthens the minutes at work: 8 min
with a quarter more are 10; a part of a minute counts as a whole one. Waits stay as they are.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from curriculum import wording
from curriculum.recipes.data import RecipeData, StepData
from curriculum.recipes.page import RecipePage, page_of
from curriculum.recipes.portion_minutes import steps_for
from curriculum.recipes.step_words import StepWords
from curriculum.recipes.weigh_words import ComponentWords

CAUTION_SOURCE = (
    "Source: your college’s own risk assessment. Follow it, and what your lecturer says, where they differ."
)
CAUTIONS_AT_STEPS = "Cautions stand at their steps."


@dataclass(frozen=True, slots=True)
class BenchFacts:
    """What a bench adds to a recipe.

    ``names`` as they are shown or printed; ``when`` and ``where`` in words; ``ahead_steps`` are
    positions of steps done before the lesson; ``extra_percent`` is extra time, 0 for none;
    ``adjustments`` are other ones in words. ``name_note`` says in words which name is not printed whole.
    """

    plate: str
    names: tuple[str, ...]
    portions: int
    when: str = ""
    where: str = ""
    ahead_steps: tuple[int, ...] = ()
    large_print: bool = False
    extra_percent: int = 0
    adjustments: tuple[str, ...] = ()
    name_note: str = ""


@dataclass(frozen=True, slots=True)
class BenchComponent:
    """One component to weigh, or prepared before the lesson."""

    words: ComponentWords
    is_prepared: bool


@dataclass(frozen=True, slots=True)
class BenchStep:
    """One step; ``extra`` says the minutes with extra time, ``is_done`` that it was done before."""

    words: StepWords
    is_done: bool
    extra: str = ""


@dataclass(frozen=True, slots=True)
class BenchSheet:
    """The whole sheet of one bench, in words.

    ``cautions`` are those of the dish; those of a step stand at the step.
    """

    title: str
    plate: str
    names: tuple[str, ...]
    facts: str
    free_from: str
    page: RecipePage
    components: tuple[BenchComponent, ...]
    steps: tuple[BenchStep, ...]
    large_print: bool = False
    adjustments: tuple[str, ...] = ()
    presentation: str = ""
    serve: str = ""
    cautions: tuple[str, ...] = ()
    name_note: str = ""
    source: str = field(default=CAUTION_SOURCE)


def bench_sheet(recipe: RecipeData, bench: BenchFacts, techniques: Mapping[str, str]) -> BenchSheet:
    """The sheet of a bench; ``techniques`` gives names by code. RuleBroken for portions that are none."""
    page = page_of(recipe, techniques, {}, bench.portions)
    steps = {step.position: step for step in steps_for(recipe, bench.portions)}
    return BenchSheet(
        title=recipe.title,
        plate=bench.plate,
        names=bench.names,
        facts=_facts(recipe, bench),
        free_from=f"FREE FROM {', '.join(page.free_from).upper()}: this bench" if page.free_from else "",
        page=page,
        components=tuple(
            BenchComponent(each, _is_prepared(recipe, each.code, bench)) for each in page.components
        ),
        steps=tuple(
            BenchStep(each, each.position in bench.ahead_steps, _extra(steps[each.position], bench))
            for each in page.steps
        ),
        large_print=bench.large_print,
        adjustments=tuple(_adjustments(bench)),
        presentation=recipe.presentation,
        serve=_serve(recipe),
        cautions=tuple(_cautions(page)),
        name_note=bench.name_note,
    )


def _facts(recipe: RecipeData, bench: BenchFacts) -> str:
    unit = recipe.unit or "portion"
    said = [f"Bench {bench.plate}", wording.listed(bench.names)]
    first = f"{', '.join(words for words in said if words)}."
    portions = wording.counted(bench.portions, unit) if unit.count(" ") == 0 else f"{bench.portions} × {unit}"
    where = ", ".join(words for words in (bench.when, bench.where) if words)
    return " ".join(words for words in (first, f"{portions}.", f"{where}." if where else "") if words)


def _is_prepared(recipe: RecipeData, code: str, bench: BenchFacts) -> bool:
    """Whether the first step that uses a component was done before the lesson."""
    uses = [step.position for step in recipe.steps if code in step.components]
    return bool(uses) and min(uses) in bench.ahead_steps


def _cautions(page: RecipePage) -> list[str]:
    """Cautions of the whole dish, and where the others stand; each is said once."""
    at_steps = " ".join(step.caution for step in page.steps)
    of_dish = [words for words in page.cautions if words not in at_steps]
    return [
        *of_dish,
        *(["Other cautions stand at their steps." if of_dish else CAUTIONS_AT_STEPS] * bool(at_steps)),
    ]


def _extra(step: StepData, bench: BenchFacts) -> str:
    """Minutes at work with extra time, by each way of the step."""
    if not bench.extra_percent or not step.active_minutes:
        return ""
    ways = [(way.name if len(step.ways) > 1 else "", _longer(way.active_minutes, bench)) for way in step.ways]
    said = [f"{minutes} at work by {name}" if name else f"{minutes} at work" for name, minutes in ways]
    return f"With your extra time {', '.join(said)}."


def _longer(minutes: int, bench: BenchFacts) -> str:
    return wording.duration(-(-minutes * (100 + bench.extra_percent) // 100))


def _adjustments(bench: BenchFacts) -> list[str]:
    extra = [f"Extra time of {bench.extra_percent} % is agreed."] if bench.extra_percent else []
    return [*extra, *(wording.sentence(each) for each in bench.adjustments)]


def _serve(recipe: RecipeData) -> str:
    served = wording.temperature_range(recipe.serve_low_decicelsius, recipe.serve_high_decicelsius)
    plate = "" if recipe.plate_decicelsius is None else wording.temperature(recipe.plate_decicelsius)
    said = [f"Served at {served}" if served else "", f"plate at {plate}" if plate else ""]
    return wording.sentence(", ".join(each for each in said if each))
