"""Samples drawn by a seed, decisions about them, and confirmed results."""

from django.conf import settings
from django.db import models

from assessments.marking.models import Sitting
from curriculum.ledgers import LedgerRow


class Sample(models.Model):
    """A sample that can be drawn again from its seed and rule."""

    code = models.CharField(max_length=8, unique=True)
    seed = models.CharField(max_length=60)
    rule = models.JSONField(default=dict)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)


class SampleItem(models.Model):
    """One sitting of a sample, and why it is in it."""

    sample = models.ForeignKey(Sample, on_delete=models.CASCADE, related_name="items")
    sitting = models.ForeignKey(Sitting, on_delete=models.PROTECT, related_name="samples")
    why = models.CharField(max_length=80)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["sample", "sitting"], name="verification_sitting_once")
        ]


class Decision(LedgerRow):
    """What a verifier decided about one sitting."""

    item = models.ForeignKey(SampleItem, on_delete=models.PROTECT, related_name="decisions")
    number = models.PositiveIntegerField()
    verdict = models.CharField(max_length=20)
    reason = models.CharField(max_length=300)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["item", "number"], name="verification_decision_in_order")
        ]


class Result(LedgerRow):
    """A confirmed result with its arithmetic; a later change is a new number with a reason."""

    sitting = models.ForeignKey(Sitting, on_delete=models.PROTECT, related_name="results")
    number = models.PositiveIntegerField()
    milli_total = models.IntegerField(null=True, blank=True)
    band = models.CharField(max_length=40, blank=True)
    arithmetic = models.JSONField(default=list)
    confirmed_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    reason = models.CharField(max_length=300, blank=True)
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["sitting", "number"], name="verification_result_in_order")
        ]
