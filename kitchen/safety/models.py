"""Readings of temperatures, corrections, accidents and near misses."""

from django.conf import settings
from django.db import models

from curriculum.ledgers import LedgerRow
from kitchen.lessons.models import Lesson, Place
from kitchen.rooms.models import Appliance


class Reading(LedgerRow):
    """One temperature read, with the limit that ruled at that moment."""

    what = models.CharField(max_length=120)
    decicelsius = models.IntegerField()
    lesson = models.ForeignKey(
        Lesson, null=True, blank=True, on_delete=models.PROTECT, related_name="readings"
    )
    place = models.ForeignKey(Place, null=True, blank=True, on_delete=models.PROTECT, related_name="readings")
    appliance = models.ForeignKey(
        Appliance, null=True, blank=True, on_delete=models.PROTECT, related_name="readings"
    )
    limit = models.JSONField(default=dict)
    verdict = models.CharField(max_length=20)
    key = models.UUIDField(unique=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)


class Correction(LedgerRow):
    """What was done about a reading."""

    reading = models.ForeignKey(Reading, on_delete=models.PROTECT, related_name="corrections")
    words = models.CharField(max_length=400)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)


class Incident(LedgerRow):
    """An accident or a near miss."""

    lesson = models.ForeignKey(Lesson, on_delete=models.PROTECT, related_name="incidents")
    place = models.ForeignKey(
        Place, null=True, blank=True, on_delete=models.PROTECT, related_name="incidents"
    )
    kind = models.CharField(max_length=20)
    facts = models.JSONField(default=dict)
    key = models.UUIDField(unique=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)
