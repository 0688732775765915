"""Equipment of a bench, written one thing a line: "2 mixing bowl", "blowtorch (shared)"."""

import re

from curriculum.recipes.data import EquipmentData

_LINE = re.compile(r"^(?:(\d{1,3})\s*[x×]?\s+)?(.+?)(\s*\(shared[^)]*\))?$", re.IGNORECASE)


def equipment_from(text: str) -> tuple[EquipmentData, ...]:
    """What was written, a line each. ValueError naming the line that is no thing."""
    return tuple(_read(line.strip()) for line in text.splitlines() if line.strip())


def equipment_words(equipment: tuple[EquipmentData, ...]) -> str:
    """The same back as text."""
    return "\n".join(
        (f"{each.count} " if each.count > 1 else "")
        + each.item.replace("_", " ")
        + (" (shared)" if each.shared_by_room else "")
        for each in equipment
    )


def _read(line: str) -> EquipmentData:
    found = _LINE.match(line)
    item = re.sub(r"[^\w]+", "_", found[2].casefold()).strip("_") if found else ""
    count = int(found[1] or 1) if found else 0
    if not item or item.isdecimal() or count < 1:
        raise ValueError(f"“{line[:40]}” names no thing. Write such as 2 mixing bowl.")
    return EquipmentData(item[:60], count, bool(found[3]))
