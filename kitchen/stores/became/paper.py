"""The label of a dish that is taken home: allergens in full, when it was made, until when it is eaten.

For the page of what became of the dishes. Words arrive as they are printed. Nothing on it says more than
the packs, the clock and the college's own procedure; it is no statement about the dish.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from curriculum.blocks import Sheet
from curriculum.lettering import allergen, joined, listed, strong
from curriculum.limits import DEFER

SOURCE = (
    "Kinds: Regulation (EU) No 1169/2011, Annex II, as the packs of these lots named them. Food that is "
    "given to others, or sold in a pack, may need more on its label by local law."
)


@dataclass(frozen=True, slots=True)
class TakeHome:
    """The words of one label; ``near`` are kinds that other food of the lesson named."""

    dish: str
    college: str
    bench: str
    code: str
    made: str
    contains: tuple[str, ...]
    may_contain: tuple[str, ...]
    near: tuple[str, ...]
    foods: tuple[str, ...]
    lots: tuple[str, ...]
    cooled: str
    eat_by: str
    keep_words: str


def take_home_labels(labels: Sequence[TakeHome], title: str) -> bytes:
    """One page a bench, printed as often as there are boxes; a sentence when no label is printed."""
    sheet = Sheet(title, size=12)
    for number, label in enumerate(labels):
        if number:
            sheet.new_page()
        _label(sheet, label)
    if not labels:
        sheet.head("No label", "Nothing went home of which the cooling and the lots are known.")
    return sheet.finish()


def _label(sheet: Sheet, label: TakeHome) -> None:
    sheet.head(label.dish, f"Made {label.made} at {label.college}. {label.bench}, {label.code}.")
    sheet.paragraph(strong(f"Eat by {label.eat_by}"), size=22)
    sheet.paragraph(label.keep_words, size=14)
    inks = [allergen(kind) for kind in label.contains]
    named = joined("Contains ", listed(inks), ".") if inks else ("The packs name none of the kinds.",)
    sheet.paragraph(named, size=16)
    if label.may_contain:
        sheet.paragraph(joined("May contain ", strong(", ".join(label.may_contain)), "."), size=14)
    if label.near:
        sheet.paragraph(f"In the same lesson there was food with {', '.join(label.near)}.")
    sheet.paragraph(f"Foods of its kits: {', '.join(label.foods)}.")
    sheet.paragraph(f"{label.cooled} Lots: {', '.join(label.lots)}.")
    sheet.caution(
        "Before it is eaten",
        ["Read the kinds above. Ask the college when something is not clear."],
        f"{SOURCE} {DEFER}",
    )
