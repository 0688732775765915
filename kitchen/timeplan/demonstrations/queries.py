"""What the demonstration's pages read, and what the stores ask: batches made before."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from curriculum.people.queries import the_college, today_at
from curriculum.recipes.data import RecipeData
from curriculum.recipes.queries import recipe_data
from curriculum.techniques.models import Fault, Technique
from curriculum.wording import clock_minutes, counted_words, duration, long_date
from kitchen.lessons.models import Dish, Lesson
from kitchen.timeplan.class_data import ApplianceData
from kitchen.timeplan.demonstration import SLOTS, plan
from kitchen.timeplan.demonstration_clock import CLASS, OPEN, OnTheClock, minutes_by_step, on_the_clock
from kitchen.timeplan.demonstration_data import Demonstration
from kitchen.timeplan.demonstration_kept import (
    ForStores,
    for_stores,
    kept_question,
    question_hash,
    read_demonstration,
)
from kitchen.timeplan.demonstration_oven import OvenThere, OvenWords, oven_uses, oven_words
from kitchen.timeplan.demonstration_trays import TrayWords, plates_by_step, trays_of
from kitchen.timeplan.demonstration_words import (
    FaultWords,
    StageWords,
    difference,
    keeps_of,
    key_points,
    shown_words,
    stage_words,
    summary,
)
from kitchen.timeplan.kept import read_plan
from kitchen.timeplan.models import DemonstrationPlan, PlanState, TimePlan


def accepted_demonstration(lesson: Lesson) -> DemonstrationPlan | None:
    """The demonstration plan that stands, with who accepted it. One query."""
    rows = DemonstrationPlan.objects.filter(lesson=lesson, state=PlanState.ACCEPTED)
    return rows.select_related("by").first()


def standing_demonstration(lesson: Lesson, recipe: RecipeData) -> Demonstration | None:
    """The accepted demonstration of a recipe, on the clock of the class where it has one. Two queries."""
    row = accepted_demonstration(lesson)
    if row is None or row.inputs.get("recipe") != recipe.code:
        return None
    return on_the_clock(
        recipe, read_demonstration(row.answer), begins_at(lesson), class_of(lesson).shows
    ).plan


def demonstration_for_stores(lesson: Lesson, recipe: RecipeData) -> ForStores | None:
    """What the accepted demonstration takes out of the stores; None without one. Two queries."""
    standing = standing_demonstration(lesson, recipe)
    return for_stores(standing) if standing else None


def begins_at(lesson: Lesson) -> int:
    """The minute of the day at which the class may begin."""
    return lesson.starts.hour * 60 + lesson.starts.minute + lesson.start_minutes


def what_follows(lesson: Lesson, plan: Demonstration) -> str:
    """What accepting a plan changes for the stores and the clock, in sentences. Two queries."""
    row = accepted_demonstration(lesson)
    changed = difference(read_demonstration(row.answer), plan) if row else ""
    words = changed or "Its trays are kits of the lesson; the stores weigh them."
    group = class_of(lesson)
    stands = {step: minutes for step, minutes, _ in group.shows or ()}
    if group.is_planned and stands != minutes_by_step(plan):
        words += " The time plan of the class shows other stages: plan it again."
    return words


@dataclass(frozen=True, slots=True)
class Shows:
    """The dish that is shown: its recipe, its techniques by name, and when the class is ready."""

    lesson: Lesson
    dish: Dish
    recipe: RecipeData
    techniques: dict[str, str]
    begins: int

    @property
    def usual_targets(self) -> tuple[str, ...]:
        """Techniques of the steps that the class works itself, none done ahead for it."""
        taught = [
            step
            for step in self.recipe.steps
            if step.position not in self.dish.ahead_steps
            and (not self.dish.taught_steps or step.position in self.dish.taught_steps)
        ]
        return tuple(dict.fromkeys(code for step in taught for code in step.techniques))


def shows_of(lesson: Lesson) -> Shows | None:
    """What a lesson's demonstration is made from; None when it has no dish. Four queries."""
    dish = lesson.dishes.select_related("version__recipe").order_by("pk").first()
    if dish is None:
        return None
    recipe = recipe_data(dish.version)
    codes = dict.fromkeys(code for step in recipe.steps if step.active_minutes for code in step.techniques)
    names = dict(Technique.objects.filter(code__in=codes).values_list("code", "name"))
    techniques = {code: names.get(code, code.replace("_", " ")) for code in codes}
    return Shows(lesson, dish, recipe, techniques, begins_at(lesson))


