"""Who may do what: every view asks here, or in the access file of its own topic.

Two refusals and no third: what is not yours or not there is 404, so that nobody
learns of it; what your role may not do at all is 403.
"""

from collections.abc import Iterable

from django.core.exceptions import PermissionDenied
from django.db.models import Q
from django.http import Http404

from curriculum.people.models import Group, RoleGrant, Student, User
from curriculum.people.queries import the_college, today_at
from curriculum.people.roles import LECTURER, MANAGER, NEEDS_DIETS, STAFF, STUDENT


def roles_of(user: User) -> frozenset[str]:
    """The roles that a person holds today. One query a request: kept on the user."""
    held = getattr(user, "_roles_held", None)
    if held is None:
        today = today_at(the_college())
        held = frozenset(
            RoleGrant.objects.filter(
                Q(until_on=None) | Q(until_on__gte=today), user=user, from_on__lte=today
            ).values_list("role", flat=True)
        )
        user._roles_held = held
    return held


def demand_role(user: User, *roles: str) -> frozenset[str]:
    """Refuse (403) whoever holds none of these roles; returns those held."""
    held = roles_of(user)
    if not held & set(roles):
        raise PermissionDenied
    return held


def demand_staff(user: User) -> frozenset[str]:
    """Refuse (403) whoever is not staff of the college."""
    return demand_role(user, *STAFF)


def student_of(user: User) -> Student:
    """The learner who this user is. 403 for everybody else."""
    demand_role(user, STUDENT)
    student = Student.objects.filter(user=user).select_related("user").first()
    if student is None:
        raise PermissionDenied
    return student


def group_for(user: User, code: str) -> Group:
    """A group that staff may look at. A student's groups are not pages of theirs."""
    demand_staff(user)
    group = Group.objects.filter(code=code).select_related("lecturer").order_by("-year").first()
    if group is None:
        raise Http404("No such group.")
    return group


def may_read_diets(held: Iterable[str]) -> bool:
    """Whether these roles need to know what learners avoid."""
    return bool(set(held) & NEEDS_DIETS)


def student_for(user: User, college_number: str) -> Student:
    """One learner, for lecturers and the programme manager."""
    demand_role(user, LECTURER, MANAGER)
    student = (
        Student.objects.filter(college_number=college_number, erased_at=None).select_related("user").first()
    )
    if student is None:
        raise Http404("No such learner.")
    return student
