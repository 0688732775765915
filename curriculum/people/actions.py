"""Making people, granting roles, forming groups."""

from datetime import date

from django.db import transaction

from curriculum.people.models import Adjustment, Group, Membership, RoleGrant, Student, User


@transaction.atomic
def grant_role(*, user: User, role: str, from_on: date) -> RoleGrant:
    """Give a person a role from a day on; granting it twice changes nothing."""
    grant, _ = RoleGrant.objects.get_or_create(
        user=user, role=role, until_on=None, defaults={"from_on": from_on}
    )
    return grant


@transaction.atomic
def end_role(*, user: User, role: str, until_on: date) -> None:
    """End a role on a day."""
    RoleGrant.objects.filter(user=user, role=role, until_on=None).update(until_on=until_on)


@transaction.atomic
def join_group(*, student: Student, group: Group, from_on: date) -> Membership:
    """A learner joins a group from a day on; joining twice changes nothing."""
    membership, _ = Membership.objects.get_or_create(
        student=student, group=group, until_on=None, defaults={"from_on": from_on}
    )
    return membership


@transaction.atomic
def agree_adjustment(
    *,
    student: Student,
    kind: str,
    from_on: date,
    by: User,
    percent: int | None = None,
    words: str = "",
) -> Adjustment:
    """Agree a reasonable adjustment with a learner."""
    adjustment = Adjustment(
        student=student, kind=kind, percent=percent, words=words, from_on=from_on, agreed_by=by
    )
    adjustment.full_clean()
    adjustment.save()
    return adjustment


@transaction.atomic
def end_adjustment(*, adjustment: Adjustment, until_on: date, by: User) -> Adjustment:
    """End an adjustment; the row stays."""
    adjustment.until_on = until_on
    adjustment.full_clean()
    adjustment.save(update_fields=["until_on"])
    return adjustment
