"""Orders of work that learners write for themselves, and whether a lesson's are assessed."""

from django.conf import settings
from django.db import models
from django.db.models import Q

from curriculum.people.models import Student
from curriculum.recipes.models import Version
from kitchen.lessons.models import Lesson


class OwnOrder(models.Model):
    """A learner's own order of work for a lesson, one row for each time it is handed in.

    It belongs to the learner and the lesson, since benches may be given out again; ``version``
    is the recipe it was written for. ``saved`` counts how often it was kept, on from order to
    order, so that two devices know of one another. A row that is handed in never changes;
    opened again, it is followed by the next ``number`` with the reason and who opened it.
    """

    class State(models.TextChoices):
        DRAFT = "draft", "being written"
        HANDED_IN = "handed_in", "handed in"

    lesson = models.ForeignKey(Lesson, on_delete=models.PROTECT, related_name="own_orders")
    student = models.ForeignKey(Student, on_delete=models.PROTECT, related_name="own_orders")
    version = models.ForeignKey(Version, on_delete=models.PROTECT, related_name="own_orders")
    number = models.PositiveSmallIntegerField()
    state = models.CharField(max_length=10, choices=State.choices, default=State.DRAFT)
    lines = models.JSONField()
    saved = models.PositiveIntegerField()
    saved_at = models.DateTimeField()
    handed_in_at = models.DateTimeField(null=True, blank=True)
    opened_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="+"
    )
    opened_at = models.DateTimeField(null=True, blank=True)
    opened_why = models.CharField(max_length=300, blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["lesson", "student", "number"], name="timeplan_own_order_number_once"
            ),
            models.UniqueConstraint(
                fields=["lesson", "student"], condition=Q(state="draft"), name="timeplan_one_own_draft"
            ),
            models.CheckConstraint(
                condition=Q(state="draft", handed_in_at__isnull=True)
                | Q(state="handed_in", handed_in_at__isnull=False),
                name="timeplan_own_order_handed_in_says_when",
            ),
            models.CheckConstraint(
                condition=Q(number=1, opened_by__isnull=True, opened_at__isnull=True, opened_why="")
                | (Q(number__gt=1, opened_by__isnull=False, opened_at__isnull=False) & ~Q(opened_why="")),
                name="timeplan_own_order_opened_says_why",
            ),
        ]

    @property
    def is_handed_in(self) -> bool:
        """Whether it was handed in and stands."""
        return self.state == self.State.HANDED_IN


class OwnOrderSetting(models.Model):
    """What a lecturer said about a lesson: whether learners' own orders of work are assessed.

    Without a row they are assessed where the lesson is.
    """

    lesson = models.OneToOneField(Lesson, on_delete=models.PROTECT, related_name="own_order_setting")
    own_order_assessed = models.BooleanField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now=True)
