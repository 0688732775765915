"""A day at the stores as numbered deeds, for hands that are killed in the middle of it.

Day ``n`` has the lesson ``d_lesson(n)`` and deeds ``n * len(STEPS)`` … in the order of ``STEPS``: kits
made, a bowl of eggs, kit lines that take from it, a weight, the issue, more of something, what
came back, a count, a delivery. Every deed has its key, so that all of them can be sent again.
"""

import os
import signal
import traceback
from collections.abc import Callable, Iterator
from contextlib import contextmanager, nullcontext
from datetime import timedelta
from unittest import mock
from uuid import UUID

from django.db import connection
from django.db.transaction import Atomic

from curriculum.errors import RuleBroken
from curriculum.foods.models import Food
from curriculum.people.models import User
from curriculum.people.queries import now_at, the_college
from kitchen.lessons.models import Lesson
from kitchen.stores.actions import accept_kits, issue_kits
from kitchen.stores.deliveries.actions import check_line
from kitchen.stores.deliveries.entries import LineEntry
from kitchen.stores.deliveries.models import Delivery
from kitchen.stores.made.actions import give_from_made, make_lot
from kitchen.stores.made.bowls import MadeEntry
from kitchen.stores.models import KitLine, KitSet, Lot
from kitchen.stores.moves.actions import count_lots
from kitchen.stores.moves.counting import Counted
from kitchen.stores.moves.lesson.actions import give_more, take_back_from_lesson
from kitchen.stores.moves.lesson.back import CameBack
from kitchen.stores.weighout.actions import weigh
from tests.builders.cast import TODAY
from tests.faults.hands import careless_hands, key_of


def d_lesson(number: int) -> str:
    """The code of the lesson of a day."""
    return f"DAY{number:05d}"


def make_kits(day: int, by: User, key: UUID) -> str:
    """The kits of the lesson are made."""
    return f"set-{accept_kits(lesson=lesson(day), by=by, key=key).pk}"


def make_bowl(day: int, by: User, key: UUID) -> str:
    """Two eggs go into a bowl."""
    made = now_at(the_college()).replace(hour=0, minute=1, second=0, microsecond=0)
    entry = MadeEntry("egg_beaten", ((eggs(day), 2),), 100_000, made, made + timedelta(days=2))
    return f"bowl-{make_lot(lesson=lesson(day), entry=entry, by=by, key=key).pk}"


def take_from_bowl(day: int, by: User, key: UUID) -> str:
    """The kit takes from the bowl instead of whole eggs."""
    lines = KitLine.objects.filter(kit__kit_set__lesson__code=d_lesson(day), kit__kit_set__state="accepted")
    wanted = lines.filter(food__code__startswith="egg").values_list("pk", flat=True)
    bowl = Lot.objects.get(made_in__code=d_lesson(day))
    return f"lines-{give_from_made(lot=bowl, lines=list(wanted), by=by, key=key)}"


def weigh_out(day: int, by: User, key: UUID) -> str:
    """Everything is weighed."""
    kit_set = KitSet.objects.get(lesson__code=d_lesson(day), state="accepted")
    lines = KitLine.objects.filter(kit__kit_set=kit_set, kit__kind="bench")
    weights = set(lines.values_list("kit__code", "food__code"))
    return f"weighed-{weigh(kit_set=kit_set, weights=weights, by=by, key=key).weighed}"


def issue(day: int, by: User, key: UUID) -> str:
    """The kits leave."""
    return f"moved-{issue_kits(lesson=lesson(day), by=by, key=key)}"


def give(day: int, by: User, key: UUID) -> str:
    """A bench is given 10 g of butter more."""
    said = {"place": None, "food": Food.objects.get(code="butter"), "milligrams": 10_000, "reason": "Dropped"}
    return f"kit-{give_more(lesson=lesson(day), by=by, key=key, **said).pk}"


def bring_back(day: int, by: User, key: UUID) -> str:
    """Of the flour 30 g come back sealed and 20 g opened, which are thrown away."""
    rows = [CameBack(Lot.objects.get(code="FLOUR").pk, 30_000, 20_000, "Dropped")]
    said = {"rows": rows, "sealed_and_cold": True}
    return f"back-{take_back_from_lesson(lesson=lesson(day), by=by, key=key, **said)}"


