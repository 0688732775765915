"""Paper of the time plan: the lecturer's sheet, and one strip a bench.

For the pages and the demo command: a plan in, the bytes of a PDF out. The strip has the
trade's three columns (time, task, special points) and a box to tick; spare minutes stand on
its last line. Plans are estimates: the cook watches the food, not the clock.
"""

from curriculum.blocks import DocketLine, Sheet
from curriculum.lettering import TICK, Words, joined, strong
from curriculum.paper import NORMAL
from curriculum.wording import clock_minutes, listed
from kitchen.timeplan.beside import WAIT_FOR
from kitchen.timeplan.calls import Call, calls_of
from kitchen.timeplan.cleaning import free_times
from kitchen.timeplan.plan import BenchPlan, LessonPlan, PlanLine
from kitchen.timeplan.words import free_from_words, lead_by_words, lead_words

WATCH = "The times are a plan. Look at the food, the probe and the cue before the clock."


def lecturer_sheet(plan: LessonPlan, facts: str, stamp: str) -> bytes:
    """All calls of the lesson in order of the clock, then the benches with who stands there."""
    sheet = Sheet(f"Time plan: {plan.title}", foot=f"{stamp}. {plan.title}, time plan")
    sheet.head(f"Time plan: {plan.title}", stamped(facts, stamp))
    sheet.paragraph((lead_words(plan), " ", lead_by_words(plan)))
    sheet.heading("What you call")
    rows = [_call_row(call) for call in calls_of(plan)]
    sheet.rows([4, 0, 17, 2], rows, head=["Time", "What", "Watch", ""], align="lllm")
    sheet.heading("Who stands where")
    sheet.docket([_bench_line(plan, bench) for bench in plan.benches], figure=4, points=14)
    sheet.paragraph(WATCH)
    return sheet.finish()


def strips(
    plan: LessonPlan, facts: str, benches: tuple[BenchPlan, ...], stamp: str, size: float = NORMAL
) -> bytes:
    """One strip for each of the benches, each from a page of its own and with a bookmark."""
    sheet = Sheet(f"Strips: {plan.title}", size=size)
    for bench in benches:
        name = f"Bench {bench.name}"
        mark = f"{name}, {bench.dish}"
        sheet.part(foot=f"{stamp}. {plan.title}", mark=name.lower(), bookmark=mark, size=size)
        _strip(sheet, plan, bench, stamped(facts, stamp))
    return sheet.finish()


def stamped(facts: str, stamp: str) -> str:
    """The facts of a paper with the plan it is of."""
    return f"{facts} {stamp}; a sheet of any other plan is void."


def _strip(sheet: Sheet, plan: LessonPlan, bench: BenchPlan, facts: str) -> None:
    box = free_from_words(bench.free_from)
    who = listed(bench.learners) or f"Bench {bench.name}"
    sheet.head(bench.dish, f"{who}. {facts}", plate=bench.name, free_from=box)
    sheet.paragraph(WATCH)
    rows = strip_rows(plan, bench)
    if sheet.size > NORMAL:
        under = [[at, joined(task, "\n", points), tick] for at, task, points, tick in rows]
        sheet.rows([4, 0, 2], under, head=["Time", "Task and special points", ""], align="llm")
    else:
        sheet.rows([4, 0, 23, 2], rows, head=["Time", "Task", "Special points", ""], align="lllm")


def strip_rows(plan: LessonPlan, bench: BenchPlan) -> list[list[Words]]:
    """Rows of a strip: start-up, demonstrations and steps by the clock, clear-down with what is in hand."""
    timed: list[tuple[int, int, list[Words]]] = [
        (
            plan.starts,
            0,
            [clock_minutes(plan.starts), "Hands, apron, kit checked.", "Read all steps once.", TICK],
        )
    ]
    for show in plan.shows:
        words = f"Watch: demonstration of step {show.step}, {show.minutes} min."
        timed.append(
            (show.start, 1, [clock_minutes(show.start), words, "Hands free, where you can see.", TICK])
        )
    timed += [(line.start, 2, _step_row(line)) for line in bench.lines]
    for free in free_times(plan, bench):
        timed.append((free.start, 2, [clock_minutes(free.start), free.words, free.point, TICK]))
    if plan.break_minutes:
        at, until = clock_minutes(plan.break_at), clock_minutes(plan.break_end)
        timed.append((plan.break_at, 1, [at, f"Break until {until}.", "Food may wait, bake or chill.", TICK]))
    clear_at = plan.clear_at
    in_hand = f"{clear_at - bench.end} min in hand before it." if clear_at > bench.end else ""
    timed.append((clear_at, 3, [clock_minutes(clear_at), "Present, clear down, clean.", in_hand, TICK]))
    return [row for _, _, row in sorted(timed, key=lambda each: each[:2])]


def _step_row(line: PlanLine) -> list[Words]:
    if not line.step:
        return [clock_minutes(line.start), line.words, "Hands free, your bench left as it is.", TICK]
    hands = f"\n{line.hands_minutes} min of hands" if line.hands_minutes else ""
    task = (strong(f"{line.step}. "), line.words, hands)
    points = [WAIT_FOR, *line.points] if line.beside else [*line.points]
    if line.cue:
        points.append(f"Look for: {line.cue}")
    if line.caution:
        points.append(line.caution)
    return [clock_minutes(line.start), task, "\n".join(points), TICK]


def _call_row(call: Call) -> list[Words]:
    minutes = f"\n{call.minutes} min" if call.minutes else ""
    words = (strong(f"{call.head}. "), call.words, minutes)
    return [call.at, words, "\n".join(call.points), TICK]


def _bench_line(plan: LessonPlan, bench: BenchPlan) -> DocketLine:
    wave = f"Wave {bench.wave}. " if plan.waves > 1 else ""
    words = f"{listed(bench.learners)}\n{bench.dish}"
    return DocketLine(bench.name, words, f"{wave}Done at {clock_minutes(bench.end)}.")
