"""What is fixed, what means nothing any more and what breaks, in sentences with clock times.

For the page "Fix by hand" and for the reasons under a plan. Minutes of the question become
times of the lesson's day, codes of ovens their names.
"""

import re
from dataclasses import replace
from itertools import groupby

from curriculum.wording import clock_minutes, listed
from kitchen.timeplan.answer import Answer, check
from kitchen.timeplan.bounds import heads, latest_starts, tails
from kitchen.timeplan.calls import spans
from kitchen.timeplan.class_data import LessonData
from kitchen.timeplan.lesson_problem import parts
from kitchen.timeplan.pins.breaks import OTHERS, SLOT, Breaks
from kitchen.timeplan.pins.data import ORDER, OVEN, START, PinData
from kitchen.timeplan.pins.pinned import fixed_by, part_of
from kitchen.timeplan.problem import Problem, Task
from kitchen.timeplan.why_words import called

#: What a broken pair of fixed bakes, hands or shelves is said with; a fixed start itself is said already.
NOT_SAID = frozenset({"pinned_start", "pinned_oven"})


def part_words(lesson: LessonData, step: int, part: int, bench: str) -> str:
    """ "step 6 of bench 4", "step 6 of bench 4, in the oven,"."""
    if not bench:
        return f"the demonstration of step {step}"
    return f"step {step} of bench {bench}" + (f", {_where(lesson, step, part)}," if part else "")


def _where(lesson: LessonData, position: int, part: int) -> str:
    """What happens in a later part of a step: "in the oven", "with hands again"."""
    steps = [s for bench in lesson.benches for s in lesson.steps_of(bench) if s.position == position]
    found = [parts(step, step.ways[0]) for step in steps]
    stays = next((each[part][1] for each in found if part < len(each)), ())
    if not stays:
        return "by hand" if any(part < len(each) for each in found) else f"part {part + 1}"
    kind = stays[0].appliance_kind
    return f"in the {kind.replace('_', ' ')}" if kind else "on the bench"


def pin_words(lesson: LessonData, pin: PinData) -> str:
    """One fixed thing as a sentence."""
    ovens = {appliance.code: appliance.name for appliance in lesson.appliances}
    what = part_words(lesson, pin.step, pin.part, pin.bench)
    what = what[0].upper() + what[1:]
    if pin.kind == START:
        return f"{what} begins at {clock_minutes(lesson.starts + pin.minute)}."
    if pin.kind == OVEN:
        return f"{what} bakes in {ovens.get(pin.oven, pin.oven)}."
    other = part_words(lesson, pin.other_step, pin.other_part, pin.other_bench)
    return f"{what} has ended before {other} begins."


def grouped(lesson: LessonData, pins: tuple[PinData, ...]) -> list[tuple[str, tuple[int, ...]]]:
    """(words, numbers) of what is fixed; the same of several benches is said once."""

    def alike(pin: PinData) -> tuple[object, ...]:
        return (
            pin.step,
            pin.part,
            pin.kind,
            pin.minute,
            pin.oven,
            *((pin.number,) if pin.kind == ORDER else ()),
        )

    out = []
    for _, same in groupby(sorted(pins, key=alike), key=alike):
        group = tuple(same)
        first = replace(group[0], bench=spans(pin.bench for pin in group))
        words = pin_words(lesson, first)
        if len(group) > 1:
            words = words.replace("of bench ", "of benches ", 1)
        out.append((words, tuple(pin.number for pin in group)))
    return out


def break_words(lesson: LessonData, problem: Problem, found: Breaks) -> tuple[str, ...]:
    """What cannot all hold, with the figures behind it, and what to let go."""
    fixed = [f"“{words[:-1]}”" for words, _ in grouped(lesson, found.pins)]
    rules = [_rule_words(lesson, problem, rule) for rule in found.rules]
    figures = _figures(lesson, problem, found)
    together = "This cannot hold" if len(fixed) + len(rules) == 1 else "These cannot all hold"
    also = f" with {listed(rules)}" if rules else ""
    proof = "It is proved that no plan keeps this"
    proof += "." if len(found.pins) + len(rules) == 1 else "; without any one part of it there is one."
    return (f"{together}: {listed(fixed)}{also}.", *figures, proof, *_let_go_words(lesson, found))


def _rule_words(lesson: LessonData, problem: Problem, rule: str) -> str:
    if rule == SLOT:
        return f"the end of cooking at {clock_minutes(lesson.cooking_from + lesson.usable_minutes)}"
    if rule == OTHERS:
        return "the work of the other benches"
    return called(problem, rule)


