import re
from dataclasses import replace
from html import unescape

import pytest

from curriculum.recipes import actions
from curriculum.recipes.data import LineData
from tests.builders.book import a_book, a_copy, a_person, an_approved
from tests.builders.recipes import college_foods, college_recipe

pytestmark = pytest.mark.django_db


@pytest.fixture
def lecturer(client):
    client.force_login(a_person("odile"))
    return client


def words(answer):
    assert answer.status_code == 200
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", answer.content.decode())).split())


def test_the_recipe_page_leads_to_it_with_the_portions_that_are_asked(lecturer):
    a_book("R02")
    page = lecturer.get("/recipes/R02/").content.decode()
    assert 'href="/recipes/R02/1/scale/"' in page
    assert re.search(r'action="/recipes/R02/1/scale/".*name="portions"', page, re.DOTALL)


def test_a_recipe_is_scaled_for_a_class(lecturer):
    a_book("R03", "R08")
    said = words(lecturer.get("/recipes/R03/1/scale/?benches=8&learners=16"))
    for wanted in (
        "Eight benches, twelve éclairs of 111 g each bench.",
        "Hen egg in shell, medium 10.36 88 83",
        "1,350 g of Hen egg white left over. It would make nine batches of Individual pavlova",
        "£", "A learner",
        "× Hen egg in shell, medium are separated",
    ):  # fmt: skip
        assert wanted in said, wanted
    assert "safe" not in said.lower()


def test_bad_input_comes_back_at_its_field_with_what_was_typed(lecturer):
    a_book("R01")
    answer = lecturer.get("/recipes/R01/1/scale/?benches=lots&tin1_shape=square")
    said = words(answer)
    assert "Not scaled yet. Two things stand in the way." in said
    assert 'value="lots"' in answer.content.decode() and "In short" not in said
    assert "<details open>" in answer.content.decode()


def test_water_that_cannot_be_is_refused_at_the_temperature_wanted(lecturer):
    a_book("R06")
    query = "wanted=35&flour_at=10&room_at=10&friction=1"
    said = words(lecturer.get(f"/recipes/R06/1/scale/?{query}"))
    assert "yeast is harmed from about 45 °C on" in said and "One thing stands in the way" in said


def test_a_learner_may_scale_and_sees_no_cost(client):
    a_book("R01")
    client.force_login(a_person("wren", "student"))
    answer = client.get("/recipes/R01/1/scale/?benches=7&price=3.20")
    said = words(answer)
    assert "119" not in said and "49 g" in said
    assert "£" not in said and "Cost" not in said


def test_a_draft_is_scaled_by_staff(lecturer):
    a_book()
    version = actions.write_recipe(recipe=college_recipe("R06"), by=a_person("odile"))
    assert "Fresh yeast" in words(lecturer.get(f"/recipes/R06/{version.number}/scale/?benches=2"))


def test_nothing_is_changed_by_scaling(lecturer):
    version = a_book("R01")["R01"]
    before = version.sheet_hash
    lecturer.get("/recipes/R01/1/scale/?portions=99&tin1_diameter_mm=18")
    version.refresh_from_db()
    assert version.sheet_hash == before and version.recipe.versions.count() == 1


def test_thirty_lines_and_thirty_recipes_take_as_many_queries_as_three(
    lecturer, django_assert_max_num_queries
):
    a_book("R08")
    odile, solveig = a_person("odile"), a_person("solveig")
    small = college_recipe("R03")
    few = replace(small, components=small.components[1:2], tins=(), finished=(), steps=(), variant_of=None)
    named = college_foods()
    codes = [code for code, food in named.items() if food.made_from is None][:30]
    lines = tuple(LineData(n, code, 10_000) for n, code in enumerate(codes, start=1))
    component = few.components[0]
    wide = replace(
        few,
        components=(replace(component, lines=(*lines, replace(component.lines[1], position=31))),),
        foods=tuple(named.values()),
    )
    written = [
        actions.write_recipe(recipe=replace(each, code=code), by=odile)
        for each, code in ((few, "few"), (wide, "wide"))
    ]
    for number in range(30):
        an_approved(a_copy(college_recipe("R08"), number), odile, solveig)
    counted = []
    for version in written:
        with django_assert_max_num_queries(25) as asked:
            said = words(lecturer.get(f"/recipes/{version.recipe.code}/{version.number}/scale/?benches=7"))
        assert "It would make" in said
        counted.append(len(asked))
    assert counted[0] == counted[1]
