"""Who may see groups and learners, and whose diets.

What a learner avoids is health data: stores and technician read it for their kits, and a
lecturer for the groups they lead and the lessons they teach or cover. The programme
manager sees groups and adjustments, not diets. The lecturer of the group writes.
"""

from django.core.exceptions import PermissionDenied
from django.db.models import Q
from django.http import Http404

from curriculum.foods.models import Avoidance
from curriculum.people.access import demand_role, group_for, roles_of, student_for
from curriculum.people.models import Adjustment, Group, Student, User
from curriculum.people.roles import KITCHEN_HANDS, LECTURER, MANAGER
from kitchen.lessons.models import Lesson


def demand_group_reader(by: User) -> frozenset[str]:
    """The roles of somebody who works with groups; 403 for everybody else."""
    return demand_role(by, LECTURER, MANAGER, *KITCHEN_HANDS)


def group_to_read(by: User, code: str) -> Group:
    """A group, for whoever works with groups."""
    demand_group_reader(by)
    return group_for(by, code)


def may_read_diets_of(by: User, group: Group) -> bool:
    """Whether the person's work needs to know what this group's learners avoid."""
    held = roles_of(by)
    if held & KITCHEN_HANDS:
        return True
    return LECTURER in held and (group.lecturer_id == by.pk or _teaches(by, [group.pk]))


def _teaches(by: User, groups: list[int]) -> bool:
    lessons = Lesson.objects.filter(Q(lecturer=by) | Q(cover=by), group__in=groups)
    return lessons.exclude(state=Lesson.State.CANCELLED).exists()


def _groups_now(student: Student) -> list[int]:
    """The groups that a learner is in; one that they left gives its lecturers nothing to read."""
    return list(student.memberships.filter(until_on=None).values_list("group", flat=True))


def learner_to_read(by: User, number: str) -> Student:
    """A learner, for the manager and for lecturers of their groups; another lecturer's learner is 404."""
    student = student_for(by, number)
    if MANAGER in roles_of(by) or leads(by, student):
        return student
    if _teaches(by, _groups_now(student)):
        return student
    raise Http404("Not this person's learner.")


def leads(by: User, student: Student) -> bool:
    """Whether the person leads a group that the learner is in."""
    in_group = student.memberships.filter(group__lecturer=by, until_on=None)
    return LECTURER in roles_of(by) and in_group.exists()


def may_read_diet_of(by: User, student: Student) -> bool:
    """Whether the page of this learner shows what they avoid."""
    return LECTURER in roles_of(by) and (leads(by, student) or _teaches(by, _groups_now(student)))


def learner_to_write(by: User, number: str) -> Student:
    """A learner whose group the person leads; 403 for whoever may only read."""
    student = learner_to_read(by, number)
    if not leads(by, student):
        raise PermissionDenied
    return student


def avoidance_of(student: Student, row: int) -> Avoidance:
    """One thing that this learner avoids, or 404."""
    found = Avoidance.objects.filter(student=student, pk=row).first()
    if found is None:
        raise Http404("Nothing of that kind.")
    return found


def adjustment_of(student: Student, row: int) -> Adjustment:
    """One adjustment of this learner, or 404."""
    found = Adjustment.objects.filter(student=student, pk=row).first()
    if found is None:
        raise Http404("No such adjustment.")
    return found


def opens_learners(by: User, group: Group) -> bool:
    """Whether the names of a group lead to the learners' own pages."""
    held = roles_of(by)
    return MANAGER in held or (LECTURER in held and may_read_diets_of(by, group))
