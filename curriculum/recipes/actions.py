"""Writing recipes: a draft is written and changed, checked by a second person, approved, withdrawn.

A version in draft is rows and may be changed. Approval keeps the whole recipe as the
version's sheet, which calculations read; a version approved never changes again: a new
version is made from it.
"""

from collections.abc import Callable
from dataclasses import replace
from uuid import UUID

from django.db import transaction
from django.db.models import Max
from django.utils import timezone

from curriculum.errors import RuleBroken
from curriculum.foods.queries import prices
from curriculum.people.models import User
from curriculum.people.queries import the_college, today_at
from curriculum.recipes import checks, editing, queries
from curriculum.recipes.data import ComponentData, LineData, RecipeData, StepData
from curriculum.recipes.figures import figures_of
from curriculum.recipes.managers import FIGURES, write_figures, write_head, write_parts
from curriculum.recipes.models import Recipe, RecipeFreeFrom, Version
from curriculum.recipes.sheets import sheet_hash, write_sheet
from curriculum.records.actions import once

Change = Callable[[RecipeData], RecipeData]


@transaction.atomic
def write_recipe(*, recipe: RecipeData, by: User, key: UUID | None = None) -> Version:
    """Write a whole recipe as a new draft: of a new recipe, or the next version of one with that code.

    RuleBroken when the recipe has a draft already, or names a food, a technique or an
    ordinary recipe that is not in the book. The number in ``recipe`` is not used.
    """

    def do() -> dict:
        return {"version": _new_draft(recipe, by, None).pk}

    answer = once(key=key, action="write_recipe", by=by, said={"recipe": write_sheet(recipe)}, do=do)
    return _version(answer["version"])


@transaction.atomic
def revise(*, version: Version, by: User, key: UUID | None = None) -> Version:
    """Make a new draft from a version. RuleBroken when the recipe has a draft already."""

    def do() -> dict:
        return {"version": _new_draft(queries.recipe_data(version), by, version).pk}

    answer = once(key=key, action="revise", by=by, said={"version": version.pk}, do=do)
    return _version(answer["version"])


@transaction.atomic
def write_title(*, version: Version, recipe: RecipeData, by: User) -> Version:
    """Write what stands above the components: title, level, portions, words, tins, equipment."""
    parts = {"components", "steps", "foods", "code", "number"}

    def change(before: RecipeData) -> RecipeData:
        kept = {name: getattr(before, name) for name in parts}
        return type(before)(
            **{name: getattr(recipe, name) for name in before.__dataclass_fields__ if name not in parts},
            **kept,
        )

    return _change(version, by, change)


@transaction.atomic
def put_component(*, version: Version, component: ComponentData, by: User) -> Version:
    """Add a component with its lines, or write it anew in the place of the one with its code."""
    return _change(version, by, lambda recipe: editing.with_component(recipe, component))


@transaction.atomic
def remove_component(*, version: Version, code: str, by: User) -> Version:
    """Take a component out; steps and tins let it go."""
    return _change(version, by, lambda recipe: editing.without_component(recipe, code))


@transaction.atomic
def put_lines(
    *,
    version: Version,
    code: str,
    lines: tuple[LineData, ...],
    by: User,
    key: UUID | None = None,
    measures: str = "",
) -> Version:
    """Add lines to a component (position 0), or write those at their positions anew.

    ``measures`` is the system that their amounts are written in; it is kept where the recipe has none.
    """

    def change(recipe: RecipeData) -> RecipeData:
        written = editing.with_lines(recipe, code, lines)
        return replace(written, measures=recipe.measures or measures)

    def do() -> dict:
        _change(version, by, change)
        return {"version": version.pk}

    said = {"version": version.pk, "component": code, "lines": [repr(line) for line in lines]}
    once(key=key, action="put_lines", by=by, said=said, do=do)
    return _version(version.pk)


@transaction.atomic
def remove_line(*, version: Version, code: str, position: int, by: User) -> Version:
    """Take a line out of a component."""
    return _change(version, by, lambda recipe: editing.without_line(recipe, code, position))


