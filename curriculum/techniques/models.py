"""Techniques, what each needs first, and the faults by which it fails."""

from django.db import models
from django.db.models import F, Q


class Level(models.TextChoices):
    """How far along a course a technique stands."""

    FOUNDATION = "foundation", "foundation"
    INTERMEDIATE = "intermediate", "intermediate"
    ADVANCED = "advanced", "advanced"


class Technique(models.Model):
    """One technique with the cue by which success is seen."""

    code = models.SlugField(max_length=40, unique=True)
    name = models.CharField(max_length=120)
    level = models.CharField(max_length=12, choices=Level.choices)
    cue = models.CharField(max_length=400)
    supervised = models.BooleanField(default=False)
    least_age = models.PositiveSmallIntegerField(null=True, blank=True)
    source = models.CharField(max_length=200, blank=True)
    outside_dishes = models.BooleanField(default=False)
    retired_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["name"]

    def __str__(self) -> str:
        return self.name


class Prerequisite(models.Model):
    """The technique needs another one first."""

    technique = models.ForeignKey(Technique, on_delete=models.CASCADE, related_name="prerequisites")
    needs = models.ForeignKey(Technique, on_delete=models.PROTECT, related_name="unlocks")

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["technique", "needs"], name="techniques_needs_once"),
            models.CheckConstraint(
                condition=~Q(technique=F("needs")), name="techniques_does_not_need_itself"
            ),
        ]


class Fault(models.Model):
    """A fault that is seen, why it happens, and the one remedy."""

    technique = models.ForeignKey(Technique, on_delete=models.CASCADE, related_name="faults")
    code = models.SlugField(max_length=60, unique=True)
    seen = models.CharField(max_length=300)
    cause = models.CharField(max_length=300)
    remedy = models.CharField(max_length=400)
    retired_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["code"]
