"""Kits: what each bench, the demonstrator and the spare tray must be given, line by line.

For the kits page, the weigh-out, the labels and the order. Plain data in, plain data out.

The sum, in this order
----------------------
1. **One batch a kit.** Each kit is one bench's batch of one recipe (the variant where the
   bench works a variant), scaled by ``curriculum.recipes.scaling``. Benches multiply: no
   scaling class acts between one bench and seven.
2. **Tray order is method order.** Components come in the order of the first step that uses
   them; over-issue (dusting, greasing), which no step names, comes last.
3. **What the bench is given**, exact beside issued for every line: as prepared or as bought,
   rounded once to what the scale shows. What comes from the tap is printed and not issued.
4. **Whole pieces** (eggs in their shells, lemons) are added over the kit and rounded up once
   for that kit: 200 g and 15 g of beaten egg at 50 g an egg are 4.3, so five eggs. They are
   pooled in the order, not in a bowl: see ``needs.py``.
5. **Made ahead.** A component whose first step is done before the lesson goes, for all
   benches of one recipe together, into one kit "prepared ahead"; the lesson's need stays
   the same. Recipes are never mixed in it: the paste without gluten has a kit of its own.
6. **The class's need** of a food is the sum of what its kits are given, as it leaves the
   stores: where the stores do the trimming, the trimmings too.

Worked example: seven pairs make the quiche, two of them a variant, with one batch to
demonstrate and one to spare: nine batches. Each takes 130 g + 30 g of butter, so the class
takes 1,440 g; eight of them take five eggs each, so 40 eggs leave the stores. Added before
they are rounded, 8 x 4.3 = 34.4, so 35 would do in an order.

Sources: trade practice as the stores give it (common practice, no source).
"""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction
from math import ceil

from curriculum.allergens import KINDS, printed
from curriculum.foods import rounding, yields
from curriculum.recipes.data import FoodData, RecipeData
from curriculum.recipes.scaling import ScaledLine, issued, pieces_to_issue, scale
from kitchen.stores.against import blocked_why

#: In which order kits are weighed and shortages fall, last first: free-from kits come before all.
KINDS_OF_KIT = ("bench", "ahead", "demonstration", "stage_tray", "spare")


@dataclass(frozen=True, slots=True)
class Batch:
    """One kit asked for: its kind, the number on its plate, its recipe and how many portions.

    ``kind`` is one of ``KINDS_OF_KIT`` except "ahead"; ``bench`` is the bench's number for a
    bench kit. ``components`` limits it to some components; empty means all. ``words`` say what a
    stage tray becomes: "as far as step 5".
    """

    kind: str
    label: str
    recipe: RecipeData
    portions: int
    bench: int | None = None
    components: tuple[str, ...] = ()
    words: str = ""


@dataclass(frozen=True, slots=True)
class KitLinePlan:
    """One line on a tray.

    ``exact`` is in milligrams, or in pieces where ``pieces`` is set; ``milligrams`` is what the
    bench is given; ``stock_milligrams`` what leaves the lots of ``food`` for it (nothing from
    the tap). ``unit_milligrams`` is the weight of one whole piece that cannot be split, or 0.
    """

    position: int
    component: str
    food: str
    words: str
    exact: Fraction
    milligrams: int
    stock_milligrams: int
    stock_exact: Fraction
    pieces: int | None = None
    unit_milligrams: int = 0
    from_tap: bool = False
    part: str = "recipe"
    note: str = ""
    contains: tuple[str, ...] = ()
    may_contain: tuple[str, ...] = ()
    storage: str = "ambient"
    label_read_on: date | None = None

    @property
    def contains_words(self) -> tuple[str, ...]:
        """Allergens as a label prints them, by kind: ("gluten (wheat)",)."""
        return tuple(printed(kind) for kind in self.contains)

    @property
    def may_contain_words(self) -> tuple[str, ...]:
        """What the label says it may contain, by kind."""
        return tuple(printed(kind) for kind in self.may_contain)

    @property
    def is_exact(self) -> bool:
        """Whether what is issued is exactly what is needed."""
        return self.exact == (self.milligrams if self.pieces is None else self.pieces)

    @property
    def far_off(self) -> bool:
        """Whether the scale's step makes a weight more than 3 % off (look of the page)."""
        off = rounding.relative_error(self.exact, self.milligrams)
        return self.pieces is None and abs(off) > rounding.WORTH_NAMING


def label_words(kinds: Iterable[str]) -> str:
    """Kinds as a line of a kit keeps and prints them: "gluten (wheat), milk"."""
    return ", ".join(map(printed, kinds))


def words_kept(words: str) -> tuple[str, ...]:
    """The same words apart again."""
    return tuple(filter(None, words.split(", ")))


def says_as_printed(food: FoodData, contains: Iterable[str], may_contain: Iterable[str]) -> bool:
    """Whether the label of a food says what was printed of it, in whatever order."""
    now = {*map(printed, food.contains)}, {*map(printed, food.may_contain)}
    return now == (set(contains), set(may_contain))


