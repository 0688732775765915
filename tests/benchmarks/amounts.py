"""Reads many ingredient lines whose meaning is known, and counts what was read wrongly.

    python -m tests.benchmarks.amounts [--lines 100000] [--seed 20261125]

Prints one JSON line for each kind of line and one for all: how many, the seconds, crashes, silent
misreadings (an amount without a trouble that is not what was written), and lines with a meaning
that were handed back (``unread``).
"""

import argparse
from collections import Counter

from tests.benchmarks.machine import fixed_loop, measured, say
from tests.builders.amount_lines import judged, lines


def main() -> None:
    """All kinds together, then each."""
    said = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    said.add_argument("--lines", type=int, default=100_000)
    said.add_argument("--seed", type=int, default=20261125)
    asked = said.parse_args()
    machine = fixed_loop()
    written = list(lines(asked.lines, asked.seed))
    found, facts = measured(lambda: judged(iter(written)))
    kinds = {name: Counter(line.kind for line in each) for name, each in found.items()}
    say("amounts", machine, lines=len(written), **facts, **{name: len(each) for name, each in found.items()})
    for kind in sorted({line.kind for line in written}):
        counts = {name: each[kind] for name, each in kinds.items()}
        say(f"amounts: {kind}", machine, lines=sum(counts.values()), **counts)


if __name__ == "__main__":
    main()
