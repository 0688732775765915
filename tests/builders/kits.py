"""The two lessons of the main job as the kits see them: benches, variants, lots."""

from datetime import date

from kitchen.stores.allocation import LineNeed, LotData
from kitchen.stores.kits import Batch, KitPlan, plan_kits, weighing_rank
from kitchen.stores.needs import class_need
from tests.builders.recipes import college_recipe, fixture

QUICHE_DAY = date(2027, 2, 16)
ECLAIR_DAY = date(2027, 2, 17)


def bench_batches(recipes: list[str], portions: int) -> list[Batch]:
    """One bench kit for each recipe code, numbered from 1."""
    return [
        Batch("bench", str(n), college_recipe(code), portions, n) for n, code in enumerate(recipes, start=1)
    ]


def class_batches(benches: list[str], ordinary: str, portions: int) -> list[Batch]:
    """Bench kits, then one batch to demonstrate and one to spare."""
    return [
        *bench_batches(benches, portions),
        Batch("demonstration", "D", college_recipe(ordinary), portions),
        Batch("spare", "S", college_recipe(ordinary), portions),
    ]


def quiche_kits(ahead_steps: tuple[int, ...] = (1, 2)) -> tuple[KitPlan, ...]:
    """Seven pairs, two of them a variant, paste made ahead."""
    return plan_kits(class_batches(["R01"] * 5 + ["V1", "V2"], "R01", 8), ahead_steps)


def eclair_kits() -> tuple[KitPlan, ...]:
    """Five pairs, one of them without milk."""
    return plan_kits(class_batches(["R03"] * 4 + ["V3"], "R03", 12))


def line_needs(kits: tuple[KitPlan, ...]) -> list[LineNeed]:
    """What the kits take out of the lots, free-from kits first."""
    return [
        LineNeed(
            (kit.label, line.position),
            line.food,
            line.stock_milligrams,
            line.unit_milligrams,
            bool(kit.free_from),
        )
        for kit in sorted(kits, key=weighing_rank)
        for line in kit.lines
        if line.stock_milligrams
    ]


def college_lots() -> list[LotData]:
    """The lots that are in the stores of the demonstration college."""
    return [
        LotData(
            code=lot["code"],
            food=lot["food"],
            on_hand_milligrams=lot["milligrams"],
            received_on=date.fromisoformat(lot["received_on"]),
            date_kind=lot["date_kind"],
            dated_on=date.fromisoformat(lot["date"]) if lot.get("date") else None,
            reserved_free_from=bool(lot.get("reserved_for")),
            opened=bool(lot.get("opened_on")),
        )
        for lot in fixture("stores.json")["lots"]
        if lot["state"] == "in_store"
    ]


def needs_in_grams(kits: tuple[KitPlan, ...]) -> dict[str, float | int]:
    """Food to grams, or to pieces where it is counted."""
    return {each.food: each.pieces or each.milligrams / 1000 for each in class_need(kits)}