@dataclass(frozen=True, slots=True)
class KitPlan:
    """One tray: whose it is, how many batches stand on it, its lines, and why it may not leave."""

    kind: str
    label: str
    recipe: str
    title: str
    lines: tuple[KitLinePlan, ...]
    batches: int = 1
    bench: int | None = None
    free_from: tuple[str, ...] = ()
    blocked_why: str = ""


def plan_kits(batches: Iterable[Batch], ahead_steps: Sequence[int] = ()) -> tuple[KitPlan, ...]:
    """The kits of a lesson in plate order, then one "prepared ahead" kit for each recipe.

    ``ahead_steps`` are positions of steps done before the lesson.
    """
    asked = tuple(batches)
    here = tuple(_kit(batch, _wanted(batch) - ahead_components(batch.recipe, ahead_steps)) for batch in asked)
    return (*(kit for kit in here if kit.lines), *_ahead_kits(asked, ahead_steps))


def kit_of_bench(recipe: RecipeData, portions: int) -> KitPlan:
    """The whole kit of one bench with nothing done ahead."""
    return _kit(Batch("bench", "1", recipe, portions, 1), frozenset(each.code for each in recipe.components))


def weighing_rank(kit: KitPlan) -> tuple[bool, int]:
    """The order in which kits are weighed and served: free-from kits first, the spare last."""
    return (not kit.free_from, KINDS_OF_KIT.index(kit.kind))


def method_order(recipe: RecipeData) -> tuple[str, ...]:
    """Codes of the components in the order in which the steps first use them, the unused last."""
    last = max((step.position for step in recipe.steps), default=0) + 1
    ranked = [
        (_first_step(recipe, component.code) or last, index, component.code)
        for index, component in enumerate(recipe.components)
    ]
    return tuple(code for _, _, code in sorted(ranked))


def _first_step(recipe: RecipeData, component: str) -> int | None:
    used = [step.position for step in recipe.steps if component in step.components]
    return min(used, default=None)


def _wanted(batch: Batch) -> frozenset[str]:
    return frozenset(batch.components or (each.code for each in batch.recipe.components))


def unnamed_components(recipe: RecipeData) -> tuple[str, ...]:
    """Components that no step names: dusting, greasing."""
    return tuple(each.code for each in recipe.components if _first_step(recipe, each.code) is None)


def ahead_components(recipe: RecipeData, ahead_steps: Sequence[int]) -> frozenset[str]:
    """Components whose first step is done before the lesson."""
    return frozenset(each.code for each in recipe.components if _first_step(recipe, each.code) in ahead_steps)


def _kit(batch: Batch, components: frozenset[str]) -> KitPlan:
    recipe = batch.recipe
    return KitPlan(
        kind=batch.kind,
        label=batch.label,
        recipe=recipe.code,
        title=f"{recipe.title}, {batch.words}" if batch.words else recipe.title,
        lines=_lines(recipe, batch.portions, components),
        bench=batch.bench,
        free_from=recipe.free_from,
        blocked_why=blocked_why(recipe),
    )


def _lines(recipe: RecipeData, portions: int, components: frozenset[str]) -> tuple[KitLinePlan, ...]:
    scaled = {each.code: each for each in scale(recipe, portions).components}
    ordered = [scaled[code] for code in method_order(recipe) if code in components]
    all_lines = [(each.name, line) for each in ordered for line in each.lines]
    pieces = pieces_to_issue((line for _, line in all_lines), recipe)
    plans: list[KitLinePlan] = []
    for name, line in all_lines:
        if line.give_food not in pieces:
            plans.append(_weighed(recipe, name, line))
        elif all(plan.food != line.give_food or plan.pieces is None for plan in plans):
            plans.append(_counted(recipe, name, line, pieces[line.give_food], all_lines))
    return tuple(replace(plan, position=index) for index, plan in enumerate(plans, start=1))


def _weighed(recipe: RecipeData, component: str, line: ScaledLine) -> KitLinePlan:
    food = recipe.food(line.give_food)
    give = ceil(line.give_milligrams) if food.from_tap else issued(line.give_milligrams, food)
    share = Fraction(_share(recipe, line) if line.issued == "prepared" else 1000)
    return KitLinePlan(
        position=0,
        component=line.purpose if line.part == "over_issue" else component,
        food=food.code,
        words=food.name,
        exact=line.give_milligrams,
        milligrams=give,
        stock_milligrams=0 if food.from_tap else ceil(yields.as_bought(give, share)),
        stock_exact=yields.as_bought(line.give_milligrams, share),
        from_tap=food.from_tap,
        part=line.part,
        note=_note(line, food),
        storage=food.storage,
        label_read_on=food.label_read_on,
        contains=food.contains,
        may_contain=food.may_contain,
    )


