"""One thing that a person fixed, as the calculation reads it.

For ``pinned.py``, which puts it into the question, and for the words about it.
"""

from dataclasses import dataclass

START, OVEN, ORDER = "start", "oven", "order"


@dataclass(frozen=True, slots=True)
class PinData:
    """A start, an oven or an order, of one part of a step at one bench.

    ``bench`` is empty for the demonstration of a step. ``minute`` counts from the start of the
    lesson. In an order this part has ended before the part ``other_...`` begins. ``number``
    tells the page which pin it is.
    """

    number: int
    kind: str
    bench: str
    step: int
    part: int = 0
    minute: int = 0
    oven: str = ""
    other_bench: str = ""
    other_step: int = 0
    other_part: int = 0
