"""Why stock leaves otherwise than in a kit, or differs from the book: the college's own lists.

For forms (what can be chosen) and actions (what is written on the movement). A movement keeps
the words, with the note behind them, so that it reads the same when a list changes.

Source of the lists: reasons that stores write on a waste slip (common practice, no source).
"""

OTHER = "other"

#: Why food is thrown away: code and words.
WASTE = (
    ("dropped", "Dropped"),
    ("out_of_date", "Out of date"),
    ("spoiled", "Spoiled"),
    ("burnt", "Burnt or over-baked"),
    ("over_made", "Over-made"),
    ("test_piece", "Test piece"),
    ("contaminated", "Contaminated"),
    ("trim", "Trim and peel"),
    ("opened", "Opened and not used"),
    (OTHER, "Something else"),
)

#: Why a count differs from the book.
DIFFERENCE = (
    ("not_written", "Taken and not written down"),
    ("waste_not_written", "Thrown away and not written down"),
    ("scale", "Weighed wrongly"),
    ("delivery", "Delivery counted wrongly"),
    ("dried_out", "Dried out or leaked"),
    ("counted_before", "The last count was wrong"),
    ("nobody_knows", "Nobody knows"),
)

#: How food comes to lie in the stores that the book lacks.
FOUND = (
    ("no_papers", "It came without papers"),
    ("not_booked", "It was delivered and not taken in"),
    ("other_kitchen", "It came from another kitchen"),
    ("bought", "Somebody bought it in a shop"),
    (OTHER, "Something else"),
)

#: Why a bench gets more during the lesson.
MORE = (
    ("dropped", "Dropped"),
    ("mis_weighed", "Weighed wrongly"),
    ("over_baked", "Burnt or over-baked"),
    ("not_enough", "Not enough in the kit"),
    ("late", "Arrived late"),
    ("short", "Short when the kits left"),
    (OTHER, "Something else"),
)

#: Why food comes back sealed.
RETURNED = (
    ("not_used", "Not used"),
    ("absent", "A learner was away"),
    ("cancelled", "The lesson did not take place"),
    ("too_much", "More was issued than needed"),
    ("wrong_food", "It was the wrong food"),
    (OTHER, "Something else"),
)

#: As long as what a movement keeps.
LONGEST = 200


def words_of(listed: tuple[tuple[str, str], ...], code: str, note: str = "") -> str:
    """What a movement keeps: "Dropped", "Dropped: tray slipped". KeyError for a code not listed."""
    words = dict(listed)[code]
    note = note.strip()
    return (f"{words}: {note}" if note else words)[:LONGEST]


def code_of(listed: tuple[tuple[str, str], ...], kept: str) -> str:
    """The code of the words that a movement keeps; ``OTHER`` for words that are not listed (any more)."""
    words = kept.partition(":")[0].strip()
    return next((code for code, said in listed if said == words), OTHER)


def unsaid(code: str, note: str) -> bool:
    """Whether "something else" was chosen and nothing written beside it."""
    return code == OTHER and not note.strip()
