"""The frozen class files beside the checkout, when they are there."""

import csv
from pathlib import Path

CLASSES = Path(__file__).resolve().parents[3] / "shared" / "data" / "classes"


def class_names(*marks: str) -> list[str]:
    """Names of the class files that hold one of the marks ("B8-"); none when the folder is absent."""
    names = sorted(path.stem for path in CLASSES.glob("*.json"))
    return [name for name in names if any(mark in name for mark in marks)]


def reference() -> dict[str, dict[str, int]]:
    """Finishes and bounds known of each class file, by name."""
    with (CLASSES / "reference.csv").open(encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    return {row.pop("name"): {key: int(value) for key, value in row.items()} for row in rows}
