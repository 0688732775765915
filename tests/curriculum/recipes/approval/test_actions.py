import uuid

import pytest
from django.db import IntegrityError, transaction

from curriculum.allergens import kinds_of
from curriculum.errors import RuleBroken
from curriculum.foods.models import Food, FoodAllergen
from curriculum.recipes import actions
from curriculum.recipes.approval import actions as approval
from curriculum.recipes.approval.queries import history_of
from curriculum.recipes.models import Said, Version
from tests.builders.book import a_book, a_person
from tests.builders.recipes import college_recipe

pytestmark = pytest.mark.django_db


@pytest.fixture
def odile():
    return a_person("odile")


@pytest.fixture
def solveig():
    return a_person("solveig")


@pytest.fixture
def sent(odile):
    a_book()
    version = actions.write_recipe(recipe=college_recipe("R01"), by=odile)
    return approval.send_for_check(version=version, by=odile, words="The oven is hotter.")


def _became(version):
    return [(said.what, said.by.username, said.words) for said in reversed(history_of(version))]


def test_everything_that_became_of_a_version_is_kept_with_its_person(sent, odile, solveig):
    approval.send_back(version=sent, by=solveig, words=" Step 2 has no cue. ")
    approval.send_for_check(version=sent, by=odile)
    approval.send_for_check(version=sent, by=odile)
    approval.check(version=sent, by=solveig)
    approval.back_to_draft(version=sent, by=odile)
    approval.send_for_check(version=sent, by=odile)
    approval.check(version=sent, by=solveig)
    approval.approve_to_teach(version=sent, by=solveig)
    approval.withdraw(version=sent, by=odile, words="Replaced.")
    assert _became(sent) == [
        ("sent", "odile", "The oven is hotter."),
        ("sent_back", "solveig", "Step 2 has no cue."),
        ("sent", "odile", ""),
        ("checked", "solveig", ""),
        ("opened", "odile", ""),
        ("sent", "odile", ""),
        ("checked", "solveig", ""),
        ("approved", "solveig", ""),
        ("withdrawn", "odile", "Replaced."),
    ]


def test_a_version_sent_back_is_a_draft_that_nobody_checks_before_it_is_sent_again(sent, odile, solveig):
    back = approval.send_back(version=sent, by=solveig, words="Too salt.")
    assert (back.state, back.sent_at, back.checked_by) == ("draft", None, None)
    with pytest.raises(RuleBroken) as refused:
        approval.check(version=sent, by=solveig)
    assert refused.value.code == "not_sent"


def test_a_checked_version_may_be_sent_back_by_whoever_would_approve_it(sent, solveig):
    approval.check(version=sent, by=solveig)
    priya = a_person("priya", "manager")
    back = approval.send_back(version=sent, by=priya, words="No core temperature for the filling.")
    assert (back.state, back.checked_by) == ("draft", None)


@pytest.mark.parametrize("words", ["", "  "])
def test_nothing_is_sent_back_without_a_reason(sent, solveig, words):
    with pytest.raises(RuleBroken) as refused:
        approval.send_back(version=sent, by=solveig, words=words)
    assert refused.value.facts["field"] == "words"
    assert Version.objects.get().sent_at is not None and len(history_of(sent)) == 1


def test_the_writer_and_an_unsent_or_approved_version_are_refused(sent, odile, solveig):
    with pytest.raises(RuleBroken) as refused:
        approval.send_back(version=sent, by=odile, words="No.")
    assert refused.value.code == "second_person"
    approval.send_back(version=sent, by=solveig, words="No.")
    with pytest.raises(RuleBroken) as refused:
        approval.send_back(version=sent, by=solveig, words="Still no.")
    assert refused.value.code == "not_sent"
    approval.send_for_check(version=sent, by=odile)
    approval.check(version=sent, by=solveig)
    approval.approve_to_teach(version=sent, by=solveig)
    with pytest.raises(RuleBroken) as refused:
        approval.send_back(version=sent, by=solveig, words="Too late.")
    assert refused.value.code == "wrong_state"


def test_what_is_sent_back_twice_with_one_key_is_sent_back_once(sent, solveig):
    key = uuid.uuid4()
    for _ in range(2):
        approval.send_back(version=sent, by=solveig, words="No cue.", key=key)
    assert [said.what for said in history_of(sent)] == ["sent_back", "sent"]


def test_the_history_is_never_changed_and_a_reason_is_never_empty(sent, solveig):
    said = Said.objects.get()
    with pytest.raises(TypeError):
        said.save()
    with pytest.raises(IntegrityError), transaction.atomic():
        Said.objects.filter(pk=said.pk).update(words="Something else.")
    with pytest.raises(IntegrityError), transaction.atomic():
        Said.objects.create(version=sent, by=solveig, what="sent_back")


def test_a_label_read_after_the_check_stops_the_approval(odile, solveig):
    a_book("R01")
    recipe = college_recipe("V1")
    version = actions.write_recipe(recipe=recipe, by=odile)
    approval.send_for_check(version=version, by=odile)
    approval.check(version=version, by=solveig)
    food = Food.objects.get(code=recipe.components[0].lines[0].food)
    declared = food.allergens.create(kind=min(kinds_of(recipe.free_from[0])), presence="contains")
    with pytest.raises(RuleBroken) as refused:
        approval.approve_to_teach(version=version, by=solveig)
    assert refused.value.code == "not_ready"
    assert "cannot be approved yet" in refused.value.message and food.name in refused.value.message
    assert Version.objects.get(pk=version.pk).state == "checked"
    FoodAllergen.objects.filter(pk=declared.pk).delete()
    assert approval.approve_to_teach(version=version, by=solveig).state == "approved"
