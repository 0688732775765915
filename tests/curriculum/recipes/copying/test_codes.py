import pytest

from curriculum.recipes.copying.codes import free_code, own_or_free


@pytest.mark.parametrize(
    "code, taken, word, found",
    [
        ("R01", ["R01"], "", "R01-2"),
        ("R01", ["R01", "r01-2"], "", "R01-3"),
        ("leek-quiche", ["leek-quiche"], "no gluten", "leek-quich-no-gluten"),
        ("R01", ["R01-NO-EGG"], "no egg", "R01-no-egg-2"),
    ],
)
def test_a_code_is_proposed_that_no_recipe_has(code, taken, word, found):
    assert free_code(code, taken, word) == found


def test_a_proposed_code_is_never_too_long_and_never_taken():
    taken = {"a-recipe-of-a-name-th"}
    for _ in range(120):
        code = free_code("a-recipe-of-a-name-th", taken)
        assert len(code) <= 20 and code not in taken
        taken.add(code)


def test_a_code_that_nobody_has_is_offered_as_it_is():
    assert own_or_free("r02", {"R01"}) == "r02"
    assert own_or_free("r01", {"R01"}) == "r01-2"
