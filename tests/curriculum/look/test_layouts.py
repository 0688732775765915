from crispy_forms.helper import FormHelper
from crispy_forms.layout import Layout
from crispy_forms.utils import render_crispy_form
from django import forms

from curriculum.look.forms import EnamelForm
from curriculum.look.layouts import WRITES_ON_ENTER, ByGroup, FieldTable, one_more


class Pantry(EnamelForm):
    wanted = forms.MultipleChoiceField(
        label="Wanted",
        choices=[("leek", "Leek"), ("kale", "Kale"), ("plum", "Plum")],
        widget=forms.CheckboxSelectMultiple,
        required=False,
    )
    washed = forms.BooleanField(label="Washed", required=False)
    minutes = forms.IntegerField(label="Minutes", required=False)


def _page(*layout, data=None):
    form = Pantry(data)
    form.helper = FormHelper(form)
    form.helper.disable_csrf = True
    form.helper.layout = Layout(*layout)
    return render_crispy_form(form)


def test_boxes_stand_in_their_groups_with_a_heading_each_and_keep_what_is_ticked():
    groups = {"leek": "Vegetables", "kale": "Vegetables", "plum": "Fruit"}
    page = _page(ByGroup("wanted", groups), data={"wanted": ["plum"]})
    assert page.count("<legend>") == 3 and page.index("Vegetables") < page.index("Kale") < page.index("Fruit")
    assert page.count("checked") == 1 and 'id="id_wanted"' in page


def test_without_groups_the_boxes_stand_in_columns_under_the_label_alone():
    page = _page(ByGroup("wanted"))
    assert page.count("<legend>") == 1 and page.count('type="checkbox"') == 3


def test_an_error_stands_at_the_group_that_it_is_about():
    page = _page(ByGroup("wanted"), data={"wanted": ["moon"]})
    assert "wrong" in page and 'id="id_wanted_error"' in page


def test_a_table_of_fields_has_a_head_a_box_with_words_and_bare_cells():
    page = _page(FieldTable([("washed", "minutes")], ("What", "For")), data={"minutes": "many"})
    assert page.count('<th scope="col">') == 2 and page.count('<th scope="row">') == 1
    assert 'data-head="Minutes"' in page and 'value="many"' in page and 'id="id_minutes_error"' in page


def test_a_table_without_rows_says_so():
    assert "<table" not in _page(FieldTable([], ("What",), "Nothing is washed."))
    assert "Nothing is washed." in _page(FieldTable([], ("What",), "Nothing is washed."))


def test_enter_presses_the_button_that_writes_and_not_the_one_for_one_more():
    page = _page(WRITES_ON_ENTER, one_more("One more"))
    assert page.index("hidden") < page.index('name="more"')
