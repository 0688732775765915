"""The demonstration college holds together: every name resolves, every figure is plausible.

The figures of the table are the college's own, invented; minutes and weights were added
up once outside this project.
"""

import dataclasses
import json
import re
from datetime import date, timedelta

import pytest

from curriculum import allergens
from curriculum.recipes.data import BASES, SCALING_CLASSES, RecipeData
from curriculum.recipes.pasting.matching import meant
from curriculum.recipes.sheets import UnreadableSheet, read_sheet, sheet_hash, write_sheet
from tests.builders.recipes import (
    RECIPE_CODES,
    VARIANT_CODES,
    college_food,
    college_foods,
    college_recipe,
    fixture,
)

EVERY_RECIPE = RECIPE_CODES + VARIANT_CODES

#: code -> minutes of the longest chain, of hands, of waiting; kinds declared; kinds that may be there.
FIGURES = {
    "R01": (161, 59, 130, "egg milk wheat", "mustard"),
    "R02": (221, 67, 199, "egg milk wheat", ""),
    "R03": (128, 70, 120, "egg milk wheat", ""),
    "R04": (140, 74, 98, "almond egg milk wheat", "hazelnut walnut"),
    "R05": (200, 68, 209, "egg milk wheat", ""),
    "R06": (179, 51, 128, "egg milk wheat", ""),
    "R07": (181, 71, 149, "egg milk wheat", ""),
    "R08": (126, 58, 130, "egg milk sulphites", ""),
    "R09": (267, 89, 225, "milk soya", "almond hazelnut milk"),
    "R10": (32, 51, 18, "egg milk sulphites", "mustard"),
    "R11": (118, 115, 145, "celery egg milk sulphites", "mustard"),
    "R12": (73, 95, 59, "celery egg fish milk sulphites", "mustard"),
    "V1": (161, 59, 130, "egg milk", "lupin mustard"),
    "V2": (161, 63, 130, "milk wheat", "mustard"),
    "V3": (128, 70, 120, "egg soya wheat", ""),
    "V4": (140, 74, 96, "egg milk wheat", "almond sulphites"),
    "V5": (179, 51, 128, "milk wheat", ""),
}

#: code -> grams of all lines but the over-issue, a piece by its edible weight.
LINE_GRAMS = {
    "R01": "1524.8",
    "R02": "1464",
    "R03": "1863",
    "R04": "1619",
    "R05": "1777",
    "R06": "950",
    "R07": "1364.5",
    "R08": "1503",
    "R09": "1164",
    "R10": "1059.1",
    "R11": "3159.8",
    "R12": "3187.6",
}


def longest_chain(recipe: RecipeData) -> int:
    """Minutes of the longest chain of steps, hands and waiting, without regard to one pair of hands."""
    ends: dict[int, int] = {}
    for step in recipe.steps:
        begins = max((ends[after.needs] for after in step.after), default=0)
        ends[step.position] = begins + step.active_minutes + step.waiting_minutes
    return max(ends.values())


def faults_in(recipe: RecipeData) -> list[str]:
    """What does not hold together inside one recipe, in words."""
    codes = {component.code for component in recipe.components}
    foods = {food.code for food in recipe.foods}
    positions = [step.position for step in recipe.steps]
    found = [f"step {n} is out of order" for n, position in enumerate(positions, 1) if n != position]
    for component in recipe.components:
        if component.basis not in BASES:
            found.append(f"component {component.code} has the basis {component.basis}")
        for line in component.lines:
            if line.food not in foods:
                found.append(f"{line.food} is not among the foods")
            elif (line.scaling_class or recipe.food(line.food).scaling_class) not in SCALING_CLASSES:
                found.append(f"{line.food} has an unknown scaling class")
            if line.milligrams <= 0:
                found.append(f"{line.food} weighs nothing")
            if (component.basis == "fixed") != (line.part == "over_issue"):
                found.append(f"{line.food} of {component.code} is over-issue in the wrong place")
    for step in recipe.steps:
        found += [f"step {step.position} names {code}" for code in step.components if code not in codes]
        found += [
            f"step {step.position} needs {after.needs}"
            for after in step.after
            if after.needs >= step.position or after.needs < 1
        ]
    return found


def kinds(recipe: RecipeData, presence: str) -> str:
    """The kinds of every line's food, in alphabetical order."""
    lines = [line for component in recipe.components for line in component.lines]
    return " ".join(sorted({kind for line in lines for kind in getattr(recipe.food(line.food), presence)}))


