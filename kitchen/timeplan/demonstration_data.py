"""The parts of a demonstration: stages, things made before, batches; plain and frozen.

For every calculation of the demonstration (``demonstration`` makes them) and for what keeps and
shows them. Minutes count from the beginning of the demonstration; before it they are negative.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Shown:
    """One stage as a person chooses it: the step, its way, its minutes."""

    step: int
    way: str
    minutes: int


@dataclass(frozen=True, slots=True)
class Stage:
    """One stage of the demonstration: from ``starts`` for ``minutes``.

    ``way`` is "live", "swapped" (live, then a finished one comes in) or "stage_tray".
    ``brings_in`` holds steps whose finished thing is brought to the table for this stage.
    """

    step: int
    way: str
    starts: int
    minutes: int
    words: str
    cue: str = ""
    caution: str = ""
    techniques: tuple[str, ...] = ()
    brings_in: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Ahead:
    """One thing made before: the recipe as far as ``step``, only its wait where ``waited_only``.

    ``steps`` are all steps behind it. ``needed_at`` and ``needed_until`` are its first and last
    use; ``keeps_minutes`` how long it keeps (None: long enough). ``hands_minutes`` and
    ``whole_minutes`` are what it takes from the beginning, ``own_minutes`` the hands of steps
    that nothing named before it shares: shared work is done once, for all of them together.
    """

    step: int
    words: str
    components: tuple[str, ...]
    steps: tuple[int, ...]
    hands_minutes: int
    own_minutes: int
    whole_minutes: int
    needed_at: int
    needed_until: int
    keeps_minutes: int | None = None
    waited_only: bool = False
    is_shown: bool = True

    @property
    def ready_from(self) -> int | None:
        """The first minute at which it may be finished; None when it keeps long enough."""
        return None if self.keeps_minutes is None else self.needed_until - self.keeps_minutes

    @property
    def begun_by(self) -> int:
        """The last minute at which it may be begun."""
        return self.needed_at - self.whole_minutes


@dataclass(frozen=True, slots=True)
class Batches:
    """How many batches of one component are made before, and whether one lies on the table."""

    code: str
    name: str
    ahead: int
    live: int


@dataclass(frozen=True, slots=True)
class Demonstration:
    """The whole plan. ``beforehand`` are steps that are not shown; ``missed`` techniques not live."""

    title: str
    slot: int
    stages: tuple[Stage, ...]
    ahead: tuple[Ahead, ...]
    beforehand: tuple[int, ...]
    batches: tuple[Batches, ...]
    missed: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
    proved: bool = True
    by_hand: bool = False

    @property
    def minutes(self) -> int:
        """Minutes of the class it takes."""
        return sum(stage.minutes for stage in self.stages)

    @property
    def preparation_minutes(self) -> int:
        """Minutes of hands before the class; what several things share counts once."""
        return sum(each.own_minutes for each in self.ahead)

    @property
    def live_techniques(self) -> frozenset[str]:
        """Codes of the techniques whose hands the class sees."""
        return frozenset(
            code for stage in self.stages if stage.way != "stage_tray" for code in stage.techniques
        )

    @property
    def trays(self) -> int:
        """How many finished things are brought in."""
        return len(self.ahead)
