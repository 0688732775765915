"""Names of what the time plan's question of a lesson is about, the same for all who ask it."""


def part_name(bench: str, step: int, part: int) -> str:
    """Name of one task of a step; parts count from 0 in the order in which they happen."""
    return f"{bench}/{step}/{part}"


def show_name(step: int) -> str:
    """Name of the demonstration of a step."""
    return f"demonstration/{step}"


def taste_name(bench: str) -> str:
    """Name of the tasting of a bench's plate."""
    return f"{bench}/taste"
