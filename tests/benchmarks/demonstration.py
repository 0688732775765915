"""Measures the demonstration: the best plan, proved; prints one JSON line for each question.

    python -m tests.benchmarks.demonstration [--small 200] [--large 12] [--steps 30] [--slots 45 60 90 120]

Kinds of question. ``dishes``: the recipes of the invented book, one by one. ``menus``: several of
them shown together, of about ``--steps`` steps. ``tangled``: seeded random steps, each hanging on
up to six before it. ``small``: seeded random recipes of three to five steps against the enumeration
of every way of every step (``equal`` must be true). ``held`` says that the plan keeps every wait,
hold and order by rules told a second time, in the tests. ``seconds`` are by the clock on the wall,
``processor`` those that were worked. The last lines sum up.
"""

import argparse
import random
from dataclasses import replace
from time import perf_counter, process_time

from curriculum.recipes.data import RecipeData, StepData
from kitchen.timeplan.demonstration import best_way
from kitchen.timeplan.demonstration_search import Search
from kitchen.timeplan.demonstration_steps import Steps
from kitchen.timeplan.demonstrations.solver import proved_best
from kitchen.timeplan.solver import solver_module
from tests.benchmarks.machine import fixed_loop, say
from tests.builders.recipes import RECIPE_CODES, college_recipe
from tests.kitchen.timeplan.test_demonstration_search import (
    a_large_recipe,
    a_random_recipe,
    by_enumeration,
    is_legal,
    keeps_time,
    worth_found,
)


def main() -> None:
    """All questions, then the sum."""
    said = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    said.add_argument("--small", type=int, default=200)
    said.add_argument("--large", type=int, default=12)
    said.add_argument("--steps", type=int, default=30)
    said.add_argument("--slots", type=int, nargs="+", default=[45, 60, 90, 120])
    asked = said.parse_args()
    machine = fixed_loop()
    solver_module()
    lines = [small(seed) for seed in range(asked.small)]
    for line in lines:
        say("small", machine, **line)
    measured = []
    for kind, recipe in questions(asked.large, asked.steps):
        for slot in asked.slots:
            measured.append({"kind": kind, **measure(recipe, slot)})
            say(kind, machine, **measured[-1])
    for kind in dict.fromkeys(each["kind"] for each in measured):
        say("sum", machine, **summed(kind, [each for each in measured if each["kind"] == kind]))
    say("sum", machine, kind="small", of=len(lines), equal=sum(line["equal"] for line in lines))


def questions(large: int, steps: int) -> list[tuple[str, RecipeData]]:
    """Dishes, menus and tangled recipes."""
    dishes = [("dishes", college_recipe(code)) for code in RECIPE_CODES]
    menus = [("menus", menu(seed, steps)) for seed in range(large)]
    tangled = [("tangled", a_large_recipe(seed, steps)) for seed in range(large)]
    return dishes + menus + tangled


def menu(seed: int, steps: int) -> RecipeData:
    """Some dishes of the book, drawn by the seed, as one recipe of at most about so many steps."""
    codes = random.Random(seed).sample(RECIPE_CODES, len(RECIPE_CODES))
    first = replace(college_recipe(codes[0]), steps=())
    taken: tuple = ()
    for code in codes:
        recipe = college_recipe(code)
        if len(taken) + len(recipe.steps) <= steps + 2:
            taken += tuple(_shifted(step, len(taken)) for step in recipe.steps)
    return replace(first, code=f"menu-{seed}", steps=taken)


def _shifted(step: StepData, by: int) -> StepData:
    after = tuple(replace(each, needs=each.needs + by) for each in step.after)
    return replace(step, position=step.position + by, after=after, components=())


def measure(recipe: RecipeData, slot: int) -> dict[str, object]:
    """The figures of one question, as the page asks it: every technique of the dish is a target."""
    steps = Steps(recipe)
    targets = frozenset(code for step in recipe.steps for code in step.techniques)
    began, worked = perf_counter(), process_time()
    found = best_way(steps, slot, targets)
    facts = {"recipe": recipe.code, "steps": len(recipe.steps), "slot": slot}
    facts |= {"seconds": round(perf_counter() - began, 3), "processor": round(process_time() - worked, 3)}
    if found is None:
        return facts | {"proved": True, "shown": False, "held": True}
    held = (
        is_legal(steps, found.ways) and keeps_time(steps, found.ways, found.order) and found.minutes <= slot
    )
    return facts | {
        "proved": found.proved,
        "shown": True,
        "held": held,
        "missed": found.missed,
        "preparation": found.cost,
        "unshown": found.unshown,
        "minutes": found.minutes,
    }


def small(seed: int) -> dict[str, object]:
    """One small question: search and solver against the enumeration."""
    dice = random.Random(seed)
    steps = Steps(a_random_recipe(seed))
    targets = frozenset(each for each in "abc" if dice.random() < 0.5)
    slot = dice.choice([4, 8, 12, 20, 30, 60])
    wanted = by_enumeration(steps, slot, targets)
    found = [Search(steps, slot, targets).best(), proved_best(Search(steps, slot, targets), None)]
    equal = all(worth_found(each) == wanted for each in found)
    return {"seed": seed, "steps": len(steps.recipe.steps), "slot": slot, "equal": equal}


def summed(kind: str, lines: list[dict]) -> dict[str, object]:
    """How many are proved, how many within half a second, the longest."""
    return {
        "kind": kind,
        "of": len(lines),
        "held": sum(line["held"] for line in lines),
        "proved": sum(line["proved"] for line in lines),
        "proved_within_half_a_second": sum(line["proved"] and line["seconds"] <= 0.5 for line in lines),
        "longest": max(line["seconds"] for line in lines),
        "within_half_a_second_of_processor": sum(
            line["proved"] and line["processor"] <= 0.5 for line in lines
        ),
        "longest_processor": max(line["processor"] for line in lines),
    }


if __name__ == "__main__":
    main()
