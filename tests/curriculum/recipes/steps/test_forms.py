from dataclasses import replace

import pytest
from django import forms as django_forms

from curriculum.recipes.data import AfterData, StayData, WayData
from curriculum.recipes.steps.forms import StepForm
from curriculum.techniques.models import Level, Technique
from tests.builders.book import a_book
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
    return StepForm(sent | changes, initial=StepForm.initial_of(STEP), recipe=QUICHE, position=1)


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


def test_techniques_stand_by_level_in_the_order_of_levels():
    a_book()
    form = StepForm(recipe=QUICHE)
    levels = dict(Technique.objects.values_list("code", "level"))
    order = [Level.values.index(levels[code]) for code, _ in form.fields["techniques"].choices]
    assert order == sorted(order) and len(order) > 60


def test_any_number_of_other_steps_is_chosen_each_with_its_minutes():
    form = _written(after_2="on", after_2_least="5", after_4="on", after_7="on", after_7_longest="0")
    assert form.is_valid(), form.errors
    assert form.step(STEP).after == (AfterData(2, 5), AfterData(4), AfterData(7, 0, 0))


def test_a_step_keeps_each_of_seven_stays_and_the_shelves_they_take():
    stays = tuple(StayData(n, "oven" if n % 2 else None, shelves=1 + n % 2) for n in range(1, 8))
    step = replace(STEP, stays=stays)
    form = StepForm(initial=StepForm.initial_of(step), recipe=QUICHE, position=1)
    sent = {name: form.fields[name].prepare_value(form[name].value()) for name in form.fields}
    sent = {name: said for name, said in sent.items() if said not in (None, False, "")}
    again = StepForm(sent, initial=StepForm.initial_of(step), recipe=QUICHE, position=1)
    assert again.is_valid(), again.errors
    assert again.step(step).stays == stays


def test_one_more_row_keeps_what_was_typed_even_where_it_cannot_be_read():
    form = _written(stay4_in="chiller", stay4_minutes="soon", after_3="on")
    more = StepForm(initial=form.with_one_more(), recipe=QUICHE, position=1)
    assert more.stays == 5 and not more.is_bound
    assert (more["stay4_minutes"].value(), more["after_3"].value()) == ("soon", True)
    assert more["words"].value() == STEP.words


@pytest.mark.parametrize("rows", ["-1", "9999999", "many", "", "²"])
def test_a_number_of_rows_that_is_none_gives_four(rows):
    assert StepForm({"stay_rows": rows}, recipe=QUICHE).stays == 4


def test_seconds_of_each_portion_are_written_and_must_fit_into_the_minutes():
    form = _written(hand_portion_seconds="30")
    assert form.is_valid(), form.errors
    assert form.step(STEP).ways[0].portion_seconds == 30
    form = _written(hand_portion_seconds="61")
    assert form.errors == {
        "hand_portion_seconds": ["8 portions would take longer than 8 min. Write 60 s or less."]
    }
    form = _written(machine_minutes="", machine_portion_seconds="5")
    assert "machine_portion_seconds" in form.errors
