"""Marking schemes, their versions, and the brief that ties one to a lesson's dish."""

from django.conf import settings
from django.db import models
from django.db.models import F, Q

from curriculum.recipes.models import Version
from kitchen.lessons.models import Lesson


class Scheme(models.Model):
    """A marking scheme of the college."""

    code = models.SlugField(max_length=40, unique=True)
    name = models.CharField(max_length=160)

    def __str__(self) -> str:
        return self.name


class SchemeVersion(models.Model):
    """One version; ``content`` (shape 1) is the whole scheme and never changes once in use."""

    class State(models.TextChoices):
        DRAFT = "draft", "draft"
        APPROVED = "approved", "approved"
        WITHDRAWN = "withdrawn", "withdrawn"

    scheme = models.ForeignKey(Scheme, on_delete=models.PROTECT, related_name="versions")
    number = models.PositiveIntegerField()
    state = models.CharField(max_length=10, choices=State.choices, default=State.DRAFT)
    content = models.JSONField()
    content_hash = models.CharField(max_length=64)
    written_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["scheme", "number"], name="schemes_version_number_once")
        ]


class Criterion(models.Model):
    """One criterion of a version, as a row that marks can point to."""

    version = models.ForeignKey(SchemeVersion, on_delete=models.CASCADE, related_name="criteria")
    position = models.PositiveSmallIntegerField()
    code = models.CharField(max_length=60)
    name = models.CharField(max_length=160)
    kind = models.CharField(max_length=30)
    milli_points = models.PositiveIntegerField(null=True, blank=True)

    class Meta:
        ordering = ["position"]
        constraints = [
            models.UniqueConstraint(fields=["version", "code"], name="schemes_criterion_code_once")
        ]


class Brief(models.Model):
    """The assessment brief of a lesson's dish; marking waits until another person checked it.

    ``techniques`` are the codes marked one by one under "technical skill"; ``targets`` are
    what measured criteria aim at, copied from the dish.
    """

    lesson = models.ForeignKey(Lesson, on_delete=models.PROTECT, related_name="briefs")
    version = models.ForeignKey(Version, on_delete=models.PROTECT, related_name="briefs")
    scheme_version = models.ForeignKey(SchemeVersion, on_delete=models.PROTECT, related_name="briefs")
    techniques = models.JSONField(default=list, blank=True)
    targets = models.JSONField(default=dict, blank=True)
    minutes = models.PositiveSmallIntegerField()
    written_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    checked_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="+"
    )
    checked_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["lesson", "version"], name="schemes_one_brief_a_dish"),
            models.CheckConstraint(
                condition=Q(checked_by=None) | ~Q(checked_by=F("written_by")),
                name="schemes_brief_checked_by_another",
            ),
        ]
