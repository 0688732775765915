"""Says in plain words what the demonstration did, and where to look.

Everything is read from the database, so that a second start says the same.
"""

from collections.abc import Iterator

from assessments.feedback.models import HandedBack
from curriculum import wording
from kitchen.lessons.models import Lesson
from kitchen.stores.models import Kit, KitSet
from kitchen.website.demonstration import people
from kitchen.website.demonstration.lessons import lessons_to_work
from kitchen.website.demonstration.planning import show_words, wish_words
from kitchen.website.demonstration.summary import Worked, worked

#: kind of kit -> what it is called after its count.
KITS = {
    Kit.Kind.BENCH: "for the benches",
    Kit.Kind.DEMONSTRATION: "to demonstrate",
    Kit.Kind.STAGE_TRAY: "for stage trays",
    Kit.Kind.SPARE: "to spare",
    Kit.Kind.AHEAD: "to prepare ahead",
}


def lines(lessons: list[Lesson], address: str) -> Iterator[str]:
    """The whole report, line by line."""
    for lesson, said in zip(lessons, lessons_to_work(), strict=False):
        yield ""
        yield from lesson_lines(lesson, said, address)
    yield ""
    yield from login_lines(address)


def lesson_lines(lesson: Lesson, said: dict, address: str) -> Iterator[str]:
    """One lesson: when and where, whether it fits, kits, what is short, marks, where to look."""
    done = worked(lesson)
    ends = lesson.starts.hour * 60 + lesson.starts.minute + lesson.minutes
    yield (
        f"{lesson.title}: {wording.long_date(lesson.on)}, {wording.clock(lesson.starts)} to "
        f"{wording.clock_minutes(ends)}, {lesson.room}, group {lesson.group.code}, {lesson.lecturer}."
    )
    yield from (f"  {words}" for words in wish_words(lesson, said))
    yield f"  {fit_words(lesson, done)}"
    yield f"  Shown: {show_words(lesson)}"
    yield f"  Kits: {kit_words(lesson)}."
    short = wording.listed(each.words for each in done.shortages)
    yield f"  Short in the stores: {short or 'nothing'}."
    yield f"  {mark_words(lesson, done)}"
    yield f"  Look at {address}/lessons/{lesson.code}/."


def fit_words(lesson: Lesson, done: Worked) -> str:
    """Whether the accepted plan fits, and how far any plan could be shortened."""
    if done.plan is None:
        return f"{done.benches} benches; no time plan is accepted yet."
    fits = "It fits" if done.plan.fits else "It does not fit"
    return (
        f"{fits}: {done.benches} benches finish after {done.plan.finish_minutes} of "
        f"{lesson.usable_minutes} minutes; no plan finishes before {done.plan.bound_minutes}."
    )


def kit_words(lesson: Lesson) -> str:
    """How many kits of each kind were made."""
    kit_set = KitSet.objects.filter(lesson=lesson, state=KitSet.State.ACCEPTED).first()
    if kit_set is None:
        return "none yet"
    kinds = list(Kit.objects.filter(kit_set=kit_set).values_list("kind", flat=True))
    return wording.listed(f"{kinds.count(kind)} {words}" for kind, words in KITS.items() if kind in kinds)


def mark_words(lesson: Lesson, done: Worked) -> str:
    """How many sheets are in, and to how many learners feedback was handed back."""
    if not done.marked:
        return "Not marked yet."
    back = HandedBack.objects.filter(sitting__brief__lesson=lesson, number=1).count()
    return f"Marked: {done.marked} sheets handed in, feedback handed back to {back} learners."


def login_lines(address: str) -> Iterator[str]:
    """Who signs in for each role, and with what."""
    yield f"Sign in at {address}/ with the password {people.PASSWORD} as:"
    for role, username in people.LOGINS.items():
        yield f"  {username:<10} {role.replace('_', ' ')}"
