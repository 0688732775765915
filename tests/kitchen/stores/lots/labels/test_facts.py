"""Two packs of one food answer differently: the stricter answer stands."""

import pytest

from kitchen.stores.lots.labels.facts import stricter


@pytest.mark.parametrize(
    ("known", "read", "stands"),
    [
        ("no", "yes", "yes"),
        ("yes", "no", "yes"),
        ("trace", "no", "trace"),
        ("unknown", "no", "no"),
        ("no", "unknown", "no"),
    ],
)
def test_the_stricter_answer_stands(known, read, stands):
    assert stricter({"pork": known}, {"pork": read}) == {"pork": stands}


def test_what_was_not_known_is_added_and_a_word_of_another_kind_stays():
    assert stricter({"other": "halal mark"}, {"pork": "no", "other": "yes"}) == {
        "other": "halal mark",
        "pork": "no",
    }
