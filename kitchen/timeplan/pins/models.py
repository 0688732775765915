"""What a person fixed by hand in a lesson's time plan, until it is let go."""

from django.conf import settings
from django.db import models
from django.db.models import F, Q

from kitchen.lessons.models import Lesson
from kitchen.rooms.models import Appliance

#: What a start and an oven say nothing about.
NO_OTHER = {"other_bench": None, "other_step": None, "other_part": None}


class PinKind(models.TextChoices):
    """What of a part is fixed."""

    START = "start", "start"
    OVEN = "oven", "oven"
    ORDER = "order", "order"


class Pin(models.Model):
    """One thing fixed, of one part of a step at one bench (without a bench: of its demonstration).

    A bench is its number, so that it can be fixed before anybody is placed. ``minute`` counts
    from the start of the lesson. In an order this part has ended before the other one begins.
    """

    lesson = models.ForeignKey(Lesson, on_delete=models.PROTECT, related_name="pins")
    kind = models.CharField(max_length=5, choices=PinKind.choices)
    bench = models.PositiveSmallIntegerField(null=True, blank=True)
    step = models.PositiveSmallIntegerField()
    part = models.PositiveSmallIntegerField(default=0)
    minute = models.PositiveSmallIntegerField(null=True, blank=True)
    appliance = models.ForeignKey(
        Appliance, null=True, blank=True, on_delete=models.PROTECT, related_name="+"
    )
    other_bench = models.PositiveSmallIntegerField(null=True, blank=True)
    other_step = models.PositiveSmallIntegerField(null=True, blank=True)
    other_part = models.PositiveSmallIntegerField(null=True, blank=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=~Q(kind="start") | Q(minute__isnull=False, appliance=None, **NO_OTHER),
                name="timeplan_fixed_start_says_when_only",
            ),
            models.CheckConstraint(
                condition=~Q(kind="oven")
                | Q(appliance__isnull=False, bench__isnull=False, minute=None, **NO_OTHER),
                name="timeplan_fixed_oven_says_which_only",
            ),
            models.CheckConstraint(
                condition=~Q(kind="order")
                | Q(
                    bench__isnull=False,
                    other_bench__isnull=False,
                    other_step__isnull=False,
                    other_part__isnull=False,
                    minute=None,
                    appliance=None,
                ),
                name="timeplan_fixed_order_says_before_what_only",
            ),
            models.CheckConstraint(
                condition=(Q(bench=None) | Q(bench__gt=0))
                & (Q(other_bench=None) | Q(other_bench__gt=0))
                & Q(step__gt=0)
                & (Q(other_step=None) | Q(other_step__gt=0)),
                name="timeplan_fixed_benches_and_steps_count_from_one",
            ),
            models.CheckConstraint(
                condition=~Q(kind="order")
                | ~Q(bench=F("other_bench"), step=F("other_step"), part=F("other_part")),
                name="timeplan_no_part_is_fixed_before_itself",
            ),
            models.UniqueConstraint(
                fields=["lesson", "kind", "bench", "step", "part"],
                condition=Q(kind__in=["start", "oven"], bench__isnull=False),
                name="timeplan_fixed_once",
            ),
            models.UniqueConstraint(
                fields=["lesson", "step"],
                condition=Q(kind="start", bench__isnull=True),
                name="timeplan_demonstration_fixed_once",
            ),
            models.UniqueConstraint(
                fields=["lesson", "bench", "step", "part", "other_bench", "other_step", "other_part"],
                condition=Q(kind="order"),
                name="timeplan_order_fixed_once",
            ),
        ]
