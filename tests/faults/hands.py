"""A process of its own that does deeds as a tablet or a till would, one order after another.

``python -m tests.faults.hands`` reads orders, one line of JSON each (``Order``). For each it says
"ready", waits for a line, does the deeds ``first``, ``first`` + 1 … and says a line for each one
that was acknowledged: its number and the answer; at the end "done" and its seconds of processor
time. Whoever starts it may kill it at any moment; a line that was said is a promise.

Hands that were given a ``meeting`` wait for each other before each deed, so that all of them do
it in the same instant, thousands of times in one run.
"""

import json
import mmap
import os
import struct
import sys
import time
import uuid
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

import django

NAMESPACE = uuid.UUID("6f1d2b58-6a39-4a35-9d3c-0f0d1c5b9a11")
SLOT = struct.calcsize("q")


@dataclass(frozen=True)
class Order:
    """What a pair of hands is to do, and who of how many it is; ``careless`` hands lock nothing."""

    deed: str
    first: int
    count: int
    who: int = 0
    of: int = 1
    meeting: str = ""
    careless: bool = False


def key_of(deed: str, number: int, who: int | str = "") -> uuid.UUID:
    """The same deed sent twice has the same key; with ``who`` it is that person's own."""
    return uuid.uuid5(NAMESPACE, f"{deed} {number} {who}".strip())


class Meeting:
    """Where hands wait for each other: a file with one whole number for each of them."""

    def __init__(self, path: str, who: int, of: int) -> None:
        with open(path, "r+b") as file:
            self.map = mmap.mmap(file.fileno(), of * SLOT)
        self.who, self.of = who, of

    def wait(self, number: int) -> None:
        """Until everybody has come as far; then go, a moment apart that differs from try to try."""
        struct.pack_into("q", self.map, self.who * SLOT, number + 1)
        until = time.monotonic() + 120
        while min(struct.unpack_from(f"{self.of}q", self.map)) <= number:
            if time.monotonic() > until:
                raise TimeoutError("The others did not come.")
            time.sleep(0.0001)
        time.sleep((number * 37 + self.who * 53) % 100 / 50_000)


@contextmanager
def careless_hands() -> Iterator[None]:
    """The planted fault: no row is locked, and on SQLite nobody waits to write before reading."""
    from django.db import connection
    from django.db.models import QuerySet

    locks, mode = QuerySet.select_for_update, getattr(connection, "transaction_mode", None)
    QuerySet.select_for_update = lambda rows, *_, **__: rows._chain()
    connection.transaction_mode = "DEFERRED"
    try:
        yield
    finally:
        QuerySet.select_for_update, connection.transaction_mode = locks, mode


#: Seconds by which careless hands come later at each further try.
LATER = 0.003


def work(order: Order) -> None:
    """Do the deeds, each in a transaction of its own; what breaks a deed is its answer."""
    from tests.faults.deeds import DEEDS

    begin, do = DEEDS[order.deed]
    facts = begin(order.who)
    meeting = Meeting(order.meeting, order.who, order.of) if order.meeting else None
    print("ready", flush=True)
    sys.stdin.readline()
    began = time.process_time()
    for number in range(order.first, order.first + order.count):
        if meeting:
            meeting.wait(number)
        if order.careless and number % (2 * order.of) == order.who:
            # At every second try one comes a little later: else the quicker of two deeds is always first.
            time.sleep(number * LATER)
        try:
            answer = do(facts, number, key_of(order.deed, number))
        except Exception as error:
            answer = f"broke-{type(error).__name__}"
            print(error, file=sys.stderr)
        print(number, answer, flush=True)
    print("done", time.process_time() - began, flush=True)


def main() -> None:
    """One order after another until nobody gives one."""
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "kitchen.website.settings")
    django.setup()
    for line in iter(sys.stdin.readline, ""):
        order = Order(**json.loads(line))
        if order.careless:
            with careless_hands():
                work(order)
        else:
            work(order)


if __name__ == "__main__":
    main()
