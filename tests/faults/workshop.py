"""Starts, reads and kills the processes of ``tests.faults.hands`` against the test's database."""

import os
import subprocess
import sys
from urllib.parse import quote

from django.db import connection

from tests.conftest import ROOT


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
    """One process; ``answers`` holds what it was told, by number."""

    def __init__(self, deed: str, first: int, count: int) -> None:
        self.answers: dict[int, str] = {}
        self.process = subprocess.Popen(
            [sys.executable, "-m", "tests.faults.hands", deed, str(first), str(count)],
            cwd=ROOT,
            env={**os.environ, "DATABASE_URL": address()},
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )

    def wait_until_ready(self) -> None:
        said = self.process.stdout.readline()
        if said != "ready\n":
            self.kill()
            raise AssertionError(f"The hands could not begin: {said!r}")

    def go(self) -> None:
        """Let it begin."""
        with self.process.stdin:
            self.process.stdin.write("go\n")

    def read(self, most: int | None = None) -> None:
        """Read answers until the process ends, or until so many have come."""
        for line in self.process.stdout:
            number, answer = line.split()
            self.answers[int(number)] = answer
            if most is not None and len(self.answers) >= most:
                return

    def finish(self) -> dict[int, str]:
        """Read to the end; the process must end well."""
        assert self._read_out() == 0
        return self.answers

    def kill(self) -> dict[int, str]:
        """Kill it now, and read what it still managed to say."""
        self.process.kill()
        self._read_out()
        return self.answers

    def _read_out(self) -> int:
        with self.process.stdout:
            self.read()
        return self.process.wait(60)


def race(deed: str, count: int, processes: int = 3) -> list[dict[int, str]]:
    """The same deeds sent by several processes at once; what each was told."""
    hands = [Hands(deed, 0, count) for _ in range(processes)]
    for each in hands:
        each.wait_until_ready()
    for each in hands:
        each.go()
    return [each.finish() for each in hands]
