"""Who may open what: one row for each URL and method, one answer for each person.

A topic writes its rows in ``tests/access/<topic>.py`` as ``ROWS``. ``test_access_matrix``
walks every URL of the project: one without a row fails, and so does a method that a page
answers without having said so.
"""

import importlib
import pkgutil
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from typing import Any

from django.urls import URLPattern, URLResolver

import tests.access

#: The cast, in the order of the table. ``cover`` stands in for the lecturer of the lesson.
PEOPLE = (
    "anonymous",
    "lecturer",
    "other_lecturer",
    "cover",
    "stores",
    "technician",
    "student",
    "other_student",
    "second_marker",
    "verifier",
    "manager",
    "external",
)
METHODS = ("GET", "POST", "PUT", "PATCH", "DELETE")
#: What an answer may be: HEAD and OPTIONS follow from GET.
SIGN_IN = 302

Facts = dict[str, Any]


@dataclass(frozen=True)
class Row:
    """One URL and method.

    ``url`` is its name ("stores:kits"); ``method`` one of METHODS; ``expect`` person -> status,
    made with ``answers``. ``kwargs`` and ``data`` are facts, or functions of the cast that give
    them (and may build what the page needs: everything is taken back after each request).
    ``headers`` are sent with the request, ``json`` sends ``data`` as JSON.
    """

    url: str
    method: str
    expect: dict[str, int]
    kwargs: Facts | Callable[[Any], Facts] = field(default_factory=dict)
    data: Facts | Callable[[Any], Facts] = field(default_factory=dict)
    headers: Facts = field(default_factory=dict)
    json: bool = False

    def __str__(self) -> str:
        return f"{self.method} {self.url}"


def answers(*pairs: int | str, rest: int | None = None, anonymous: int = SIGN_IN) -> dict[str, int]:
    """The answers of one row: ``answers(200, "lecturer cover", 404, "other_student", rest=403)``.

    Whoever is not signed in is sent to the sign-in page unless ``anonymous`` says otherwise.
    A person named twice, misspelt or forgotten (without ``rest``) is refused.
    """
    told = {"anonymous": anonymous}
    for status, names in zip(pairs[::2], pairs[1::2], strict=True):
        for name in str(names).split():
            if name not in PEOPLE or name in told:
                raise ValueError(f"{name} is not in the cast, or is named twice.")
            told[name] = int(status)
    left = [name for name in PEOPLE if name not in told]
    if left and rest is None:
        raise ValueError(f"No answer for {', '.join(left)}.")
    return told | dict.fromkeys(left, rest)


def everybody(status: int, anonymous: int = SIGN_IN) -> dict[str, int]:
    """The same answer for all who are signed in."""
    return answers(rest=status, anonymous=anonymous)


def all_rows() -> list[Row]:
    """The rows of every topic."""
    modules = sorted(found.name for found in pkgutil.iter_modules(tests.access.__path__))
    return [row for name in modules for row in importlib.import_module(f"tests.access.{name}").ROWS]


def url_names(patterns: Iterable[URLPattern | URLResolver], namespace: str = "") -> Iterator[str]:
    """The full name of every URL; a pattern without a name is given as its route in brackets."""
    for pattern in patterns:
        if isinstance(pattern, URLResolver):
            inner = f"{namespace}{pattern.namespace}:" if pattern.namespace else namespace
            yield from url_names(pattern.url_patterns, inner)
        else:
            yield f"{namespace}{pattern.name}" if pattern.name else f"[{pattern.pattern}]"


def listed_twice(names: Iterable[str]) -> list[str]:
    """Names that stand in the lists of addresses more than once."""
    return sorted(name for name, times in Counter(names).items() if times > 1)


def without_a_row(names: Iterable[str], rows: Iterable[Row]) -> list[str]:
    """URLs that no row speaks of."""
    spoken = {row.url for row in rows}
    return sorted(name for name in set(names) if name not in spoken)


def without_a_url(names: Iterable[str], rows: Iterable[Row]) -> list[str]:
    """Rows that speak of a URL that is no longer there."""
    known = set(names)
    return sorted(str(row) for row in rows if row.url not in known)


def unsaid_methods(rows: Iterable[Row]) -> list[tuple[Row, str]]:
    """For each URL (by one of its rows) the methods that no row allows: they must answer 405."""
    by_url: dict[str, list[Row]] = {}
    for row in rows:
        by_url.setdefault(row.url, []).append(row)
    return [
        (same[0], method)
        for same in by_url.values()
        for method in METHODS
        if method not in {row.method for row in same}
    ]
