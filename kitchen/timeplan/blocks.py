"""Blocks: tasks that keep a fixed distance, so that the rule by hand places them at once.

For ``byhand.py`` only. Members of a wave begin together; a window whose least equals its
longest is a fixed distance. Where distances tie a knot, only waves are joined.
"""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from kitchen.timeplan.bounds import tails
from kitchen.timeplan.problem import Problem


@dataclass(frozen=True, slots=True)
class Block:
    """Tasks at fixed distances: (task name, minutes after the block's start)."""

    members: tuple[tuple[str, int], ...]
    urgency: tuple[int, ...]


def ways_to_block(problem: Problem) -> Iterator[list[Block]]:
    """Blocks with fixed distances joined; then, if that ties knots, waves only."""
    for joined in (True, False):
        blocks = _blocks(problem, joined)
        if blocks is not None:
            yield blocks


def _blocks(problem: Problem, join_fixed: bool) -> list[Block] | None:
    """Blocks in a fixed order, or None when the distances contradict one another."""
    links: dict[str, list[tuple[str, int]]] = defaultdict(list)

    def link(a: str, b: str, minutes: int) -> None:
        links[a].append((b, minutes))
        links[b].append((a, -minutes))

    for group in problem.together:
        for other in group[1:]:
            link(group[0], other, 0)
    if join_fixed:
        for window in problem.windows:
            if window.least == window.longest:
                link(window.before, window.after, problem.task[window.before].minutes + window.least)
    offset: dict[str, int] = {}
    members: list[list[str]] = []
    for name in problem.order:
        if name not in offset:
            found = _reach(name, links)
            if found is None:
                return None
            offset.update(found)
            members.append(list(found))
    return _ordered(problem, members, offset)


def _reach(name: str, links: dict[str, list[tuple[str, int]]]) -> dict[str, int] | None:
    found, todo = {name: 0}, [name]
    while todo:
        here = todo.pop()
        for there, minutes in links[here]:
            if there not in found:
                found[there] = found[here] + minutes
                todo.append(there)
            elif found[there] != found[here] + minutes:
                return None
    return found


def _ordered(problem: Problem, members: list[list[str]], offset: dict[str, int]) -> list[Block] | None:
    tail = tails(problem)
    place = {bench.name: i for i, bench in enumerate(problem.benches)}
    block_of = {name: i for i, names in enumerate(members) for name in names}
    blocks = []
    for names in members:
        first = min(offset[name] for name in names)
        behind = max(problem.task[n].minutes + tail[n] + offset[n] - first for n in names)
        bench = min(place.get(problem.task[n].bench or "", 0) for n in names)
        blocks.append(Block(tuple((n, offset[n] - first) for n in names), (-behind, bench, len(blocks))))
    edges = {(block_of[w.before], block_of[w.after]) for w in problem.windows}
    return None if _has_loop(len(blocks), {e for e in edges if e[0] != e[1]}) else blocks


def _has_loop(count: int, edges: set[tuple[int, int]]) -> bool:
    waiting = [0] * count
    after: list[list[int]] = [[] for _ in range(count)]
    for a, b in edges:
        waiting[b] += 1
        after[a].append(b)
    ready = [i for i in range(count) if not waiting[i]]
    done = 0
    while ready:
        done += 1
        for b in after[ready.pop()]:
            waiting[b] -= 1
            if not waiting[b]:
                ready.append(b)
    return done < count
