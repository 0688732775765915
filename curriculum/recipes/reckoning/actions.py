"""Reckons anew what the book keeps of its recipes; their sheets stay as they are."""

from collections.abc import Collection

from django.db import transaction

from curriculum.foods.queries import prices
from curriculum.people.models import User
from curriculum.people.queries import the_college, today_at
from curriculum.recipes.figures import figures_of
from curriculum.recipes.managers import FIGURES, write_figures
from curriculum.recipes.models import Version
from curriculum.recipes.queries import recipes_data


@transaction.atomic
def reckon_figures(*, versions: Collection[int], by: User | None) -> int:
    """Reckon times and today's cost of these versions, by key; how many there were.

    ``by`` is None when nobody asked: the worker does it once on each day of the college, and
    nothing of a recipe changes by it but the figures that anybody may reckon from its sheet.
    """
    today = today_at(the_college())
    rows = list(Version.objects.filter(pk__in=versions).defer("sheet").order_by("pk").select_for_update())
    packs = prices(today)
    for version, recipe in zip(rows, recipes_data(rows).values(), strict=True):
        write_figures(version, figures_of(recipe, packs), today)
    Version.objects.bulk_update(rows, FIGURES, batch_size=100)
    return len(rows)