@pytest.mark.parametrize("code", EVERY_RECIPE)
def test_a_recipe_holds_together(code):
    assert faults_in(college_recipe(code)) == []


def test_a_recipe_that_does_not_hold_together_is_found_out():
    recipe = college_recipe("R01")
    first, *others = recipe.components
    line = dataclasses.replace(first.lines[0], food="sawdust")
    wrong = dataclasses.replace(
        recipe,
        components=(dataclasses.replace(first, lines=(line,), basis="feel"), *others),
        steps=(dataclasses.replace(recipe.steps[0], components=("Z",)), *recipe.steps[1:]),
    )
    assert faults_in(wrong) == [
        "component A has the basis feel",
        "sawdust is not among the foods",
        "step 1 names Z",
    ]


@pytest.mark.parametrize("code", EVERY_RECIPE)
def test_a_recipe_has_the_minutes_and_kinds_of_the_table(code):
    recipe = college_recipe(code)
    hands = sum(step.active_minutes for step in recipe.steps)
    waiting = sum(step.waiting_minutes for step in recipe.steps)
    figures = (
        longest_chain(recipe),
        hands,
        waiting,
        kinds(recipe, "contains"),
        kinds(recipe, "may_contain"),
    )
    assert figures == FIGURES[code]


@pytest.mark.parametrize("code", LINE_GRAMS)
def test_the_lines_of_a_recipe_weigh_what_the_table_says(code):
    lines = [line for each in college_recipe(code).components for line in each.lines if each.code != "X"]
    assert sum(line.milligrams for line in lines) == round(float(LINE_GRAMS[code]) * 1000)


def test_the_quiche_without_its_first_two_steps_is_shorter_by_the_rest_of_the_paste():
    recipe = college_recipe("R01")
    kept = tuple(
        dataclasses.replace(step, after=tuple(a for a in step.after if a.needs not in (1, 2)))
        for step in recipe.steps
        if step.position not in (1, 2)
    )
    assert longest_chain(dataclasses.replace(recipe, steps=kept)) == 124


@pytest.mark.parametrize("code", EVERY_RECIPE)
def test_a_sheet_is_read_back_exactly(code):
    recipe = college_recipe(code)
    sheet = write_sheet(recipe)
    assert read_sheet(json.loads(json.dumps(sheet))) == recipe
    assert sheet["shape"] == 1


def test_a_variant_leaves_out_what_it_says_and_names_its_recipe():
    for code in VARIANT_CODES:
        variant = college_recipe(code)
        left_out = {kind for group in variant.free_from for kind in allergens.kinds_of(group)}
        assert left_out and not left_out & set(kinds(variant, "contains").split())
        ordinary = college_recipe(variant.variant_of)
        assert left_out & set(kinds(ordinary, "contains").split())


def test_techniques_that_a_variant_loses_are_really_gone():
    for code in VARIANT_CODES:
        variant = college_recipe(code)
        shown = {technique for step in variant.steps for technique in step.techniques}
        ordinary = college_recipe(variant.variant_of)
        once = {technique for step in ordinary.steps for technique in step.techniques}
        assert once - shown == set(variant.techniques_lost)


def food_entries() -> list[dict]:
    return fixture("foods.json")["foods"]


def figures_without_source(entry: dict, known: set[str]) -> list[str]:
    """The figures of one food that name no source of the list, by the name of the figure."""
    asked = [("usable_per_mille", entry.get("usable_source"))]
    for figure, source in (
        ("milligrams_per_ml", "milligrams_per_ml_source"),
        ("piece_milligrams", "piece_source"),
        ("made_from", "piece_source"),
        ("gelatine_bloom", "gelatine_bloom_source"),
    ):
        if figure in entry:
            asked.append((figure, entry.get(source)))
    for each in ("yield_figures", "piece_weights"):
        asked += [(each, one.get("source")) for one in entry.get(each, ())]
    return [figure for figure, source in asked if source not in known]


def test_the_book_of_foods_is_large_and_every_code_and_name_stands_once():
    codes = [each["code"] for each in food_entries()]
    names = [each["name"].casefold() for each in food_entries()]
    assert len(codes) >= 160
    assert len(set(codes)) == len(codes) and len(set(names)) == len(names)


