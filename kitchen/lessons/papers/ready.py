"""A paper that can be printed now: what it would say, and how it is drawn with some of its parts."""

from collections.abc import Callable, Collection
from dataclasses import dataclass

from kitchen.lessons.papers.force import Issue


@dataclass(frozen=True, slots=True)
class Ready:
    """``draw`` takes the parts to print and gives the bytes of a PDF."""

    issue: Issue
    draw: Callable[[Collection[str]], bytes]

    def only(self, parts: Collection[str]) -> "Ready":
        """The same paper with some of its parts."""
        return Ready(self.issue.only(parts), self.draw)

    def content(self) -> bytes:
        """The PDF with all parts of the issue."""
        return self.draw(tuple(self.issue.parts))
