"""The tables of "Scale it": what the class needs, its eggs, yields, doughs and costs, ready to print."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from curriculum import wording
from curriculum.foods import costs
from curriculum.foods.joint import JointCost
from curriculum.recipes import bakers, egg_counts, water, yields_of
from curriculum.recipes.costing import Costs
from curriculum.recipes.data import RecipeData
from curriculum.recipes.scaled.asked import Asked
from curriculum.recipes.scaling import ScaledRecipe
from curriculum.recipes.whole_class import ClassNeed


@dataclass(frozen=True, slots=True)
class NeedRow:
    """One food of the class: exact need, what benches and the pool are given, allowance, purchase."""

    food: str
    bench: str
    need: str
    given: str
    allowance: str
    buy: str


@dataclass(frozen=True, slots=True)
class EggRow:
    """One food handed out by the piece: exact a bench, kit by kit, pooled, and what is left."""

    food: str
    a_bench: str
    kit_by_kit: str
    pooled: str
    left: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class YieldRow:
    """One line with a loss: prepared, as bought, the usable share."""

    food: str
    prepared: str
    bought: str
    share: str


@dataclass(frozen=True, slots=True)
class DoughRow:
    """One component with flour: (food, percentage, weight now, weight of the dough asked for)."""

    name: str
    total: str
    made: str
    lines: tuple[tuple[str, str, str, str], ...]


def need_rows(needs: Iterable[ClassNeed]) -> tuple[NeedRow, ...]:
    """What the class needs of each food."""
    return tuple(_need(each) for each in needs)


def egg_rows(counts: Iterable[egg_counts.WholeCount]) -> tuple[EggRow, ...]:
    """What is handed out by the piece."""
    return tuple(
        EggRow(
            each.name,
            wording.figure(each.a_bench, 2),
            wording.figure(each.kit_by_kit),
            wording.figure(each.pooled),
            tuple(_left(left) for left in each.left),
        )
        for each in counts
    )


def yield_rows(recipe: RecipeData, scaled: ScaledRecipe) -> tuple[YieldRow, ...]:
    """Every line of a bench of which less is used than is bought."""
    return tuple(
        YieldRow(
            recipe.food(each.food).name,
            wording.exact_amount(each.prepared),
            wording.exact_amount(each.bought),
            f"{wording.per_cent(Fraction(each.per_mille, 1000), 1)} usable, {each.whose}",
        )
        for each in yields_of.line_yields(recipe, scaled)
    )


def dough_rows(recipe: RecipeData, scaled: ScaledRecipe, asked: Asked) -> tuple[DoughRow, ...]:
    """Every dough in baker's percentages, with the dough that was asked for."""
    return tuple(
        _dough(recipe, scaled, asked, component.code, component.name, shares)
        for component, shares in bakers.doughs(recipe)
    )


def water_words(found: water.DoughWater, tap: int) -> tuple[str, ...]:
    """The temperature of the dough water, in sentences."""
    said = [f"Water at {wording.temperature(found.decicelsius)}, by the rule of {found.factors} factors."]
    if found.ice:
        rest = wording.amount(found.water - found.ice)
        said.append(
            f"The tap gives {wording.temperature(tap)}: of {wording.amount(found.water)} take "
            f"{wording.amount(found.ice)} as ice and {rest} from the tap."
        )
    return (
        *said,
        "Common practice, from memory. Measure the dough when it is mixed and correct the friction.",
    )


def cost_rows(found: Costs, asked: Asked) -> tuple[tuple[str, str], ...]:
    """The slip of costs: (words, figure)."""
    rows = [
        ("Used, a bench", _money(found.a_bench)),
        ("Used, the class", _money(found.used)),
        ("Bought in whole packs, the class", wording.money(found.bought)),
        ("A portion", _money(found.a_portion)),
    ]
    if found.a_learner is not None:
        rows.append(("A learner", _money(found.a_learner)))
    if found.share is not None and asked.selling_pence is not None:
        price = wording.money(asked.selling_pence)
        rows.append((f"Food cost at a price of {price}", wording.per_cent(found.share, 1)))
    if found.price_pence is not None and asked.share_per_mille is not None:
        share = wording.per_cent(Fraction(asked.share_per_mille, 1000), 1)
        rows.append((f"Price for a food cost of {share}", _money(found.price_pence)))
    return tuple(rows)


