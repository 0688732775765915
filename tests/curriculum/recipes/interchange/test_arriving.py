"""Files as they come: letters, kinds, hostile and broken ones; 2,000 mutations of good files."""

import json
import random

import pytest

from curriculum.errors import RuleBroken
from curriculum.recipes.interchange import arriving, plain_text, proposing, table
from curriculum.recipes.interchange.reading import LONGEST_BYTES, MOST_LINES, MOST_STEPS, ImportedRecipe
from tests.builders.interchange import accepted, rounds
from tests.builders.recipes import college_foods, college_recipe

PAGE = f'<!doctype html><html><head><script type="application/ld+json">{rounds()}</script></head></html>'


@pytest.mark.parametrize("code", ["utf-8", "utf-8-sig", "utf-16", "utf-32"])
def test_the_letters_of_a_file_are_read_by_what_it_says(code):
    arrived = arriving.letters_of("Crème brûlée\n1 g salt".encode(code))
    assert arrived.text == "Crème brûlée\n1 g salt" and arrived.remark == ""


def test_letters_that_are_guessed_are_said_to_be():
    arrived = arriving.letters_of("Crème brûlée".encode("cp1252"))
    assert arrived.text == "Crème brûlée" and arrived.remark == arriving.GUESSED


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b"", "empty"),
        (b" \n\t", "empty"),
        (b"\xef\xbb\xbf", "empty"),
        (b"x" * (LONGEST_BYTES + 1), "too_large"),
        (b"Rolls\0", "no_text"),
        (b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", "no_text"),
        (b"PK\x03\x04", "no_text"),
        (b"\x81\x8d\xff", "no_text"),
        (b"\xff\xfe\x00", "broken_letters"),
        ("Rolls".encode("utf-16-le"), "no_text"),
    ],
)
def test_a_file_that_is_no_text_is_refused_in_words(content, code):
    with pytest.raises(RuleBroken) as refused:
        arriving.letters_of(content)
    assert refused.value.code == code and refused.value.message.endswith(".")


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        (rounds(), "a schema.org Recipe (JSON-LD)"),
        (f" \n[{rounds()}]", "a schema.org Recipe (JSON-LD)"),
        ("\ufeff" + rounds(), "a schema.org Recipe (JSON-LD)"),
        (PAGE, "a web page with a schema.org Recipe (JSON-LD)"),
        ("food;grams\nButter;5\n", "a table of lines (CSV)"),
        ("Rolls\n\n500 g flour\n", "plain text"),
    ],
)
def test_what_a_text_is_is_found_out_and_said(text, kind):
    assert arriving.read(text).kind == kind


BOMB = '<?xml version="1.0"?><!DOCTYPE a [<!ENTITY b "bbbb"><!ENTITY c "&b;&b;">]><a>&c;</a>'


@pytest.mark.parametrize(
    ("text", "code"),
    [
        (BOMB, "xml"),
        ("<!DOCTYPE lolz>", "xml"),
        ("<html><p>Rolls</p></html>", "no_recipe_in_page"),
        ('<script type="application/ld+json">{</script>', "no_recipe_in_page"),
        ('{"@type": "Thing"}', "no_recipe"),
        ("Rolls\x07", "no_text"),
        ("", "empty"),
        ("é" * LONGEST_BYTES, "too_large"),
        ("Rolls\n" + "1 g salt\n" * 10_000, "too_many"),
        ("food,grams\n" + "salt,1\n" * 10_000, "too_many"),
        (rounds(recipeIngredient=["1 g salt"] * 10_000), "too_many"),
        (rounds(name="x" * 30_000), "text_too_long"),
        ("x" * 30_000, "line_too_long"),
        ('food,grams\n"salt' + "x" * 200_000 + '",1', "broken_table"),
    ],
)
def test_a_text_that_cannot_be_read_is_refused_by_its_name(text, code):
    with pytest.raises(RuleBroken) as refused:
        arriving.read(text)
    assert refused.value.code == code and refused.value.message.endswith(".")


def test_a_broken_script_of_a_page_is_named_and_the_next_one_read():
    page = PAGE.replace("<head>", '<head><script type="application/ld+json">{"a": }</script>')
    read = arriving.read(page)
    assert read.title == "Oat & butter rounds" and read.not_read[-1].what == "Script 1 of the page"


GOOD = (
    rounds(),
    PAGE,
    rounds(recipeInstructions=[{"@type": "HowToSection", "name": "A", "itemListElement": [{"text": "B."}]}]),
    plain_text.write(college_recipe("R01")),
    table.write(college_recipe("R03")),
)
PIECES = (
    *("[", "{", "]", "}", '"', "\\", "\0", "\ud800", "\n", ",", ":", "null", "1e999", "NaN", "<", "&#0;"),
    *("'", "=", "@type", "Recipe", "½", "\u202e", "9" * 60, "\x1b", "é", "]]>", "-->", "<![", "[" * 50),
    *("\\u0000", "\\ud800"),
)


def _mutated(text, chance):
    for _ in range(chance.randint(1, 6)):
        at, to = sorted(chance.choices(range(len(text) + 1), k=2))
        to = min(to, at + chance.choice([0, 1, 2, 8, 40]))
        kind = chance.randrange(4)
        if kind == 0:
            text = text[:at] + text[to:]
        elif kind == 1:
            text = text[:at] + chance.choice(PIECES) + text[to:]
        elif kind == 2:
            text = text[:at] + text[at:to] * 3 + text[to:]
        else:
            text = text[at:to] + text[:at] + text[to:]
    return text


def test_two_thousand_broken_files_are_refused_in_words_or_read():
    chance, foods = random.Random(20_271), tuple(college_foods().values())[:40]
    outcomes = {"read": 0, "refused": 0}
    for number in range(2000):
        text = _mutated(GOOD[number % len(GOOD)], chance)
        try:
            content = arriving.letters_of(text.encode("utf-8", "surrogatepass"))
            read = arriving.read(content.text)
        except RuleBroken as error:
            assert len(error.message) < 500 and error.message.endswith((".", "?")), error.message
            outcomes["refused"] += 1
            continue
        assert isinstance(read, ImportedRecipe)
        assert len(read.lines) <= MOST_LINES and len(read.steps) <= MOST_STEPS
        json.dumps([read.title, *read.carried]).encode()
        if number % 20 < 5:
            proposing.proposals(read.lines, "us", foods, {})
            accepted(read)
        outcomes["read"] += 1
    assert min(outcomes.values()) > 200, outcomes


def test_a_title_that_is_too_long_is_cut_and_said_so():
    read = arriving.read(rounds(name="Rolls " * 40))
    assert read.not_read[0].what.startswith("“…") and "160 letters" in read.not_read[0].why


def test_what_was_not_read_is_counted_where_it_is_much():
    others = [json.loads(rounds(name=f"Rolls {number}")) for number in range(30)]
    said = [each.what for each in arriving.read(json.dumps(others)).not_read]
    assert len(said) == 11 and said[-1] == "19 more"