def _let_go_words(lesson: LessonData, found: Breaks) -> list[str]:
    if not found.let_go:
        return ["No plan was found with only one of them let go: more than one may have to go."]
    out = []
    for pin, finish in found.let_go:
        ends = clock_minutes(lesson.cooking_from + finish)
        out.append(
            f"Let go of “{pin_words(lesson, pin)[:-1]}”, and a plan of the whole class ends at {ends}."
        )
    return out


def _figures(lesson: LessonData, problem: Problem, found: Breaks) -> list[str]:
    """Sentences with minutes: what two fixed parts break between them, else what comes before or after."""
    return _between(lesson, found.question) or _around(lesson, problem, found)


def _between(lesson: LessonData, question: Problem) -> list[str]:
    """What the parts with a fixed start break among themselves."""
    tasks = tuple(
        replace(t, shown_by=None) for t in question.tasks if t.latest is not None and t.latest == t.earliest
    )
    if len(tasks) < 2:
        return []
    names = {t.name for t in tasks}
    alone = replace(
        question,
        tasks=tasks,
        windows=tuple(w for w in question.windows if {w.before, w.after} <= names),
        demonstrations=(),
        together=(),
        on_the_clock=frozenset(),
    )
    ovens = {t.name: oven for t in tasks if (oven := _only_oven(question, t)) is not None}
    if len(ovens) < sum(t.bake is not None for t in tasks):
        return []
    broken = check(alone, Answer({t.name: t.earliest for t in tasks}, ovens))
    return [in_clock_words(lesson, each.words) for each in broken if each.code not in NOT_SAID]


def _only_oven(question: Problem, task: Task) -> str | None:
    ovens = [oven.name for oven in question.ovens if task.may_go_in(oven)]
    return ovens[0] if len(ovens) == 1 else None


def _around(lesson: LessonData, problem: Problem, found: Breaks) -> list[str]:
    """For each fixed start, what comes before it, what it follows, or what comes after it."""
    whole = fixed_by(problem, found.pins, lesson.start_minutes).problem
    out: list[str] = []
    for pin in found.pins:
        if pin.kind == START:
            out += _around_one(lesson, whole, found, pin)
    return out


def _around_one(lesson: LessonData, whole: Problem, found: Breaks, pin: PinData) -> list[str]:
    """``whole`` has every rule in force: what it takes before the part is said in full."""
    name, what = part_of(pin), part_words(lesson, pin.step, pin.part, pin.bench)
    what = what[0].upper() + what[1:]
    fixed, task = pin.minute - lesson.start_minutes, found.question.task.get(name)
    if task is None:
        return []
    rest = _without(found.question, name)
    earliest, latest = heads(rest)[name], latest_starts(rest).get(name)
    ends = fixed + task.minutes + tails(rest)[name]
    if earliest > fixed:
        earliest = max(earliest, heads(_without(whole, name))[name])
        at, missing = clock_minutes(lesson.cooking_from + earliest), earliest - fixed
        cold = " and from a cold oven" if whole.task[name].bake is not None else ""
        words = f"{what} can begin at {at} at the earliest, after what comes before it{cold}"
        return [f"{words}: {missing} min too few."]
    if latest is not None and latest < fixed:
        at, late = clock_minutes(lesson.cooking_from + latest), fixed - latest
        return [f"{what} has to begin by {at}, for what else is fixed; that is {late} min earlier."]
    if ends > found.limit:
        at, over = clock_minutes(lesson.cooking_from + ends), ends - found.limit
        after = what[0].lower() + what[1:]
        return [f"What comes after {after} would end at {at} at the earliest: {over} min over."]
    return []


def _without(question: Problem, name: str) -> Problem:
    tasks = (replace(t, earliest=0, latest=None) if t.name == name else t for t in question.tasks)
    return replace(question, tasks=tuple(tasks))


def in_clock_words(lesson: LessonData, words: str) -> str:
    """Minutes of the question as times of the day, codes of ovens as names."""

    def at(found: re.Match[str]) -> str:
        return clock_minutes(lesson.cooking_from + int(found.group(1)))

    words = re.sub(r"minute (\d+)", at, words)
    for appliance in lesson.appliances:
        words = re.sub(rf"\b[Oo]ven {re.escape(appliance.code)}\b", appliance.name, words)
    return words[0].upper() + words[1:]


def left_out(lesson: LessonData, problem: Problem) -> list[tuple[str, int]]:
    """(words, number) of what is fixed but means nothing in the lesson as it is now."""
    found = fixed_by(problem, lesson.pins, lesson.start_minutes).left_out
    return [(f"{pin_words(lesson, pin)} {why}", pin.number) for pin, why in found]
