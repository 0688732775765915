import uuid
from dataclasses import replace

import pytest

from curriculum.errors import RuleBroken
from curriculum.foods.models import Food
from curriculum.recipes import actions, queries
from curriculum.recipes.approval import actions as approval
from curriculum.recipes.data import AfterData, StayData, StepData, WayData
from curriculum.recipes.models import Recipe, Version
from tests.builders.book import a_book, a_person, an_approved
from tests.builders.recipes import RECIPE_CODES, college_recipe

pytestmark = pytest.mark.django_db


@pytest.fixture
def odile():
    return a_person("odile")


@pytest.fixture
def solveig():
    return a_person("solveig")


@pytest.fixture
def draft(odile):
    a_book()
    return actions.write_recipe(recipe=college_recipe("R01"), by=odile)


def _plain(recipe):
    return replace(recipe, foods=tuple(sorted(recipe.foods, key=lambda food: food.code)), number=0)


@pytest.mark.parametrize("code", RECIPE_CODES)
def test_what_is_written_is_what_is_read(code, odile):
    a_book()
    version = actions.write_recipe(recipe=college_recipe(code), by=odile)
    read = queries.recipe_data(version)
    assert _facts_sorted(_plain(read)) == _facts_sorted(_plain(college_recipe(code)))


def _facts_sorted(recipe):
    foods = tuple(
        replace(food, facts=tuple(sorted(food.facts)), contains=tuple(sorted(food.contains)))
        for food in recipe.foods
    )
    steps = tuple(replace(step, components=tuple(sorted(step.components))) for step in recipe.steps)
    return replace(recipe, foods=foods, steps=steps)


def test_a_recipe_sent_twice_is_written_once(odile):
    a_book()
    key = uuid.uuid4()
    first = actions.write_recipe(recipe=college_recipe("R02"), by=odile, key=key)
    assert actions.write_recipe(recipe=college_recipe("R02"), by=odile, key=key) == first
    assert Version.objects.count() == 1


def test_a_recipe_has_one_draft_at_a_time(draft, odile):
    with pytest.raises(RuleBroken) as refused:
        actions.write_recipe(recipe=college_recipe("R01"), by=odile)
    assert refused.value.code == "has_a_draft" and "version 1" in refused.value.message


def test_a_food_that_is_not_in_the_book_is_named_and_nothing_is_written(odile):
    with pytest.raises(RuleBroken) as refused:
        actions.write_recipe(recipe=college_recipe("R01"), by=odile)
    assert refused.value.code == "no_such_food"
    assert not Recipe.objects.exists()


def test_the_writer_cannot_check_or_approve(draft, odile, solveig):
    with pytest.raises(RuleBroken) as refused:
        approval.check(version=draft, by=odile)
    assert refused.value.code == "second_person"
    approval.send_for_check(version=draft, by=draft.written_by)
    approval.check(version=draft, by=solveig)
    with pytest.raises(RuleBroken):
        approval.approve_to_teach(version=draft, by=odile)
    assert approval.approve_to_teach(version=draft, by=solveig).state == "approved"


def test_an_unchecked_draft_cannot_be_approved(draft, solveig):
    with pytest.raises(RuleBroken) as refused:
        approval.approve_to_teach(version=draft, by=solveig)
    assert refused.value.code == "wrong_state"


def test_a_version_approved_is_frozen_as_its_sheet_and_never_changes(odile, solveig):
    a_book()
    version = an_approved(college_recipe("R01"), odile, solveig)
    before = queries.recipe_data(version)
    for deed in (
        lambda: actions.remove_component(version=version, code="D", by=odile),
        lambda: actions.remove_step(version=version, position=1, by=odile),
        lambda: actions.write_title(version=version, recipe=replace(before, portions_stated=2), by=odile),
        lambda: approval.back_to_draft(version=version, by=odile),
    ):
        with pytest.raises(RuleBroken) as refused:
            deed()
        assert refused.value.code == "wrong_state"
    assert queries.recipe_data(Version.objects.get(pk=version.pk)) == before


def test_what_a_label_says_is_read_as_it_stands_today(odile, solveig):
    a_book()
    version = an_approved(college_recipe("R01"), odile, solveig)
    cheddar = Food.objects.get(code="mature_cheddar")
    cheddar.allergens.create(kind="soya", presence="may_contain")
    cheddar.usable_per_mille = 500
    cheddar.save()
    food = queries.recipe_data(version).food("mature_cheddar")
    assert "soya" in food.may_contain and food.usable_per_mille == 1000


def test_a_revision_is_a_new_draft_and_the_old_one_stays_approved(odile, solveig):
    a_book()
    version = an_approved(college_recipe("R01"), odile, solveig)
    new = actions.revise(version=version, by=odile)
    assert (new.number, new.state, new.made_from) == (2, "draft", version)
    assert _facts_sorted(_plain(queries.recipe_data(new))) == _facts_sorted(
        _plain(queries.recipe_data(version))
    )
    assert Version.objects.get(pk=version.pk).state == "approved"


