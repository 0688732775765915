"""What is bought: how the stores keep a food, the plan of a week, orders and their lines."""

from django.conf import settings
from django.db import models
from django.db.models import F, Q

from curriculum.foods.models import Food, Pack, Supplier


class Keeping(models.Model):
    """How the stores keep a food: its par level, and how many days it lasts. Empty: nobody has said."""

    food = models.OneToOneField(Food, on_delete=models.PROTECT, related_name="keeping")
    par_milligrams = models.PositiveBigIntegerField(default=0)
    delivered_days = models.PositiveSmallIntegerField(null=True, blank=True)
    opened_days = models.PositiveSmallIntegerField(null=True, blank=True)
    thawed_days = models.PositiveSmallIntegerField(null=True, blank=True)
    source = models.CharField(max_length=200, blank=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now=True)

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=Q(delivered_days=None, opened_days=None, thawed_days=None) | ~Q(source=""),
                name="stores_days_of_keeping_have_a_source",
            )
        ]


class OrderRule(models.Model):
    """For how many weeks after its own an order may be filled up; without a row ``week.FILL_WEEKS``."""

    fill_weeks = models.PositiveSmallIntegerField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now=True)

    class Meta:
        constraints = [
            models.CheckConstraint(condition=Q(pk=1), name="stores_one_order_rule"),
        ]


class ClosedDay(models.Model):
    """A day on which the stores take nothing in, beside the days on which the college is closed."""

    on = models.DateField(unique=True)
    words = models.CharField(max_length=120)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["on"]


class WeekPlan(models.Model):
    """What was to be bought for a week, accepted by a person, with what it was computed from."""

    monday = models.DateField()
    number = models.PositiveIntegerField()
    inputs = models.JSONField()
    inputs_hash = models.CharField(max_length=64)
    answer = models.JSONField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["monday", "number"]
        constraints = [
            models.UniqueConstraint(fields=["monday", "number"], name="stores_week_plan_number_once")
        ]


class Order(models.Model):
    """An order to one supplier; sent by a person, never by the site."""

    class State(models.TextChoices):
        DRAFT = "draft", "draft"
        SENT = "sent", "sent"
        DELIVERED = "delivered", "delivered"
        CANCELLED = "cancelled", "cancelled"

    supplier = models.ForeignKey(Supplier, on_delete=models.PROTECT, related_name="orders")
    code = models.CharField(max_length=8, unique=True)
    #: The day on which the supplier delivers it.
    for_on = models.DateField()
    state = models.CharField(max_length=10, choices=State.choices, default=State.DRAFT)
    #: The week that it was drawn up for; none for an order written by hand.
    plan = models.ForeignKey(WeekPlan, null=True, blank=True, on_delete=models.PROTECT, related_name="orders")
    #: The order that was sent before, and to which this one is added.
    supplements = models.ForeignKey(
        "self", null=True, blank=True, on_delete=models.PROTECT, related_name="supplements_to"
    )
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)
    sent_at = models.DateTimeField(null=True, blank=True)
    sent_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="+"
    )
    #: What was agreed with the supplier about an order that is late or below its least order.
    agreed = models.CharField(max_length=200, blank=True)
    ended_at = models.DateTimeField(null=True, blank=True)
    ended_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="+"
    )
    cancelled_why = models.CharField(max_length=200, blank=True)

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=Q(state="draft", sent_at=None, sent_by=None)
                | Q(state__in=["sent", "delivered"], sent_at__isnull=False, sent_by__isnull=False)
                | Q(state="cancelled"),
                name="stores_sent_order_says_by_whom",
            )
        ]


class OrderLine(models.Model):
    """Whole packs of an order, at the price of the day on which it was written."""

    order = models.ForeignKey(Order, on_delete=models.CASCADE, related_name="lines")
    pack = models.ForeignKey(Pack, on_delete=models.PROTECT, related_name="+")
    count = models.PositiveIntegerField()
    #: What was proposed; another count is a person's.
    proposed = models.PositiveIntegerField(null=True, blank=True)
    pence_a_pack = models.PositiveIntegerField(default=0)
    #: How many of the packs only fill up the least order, and the Mondays of the weeks that use them.
    fill_packs = models.PositiveIntegerField(default=0)
    fills_from = models.DateField(null=True, blank=True)
    fills_until = models.DateField(null=True, blank=True)

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=Q(fill_packs=0)
                | Q(fill_packs__lte=F("count"), fills_from__isnull=False, fills_until__gte=F("fills_from")),
                name="stores_packs_that_fill_up_say_for_when",
            ),
            models.CheckConstraint(condition=Q(count__gt=0), name="stores_order_line_asks_something"),
            models.UniqueConstraint(fields=["order", "pack"], name="stores_order_line_once_a_pack"),
        ]