def count(day: int, by: User, key: UUID) -> str:
    """The day's own lot of eggs is counted: one egg is broken."""
    lot = Lot.objects.get(code=eggs(day))
    counted = Counted(lot.code, 57_000, 2, "Broken")
    return f"differ{count_lots(counts=[counted], by=by, key=key)[lot.code]}"


def deliver(day: int, by: User, key: UUID) -> str:
    """A kilogram of butter comes and is checked."""
    entry = LineEntry("butter", 1, 1_000_000, label_read=True, contains=("milk",), decicelsius=40, seen=10**6)
    line = check_line(delivery=Delivery.objects.get(), entry=entry, on=TODAY, by=by, key=key)
    return f"line-{line.number}-lot-{line.lot_id}"


STEPS = (make_kits, make_bowl, take_from_bowl, weigh_out, issue, give, bring_back, count, deliver)


def lesson(day: int) -> Lesson:
    """The lesson of a day."""
    return Lesson.objects.get(code=d_lesson(day))


def eggs(day: int) -> str:
    """The code of the lot of eggs of a day."""
    return f"EGGS{day}"


def begin(who: int) -> User:
    """The person at the stores."""
    return User.objects.get(username="stores")


def a_step(by: User, number: int, key: UUID) -> str:
    """The deed of that number. A refusal here is a fault: there is enough of everything."""
    day, step = divmod(number, len(STEPS))
    try:
        return STEPS[step](day, by, key)
    except RuleBroken as refused:
        return f"broke-{refused.code}"


def a_day(number: int) -> None:
    """Every deed of one day, with the keys under which they are sent again later."""
    by = begin(0)
    for each in range(number * len(STEPS), (number + 1) * len(STEPS)):
        a_step(by, each, key_of("work", each))


def killed_on_its_way(nobody: None, number: int, key: UUID) -> str:
    """A child does the whole day and is killed before one of its statements, another one each day."""
    return _in_a_child(number, nullcontext, Executioner(number * STRIDE % STATEMENTS))


def killed_with_torn_transactions(nobody: None, number: int, key: UUID) -> str:
    """The planted fault: every statement stands at once, and the child dies before it writes a movement."""
    return _in_a_child(number, torn_transactions, Executioner(number % 4, 'INSERT INTO "kitchen_movement"'))


def _in_a_child(number: int, manner: Callable, executioner: "Executioner") -> str:
    connection.close()
    child = os.fork()
    if not child:
        try:
            with manner(), connection.execute_wrapper(executioner):
                a_day(number)
        except Exception:
            traceback.print_exc()
        finally:
            os._exit(0)
    _, status = os.waitpid(child, 0)
    return "killed" if os.WIFSIGNALED(status) else "lived"


class Executioner:
    """Kills its own process before the statement of that number, of those that begin so."""

    def __init__(self, before: int, begin: str = "") -> None:
        self.left, self.begin = before, begin

    def __call__(self, execute: Callable, statement: str, *facts: object) -> object:
        if statement.startswith(self.begin):
            if not self.left:
                os.kill(os.getpid(), signal.SIGKILL)
            self.left -= 1
        return execute(statement, *facts)


@contextmanager
def torn_transactions() -> Iterator[None]:
    """Transactions that hold nothing together; Django is told that they do."""

    def enter(self: Atomic) -> None:
        self.outer = connection.in_atomic_block
        connection.ensure_connection()
        connection.in_atomic_block = True

    def leave(self: Atomic, *_: object) -> None:
        connection.in_atomic_block = self.outer

    patched = mock.patch.multiple(Atomic, __enter__=enter, __exit__=leave)
    with careless_hands(), patched:  # outside of a transaction PostgreSQL locks nothing either
        yield


#: About as many statements has a day; the stride has no factor with it, so that each day dies elsewhere.
STATEMENTS, STRIDE = 240, 89
DAY_DEEDS: dict[str, tuple[Callable, Callable]] = {
    "work": (begin, a_step),
    "killed": (lambda who: None, killed_on_its_way),
    "torn": (lambda who: None, killed_with_torn_transactions),
}
