"""The time plan's question in plain words: who, what, where, how long, what must follow what.

For every part of the time plan: the rule by hand, the bounds, the solver and the check
all read this and nothing else. Minutes are whole minutes after the class may begin to
cook; temperatures are tenths of a degree Celsius. Each dataclass refuses nonsense with a
ValueError when it is made; a person never sees that, since lessons are judged before.

A task with hands takes one cook of its bench. A demonstration takes every cook and the
lecturer. A bake takes trays in one oven, which holds one temperature at a time. Anything
else that is limited (rings, mixers, chiller shelves, a machine of a textbook problem) is
a supply with so many units.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cached_property

from kitchen.timeplan.ways import Way


def _refuse_unless(ok: bool, words: str) -> None:
    if not ok:
        raise ValueError(words)


def _refuse_doubles(names: Iterable[str], what: str) -> None:
    seen: set[str] = set()
    for name in names:
        _refuse_unless(bool(name), f"a {what} has no name")
        _refuse_unless(name not in seen, f"{what} {name} is there twice")
        seen.add(name)


@dataclass(frozen=True, slots=True)
class Bench:
    """One bench with one or two cooks; pace 1000 is the recipe's, 1250 a quarter slower."""

    name: str
    cooks: int = 1
    pace_per_mille: int = 1000

    def __post_init__(self) -> None:
        _refuse_unless(1 <= self.cooks <= 2, f"bench {self.name} has {self.cooks} cooks; one or two fit")
        _refuse_unless(100 <= self.pace_per_mille <= 5000, f"bench {self.name}: pace {self.pace_per_mille}")


@dataclass(frozen=True, slots=True)
class Stay:
    """One part of a bake: so many minutes at a temperature, or with the oven off (None)."""

    minutes: int
    decicelsius: int | None

    def __post_init__(self) -> None:
        _refuse_unless(self.minutes > 0, "a stay in an oven lasts at least a minute")
        _refuse_unless(self.decicelsius is None or 0 < self.decicelsius < 5000, "no oven setting")


@dataclass(frozen=True, slots=True)
class Bake:
    """How an oven is set for one task: its stays in order, the door, the trays, the kind of heat."""

    stays: tuple[Stay, ...]
    door_shut: bool = False
    trays: int = 1
    heat: str = ""

    def __post_init__(self) -> None:
        _refuse_unless(bool(self.stays), "a bake has at least one stay")
        _refuse_unless(self.stays[0].decicelsius is not None, "a bake does not begin with the oven off")
        _refuse_unless(self.trays >= 1, "a bake takes at least one tray")

    @property
    def minutes(self) -> int:
        """Minutes from in to out."""
        return sum(stay.minutes for stay in self.stays)

    @property
    def begins_at(self) -> int:
        """Tenths of a degree when it goes in."""
        return self.stays[0].decicelsius or 0

    @property
    def alone(self) -> bool:
        """Whether only trays with the very same start, end and setting may share the oven."""
        return self.door_shut or len(self.stays) > 1


