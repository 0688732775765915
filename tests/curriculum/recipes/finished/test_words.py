from dataclasses import replace

from curriculum.recipes.data import FinishedData
from curriculum.recipes.finished import words
from tests.builders.recipes import college_recipe

TART = replace(
    college_recipe("R02"),
    unit="wedge",
    finished=(FinishedData(("A", "B"), 760_000, 95_000, "Weighed 16 Feb."), FinishedData(("C",), 200_000, 0)),
)


def test_a_finished_weight_is_a_sentence_with_the_portions_it_gives():
    first, second = words.finished_words(TART)
    assert first.endswith("760 g finished, 95 g a wedge, so eight wedges. Weighed 16 Feb.")
    assert second.endswith("200 g finished.")


def test_what_is_reckoned_stands_above_the_title_with_rejects_taken_off():
    assert "By its finished weights, less rejects, eight wedges are to be had." in words.reckoned(TART)
    less = replace(TART, reject_per_mille=250)
    assert "By its finished weights, less rejects, six wedges are to be had." in words.reckoned(less)


def test_what_no_food_declares_is_named_and_unread_labels_too():
    said = " ".join(words.reckoned(TART))
    assert "Declared by none of its foods:" in said and "celery" in said
    assert "milk" not in said.partition("Declared by none of its foods:")[2].partition(".")[0]
    unread = replace(TART, foods=(replace(TART.foods[0], label_read_on=None), *TART.foods[1:]))
    assert f"No label is read of {TART.foods[0].name}" in " ".join(words.reckoned(unread))
    assert words.reckoned(replace(TART, foods=(), finished=())) == ()


def test_what_is_weighed_in_is_said_by_component():
    (said,) = words.put_in(TART)
    assert all(each.name in said for each in TART.components if each.lines)
    assert words.put_in(replace(TART, components=())) == (
        "Nothing is weighed into it yet. Write the components and their lines first.",
    )


def test_techniques_that_the_variant_lost_are_those_it_does_not_train():
    ordinary = replace(TART, steps=(replace(TART.steps[0], techniques=("a", "b")), TART.steps[1]))
    variant = replace(TART, steps=(replace(TART.steps[0], techniques=("b",)),))
    assert words.lost(ordinary, variant)[0] == "a" and "b" not in words.lost(ordinary, variant)
    assert words.lost(variant, variant) == ()
