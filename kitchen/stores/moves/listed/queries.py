"""The college's lists of reasons as they stand now."""

from kitchen.stores.moves.listed.college import SHIPPED, TITLES, Kept, Listed, listed, offered
from kitchen.stores.moves.listed.models import Reason


def reasons_of(which: str) -> tuple[Listed, ...]:
    """One list whole, retired ones among them. One query."""
    rows = Reason.objects.filter(which=which).order_by("pk")
    return listed(which, [Kept(row.code, row.words, row.retired_at is not None) for row in rows])


def choices(which: str) -> tuple[tuple[str, str], ...]:
    """What a form offers of a list. One query."""
    return offered(reasons_of(which))


def all_lists() -> list[tuple[str, str, tuple[Listed, ...]]]:
    """Every list with its code and title. One query."""
    kept: dict[str, list[Kept]] = {which: [] for which in SHIPPED}
    for row in Reason.objects.order_by("pk"):
        kept[row.which].append(Kept(row.code, row.words, row.retired_at is not None))
    return [(which, TITLES[which], listed(which, kept[which])) for which in SHIPPED]