def sources_named(entry: dict) -> set[str]:
    """Every source that the figures of one food name."""
    inner = [one for each in ("yield_figures", "piece_weights") for one in entry.get(each, ())]
    return {each[key] for each in (entry, *inner) for key in each if key.endswith("source")}


def test_every_figure_of_a_food_names_a_source_of_the_list():
    known = {each["code"] for each in fixture("foods.json")["sources"]}
    assert set().union(*map(sources_named, food_entries())) == known
    missing = {each["code"]: figures_without_source(each, known) for each in food_entries()}
    assert {code: figures for code, figures in missing.items() if figures} == {}


def test_a_figure_without_a_source_would_be_seen():
    planted = {"usable_source": "sr28", "milligrams_per_ml": 500, "yield_figures": [{"source": "hearsay"}]}
    assert figures_without_source(planted, {"sr28"}) == ["milligrams_per_ml", "yield_figures"]


def test_a_figure_that_comes_from_the_nutrient_table_names_its_row():
    tables = {"sr28", "sr28_weights"}
    for each in food_entries():
        for source, row in (
            ("usable_source", "usable_row"),
            ("milligrams_per_ml_source", "milligrams_per_ml_row"),
            ("piece_source", "piece_row"),
        ):
            assert each.get(source) not in tables or row in each, each["code"]
        for one in (*each.get("yield_figures", ()), *each.get("piece_weights", ())):
            assert one["source"] not in tables or "row" in one, each["code"]


def test_a_usable_share_below_the_whole_says_what_of_the_food_it_is():
    for each in food_entries():
        assert each["usable_per_mille"] == 1000 or each["usable_part"], each["code"]
        assert 0 < each["usable_per_mille"] <= 1000
        assert all(0 < one["usable_per_mille"] <= 1000 for one in each.get("yield_figures", ()))


#: What somebody may have answered about a food; "no" is an answer, and silence is none.
ANSWERS = {"yes", "no", "trace", "unknown"}
#: Every fact that a way of eating asks, but those that are kinds of allergen and stand on the label.
ASKED = {fact for _, facts in allergens.WAYS.values() for fact in facts} - set(allergens.KINDS) | {"fish"}


def test_every_question_of_a_way_of_eating_is_answered_for_every_food():
    for each in food_entries():
        said = dict(each["facts"])
        assert set(said) <= ASKED and set(said.values()) <= ANSWERS, each["code"]
        assert ASKED - set(said) <= ({"beef"} if said["meat"] == "no" else set()), each["code"]
        assert said["meat"] == "yes" or "yes" not in (said["pork"], said.get("beef")), each["code"]
        sea = {"fish", "crustaceans", "molluscs"} & set(each["contains"])
        assert (said["fish"] == "yes") == bool(sea), each["code"]


def test_what_a_label_contains_is_not_said_again_as_perhaps():
    for each in food_entries():
        assert not set(each["contains"]) & set(each["may_contain"]), each["code"]


def test_no_food_bears_the_name_of_a_maker():
    """The nutrient table prints makers in capitals: no word of four or more capitals stands here."""
    for each in food_entries():
        rows = [one.get("row", "") for one in each.get("piece_weights", ())]
        words = " ".join((each["name"], each.get("note", ""), *rows, each.get("milligrams_per_ml_row", "")))
        found = [word for word in re.findall(r"[A-Za-zÀ-ÿ]{4,}", words) if word.isupper()]
        assert found == [] and not set("®™") & set(words), each["code"]


def test_a_part_of_a_dough_is_one_of_eight_and_a_gelatine_has_its_bloom():
    parts = {"flour", "fat", "liquid", "egg", "sugar", "raising", "salt", "gel"}
    assert {each["dough_part"] for each in food_entries() if "dough_part" in each} == parts
    gelatines = [each for each in food_entries() if "gelatine" in each["code"]]
    assert len(gelatines) == 6 and all(100 <= each["gelatine_bloom"] <= 300 for each in gelatines)
    leaves = {
        each["gelatine_bloom"]: one["milligrams"]
        for each in gelatines
        for one in each.get("piece_weights", ())
    }
    assert len(leaves) == 4, "a leaf of a stronger grade weighs less"
    assert [leaves[bloom] for bloom in sorted(leaves)] == sorted(leaves.values(), reverse=True)


