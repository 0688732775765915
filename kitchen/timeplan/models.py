"""Accepted time plans and demonstration plans, and what happened on the day."""

from django.conf import settings
from django.db import models
from django.db.models import F, Q

from curriculum.ledgers import LedgerRow
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


class DayEvent(LedgerRow):
    """What really happened, in the order of its number."""

    lesson = models.ForeignKey(Lesson, on_delete=models.PROTECT, related_name="day_events")
    number = models.PositiveIntegerField()
    key = models.UUIDField(unique=True)
    plan = models.ForeignKey(TimePlan, on_delete=models.PROTECT, related_name="day_events")
    place = models.ForeignKey(Place, null=True, blank=True, on_delete=models.PROTECT, related_name="+")
    appliance = models.ForeignKey(
        Appliance, null=True, blank=True, on_delete=models.PROTECT, related_name="+"
    )
    step = models.PositiveSmallIntegerField(null=True, blank=True)
    what = models.CharField(max_length=12)
    undoes = models.OneToOneField(
        "self", null=True, blank=True, on_delete=models.PROTECT, related_name="undone_by"
    )
    device_at = models.DateTimeField(null=True, blank=True)
    at = models.DateTimeField(auto_now_add=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")

    class Meta:
        constraints = [models.UniqueConstraint(fields=["lesson", "number"], name="timeplan_event_in_order")]
