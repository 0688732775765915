"""That a kit goes although a label may contain what the kit is made without: who says so, and why."""

from django.conf import settings
from django.db import models

from curriculum.ledgers import LedgerRow
from kitchen.stores.models import Kit


class LetGo(LedgerRow):
    """One kit that goes all the same. ``what`` is what the labels said when it was decided."""

    kit = models.OneToOneField(Kit, on_delete=models.PROTECT, related_name="let_go")
    what = models.TextField()
    why = models.CharField(max_length=200)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [
            models.CheckConstraint(condition=~models.Q(why=""), name="stores_let_go_has_its_reason")
        ]
