"""The short code that a copy or a variant of a recipe is offered."""

import re
from collections.abc import Collection

LONGEST = 20
#: Words that stand where a code stands in the addresses of the book.
PAGES = frozenset({"write"})


def free_code(code: str, taken: Collection[str], word: str = "") -> str:
    """The code with a word or a number behind it that no recipe has: "leek-quiche-2", "leek-no-gluten".

    ``taken`` are codes of the book; capitals do not tell two codes apart. At most 20 characters.
    """
    known = {each.lower() for each in taken}
    ends = [word] if word else []
    ends += [f"{word}-{number}" if word else str(number) for number in range(2, len(known) + 3)]
    for end in ends:
        found = _joined(code, end)
        if found.lower() not in known:
            return found
    return ""


def own_or_free(code: str, taken: Collection[str]) -> str:
    """The code itself where no recipe has it, else the code with a number behind it."""
    return free_code(code, taken) if code.lower() in {each.lower() for each in taken} else code


def _joined(code: str, end: str) -> str:
    end = re.sub(r"[^a-z0-9]+", "-", end.lower()).strip("-")[: LONGEST - 2]
    return f"{code[: LONGEST - 1 - len(end)].rstrip('-')}-{end}"
