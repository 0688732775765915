"""A process of its own that does one kind of deed again and again, as a tablet or a till would.

``python -m tests.faults.hands DEED FIRST COUNT`` does the deeds FIRST, FIRST + 1 … and prints
a line for each one that was acknowledged: its number and the answer. Whoever starts it may
kill it at any moment; a printed line is a promise.
"""

import os
import sys
import uuid

import django

NAMESPACE = uuid.UUID("6f1d2b58-6a39-4a35-9d3c-0f0d1c5b9a11")


def key_of(deed: str, number: int) -> uuid.UUID:
    """The same deed sent twice has the same key."""
    return uuid.uuid5(NAMESPACE, f"{deed} {number}")


def main(deed: str, first: int, count: int) -> None:
    """Do the deeds, each in a transaction of its own."""
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "kitchen.website.settings")
    django.setup()
    from tests.faults.deeds import DEEDS

    begin, do = DEEDS[deed]
    facts = begin()
    print("ready", flush=True)
    sys.stdin.readline()
    for number in range(first, first + count):
        print(number, do(facts, number, key_of(deed, number)), flush=True)


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]), int(sys.argv[3]))
