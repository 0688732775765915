"""What stands on the papers of the stores, facet by facet, so that a change of any can be told.

Lots are left out: which lot a kit is filled from is proposed until it leaves, and the ledger says
it then; a label whose lot has changed gives its bench the same food.
"""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from kitchen.lessons.papers.force import WHOLE, Facets, facets_of
from kitchen.stores.trays import Tray

#: When and where a lesson is, as every paper says it.
When = Sequence[str]


def label_parts(trays: Iterable[Tray], when: When, cold: Mapping[str, str]) -> dict[str, Facets]:
    """One part for each kit, by its plate; ``cold`` says until when each is kept cold, by its code."""
    return {
        tray.label: facets_of(_label(tray, when) | {"time out of the cold": cold.get(tray.code, "")})
        for tray in trays
    }


def issue_sheet_parts(trays: Sequence[Tray], when: When) -> dict[str, Facets]:
    """One part: the whole sheet."""
    said = {
        "foods and weights": [[tray.label, _weights(tray)] for tray in trays],
        "names": [[tray.label, *tray.cooks] for tray in trays],
        "time and place": list(when),
    }
    return {WHOLE: facets_of(said)}


def requisition_parts(lines: Mapping[str, int], state: str, when: When) -> dict[str, Facets]:
    """One part: the whole sheet."""
    said = {"foods and amounts": sorted(lines.items()), "state": state, "time and place": list(when)}
    return {WHOLE: facets_of(said)}


def _label(tray: Tray, when: When) -> dict[str, Any]:
    return {
        "recipe": [tray.title, tray.batches],
        "names": list(tray.cooks),
        "weights": _weights(tray),
        "allergens": [
            [*tray.free_from, *tray.free_for],
            [[line.food, *line.allergens, "may contain", *line.may_contain] for line in tray.lines],
        ],
        "whether it may leave": tray.blocked_why,
        "time and place": list(when),
    }


def _weights(tray: Tray) -> list[list[Any]]:
    return [[line.component, line.words, line.milligrams, line.pieces, line.note] for line in tray.lines]