@transaction.atomic
def add_step(
    *, version: Version, step: StepData, by: User, before: int | None = None, key: UUID | None = None
) -> Version:
    """Add a step before another one, or last. RuleBroken when steps would wait in a ring."""

    def do() -> dict:
        _change(version, by, lambda recipe: editing.with_step(recipe, step, before))
        return {"version": version.pk}

    said = {"version": version.pk, "step": repr(step), "before": before}
    once(key=key, action="add_step", by=by, said=said, do=do)
    return _version(version.pk)


@transaction.atomic
def change_step(*, version: Version, step: StepData, by: User) -> Version:
    """Write a step anew: its words, ways, stays and what it comes after."""
    return _change(version, by, lambda recipe: editing.changed_step(recipe, step))


@transaction.atomic
def remove_step(*, version: Version, position: int, by: User) -> Version:
    """Take a step out; the steps behind it move up."""
    return _change(version, by, lambda recipe: editing.without_step(recipe, position))


@transaction.atomic
def move_step(*, version: Version, position: int, to: int, by: User) -> Version:
    """Read a step at another place; what it comes after stays the same."""
    return _change(version, by, lambda recipe: editing.moved_step(recipe, position, to))


@transaction.atomic
def move_earlier(*, version: Version, position: int, by: User) -> Version:
    """Read a step one place earlier; the first stays where it is."""
    return move_step(version=version, position=position, to=max(1, position - 1), by=by)


@transaction.atomic
def send_for_check(*, version: Version, by: User) -> Version:
    """Say that a draft may be checked; a change takes it back. RuleBroken while something stops.

    A draft that was sent already keeps the moment at which it was first sent.
    """
    version = _locked(version)
    _demand_state(version, Version.State.DRAFT, "sent for checking")
    _demand_ready(version)
    if version.sent_at is None:
        version.sent_at = timezone.now()
        version.save(update_fields=["sent_at"])
    return version


@transaction.atomic
def check(*, version: Version, by: User) -> Version:
    """A second person has read the draft. RuleBroken for the writer, and while something stops."""
    version = _locked(version)
    _demand_state(version, Version.State.DRAFT, "checked")
    _demand_second_person(version, by, "check")
    _demand_ready(version)
    if version.sent_at is None:
        raise RuleBroken(
            "not_sent",
            f"Version {version.number} of {version.recipe.title} has not been sent for checking, or was "
            f"changed since. {version.written_by.name} sends it from its writing page.",
        )
    version.state, version.checked_by = Version.State.CHECKED, by
    version.save(update_fields=["state", "checked_by"])
    return version


@transaction.atomic
def back_to_draft(*, version: Version, by: User) -> Version:
    """Open a checked version again for writing; its check is taken back."""
    version = _locked(version)
    _demand_state(version, Version.State.CHECKED, "put back to draft")
    _demand_no_draft(version.recipe)
    version.state, version.checked_by, version.sent_at = Version.State.DRAFT, None, None
    version.save(update_fields=["state", "checked_by", "sent_at"])
    return version


@transaction.atomic
def approve_to_teach(*, version: Version, by: User) -> Version:
    """Approve a checked version: it is frozen as its sheet. RuleBroken for the writer."""
    version = _locked(version)
    _demand_state(version, Version.State.CHECKED, "approved")
    _demand_second_person(version, by, "approve")
    recipe, today = queries.recipe_data(version), today_at(the_college())
    write_figures(version, figures_of(recipe, prices(today, [food.code for food in recipe.foods])), today)
    version.sheet = write_sheet(recipe)
    version.sheet_hash = sheet_hash(version.sheet)
    version.state, version.approved_at = Version.State.APPROVED, timezone.now()
    version.save(update_fields=["sheet", "sheet_hash", "state", "approved_at", *FIGURES])
    return version


