"""Feedback that was handed back, frozen, and the learner's own scores before it."""

from django.conf import settings
from django.db import models

from assessments.marking.models import Sitting
from assessments.schemes.models import Criterion
from curriculum.ledgers import LedgerRow


class Draft(models.Model):
    """Feedback being written; the learner cannot see it."""

    sitting = models.OneToOneField(Sitting, on_delete=models.CASCADE, related_name="draft")
    content = models.JSONField(default=dict)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now=True)


class HandedBack(LedgerRow):
    """What the learner was given: frozen words, marks and cues."""

    sitting = models.ForeignKey(Sitting, on_delete=models.PROTECT, related_name="handed_back")
    number = models.PositiveIntegerField()
    content = models.JSONField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["sitting", "number"], name="feedback_handed_back_in_order")
        ]


class SelfScore(LedgerRow):
    """What the learner gave themselves before the feedback was handed back."""

    sitting = models.ForeignKey(Sitting, on_delete=models.PROTECT, related_name="self_scores")
    criterion = models.ForeignKey(Criterion, on_delete=models.PROTECT, related_name="+")
    milli = models.BigIntegerField()
    key = models.UUIDField(unique=True)
    at = models.DateTimeField(auto_now_add=True)
