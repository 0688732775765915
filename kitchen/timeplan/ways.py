"""Another way to do one piece of hands' work: by hand in place of the machine, with other minutes.

For ``problem.py``, whose tasks carry such ways, and ``choices.py``, which settles them.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Way:
    """Minutes of hands, what of the room they use, and whether the lecturer stands beside."""

    minutes: int
    uses: tuple[tuple[str, int], ...] = ()
    lecturer: bool = False
    name: str = ""

    def __post_init__(self) -> None:
        if self.minutes < 1:
            raise ValueError(f"the way {self.name} lasts {self.minutes} minutes")
        if not all(units > 0 for _, units in self.uses):
            raise ValueError(f"the way {self.name} uses no unit")
