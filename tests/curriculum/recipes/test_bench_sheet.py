"""A bench's own sheet: its portions, its variant, its adjustments, what was done before."""

from curriculum.recipes.bench_sheet import BenchFacts, bench_sheet
from tests.builders.recipes import college_recipe

BENCH = BenchFacts("6", ("Otto", "Jonas"), 8, "Tuesday 16 February, 09:00", "Juniper Kitchen", (1, 2))


def a_sheet(code="R01", **more):
    facts = {name: getattr(BENCH, name) for name in BENCH.__slots__} | more
    return bench_sheet(college_recipe(code), BenchFacts(**facts), {"rubbing_in": "Rubbing in"})


def figures(sheet):
    return {
        (each.words.name, line.food): line.figure for each in sheet.components for line in each.words.lines
    }


def test_the_sheet_is_scaled_to_the_bench():
    assert figures(a_sheet())[("Savoury custard", "Double cream 48 %")] == "200"
    assert figures(a_sheet(portions=16))[("Savoury custard", "Double cream 48 %")] == "400"


def test_dusting_is_for_each_bench_however_many_portions():
    assert figures(a_sheet(portions=16))[("Over-issue", "Soft wheat flour")] == "20"


def test_a_variant_says_what_the_bench_is_free_from():
    assert a_sheet("V1").free_from == "FREE FROM CEREALS CONTAINING GLUTEN: this bench"
    assert a_sheet("R01").free_from == ""
    assert "wheat" not in " ".join(a_sheet("V1").page.contains)


def test_what_was_done_before_is_marked():
    sheet = a_sheet()
    assert [step.words.position for step in sheet.steps if step.is_done] == [1, 2]
    assert [each.words.name for each in sheet.components if each.is_prepared] == ["Shortcrust paste"]
    assert not any(each.is_prepared for each in a_sheet(ahead_steps=()).components)


def test_extra_time_lengthens_work_and_not_waits():
    sheet = a_sheet(extra_percent=25)
    assert sheet.steps[0].extra == "With your extra time 10 min at work."
    assert sheet.steps[6].extra == "With your extra time 8 min at work."
    assert sheet.adjustments == ("Extra time of 25 % is agreed.",)
    assert a_sheet().steps[0].extra == ""


def test_other_adjustments_are_sentences():
    assert a_sheet(adjustments=("quiet bench",)).adjustments == ("Quiet bench.",)


def test_the_facts_name_bench_people_portions_day_and_room():
    assert a_sheet().facts == (
        "Bench 6, Otto and Jonas. 8 wedges. Tuesday 16 February, 09:00, Juniper Kitchen."
    )
    assert "8 wedges" in a_sheet(names=(), when="", where="").facts


def test_a_way_by_hand_stands_beside_the_machine():
    steps = a_sheet("R03", ahead_steps=(), portions=12).steps
    assert "By hand: 14 min." in " ".join(steps[3].words.points)


def test_extra_time_is_told_for_each_way():
    step = a_sheet("R03", ahead_steps=(), extra_percent=25).steps[3]
    assert step.extra == "With your extra time 13 min at work by machine, 18 min at work by hand."


def test_a_caution_of_the_dish_stands_before_and_one_of_a_step_at_its_step():
    assert a_sheet("V1").cautions[0].startswith("Own tin, own pin")
    assert a_sheet("V1").cautions[-1] == "Other cautions stand at their steps."
    assert a_sheet("R03").cautions == ("Cautions stand at their steps.",)
    at_steps = " ".join(step.words.caution for step in a_sheet("V1").steps)
    assert all(words in at_steps or words in a_sheet("V1").cautions for words in a_sheet("V1").page.cautions)


def test_cautions_name_their_source():
    sheet = a_sheet()
    assert sheet.page.cautions
    assert "risk assessment" in sheet.source
