"""Codes that stand on paper: eight characters that nobody misreads, and squares for a camera."""

from collections.abc import Iterator
from functools import lru_cache
from itertools import groupby

import segno

#: Without 0 O 1 I L U, which are misread or make words.
ALPHABET = "23456789ABCDEFGHJKMNPQRSTVWXYZ"
LENGTH = 8


def code_of(numbers: list[int]) -> str:
    """Eight whole numbers (any size) as a code; the caller draws them at random."""
    return "".join(ALPHABET[number % len(ALPHABET)] for number in numbers[:LENGTH])


@lru_cache(maxsize=2_000)
def bars(words: str) -> tuple[int, tuple[str, ...]]:
    """A QR code as (modules a side, rectangles of its dark stretches in modules), drawn as one path."""
    matrix = segno.make(words, error="m", micro=False).matrix
    stretches = [
        f"{start} {-row - 1} {length} 1 re"
        for row, cells in enumerate(matrix)
        for start, length in _dark(bytes(cells))
    ]
    return len(matrix), tuple(stretches)


def _dark(cells: bytes) -> Iterator[tuple[int, int]]:
    """(first module, how many) of each dark stretch of a row."""
    start = 0
    for dark, stretch in groupby(cells):
        length = len(list(stretch))
        if dark:
            yield start, length
        start += length
