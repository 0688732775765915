"""A re-plan in words: what moves from when to when, what is then held too long, what it costs.

For the page on which a person accepts it. Moves of one step that are alike are one line.

Worked example: "Bench 4, step 5: 10:35 to 10:50" and "into oven 6, not oven 4".
"""

from dataclasses import dataclass

from curriculum.wording import clock_minutes, counted_words
from kitchen.timeplan.answer import Answer
from kitchen.timeplan.calls import benches_words
from kitchen.timeplan.day.situation import Situation, holds_broken
from kitchen.timeplan.day.solver import Replan
from kitchen.timeplan.day.told import Told, place_of
from kitchen.timeplan.problem import Task


@dataclass(frozen=True, slots=True)
class Move:
    """One line: from and to in minutes of the day, whose step it is, the oven when that changes."""

    before: int
    after: int
    head: str
    words: str
    oven: str = ""

    @property
    def from_words(self) -> str:
        """ "10:35"."""
        return clock_minutes(self.before)

    @property
    def to_words(self) -> str:
        """ "10:50"."""
        return clock_minutes(self.after)

    @property
    def by_words(self) -> str:
        """ "15 min later"; empty when only the oven changes."""
        if self.after == self.before:
            return ""
        return f"{abs(self.after - self.before)} min {'later' if self.after > self.before else 'earlier'}"


def moves_of(told: Told, at: Situation, answer: Answer) -> tuple[Move, ...]:
    """Everything still to come that moves or changes its oven, by the clock."""
    plan = told.state.plan
    lines: dict[tuple[int, int, int, str], list[Task]] = {}
    for task in at.coming:
        before, after = plan.starts[task.name], answer.starts[task.name]
        oven = _other_oven(told, task, answer)
        if (before != after or oven) and not _follows_by_itself(told, task, oven):
            lines.setdefault((before, after, place_of(task)[0], oven), []).append(task)
    moves = [_move(told, key, tasks) for key, tasks in lines.items()]
    for show in at.problem.demonstrations:
        before, after = plan.starts[show.name], answer.starts[show.name]
        if show.name not in at.past.fixed and before != after:
            head = f"Demonstration of step {show.name.rsplit('/', 1)[-1]}"
            moves.append(Move(told.at(before), told.at(after), head, "Everybody watches."))
    return tuple(sorted(moves, key=lambda move: (move.after, move.head)))


def _follows_by_itself(told: Told, task: Task, oven: str) -> bool:
    """Whether it only comes along with the hands before it."""
    windows = told.state.problem.windows_before[task.name]
    comes_along = any(w.longest == 0 and w.before not in told.state.begun for w in windows)
    return comes_along and not task.hands and not oven


def _other_oven(told: Told, task: Task, answer: Answer) -> str:
    if task.bake is None or answer.ovens[task.name] == told.state.plan.ovens[task.name]:
        return ""
    return told.oven_name(answer.ovens[task.name])


def _move(told: Told, key: tuple[int, int, int, str], tasks: list[Task]) -> Move:
    before, after, step, oven = key
    who = benches_words(dict.fromkeys(t.bench or "" for t in tasks))
    head = f"{who}, step {step}" if step else f"{who}, the pass"
    words = told.step_words(tasks[0]).split(". ", 1)[-1]
    if any(task.name in told.state.rescued for task in tasks):
        words += f": the rest of its minutes, {told.state.lasts(tasks[0].name)} min"
    return Move(told.at(before), told.at(after), head, words, f"Into {oven.lower()}." if oven else "")


def left_out_words(told: Told) -> str:
    """Benches that the new plan leaves out, or has again, since somebody went or came back."""
    out = [b.name for b in told.plan.benches if b.name in told.state.gone and b.name not in told.plan.gone]
    back = [name for name in told.plan.gone if name not in told.state.gone]
    words = [f"Nobody is left at {benches_words(out).lower()}: no line, no oven, no paper."] if out else []
    words += [f"Somebody is at {benches_words(back).lower()} again."] if back else []
    return " ".join(words)


def broken_words(told: Told, at: Situation, answer: Answer) -> tuple[str, ...]:
    """Holds that are too long in the new plan, said by bench and step."""
    out = []
    for window, over in holds_broken(at, answer):
        out.append(_broken(told, at.problem.task[window.before], window.after, window.longest or 0, over))
    return tuple(out)


def _broken(told: Told, before: Task, after: str, longest: int, over: int) -> str:
    judge = "Judge it before it goes on."
    if after in told.state.rescued:
        return f"Bench {before.bench}: its food is out of an oven for {over} min. {judge}"
    first, second = place_of(before)[0], place_of(told.state.problem.task[after])[0]
    if first == second:
        return (
            f"Bench {before.bench}: within step {first} food waits {over} min longer than it should. {judge}"
        )
    where = f"between step {first} and {f'step {second}' if second else 'the pass'}"
    return (
        f"Bench {before.bench}: {where} food waits {longest + over} min;"
        f" the recipe allows {longest} min. {judge}"
    )


def standing_heading(moved: tuple[Move, ...]) -> str:
    """Above what no longer holds: where nothing would move, only food waits."""
    return "The plan no longer holds" if moved else "Food waits longer than it should"


def heading(found: Replan, moves: tuple[Move, ...]) -> str:
    """What the page says first."""
    if found.answer is None:
        return "No plan was found in which everything that is left can still be cooked"
    if not moves:
        return "Nothing moves"
    return f"{counted_words(len(moves), 'step').capitalize()} {'moves' if len(moves) == 1 else 'move'}"