def joint_words(count: egg_counts.WholeCount, shared: JointCost, names: Mapping[str, str]) -> str:
    """Who bears the price of broken pieces, in one paragraph."""
    said = [f"{count.broken} × {count.name} are separated, {_money(shared.paid_pence)}."]
    said += [f"{names[food]} bears {_money(borne)}." for food, borne in shared.borne_pence.items() if borne]
    for left in shared.left:
        weight = f"{wording.amount(left.milligrams)} of {names[left.food]}"
        if left.credit_pence:
            said.append(f"{weight} left over are worth {_money(left.credit_pence)} where they are kept.")
        else:
            said.append(f"{weight} left over have no use in the book and earn nothing back.")
    why = "at the price of each part" if shared.by == "worth" else "by weight, since a part has no price"
    return " ".join([*said, f"Shared {why}: common practice, no source."])


def _money(exact: Fraction) -> str:
    return wording.money(costs.pence(exact))


def _need(each: ClassNeed) -> NeedRow:
    if each.pieces is not None:
        return _need_of_pieces(each, each.piece_milligrams)
    given = _amount(each.benches_milligrams)
    if each.pool_milligrams:
        pool = f"{_amount(each.pool_milligrams)} once for all"
        given = f"{given} and {pool}" if each.benches_milligrams else pool
    return NeedRow(
        each.name, _amount(each.bench_exact), _amount(each.needed), given, _signed(each.allowance), _buy(each)
    )


def _need_of_pieces(each: ClassNeed, weight: int) -> NeedRow:
    def pieces(milligrams: Fraction) -> str:
        return wording.figure(milligrams / weight, 2) if weight else wording.figure(each.pieces or 0, 2)

    over = each.allowance / weight if weight else Fraction(0)
    return NeedRow(
        each.name,
        f"{wording.figure(each.pieces or 0, 2)}",
        pieces(each.needed),
        pieces(each.benches_milligrams),
        f"+{wording.figure(over, 2)}" if over else "none",
        _buy(each),
    )


def _signed(allowance: Fraction) -> str:
    if allowance == 0:
        return "none"
    return f"{'+' if allowance > 0 else wording.MINUS}{_amount(abs(allowance))}"


def _amount(milligrams: Fraction) -> str:
    if abs(milligrams) >= wording.KILOGRAMS_FROM_MILLIGRAMS:
        return wording.amount(milligrams, stores=True)
    return wording.exact_amount(milligrams)


def _buy(each: ClassNeed) -> str:
    if each.from_tap:
        return "from the tap"
    if each.bought is None:
        return f"{_amount(each.to_buy)}, no pack has a price"
    pack = each.bought.pack
    size, over = wording.amount(pack.milligrams, stores=True), _amount(each.bought.over_milligrams)
    if each.bought.over_pieces is not None:
        size, over = f"{pack.pieces}", wording.figure(each.bought.over_pieces)
    return f"{each.bought.packs} × {size}, {over if each.bought.over_milligrams else 'nothing'} over"


def _left(left: egg_counts.LeftOver) -> str:
    words = f"{wording.amount(left.milligrams)} of {left.name} left over"
    if not left.makes:
        return f"{words}; no recipe of the book makes a whole batch of it."
    made = wording.listed(
        (
            f"{wording.counted_words(each.batches, 'batch', 'batches')} of {each.title} "
            f"({wording.amount(each.milligrams)} each)"
            for each in left.makes
        ),
        "or",
    )
    return f"{words}. It would make {made}."


def _dough(
    recipe: RecipeData,
    scaled: ScaledRecipe,
    asked: Asked,
    code: str,
    name: str,
    shares: dict[str, Fraction],
) -> DoughRow:
    component = next(each for each in scaled.components if each.code == code)
    now: dict[str, Fraction] = {}
    for line in component.lines:
        if line.part == "recipe":
            now[line.food] = now.get(line.food, Fraction(0)) + line.exact_milligrams
    made, words = _made(recipe, asked, shares)
    return DoughRow(
        name,
        f"{wording.figure(sum(shares.values(), Fraction(0)), 3)} %",
        words,
        tuple(
            (
                recipe.food(food).name,
                f"{wording.figure(share, 2)} %",
                wording.exact_amount(now[food]),
                wording.exact_amount(made[food]) if made else "",
            )
            for food, share in shares.items()
        ),
    )


def _made(recipe: RecipeData, asked: Asked, shares: dict[str, Fraction]) -> tuple[dict[str, Fraction], str]:
    """(weights of the dough asked for, what was asked in words)."""
    if asked.dough_milligrams:
        made = bakers.from_total(asked.dough_milligrams, shares)
        return made, f"For {wording.amount(asked.dough_milligrams, stores=True)} of dough"
    if asked.known_milligrams and asked.known_food in shares:
        made = bakers.from_one(asked.known_food, asked.known_milligrams, shares)
        total = wording.amount(sum(made.values(), Fraction(0)), stores=True)
        known = f"{wording.amount(asked.known_milligrams)} of {recipe.food(asked.known_food).name}"
        return made, f"From {known}: {total} of dough"
    return {}, ""
