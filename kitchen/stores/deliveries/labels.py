"""What one label names beyond another: the lot's beyond its food's, a substitute's beyond what was ordered.

For the allocation of lots and for the delivery check. A kind that the book knows as "may
contain" and the new label as "contains" is more; a group that the book names covers its kinds.
"""

from collections.abc import Iterable

from curriculum.allergens import kinds_of
from kitchen.stores.made.bowls import Label


def kinds_beyond(read: Label, book: Label) -> tuple[str, ...]:
    """Kinds that the label read names and the book does not, each once, contained ones first."""
    contains = _kinds(book.contains)
    named = contains | _kinds(book.may_contain)
    more = [kind for kind in read.contains if not kinds_of(kind) <= contains]
    more += [kind for kind in read.may_contain if not kinds_of(kind) <= named]
    return tuple(dict.fromkeys(more))


def _kinds(codes: Iterable[str]) -> frozenset[str]:
    return frozenset(kind for code in codes for kind in kinds_of(code))
