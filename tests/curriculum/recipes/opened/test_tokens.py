import pytest

from curriculum.recipes.opened import tokens

SEEN = {"words": "Bake blind.", "cue": "", "minutes": "20"}


def test_nothing_is_changed_when_all_stands_as_it_was_seen():
    assert tokens.changed(tokens.read(tokens.token(SEEN)), SEEN) == ()


def test_each_field_that_stands_otherwise_is_found():
    now = SEEN | {"cue": "Pale gold.", "minutes": "25"}
    assert tokens.changed(tokens.read(tokens.token(SEEN)), now) == ("cue", "minutes")


def test_a_field_that_was_not_there_was_empty():
    seen = tokens.read(tokens.token(SEEN))
    assert tokens.changed(seen, SEEN | {"stay5": ""}) == ()
    assert tokens.changed(seen, SEEN | {"stay5": "oven"}) == ("stay5",)


def test_ends_of_lines_and_spaces_around_do_not_count():
    assert tokens.digest(" one\r\ntwo ") == tokens.digest("one\ntwo") != tokens.digest("one two")


@pytest.mark.parametrize("text", ["", "{", "[1]", "7", "null", "[" * 100_000, '{"a"', "\ud800"])
def test_what_cannot_be_read_was_never_seen(text):
    assert tokens.read(text) == {}
    assert tokens.changed({}, SEEN) == ()
