from curriculum.recipes import search
from tests.builders.recipes import college_recipe


def test_words_are_compared_without_case_and_marks():
    assert search.wanted_words("  Éclairs, café! ") == ["eclairs", "cafe"]


def test_a_recipe_is_found_by_title_food_component_and_technique():
    words = search.words_of(
        college_recipe("R03"), {"choux_paste": "Choux paste"}, {"strong_wheat_flour": "Strong flour"}
    )
    for wanted in ("eclairs", "strong", "glaze", "choux", "r03", "intermediate"):
        assert wanted in words.split()


def test_names_in_any_script_are_words():
    assert search.wanted_words("饺子 خبز") == ["饺子", "خبز"]


def test_a_search_of_a_whole_book_is_cut():
    assert len(search.wanted_words("flour " * 1000)) == 12


def test_techniques_come_once_in_the_order_of_the_steps():
    found = search.techniques_of(college_recipe("R01"))
    assert found[:3] == ["mise_en_place", "weighing", "rubbing_in"] and len(found) == len(set(found))
