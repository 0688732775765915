"""Where the demonstration college lies, as files, and how it is read.

In a checkout the files are in ``fixtures/`` beside the apps; in an installed wheel they
are in ``kitchen/fixtures``.
"""

import hashlib
import json
from functools import cache
from pathlib import Path

import kitchen

FOLDERS = (
    Path(kitchen.__path__[0]) / "fixtures",
    Path(kitchen.__path__[0]).parent / "fixtures",
)


@cache
def folder() -> Path:
    """The folder of the fixtures. FileNotFoundError when the installation lacks it."""
    for path in FOLDERS:
        if (path / "college.json").is_file():
            return path
    raise FileNotFoundError("The files of the demonstration college are not installed.")


@cache
def read(name: str) -> dict:
    """One file as plain JSON values. The answer is shared: do not change it."""
    return json.loads((folder() / name).read_text(encoding="utf-8"))


def recipe_names() -> list[str]:
    """The files of the recipes, the ordinary ones before their variants."""
    return [f"recipes/{path.name}" for path in sorted((folder() / "recipes").glob("*.json"))]


@cache
def fingerprint() -> str:
    """One hash of every file, so that a database made from other files is known."""
    digest = hashlib.sha256()
    for path in sorted(folder().rglob("*.json")):
        digest.update(path.relative_to(folder()).as_posix().encode() + b"\0" + path.read_bytes())
    return digest.hexdigest()