def test_whoever_changes_a_draft_last_has_written_it(draft, odile, solveig):
    actions.remove_component(version=draft, code="D", by=solveig)
    with pytest.raises(RuleBroken) as refused:
        approval.check(version=draft, by=solveig)
    assert refused.value.code == "second_person"


def test_a_component_is_written_anew_and_its_lines_are_numbered(draft, odile):
    component = queries.recipe_data(draft).components[0]
    lines = tuple(reversed(component.lines))
    actions.put_component(version=draft, component=replace(component, lines=lines), by=odile)
    read = queries.recipe_data(draft).components[0]
    assert [line.food for line in read.lines] == [line.food for line in lines]
    assert [line.position for line in read.lines] == [1, 2, 3, 4]


def test_a_draft_with_a_component_without_lines_cannot_be_checked(draft, odile, solveig):
    component = queries.recipe_data(draft).components[0]
    actions.put_component(version=draft, component=replace(component, lines=()), by=odile)
    with pytest.raises(RuleBroken) as refused:
        approval.check(version=draft, by=solveig)
    assert "Shortcrust paste has no line." in refused.value.message
    assert Version.objects.get(pk=draft.pk).state == "draft"


def test_a_step_put_between_others_moves_them_up(draft, odile):
    step = StepData(0, "Taste.", (WayData("hand", 1),), after=(AfterData(3),), cue="Salt enough.")
    actions.add_step(version=draft, step=step, by=odile, before=4)
    read = queries.recipe_data(draft)
    assert read.step(4).words == "Taste." and [each.needs for each in read.step(4).after] == [3]
    assert [each.needs for each in read.step(6).after] == [5]
    assert len(read.steps) == 10


def test_a_step_sent_twice_is_added_once(draft, odile):
    step, key = StepData(0, "Taste.", (WayData("hand", 1),)), uuid.uuid4()
    for _ in range(2):
        actions.add_step(version=draft, step=step, by=odile, key=key)
    assert len(queries.recipe_data(draft).steps) == 10


def test_a_loop_of_steps_is_refused_and_named(draft, odile):
    first = queries.recipe_data(draft).step(1)
    with pytest.raises(RuleBroken) as refused:
        actions.change_step(version=draft, step=replace(first, after=(AfterData(5),)), by=odile)
    assert refused.value.code == "steps_in_a_loop" and "step 5" in refused.value.message
    assert queries.recipe_data(draft).step(1).after == ()


def test_a_step_keeps_its_stays_and_ways(draft, odile):
    stays = (StayData(60, "oven", 1050, "fan", "shut"), StayData(30, "oven", None, "", "off_and_shut"))
    step = replace(queries.recipe_data(draft).step(5), stays=stays)
    actions.change_step(version=draft, step=step, by=odile)
    assert queries.recipe_data(draft).step(5) == step


def test_a_step_taken_out_leaves_what_came_before_it_before(draft, odile):
    actions.remove_step(version=draft, position=2, by=odile)
    read = queries.recipe_data(draft)
    assert [each.needs for each in read.step(3).after] == [1]
    assert [step.position for step in read.steps] == list(range(1, 9))


def test_a_checked_version_may_be_put_back_to_draft(draft, odile, solveig):
    approval.send_for_check(version=draft, by=draft.written_by)
    approval.check(version=draft, by=solveig)
    version = approval.back_to_draft(version=draft, by=odile)
    assert version.state == "draft" and version.checked_by is None


def test_only_an_approved_version_is_withdrawn(draft, odile, solveig):
    with pytest.raises(RuleBroken):
        approval.withdraw(version=draft, by=odile)
    approval.send_for_check(version=draft, by=draft.written_by)
    approval.check(version=draft, by=solveig)
    approval.approve_to_teach(version=draft, by=solveig)
    assert approval.withdraw(version=draft, by=solveig).state == "withdrawn"


def test_a_variant_of_a_recipe_that_is_not_there_is_refused(odile):
    a_book()
    with pytest.raises(RuleBroken) as refused:
        actions.write_recipe(recipe=college_recipe("V1"), by=odile)
    assert refused.value.code == "no_such_recipe"


def test_what_was_not_sent_cannot_be_checked_and_a_change_takes_the_sending_back(draft, odile, solveig):
    with pytest.raises(RuleBroken) as refused:
        approval.check(version=draft, by=solveig)
    assert refused.value.code == "not_sent"
    sent = approval.send_for_check(version=draft, by=odile)
    assert sent.sent_at == approval.send_for_check(version=draft, by=odile).sent_at
    actions.move_step(version=draft, position=1, places=-1, by=odile)
    with pytest.raises(RuleBroken) as refused:
        approval.check(version=draft, by=solveig)
    assert refused.value.code == "not_sent"
    assert Version.objects.get(pk=draft.pk).state == "draft"


def test_a_draft_with_something_to_mend_cannot_be_sent(draft, odile):
    component = queries.recipe_data(draft).components[0]
    actions.put_component(version=draft, component=replace(component, lines=()), by=odile)
    with pytest.raises(RuleBroken) as refused:
        approval.send_for_check(version=draft, by=odile)
    assert refused.value.code == "not_ready"
    assert Version.objects.get(pk=draft.pk).sent_at is None
