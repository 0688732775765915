from curriculum.recipes.book import count_words, line_of
from tests.builders.recipes import college_recipe


def test_a_line_of_the_book_says_time_portions_techniques_and_allergens():
    line = line_of(college_recipe("R02"), {"sanding": "Sanding and sweet pastes"})
    assert (line.minutes, line.contains, line.free_from) == ("3 h 41", ("gluten (wheat)", "egg", "milk"), ())
    assert line.facts == "Intermediate, eight slices."
    assert "mise" not in line.techniques.lower()


def test_a_variant_says_what_it_is_made_without():
    assert line_of(college_recipe("V1"), {}).free_from == ("cereals containing gluten",)


def test_the_sentence_counts_what_was_found_of_what_there_is():
    assert count_words(17, 17, []) == "17 recipes approved to teach."
    assert (
        count_words(2, 12, ["with blind baking", "without egg"])
        == "Two of twelve recipes: with blind baking, without egg."
    )
    assert count_words(0, 1, ["foundation"]) == "None of one recipe: foundation."
