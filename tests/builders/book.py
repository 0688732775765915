"""The recipe book of the demonstration college as rows, for tests of pages and actions."""

from dataclasses import replace
from datetime import date

from curriculum.foods.actions import add_foods, add_packs, add_suppliers
from curriculum.people.models import College, RoleGrant, User
from curriculum.recipes import actions
from curriculum.recipes.approval import actions as approval
from curriculum.recipes.data import RecipeData
from curriculum.recipes.models import Version
from curriculum.techniques.actions import add_techniques
from kitchen.website.demonstration.entries import foods_in, packs_in, suppliers_in, techniques_in
from tests.builders.recipes import college_recipe, fixture

TERM = date(2027, 1, 4)


def a_college() -> College:
    """The one college, when there is none yet."""
    return College.objects.first() or College.objects.create(
        name="Tillow College",
        short_name="Tillow",
        is_demonstration=True,
        shown_today=date(2027, 2, 16),
        term_starts_on=TERM,
    )


def a_person(username: str, role: str = "lecturer") -> User:
    """Somebody who holds that role; the same person when asked again."""
    a_college()
    user = User.objects.filter(username=username).first()
    if user is None:
        user = User.objects.create_user(username=username, name=username.replace("_", " ").title())
        RoleGrant.objects.create(user=user, role=role, from_on=TERM)
    return user


def a_book(*codes: str, by: User | None = None, checker: User | None = None) -> dict[str, Version]:
    """Foods, packs and techniques, and these recipes approved to teach, by code."""
    by, checker = by or a_person("odile"), checker or a_person("solveig")
    add_foods(entries=foods_in(fixture("foods.json")), by=by)
    add_techniques(entries=techniques_in(fixture("techniques.json")), by=by)
    add_suppliers(entries=suppliers_in(fixture("stores.json")), by=by)
    add_packs(entries=packs_in(fixture("stores.json"), TERM), by=by)
    return {code: an_approved(college_recipe(code), by=by, checker=checker) for code in codes}


def an_approved(recipe: RecipeData, by: User, checker: User) -> Version:
    """A recipe written by one and approved by another."""
    version = actions.write_recipe(recipe=recipe, by=by)
    approval.send_for_check(version=version, by=by)
    approval.check(version=version, by=checker)
    return approval.approve_to_teach(version=version, by=checker)


def a_copy(recipe: RecipeData, number: int) -> RecipeData:
    """The same recipe under another code and title."""
    return replace(recipe, code=f"{recipe.code}x{number}", title=f"{recipe.title} {number}", variant_of=None)
