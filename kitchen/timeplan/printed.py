"""The papers of a time plan as they would be printed now: the lecturer's sheet, strips, the wall.

Each says on it that a sheet of any other plan is void, so the plan's number is a facet of every
part. Words arrive as they are printed; ``rules`` is a ``queries.Ruling``.
"""

from collections.abc import Collection
from typing import Any

from curriculum.paper import NORMAL
from kitchen.lessons.papers.force import WHOLE, Facets, Issue, facets_of
from kitchen.lessons.papers.ready import Ready
from kitchen.timeplan import paper
from kitchen.timeplan.wall.paper import wall_paper


def lecturer_ready(rules: Any, facts: str) -> Ready:
    """The lecturer's sheet."""

    def draw(parts: Collection[str]) -> bytes:
        return paper.lecturer_sheet(rules.plan, facts, rules.stamp)

    return Ready(_issue("lecturer", rules, {WHOLE: _facets(rules, facts)}), draw)


def strips_ready(rules: Any, facts: str, size: float = NORMAL) -> Ready:
    """One strip a bench."""

    def draw(parts: Collection[str]) -> bytes:
        benches = tuple(bench for bench in rules.plan.benches if bench.name in parts)
        return paper.strips(rules.plan, facts, benches, rules.stamp, size)

    parts = {bench.name: _facets(rules, facts) for bench in rules.plan.benches}
    return Ready(_issue("strips", rules, parts), draw)


def wall_ready(rules: Any, facts: str, sheet: str = "A3") -> Ready:
    """The plan in one picture, A3 or A4."""

    def draw(parts: Collection[str]) -> bytes:
        return wall_paper(rules.plan, facts, rules.stamp, sheet)

    return Ready(_issue("wall", rules, {WHOLE: _facets(rules, facts)}), draw)


def _issue(name: str, rules: Any, parts: dict[str, Facets]) -> Issue:
    return Issue(name, rules.number, rules.at, parts)


def _facets(rules: Any, facts: str) -> Facets:
    return facets_of({"plan": rules.stamp, "time and place": facts})
