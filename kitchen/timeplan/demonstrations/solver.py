"""The same question as ``demonstration_search``, answered by the solver where there is much to look at.

For ``demonstration.best_way``: a recipe of thirty tangled steps has more half-decided plans than the
hand-written search looks at. The rules are those of its docstring; one worker and a fixed amount of
work, so that the same recipe has the same plan on every machine.

Variables: one way for each node, the minute at which it begins and ends. What is shown never
overlaps and together lasts as long as its minutes, so nobody waits. What is not shown stands at a
minute too and takes none, so that the order of the method is one line for each edge instead of one
for each pair of nodes. A fresh piece is taken up in its window; that a wait must be filled by what
may stand in it, and that what must stand in it may not last longer than the food keeps, follows
from all this, and is said once more of the ways alone: the proof is mostly of these sums.

First the fewest techniques that are not live, proved; with those held, a minute counts 1, a step
not shown more than all minutes, a minute of preparation more than all of those. In one sum with
the techniques the numbers grow so large that the proof takes twice as long.
"""

from dataclasses import replace
from types import ModuleType
from typing import Any

from kitchen.timeplan.demonstration_search import SHORTEST_HOLD, Found, Search
from kitchen.timeplan.demonstration_steps import LIVE, OUT, READY, SWAPPED, TRAY, Edge
from kitchen.timeplan.demonstration_waits import Chain, Waits
from kitchen.timeplan.solver import solver_module

#: Work of the two questions together in the solver's own measure: about two seconds, so that a page
#: never waits longer for a proof. Thirty steps take a tenth of it.
WORK = 0.8
WAYS = (LIVE, SWAPPED, TRAY, READY, OUT)


def proved_best(search: Search, known: Found | None) -> Found | None:
    """The best plan, proved; ``known`` when the solver is not there or gives nothing better."""
    cp = solver_module()
    if cp is None:
        return known
    model = _Model(cp, search)
    if known is not None:
        model.hint(known)
    found, proved, left = None, True, WORK
    for worth in (model.missed, model.rest):
        model.cp_model.minimize(worth)
        solver = _solver(cp, left)
        status = solver.solve(model.cp_model)
        left = max(0.0, left - solver.response_proto.deterministic_time)
        proved = proved and status in (cp.OPTIMAL, cp.INFEASIBLE)
        if status not in (cp.OPTIMAL, cp.FEASIBLE):
            break
        found = model.found(solver)
        model.hold(found, solver)
    return _better(known, found, proved)


def _better(known: Found | None, found: Found | None, proved: bool) -> Found | None:
    """What was found, unless a plan is known that it does not beat."""
    if found is None:
        return None if proved else known
    no_better = known is not None and not proved and _worth(known) <= _worth(found)
    return known if no_better else replace(found, proved=proved)


def _worth(found: Found) -> tuple[int, int, int, int]:
    return found.missed, found.cost, found.unshown, found.minutes


def _solver(cp: ModuleType, work: float) -> Any:
    """One worker, the same numbers each time. The linear sums carry the proof: without them it takes
    three times as long; probing, looking for symmetries and cutting cost more than they bring.
    """
    solver = cp.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.linearization_level = 2
    solver.parameters.cp_model_probing_level = 0
    solver.parameters.symmetry_level = 0
    solver.parameters.max_num_cuts = 0
    solver.parameters.max_deterministic_time = work
    return solver


