"""The same question as ``demonstration_search``, answered by the solver where there is much to look at.

For ``demonstration.plan``: a recipe of thirty tangled steps has more half-decided plans than the
hand-written search looks at. The rules are those of its docstring, the worth is the same sum; one
worker and a fixed amount of work, so that the same recipe has the same plan on every machine.

Variables: one way for each node, the minute at which its hands begin, its end. What is shown
never overlaps and together lasts as long as its minutes, so nobody waits. Ancestors that are shown
come first; a fresh piece is taken up in its window. A node is made before when it is prepared, or
when something right after it is. Weights: a minute 1, a step not shown more than all minutes, a
minute of preparation more than all of those, a technique not live more than everything.
"""

from operator import mul
from types import ModuleType
from typing import Any

from kitchen.timeplan.demonstration_search import SHORTEST_HOLD, Found, Search
from kitchen.timeplan.demonstration_steps import LIVE, OUT, READY, SWAPPED, TRAY, Edge
from kitchen.timeplan.solver import solver_module

#: Work of one search in the solver's own measure: under a second, so that a page never waits for a proof.
WORK = 0.6
WAYS = (LIVE, SWAPPED, TRAY, READY, OUT)


def proved_best(search: Search, known: Found | None) -> Found | None:
    """The best plan, proved; ``known`` when the solver is not there or gives nothing better."""
    cp = solver_module()
    if cp is None:
        return known
    model = _Model(cp, search)
    if known is not None:
        model.hint(known)
    solver = cp.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.linearization_level = 2
    solver.parameters.max_deterministic_time = WORK
    status = solver.solve(model.cp_model)
    if status not in (cp.OPTIMAL, cp.FEASIBLE):
        return None if status == cp.INFEASIBLE else known
    found = model.found(solver, proved=status == cp.OPTIMAL)
    return known if known and not found.proved and _worth(known) <= _worth(found) else found


def _worth(found: Found) -> tuple[int, int, int, int]:
    return found.missed, found.cost, found.unshown, found.minutes


