import json
import time

import pytest

from curriculum.errors import RuleBroken
from curriculum.recipes.interchange.json_text import DEEPEST, parse, text_of


@pytest.mark.parametrize(
    "value", [{}, [1, -2.5, None, True, 'é 𝄞 \\u0000 "[{'], {"a": {"b": [[]]}}, "x", 10**30]
)
def test_what_is_json_is_read_as_it_is(value):
    assert parse(json.dumps(value)) == value and parse(text_of(value)) == value


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ('{"a": NaN}', "no_number"),
        ("[Infinity, 1]", "no_number"),
        ("[-Infinity]", "no_number"),
        ("[1e999]", "figure_too_large"),
        ("[" + "9" * 5000 + "]", "figure_too_long"),
        ('{"a": 1, "b": {"c": 1, "c": 2}}', "name_twice"),
        ("[" * 100_000, "too_deep"),
        ('{"a":' * 900 + "1" + "}" * 900, "too_deep"),
        ('["\\u0000"]', "nul"),
        ('["\\ud800"]', "half_a_letter"),
        ('{"\\udfff": 1}', "half_a_letter"),
        ('{"a": ', "broken_json"),
        ("", "broken_json"),
        ("[1] 2", "broken_json"),
        ("{'a': 1}", "broken_json"),
    ],
)
def test_what_is_broken_or_doubtful_is_refused_by_its_name(text, code):
    with pytest.raises(RuleBroken) as refused:
        parse(text)
    assert refused.value.code == code and refused.value.message.endswith(".")


def test_broken_json_says_line_and_column():
    with pytest.raises(RuleBroken, match="in line 2, at column 7, a value is missing"):
        parse('{"a": 1,\n "b": ,}')


def test_brackets_in_words_are_no_depth():
    words = "[{" * 10_000
    assert parse(json.dumps([words, '\\"' * 500])) == [words, '\\"' * 500]
    assert parse("[" * DEEPEST + "]" * DEEPEST)


@pytest.mark.parametrize("text", ['"' + '\\"' * 400_000, '"\\' * 300_000, '["' * 300_000, "\\" * 900_000])
def test_a_million_hostile_letters_are_refused_at_once(text):
    began = time.process_time()
    with pytest.raises(RuleBroken):
        parse(text)
    assert time.process_time() - began < 5


@pytest.mark.parametrize(
    "text", ["{1: 2}", '{"a" 1}', "[1 2]", '["a', '["a\nb"]', '["\\x"]', "[1]]", "[,]", '["\\u12"]', "nul"]
)
def test_every_kind_of_broken_json_has_words_of_ours(text):
    with pytest.raises(RuleBroken) as refused:
        parse(text)
    assert "Expecting" not in refused.value.message and "in line" in refused.value.message
