"""What "Scale it" says to a person: where a hand is needed, what to decide, how it bakes.

Each notice is a heading and sentences with the figure and the way out.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from curriculum import wording
from curriculum.recipes import bases, gelling, portions, tins
from curriculum.recipes.data import RecipeData, StepData
from curriculum.recipes.ratios import MovedRatio
from curriculum.recipes.reach import OutOfReach
from curriculum.recipes.scaled.asked import Asked
from curriculum.recipes.scaled.lines import off_words
from curriculum.recipes.scaling import ScaledRecipe


@dataclass(frozen=True, slots=True)
class Notice:
    """A heading and its sentences."""

    title: str
    words: tuple[str, ...]


def ratio_notice(recipe: RecipeData, found: MovedRatio, benches: int) -> Notice:
    """One ratio that the scale moves, with its ways out."""
    food = recipe.food(found.food).name
    component = _names(recipe)[found.component]
    words = [
        f"{wording.exact_amount(found.exact_milligrams)} exact, {_grams(found.milligrams)} on the scale: "
        f"{_parts(found.exact)} becomes {_parts(found.issued)} ({off_words(found.moved)}).",
        *_pool_words(found, benches),
        *_premix_words(recipe, found),
    ]
    if found.finer is not None:
        words.append(
            f"Or weigh it on a scale that shows {_grams(found.finer.step)}: {_grams(found.finer.milligrams)}"
            f"{_left(found.finer.moved)}."
        )
    if found.pooled is None and found.premixed is None and found.finer is None:
        words.append("No scale of a kitchen weighs so little. Make a larger batch and share it.")
    return Notice(f"{component}: {food}, {found.what}", tuple(words))


def reach_notice(recipe: RecipeData, found: OutOfReach, benches: int) -> Notice:
    """A machine that does not suit the batch, with its ways out."""
    title = f"Step {found.step.position}: {wording.amount(found.batch_milligrams)} by {found.way.name}"
    if found.loads is not None:
        most = wording.amount(found.way.most_milligrams or 0)
        each = wording.amount(found.batch_milligrams / found.loads)
        return Notice(
            title,
            (f"One load holds {most}. Make {wording.number(found.loads)} loads of {each} each.",),
        )
    words = [f"The machine needs {wording.amount(found.way.least_milligrams or 0)} to work."]
    if found.pool is not None:
        together = wording.amount(found.batch_milligrams * found.pool)
        words.append(f"Pool {wording.number(found.pool)} benches: {together} in one load.")
    elif benches > 1:
        words.append(f"All {wording.number(benches)} benches together do not reach it.")
    if found.by_hand is not None:
        words.append(f"Or by hand: {wording.duration(found.by_hand.active_minutes)} at work.")
    words.append(f"Or make a batch of {found.portions} portions and share it.")
    return Notice(title, tuple(words))


def portion_notice(recipe: RecipeData, asked: Asked, gives: portions.Obtainable | None) -> Notice | None:
    """Fewer portions to be had than were asked for."""
    if gives is None or gives.portions >= asked.portions:
        return None
    enough = None if asked.tins else portions.batch_for(recipe, asked.portions, asked.size(recipe))
    way_out = "Make more of it" if enough is None else f"Scale it for {enough}"
    return Notice(
        f"{asked.portions} portions asked for, {gives.portions} to be had",
        (*portion_words(recipe, gives), f"{way_out}, or ask for fewer portions."),
    )


def portion_words(recipe: RecipeData, gives: portions.Obtainable) -> tuple[str, ...]:
    """Which part is the scarcest, and what each part gives, from finished weights after losses."""
    names = _names(recipe)
    scarcest = gives.scarcest
    said = [
        f"By the finished weight of {_joined(names, scarcest.components)}: "
        f"{wording.amount(scarcest.milligrams)} make {_portions(scarcest.portions)}."
    ]
    said += [
        f"{_joined(names, part.components)} would make {wording.number(part.portions)}."
        for part in gives.parts
        if part is not scarcest
    ]
    if gives.reject_per_mille:
        rejected = wording.per_cent(Fraction(gives.reject_per_mille, 1000))
        said.append(f"With {rejected} rejected, {_portions(gives.portions)} are to be had.")
    return tuple(said)


def decisions(recipe: RecipeData, scaled: ScaledRecipe, asked: Asked) -> tuple[Notice, ...]:
    """What the trade leaves to a person: gelatine, raising agent in a large batch, seasoning by taste."""
    found = [_gelatine(recipe, line.food, line.exact_milligrams, asked) for line in scaled.lines]
    notices = [each for each in found if each is not None]
    raised = _named(recipe, scaled, "leavening", decides=True)
    if raised:
        notices.append(
            Notice(
                f"{raised}: more than four batches in one",
                (
                    "Shown in proportion. In a large batch the trade uses less, and no figure is published. "
                    "Make several batches of four at most, or decide.",
                ),
            )
        )
    seasoned = _named(recipe, scaled, "seasoning")
    if seasoned:
        notices.append(Notice(f"{seasoned}: taste", ("Begin with the weight shown, taste, then add.",)))
    return tuple(notices)


def baking(recipe: RecipeData, scaled: ScaledRecipe, asked: Asked) -> tuple[str, ...]:
    """How the depth and the load of the oven change, with cue and probe; no time is calculated."""
    steps = [step for step in recipe.steps if any(stay.appliance_kind == "oven" for stay in step.stays)]
    changed = scaled.factor != 1 or asked.tins is not None or asked.filled.factor != 1 or asked.benches > 1
    if not steps or not changed:
        return ()
    said = ["The baking time is not calculated. What is written holds for the recipe’s own tin and load."]
    said += list(_tin_changes(recipe, scaled))
    if asked.benches > 1 or scaled.factor > 1:
        said.append("A fuller oven is slower, and comes back to its heat later after the door was open.")
    return (*said, *(_watch(step) for step in steps))


def _tin_changes(recipe: RecipeData, scaled: ScaledRecipe) -> Iterable[str]:
    for old, new in zip(recipe.tins, scaled.tins, strict=True):
        if bases.same_but_for_count(old, new):
            if new.count != old.count:
                yield f"{new.count} × {tins.words(new)} a bench, and not {old.count}."
            continue
        yield f"{new.count} × {tins.words(new)} a bench for {old.count} × {tins.words(old)}."
        if depth := tins.depth_words(old, new):
            yield depth


def _watch(step: StepData) -> str:
    minutes = sum(stay.minutes for stay in step.stays if stay.appliance_kind == "oven")
    said = f"Step {step.position}: written {wording.duration(minutes)}."
    if step.cue:
        said += f" Look for: {wording.sentence(step.cue)}"
    if step.core_decicelsius is not None:
        said += (
            f" Probe: core {wording.temperature_range(step.core_decicelsius, step.core_most_decicelsius)}."
        )
    return said if step.cue or step.core_decicelsius is not None else f"{said} No cue is written: write one."


def _gelatine(recipe: RecipeData, code: str, exact: Fraction, asked: Asked) -> Notice | None:
    found = gelling.choices(exact, recipe.food(code), asked.bloom, asked.leaf_milligrams)
    if found is None:
        return None
    said = [f"The recipe means {wording.exact_amount(exact)} at {found.bloom} bloom."]
    if found.bloom == found.other_bloom:
        said.append(f"At the same bloom that is {_grams(round(exact))}{_leaves(found.rules[0])}.")
    else:
        said += [
            f"At {found.other_bloom} bloom, {rule.name}: {wording.amount(rule.milligrams)}{_leaves(rule)}."
            for rule in found.rules
        ]
        said.append(
            "Both rules are in use and they disagree; the first is from memory. Decide by a test set."
        )
    if found.leaf_milligrams is None:
        said.append("Weigh a leaf of the pack in hand and write it above to see leaves.")
    said.append("Acid, alcohol, a deep mould and freezing change it.")
    return Notice(f"{recipe.food(code).name}: bloom and leaf of the pack in hand", tuple(said))


def _leaves(rule: gelling.GelRule) -> str:
    if rule.leaves is None:
        return ""
    whole = ceil(rule.leaves)
    exact = "" if whole == rule.leaves else f" ({wording.figure(rule.leaves, 2)} exact)"
    return f", {wording.counted(whole, 'leaf', 'leaves')}{exact}"


def _named(recipe: RecipeData, scaled: ScaledRecipe, rule: str, decides: bool = False) -> str:
    lines = [
        line
        for line in scaled.lines
        if line.rule == rule and line.words and (line.person_decides or not decides)
    ]
    names = dict.fromkeys(recipe.food(line.food).name for line in lines)
    return wording.listed(names)


def _pool_words(found: MovedRatio, benches: int) -> list[str]:
    if found.pooled is None:
        return []
    return [
        f"Weigh it for {wording.number(found.pooled.benches)} benches together and share it out: "
        f"{_grams(found.pooled.milligrams)}{_left(found.pooled.moved)}."
    ]


def _premix_words(recipe: RecipeData, found: MovedRatio) -> list[str]:
    mixed = found.premixed
    if mixed is None:
        return []
    carrier = recipe.food(mixed.carrier).name
    return [
        f"Or mix {_grams(mixed.milligrams)} into {_grams(mixed.carrier_milligrams)} of {carrier} "
        f"for {mixed.batches} batches and weigh {_grams(mixed.each)} of the mix for each{_left(mixed.moved)}."
    ]


def _left(moved: Fraction) -> str:
    words = off_words(moved)
    return f", {words}" if words else ", exact"


def _parts(ratio: Fraction) -> str:
    return wording.per_cent(ratio, 2 if ratio < Fraction(1, 20) else 1)


def _grams(milligrams: int) -> str:
    return f"{wording.figure(Fraction(milligrams, 1000), 2)} g"


def _names(recipe: RecipeData) -> dict[str, str]:
    return {each.code: each.name for each in recipe.components}


def _portions(count: int) -> str:
    return wording.counted_words(count, "portion")


def _joined(names: dict[str, str], codes: Iterable[str]) -> str:
    return wording.listed(names.get(code, code) for code in codes)
