"""Figures that lessons proposed and a person accepted or declined; allowances written by hand."""

from django.conf import settings
from django.db import models
from django.db.models import Q

from curriculum.foods.models import Food
from curriculum.recipes.models import Recipe
from curriculum.techniques.models import Technique


class KeptFigure(models.Model):
    """One decision about a figure: who took it, when, in which words, and on what it rests.

    ``amount`` is milligrams a bench for over-issue and per mille otherwise; ``before`` and
    ``before_source`` are what was in use. ``evidence`` holds the lessons or tests as the page
    showed them, ``mark`` their hash; an allowance written by hand has neither. ``food`` may be
    missing for an allowance of a technique.
    """

    class Kind(models.TextChoices):
        OVER_ISSUE = "over_issue", "over-issue"
        WASTAGE = "wastage", "wastage allowance"
        USABLE = "usable", "usable share"

    class State(models.TextChoices):
        ACCEPTED = "accepted", "accepted"
        DECLINED = "declined", "declined"
        SUPERSEDED = "superseded", "superseded"
        TAKEN_BACK = "taken_back", "taken back"

    kind = models.CharField(max_length=12, choices=Kind.choices)
    food = models.ForeignKey(Food, null=True, blank=True, on_delete=models.PROTECT, related_name="+")
    recipe = models.ForeignKey(Recipe, null=True, blank=True, on_delete=models.PROTECT, related_name="+")
    technique = models.ForeignKey(
        Technique, null=True, blank=True, on_delete=models.PROTECT, related_name="+"
    )
    amount = models.PositiveBigIntegerField()
    before = models.PositiveBigIntegerField(default=0)
    before_source = models.CharField(max_length=200, blank=True)
    #: Lessons, or tests for a usable share; none for an allowance written by hand.
    count = models.PositiveIntegerField(default=0)
    evidence = models.JSONField(default=list, blank=True)
    mark = models.CharField(max_length=16, blank=True)
    words = models.CharField(max_length=200, blank=True)
    state = models.CharField(max_length=10, choices=State.choices, default=State.ACCEPTED)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)
    ended_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="+"
    )
    ended_at = models.DateTimeField(null=True, blank=True)
    ended_words = models.CharField(max_length=200, blank=True)

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=Q(kind="over_issue", food__isnull=False, recipe__isnull=False, technique=None)
                | (Q(kind="wastage", recipe=None) & (Q(food__isnull=False) | Q(technique__isnull=False)))
                | Q(kind="usable", food__isnull=False, recipe=None, technique=None),
                name="stores_kept_figure_says_of_what",
            ),
            models.CheckConstraint(
                condition=Q(kind="over_issue")
                | Q(kind="wastage", amount__lte=1000)
                | Q(kind="usable", amount__gt=0, amount__lte=1000),
                name="stores_kept_share_is_a_share",
            ),
            models.CheckConstraint(
                condition=Q(state__in=["accepted", "declined"]) | Q(ended_at__isnull=False),
                name="stores_ended_figure_says_when",
            ),
            models.UniqueConstraint(
                fields=["food", "recipe"],
                condition=Q(state="accepted", kind="over_issue"),
                name="stores_one_over_issue_a_food_and_recipe",
            ),
            models.UniqueConstraint(
                fields=["food"],
                condition=Q(state="accepted", kind="usable"),
                name="stores_one_usable_share_a_food",
            ),
            models.UniqueConstraint(
                fields=["food", "technique"],
                condition=Q(state="accepted", kind="wastage", food__isnull=False, technique__isnull=False),
                name="stores_one_allowance_a_food_and_technique",
            ),
            models.UniqueConstraint(
                fields=["food"],
                condition=Q(state="accepted", kind="wastage", technique=None),
                name="stores_one_allowance_a_food",
            ),
            models.UniqueConstraint(
                fields=["technique"],
                condition=Q(state="accepted", kind="wastage", food=None),
                name="stores_one_allowance_a_technique",
            ),
        ]
