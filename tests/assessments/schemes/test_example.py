"""Every scheme of the college scores a made-up candidate to the end."""

import pytest

from assessments.schemes.example import example
from assessments.schemes.shown import scheme_shown
from tests.builders.schemes import SCHEME_CODES, college_scheme


@pytest.mark.parametrize("code", SCHEME_CODES)
def test_the_example_is_complete_and_shows_every_criterion(code):
    scheme = college_scheme(code)
    outcome = example(scheme)
    assert outcome.complete and outcome.band
    shown = {line.code.partition(":")[0] for line in outcome.lines}
    assert {criterion.code for criterion in scheme.criteria} <= shown


@pytest.mark.parametrize("code", SCHEME_CODES)
def test_a_scheme_is_shown_in_words_with_every_rule_and_step(code):
    scheme = college_scheme(code)
    shown = scheme_shown(scheme)
    assert len(shown.criteria) == len(scheme.criteria)
    assert len(shown.rules) == len(scheme.rules)
    assert len(shown.order) == len(scheme.order)
