"""What a recall shows, on the page and on paper alike: lots, lessons, benches, learners, in words."""

from dataclasses import dataclass

#: What became of the dish of a lesson, as a sentence's end.
BECOMES = {"eaten": "eaten in the college", "sold": "sold", "taken_home": "taken home by the learners"}
#: Regulation (EC) 178/2002, article 18: one step back and one step forward (check-values, section 12).
DUTY = (
    "Regulation (EC) 178/2002, article 18: a food business can name the supplier of every food and every "
    "business that it supplied, and tells the authority on demand; people who eat need not be named in it. "
    "The college’s own procedure and the authority decide what is done; this only shows what the book says."
)


@dataclass(frozen=True, slots=True)
class LotRow:
    """One lot with its sums in words; ``out_of`` the lots in a made lot; ``faults`` of its ledger."""

    code: str
    food: str
    supplier: str
    batch: str
    dated: str
    came: str
    received: str
    counted: str
    issued: str
    returned: str
    made: str
    wasted: str
    left: str
    where: str
    is_left: bool
    held: str
    out_of: tuple[str, ...] = ()
    faults: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class BenchRow:
    """One bench that food of these lots may have reached; ``had`` such as "215 g of lot MP-0710".

    In a recall ``had`` is of the bench's own kits and of shared ones that it was given by name; what else
    is shared stands at the lesson. ``went`` is what became of the dish as a person said, else empty.
    """

    place: str
    bench: str
    dish: str
    learners: tuple[str, ...]
    had: tuple[str, ...]
    went: str = ""


@dataclass(frozen=True, slots=True)
class LessonRow:
    """One lesson that food of these lots went to, with whom to ask."""

    code: str
    title: str
    group: str
    when: str
    room: str
    ask: tuple[str, ...]
    became: str
    benches: tuple[BenchRow, ...]
    shared: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Recall:
    """A recall whole. ``codes`` are the lots it began with; ``whole`` is False for one lecturer's lessons."""

    codes: tuple[str, ...]
    lots: tuple[LotRow, ...]
    lessons: tuple[LessonRow, ...]
    whole: bool = True

    @property
    def left(self) -> tuple[LotRow, ...]:
        """The lots of which something is on hand."""
        return tuple(row for row in self.lots if row.is_left)

    @property
    def learners(self) -> int:
        """How many names stand on the sheet, each bench counted."""
        return sum(len(bench.learners) for lesson in self.lessons for bench in lesson.benches)


@dataclass(frozen=True, slots=True)
class Plate:
    """What may have reached one bench of one lesson, back to the suppliers."""

    lesson: LessonRow
    bench: BenchRow
    lots: tuple[LotRow, ...]


def became(word: str) -> str:
    """ "taken home by the learners"; a word of the college's own stays as it is."""
    return BECOMES.get(word, word)
