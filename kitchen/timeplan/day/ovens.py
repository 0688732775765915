"""The ovens and the demonstration on the page of the day: what is now, until when, what is next.

For the lecturer's tablet and the projector, beside the benches of ``page.py``.
"""

from curriculum.wording import clock_minutes, temperature
from kitchen.timeplan.calls import benches_words
from kitchen.timeplan.day.rows import OvenRow, Row, Tap
from kitchen.timeplan.day.told import LATE_FROM, MORE_MINUTES, Told, baking, clause, planned
from kitchen.timeplan.problem import Demonstration, Oven


def oven_rows(told: Told) -> tuple[OvenRow, ...]:
    """The ovens that the plan uses, in their order."""
    used = {told.state.oven_of(t.name) for t in told.state.problem.tasks if t.bake is not None}
    used |= told.state.failed.keys()
    return tuple(_oven_row(told, oven) for oven in told.state.problem.ovens if oven.name in used)


def _oven_row(told: Told, oven: Oven) -> OvenRow:
    name = told.oven_name(oven.name)
    if oven.name in told.state.failed:
        at = clock_minutes(told.at(told.state.failed[oven.name]))
        return OvenRow(oven.name, name, f"at {at}.", "stopped", "Failed")
    inside = [t for t in baking(told) if told.state.oven_of(t.name) == oven.name]
    tap = Tap("failed", "Failed", f"{name} has failed", oven=oven.name)
    coming = _coming_into(told, oven.name)
    if not inside:
        return OvenRow(oven.name, name, "", "todo", "Empty", next_words=coming, taps=(tap,))
    heat = inside[0].bake.begins_at if inside[0].bake else None
    words = f"{benches_words(dict.fromkeys(t.bench or '' for t in inside))}, {temperature(heat or 0)}."
    first = told.state.begun[inside[0].name] + told.state.lasts(inside[0].name)
    over = told.state.now - first
    kind, state_words = ("late", f"Over by {over} min") if over >= LATE_FROM else ("doing", "Baking")
    return OvenRow(
        code=oven.name,
        name=name,
        words=words,
        state=kind,
        state_words=state_words,
        ends=told.at(first),
        minutes=first - told.state.now,
        next_words=coming,
        taps=(tap,),
    )


def _coming_into(told: Told, oven: str) -> str:
    """What goes in next: "Next at 10:35: bench 4, 180 °C"."""
    coming = [
        t
        for t in told.state.problem.tasks
        if t.bake is not None
        and t.name not in told.state.begun
        and t.bench not in told.state.gone
        and told.state.plan.ovens[t.name] == oven
    ]
    if not coming:
        return "Nothing more today."
    start = min(planned(told, t) for t in coming)
    first = [t for t in coming if planned(told, t) == start]
    heat = temperature(first[0].bake.begins_at if first[0].bake else 0)
    who = benches_words(t.bench or "" for t in first)
    return f"Next at {clock_minutes(told.at(start))}: {who[0].lower()}{who[1:]}, {heat}."


def show_row(told: Told) -> Row | None:
    """The demonstration that runs or comes next; None when all are shown."""
    left = [d for d in told.state.problem.demonstrations if d.name not in told.state.ended]
    if not left:
        return None
    show = min(left, key=lambda d: (d.name not in told.state.begun, told.state.plan.starts[d.name]))
    return _show_row(told, show)


def _show_row(told: Told, show: Demonstration) -> Row:
    step = int(show.name.rsplit("/", 1)[-1])
    shown = next((s for s in told.plan.shows if s.step == step), None)
    words = f"Demonstration of step {step}: {clause(shown.words) if shown else ''}".rstrip(": ")
    running = told.state.is_running(show.name)
    start = told.state.plan.starts[show.name] + (0 if running else told.state.later.get(show.name, 0))
    late = told.state.expected_end(show.name) - start - show.minutes if running else told.state.now - start
    called = f"Demonstration of step {step}"
    first = (
        Tap("done", "Done", f"{called}: done", step=step)
        if running
        else Tap("started", "Started", f"{called}: started", step=step)
    )
    more = Tap("later", "+5", f"{called}: five minutes more", step=step, minutes=MORE_MINUTES)
    kind, state_words = ("doing", "Everybody watches") if running else ("todo", "To start")
    if late >= LATE_FROM:
        kind, state_words = "late", f"Late by {late} min"
    ends = told.state.begun[show.name] + told.state.lasts(show.name) if running else start
    counts = "left" if running else "to start"
    return Row(
        "D", "", words, kind, state_words, told.at(ends), counts, late_by=max(0, late), taps=(first, more)
    )
