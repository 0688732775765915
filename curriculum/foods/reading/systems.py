"""Which measures a recipe is written in: what its words allow, said and never chosen in silence.

For pasting. A word such as "cup" means another size in each system; a text is looked through
for such words, and for the systems in which every one of them is known.

Worked example: a text with "cup" and "pint" can be US or imperial (no other system has both); with
"stick of butter" it can only be US. Which one it is, a person says.
"""

from collections.abc import Iterable

from curriculum.foods import units
from curriculum.foods.reading.lines import LineRead, read_line
from curriculum.foods.reading.words import sizes


def words_that_differ(text: str) -> dict[str, str]:
    """Each word of a text whose size depends on the system, with its size in each of them."""
    found: dict[tuple, tuple[str, str]] = {}
    for line in _lines(text):
        read = {system: _unit_of(line, system) for system in units.SYSTEMS}
        known = {system: unit for system, unit in read.items() if unit is not None}
        plain = read_line(line)
        if known and plain.amount is None:
            typed = line[plain.begins : plain.ends]
            found.setdefault(tuple(known.values()), (typed, sizes(known)))
    return dict(found.values())


def systems_for(text: str) -> tuple[str, ...]:
    """The systems in which every line can be read that can be read in any."""
    lines = [line for line in _lines(text) if any(_amount_in(line, system) for system in units.SYSTEMS)]
    return tuple(system for system in units.SYSTEMS if all(_amount_in(line, system) for line in lines))


def _lines(text: str) -> Iterable[str]:
    return (line for line in text.splitlines() if line.strip())


def _amount_in(line: str, system: str) -> LineRead | None:
    read = read_line(line, system)
    return read if read.amount is not None else None


def _unit_of(line: str, system: str) -> units.Unit | None:
    read = _amount_in(line, system)
    return read.amount.unit if read and read.amount.unit.dimension in ("mass", "volume") else None
