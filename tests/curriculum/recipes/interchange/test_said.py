from curriculum.recipes.interchange import json_ld, plain_text, said
from tests.builders.interchange import ROUNDS


def test_times_and_what_is_carried_are_said_in_words():
    read = json_ld.read(ROUNDS)
    assert said.time_words(read).startswith("Preparing 20 min; cooking 15 min.")
    assert "author, recipeCuisine and aggregateRating" in said.carried_words(read)
    assert said.steps_words(read).startswith("Three steps. None has minutes yet")


def test_nothing_is_said_of_what_is_not_there():
    read = plain_text.read("Rolls\n")
    assert (said.time_words(read), said.carried_words(read), said.steps_words(read)) == ("", "", "")


def test_a_long_list_of_names_is_cut():
    read = json_ld.read(ROUNDS | {f"x{number}": 1 for number in range(40)})
    assert "more." in said.carried_words(read)
