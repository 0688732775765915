"""Sittings, mark sheets, and every mark as a row that is never changed."""

from django.conf import settings
from django.db import models
from django.db.models import Q

from assessments.schemes.models import Brief, Criterion
from curriculum.ledgers import LedgerRow
from curriculum.people.models import Student


class Sitting(models.Model):
    """One learner's attempt at one brief; its state is what locks it."""

    class State(models.TextChoices):
        OPEN = "open", "open"
        SUBMITTED = "submitted", "submitted"
        AGREED = "agreed", "agreed"
        CONFIRMED = "confirmed", "confirmed"

    brief = models.ForeignKey(Brief, on_delete=models.PROTECT, related_name="sittings")
    student = models.ForeignKey(Student, on_delete=models.PROTECT, related_name="sittings")
    code = models.CharField(max_length=8, unique=True)
    attempt = models.PositiveSmallIntegerField(default=1)
    of = models.ForeignKey("self", null=True, blank=True, on_delete=models.PROTECT, related_name="repeats")
    starts_at = models.DateTimeField(null=True, blank=True)
    minutes = models.PositiveSmallIntegerField()
    extra_per_mille = models.PositiveSmallIntegerField(default=0)
    state = models.CharField(max_length=10, choices=State.choices, default=State.OPEN)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["brief", "student", "attempt"], name="marking_attempt_once"),
            models.CheckConstraint(condition=Q(attempt__gte=1), name="marking_attempts_count_from_one"),
        ]


class Sheet(models.Model):
    """One marker's sheet of one sitting."""

    class Part(models.TextChoices):
        FIRST = "first", "first marker"
        SECOND = "second", "second marker"
        THIRD = "third", "third marker"
        AGREED = "agreed", "agreed"

    sitting = models.ForeignKey(Sitting, on_delete=models.PROTECT, related_name="sheets")
    part = models.CharField(max_length=8, choices=Part.choices)
    marker = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="sheets")
    submitted_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["sitting", "part"], name="marking_one_sheet_a_part"),
            models.UniqueConstraint(
                fields=["sitting", "marker"], condition=~Q(part="agreed"), name="marking_one_sheet_a_marker"
            ),
        ]


class MarkEntry(LedgerRow):
    """One mark as it was given; ``milli`` is thousandths of the criterion's unit, None = withdrawn.

    ``technique`` is the code under a criterion that is marked technique by technique.
    """

    sheet = models.ForeignKey(Sheet, on_delete=models.PROTECT, related_name="entries")
    criterion = models.ForeignKey(Criterion, on_delete=models.PROTECT, related_name="+")
    technique = models.CharField(max_length=40, blank=True)
    number = models.PositiveIntegerField()
    milli = models.BigIntegerField(null=True, blank=True)
    faults = models.JSONField(default=list, blank=True)
    based_on = models.PositiveIntegerField(default=0)
    supersedes = models.OneToOneField(
        "self", null=True, blank=True, on_delete=models.PROTECT, related_name="superseded_by"
    )
    key = models.UUIDField(unique=True)
    device_at = models.DateTimeField(null=True, blank=True)
    at = models.DateTimeField(auto_now_add=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["sheet", "criterion", "technique", "number"], name="marking_entries_in_order"
            ),
            models.UniqueConstraint(
                fields=["sheet", "criterion", "technique"],
                condition=Q(supersedes=None),
                name="marking_one_first_entry",
            ),
            models.CheckConstraint(
                condition=Q(number=1, supersedes=None) | (Q(number__gt=1) & Q(supersedes__isnull=False)),
                name="marking_later_entries_supersede",
            ),
        ]


class Remark(models.Model):
    """The only free text about a learner; it stands beside the ledger so that it can be erased."""

    entry = models.OneToOneField(MarkEntry, on_delete=models.PROTECT, related_name="remark")
    words = models.CharField(max_length=600, blank=True)
    erased_at = models.DateTimeField(null=True, blank=True)


class Photograph(models.Model):
    """A photograph of a plate; the file lies under its own hash and is served by a view only."""

    sheet = models.ForeignKey(Sheet, on_delete=models.PROTECT, related_name="photographs")
    key = models.UUIDField(unique=True)
    sha256 = models.CharField(max_length=64)
    bytes = models.PositiveIntegerField()
    width = models.PositiveIntegerField()
    height = models.PositiveIntegerField()
    at = models.DateTimeField(auto_now_add=True)
    erased_at = models.DateTimeField(null=True, blank=True)
