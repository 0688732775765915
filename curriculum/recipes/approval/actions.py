"""A draft becomes a recipe that is taught: sent, checked by a second person, approved, withdrawn.

Whoever wrote a version never checks or approves it; whoever reads it may send it back with
words. Everything that became of a version is kept as its history (``Said``).
"""

from uuid import UUID

from django.db import transaction
from django.utils import timezone

from curriculum.errors import RuleBroken
from curriculum.foods.queries import prices
from curriculum.people.models import User
from curriculum.people.queries import the_college, today_at
from curriculum.recipes import checks, queries
from curriculum.recipes.figures import figures_of
from curriculum.recipes.managers import FIGURES, demand_no_draft, demand_state, locked, write_figures
from curriculum.recipes.models import Said, Version
from curriculum.recipes.sheets import sheet_hash, write_sheet
from curriculum.records.actions import once


@transaction.atomic
def send_for_check(*, version: Version, by: User, words: str = "") -> Version:
    """Say that a draft may be checked; a change takes it back. RuleBroken while something stops.

    A draft that was sent already keeps the moment at which it was first sent. ``words`` are for
    whoever checks it, such as what was changed.
    """
    version = locked(version)
    demand_state(version, Version.State.DRAFT, "sent for checking")
    _demand_ready(version)
    if version.sent_at is None:
        version.sent_at = timezone.now()
        version.save(update_fields=["sent_at"])
        _keep(version, by, Said.What.SENT, words)
    return version


@transaction.atomic
def send_back(*, version: Version, by: User, words: str, key: UUID | None = None) -> Version:
    """Give a version that was sent or checked back to its writer, with the reason.

    RuleBroken for the writer, without a reason, and when nobody has sent it.
    """

    def do() -> dict:
        _send_back(locked(version), by, words)
        return {}

    once(key=key, action="send_back", by=by, said={"version": version.pk, "words": words}, do=do)
    return locked(version)


@transaction.atomic
def check(*, version: Version, by: User) -> Version:
    """A second person has read the draft. RuleBroken for the writer, and while something stops."""
    version = locked(version)
    demand_state(version, Version.State.DRAFT, "checked")
    _demand_second_person(version, by, "check")
    _demand_ready(version)
    _demand_sent(version)
    version.state, version.checked_by = Version.State.CHECKED, by
    version.save(update_fields=["state", "checked_by"])
    _keep(version, by, Said.What.CHECKED)
    return version


@transaction.atomic
def back_to_draft(*, version: Version, by: User) -> Version:
    """Open a checked version again for writing; its check is taken back."""
    version = locked(version)
    demand_state(version, Version.State.CHECKED, "put back to draft")
    demand_no_draft(version.recipe)
    version.state, version.checked_by, version.sent_at = Version.State.DRAFT, None, None
    version.save(update_fields=["state", "checked_by", "sent_at"])
    _keep(version, by, Said.What.OPENED)
    return version


@transaction.atomic
def approve_to_teach(*, version: Version, by: User) -> Version:
    """Approve a checked version: it is frozen as its sheet. RuleBroken for the writer.

    It is looked over once more: a label may have been read since it was checked. RuleBroken
    while something stops.
    """
    version = locked(version)
    demand_state(version, Version.State.CHECKED, "approved")
    _demand_second_person(version, by, "approve")
    _demand_ready(version, "approved")
    recipe, today = queries.recipe_data(version), today_at(the_college())
    write_figures(version, figures_of(recipe, prices(today, [food.code for food in recipe.foods])), today)
    version.sheet = write_sheet(recipe)
    version.sheet_hash = sheet_hash(version.sheet)
    version.state, version.approved_at = Version.State.APPROVED, timezone.now()
    version.save(update_fields=["sheet", "sheet_hash", "state", "approved_at", *FIGURES])
    _keep(version, by, Said.What.APPROVED)
    return version


@transaction.atomic
def withdraw(*, version: Version, by: User, words: str = "", key: UUID | None = None) -> Version:
    """Take an approved version out of teaching. What was planned with it keeps its sheet."""

    def do() -> dict:
        gone = locked(version)
        demand_state(gone, Version.State.APPROVED, "withdrawn")
        gone.state = Version.State.WITHDRAWN
        gone.save(update_fields=["state"])
        _keep(gone, by, Said.What.WITHDRAWN, words)
        return {}

    once(key=key, action="withdraw", by=by, said={"version": version.pk, "words": words}, do=do)
    return locked(version)


def _send_back(version: Version, by: User, words: str) -> None:
    if not words.strip():
        raise RuleBroken("no_reason", "This is empty. Write what has to be changed.", field="words")
    if version.written_by_id == by.pk:
        raise RuleBroken(
            "second_person",
            f"You wrote version {version.number} of {version.recipe.title} yourself. Open it and change it.",
        )
    if version.state == Version.State.CHECKED:
        demand_no_draft(version.recipe)
    else:
        demand_state(version, Version.State.DRAFT, "sent back")
        _demand_sent(version)
    version.state, version.checked_by, version.sent_at = Version.State.DRAFT, None, None
    version.save(update_fields=["state", "checked_by", "sent_at"])
    _keep(version, by, Said.What.SENT_BACK, words)


def _keep(version: Version, by: User, what: str, words: str = "") -> None:
    Said.objects.create(version=version, by=by, what=what, words=words.strip())


def _demand_ready(version: Version, deed: str = "checked") -> None:
    stopping = checks.stopping(queries.recipe_data(version))
    if stopping:
        said = " ".join(finding.words for finding in stopping)
        raise RuleBroken("not_ready", f"This version cannot be {deed} yet. {said}", found=len(stopping))


def _demand_sent(version: Version) -> None:
    if version.sent_at is None:
        raise RuleBroken(
            "not_sent",
            f"Version {version.number} of {version.recipe.title} has not been sent for checking, or was "
            f"changed since. {version.written_by.name} sends it from its writing page.",
        )


def _demand_second_person(version: Version, by: User, deed: str) -> None:
    if version.written_by_id == by.pk:
        raise RuleBroken(
            "second_person",
            f"You wrote version {version.number} of {version.recipe.title} yourself. "
            f"Somebody else has to {deed} it.",
        )
