"""The tags of the look."""

from datetime import date, time

import pytest
from django.template import Context, Template


def drawn(words, **facts):
    return Template(words).render(Context(facts))


def test_a_state_is_a_word_with_its_shape():
    assert (
        drawn('{% state "done" said %}', said="Done <1>") == '<span class="state done">Done &lt;1&gt;</span>'
    )


def test_a_state_that_is_not_on_the_list_is_a_fault():
    with pytest.raises(KeyError):
        drawn('{% state "nice" "Nice" %}')


def test_allergens_are_emphasised_in_full():
    assert drawn("{{ kinds|allergens }}", kinds=["egg", "milk"]) == (
        '<span class="allergen">egg</span>, <span class="allergen">milk</span>'
    )


def test_the_trail_is_framed():
    html = drawn("{% trail_frame %}<li>Lessons</li>{% end_trail_frame %}")
    assert html == '<nav class="trail" aria-label="Where you are"><ol><li>Lessons</li></ol></nav>'


def test_a_page_without_a_trail_has_no_empty_frame():
    assert drawn("{% trail_frame %}  {% end_trail_frame %}") == ""


def test_a_trail_that_brings_its_own_frame_keeps_it():
    nav = '<nav class="trail"><ol><li>a</li></ol></nav>'
    assert drawn("{% trail_frame %}" + nav + "{% end_trail_frame %}") == nav


def test_figures_are_written_by_the_one_wording():
    assert drawn("{{ mg|grams }}", mg=104_000) == "104 <small>g</small>"
    assert drawn("{{ m|duration }}", m=221) == "3 h 41"
    assert drawn("{{ at|clock }}, {{ on|long_day }}", at=time(9, 5), on=date(2027, 2, 16)) == (
        "09:05, Tuesday 16 February 2027"
    )
    assert "exact 91.67" in drawn("{% issued 92000 '91.67' %}")
    assert drawn("{{ p|money }}, {{ n|number }} benches", p=444, n=7) == "£4.44, seven benches"
