from dataclasses import replace

import pytest
from django import forms as django_forms

from curriculum.recipes.data import WayData
from curriculum.recipes.steps.forms import StepForm
from tests.builders.recipes import college_recipe

pytestmark = pytest.mark.django_db

QUICHE = college_recipe("R01")
WAYS = (
    WayData("hand", 8, "bench", "Rub in with cold fingers."),
    WayData("machine", 3, "mixer", "Paddle, lowest speed.", 400_000, 2_500_000),
)
STEP = replace(QUICHE.steps[0], ways=WAYS, techniques=(), after=())


def _written(**changes):
    """The step as the form gives it back when it is sent as it was shown, with some fields changed."""
    shown = {name: said for name, said in StepForm.initial_of(STEP).items() if said not in (None, False)}
    bound = StepForm(initial=shown, recipe=QUICHE, position=1)
    sent = {name: bound[name].value() for name in bound.fields}
    for name, field in bound.fields.items():
        if sent[name] is not None:
            sent[name] = field.prepare_value(sent[name])
    sent = {name: said for name, said in sent.items() if said not in (None, False)}
    return StepForm(sent | changes, recipe=QUICHE, position=1)


def test_a_step_sent_back_as_it_was_shown_keeps_words_and_reach_of_its_machine():
    form = _written()
    assert form.is_valid(), form.errors
    assert form.step(STEP).ways == WAYS


def test_words_and_reach_of_the_machine_are_written():
    form = _written(machine_words="Dough hook.", machine_least_milligrams="500", machine_most_milligrams="")
    assert form.is_valid(), form.errors
    assert form.step(STEP).ways[1] == WayData("machine", 3, "mixer", "Dough hook.", 500_000, None)


def test_a_largest_load_below_the_least_is_refused_at_its_field():
    form = _written(machine_least_milligrams="900", machine_most_milligrams="500")
    assert list(form.errors) == ["machine_most_milligrams"]


def test_techniques_are_ticked_one_by_one():
    widget = StepForm(recipe=QUICHE).fields["techniques"].widget
    assert isinstance(widget, django_forms.CheckboxSelectMultiple)