@transaction.atomic
def reckon_figures(*, by: User | None) -> int:
    """Reckon the times and today's cost of every recipe that is taught, for the book; how many.

    ``by`` is None when a command or a nightly task does it. The sheets stay as they are.
    """
    today = today_at(the_college())
    versions = list(queries.latest_approved().defer("sheet").select_for_update(of=("self",)))
    packs = prices(today)
    for version, recipe in zip(versions, queries.recipes_data(versions).values(), strict=True):
        write_figures(version, figures_of(recipe, packs), today)
    Version.objects.bulk_update(versions, FIGURES, batch_size=200)
    return len(versions)


@transaction.atomic
def withdraw(*, version: Version, by: User) -> Version:
    """Take an approved version out of teaching. What was planned with it keeps its sheet."""
    version = _locked(version)
    _demand_state(version, Version.State.APPROVED, "withdrawn")
    version.state = Version.State.WITHDRAWN
    version.save(update_fields=["state"])
    return version


def _new_draft(recipe: RecipeData, by: User, made_from: Version | None) -> Version:
    row = _recipe_row(recipe)
    _demand_no_draft(row)
    last = row.versions.aggregate(last=Max("number"))["last"] or 0
    version = Version(recipe=row, number=last + 1, written_by=by, made_from=made_from)
    write_head(version, recipe)
    version.save()
    write_parts(version, editing.numbered(recipe))
    return version


def _recipe_row(recipe: RecipeData) -> Recipe:
    ordinary = None
    if recipe.variant_of is not None:
        ordinary = Recipe.objects.filter(code=recipe.variant_of).first()
        if ordinary is None:
            raise RuleBroken("no_such_recipe", f"There is no recipe {recipe.variant_of} to be a variant of.")
    row, _ = Recipe.objects.select_for_update().update_or_create(
        code=recipe.code,
        defaults={"title": recipe.title, "level": recipe.level, "variant_of": ordinary},
    )
    row.free_from.all().delete()
    RecipeFreeFrom.objects.bulk_create(RecipeFreeFrom(recipe=row, kind=kind) for kind in recipe.free_from)
    return row


def _change(version: Version, by: User, change: Change) -> Version:
    """Change a draft as a whole; whoever changes it last has written it."""
    version = _locked(version)
    _demand_state(version, Version.State.DRAFT, "changed")
    recipe = change(queries.recipe_data(version))
    _recipe_row(recipe)
    version.written_by, version.sent_at = by, None
    write_head(version, recipe)
    version.save()
    write_parts(version, recipe)
    return _version(version.pk)


def _version(pk: int) -> Version:
    return Version.objects.select_related("recipe").get(pk=pk)


def _locked(version: Version) -> Version:
    return Version.objects.select_for_update(of=("self",)).select_related("recipe").get(pk=version.pk)


def _demand_state(version: Version, state: str, deed: str) -> None:
    if version.state != state:
        wanted = Version.State(state).label
        now = Version.State(version.state).label
        raise RuleBroken(
            "wrong_state",
            f"Version {version.number} of {version.recipe.title} is {now}; only what is {wanted} "
            f"can be {deed}. To change it, revise it: that makes a new draft.",
            state=version.state,
        )


def _demand_ready(version: Version) -> None:
    stopping = checks.stopping(queries.recipe_data(version))
    if stopping:
        said = " ".join(finding.words for finding in stopping)
        raise RuleBroken("not_ready", f"This version cannot be checked yet. {said}", found=len(stopping))


def _demand_no_draft(recipe: Recipe) -> None:
    draft = recipe.versions.filter(state=Version.State.DRAFT).first()
    if draft is not None:
        raise RuleBroken(
            "has_a_draft",
            f"{recipe.title} has a draft already, version {draft.number}. Go on with that one.",
            number=draft.number,
        )


def _demand_second_person(version: Version, by: User, deed: str) -> None:
    if version.written_by_id == by.pk:
        raise RuleBroken(
            "second_person",
            f"You wrote version {version.number} of {version.recipe.title} yourself. "
            f"Somebody else has to {deed} it.",
        )
