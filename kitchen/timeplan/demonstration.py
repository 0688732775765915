"""A demonstration with "one prepared earlier": what is shown when, and what is made before.

For the demonstration's page and sheet, for the kits of its trays and for the time plan. Plain
data in, plain data out. ``plan`` finds the best way to show a recipe in a slot (the rule is
told in ``demonstration_search``); ``chosen`` takes the stages that a person wants, with their
own minutes, says what must be prepared for them and what does not hold. Both give the same
``Demonstration``. Minutes count from the beginning of the demonstration; before it they are
negative.

Worked example: a quiche in 16 minutes, lining live 6, blind-baked shell as a tray 4, sealing
live 3, baked quiche as a tray 3. Lining needs a rested paste, sealing needs the shell: so one
paste, one shell and one quiche are made before, which are three batches of paste, one of
filling, one of custard and one of seal, and on the table lies egg for one live seal.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from curriculum.recipes.data import RecipeData
from kitchen.timeplan.demonstration_data import Demonstration, Shown, Stage
from kitchen.timeplan.demonstration_made import WAY_WORDS, Made, Show, one_after_another, prepared_for
from kitchen.timeplan.demonstration_search import Found, Search
from kitchen.timeplan.demonstration_steps import READY, SWAPPED, TRAY, Steps
from kitchen.timeplan.demonstrations.solver import proved_best

#: Minutes of the slots offered beside each other. Common practice, no source.
SLOTS = (45, 60, 90, 120)
#: Up to so many nodes the search by hand is asked first, and looks at so many half-decided plans;
#: with more the solver is: its proof is there before the search has its bounds.
FEW_NODES, FIRST_LOOKS = 14, 150
_INNER = {words: way for way, words in WAY_WORDS.items()}


def plan(recipe: RecipeData, slot: int, targets: Iterable[str] = ()) -> Demonstration | None:
    """The best demonstration of a recipe in ``slot`` minutes, or None when not even the dish can be shown.

    ``targets`` are codes of techniques that are to be shown live.
    """
    steps, wanted = Steps(recipe), frozenset(targets)
    found = best_way(steps, slot, wanted)
    if found is None:
        return None
    shown = one_after_another(
        (node, found.ways[node], steps.shown_minutes(node, found.ways[node])) for node in found.order
    )
    prepared = {node for node, way in enumerate(found.ways) if way in (SWAPPED, TRAY, READY)}
    return Made(steps, slot, shown, prepared, targets).demonstration(proved=found.proved)


def best_way(steps: Steps, slot: int, targets: frozenset[str]) -> Found | None:
    """The best way to show some steps, by the search and the solver; None when there is none."""
    search = Search(steps, slot, targets, looks=FIRST_LOOKS)
    if len(steps.nodes) > FEW_NODES:
        found = proved_best(search, None)
        return found if found is not None else search.best()
    found = search.best()
    return found if found is None or found.proved else proved_best(search, found)


def alternatives(
    recipe: RecipeData, targets: Iterable[str] = (), slots: Sequence[int] = SLOTS
) -> tuple[Demonstration, ...]:
    """The best demonstrations for several slots."""
    return tuple(each for slot in slots if (each := plan(recipe, slot, tuple(targets))) is not None)


def chosen(
    recipe: RecipeData, shown: Sequence[Shown], slot: int, targets: Iterable[str] = ()
) -> Demonstration:
    """The stages a person chose, in their order, with what must be prepared and what does not hold.

    ValueError for a step or a way that is not there, or a stage of no minutes.
    """
    steps = Steps(recipe)
    stages: list[tuple[int, str, int]] = []
    for each in shown:
        if each.way not in _INNER or each.minutes < 1 or each.step not in {s.position for s in recipe.steps}:
            raise ValueError(f"No such stage: {each}.")
        stages.append((steps.node_of(each.step), _INNER[each.way], each.minutes))
    shows = one_after_another(stages)
    return Made(steps, slot, shows, prepared_for(steps, shows), targets).demonstration(by_hand=True)


def moved(recipe: RecipeData, plan: Demonstration, starts: Mapping[int, int]) -> Demonstration:
    """The same stages, each step beginning at its minute of ``starts``; what is made before follows.

    A piece made in front of the class may have rested by the time it is taken up, or be too old.
    Stages of one step follow one another. KeyError for a step without a minute.
    """
    steps, now = Steps(recipe), dict(starts)
    shows: list[Show] = []
    for stage in plan.stages:
        node = _node_of(steps, plan, stage)
        shows.append(Show(node, _INNER[stage.way], stage.minutes, now[stage.step]))
        now[stage.step] += stage.minutes
    shows.sort(key=lambda show: show.starts)
    made = Made(steps, plan.slot, shows, prepared_for(steps, shows), ())
    again = made.demonstration(proved=plan.proved, by_hand=plan.by_hand)
    return replace(again, missed=plan.missed)


def _node_of(steps: Steps, plan: Demonstration, stage: Stage) -> int:
    """The node of a stage: a tray of a step that waits first may be shown before its hands."""
    waited = any(each.step == stage.step and each.waited_only and each.is_shown for each in plan.ahead)
    is_tray = stage.way == "stage_tray" and stage.step in stage.brings_in
    return steps.node_of(stage.step) - int(waited and is_tray)
