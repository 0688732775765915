"""What of the kitchen is taken at each minute while a plan is laid out by hand.

For ``byhand.py`` and ``tidy.py``: hands, lecturer, assessor and supplies as one count a minute, ovens
as lists of bakes. It says whether something is free; it never decides what goes first.
"""

from collections import defaultdict
from dataclasses import dataclass, field

from kitchen.timeplan.problem import Bake, Demonstration, Oven, Problem, Task


@dataclass
class Taken:
    """What is taken at each minute while a plan is being laid out."""

    problem: Problem
    shows: dict[str, int]
    levels: dict[tuple[str, str], list[int]] = field(default_factory=dict)
    inside: dict[str, list[tuple[int, int, Bake, str]]] = field(default_factory=lambda: defaultdict(list))
    oven_of: dict[str, Oven] = field(default_factory=dict)
    needed: dict[str, list[tuple[tuple[str, str], int, int]]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for each in self.problem.breaks:
            for key, units, _ in [*self._needed_to_show(), (("person", "assessor"), 1, 1)]:
                self._add(key, each.start, each.minutes, units)
        for show in self.problem.demonstrations:
            if show.name in self.shows:
                self.put_show(show, self.shows[show.name])

    def put_show(self, show: Demonstration, start: int) -> None:
        """Take every cook and the lecturer for a demonstration."""
        for key, units, _ in self._needed_to_show():
            self._add(key, start, show.minutes, units)

    def show_blocked_at(self, show: Demonstration, start: int) -> int | None:
        """The last minute of a demonstration at which somebody is busy; None when all can watch."""
        return self._short_at(self._needed_to_show(), start, show.minutes)

    def _needed_to_show(self) -> list[tuple[tuple[str, str], int, int]]:
        cooks = [(("bench", bench.name), bench.cooks, bench.cooks) for bench in self.problem.benches]
        return [*cooks, (("person", "lecturer"), 1, 1)]

    def _add(self, key: tuple[str, str], start: int, minutes: int, units: int) -> None:
        level = self.levels.setdefault(key, [])
        if len(level) < start + minutes:
            level.extend([0] * (start + minutes - len(level)))
        for minute in range(start, start + minutes):
            level[minute] += units

    def needs(self, task: Task) -> list[tuple[tuple[str, str], int, int]]:
        """(what, units, how many there are) for everything but ovens."""
        if task.name not in self.needed:
            self.needed[task.name] = self._needs(task)
        return self.needed[task.name]

    def _needs(self, task: Task) -> list[tuple[tuple[str, str], int, int]]:
        out = []
        if task.hands and task.bench:
            out.append((("bench", task.bench), 1, self.problem.bench[task.bench].cooks))
        for person, wanted in (("lecturer", task.lecturer), ("assessor", task.assessor)):
            if wanted:
                out.append((("person", person), 1, 1))
        supply = {s.name: s.units for s in self.problem.supplies}
        return out + [(("supply", name), units, supply[name]) for name, units in task.uses]

    def put(self, task: Task, start: int, sign: int = 1) -> None:
        """Take (sign 1) or give back (sign -1) what a task needs."""
        for key, units, _ in self.needs(task):
            self._add(key, start, task.minutes, sign * units)
        if task.bake is None:
            return
        if sign < 0:
            oven = self.oven_of.pop(task.name)
            self.inside[oven.name] = [x for x in self.inside[oven.name] if x[3] != task.name]
        else:
            oven = self.oven_of[task.name]
            self.inside[oven.name].append((start, start + task.minutes, task.bake, task.name))

    def blocked_at(self, task: Task, start: int) -> int | None:
        """The last minute of the task at which something is short; None when nothing is."""
        return self._short_at(self.needs(task), start, task.minutes)

    def _short_at(
        self, needs: list[tuple[tuple[str, str], int, int]], start: int, minutes: int
    ) -> int | None:
        for key, units, most in needs:
            level = self.levels.get(key, [])
            for minute in range(min(start + minutes, len(level)) - 1, start - 1, -1):
                if level[minute] + units > most:
                    return minute
        return None

    def oven_for(self, task: Task, start: int) -> Oven | None:
        """The best oven for a task's bake at that minute: one already at its heat, then the emptiest."""
        bake = task.bake
        if bake is None:
            return None
        fitting = [o for o in self.problem.ovens if task.may_go_in(o) and self.takes(o, bake, start)]
        return min(fitting, key=lambda o: self._liking(o, bake, start), default=None)

    def _liking(self, oven: Oven, bake: Bake, start: int) -> tuple[int, int]:
        earlier = [x for x in self.inside[oven.name] if x[1] <= start]
        last = max(earlier, key=lambda x: x[1], default=None)
        return (oven.between_minutes(last[2], bake) if last else oven.heat_up_minutes(bake)), len(earlier)

    def takes(self, oven: Oven, bake: Bake, start: int) -> bool:
        """Whether the oven reaches the bake's heat, and has the trays and the time for it."""
        if not oven.takes(bake) or start < oven.heat_up_minutes(bake):
            return False
        end, beside = start + bake.minutes, []
        for s, e, other, _ in self.inside[oven.name]:
            if e <= start:
                if start - e < oven.between_minutes(other, bake):
                    return False
            elif end <= s:
                if s - end < oven.between_minutes(bake, other):
                    return False
            elif not _may_share(bake, start, other, s):
                return False
            else:
                beside.append((s, e, other.trays))
        return all(
            bake.trays + sum(t for s, e, t in beside if s <= minute < e) <= oven.trays
            for minute in {start, *(s for s, _, _ in beside if start <= s < end)}
        )


def _may_share(a: Bake, a_start: int, b: Bake, b_start: int) -> bool:
    if a.heat != b.heat:
        return False
    if a.alone or b.alone:
        return a.stays == b.stays and a_start == b_start
    return a.begins_at == b.begins_at
