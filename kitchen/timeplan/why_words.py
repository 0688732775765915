"""Why a class does not fit, in sentences: each member named, both proofs said with their minutes.

For ``drafts.py``: what the long work found out stands on the page under "What is in the way".
"""

from curriculum.wording import listed
from kitchen.timeplan.problem import Problem
from kitchen.timeplan.why_not import InTheWay

_CALLED = {
    "hands": "one pair of hands a cook",
    "waits": "resting, chilling and cooling",
    "holds": "food that may not stand",
    "lead": "benches that begin together, on the fives",
    "break": "the break",
    "shows": "the demonstrations that everybody watches",
    "assessor": "the tasting, one plate after another",
    "lecturer": "the lecturer, who checks or stands beside",
    "heats": "ovens that hold one heat at a time",
    "shelves": "the shelves of the ovens",
}


def why_words(problem: Problem, reason: InTheWay) -> str:
    """One reason as a few sentences."""
    usable = problem.usable_minutes or 0
    short = reason.at_least - usable
    missing = f"at least {short} minutes are" if short > 1 else "at least one minute is"
    if not reason.members:
        return (
            f"Nothing but the order of the steps is in the way: they end at minute {reason.at_least} at the"
            f" earliest. The slot leaves {usable}, so {missing} missing."
        )
    names = [called(problem, member) for member in reason.members]
    alone = len(names) == 1
    gone = "Without it this reason is gone." if alone else "Without any one of them this reason is gone."
    return (
        f"In the way, {'alone' if alone else 'together'}: {listed(names)}. It is proved that no plan with"
        f" {'this' if alone else 'these'} ends before minute {reason.at_least}; the slot leaves {usable}, so"
        f" {missing} missing. {gone}"
    )


def called(problem: Problem, member: str) -> str:
    """A member as people say it."""
    if not member.startswith("supply:"):
        return _CALLED[member]
    name = member.partition(":")[2]
    words = next((supply.words for supply in problem.supplies if supply.name == name), "")
    return f"the {words or name}"
