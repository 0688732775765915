"""What the demonstration's pages read, and what the stores ask: batches made before."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from curriculum.people.queries import the_college, today_at
from curriculum.recipes.data import RecipeData
from curriculum.recipes.queries import recipe_data
from curriculum.techniques.models import Fault, Technique
from curriculum.wording import clock_minutes, counted_words, duration, listed, long_date
from kitchen.lessons.models import Dish, Lesson
from kitchen.timeplan.demonstration import SLOTS, Demonstration, plan
from kitchen.timeplan.demonstration_kept import (
    AheadBatch,
    batches_of,
    kept_question,
    question_hash,
    read_demonstration,
)
from kitchen.timeplan.demonstration_words import (
    AheadWords,
    FaultWords,
    StageWords,
    ahead_words,
    more_than_booked,
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


def ahead_batches(lesson: Lesson) -> tuple[AheadBatch, ...]:
    """What the stores make before for the accepted demonstration; empty without one. One query."""
    row = accepted_demonstration(lesson)
    return batches_of(read_demonstration(row.answer)) if row else ()


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
    begins = lesson.starts.hour * 60 + lesson.starts.minute + lesson.start_minutes
    return Shows(lesson, dish, recipe, techniques, begins)


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
    is_looked_at: bool
    is_taken: bool


@dataclass(frozen=True, slots=True)
class Written:
    """A demonstration as it is shown on the page and printed on its sheet."""

    plan: Demonstration
    title: str
    facts: str
    summary: str
    remarks: tuple[str, ...]
    stages: tuple[StageWords, ...]
    ahead: tuple[AheadWords, ...]
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


def class_clock(lesson: Lesson) -> tuple[str, ...]:
    """When the accepted time plan of the class shows each stage, in a sentence; none without one. One query.

    A demonstration is reckoned as one block; the class sees its stages apart, each before the
    step that it shows.
    """
    row = TimePlan.objects.filter(lesson=lesson, state=PlanState.ACCEPTED).first()
    shown = read_plan(row.answer).shows if row else ()
    if not shown:
        return ()
    at = listed(f"step {show.step} at {clock_minutes(show.start)}" for show in shown)
    return (
        "The times here count the stages as one block. In the accepted time plan of the class they stand "
        f"apart: {at}. The time plan rules, and what keeps only for minutes is finished for its time there.",
    )


def best(shows: Shows, slot: int, targets: Iterable[str]) -> Demonstration | None:
    """The best demonstration of a lesson's dish for a slot."""
    return plan(shows.recipe, slot, tuple(targets))


def inputs_of(shows: Shows, slot: int, targets: Iterable[str]) -> tuple[dict, str]:
    """What a plan is computed from, and the hash of it."""
    question = kept_question(shows.recipe, slot, tuple(targets))
    return question, question_hash(question)


def page_of(
    shows: Shows, row: DemonstrationPlan | None, slot: int | None, targets: tuple[str, ...], usual: int
) -> Page:
    """The page for a slot and techniques; ``slot`` None shows what stands accepted. Two queries."""
    is_taken = row is not None and (slot is None or (row.slot_minutes == slot and _is_best_of(row, targets)))
    looked_at = row.slot_minutes if is_taken else slot or usual
    made = read_demonstration(row.answer) if is_taken else best(shows, looked_at, targets)
    found = {each: best(shows, each, targets) for each in sorted({*SLOTS, looked_at})} | {looked_at: made}
    offers = tuple(
        _offer(shows, each, slot, looked_at == slot, is_taken) for slot, each in sorted(found.items()) if each
    )
    return Page(
        offers=offers,
        written=written(shows, made) if made else None,
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
        missed=f"{counted_words(missed, 'technique', 'techniques').capitalize()} not seen live."
        * bool(missed),
        is_looked_at=is_looked_at,
        is_taken=is_taken and is_looked_at,
    )


def _named(shows: Shows, codes: Iterable[str]) -> str:
    return ", ".join(shows.techniques.get(code, code).lower() for code in codes)


def written(shows: Shows, made: Demonstration) -> Written:
    """A demonstration in words. Three queries."""
    faults = faults_of(code for stage in made.stages for code in stage.techniques)
    components: Mapping[str, str] = {each.code: each.name for each in shows.recipe.components}
    more = more_than_booked(made, shows.lesson.demonstration_batches)
    booked = (more,) if more else ()
    return Written(
        plan=made,
        title=shows.recipe.title,
        facts=_facts(shows, made),
        summary=summary(made),
        remarks=(*class_clock(shows.lesson), *booked, *made.remarks),
        stages=_stages(shows, made, faults),
        ahead=tuple(ahead_words(each, shows.begins, components) for each in made.ahead),
        batches=tuple((each.name, each.ahead, each.live) for each in made.batches),
        beforehand=", ".join(str(each) for each in made.beforehand),
        missed=_named(shows, made.missed),
        cautions=tuple(dict.fromkeys(stage.caution for stage in made.stages if stage.caution)),
    )


def _stages(
    shows: Shows, made: Demonstration, faults: Mapping[str, list[FaultWords]]
) -> tuple[StageWords, ...]:
    """The stages in words; nothing is asked twice."""
    asked: set[str] = set()
    stages = []
    for stage in made.stages:
        words = stage_words(stage, shows.begins, faults)
        if words.question in asked:
            words = stage_words(stage, shows.begins, {})
        asked.add(words.question)
        stages.append(words)
    return tuple(stages)


def _facts(shows: Shows, made: Demonstration) -> str:
    lesson = shows.lesson
    day = long_date(lesson.on, today_at(the_college()))
    until = clock_minutes(shows.begins + made.minutes)
    return f"{day}, {clock_minutes(shows.begins)} to {until}. {lesson.room.name}, {lesson.group.code}."
