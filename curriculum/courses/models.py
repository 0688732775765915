"""Courses with units and outcomes, terms, and the planned lessons of a scheme of work."""

from django.db import models
from django.db.models import F, Q

from curriculum.people.models import Group
from curriculum.recipes.models import Recipe
from curriculum.techniques.models import Technique


class Course(models.Model):
    """A course that a group follows."""

    code = models.SlugField(max_length=40, unique=True)
    name = models.CharField(max_length=160)
    group = models.ForeignKey(Group, null=True, blank=True, on_delete=models.PROTECT, related_name="courses")


class Unit(models.Model):
    """A unit of a course."""

    course = models.ForeignKey(Course, on_delete=models.CASCADE, related_name="units")
    code = models.CharField(max_length=20)
    name = models.CharField(max_length=160)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["course", "code"], name="courses_unit_code_once")]


class Outcome(models.Model):
    """A learning outcome and the techniques that show it."""

    unit = models.ForeignKey(Unit, on_delete=models.CASCADE, related_name="outcomes")
    code = models.CharField(max_length=20)
    name = models.CharField(max_length=200)
    techniques = models.ManyToManyField(Technique, blank=True, related_name="outcomes")

    class Meta:
        constraints = [models.UniqueConstraint(fields=["unit", "code"], name="courses_outcome_code_once")]


class Term(models.Model):
    """A term of the college year."""

    name = models.CharField(max_length=60)
    from_on = models.DateField()
    until_on = models.DateField()

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=Q(until_on__gte=F("from_on")), name="courses_term_ends_after_it_starts"
            )
        ]


class Holiday(models.Model):
    """A day on which the college is closed."""

    on = models.DateField(unique=True)
    words = models.CharField(max_length=120, blank=True)


class PlannedLesson(models.Model):
    """One lesson of a scheme of work, before a room is booked."""

    class State(models.TextChoices):
        PROPOSED = "proposed", "proposed"
        ACCEPTED = "accepted", "accepted"

    course = models.ForeignKey(Course, on_delete=models.CASCADE, related_name="planned")
    week = models.PositiveSmallIntegerField()
    number = models.PositiveSmallIntegerField(default=1)
    on = models.DateField()
    kind = models.CharField(max_length=20)
    recipe = models.ForeignKey(Recipe, null=True, blank=True, on_delete=models.PROTECT, related_name="+")
    state = models.CharField(max_length=10, choices=State.choices, default=State.ACCEPTED)
    inputs = models.JSONField(default=dict, blank=True)
    note = models.CharField(max_length=300, blank=True)

    class Meta:
        ordering = ["week", "number"]
        constraints = [
            models.UniqueConstraint(
                fields=["course", "week", "number"],
                condition=Q(state="accepted"),
                name="courses_one_accepted_lesson_a_place",
            )
        ]
