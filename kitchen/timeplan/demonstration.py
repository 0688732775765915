"""A demonstration with "one prepared earlier": what is shown when, and what is made before.

For the demonstration's page and sheet, for the kits of its trays and for the time plan. Plain
data in, plain data out. ``plan`` finds the best way to show a recipe in a slot (the rule is
told in ``demonstration_search``); ``chosen`` takes the stages that a person wants, with their
own minutes, says what must be prepared for them and what does not hold. Both give the same
``Demonstration``. Minutes count from the beginning of the demonstration; before it they are
negative.

Worked example: a quiche in 16 minutes, lining live 6, blind-baked shell as a tray 4, sealing
live 3, baked quiche as a tray 3. Lining needs a rested paste, sealing needs the shell: so one
paste, one shell and one quiche are made before, which are three batches of paste, one of
filling, one of custard and one of seal, and on the table lies egg for one live seal.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from curriculum.recipes.data import RecipeData
from kitchen.timeplan.demonstration_search import SHORTEST_HOLD, Search
from kitchen.timeplan.demonstration_steps import LIVE, READY, SWAPPED, TRAY, Steps

#: Minutes of the slots offered beside each other. Common practice, no source.
SLOTS = (30, 45, 60, 90)
WAYS = ("live", "swapped", "stage_tray")
_WAY_WORDS = {LIVE: "live", SWAPPED: "swapped", TRAY: "stage_tray"}


@dataclass(frozen=True, slots=True)
class Shown:
    """One stage as a person chooses it: the step, its way, its minutes."""

    step: int
    way: str
    minutes: int


@dataclass(frozen=True, slots=True)
class Stage:
    """One stage of the demonstration: from ``starts`` for ``minutes``.

    ``way`` is "live", "swapped" (live, then a finished one comes in) or "stage_tray".
    ``brings_in`` holds steps whose finished thing is brought to the table for this stage.
    """

    step: int
    way: str
    starts: int
    minutes: int
    words: str
    cue: str = ""
    caution: str = ""
    techniques: tuple[str, ...] = ()
    brings_in: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Ahead:
    """One thing made before: the recipe as far as ``step``, only its wait where ``waited_only``.

    ``steps`` are all steps behind it. ``needed_at`` and ``needed_until`` are its first and last
    use; ``keeps_minutes`` how long it keeps (None: long enough). ``hands_minutes`` and
    ``whole_minutes`` are what it takes from the beginning.
    """

    step: int
    words: str
    components: tuple[str, ...]
    steps: tuple[int, ...]
    hands_minutes: int
    whole_minutes: int
    needed_at: int
    needed_until: int
    keeps_minutes: int | None = None
    waited_only: bool = False
    is_shown: bool = True

    @property
    def ready_from(self) -> int | None:
        """The first minute at which it may be finished; None when it keeps long enough."""
        return None if self.keeps_minutes is None else self.needed_until - self.keeps_minutes

    @property
    def begun_by(self) -> int:
        """The last minute at which it may be begun."""
        return self.needed_at - self.whole_minutes


@dataclass(frozen=True, slots=True)
class Batches:
    """How many batches of one component are made before, and whether one lies on the table."""

    code: str
    name: str
    ahead: int
    live: int


@dataclass(frozen=True, slots=True)
class Demonstration:
    """The whole plan. ``beforehand`` are steps that are not shown; ``missed`` techniques not live."""

    title: str
    slot: int
    stages: tuple[Stage, ...]
    ahead: tuple[Ahead, ...]
    beforehand: tuple[int, ...]
    batches: tuple[Batches, ...]
    missed: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
    proved: bool = True
    by_hand: bool = False

    @property
    def minutes(self) -> int:
        """Minutes of the class it takes."""
        return sum(stage.minutes for stage in self.stages)

    @property
    def preparation_minutes(self) -> int:
        """Minutes of hands before the class."""
        return sum(each.hands_minutes for each in self.ahead)

    @property
    def trays(self) -> int:
        """How many finished things are brought in."""
        return len(self.ahead)

    @property
    def batches_ahead(self) -> int:
        """The most batches of any one component that are made before."""
        return max((each.ahead for each in self.batches), default=0)


def plan(recipe: RecipeData, slot: int, targets: Iterable[str] = ()) -> Demonstration | None:
    """The best demonstration of a recipe in ``slot`` minutes, or None when not even the dish can be shown.

    ``targets`` are codes of techniques that are to be shown live.
    """
    steps = Steps(recipe)
    found = Search(steps, slot, frozenset(targets)).best()
    if found is None:
        return None
    shown = [(node, found.ways[node], steps.shown_minutes(node, found.ways[node])) for node in found.order]
    prepared = {node for node, way in enumerate(found.ways) if way in (SWAPPED, TRAY, READY)}
    return _Plan(steps, slot, shown, prepared, targets).made(proved=found.proved)


def alternatives(
    recipe: RecipeData, targets: Iterable[str] = (), slots: Sequence[int] = SLOTS
) -> tuple[Demonstration, ...]:
    """The best demonstrations for several slots."""
    return tuple(each for slot in slots if (each := plan(recipe, slot, tuple(targets))) is not None)


def chosen(
    recipe: RecipeData, shown: Sequence[Shown], slot: int, targets: Iterable[str] = ()
) -> Demonstration:
    """The stages a person chose, in their order, with what must be prepared and what does not hold.

    ValueError for a step or a way that is not there, or a stage of no minutes.
    """
    steps = Steps(recipe)
    inner = {words: way for way, words in _WAY_WORDS.items()}
    stages: list[tuple[int, str, int]] = []
    for each in shown:
        if each.way not in inner or each.minutes < 1 or each.step not in {s.position for s in recipe.steps}:
            raise ValueError(f"No such stage: {each}.")
        stages.append((steps.node_of(each.step), inner[each.way], each.minutes))
    prepared = _prepared_for(steps, stages)
    return _Plan(steps, slot, stages, prepared, targets).made(by_hand=True)


def _prepared_for(steps: Steps, stages: Sequence[tuple[int, str, int]]) -> set[int]:
    """Nodes of which a finished one is needed for these stages."""
    prepared = {node for node, way, _ in stages if way in (SWAPPED, TRAY)}
    ends: dict[int, int] = {}
    now = 0
    for node, way, minutes in stages:
        if way in (LIVE, SWAPPED):
            for edge in steps.before[node]:
                ready = _ready_at(steps, edge.before, ends)
                if ready is None or ready + edge.least - steps.nodes[edge.before].stay > now:
                    prepared.add(edge.before)
        now += minutes
        if way == LIVE:
            ends[node] = now
    return prepared


def _ready_at(steps: Steps, node: int, ends: dict[int, int]) -> int | None:
    """Minute at which the very piece that was made before the class is ready; None for never."""
    if steps.nodes[node].hands:
        return ends[node] + steps.nodes[node].stay if node in ends else None
    begins = [_ready_at(steps, edge.before, ends) for edge in steps.before[node]]
    if not begins or None in begins:
        return None
    return max(begins) + steps.nodes[node].stay


class _Plan:
    """Turns shown nodes and prepared nodes into a ``Demonstration``."""

    def __init__(
        self,
        steps: Steps,
        slot: int,
        shown: Sequence[tuple[int, str, int]],
        prepared: set[int],
        targets: Iterable[str],
    ) -> None:
        self.steps, self.slot, self.shown, self.prepared = steps, slot, shown, prepared
        self.recipe, self.targets = steps.recipe, tuple(targets)
        self.stages = self._stages()
        self.ahead = tuple(self._ahead(node) for node in sorted(prepared))

    def made(self, *, proved: bool = True, by_hand: bool = False) -> Demonstration:
        seen = {stage.step for stage in self.stages}
        live = {code for stage in self.stages if stage.way != "stage_tray" for code in stage.techniques}
        trained = {code for step in self.recipe.steps if step.active_minutes for code in step.techniques}
        return Demonstration(
            title=self.recipe.title,
            slot=self.slot,
            stages=self.stages,
            ahead=self.ahead,
            beforehand=tuple(
                step.position
                for step in self.recipe.steps
                if step.position not in seen and step.active_minutes
            ),
            batches=self._batches(),
            missed=tuple(code for code in self.targets if code in trained and code not in live),
            remarks=tuple(self._remarks()) if by_hand else (),
            proved=proved,
            by_hand=by_hand,
        )

    def _stages(self) -> tuple[Stage, ...]:
        made: list[Stage] = []
        now = 0
        for node, way, minutes in self.shown:
            step = self.recipe.step(self.steps.nodes[node].step)
            made.append(
                Stage(
                    step=step.position,
                    way=_WAY_WORDS[way],
                    starts=now,
                    minutes=minutes,
                    words=step.words,
                    cue=step.cue,
                    caution=step.caution,
                    techniques=step.techniques,
                    brings_in=tuple(self._brought_in(node, way)),
                )
            )
            now += minutes
        return tuple(made)

    def _brought_in(self, node: int, way: str) -> list[int]:
        own = [node] if way in (SWAPPED, TRAY) else []
        needed = [edge.before for edge in self.steps.before[node]] if way in (LIVE, SWAPPED) else []
        return [self.steps.nodes[each].step for each in [*needed, *own] if each in self.prepared]

    def _ahead(self, node: int) -> Ahead:
        steps = self.steps
        position = steps.nodes[node].step
        behind = steps.steps_behind(node)
        uses = self._uses(node)
        keeps = [edge.keeps for edge in steps.after[node] if edge.keeps is not None]
        return Ahead(
            step=position,
            words=self.recipe.step(position).words,
            components=tuple(
                each.code
                for each in self.recipe.components
                if any(each.code in self.recipe.step(step).components for step in behind)
            ),
            steps=behind,
            hands_minutes=steps.hands_behind(node),
            whole_minutes=steps.minutes_behind(node),
            needed_at=min(uses),
            needed_until=max(uses),
            keeps_minutes=min(keeps, default=None),
            waited_only=node != steps.node_of(position),
            is_shown=any(node == each and way in (SWAPPED, TRAY) for each, way, _ in self.shown),
        )

    def _uses(self, node: int) -> list[int]:
        """Minutes at which a prepared thing is on the table."""
        takers = {edge.after for edge in self.steps.after[node]}
        made: list[int] = []
        for (each, way, _), stage in zip(self.shown, self.stages, strict=True):
            if each == node and way in (SWAPPED, TRAY):
                made.append(stage.starts + (self.steps.nodes[node].hands if way == SWAPPED else 0))
            elif each in takers and way in (LIVE, SWAPPED):
                made.append(stage.starts)
            elif way == LIVE and self._waits_for(each, node):
                made.append(0)
        return made or [0]

    def _waits_for(self, taker: int, node: int) -> bool:
        """Whether a wait without hands lies between: it begins with the demonstration."""
        waits = [edge.before for edge in self.steps.before[taker] if not self.steps.nodes[edge.before].hands]
        return any(edge.before == node for each in waits for edge in self.steps.before[each])

    def _batches(self) -> tuple[Batches, ...]:
        live = {
            code for stage in self.stages if stage.way != "stage_tray" for code in self._on_the_table(stage)
        }
        counted = [
            Batches(
                each.code,
                each.name,
                sum(1 for thing in self.ahead if each.code in thing.components),
                int(each.code in live),
            )
            for each in self.recipe.components
        ]
        return tuple(each for each in counted if each.ahead or each.live)

    def _on_the_table(self, stage: Stage) -> set[str]:
        """Components of a live step that do not come in with a finished thing."""
        come_in = set(stage.brings_in) - ({stage.step} if stage.way == "swapped" else set())
        brought = {code for thing in self.ahead if thing.step in come_in for code in thing.components}
        return set(self.recipe.step(stage.step).components) - brought

    def _remarks(self) -> Iterable[str]:
        minutes = sum(stage.minutes for stage in self.stages)
        if minutes > self.slot:
            yield f"The stages take {minutes} minutes and the slot has {self.slot}."
        for thing in self.ahead:
            if thing.keeps_minutes is not None and thing.keeps_minutes < SHORTEST_HOLD:
                yield (
                    f"What comes in finished at step {thing.step} keeps {thing.keeps_minutes} minutes: "
                    "somebody must finish it during the lesson."
                )
            if thing.ready_from is not None and thing.ready_from > thing.needed_at:
                yield f"Step {thing.step} is needed twice, further apart than it keeps: make two."
        last = {node.step for index, node in enumerate(self.steps.nodes) if self.steps.is_last(index)}
        if not last & {stage.step for stage in self.stages}:
            yield "The last step of the dish is not shown."
        yield from self._out_of_order()

    def _out_of_order(self) -> Iterable[str]:
        for index, (node, _, _) in enumerate(self.shown):
            for later, _, _ in self.shown[index + 1 :]:
                if later != node and self.steps.ancestors[node] >> later & 1:
                    after, before = self.steps.nodes[node].step, self.steps.nodes[later].step
                    yield f"Step {after} is shown before step {before}, which stands behind it."
