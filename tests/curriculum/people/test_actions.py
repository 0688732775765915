"""People are written down by the group: accounts with roles, learners with what was agreed."""

from datetime import date

import pytest
from django.contrib.auth.hashers import make_password
from django.core.exceptions import ValidationError

from curriculum.people.actions import enrol_learners, form_group, open_accounts, set_up_college
from curriculum.people.entries import AdjustmentEntry, LearnerEntry, StaffEntry
from curriculum.people.models import Adjustment, College, Group, Membership, RoleGrant, Student, User

TERM = date(2027, 1, 4)
HILDE = StaffEntry("hilde", "Hilde Rickmans", ("manager", "lecturer"))
IO = LearnerEntry(
    "io",
    "Io Fenn",
    "H27-001",
    "B1",
    born_on=date(2009, 6, 15),
    adjustments=(AdjustmentEntry("extra_time", 25), AdjustmentEntry("large_print")),
)


@pytest.fixture
def manager(db):
    """Who keeps people; an account opened by the action."""
    (user,) = open_accounts(
        entries=[HILDE], password_hash=make_password("quiet-kitchen"), from_on=TERM, by=None
    )
    return user


def group(manager):
    """The one group of these tests."""
    return form_group(
        code="B1",
        year=2027,
        name="Bakers",
        level=1,
        lecturer=manager,
        budget_pence_a_learner=3000,
        by=manager,
    )


def test_an_account_is_opened_with_its_roles_and_a_hash_made_before(manager):
    assert User.objects.get(username="hilde").check_password("quiet-kitchen")
    assert set(RoleGrant.objects.values_list("role", flat=True)) == {"manager", "lecturer"}


def test_a_learner_is_enrolled_in_a_group_with_what_was_agreed(manager):
    group(manager)
    (student,) = enrol_learners(entries=[IO], password_hash=make_password("x"), from_on=TERM, by=manager)
    assert Membership.objects.get().group.code == "B1"
    agreed = Adjustment.objects.order_by("kind")
    assert list(agreed.values_list("kind", "percent", "agreed_by__username")) == [
        ("extra_time", 25, "hilde"),
        ("large_print", None, "hilde"),
    ]
    assert student.user.large_print
    assert RoleGrant.objects.get(user=student.user).role == "student"


def test_a_learner_of_an_unknown_group_leaves_nobody_half_enrolled(manager):
    with pytest.raises(KeyError):
        enrol_learners(entries=[IO], password_hash="x", from_on=TERM, by=manager)
    assert not Student.objects.exists()
    assert User.objects.count() == 1


def test_a_class_is_enrolled_by_the_batch_and_not_one_by_one(manager, django_assert_max_num_queries):
    group(manager)
    many = [LearnerEntry(f"io-{number}", "Io Fenn", f"H27-{number}", "B1") for number in range(30)]
    with django_assert_max_num_queries(10):
        enrol_learners(entries=many, password_hash="x", from_on=TERM, by=manager)
    assert Student.objects.count() == 30


def test_a_name_of_nothing_is_never_made():
    with pytest.raises(ValueError, match="no name"):
        StaffEntry("nobody", "  ", ())
    with pytest.raises(ValueError, match="no name"):
        LearnerEntry("nobody", "", "H27-9", "B1")


def test_there_is_one_college_only(manager):
    set_up_college(by=None, name="Bakers' college", short_name="Bakers")
    with pytest.raises(ValidationError):
        set_up_college(by=manager, name="Another college", short_name="Another")
    assert College.objects.get().short_name == "Bakers"
    assert not Group.objects.exists()
