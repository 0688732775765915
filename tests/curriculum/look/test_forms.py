"""Every form keeps what was typed, says what is wrong at the field, and carries its number."""

import uuid

from django import forms
from django.http import QueryDict
from django.template import Context, Template

from curriculum.errors import RuleBroken
from curriculum.look.fields import ClockField, DayField, WholeNumberField
from curriculum.look.forms import EnamelForm, KeyedForm, megabytes, standing_in_the_way, summary_heading


class Booking(KeyedForm):
    not_done = "Not booked yet."
    submit_words = "Book the lesson"
    leave_words = "Leave without booking"

    dish = forms.CharField(max_length=10, required=False)
    note = forms.CharField(widget=forms.Textarea, required=False)
    working = forms.ChoiceField(choices=[("pair", "in pairs"), ("single", "alone")], widget=forms.RadioSelect)
    portions = WholeNumberField(label="Portions a bench", least=1, most=40, unit="éclairs")
    on = DayField()
    starts = ClockField()
    assessed = forms.BooleanField(required=False)


def sent(**more):
    said = QueryDict(mutable=True)
    said.update(
        {"working": "pair", "portions": "12", "on": "16 Feb 2027", "starts": "9:00", "key": str(uuid.uuid4())}
        | more
    )
    return said


def drawn(form):
    return Template("{% load crispy_forms_tags %}{% crispy form %}").render(
        Context({"form": form, "leave_url": "/"})
    )


def test_a_new_form_has_a_new_number_and_a_form_that_comes_back_keeps_it():
    first, second = Booking(), Booking()
    assert first["key"].value() != second["key"].value()
    said = sent(portions="none")
    assert str(said["key"]) in drawn(Booking(said))


def test_a_form_without_its_number_says_so_above_the_fields():
    form = Booking(sent(key=""))
    assert not form.is_valid()
    assert "The form came without its number. Open the page again." in drawn(form)


def test_what_was_typed_stays_and_is_quoted():
    html = drawn(Booking(sent(portions="a dozen", on="31 February 2027")))
    assert 'value="a dozen"' in html
    assert "You wrote “a dozen”." in html
    assert 'value="31 February 2027"' in html
    assert "February 2027 has 28 days." in html
    assert "Not booked yet. Two things stand in the way." in html


def test_the_summary_links_to_the_fields_and_takes_the_focus():
    html = drawn(Booking(sent(portions="", working="")))
    assert '<a href="#id_portions">Portions a bench: This is empty.</a>' in html
    assert '<a href="#id_working_0">' in html
    assert 'role="alert" tabindex="-1" autofocus' in html


def test_a_wrong_field_is_named_to_a_screen_reader():
    html = drawn(Booking(sent(on="never")))
    assert 'aria-describedby="id_on_helptext id_on_error"' in html
    assert 'id="id_on_error"' in html
    assert 'aria-invalid="true"' in html


def test_names_are_text_and_never_tags():
    html = drawn(Booking(sent(dish="<b>É</b>\"'")))
    assert "<b>É" not in html
    assert "&lt;b&gt;É" in html


def test_a_megabyte_is_refused_at_the_field_with_the_text_kept():
    text = "é" * 600_000
    form = Booking(sent(note=text))
    assert not form.is_valid()
    assert "You pasted 1.2 MB. A field takes up to 1 MB; your text is still here." in form.errors["note"]
    assert text in drawn(form)


def test_a_nul_is_refused_in_words():
    form = Booking(sent(dish="a\0b"))
    assert form.errors["dish"] == ["There is a character in it that cannot be kept (NUL). Take it out."]


def test_too_long_says_how_long():
    assert Booking(sent(dish="x" * 12)).errors["dish"] == ["You wrote 12 characters. Write 10 at most."]


def test_a_choice_that_is_not_listed_is_refused():
    assert Booking(sent(working="trio")).errors["working"] == [
        "What was chosen is not listed any more. Choose again."
    ]


def test_a_refusal_goes_to_the_field_that_it_names():
    form = Booking(sent())
    assert form.is_valid()
    form.refuse(RuleBroken("room_taken", "Saffron Kitchen is taken.", field="on"))
    form.refuse(RuleBroken("other", "Nothing to cook."))
    assert form.errors["on"] == ["Saffron Kitchen is taken."]
    assert [standing.words for standing in standing_in_the_way(form)] == [
        "Nothing to cook.",
        "On: Saffron Kitchen is taken.",
    ]


def test_buttons_say_the_deed_and_the_way_out():
    html = drawn(Booking())
    assert '<button class="button first" type="submit">Book the lesson</button>' in html
    assert '<a class="button word" href="/">Leave without booking</a>' in html


def test_a_unit_stands_behind_its_box():
    assert "<span>éclairs</span>" in drawn(Booking())


def test_words_of_a_form_of_its_own_stay():
    class Own(EnamelForm):
        name = forms.CharField(error_messages={"required": "Who is it?"})

    assert Own(QueryDict("name=")).errors["name"] == ["Who is it?"]


def test_counts_and_sizes_are_written_in_words():
    assert summary_heading("Not sent.", 1) == "Not sent. One thing stands in the way."
    assert summary_heading("Not sent.", 30) == "Not sent. 30 things stand in the way."
    assert megabytes(2_500_001) == "2.6 MB"


def test_formsets_are_drawn_with_one_summary():
    formset = forms.formset_factory(Booking, extra=0)(
        QueryDict("form-TOTAL_FORMS=1&form-INITIAL_FORMS=0&form-0-portions=x"), prefix="form"
    )
    html = Template("{% load crispy_forms_tags %}{% crispy formset %}").render(Context({"formset": formset}))
    assert 'href="#id_form-0-portions"' in html
    assert html.count('class="summary"') == 1