def test_a_named_piece_is_named_once_and_weighs_something():
    for each in food_entries():
        names = [one["name"] for one in each.get("piece_weights", ())]
        assert len(set(names)) == len(names) and all(0 < len(name) <= 40 for name in names)
        assert all(one["milligrams"] > 0 for one in each.get("piece_weights", ()))


@pytest.mark.parametrize(
    ("words", "code"),
    [
        ("egg white", "egg_white"),
        ("egg yolks", "egg_yolk"),
        ("salt", "fine_salt"),
        ("onions", "onion"),
        ("unsalted butter", "unsalted_butter"),
        ("gelatine", None),
        ("butter", None),
        ("milk", None),
        ("flour", None),
        ("sugar", None),
    ],
)
def test_in_a_large_book_plain_words_mean_the_plain_food_or_ask_a_person(words, code):
    food = meant(words, college_foods().values())
    assert (food.code if food else None) == code


def test_every_allergen_kind_of_a_food_is_a_kind_of_the_annex():
    for food in college_foods().values():
        assert set(food.contains + food.may_contain) <= set(allergens.KINDS), food.code


def test_a_part_of_a_piece_comes_from_a_food_that_is_counted_in_pieces():
    for food in college_foods().values():
        if food.made_from is not None:
            assert college_food(food.made_from.food).counted_in == "pieces"
    assert college_food("egg_yolk").made_from.food == "egg_in_shell"


def test_labels_wait_to_be_read_where_a_free_from_kit_depends_on_them():
    assert [food.code for food in college_foods().values() if food.label_read_on is None] == [
        "gluten_free_flour_blend"
    ]
    lots = fixture("stores.json")["lots"]
    assert [each["food"] for each in lots if "label_read_on" not in each] == [
        "white_fondant_with_soya",
        "gluten_free_flour_blend",
        "desiccated_coconut",
    ]


def test_every_technique_of_a_step_is_in_the_list_with_a_fault_to_look_for():
    known = {each["code"]: each for each in fixture("techniques.json")["techniques"]}
    used = {
        technique
        for code in EVERY_RECIPE
        for step in college_recipe(code).steps
        for technique in step.techniques
    }
    assert used <= set(known)
    assert all(each["faults"] for each in known.values())
    assert all(need in known for each in known.values() for need in each.get("needs", []))


def test_a_fault_has_one_code_a_cause_and_a_remedy():
    faults = [fault for each in fixture("techniques.json")["techniques"] for fault in each["faults"]]
    codes = [fault["code"] for fault in faults]
    assert len(set(codes)) == len(codes) == 195
    assert all(fault["seen"] and fault["cause"] and fault["remedy"] for fault in faults)


def test_everybody_of_the_college_has_one_code_and_a_name():
    college = fixture("college.json")
    people = college["staff"] + college["learners"]
    codes = [each["code"] for each in people]
    assert len(set(codes)) == len(codes) == 55
    assert all(each["name"].strip() for each in people)
    groups = {each["code"] for each in college["groups"]}
    assert {each["group"] for each in college["learners"]} == groups
    assert {each["lecturer"] for each in college["groups"]} <= {each["code"] for each in college["staff"]}


def test_what_a_learner_avoids_is_a_group_a_kind_or_a_way_of_eating():
    for learner in fixture("college.json")["learners"]:
        for each in learner.get("avoids", []):
            assert list(each) in (["kind"], ["way"])
            assert "way" not in each or each["way"] in allergens.WAYS
            assert "kind" not in each or allergens.kinds_of(each["kind"])


def test_learners_under_eighteen_on_the_day_have_a_guardians_consent():
    day = date(2027, 2, 16)
    young = [
        learner["code"]
        for learner in fixture("college.json")["learners"]
        if date.fromisoformat(learner["born_on"]) > day.replace(year=day.year - 18)
    ]
    assert young == ["dorota", "ewan"]
    consents = {each["code"]: each.get("guardian_consent") for each in fixture("college.json")["learners"]}
    assert all(consents[code] for code in young)


def test_every_lot_and_pack_is_of_a_known_food_and_supplier():
    stores = fixture("stores.json")
    suppliers = {each["code"] for each in stores["suppliers"]}
    for each in stores["packs"] + stores["lots"]:
        assert each["food"] in college_foods() and each["supplier"] in suppliers
        assert each["milligrams"] > 0
    assert len({each["code"] for each in stores["lots"]}) == len(stores["lots"]) == 25


