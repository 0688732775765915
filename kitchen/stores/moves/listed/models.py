"""The college's own reasons beside those that are shipped, and which of both nobody chooses any more."""

from django.conf import settings
from django.db import models


class Reason(models.Model):
    """One reason of a list. A row with the code of a shipped reason says when that was retired.

    Rows are never deleted: movements keep the code, and a retired reason must stay readable.
    """

    class Which(models.TextChoices):
        WASTE = "waste", "why food is thrown away"
        DIFFERENCE = "difference", "why a count differs"
        FOUND = "found", "how food comes to be there that the book lacks"
        MORE = "more", "why a bench gets more"
        RETURNED = "returned", "why food comes back"

    which = models.CharField(max_length=10, choices=Which.choices)
    code = models.CharField(max_length=30)
    words = models.CharField(max_length=60)
    retired_at = models.DateTimeField(null=True, blank=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["which", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["which", "code"], name="stores_reason_once"),
            models.CheckConstraint(condition=~models.Q(words=""), name="stores_reason_has_words"),
        ]
