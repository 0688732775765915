"""Every movement of a lot added up: what came, where it went, what is left.

For the pages and papers of a recall. Milligrams in, milligrams out; the movements of one lot in
the order of their numbers. A correction counts under the kind of the movement that it corrects.

The law: received + counted = issued - returned + made + wasted + left. ``faults`` reads the
ledger independently of the sums and names every movement that does not fit.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from curriculum.wording import amount

INTO_KITS = ("issue", "supplementary")
BACK = ("return",)
CAME = ("receive", "rework")


@dataclass(frozen=True, slots=True)
class Moved:
    """One movement; ``way`` is its kind, or the kind of what it corrects; ``made`` the lot it went into."""

    lot: int
    number: int
    milligrams: int
    balance_milligrams: int
    way: str
    kit: int | None = None
    made: int | None = None


@dataclass(frozen=True, slots=True)
class Account:
    """The sums of one lot in milligrams; ``counted`` may be below nothing."""

    received: int = 0
    counted: int = 0
    issued: int = 0
    returned: int = 0
    made: int = 0
    wasted: int = 0
    left: int = 0

    @property
    def missing(self) -> int:
        """What the sums do not account for; 0 when every movement has its place."""
        came = self.received + self.counted
        return came - (self.issued - self.returned + self.made + self.wasted + self.left)


def account(moves: Iterable[Moved], left: int) -> Account:
    """The sums of one lot that holds ``left`` in the book."""
    sums = dict.fromkeys(("received", "counted", "issued", "returned", "made", "wasted"), 0)
    for each in moves:
        column, sign = _column(each)
        if column:
            sums[column] += sign * each.milligrams
    return Account(**sums, left=left)


def _column(each: Moved) -> tuple[str, int]:
    if each.made is not None:
        return "made", -1
    if each.way in INTO_KITS:
        return "issued", -1
    if each.way in BACK:
        return "returned", 1
    if each.way in CAME:
        return "received", 1
    if each.way == "waste":
        return "wasted", -1
    return ("counted", 1) if each.way == "count" else ("", 0)


def faults(moves: Iterable[Moved], left: int) -> tuple[str, ...]:
    """What is wrong with the ledger of one lot, in words; empty when all of it is accounted for."""
    rows = sorted(moves, key=lambda each: each.number)
    found, balance = [], 0
    for at, each in enumerate(rows, start=1):
        if each.number != at:
            found.append(f"Movement {at} is not there.")
            break
        balance += each.milligrams
        if balance != each.balance_milligrams:
            found.append(
                f"Movement {at} says {amount(each.balance_milligrams)} are left, not {amount(balance)}."
            )
            break
    missing = account(rows, left).missing
    if missing:
        found.append(f"{amount(abs(missing))} are not accounted for.")
    return tuple(found)


def used_by_kit(moves: Iterable[Moved]) -> dict[int, int]:
    """What each kit had and did not bring back, in milligrams; a kit that brought all back stands with 0."""
    used: dict[int, int] = {}
    for each in moves:
        if each.kit is not None and each.made is None and each.way in (*INTO_KITS, *BACK):
            used[each.kit] = used.get(each.kit, 0) - each.milligrams
    return used
