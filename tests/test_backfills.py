"""What migrations fill in for rows that were there before: times of recipes, codes of reasons."""

from dataclasses import dataclass
from importlib import import_module

import pytest
from django.apps import apps
from django.db import IntegrityError, connection, transaction

from curriculum.foods.models import Food
from curriculum.recipes.models import Version
from kitchen.stores.models import Movement
from kitchen.stores.moves.actions import correct_movement, waste_from_lot
from tests.builders.book import a_book, a_person
from tests.builders.college_figures import DISHES
from tests.builders.stores import a_lot

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


def test_movements_with_the_words_of_a_listed_reason_are_given_its_code_and_stay_protected():
    by = a_person("hana", "stores")
    Food.objects.create(code="butter", name="Butter")
    lot = a_lot("butter", "B-1", 1000)
    for reason in ("Dropped", "Dropped: tray slipped", "Dropped by a cat", "Something else: mice"):
        waste_from_lot(lot=lot, milligrams=1000, reason=reason, by=by)
    correct_movement(movement=lot.movements.get(number=2), should_be_milligrams=0, reason="Misread", by=by)
    import_module("kitchen.migrations.0018_opened_labels_reasons_became").give_codes(apps, Editor(connection))
    codes = lot.movements.order_by("number").values_list("reason_code", flat=True)
    assert list(codes) == [None, "dropped", "dropped", None, "other", None]
    with pytest.raises(IntegrityError), transaction.atomic():
        Movement.objects.filter(lot=lot).update(reason_code="burnt")