def _counted(
    recipe: RecipeData, component: str, line: ScaledLine, exact: Fraction, lines: list[tuple[str, ScaledLine]]
) -> KitLinePlan:
    """All pieces of one whole food on one tray: one line, where the method first uses it."""
    food = recipe.food(line.give_food)
    unit = food.piece_milligrams or 0
    whole = rounding.whole_pieces(exact)
    return KitLinePlan(
        position=0,
        component=component,
        food=food.code,
        words=food.name,
        exact=exact,
        milligrams=whole * unit,
        stock_milligrams=whole * unit,
        stock_exact=exact * unit,
        pieces=whole,
        unit_milligrams=unit,
        note=_used_as(recipe, food, lines),
        storage=food.storage,
        label_read_on=food.label_read_on,
        contains=_kinds(recipe, food, lines, "contains"),
        may_contain=_kinds(recipe, food, lines, "may_contain"),
    )


def _used_as(recipe: RecipeData, whole: FoodData, lines: list[tuple[str, ScaledLine]]) -> str:
    """What becomes of the pieces: "Hen egg, beaten whole: 15 g for Seal, 200 g for Savoury custard"."""
    uses: dict[str, list[str]] = defaultdict(list)
    for name, line in lines:
        if line.give_food == whole.code and line.food != whole.code:
            uses[line.food].append(f"{_grams(line.exact_milligrams)} g for {line.purpose or name}")
    return "; ".join(f"{recipe.food(food).name}: {', '.join(said)}" for food, said in uses.items())


def _kinds(
    recipe: RecipeData, whole: FoodData, lines: list[tuple[str, ScaledLine]], which: str
) -> tuple[str, ...]:
    foods = [whole, *(recipe.food(line.food) for _, line in lines if line.give_food == whole.code)]
    there = {kind for food in foods for kind in getattr(food, which)}
    return tuple(kind for kind in KINDS if kind in there)


def _share(recipe: RecipeData, line: ScaledLine) -> int:
    component = next(each for each in recipe.components if each.code == line.component)
    own = next(each for each in component.lines if each.position == line.position)
    return own.yield_per_mille or recipe.food(line.food).usable_per_mille


def _note(line: ScaledLine, food: FoodData) -> str:
    tap = "from the tap" if food.from_tap else ""
    held = f"{_grams(line.held_back_milligrams)} g held back" if line.held_back_milligrams else ""
    trim = (
        f"for {_grams(line.exact_milligrams)} g prepared"
        if line.give_milligrams != line.exact_milligrams
        else ""
    )
    spread = (
        f"{_grams(line.least_milligrams)} to {_grams(line.most_milligrams)} g, the cue decides"
        if line.rule == "range" and line.least_milligrams and line.most_milligrams
        else ""
    )
    return "; ".join(word for word in (tap, trim, held, spread) if word)


def _grams(milligrams: Fraction) -> str:
    """Grams to the tenth, without a needless nought: "15", "0.5"."""
    tenths = rounding.nearest(milligrams, 100) // 100
    return f"{tenths // 10}.{tenths % 10}" if tenths % 10 else str(tenths // 10)


def _ahead_kits(batches: tuple[Batch, ...], ahead_steps: Sequence[int]) -> list[KitPlan]:
    by_recipe: dict[str, list[KitPlan]] = defaultdict(list)
    for batch in batches:
        done = ahead_components(batch.recipe, ahead_steps) & _wanted(batch)
        if done:
            by_recipe[batch.recipe.code].append(_kit(replace(batch, words=""), done))
    many = len(by_recipe) > 1
    return [
        _together(kits, f"A{index}" if many else "A")
        for index, kits in enumerate(by_recipe.values(), start=1)
    ]


def _together(kits: list[KitPlan], label: str) -> KitPlan:
    """Several batches on one tray: weights as each would be issued, pieces added first.

    A stage tray may take only some of what is prepared ahead.
    """
    fullest = max(kits, key=lambda kit: len(kit.lines))
    by_line: dict[tuple[str, str, str], list[KitLinePlan]] = defaultdict(list)
    for kit in (fullest, *(each for each in kits if each is not fullest)):
        for line in kit.lines:
            by_line[line.component, line.food, line.part].append(line)
    lines = (replace(_summed(found), position=at) for at, found in enumerate(by_line.values(), start=1))
    title = ahead_title(fullest.title, len(kits), sum(kit.kind == "stage_tray" for kit in kits))
    whole = replace(fullest, kind="ahead", label=label, bench=None, title=title)
    return replace(whole, lines=tuple(lines), batches=len(kits))


def ahead_title(title: str, batches: int, for_trays: int) -> str:
    """The title of what is prepared ahead, with how much of it is for stage trays."""
    return f"{title}, {for_trays} of {batches} batches for stage trays" if for_trays else title


def _summed(lines: list[KitLinePlan]) -> KitLinePlan:
    first = lines[0]
    exact = sum((line.exact for line in lines), Fraction(0))
    whole = None if first.pieces is None else rounding.whole_pieces(exact)
    weighed = whole is None
    return replace(
        first,
        exact=exact,
        milligrams=sum(line.milligrams for line in lines) if weighed else whole * first.unit_milligrams,
        stock_milligrams=sum(line.stock_milligrams for line in lines)
        if weighed
        else whole * first.unit_milligrams,
        stock_exact=sum((line.stock_exact for line in lines), Fraction(0)),
        pieces=whole,
    )
