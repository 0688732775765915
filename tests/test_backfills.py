"""Times of recipes that were approved before the book kept them."""

from dataclasses import dataclass
from importlib import import_module

import pytest
from django.apps import apps
from django.db import connection

from curriculum.recipes.models import Version
from tests.builders.book import a_book
from tests.builders.college_figures import DISHES

pytestmark = pytest.mark.django_db
NOTHING = dict.fromkeys(("one_cook_minutes", "work_minutes", "oven_minutes", "portion_pence", "costed_on"))


@dataclass
class Editor:
    """What the migration uses of a schema editor."""

    connection: object


def test_an_approved_recipe_without_times_is_given_them_and_no_cost():
    version = a_book("R01", "R02")["R01"]
    other = Version.objects.exclude(pk=version.pk).get()
    Version.objects.filter(pk=version.pk).update(**NOTHING)
    import_module("curriculum.migrations.0004_times_of_recipes").reckon_times(apps, Editor(connection))
    filled = Version.objects.get(pk=version.pk)
    assert filled.one_cook_minutes == DISHES["R01"].one_cook_minutes
    assert filled.oven_minutes > 0 and filled.work_minutes > 0
    assert (filled.portion_pence, filled.costed_on) == (None, None)
    same = Version.objects.get(pk=other.pk)
    assert (same.portion_pence, same.costed_on) == (other.portion_pence, other.costed_on)