@dataclass(frozen=True, slots=True)
class Oven:
    """One oven (or one deck set apart): trays, range, and how fast it heats and cools.

    ``heat_seconds`` and ``cool_seconds`` are seconds for ten degrees Celsius. ``heats`` are
    the kinds of heat it has (empty: any); ``may_stand_off``: it may end a bake off and shut.
    """

    name: str
    trays: int
    heat_seconds: int = 60
    cool_seconds: int = 120
    cold_decicelsius: int = 200
    least_decicelsius: int = 0
    most_decicelsius: int = 5000
    heats: tuple[str, ...] = ()
    may_stand_off: bool = True

    def __post_init__(self) -> None:
        _refuse_unless(self.trays >= 1, f"oven {self.name} holds no tray")
        _refuse_unless(self.heat_seconds >= 0 and self.cool_seconds >= 0, f"oven {self.name}: seconds")
        _refuse_unless(self.least_decicelsius <= self.most_decicelsius, f"oven {self.name}: range")

    def takes(self, bake: Bake) -> bool:
        """Whether the oven has the heat, the range, the trays and the way to end that the bake needs."""
        temperatures = [stay.decicelsius for stay in bake.stays if stay.decicelsius is not None]
        in_range = all(self.least_decicelsius <= t <= self.most_decicelsius for t in temperatures)
        has_heat = not bake.heat or not self.heats or bake.heat in self.heats
        may_end = self.may_stand_off or len(temperatures) == len(bake.stays)
        return in_range and has_heat and may_end and bake.trays <= self.trays

    def change_minutes(self, before: int, after: int) -> int:
        """Minutes from one temperature to another, rounded up (tenths of a degree)."""
        seconds = self.heat_seconds if after > before else self.cool_seconds
        return -(-abs(after - before) * seconds // 6000)

    def heat_up_minutes(self, bake: Bake) -> int:
        """Minutes from cold until the bake may go in."""
        return self.change_minutes(self.cold_decicelsius, bake.begins_at)

    def between_minutes(self, first: Bake, second: Bake) -> int:
        """Least minutes between the end of one bake and the start of the next.

        After a part with the oven off nobody knows how far it has cooled, so the longer of
        "still hot" and "cold again" counts.
        """
        hot = [stay.decicelsius for stay in first.stays if stay.decicelsius is not None][-1]
        left_at = [hot] if first.stays[-1].decicelsius is not None else [hot, self.cold_decicelsius]
        return max(self.change_minutes(t, second.begins_at) for t in left_at)


@dataclass(frozen=True, slots=True)
class Supply:
    """Something of which there are so many units at once: rings, mixers, chiller shelves."""

    name: str
    units: int
    words: str = ""

    def __post_init__(self) -> None:
        _refuse_unless(self.units >= 0, f"supply {self.name}: {self.units} units")


@dataclass(frozen=True, slots=True)
class Pause:
    """A break of the whole class: no hands, no demonstration, no check. Food may wait, bake or chill."""

    start: int
    minutes: int

    def __post_init__(self) -> None:
        _refuse_unless(self.start >= 0 and self.minutes > 0, f"a break of {self.minutes} min at {self.start}")

    @property
    def end(self) -> int:
        """The minute at which work goes on."""
        return self.start + self.minutes


@dataclass(frozen=True, slots=True)
class Demonstration:
    """Shown once to everybody: every cook and the lecturer are there for its minutes.

    ``earliest`` and ``latest`` as in ``Task``.
    """

    name: str
    minutes: int
    words: str = ""
    earliest: int = 0
    latest: int | None = None

    def __post_init__(self) -> None:
        _refuse_unless(self.minutes > 0, f"demonstration {self.name} lasts no minute")
        _refuse_no_start(self)


@dataclass(frozen=True, slots=True)
class Task:
    """One piece of work or of waiting, without interruption.

    ``shown_by`` names the demonstration that must have ended before it begins. It begins at
    ``earliest`` or later and at ``latest`` or before (a start that a person fixed is both), in
    one of ``only_ovens`` (empty: any). ``ways`` are other ways to do its hands (``choices.py``).
    ``step`` and ``words`` are for people; no calculation reads them.
    """

    name: str
    minutes: int
    bench: str | None = None
    hands: bool = False
    lecturer: bool = False
    assessor: bool = False
    bake: Bake | None = None
    uses: tuple[tuple[str, int], ...] = ()
    shown_by: str | None = None
    step: int | None = None
    words: str = ""
    earliest: int = 0
    latest: int | None = None
    only_ovens: tuple[str, ...] = ()
    ways: tuple[Way, ...] = ()

    def __post_init__(self) -> None:
        _refuse_unless(self.minutes >= 0, f"task {self.name} lasts {self.minutes} minutes")
        _refuse_no_start(self)
        _refuse_unless(not self.only_ovens or self.bake is not None, f"task {self.name}: ovens of no bake")
        _refuse_unless(not self.hands or self.bench is not None, f"task {self.name}: hands of no bench")
        _refuse_unless(not self.ways or self.bake is None, f"task {self.name}: a bake has one way")
        _refuse_unless(
            self.bake is None or self.bake.minutes == self.minutes,
            f"task {self.name}: its stays in the oven do not add up to {self.minutes} minutes",
        )
        _refuse_unless(all(units > 0 for _, units in self.uses), f"task {self.name} uses no unit")

    @property
    def called(self) -> str:
        """Its name for people."""
        return self.words or self.name

    @property
    def by_people(self) -> bool:
        """Whether somebody is there for its minutes: not in a break."""
        return self.hands or self.lecturer or self.assessor

    @property
    def is_fixed(self) -> bool:
        """Whether a person fixed its start or its oven."""
        return self.earliest == self.latest or bool(self.only_ovens)

    def may_go_in(self, oven: Oven) -> bool:
        """Whether it bakes, the oven takes its bake, and it is not fixed to others."""
        named = not self.only_ovens or oven.name in self.only_ovens
        return self.bake is not None and named and oven.takes(self.bake)


def _refuse_no_start(thing: Task | Demonstration) -> None:
    _refuse_unless(thing.earliest >= 0, f"{thing.name} begins before the class does")
    _refuse_unless(
        thing.latest is None or thing.earliest <= thing.latest,
        f"{thing.name} begins at {thing.earliest} at the earliest and {thing.latest} at the latest",
    )


@dataclass(frozen=True, slots=True)
class Window:
    """``after`` begins at least and at most so many minutes after the end of ``before``."""

    before: str
    after: str
    least: int = 0
    longest: int | None = None

    def __post_init__(self) -> None:
        _refuse_unless(self.least >= 0, f"{self.before} to {self.after}: least {self.least}")
        _refuse_unless(
            self.longest is None or self.least <= self.longest,
            f"{self.before} to {self.after}: least {self.least} is over longest {self.longest}",
        )


@dataclass(frozen=True)
class Problem:
    """The whole question.

    ``together`` holds groups of tasks that begin at the same minute (the benches of one
    wave); ``on_the_clock`` holds tasks and demonstrations whose start is a multiple of
    ``clock_minutes``; ``shows_in_order`` keeps demonstrations in the order in which they
    stand. All three only make a plan easier to lead: ``free()`` leaves them out, and bounds
    are always of the free question. What a person fixed is part of the question and stays.
    ``usable_minutes`` is what the slot leaves for cooking; a plan may be longer, then it does
    not fit.
    """

    tasks: tuple[Task, ...]
    windows: tuple[Window, ...] = ()
    benches: tuple[Bench, ...] = ()
    ovens: tuple[Oven, ...] = ()
    supplies: tuple[Supply, ...] = ()
    demonstrations: tuple[Demonstration, ...] = ()
    usable_minutes: int | None = None
    together: tuple[tuple[str, ...], ...] = ()
    on_the_clock: frozenset[str] = frozenset()
    clock_minutes: int = 1
    shows_in_order: bool = False
    breaks: tuple[Pause, ...] = ()

    def __post_init__(self) -> None:
        _refuse_unless(bool(self.tasks), "there is nothing to plan")
        _refuse_doubles([t.name for t in self.tasks] + [d.name for d in self.demonstrations], "task")
        for things, what in ((self.benches, "bench"), (self.ovens, "oven"), (self.supplies, "supply")):
            _refuse_doubles((thing.name for thing in things), what)
        _refuse_unless(self.clock_minutes >= 1, "the clock steps by at least a minute")
        for task in self.tasks:
            self._refuse_strangers(task)
        known = set(self.task)
        for window in self.windows:
            _refuse_unless({window.before, window.after} <= known, f"window of no task: {window}")
        joined = [name for group in self.together for name in group]
        _refuse_doubles(joined, "task in a wave")
        _refuse_unless(set(joined) <= known, "a wave names a task that is not there")
        _ = self.order

    def _refuse_strangers(self, task: Task) -> None:
        supply = {s.name: s.units for s in self.supplies}
        known_bench = task.bench is None or task.bench in self.bench
        _refuse_unless(known_bench, f"task {task.name} is at no known bench")
        shown = {d.name for d in self.demonstrations}
        _refuse_unless(task.shown_by is None or task.shown_by in shown, f"task {task.name}: shown by nobody")
        for name, units in (*task.uses, *(use for way in task.ways for use in way.uses)):
            _refuse_unless(name in supply, f"task {task.name} uses {name}, of which nothing is known")
            _refuse_unless(
                units <= supply[name], f"task {task.name} uses {units} of {name}, there are {supply[name]}"
            )
        if task.bake is not None:
            _refuse_unless(
                any(task.may_go_in(oven) for oven in self.ovens),
                f"task {task.name}: no oven takes this bake",
            )

    @cached_property
    def task(self) -> dict[str, Task]:
        """Task by name."""
        return {task.name: task for task in self.tasks}

    @cached_property
    def bench(self) -> dict[str, Bench]:
        """Bench by name."""
        return {bench.name: bench for bench in self.benches}

    @cached_property
    def order(self) -> tuple[str, ...]:
        """Task names so that what comes before stands before; ValueError names a loop."""
        waiting = {name: 0 for name in self.task}
        for window in self.windows:
            waiting[window.after] += 1
        ready = [name for name, count in waiting.items() if count == 0]
        done: list[str] = []
        while ready:
            name = ready.pop(0)
            done.append(name)
            for window in self.windows_after[name]:
                waiting[window.after] -= 1
                if waiting[window.after] == 0:
                    ready.append(window.after)
        loop = sorted(set(waiting) - set(done))
        _refuse_unless(not loop, f"these come before one another in a loop: {', '.join(loop)}")
        return tuple(done)

    @cached_property
    def windows_after(self) -> dict[str, list[Window]]:
        """Windows that begin with a task, by its name."""
        out: dict[str, list[Window]] = {name: [] for name in self.task}
        for window in self.windows:
            out[window.before].append(window)
        return out

    @cached_property
    def windows_before(self) -> dict[str, list[Window]]:
        """Windows that end with a task, by its name."""
        out: dict[str, list[Window]] = {name: [] for name in self.task}
        for window in self.windows:
            out[window.after].append(window)
        return out

    @cached_property
    def holds(self) -> tuple[Window, ...]:
        """Windows in which food stands: those of one bench; an order between benches holds nothing."""
        return tuple(w for w in self.windows if self.task[w.before].bench == self.task[w.after].bench)

    def unpinned(self) -> "Problem":
        """The same question without fixed starts and ovens."""
        return replace(
            self,
            tasks=tuple(replace(t, earliest=0, latest=None, only_ovens=()) for t in self.tasks),
            demonstrations=tuple(replace(d, earliest=0, latest=None) for d in self.demonstrations),
        )

    def after_breaks(self, start: int, minutes: int) -> int:
        """The first minute from ``start`` on at which so many minutes of people meet no break."""
        for each in sorted(self.breaks, key=lambda pause: pause.start):
            if minutes and start < each.end and start + minutes > each.start:
                start = each.end
        return start

    def free(self) -> "Problem":
        """The same question led by nobody, without waves, clock and order: the one that bounds are of."""
        return replace(self, together=(), on_the_clock=frozenset(), clock_minutes=1, shows_in_order=False)
