"""Making people, granting roles, forming groups."""

from collections.abc import Iterable
from datetime import date

from django.db import transaction

from curriculum.people.entries import LearnerEntry, StaffEntry
from curriculum.people.models import Adjustment, College, Group, Membership, RoleGrant, Student, User
from curriculum.people.roles import STUDENT


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


@transaction.atomic
def set_up_college(*, by: User | None, **values: object) -> College:
    """Write down the one college; ``by`` is None at the very first start, when nobody is there yet."""
    college = College(**values)
    college.full_clean()
    college.save(force_insert=True)
    return college


@transaction.atomic
def open_accounts(
    *, entries: Iterable[StaffEntry], password_hash: str, from_on: date, by: User | None
) -> list[User]:
    """Open accounts of staff with their roles; ``password_hash`` is a made hash that they share at first."""
    entries = list(entries)
    users = User.objects.bulk_create(
        User(username=entry.username, name=entry.name, password=password_hash) for entry in entries
    )
    RoleGrant.objects.bulk_create(
        RoleGrant(user=user, role=role, from_on=from_on)
        for user, entry in zip(users, entries, strict=True)
        for role in entry.roles
    )
    return users


@transaction.atomic
def form_group(
    *, code: str, year: int, name: str, level: int, lecturer: User, budget_pence_a_learner: int, by: User
) -> Group:
    """Form a group of one college year."""
    group = Group(
        code=code,
        year=year,
        name=name,
        level=level,
        lecturer=lecturer,
        budget_pence_a_learner=budget_pence_a_learner,
    )
    group.full_clean()
    group.save()
    return group


@transaction.atomic
def enrol_learners(
    *, entries: Iterable[LearnerEntry], password_hash: str, from_on: date, by: User
) -> list[Student]:
    """Open accounts of learners, each in a group, with what was agreed. KeyError for an unknown group."""
    entries = list(entries)
    groups = {group.code: group for group in Group.objects.all()}
    users = User.objects.bulk_create(_learner_account(entry, password_hash) for entry in entries)
    RoleGrant.objects.bulk_create(RoleGrant(user=user, role=STUDENT, from_on=from_on) for user in users)
    pairs = list(zip(users, entries, strict=True))
    students = Student.objects.bulk_create(_student(user, entry) for user, entry in pairs)
    Membership.objects.bulk_create(
        Membership(group=groups[entry.group], student=student, from_on=from_on)
        for student, entry in zip(students, entries, strict=True)
    )
    Adjustment.objects.bulk_create(
        Adjustment(
            student=student,
            kind=each.kind,
            percent=each.percent,
            words=each.words,
            from_on=from_on,
            agreed_by=by,
        )
        for student, entry in zip(students, entries, strict=True)
        for each in entry.adjustments
    )
    return students


def _learner_account(entry: LearnerEntry, password_hash: str) -> User:
    large = any(each.kind == "large_print" for each in entry.adjustments)
    return User(username=entry.username, name=entry.name, password=password_hash, large_print=large)


def _student(user: User, entry: LearnerEntry) -> Student:
    return Student(
        user=user,
        college_number=entry.college_number,
        born_on=entry.born_on,
        left_handed=entry.left_handed,
        photograph_allowed=entry.photograph_allowed,
        guardian_consent=entry.guardian_consent,
        emergency_note=entry.emergency_note,
        tasting_note=entry.tasting_note,
    )


@transaction.atomic
def keep_look(*, user: User, large_print: bool, dim_room: bool, name_to_print: str, by: User) -> User:
    """Keep how the site and its papers look for a person, with the account."""
    user.large_print, user.dim_room, user.name_to_print = large_print, dim_room, name_to_print
    user.save(update_fields=["large_print", "dim_room", "name_to_print"])
    return user