def test_every_food_that_is_bought_has_one_pack_for_costing():
    packs = fixture("stores.json")["packs"]
    for food in college_foods().values():
        priced = [each for each in packs if each["food"] == food.code and each.get("used_for_costing")]
        assert len(priced) == (0 if food.from_tap or food.made_from else 1), food.code


def test_every_piece_of_small_equipment_of_a_recipe_stands_in_a_room():
    items = {each["item"] for room in fixture("rooms.json")["rooms"] for each in room["equipment"]}
    wanted = {each.item for code in EVERY_RECIPE for each in college_recipe(code).equipment}
    assert wanted <= items


def test_every_appliance_of_a_stay_stands_in_a_room():
    there = {each["kind"] for room in fixture("rooms.json")["rooms"] for each in room["appliances"]} | {
        "ring"
    }
    stays = [stay for code in EVERY_RECIPE for step in college_recipe(code).steps for stay in step.stays]
    assert {stay.appliance_kind for stay in stays} - {None} <= there


def test_a_lesson_is_of_known_people_a_known_room_and_a_known_dish():
    college, rooms = fixture("college.json"), {each["code"] for each in fixture("rooms.json")["rooms"]}
    staff = {each["code"] for each in college["staff"]}
    learners = {each["code"]: each["group"] for each in college["learners"]}
    for lesson in fixture("lessons.json")["lessons"]:
        assert lesson["room"] in rooms and lesson["dish"] in RECIPE_CODES
        assert {lesson["lecturer"], lesson["technician"]} <= staff
        placed = [each for place in lesson.get("places", []) for each in place["learners"]]
        assert len(set(placed)) == len(placed)
        assert {learners[each] for each in placed} <= set(lesson["groups"])
        for each in lesson.get("variants", []):
            assert college_recipe(each["variant"]).variant_of == lesson["dish"]


def test_two_lessons_are_worked_through_and_fall_on_days_of_the_term():
    lessons = fixture("lessons.json")["lessons"]
    assert [each["code"] for each in lessons if each["worked_through"]] == ["main-1", "main-2"]
    term = fixture("college.json")["college"]["term"]
    begins = date.fromisoformat(term["starts_on"])
    ends = begins + timedelta(weeks=term["weeks"])
    for each in lessons:
        assert begins <= date.fromisoformat(each["date"]) < ends
        assert each["date"] not in term["closed_days"]


def test_a_scheme_of_points_adds_up_to_its_total():
    for scheme in fixture("schemes.json")["schemes"]:
        points = [each["milli_points"] for each in scheme["criteria"]]
        if scheme["total_milli_points"] is None:
            assert set(points) == {None}
        else:
            assert sum(points) == scheme["total_milli_points"]


def test_courses_plan_twelve_weeks_with_known_dishes_and_techniques():
    known = {each["code"] for each in fixture("techniques.json")["techniques"]}
    schemes = {each["code"] for each in fixture("schemes.json")["schemes"]}
    for course in fixture("courses.json")["courses"]:
        assert course["scheme"] in schemes
        assert {each["week"] for each in course["planned"]} == set(range(1, 13))
        assert {each["dish"] for each in course["planned"]} <= {None, *RECIPE_CODES}
        outcomes = [each for unit in course["units"] for each in unit["outcomes"]]
        assert {technique for each in outcomes for technique in each["techniques"]} <= known


def test_a_sheet_of_another_shape_or_with_an_unknown_field_is_refused():
    sheet = write_sheet(college_recipe("R10"))
    with pytest.raises(UnreadableSheet, match="shape 2"):
        read_sheet({**sheet, "shape": 2})
    with pytest.raises(UnreadableSheet, match="flavour"):
        read_sheet({**sheet, "flavour": "good"})
    with pytest.raises(UnreadableSheet):
        read_sheet({name: value for name, value in sheet.items() if name != "title"})


def test_the_hash_of_a_sheet_follows_its_content_and_not_the_order_of_its_fields():
    sheet = write_sheet(college_recipe("R10"))
    turned = dict(reversed(list(sheet.items())))
    assert sheet_hash(turned) == sheet_hash(sheet)
    assert sheet_hash({**sheet, "title": "Asparagus"}) != sheet_hash(sheet)
    assert len(sheet_hash(sheet)) == 64
