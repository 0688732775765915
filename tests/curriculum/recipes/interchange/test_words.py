from curriculum.recipes.interchange.words import exact_grams


def test_grams_are_exact_to_the_milligram():
    assert [exact_grams(each) for each in (91_670, 1, 100_000, 1_000)] == ["91.67", "0.001", "100", "1"]
