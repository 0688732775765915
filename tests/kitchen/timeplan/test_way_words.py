"""Why a bench does a step another way than usual."""

from kitchen.timeplan.answer import Answer
from kitchen.timeplan.problem import Bench, Problem, Supply, Task
from kitchen.timeplan.way_words import way_words


def kitchen(mixers):
    at = {"hands": True, "uses": (("mixer", 1),)}
    tasks = (Task("1", 14, "1", **at), Task("2", 14, "2", **at), Task("3", 18, "3", hands=True))
    benches = tuple(Bench(n) for n in "123")
    return Problem(tasks, benches=benches, supplies=(Supply("mixer", mixers, "mixers"),))


def test_the_machines_are_named_when_all_of_them_are_with_others():
    answer = Answer({"1": 20, "2": 20, "3": 20}, {})
    assert (
        way_words(kitchen(2), answer, "3", "hand", "mixer") == "By hand, 18 min, since the mixers are taken."
    )


def test_a_machine_that_is_free_or_not_there_is_no_reason():
    answer = Answer({"1": 20, "2": 20, "3": 20}, {})
    assert way_words(kitchen(3), answer, "3", "hand", "mixer") == "By hand, 18 min."
    assert (
        way_words(kitchen(2), Answer({"1": 20, "2": 20, "3": 40}, {}), "3", "hand", "mixer")
        == "By hand, 18 min."
    )
    assert way_words(kitchen(2), answer, "3", "machine", "ring") == "By machine, 18 min."