class _Model:
    def __init__(self, cp: ModuleType, search: Search) -> None:
        self.cp_model: Any = cp.CpModel()
        self.steps, self.slot, self.targets = search.steps, search.slot, search.targets
        self.nodes = range(len(self.steps.nodes))
        #: No wait that begins in the slot ends later.
        self.far = self.slot + sum(edge.least for edge in self.steps.edges)
        self.never = self.cp_model.new_constant(0)
        self.way = [{way: self._may_be(node, way) for way in WAYS} for node in self.nodes]
        self.live = [way[LIVE] + way[SWAPPED] for way in self.way]
        self.prepared = [way[SWAPPED] + way[TRAY] + way[READY] for way in self.way]
        self.made = [self.cp_model.new_bool_var(f"made{node}") for node in self.nodes]
        self.lasts = [
            sum(self.steps.shown_minutes(node, way) * self.way[node][way] for way in WAYS)
            for node in self.nodes
        ]
        self.minutes = sum(self.lasts)
        for node in self.nodes:
            self._way_of(node)
        self._hands()
        self.given = [self._given(node) for node in self.nodes]
        for edge in self.steps.edges:
            self.cp_model.add(self.end[edge.before] <= self.start[edge.after])
            self._fresh(edge)
        for chain in Waits(self.steps, self.slot).chains:
            self._filled(chain)
        self._worth()

    def _may_be(self, node: int, way: str) -> Any:
        """Whether a node is shown so; 0 where it can never be."""
        here, last = self.steps.nodes[node], self.steps.is_last(node)
        never = last and way in (SWAPPED, READY, OUT)
        never |= way == SWAPPED and not (here.stay and here.hands)
        never |= self.steps.shown_minutes(node, way) > self.slot
        return self.never if never else self.cp_model.new_bool_var(f"{way}{node}")

    def _way_of(self, node: int) -> None:
        """One way for each node, what it demands of those that take it up, whether it is made before."""
        add, way, after = self.cp_model.add, self.way[node], self.steps.after[node]
        self.cp_model.add_exactly_one(way.values())
        if after:
            add(sum(self.live[edge.after] for edge in after) >= self.prepared[node])
        add(self.made[node] >= self.prepared[node])
        for edge in after:
            add(self.made[node] >= self.made[edge.after])
            add(self.live[edge.after] + way[OUT] <= 1)
            if edge.keeps is not None and edge.keeps < SHORTEST_HOLD:
                add(self.live[edge.after] + self.prepared[node] <= 1)

    def _hands(self) -> None:
        """What is shown stands one after another, without a minute between."""
        new, slot = self.cp_model.new_int_var, self.slot
        self.start = [new(0, slot, f"start{node}") for node in self.nodes]
        self.end = [new(0, slot, f"end{node}") for node in self.nodes]
        self.cp_model.add(self.minutes <= slot)
        shown = []
        for node in self.nodes:
            self.cp_model.add(self.end[node] == self.start[node] + self.lasts[node])
            self.cp_model.add(self.end[node] <= self.minutes)
            for way in (LIVE, SWAPPED, TRAY):
                minutes, chosen = self.steps.shown_minutes(node, way), self.way[node][way]
                if minutes:
                    shown.append(
                        self.cp_model.new_optional_fixed_size_interval_var(
                            self.start[node], minutes, chosen, f"{way}{node}"
                        )
                    )
        self.cp_model.add_no_overlap(shown)

    def _given(self, node: int) -> Any:
        """When the hands of a live node end, or its wait begins that has none: at once.

        A wait without hands begins when the last thing is there that it takes fresh.
        """
        if self.steps.nodes[node].hands:
            return self.end[node]
        ready = [self.cp_model.new_int_var(0, self.far, "") for _ in self.steps.before[node]]
        for edge, at in zip(self.steps.before[node], ready, strict=True):
            fresh = self.way[edge.before][LIVE]
            self.cp_model.add(at == self.end[edge.before] + edge.least).only_enforce_if(fresh)
            self.cp_model.add(at == 0).only_enforce_if(fresh.negated())
        given = self.cp_model.new_int_var(0, self.far, "")
        self.cp_model.add_max_equality(given, [*ready, 0])
        return given

    def _fresh(self, edge: Edge) -> None:
        """A live step takes the very piece that was made before the class, in its window."""
        starts = self.start if self.steps.nodes[edge.after].hands else self.given
        stay = self.steps.nodes[edge.before].stay
        wait = starts[edge.after] - self.given[edge.before]
        for way in (LIVE, SWAPPED):
            both = (self.way[edge.before][LIVE], self.way[edge.after][way])
            self.cp_model.add(wait >= edge.least).only_enforce_if(both)
            if edge.keeps is not None:
                self.cp_model.add(wait <= stay + edge.keeps).only_enforce_if(both)

    def _filled(self, chain: Chain) -> None:
        """The wait of a fresh piece is filled; what must stand in it lasts no longer than it keeps."""
        behind = [self.way[node][LIVE] for node in (chain.before, *chain.via)]
        not_fresh = len(behind) - sum(behind) + 1 - self.live[chain.after]
        self.cp_model.add(self._lasting(chain.fills) >= chain.least * (1 - not_fresh))
        if chain.longest is not None and chain.between:
            longest = [max(self.steps.shown_minutes(n, way) for way in WAYS) for n in _of(chain.between)]
            over = max(0, sum(longest) - chain.longest)
            self.cp_model.add(self._lasting(chain.between) <= chain.longest + over * not_fresh)

    def _lasting(self, bits: int) -> Any:
        return sum(self.lasts[node] for node in _of(bits))

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
        self.rest = minute * self.cost + step * self.unshown + self.minutes

    def hint(self, known: Found) -> None:
        """Begin with a plan that holds."""
        now = 0
        for node in known.order:
            self.cp_model.add_hint(self.start[node], now)
            now += self.steps.shown_minutes(node, known.ways[node])
        for node, way in enumerate(known.ways):
            for each in WAYS:
                if self.way[node][each] is not self.never:
                    self.cp_model.add_hint(self.way[node][each], int(each == way))

    def hold(self, found: Found, solver: Any) -> None:
        """From here on no technique more may be missed; begin with what was found."""
        self.cp_model.add(self.missed <= found.missed)
        self.cp_model.clear_hints()
        chosen = [way for ways in self.way for way in ways.values() if way is not self.never]
        for variable in (*self.start, *self.end, *self.made, *chosen):
            self.cp_model.add_hint(variable, solver.value(variable))

    def found(self, solver: Any) -> Found:
        """The plan that the solver found."""
        ways = tuple(next(way for way in WAYS if solver.value(self.way[node][way])) for node in self.nodes)
        shown = [
            node
            for node in self.nodes
            if ways[node] in (LIVE, SWAPPED, TRAY) and self.steps.shown_minutes(node, ways[node])
        ]
        order = tuple(sorted(shown, key=lambda node: (solver.value(self.start[node]), node)))
        figures = (self.missed, self.cost, self.unshown, self.minutes)
        return Found(ways, order, *(int(solver.value(each)) for each in figures), proved=False)


def _of(bits: int) -> list[int]:
    """The nodes of some bits."""
    return [node for node in range(bits.bit_length()) if bits >> node & 1]
