"""The steps of a recipe as a demonstrator sees them: hands, then a wait; or a wait, then hands.

For ``demonstration_search`` and ``demonstration``. A step that waits first (cool, then
unmould) is two nodes, so that the cooled dish can be brought in ready. Minutes are whole.
"""

from dataclasses import dataclass

from curriculum.recipes.data import RecipeData, StepData

LIVE, SWAPPED, TRAY, READY, OUT = "live", "swapped", "tray", "ready", "out"
#: Minutes to show a tray, and to take a finished one in place of the one just begun.
#: Common practice, no source.
TRAY_MINUTES, SWAP_MINUTES = 2, 1


@dataclass(frozen=True, slots=True)
class Edge:
    """``after`` takes what ``before`` gives: at least ``least``, at most ``longest`` minutes later.

    Both count from the end of the hands of ``before``, so the wait of ``before`` is part of
    them; ``keeps`` is how long the finished thing keeps, None for long enough.
    """

    before: int
    after: int
    least: int
    keeps: int | None


@dataclass(frozen=True, slots=True)
class Node:
    """Hands for ``hands`` minutes, then the food stays for ``stay`` minutes."""

    step: int
    hands: int
    stay: int
    techniques: tuple[str, ...] = ()


class Steps:
    """The nodes of a recipe in an order in which what is needed stands before, with their edges."""

    def __init__(self, recipe: RecipeData) -> None:
        self.recipe = recipe
        self.nodes: list[Node] = []
        self.edges: list[Edge] = []
        self._last: dict[int, int] = {}
        for step in _in_order(recipe):
            self._add(step)
        count = len(self.nodes)
        self.before: list[list[Edge]] = [[] for _ in range(count)]
        self.after: list[list[Edge]] = [[] for _ in range(count)]
        for edge in self.edges:
            self.before[edge.after].append(edge)
            self.after[edge.before].append(edge)
        self.ancestors = self._closure()

    def _add(self, step: StepData) -> None:
        hands, stay = step.active_minutes, step.waiting_minutes
        windows = [each.longest_minutes for each in step.after if each.longest_minutes is not None]
        first = len(self.nodes)
        if step.wait_first and stay:
            self.nodes += [Node(step.position, 0, stay), Node(step.position, hands, 0, step.techniques)]
            self.edges.append(Edge(first, first + 1, stay, min(windows, default=None)))
        else:
            self.nodes.append(Node(step.position, hands, stay, step.techniques))
        for each in step.after:
            before = self._last[each.needs]
            least = self.nodes[before].stay + each.least_minutes
            self.edges.append(Edge(before, first, least, each.longest_minutes))
        self._last[step.position] = len(self.nodes) - 1

    def _closure(self) -> list[int]:
        """Bits of all nodes that stand behind each node, itself included."""
        closed: list[int] = []
        for index in range(len(self.nodes)):
            bits = 1 << index
            for edge in self.before[index]:
                bits |= closed[edge.before]
            closed.append(bits)
        return closed

    def node_of(self, position: int) -> int:
        """The node with the hands of a step. KeyError for a step that is not there."""
        return self._last[position]

    def is_last(self, index: int) -> bool:
        """Whether nothing is made of it any more."""
        return not self.after[index]

    def shown_minutes(self, index: int, way: str) -> int:
        """Minutes of the class that a node takes."""
        hands = self.nodes[index].hands
        return {LIVE: hands, SWAPPED: hands + SWAP_MINUTES, TRAY: TRAY_MINUTES, READY: 0, OUT: 0}[way]

    def hands_of(self, bits: int) -> int:
        """Minutes of hands of some nodes, given as bits; each counts once."""
        return sum(node.hands for each, node in enumerate(self.nodes) if bits >> each & 1)

    def minutes_behind(self, index: int) -> int:
        """Minutes from the beginning until it is finished, waits included, by one who loses no time."""
        ends: dict[int, int] = {}
        for each in range(index + 1):
            if self.ancestors[index] >> each & 1:
                starts = max((ends[edge.before] + edge.least for edge in self.before[each]), default=0)
                ends[each] = starts + self.nodes[each].hands
        return max(ends[index] + self.nodes[index].stay, self.hands_of(self.ancestors[index]))

    def steps_behind(self, index: int) -> tuple[int, ...]:
        """Positions of the steps that make it, in order."""
        bits = self.ancestors[index]
        return tuple(dict.fromkeys(n.step for i, n in enumerate(self.nodes) if bits >> i & 1))


def _in_order(recipe: RecipeData) -> list[StepData]:
    """Steps so that what is needed stands before; by position where either may come first."""
    left = sorted(recipe.steps, key=lambda step: step.position)
    done: set[int] = set()
    ordered: list[StepData] = []
    while left:
        step = next((each for each in left if all(after.needs in done for after in each.after)), None)
        if step is None:
            raise ValueError(f"The steps of {recipe.title} come before one another in a loop.")
        left.remove(step)
        done.add(step.position)
        ordered.append(step)
    return ordered
