"""Codes that stand on paper: eight characters that nobody misreads."""

#: Without 0 O 1 I L U, which are misread or make words.
ALPHABET = "23456789ABCDEFGHJKMNPQRSTVWXYZ"
LENGTH = 8


def code_of(numbers: list[int]) -> str:
    """Eight whole numbers (any size) as a code; the caller draws them at random."""
    return "".join(ALPHABET[number % len(ALPHABET)] for number in numbers[:LENGTH])
