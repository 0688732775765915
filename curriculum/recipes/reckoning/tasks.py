"""The whole book reckoned a few recipes at a time, so that nobody who writes waits for it.

For the command and for the worker, which asks once on each day of the college: a price that
begins today is in the book today. The list says of which day its prices are.
"""

from curriculum.people.models import College, User
from curriculum.people.queries import today_at
from curriculum.recipes.reckoning.actions import reckon_figures
from curriculum.recipes.reckoning.queries import are_due, kept_versions

#: Versions in one transaction; about a tenth of a second.
AT_ONCE = 25


def reckon_book(*, by: User | None = None) -> int:
    """Reckon every version that the book lists; how many."""
    keys = kept_versions()
    parts = [keys[start : start + AT_ONCE] for start in range(0, len(keys), AT_ONCE)]
    return sum(reckon_figures(versions=part, by=by) for part in parts)


def reckon_when_due() -> int:
    """Reckon the book when its costs are not of the college's day; how many versions."""
    college = College.objects.first()
    return reckon_book() if college is not None and are_due(today_at(college)) else 0
