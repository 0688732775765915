import pytest

from curriculum.recipes import actions, queries
from curriculum.recipes.approval import actions as approval
from curriculum.recipes.models import Version
from curriculum.techniques.models import Level, Prerequisite, Technique
from tests.builders.book import a_book, a_copy, a_person, an_approved
from tests.builders.recipes import college_recipe

pytestmark = pytest.mark.django_db


def test_variants_are_recipes_of_their_own():
    book = a_book("R01", "V1", "V2", "R03", "V3")
    assert {each.recipe.code for each in queries.variants_of(book["R01"])} == {"V1", "V2"}
    assert queries.recipe_data(book["V1"]).variant_of == "R01"
    assert queries.recipe_data(book["V1"]).free_from == ("gluten",)


def test_only_the_newest_approved_version_is_taught():
    book = a_book("R01", "R02")
    odile, solveig = a_person("odile"), a_person("solveig")
    new = actions.revise(version=book["R01"], by=odile)
    assert set(queries.latest_approved()) == {book["R01"], book["R02"]}
    approval.send_for_check(version=new, by=odile)
    approval.check(version=new, by=solveig)
    approval.approve_to_teach(version=new, by=solveig)
    assert set(queries.latest_approved()) == {new, book["R02"]}
    approval.withdraw(version=new, by=solveig)
    assert queries.approved("R01") == book["R01"]


def test_many_recipes_take_as_many_queries_as_few(django_assert_num_queries):
    a_book("R01")
    odile, solveig = a_person("odile"), a_person("solveig")
    for number in range(2):
        an_approved(a_copy(college_recipe("R01"), number), odile, solveig)
    with django_assert_num_queries(3):
        assert len(queries.book_data()) == 3
    for number in range(2, 29):
        an_approved(a_copy(college_recipe("R02"), number), odile, solveig)
    with django_assert_num_queries(3):
        assert len(queries.book_data()) == 30


def test_drafts_take_a_fixed_number_of_queries(django_assert_max_num_queries):
    a_book()
    odile = a_person("odile")
    drafts = [actions.write_recipe(recipe=a_copy(college_recipe("R01"), n), by=odile) for n in range(10)]
    with django_assert_max_num_queries(16):
        assert len(queries.recipes_data(drafts)) == 10


def test_alternatives_train_the_same_techniques_without_the_allergen():
    book = a_book("R01", "V1", "V2", "R02", "R07", "R08", "R09")
    found = queries.alternatives(book["R01"], ["egg"])
    codes = [version.recipe.code for version in found]
    assert "R01" not in codes and "V1" not in codes and "V2" not in codes
    for version in found:
        foods = queries.recipe_data(version).foods
        assert not any("egg" in food.contains for food in foods)
    without_milk = queries.alternatives(book["R01"], ["milk"])
    assert not {"R02", "R07", "R08"} & {version.recipe.code for version in without_milk}


def test_alternatives_put_most_techniques_in_common_first():
    book = a_book("R01", "R02", "R07", "R04")
    counts = [version.in_common for version in queries.alternatives(book["R02"], [])]
    assert counts == sorted(counts, reverse=True) and counts[0] > 1


def test_a_group_of_allergens_leaves_out_all_its_kinds():
    book = a_book("R01", "R06", "R08")
    codes = {each.recipe.code for each in queries.alternatives(book["R01"], ["gluten"])}
    assert "R06" not in codes


def test_a_yolk_brings_its_egg_and_a_part_counts_as_containing_what_the_whole_contains():
    book = a_book("R02")
    assert "egg_in_shell" in {food.code for food in queries.recipe_data(book["R02"]).foods}
    assert Version.objects.filter(pk__in=queries.containing(["egg"])).exists()
    assert not Version.objects.filter(pk__in=queries.containing(["fish"])).exists()


def _technique(name):
    return Technique.objects.create(
        code=name.lower(), name=name, level=Level.FOUNDATION, cue="It is seen by everybody."
    )


@pytest.mark.parametrize("count", [3, 30])
def test_a_technique_names_its_neighbours_by_name(count, django_assert_num_queries):
    middle = _technique("Middle")
    for number in reversed(range(count)):
        Prerequisite.objects.create(technique=middle, needs=_technique(f"A{number:02}"))
        Prerequisite.objects.create(technique=_technique(f"Z{number:02}"), needs=middle)
    with django_assert_num_queries(4):
        found = queries.technique("middle")
        first = [each.needs.name for each in found.prerequisites.all()]
        after = [each.technique.name for each in found.unlocks.all()]
    assert first == [f"A{number:02}" for number in range(count)]
    assert after == [f"Z{number:02}" for number in range(count)]
