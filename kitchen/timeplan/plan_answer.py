"""The question and the answer behind a plan that people read: bars back into starts and ovens.

For what is reckoned from an accepted plan afterwards (its chances, its day): the plan keeps
minutes of the day by bench and step; the question speaks of tasks and minutes after
cooking may begin.
"""

from collections import Counter
from collections.abc import Mapping
from dataclasses import replace

from kitchen.timeplan.answer import Answer
from kitchen.timeplan.choices import settled
from kitchen.timeplan.class_data import LessonData
from kitchen.timeplan.lesson_problem import part_name, problem_of, show_name, taste_name
from kitchen.timeplan.plan import LessonPlan
from kitchen.timeplan.problem import Problem


def question_and_answer(lesson: LessonData, plan: LessonPlan) -> tuple[Problem, Answer]:
    """The lesson's question as the plan was led, with its choices made, and the plan as its answer.

    The plan must be one of this lesson as it is. RoomLacks as ``problem_of`` raises it.
    """
    answer = answer_of(plan)
    problem = problem_of(lesson, plan.waves, frozenset(plan.by_the_minute))
    return settled(problem, answer.ways), replace(answer, ways={})


def answer_of(plan: LessonPlan, ovens: Mapping[str, str] | None = None) -> Answer:
    """Starts and ovens of a plan, in minutes after cooking may begin, by the names of the question.

    ``ovens`` are the room's names by code, for a plan of the day: the oven of a bench at which
    nobody is left may be in no other bench's use, and then is not in the plan.
    """
    codes = {name: code for code, name in (ovens or {}).items()}
    codes |= {oven.name: oven.code for oven in plan.ovens}
    starts = {show_name(show.step): show.start - plan.cooking_from for show in plan.shows}
    ovens, ways = {}, {}
    for bench in plan.benches:
        parts: Counter[int] = Counter()
        way = {line.step: line.way for line in bench.lines if line.way}
        for bar in bench.bars:
            name = part_name(bench.name, bar.step, parts[bar.step]) if bar.step else taste_name(bench.name)
            parts[bar.step] += 1
            starts[name] = bar.start - plan.cooking_from
            if bar.kind == "hands" and bar.step in way:
                ways[name] = way[bar.step]
            if bar.kind == "oven":
                ovens[name] = codes[bar.where]
    return Answer(starts, ovens, ways)
