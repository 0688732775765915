"""What people said of a lot since it came in: that it was opened or thawed, and what its label says."""

from django.conf import settings
from django.db import models

from curriculum.ledgers import LedgerRow
from kitchen.stores.models import Lot


class Opening(LedgerRow):
    """A lot was opened or thawed on a day, or the row before it was undone.

    ``moves`` is how many movements the lot had when it was said: what went out since was of an
    opened lot, and the row stands then. ``Lot.opened_on`` and ``Lot.thawed_on`` copy the last row.
    """

    class Kind(models.TextChoices):
        OPENED = "opened", "opened"
        THAWED = "thawed", "thawed"

    lot = models.ForeignKey(Lot, on_delete=models.PROTECT, related_name="openings")
    number = models.PositiveIntegerField()
    kind = models.CharField(max_length=10, choices=Kind.choices)
    on = models.DateField()
    undone = models.BooleanField(default=False)
    why = models.CharField(max_length=150, blank=True)
    moves = models.PositiveIntegerField()
    key = models.UUIDField(unique=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["lot", "number"]
        constraints = [
            models.UniqueConstraint(fields=["lot", "number"], name="stores_opening_in_order"),
        ]


class LabelReading(LedgerRow):
    """Somebody read the label on this lot's own pack. ``same_as``: it says what that lot's label said.

    The lot carries a copy of the last reading; the rows before it say what was believed then.
    """

    lot = models.ForeignKey(Lot, on_delete=models.PROTECT, related_name="label_readings")
    number = models.PositiveIntegerField()
    contains = models.JSONField(default=list, blank=True)
    may_contain = models.JSONField(default=list, blank=True)
    same_as = models.ForeignKey(Lot, null=True, blank=True, on_delete=models.PROTECT, related_name="+")
    on = models.DateField()
    key = models.UUIDField(unique=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["lot", "number"]
        constraints = [
            models.UniqueConstraint(fields=["lot", "number"], name="stores_label_reading_in_order"),
        ]
