"""The second marker's sheet is the first's with what they saw otherwise, without the first's words."""

from kitchen.website.demonstration.marks import marks_of, seen_by_second


def test_every_sheet_of_the_files_has_a_second_and_the_first_stays_as_it_was():
    marks = marks_of("main-1")
    before = [dict(sheet, techniques=dict(sheet["techniques"])) for sheet in marks["sheets"]]
    seconds = [seen_by_second(sheet, marks) for sheet in marks["sheets"]]
    assert len(seconds) == 14 and marks["sheets"] == before
    assert all(
        second.keys() == {k for k in first if k not in ("faults", "words")}
        for second, first in zip(seconds, before, strict=True)
    )


def test_a_technique_seen_otherwise_leaves_the_others():
    marks = marks_of("main-1")
    first = next(sheet for sheet in marks["sheets"] if sheet["learner"] == "idris")
    second = seen_by_second(first, marks)
    assert second["techniques"] == {**first["techniques"], "blind_baking": 2}
    assert (second["flavour"], second["texture"]) == (6, first["texture"])
