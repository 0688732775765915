"""The label of a made lot: what is in the bowl, who made it, when it is thrown away.

For the stores' page of made lots. Words arrive as they are printed.
"""

from dataclasses import dataclass

from curriculum.blocks import Sheet
from curriculum.lettering import allergen, joined, listed, strong
from curriculum.limits import BY_CODE, DEFER

CAUTION = (
    "Raw food in an open bowl: cover it, keep it cold, wash hands after it. "
    "Do not taste what is made of raw egg before it is cooked."
)


@dataclass(frozen=True, slots=True)
class MadeLabel:
    """The words of one label; ``made`` and ``discard`` such as "16 Feb, 08:30"; ``parts`` lot and amount."""

    code: str
    what: str
    amount: str
    by: str
    made: str
    discard: str
    where: str
    lesson: str
    contains: tuple[str, ...]
    may_contain: tuple[str, ...]
    parts: tuple[tuple[str, str], ...]


def made_label(label: MadeLabel) -> bytes:
    """The label as a PDF of one page; the upper half is the label, cut along its last rule."""
    limit = BY_CODE["egg_out_of_shell"]
    sheet = Sheet(f"{label.what}, made lot {label.code}", size=12)
    sheet.head(f"{label.what}, {label.amount}", f"Made lot {label.code}. For {label.lesson}.")
    sheet.paragraph(strong(f"Throw away by {label.discard}"), size=24)
    inks = [allergen(kind) for kind in label.contains]
    named = joined("Contains ", listed(inks), ".") if inks else ("The labels name none of the kinds.",)
    sheet.paragraph(named, size=16)
    if label.may_contain:
        sheet.paragraph(joined("May contain ", strong(", ".join(label.may_contain)), "."), size=14)
    where = f" Kept in: {label.where}." if label.where else ""
    sheet.paragraph(f"Made {label.made} by {label.by}.{where}")
    sheet.rows([12, 0], [[strong(f"Lot {lot}"), amount] for lot, amount in label.parts])
    sheet.caution("Raw", [CAUTION], f"{limit.words}: {limit.source[0].lower()}{limit.source[1:]}. {DEFER}")
    return sheet.finish()
