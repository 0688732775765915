"""Plates that are ready together and would wait too long for the one who tastes: a proof, in a moment.

For ``byhand.py``, which would otherwise move the benches of a wave later for ever, and for the
reasons under "What is in the way". Only plates whose benches begin together are looked at: how
long after one another they are ready is then known, whatever else is in the class.

Worked example: four benches plate up together; a plate takes 4 minutes and may wait for 10. The
fourth waits 12, so no plan leads them together; three wait 0, 4 and 8, so they can.
"""

from kitchen.timeplan.problem import Problem

Ready = tuple[int, int, int]


def plates_wait_too_long(problem: Problem) -> bool:
    """Whether the plates of benches that begin together cannot all be tasted in their time."""
    return any(_too_late(plates) for plates in _ready_together(problem).values())


def _ready_together(problem: Problem) -> dict[int, list[Ready]]:
    """(ready after the common start, longest wait, minutes) of each plate, by the group it is of."""
    group = {name: number for number, names in enumerate(problem.together) for name in names}
    found: dict[int, list[Ready]] = {}
    for task in problem.tasks:
        for window in problem.windows_before[task.name] if task.assessor else ():
            before, after = _anchor(problem, window.before, group)
            if window.longest is not None and before in group:
                ready = after + problem.task[window.before].minutes
                found.setdefault(group[before], []).append((ready, window.longest, task.minutes))
    return found


def _anchor(problem: Problem, name: str, group: dict[str, int]) -> tuple[str, int]:
    """What begins together and carries this with it, and how many minutes earlier it begins."""
    minutes = 0
    while name not in group:
        rigid = [w for w in problem.windows_before[name] if w.longest == w.least]
        if not rigid:
            break
        minutes += problem.task[rigid[0].before].minutes + rigid[0].least
        name = rigid[0].before
    return name, minutes


def _too_late(plates: list[Ready]) -> bool:
    """In the order in which they are ready, which is the best where all wait and take the same."""
    if len({(longest, minutes) for _, longest, minutes in plates}) > 1:
        return False
    free = 0
    for ready, longest, minutes in sorted(plates):
        start = max(free, ready)
        if start > ready + longest:
            return True
        free = start + minutes
    return False
