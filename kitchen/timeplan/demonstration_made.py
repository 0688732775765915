"""Stages put on a clock, and what must be made before for them.

For ``demonstration``: shown nodes of a recipe with their minutes and the minute at which each
begins become a ``Demonstration``: what is brought in, what is prepared and how long it keeps, how
many batches of each component.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from kitchen.timeplan.demonstration_data import Ahead, Batches, Demonstration, Stage
from kitchen.timeplan.demonstration_search import SHORTEST_HOLD
from kitchen.timeplan.demonstration_steps import LIVE, SWAPPED, TRAY, Edge, Steps

#: So many minutes of talk bridge a wait; a longer one is cut by a finished thing. Common practice, no source.
TALK_MOST = 5
WAY_WORDS = {LIVE: "live", SWAPPED: "swapped", TRAY: "stage_tray"}


@dataclass(frozen=True, slots=True)
class Show:
    """One node that is shown: its way, its minutes, the minute at which it begins."""

    node: int
    way: str
    minutes: int
    starts: int

    @property
    def is_worked(self) -> bool:
        """Whether its hands are seen."""
        return self.way in (LIVE, SWAPPED)


def one_after_another(shown: Iterable[tuple[int, str, int]]) -> list[Show]:
    """(node, way, minutes) without a minute between."""
    made: list[Show] = []
    for node, way, minutes in shown:
        made.append(Show(node, way, minutes, made[-1].starts + made[-1].minutes if made else 0))
    return made


def prepared_for(steps: Steps, shown: Sequence[Show]) -> set[int]:
    """Nodes of which a finished one is needed: what was made in front of the class is not ready, or old."""
    prepared = {show.node for show in shown if show.way in (SWAPPED, TRAY)}
    ends: dict[int, int] = {}
    for show in shown:
        if show.is_worked:
            prepared |= {
                edge.before for edge in steps.before[show.node] if not _is_there(steps, edge, ends, show)
            }
        if show.way == LIVE:
            ends[show.node] = show.starts + show.minutes
    return prepared


def _is_there(steps: Steps, edge: Edge, ends: dict[int, int], show: Show) -> bool:
    """Whether the very piece that was made before the class can be taken up now."""
    ready = ready_at(steps, edge.before, ends)
    if ready is None or ready + edge.least - steps.nodes[edge.before].stay > show.starts:
        return False
    return edge.keeps is None or show.starts <= ready + edge.keeps


def ready_at(steps: Steps, node: int, ends: dict[int, int]) -> int | None:
    """Minute at which the very piece that was made before the class is ready; None for never."""
    if steps.nodes[node].hands:
        return ends[node] + steps.nodes[node].stay if node in ends else None
    begins = [ready_at(steps, edge.before, ends) for edge in steps.before[node]]
    if not begins or None in begins:
        return None
    return max(begins) + steps.nodes[node].stay


class Made:
    """Turns shown nodes and prepared nodes into a ``Demonstration``."""

    def __init__(
        self,
        steps: Steps,
        slot: int,
        shown: Sequence[Show],
        prepared: set[int],
        targets: Iterable[str],
    ) -> None:
        self.steps, self.slot, self.shown, self.prepared = steps, slot, shown, prepared
        self.recipe, self.targets = steps.recipe, tuple(targets)
        self.stages = self._stages()
        self.ahead = tuple(self._things())

    def demonstration(self, *, proved: bool = True, by_hand: bool = False) -> Demonstration:
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
            remarks=tuple(self._remarks(by_hand)),
            proved=proved,
            by_hand=by_hand,
        )

    def _stages(self) -> tuple[Stage, ...]:
        return tuple(self._stage(show) for show in self.shown)

    def _stage(self, show: Show) -> Stage:
        step = self.recipe.step(self.steps.nodes[show.node].step)
        return Stage(
            step=step.position,
            way=WAY_WORDS[show.way],
            starts=show.starts,
            minutes=show.minutes,
            words=step.words,
            cue=step.cue,
            caution=step.caution,
            techniques=step.techniques,
            brings_in=tuple(self._brought_in(show)),
        )

    def _brought_in(self, show: Show) -> list[int]:
        own = [show.node] if show.way in (SWAPPED, TRAY) else []
        needed = [edge.before for edge in self.steps.before[show.node]] if show.is_worked else []
        return [self.steps.nodes[each].step for each in [*needed, *own] if each in self.prepared]

    def _things(self) -> Iterable[Ahead]:
        """What is made before, what stands behind other things first."""
        reckoned = 0
        for node in sorted(self.prepared):
            bits = self.steps.ancestors[node]
            yield self._ahead(node, self.steps.hands_of(bits & ~reckoned))
            reckoned |= bits

    def _ahead(self, node: int, own_minutes: int) -> Ahead:
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
            hands_minutes=steps.hands_of(steps.ancestors[node]),
            own_minutes=own_minutes,
            whole_minutes=steps.minutes_behind(node),
            needed_at=min(uses),
            needed_until=max(uses),
            keeps_minutes=min(keeps, default=None),
            waited_only=node != steps.node_of(position),
            is_shown=any(node == show.node and show.way in (SWAPPED, TRAY) for show in self.shown),
        )

    def _uses(self, node: int) -> list[int]:
        """Minutes at which a prepared thing is on the table."""
        takers = {edge.after for edge in self.steps.after[node]}
        made: list[int] = []
        for show in self.shown:
            if show.node == node and show.way in (SWAPPED, TRAY):
                made.append(show.starts + (self.steps.nodes[node].hands if show.way == SWAPPED else 0))
            elif show.node in takers and show.is_worked:
                made.append(show.starts)
            elif show.way == LIVE and self._waits_for(show.node, node):
                made.append(self.shown[0].starts)
        return made or [self.shown[0].starts if self.shown else 0]

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

    def _remarks(self, by_hand: bool) -> Iterable[str]:
        """What does not hold; the best plan of a slot holds it all, but for what is wanted twice."""
        if by_hand:
            yield from self._of_what_was_chosen()
        for thing in self.ahead:
            if thing.ready_from is not None and thing.ready_from > thing.needed_at:
                yield (
                    f"What is finished at step {thing.step} keeps {thing.keeps_minutes} min and is wanted "
                    f"twice, {thing.needed_until - thing.needed_at} min apart: make two, each for its time."
                )

        yield from self._saved_by_words()

    def _saved_by_words(self) -> Iterable[str]:
        """Trays that a few minutes of talk would save: what the class saw being made is nearly ready."""
        ends: dict[int, int] = {}
        for show in self.shown:
            for edge in self.steps.before[show.node] if show.is_worked else ():
                ready = ready_at(self.steps, edge.before, ends)
                late = 0 if ready is None else ready + edge.least - self.steps.nodes[edge.before].stay
                if edge.before in self.prepared and 0 < late - show.starts <= TALK_MOST:
                    step, lasts = self.steps.nodes[show.node].step, late - show.starts
                    yield (
                        f"What the class saw being made is ready {lasts} min after step {step} is begun: "
                        f"{lasts} min more for the stage before, with words to tell, save a tray."
                    )
            if show.way == LIVE:
                ends[show.node] = show.starts + show.minutes

    def _of_what_was_chosen(self) -> Iterable[str]:
        minutes = sum(stage.minutes for stage in self.stages)
        if minutes > self.slot:
            yield f"The stages take {minutes} minutes and the slot has {self.slot}."
        for thing in self.ahead:
            if thing.keeps_minutes is not None and thing.keeps_minutes < SHORTEST_HOLD:
                yield (
                    f"What comes in finished at step {thing.step} keeps {thing.keeps_minutes} minutes: "
                    "somebody must finish it during the lesson."
                )
        last = {node.step for index, node in enumerate(self.steps.nodes) if self.steps.is_last(index)}
        if not last & {stage.step for stage in self.stages}:
            yield "The last step of the dish is not shown."
        yield from self._out_of_order()

    def _out_of_order(self) -> Iterable[str]:
        for index, show in enumerate(self.shown):
            for later in (each.node for each in self.shown[index + 1 :]):
                if later != show.node and self.steps.ancestors[show.node] >> later & 1:
                    after, before = self.steps.nodes[show.node].step, self.steps.nodes[later].step
                    yield f"Step {after} is shown before step {before}, which stands behind it."
