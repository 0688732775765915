"""The slot of a lesson on its day, and what stands in its way: room, people, group, closures.

For the booking form and its action. Plain data in, sentences out. A slot is a day, a start
in minutes after midnight and whole minutes; the start-up and the clear-down are part of it.
Two slots clash when they share a minute; one may begin when the other ends.

Worked example: EV1 has Saffron Kitchen from 18:00 to 21:00. A lesson from 20:45 clashes
with it and is told the room is free from 21:00, and which other rooms are free then.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from curriculum.wording import clock_minutes, duration, listed

MINUTES_A_DAY = 24 * 60


@dataclass(frozen=True, slots=True)
class Slot:
    """Whole minutes of one day: ``starts`` after midnight, ``minutes`` long."""

    starts: int
    minutes: int

    @property
    def ends(self) -> int:
        """The minute after midnight in which the slot is over."""
        return self.starts + self.minutes

    def meets(self, other: "Slot") -> bool:
        """Whether both slots share a minute."""
        return self.starts < other.ends and other.starts < self.ends

    @property
    def words(self) -> str:
        """ "18:00 to 21:00"; the end of the day is 24:00."""
        ends = "24:00" if self.ends == MINUTES_A_DAY else clock_minutes(self.ends)
        return f"{clock_minutes(self.starts)} to {ends}"


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody who teaches, by key and name."""

    key: int
    name: str


@dataclass(frozen=True, slots=True)
class Booked:
    """A lesson that stands that day: keys of room and group, and whoever teaches it in fact."""

    slot: Slot
    title: str
    room: int
    room_name: str
    group: int
    group_code: str
    teacher: Person


@dataclass(frozen=True, slots=True)
class Wanted:
    """The slot that is asked for."""

    slot: Slot
    room: int
    group: int
    teacher: Person


@dataclass(frozen=True, slots=True)
class Trouble:
    """One thing that stands in the way: the field it is about, a code, a full sentence."""

    field: str
    code: str
    message: str


def slot_troubles(
    slot: Slot, start_minutes: int, clear_minutes: int, contingency_minutes: int = 0
) -> list[Trouble]:
    """What is wrong with a slot by itself: an end before its start, longer than the day, no time to cook."""
    if slot.minutes <= 0:
        message = f"It ends at {clock_minutes(slot.ends)} and starts at {clock_minutes(slot.starts)}."
        return [Trouble("ends", "ends_before_start", f"{message} Write an end after the start.")]
    if slot.ends > MINUTES_A_DAY:
        message = f"It would end at {clock_minutes(slot.ends)} the next day. A lesson ends by 24:00."
        return [Trouble("ends", "longer_than_the_day", message)]
    taken = start_minutes + clear_minutes + contingency_minutes
    if taken >= slot.minutes:
        what = "Start-up, contingency and clear-down" if contingency_minutes else "Start-up and clear-down"
        message = (
            f"{what} take {taken} of {duration(slot.minutes)}; "
            "no minute is left to cook. Make the slot longer."
        )
        return [Trouble("ends", "no_time_to_cook", message)]
    return []


def clashes(
    wanted: Wanted, booked: Iterable[Booked], other_rooms: Sequence[tuple[int, str]]
) -> list[Trouble]:
    """Lessons of that day that need the same room, teacher or group, in words with what would help.

    ``other_rooms`` are the rooms that could be taken instead, (key, name).
    """
    day = list(booked)
    meeting = [lesson for lesson in day if lesson.slot.meets(wanted.slot)]
    found = [_room_taken(wanted, each, day, other_rooms) for each in meeting if each.room == wanted.room][:1]
    found += [_teacher_taken(wanted, each) for each in meeting if each.teacher.key == wanted.teacher.key][:1]
    found += [_group_taken(wanted, each) for each in meeting if each.group == wanted.group][:1]
    return found


def free_rooms(slot: Slot, booked: Iterable[Booked], rooms: Sequence[tuple[int, str]]) -> list[str]:
    """Names of the rooms that no lesson holds during the slot."""
    taken = {lesson.room for lesson in booked if lesson.slot.meets(slot)}
    return [name for key, name in rooms if key not in taken]


def _room_taken(wanted: Wanted, by: Booked, day: list[Booked], rooms: Sequence[tuple[int, str]]) -> Trouble:
    free = free_rooms(wanted.slot, day, rooms)
    help_ = (
        f"Free then: {listed(free)}."
        if free
        else f"No other kitchen is free; start at {_after(by)} or later."
    )
    message = f"{by.room_name} is taken by {by.group_code}, {by.title}, {by.slot.words}. {help_}"
    return Trouble("room", "room_taken", message)


def _teacher_taken(wanted: Wanted, by: Booked) -> Trouble:
    message = (
        f"{by.teacher.name} teaches {by.group_code}, {by.title}, {by.slot.words} in {by.room_name}. "
        f"Start at {_after(by)} or later, or ask somebody else to teach it."
    )
    return Trouble("lecturer", "lecturer_taken", message)


def _group_taken(wanted: Wanted, by: Booked) -> Trouble:
    message = (
        f"{by.group_code} has {by.title}, {by.slot.words} in {by.room_name}. "
        f"Start at {_after(by)} or later, or choose another day."
    )
    return Trouble("group", "group_taken", message)


def _after(by: Booked) -> str:
    return clock_minutes(by.slot.ends)
