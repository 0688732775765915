"""Accepted time plans and demonstration plans, and what happened on the day."""

from django.conf import settings
from django.db import models
from django.db.models import F, Q

from curriculum.ledgers import LedgerRow
from curriculum.techniques.models import Technique
from kitchen.lessons.models import Lesson, Place
from kitchen.rooms.models import Appliance


class PlanState(models.TextChoices):
    """A later accepted plan supersedes the one before."""

    ACCEPTED = "accepted", "accepted"
    SUPERSEDED = "superseded", "superseded"


class TimePlan(models.Model):
    """A time plan that a person accepted, with what it was computed from."""

    lesson = models.ForeignKey(Lesson, on_delete=models.PROTECT, related_name="time_plans")
    number = models.PositiveIntegerField()
    state = models.CharField(max_length=10, choices=PlanState.choices, default=PlanState.ACCEPTED)
    inputs = models.JSONField()
    inputs_hash = models.CharField(max_length=64)
    answer = models.JSONField()
    status = models.CharField(max_length=20)
    fits = models.BooleanField()
    finish_minutes = models.PositiveIntegerField()
    bound_minutes = models.PositiveIntegerField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["lesson", "number"], name="timeplan_number_once"),
            models.UniqueConstraint(
                fields=["lesson"], condition=Q(state="accepted"), name="timeplan_one_accepted_a_lesson"
            ),
            models.CheckConstraint(
                condition=Q(bound_minutes__lte=F("finish_minutes")), name="timeplan_bound_is_not_above_finish"
            ),
        ]


class DemonstrationPlan(models.Model):
    """A demonstration plan that a person accepted: stages, trays, batches to make ahead."""

    lesson = models.ForeignKey(Lesson, on_delete=models.PROTECT, related_name="demonstration_plans")
    number = models.PositiveIntegerField()
    state = models.CharField(max_length=10, choices=PlanState.choices, default=PlanState.ACCEPTED)
    slot_minutes = models.PositiveSmallIntegerField()
    inputs = models.JSONField()
    inputs_hash = models.CharField(max_length=64)
    answer = models.JSONField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["lesson", "number"], name="timeplan_demonstration_number_once"),
            models.UniqueConstraint(
                fields=["lesson"], condition=Q(state="accepted"), name="timeplan_one_demonstration_a_lesson"
            ),
        ]


class What(models.TextChoices):
    """What can happen on the day; ``later`` says how many minutes, ``undo`` which row it undoes."""

    BEGAN = "began", "the class began"
    STARTED = "started", "started"
    DONE = "done", "done"
    LATER = "later", "later"
    FAILED = "failed", "oven failed"
    AGAIN = "again", "starts again"
    ABSENT = "absent", "one learner fewer"
    UNDO = "undo", "undone"


class DayEvent(LedgerRow):
    """What really happened, in the order of its number.

    ``part`` counts the parts of a step (hands, then each stay) from 0. A row without a place
    and with a step is of the demonstration of that step. ``device_at`` is the moment of the
    tap where it was sent later; ``at`` the moment at which it was kept.
    """

    lesson = models.ForeignKey(Lesson, on_delete=models.PROTECT, related_name="day_events")
    number = models.PositiveIntegerField()
    key = models.UUIDField(unique=True)
    plan = models.ForeignKey(TimePlan, on_delete=models.PROTECT, related_name="day_events")
    place = models.ForeignKey(Place, null=True, blank=True, on_delete=models.PROTECT, related_name="+")
    appliance = models.ForeignKey(
        Appliance, null=True, blank=True, on_delete=models.PROTECT, related_name="+"
    )
    step = models.PositiveSmallIntegerField(null=True, blank=True)
    part = models.PositiveSmallIntegerField(null=True, blank=True)
    what = models.CharField(max_length=12)
    minutes = models.PositiveSmallIntegerField(null=True, blank=True)
    undoes = models.OneToOneField(
        "self", null=True, blank=True, on_delete=models.PROTECT, related_name="undone_by"
    )
    device_at = models.DateTimeField(null=True, blank=True)
    at = models.DateTimeField(auto_now_add=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["lesson", "number"], name="timeplan_event_in_order"),
            models.CheckConstraint(
                condition=~Q(what="later") | Q(minutes__gt=0), name="timeplan_later_says_how_long"
            ),
            models.CheckConstraint(
                condition=Q(what="undo", undoes__isnull=False) | (~Q(what="undo") & Q(undoes__isnull=True)),
                name="timeplan_undo_says_what",
            ),
        ]


class LearnedMinutes(models.Model):
    """What the days that were run teach, accepted by a person: real minutes over the recipe's.

    For one technique at one level; ``count`` is how many timed steps of how many ``lessons``
    (their codes) the median is of. ``timings`` holds each of them, per mille of the recipe's
    minutes, by the code of its lesson.
    """

    technique = models.ForeignKey(Technique, on_delete=models.PROTECT, related_name="learned_minutes")
    level = models.CharField(max_length=12)
    pace_per_mille = models.PositiveIntegerField()
    count = models.PositiveIntegerField()
    lessons = models.JSONField()
    timings = models.JSONField(default=dict)
    state = models.CharField(max_length=10, choices=PlanState.choices, default=PlanState.ACCEPTED)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["technique", "level"],
                condition=Q(state="accepted"),
                name="timeplan_one_pace_a_technique_and_level",
            ),
            models.CheckConstraint(
                condition=Q(pace_per_mille__gt=0, count__gt=0), name="timeplan_pace_is_of_something"
            ),
        ]
