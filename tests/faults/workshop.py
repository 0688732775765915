"""Starts, orders and kills the processes of ``tests.faults.hands`` against the test's database."""

import json
import os
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import asdict
from urllib.parse import quote

from django.db import connection

from tests.conftest import ROOT
from tests.faults.hands import SLOT, Order

#: How often a race is run: few in the everyday suite, thousands when somebody asks for them.
TRIES = int(os.environ.get("KITCHEN_TRIES", "20"))
#: Hands that wait for the next race; a new process takes a second, an order nothing.
_idle: list["Hands"] = []


def address() -> str:
    """DATABASE_URL of the database that this test runs on."""
    facts = connection.settings_dict
    if connection.vendor == "sqlite":
        return f"sqlite:///{facts['NAME']}"
    host = quote(facts["HOST"] or "localhost", safe="")
    password = f":{quote(facts['PASSWORD'])}" if facts["PASSWORD"] else ""
    port = f":{facts['PORT']}" if facts["PORT"] else ""
    return f"postgresql://{quote(facts['USER'])}{password}@{host}{port}/{facts['NAME']}"


class Hands:
    """One process; ``answers`` holds what it was told for its last order, by number.

    ``worked`` are the seconds of processor time that the order took it.
    """

    def __init__(self, deed: str = "", first: int = 0, count: int = 0) -> None:
        self.answers: dict[int, str] = {}
        self.worked = 0.0
        self.process = subprocess.Popen(
            [sys.executable, "-m", "tests.faults.hands"],
            cwd=ROOT,
            env={**os.environ, "DATABASE_URL": address()},
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )
        if deed:
            self.order(Order(deed, first, count))

    def order(self, order: Order) -> None:
        """Give it something to do; it begins when it is told to go."""
        self.answers = {}
        self._say(json.dumps(asdict(order)))

    def wait_until_ready(self) -> None:
        said = self.process.stdout.readline()
        if said != "ready\n":
            self.kill()
            raise AssertionError(f"The hands could not begin: {said!r}")

    def go(self) -> None:
        """Let it begin."""
        self._say("go")

    def read(self, most: int | None = None) -> None:
        """Read answers until the order is done or the process ends, or until so many have come."""
        for line in self.process.stdout:
            number, answer = line.split()
            if number == "done":
                self.worked = float(answer)
                return
            self.answers[int(number)] = answer
            if most is not None and len(self.answers) >= most:
                return

    def finish(self) -> dict[int, str]:
        """Read to the end, and let the process end; it must end well."""
        self.read()
        self.dismiss()
        demand_whole(self.answers)
        return self.answers

    def dismiss(self) -> None:
        """Nothing more to do; it must end well."""
        self.process.stdin.close()
        with self.process.stdout:
            assert self.process.wait(60) == 0

    def kill(self) -> dict[int, str]:
        """Kill it now, and read what it still managed to say."""
        self.process.kill()
        if not self.process.stdout.closed:
            with self.process.stdout:
                self.read()
        with suppress(BrokenPipeError):
            self.process.stdin.close()
        self.process.wait(60)
        return self.answers

    def _say(self, line: str) -> None:
        self.process.stdin.write(f"{line}\n")
        self.process.stdin.flush()


def race(
    deeds: str | Sequence[str],
    count: int,
    processes: int = 3,
    *,
    first: int = 0,
    meet: bool = False,
    careless: bool = False,
) -> list[dict[int, str]]:
    """Deeds sent by several processes at once; what each was told.

    One deed is sent by all, several by one each. With ``meet`` each try begins in the same
    instant for all of them.
    """
    names = [deeds] * processes if isinstance(deeds, str) else list(deeds)
    for each in _idle:
        each.worked = 0.0
    hands = [_idle.pop() if _idle else Hands() for _ in names]
    try:
        _at_once(hands, names, range(first, first + count), meet, careless)
    except BaseException:
        for each in hands:
            each.kill()
        raise
    _idle.extend(hands)
    if not careless:
        demand_whole(*(each.answers for each in hands))
    return [each.answers for each in hands]


def _at_once(hands: list[Hands], names: list[str], numbers: range, meet: bool, careless: bool) -> None:
    with tempfile.NamedTemporaryFile(prefix="kitchen-meeting-") as meeting:
        meeting.write(bytes(SLOT * len(hands)))
        meeting.flush()
        path = meeting.name if meet else ""
        for who, (each, deed) in enumerate(zip(hands, names, strict=True)):
            each.order(Order(deed, numbers.start, len(numbers), who, len(hands), path, careless))
        for each in hands:
            each.wait_until_ready()
        for each in hands:
            each.go()
        for each in hands:
            each.read()


def demand_whole(*told: dict[int, str]) -> None:
    """Nobody was answered with an error of the program or of the database."""
    broken = {answer for answers in told for answer in answers.values() if answer.startswith("broke-")}
    assert not broken, f"The hands were told {sorted(broken)}; what they said stands above."


def worked() -> float:
    """Seconds of processor time that all hands together had in the last race."""
    return sum(each.worked for each in _idle)


def dismiss_all() -> None:
    """End the hands that wait."""
    while _idle:
        _idle.pop().dismiss()