def faults_of(codes: Iterable[str]) -> dict[str, list[FaultWords]]:
    """The faults of techniques by their code. One query."""
    found: dict[str, list[FaultWords]] = defaultdict(list)
    rows = Fault.objects.filter(technique__code__in=set(codes), retired_at=None).order_by("code")
    for technique, seen, cause, remedy in rows.values_list("technique__code", "seen", "cause", "remedy"):
        found[technique].append(FaultWords(seen, cause, remedy))
    return found


@dataclass(frozen=True, slots=True)
class Offer:
    """One line of the table "How long can you give it?"."""

    slot: int
    plan: Demonstration
    shown: str
    missed: str
    live: int
    techniques: int
    batches: int
    is_looked_at: bool
    is_taken: bool


@dataclass(frozen=True, slots=True)
class Written:
    """A demonstration as it is shown on the page and printed on its sheet.

    ``clock`` is own, class or open: whose times stand on it.
    """

    plan: Demonstration
    title: str
    facts: str
    summary: str
    remarks: tuple[str, ...]
    clock: str
    clock_words: str
    stages: tuple[StageWords, ...]
    trays: tuple[TrayWords, ...]
    ovens: tuple[OvenWords, ...]
    batches: tuple[tuple[str, int, int], ...]
    beforehand: str
    missed: str
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Page:
    """The whole page; ``taken`` says what stands accepted and by whom."""

    offers: tuple[Offer, ...]
    written: Written | None
    most_preparation: int
    taken: str
    is_taken: bool


@dataclass(frozen=True, slots=True)
class Class:
    """What the demonstration must know of the class: the stages on its clock, when each oven is taken.

    ``shows`` are (step, minutes, minute of the day), None for a lesson that is only shown.
    """

    shows: tuple[tuple[int, int, int], ...] | None
    busy: dict[str, tuple[tuple[int, int], ...]]
    is_planned: bool


def class_of(lesson: Lesson) -> Class:
    """The accepted time plan of the class as the demonstration reads it. One query at most."""
    if lesson.kind == Lesson.Kind.DEMONSTRATION:
        return Class(None, {}, is_planned=False)
    row = TimePlan.objects.filter(lesson=lesson, state=PlanState.ACCEPTED).first()
    if row is None:
        return Class((), {}, is_planned=False)
    plan = read_plan(row.answer)
    busy = {oven.code: ((oven.light_at, oven.heats[-1].end),) for oven in plan.ovens}
    return Class(tuple((each.step, each.minutes, each.start) for each in plan.shows), busy, is_planned=True)


def best(shows: Shows, slot: int, targets: Iterable[str]) -> Demonstration | None:
    """The best demonstration of a lesson's dish for a slot."""
    return plan(shows.recipe, slot, tuple(targets))


def inputs_of(shows: Shows, slot: int, targets: Iterable[str]) -> tuple[dict, str]:
    """What a plan is computed from, and the hash of it."""
    question = kept_question(shows.recipe, slot, tuple(targets))
    return question, question_hash(question)


def page_of(
    shows: Shows,
    row: DemonstrationPlan | None,
    slot: int | None,
    targets: tuple[str, ...],
    usual: int,
    appliances: Sequence[ApplianceData] = (),
) -> Page:
    """The page for a slot and techniques; ``slot`` None shows what stands accepted. Three queries."""
    is_taken = row is not None and (slot is None or (row.slot_minutes == slot and _is_best_of(row, targets)))
    looked_at = row.slot_minutes if is_taken else slot or usual
    made = read_demonstration(row.answer) if is_taken else best(shows, looked_at, targets)
    found = {each: best(shows, each, targets) for each in sorted({*SLOTS, looked_at})} | {looked_at: made}
    offers = tuple(
        _offer(shows, each, slot, looked_at == slot, is_taken) for slot, each in sorted(found.items()) if each
    )
    return Page(
        offers=offers,
        written=written(shows, made, appliances) if made else None,
        most_preparation=max((offer.plan.preparation_minutes for offer in offers), default=0),
        taken=f"{row.by.name} took {duration(row.slot_minutes)}." if row else "",
        is_taken=is_taken,
    )


def _is_best_of(row: DemonstrationPlan, targets: Iterable[str]) -> bool:
    return not row.answer.get("by_hand") and sorted(row.inputs.get("targets", [])) == sorted(targets)


