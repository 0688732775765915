"""What was asked twice is done once; long work; who read health data."""

from django.conf import settings
from django.db import models
from django.db.models import Q

from curriculum.ledgers import LedgerRow


class Receipt(LedgerRow):
    """This request was already done, and this was the answer."""

    key = models.UUIDField(unique=True)
    action = models.CharField(max_length=60)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    fingerprint = models.CharField(max_length=64)
    answer = models.JSONField(default=dict)
    at = models.DateTimeField(auto_now_add=True)


class HealthRead(LedgerRow):
    """Somebody read another person's health data: one row a page and day."""

    reader = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    student = models.ForeignKey("curriculum.Student", on_delete=models.PROTECT, related_name="+")
    page = models.CharField(max_length=60)
    day = models.DateField()
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["reader", "student", "page", "day"], name="records_health_read_once_a_day"
            )
        ]


class Job(models.Model):
    """Long work outside the request: who asked, how far it is, what came out."""

    class State(models.TextChoices):
        WAITING = "waiting", "waiting"
        RUNNING = "running", "running"
        DONE = "done", "done"
        FAILED = "failed", "failed"
        STOPPED = "stopped", "stopped"

    key = models.UUIDField(unique=True)
    kind = models.CharField(max_length=40)
    inputs = models.JSONField(default=dict)
    state = models.CharField(max_length=10, choices=State.choices, default=State.WAITING)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    stop_asked = models.BooleanField(default=False)
    beat_at = models.DateTimeField(null=True, blank=True)
    lease_until = models.DateTimeField(null=True, blank=True)
    tries = models.PositiveSmallIntegerField(default=0)
    progress = models.JSONField(default=dict)
    answer = models.JSONField(default=dict)
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=~Q(state="running") | Q(lease_until__isnull=False),
                name="records_running_job_has_a_lease",
            )
        ]
