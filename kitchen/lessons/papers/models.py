"""The ledger of prints: what was printed for a lesson, of which set or plan, by whom."""

from django.conf import settings
from django.db import models

from curriculum.ledgers import LedgerRow
from kitchen.lessons.models import Lesson


class Print(LedgerRow):
    """One print of one paper of a lesson; the file itself is not kept.

    ``of_number`` and ``of_at`` are those of the kit set, requisition or plan that it is of (0 and
    none where a paper is of the recipe alone). ``parts`` says what stood on each part, facet by
    facet, as hashes: {"3": {"weights": "…", "names": "…"}}; a sheet that has no parts has one
    named "". ``code`` stands on the paper.
    """

    class Paper(models.TextChoices):
        LABELS = "labels", "kit labels"
        ISSUE_SHEET = "issue_sheet", "issue sheet"
        REQUISITION = "requisition", "requisition sheet"
        RECIPES = "recipes", "recipe sheets"
        LECTURER = "lecturer", "lecturer's time plan"
        STRIPS = "strips", "strips of the benches"
        WALL = "wall", "plan for the wall"

    lesson = models.ForeignKey(Lesson, on_delete=models.PROTECT, related_name="prints")
    code = models.CharField(max_length=8, unique=True)
    paper = models.CharField(max_length=14, choices=Paper.choices)
    of_number = models.PositiveIntegerField(default=0)
    of_at = models.DateTimeField(null=True, blank=True)
    parts = models.JSONField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["lesson", "pk"]
        indexes = [models.Index(fields=["lesson", "paper"])]
