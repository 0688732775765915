"""What leading costs, as the page of the plan says it: a sentence and a small table.

For ``pages.py``: every figure is in ``price.Led`` already.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from curriculum.wording import number
from kitchen.timeplan.fits import step_words
from kitchen.timeplan.plan import LessonPlan
from kitchen.timeplan.price import Led


@dataclass(frozen=True, slots=True)
class PriceLine:
    """One row of the table; ``this`` marks the way in which the plan on the page is led."""

    head: str
    finish: str
    more: str
    bound: str
    this: bool


@dataclass(frozen=True, slots=True)
class PriceFacts:
    """The sentence over the table, its rows, and how far was looked."""

    lead: str
    lines: tuple[PriceLine, ...]
    looked: str


def price_facts(prices: Iterable[Led], plan: LessonPlan) -> PriceFacts | None:
    """What the page shows of the prices; None where not even the class led by nobody has a plan."""
    rows = tuple(prices)
    free = next((each for each in rows if each.waves == 0 and each.finish_minutes is not None), None)
    if free is None:
        return None
    return PriceFacts(
        lead=_lead(plan, free),
        lines=tuple(_line(each, free, plan) for each in rows),
        looked=_looked(rows),
    )


def _lead(plan: LessonPlan, free: Led) -> str:
    """ "Led in two waves on the fives: 172 min. Led by nobody: 165 min. The price is 7 min ..."."""
    this = f"{_way_words(plan.waves, plan.clock_minutes, plan.by_the_minute)}: {plan.finish_minutes} min."
    nobody = f"Led by nobody: {free.finish_minutes} min."
    price = plan.finish_minutes - (free.finish_minutes or 0)
    most = plan.finish_minutes - free.bound_minutes
    if most == 0:
        return f"{this} {nobody} Leading costs no minute."
    least = f"no plan at all is shorter than {free.bound_minutes} min."
    if price == most:
        return f"{this} {nobody} The price of leading is {price} min; {least}"
    costs = f"The price of leading is {price} min" if price else "Leading costs no minute"
    return f"{this} {nobody} {costs} as far as was found, and {most} min at most, since {least}"


def _way_words(waves: int, clock: int, by_the_minute: tuple[int, ...]) -> str:
    if waves == 0:
        return "Led by nobody"
    together = "all together" if waves == 1 else f"in {number(waves)} waves"
    on = {1: "by the minute", 5: "on the fives", 10: "on the tens"}.get(clock, f"every {clock} min")
    off = f", {step_words(by_the_minute).lower()} by the minute" if by_the_minute else ""
    return f"Led {together} {on}{off}"


def _line(led: Led, free: Led, plan: LessonPlan) -> PriceLine:
    found = led.finish_minutes
    more = (found or 0) - (free.finish_minutes or 0)
    return PriceLine(
        head=_way_words(led.waves, plan.clock_minutes, led.by_the_minute),
        finish=f"{found} min" if found is not None else "no plan found",
        more="" if found is None else f"{more} min" if more else "none",
        bound=f"{led.bound_minutes} min",
        this=led.waves == plan.waves and led.by_the_minute == plan.by_the_minute,
    )


def _looked(rows: tuple[Led, ...]) -> str:
    if all(each.searched for each in rows if not each.by_the_minute):
        return "Each way was searched for a few seconds."
    return "Found at once by our own rule; a longer search may find shorter ones, and proves more."
