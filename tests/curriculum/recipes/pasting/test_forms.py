import pytest
from django import forms
from django.utils.html import escape

from curriculum.recipes.pasting.forms import FoodSelect

CHOICES = [("", "Choose a food"), ("butter", "Butter <salted> & “soft”"), ("salt", "Fine salt")]


@pytest.mark.parametrize("value", [None, "", "butter", "salt", "gone", "<b>"])
def test_the_quick_list_of_foods_is_the_same_as_the_ordinary_one(value):
    quick, ordinary = (
        kind(attrs={"class": "x"}, choices=CHOICES).render("form-0-food", value, {"id": "id_food"})
        for kind in (FoodSelect, forms.Select)
    )
    assert " ".join(quick.split()) == " ".join(ordinary.replace("\n  <", "\n<").split())
    assert escape(CHOICES[1][1]) in quick