def _offer(shows: Shows, found: Demonstration, slot: int, is_looked_at: bool, is_taken: bool) -> Offer:
    missed = len(found.missed)
    return Offer(
        slot=slot,
        plan=found,
        shown=shown_words(found),
        live=len(found.live_techniques),
        techniques=len(shows.techniques),
        batches=sum(each.ahead + each.live for each in found.batches),
        missed=f"{counted_words(missed, 'technique', 'techniques').capitalize()} not seen live."
        * bool(missed),
        is_looked_at=is_looked_at,
        is_taken=is_taken and is_looked_at,
    )


def _named(shows: Shows, codes: Iterable[str]) -> str:
    return ", ".join(shows.techniques.get(code, code).lower() for code in codes)


def written(shows: Shows, made: Demonstration, appliances: Sequence[ApplianceData]) -> Written:
    """A demonstration in words, on its clock, with trays and ovens. Three queries."""
    faults = faults_of(code for stage in made.stages for code in stage.techniques)
    group = class_of(shows.lesson)
    clock = on_the_clock(shows.recipe, made, shows.begins, group.shows)
    stages = _stages(shows, clock, faults)
    silent = tuple(
        f"Step {stage.step} takes {stage.minutes} min of hands and the recipe gives nothing to tell "
        "meanwhile: bring your own words."
        for stage in stages
        if stage.is_silent
    )
    return Written(
        plan=clock.plan,
        title=shows.recipe.title,
        facts=_facts(shows, clock),
        clock=clock.kind,
        clock_words=_clock_words(clock, group),
        summary=summary(clock.plan),
        remarks=(*silent, *clock.plan.remarks),
        stages=stages,
        trays=trays_of(shows.recipe, clock),
        ovens=_ovens(shows, clock, group, appliances),
        batches=tuple((each.name, each.ahead, each.live) for each in clock.plan.batches),
        beforehand=", ".join(str(each) for each in clock.plan.beforehand),
        missed=_named(shows, made.missed),
        cautions=tuple(dict.fromkeys(stage.caution for stage in made.stages if stage.caution)),
    )


def _clock_words(clock: OnTheClock, group: Class) -> str:
    """Where the clock comes from, in a sentence; empty for a lesson that is only shown."""
    if clock.kind == CLASS:
        return "The clock is the class’s: each stage stands before the step that it shows."
    if clock.kind == OPEN and group.is_planned:
        return (
            "The accepted time plan of the class shows other stages than these. "
            "Take these and plan the class again: then they have their clock."
        )
    return "The clock comes with the time plan of the class, and none is accepted yet." * (clock.kind == OPEN)


def _ovens(
    shows: Shows, clock: OnTheClock, group: Class, appliances: Sequence[ApplianceData]
) -> tuple[OvenWords, ...]:
    """The oven plan; without a clock there is none."""
    if clock.is_open:
        return ()
    there = [
        OvenThere(each.name, each.heat_seconds_per_10, group.busy.get(each.code, ()))
        for each in appliances
        if each.kind == "oven"
    ]
    return oven_words(oven_uses(shows.recipe, clock.plan, clock.at), there)


def _stages(
    shows: Shows, clock: OnTheClock, faults: Mapping[str, list[FaultWords]]
) -> tuple[StageWords, ...]:
    """The stages in words; nothing is asked twice."""
    asked: set[str] = set()
    stages = []
    plates = plates_by_step(clock)
    for stage in clock.plan.stages:
        points = key_points(shows.recipe.step(stage.step), keeps_of(shows.recipe, stage.step))
        at = None if clock.is_open else clock.at
        words = stage_words(stage, at, faults, points, plates)
        if words.question in asked:
            words = stage_words(stage, at, {}, points, plates)
        asked.add(words.question)
        stages.append(words)
    return tuple(stages)


def _facts(shows: Shows, clock: OnTheClock) -> str:
    lesson, stages = shows.lesson, clock.plan.stages
    when = long_date(lesson.on, today_at(the_college()))
    if stages and not clock.is_open:
        ends = max(stage.starts + stage.minutes for stage in stages)
        first = clock_minutes(clock.at + stages[0].starts)
        when = f"{when}, {first} to {clock_minutes(clock.at + ends)}"
    return f"{when}. {lesson.room.name}, {lesson.group.code}."
