import time

import pytest

from curriculum.errors import RuleBroken
from curriculum.recipes.interchange.web_text import LONGEST_FIELD, lines_of, plain_words, scripts_of


@pytest.mark.parametrize(
    ("text", "lines"),
    [
        ("Mix.\nBake.", ["Mix.", "Bake."]),
        ("<p>Mix &amp; fold.</p><p>Bake<br/>cool</p>", ["Mix & fold.", "Bake", "cool"]),
        ("&frac12; cup cr&egrave;me", ["½ cup crème"]),
        ("under 5 < 6 °C & more", ["under 5 < 6 °C & more"]),
        ("<script>alert(1)</script>Mix<style>p{}</style>", ["Mix"]),
        ("<b onclick='x'>Mix</b> <img src=x onerror=y>", ["Mix"]),
        ("  \n\t\n", []),
        ("", []),
    ],
)
def test_tags_go_and_entities_become_letters(text, lines):
    assert lines_of(text) == lines
    assert plain_words(text) == " ".join(lines)


def test_a_text_longer_than_any_field_is_refused():
    with pytest.raises(RuleBroken, match="20,001 characters"):
        lines_of("x" * (LONGEST_FIELD + 1))


def test_json_ld_is_found_in_a_page_and_other_scripts_are_left():
    page = (
        "<html><script>var a = 1</script><SCRIPT id='x' type='application/ld+json'>{\"a\": 1}</SCRIPT>"
        '<script type=application/ld+json><!-- {"b": 2} --></script><script type="application/ld+json">'
    )
    assert scripts_of(page) == ['{"a": 1}', '{"b": 2}']


@pytest.mark.parametrize("piece", ["<a", "<!--", "<![", "&#", "<script>", "<a b='", "<?", "</"])
def test_hostile_tags_take_no_time(piece):
    began = time.process_time()
    lines_of((piece * LONGEST_FIELD)[:LONGEST_FIELD])
    scripts_of((piece * 1_000_000)[:1_000_000])
    assert time.process_time() - began < 5