class _Model:
    def __init__(self, cp: ModuleType, search: Search) -> None:
        self.cp_model: Any = cp.CpModel()
        self.steps, self.slot, self.targets = search.steps, search.slot, search.targets
        self.at_least, steps, slot = search.at_least(), search.steps, search.slot
        self.nodes = range(len(steps.nodes))
        #: No wait that begins in the slot ends later.
        self.far = slot + sum(edge.least for edge in steps.edges)
        new = self.cp_model.new_bool_var
        self.way = [{way: new(f"{way}{node}") for way in WAYS} for node in self.nodes]
        self.live = [self.way[node][LIVE] + self.way[node][SWAPPED] for node in self.nodes]
        self.made = [new(f"made{node}") for node in self.nodes]
        self.shown = [new(f"shown{node}") for node in self.nodes]
        self.start = [self.cp_model.new_int_var(0, slot, f"start{node}") for node in self.nodes]
        self.end = [self.cp_model.new_int_var(0, self.far, f"end{node}") for node in self.nodes]
        self.minutes = sum(
            steps.shown_minutes(node, way) * self.way[node][way] for node in self.nodes for way in WAYS
        )
        for node in self.nodes:
            self._way_of(node)
            self._made_before(node)
        self._hands()
        for edge in steps.edges:
            self._fresh(edge)
        self._in_order_of_the_method()
        self._worth()

    def _way_of(self, node: int) -> None:
        """One way for each node, and what it demands of those that take it up."""
        add, way, steps = self.cp_model.add, self.way[node], self.steps
        add(sum(way.values()) == 1)
        takers = [self.live[edge.after] for edge in steps.after[node]]
        last = steps.is_last(node)
        if last:
            add(way[SWAPPED] + way[READY] + way[OUT] == 0)
        else:
            add(sum(takers) >= way[SWAPPED] + way[TRAY] + way[READY])
        if not (steps.nodes[node].stay and steps.nodes[node].hands):
            add(way[SWAPPED] == 0)
        for edge in steps.after[node]:
            add(self.live[edge.after] + way[OUT] <= 1)
            if edge.keeps is not None and edge.keeps < SHORTEST_HOLD:
                add(self.live[edge.after] + way[SWAPPED] + way[TRAY] + way[READY] <= 1)

    def _made_before(self, node: int) -> None:
        way = self.way[node]
        hands = bool(self.steps.nodes[node].hands)
        self.cp_model.add(self.shown[node] == way[LIVE] * hands + way[SWAPPED] + way[TRAY])
        self.cp_model.add(self.made[node] >= way[SWAPPED] + way[TRAY] + way[READY])
        for edge in self.steps.after[node]:
            self.cp_model.add(self.made[node] >= self.made[edge.after])

    def _hands(self) -> None:
        """What is shown stands one after another, without a minute between."""
        shown = []
        self.cp_model.add(self.minutes <= self.slot)
        for node in self.nodes:
            for way in (LIVE, SWAPPED, TRAY):
                minutes, chosen = self.steps.shown_minutes(node, way), self.way[node][way]
                if way == LIVE and not minutes:
                    continue
                self.cp_model.add(self.end[node] == self.start[node] + minutes).only_enforce_if(chosen)
                self.cp_model.add(self.end[node] <= self.minutes).only_enforce_if(chosen)
                shown.append(
                    self.cp_model.new_optional_fixed_size_interval_var(
                        self.start[node], minutes, chosen, f"{way}{node}"
                    )
                )
            if not self.steps.nodes[node].hands:
                self._begins_at_once(node)
        self.cp_model.add_no_overlap(shown)

    def _begins_at_once(self, node: int) -> None:
        """A wait without hands begins when the last thing is there that it takes fresh."""
        ready = [self.cp_model.new_int_var(0, self.far, "") for _ in self.steps.before[node]]
        for edge, at in zip(self.steps.before[node], ready, strict=True):
            fresh = self.way[edge.before][LIVE]
            self.cp_model.add(at == self.end[edge.before] + edge.least).only_enforce_if(fresh)
            self.cp_model.add(at == 0).only_enforce_if(fresh.negated())
        end = self.cp_model.new_int_var(0, self.far, "")
        self.cp_model.add_max_equality(end, [*ready, 0])
        self.cp_model.add(self.end[node] == end).only_enforce_if(self.way[node][LIVE])

    def _fresh(self, edge: Edge) -> None:
        """A live step takes the very piece that was made before the class, in its window."""
        starts = self.start if self.steps.nodes[edge.after].hands else self.end
        stay = self.steps.nodes[edge.before].stay
        for way in (LIVE, SWAPPED):
            both = (self.way[edge.before][LIVE], self.way[edge.after][way])
            wait = starts[edge.after] - self.end[edge.before]
            self.cp_model.add(wait >= edge.least).only_enforce_if(both)
            if edge.keeps is not None:
                self.cp_model.add(wait <= stay + edge.keeps).only_enforce_if(both)

    def _in_order_of_the_method(self) -> None:
        for after in self.nodes:
            for before in self.nodes:
                if before != after and self.steps.ancestors[after] >> before & 1:
                    both = (self.shown[before], self.shown[after])
                    self.cp_model.add(self.end[before] <= self.start[after]).only_enforce_if(both)

    def _worth(self) -> None:
        steps = self.steps.nodes
        by_hand = [node for node in self.nodes if steps[node].hands]
        trained = sorted({code for node in by_hand for code in steps[node].techniques} & self.targets)
        seen = []
        for code in trained:
            seen.append(self.cp_model.new_bool_var(code))
            showing = [self.live[node] for node in by_hand if code in steps[node].techniques]
            self.cp_model.add(seen[-1] <= sum(showing))
        self.missed = len(trained) - sum(seen)
        self.cost = sum(steps[node].hands * self.made[node] for node in by_hand)
        self.unshown = sum(self.way[node][READY] + self.way[node][OUT] for node in by_hand)
        step = self.slot + 1
        minute = step * (len(by_hand) + 1)
        technique = minute * (sum(steps[node].hands for node in by_hand) + 1)
        worth = technique * self.missed + minute * self.cost + step * self.unshown + self.minutes
        if self.at_least is not None:
            self.cp_model.add(worth >= sum(map(mul, self.at_least, (technique, minute, step, 1))))
        self.cp_model.minimize(worth)

    def hint(self, known: Found) -> None:
        """Begin with a plan that holds."""
        now = 0
        for node in known.order:
            self.cp_model.add_hint(self.start[node], now)
            now += self.steps.shown_minutes(node, known.ways[node])
        for node, way in enumerate(known.ways):
            for each in WAYS:
                self.cp_model.add_hint(self.way[node][each], int(each == way))

    def found(self, solver: Any, *, proved: bool) -> Found:
        """The plan that the solver found."""
        ways = tuple(next(way for way in WAYS if solver.value(self.way[node][way])) for node in self.nodes)
        shown = [
            node
            for node in self.nodes
            if ways[node] in (LIVE, SWAPPED, TRAY) and self.steps.shown_minutes(node, ways[node])
        ]
        order = tuple(sorted(shown, key=lambda node: (solver.value(self.start[node]), node)))
        figures = (self.missed, self.cost, self.unshown, self.minutes)
        return Found(ways, order, *(int(solver.value(each)) for each in figures), proved=proved)
