"""Deliveries, their checked lines, what the college itself demands, and for whom a substitute is accepted."""

from django.conf import settings
from django.db import models
from django.db.models import Q

from curriculum.foods.models import Food, Pack, Supplier
from kitchen.lessons.models import Lesson
from kitchen.safety.models import Reading
from kitchen.stores.models import Lot
from kitchen.stores.orders.models import Order, OrderLine


class DeliveryRule(models.Model):
    """The college's own demand on what arrives, by storage class; empty where it has none of its own."""

    storage = models.CharField(max_length=10, choices=Food.Storage.choices, unique=True)
    warmest_decicelsius = models.SmallIntegerField(null=True, blank=True)
    least_days_left = models.PositiveSmallIntegerField(null=True, blank=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now=True)


class Delivery(models.Model):
    """What a supplier brought; open until somebody says that the check is done."""

    code = models.CharField(max_length=8, unique=True)
    order = models.ForeignKey(
        Order, null=True, blank=True, on_delete=models.PROTECT, related_name="deliveries"
    )
    supplier = models.ForeignKey(Supplier, on_delete=models.PROTECT, related_name="deliveries")
    note_number = models.CharField(max_length=40, blank=True)
    on = models.DateField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)
    closed_at = models.DateTimeField(null=True, blank=True)
    closed_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="+"
    )

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["order"],
                condition=Q(closed_at=None, order__isnull=False),
                name="stores_one_open_delivery_an_order",
            )
        ]


class DeliveryLine(models.Model):
    """One line as it was checked; what waits for a decision keeps here what its lot will say."""

    class Verdict(models.TextChoices):
        TAKEN = "taken", "taken in"
        REJECTED = "rejected", "rejected"
        WAITING = "waiting", "waits for a decision"
        SENT_BACK = "sent_back", "sent back"

    delivery = models.ForeignKey(Delivery, on_delete=models.CASCADE, related_name="lines")
    number = models.PositiveIntegerField()
    order_line = models.ForeignKey(
        OrderLine, null=True, blank=True, on_delete=models.PROTECT, related_name="delivered"
    )
    pack = models.ForeignKey(Pack, null=True, blank=True, on_delete=models.PROTECT, related_name="+")
    food = models.ForeignKey(Food, on_delete=models.PROTECT, related_name="+")
    count = models.PositiveIntegerField(default=1)
    milligrams = models.PositiveBigIntegerField()
    reading = models.OneToOneField(Reading, null=True, blank=True, on_delete=models.PROTECT, related_name="+")
    verdict = models.CharField(max_length=20, choices=Verdict.choices)
    why = models.CharField(max_length=300, blank=True)
    batch = models.CharField(max_length=40, blank=True)
    date_kind = models.CharField(max_length=12, choices=Lot.DateKind.choices)
    date = models.DateField(null=True, blank=True)
    #: What was short about its date when it was checked, and why it was taken in all the same.
    short_date = models.TextField(blank=True)
    short_date_why = models.CharField(max_length=200, blank=True)
    label_allergens = models.JSONField(default=list, blank=True)
    label_may_contain = models.JSONField(default=list, blank=True)
    label_read_on = models.DateField(null=True, blank=True)
    label_read_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="+"
    )
    #: What its lot is to be called; empty: a code of our own is drawn.
    lot_code = models.CharField(max_length=20, blank=True)
    reserved_free_from = models.BooleanField(default=False)
    lot = models.OneToOneField(
        Lot, null=True, blank=True, on_delete=models.PROTECT, related_name="delivery_line"
    )
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)
    decided_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="+"
    )
    decided_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["delivery", "number"]
        constraints = [
            models.UniqueConstraint(fields=["delivery", "number"], name="stores_delivery_line_in_order"),
            models.CheckConstraint(
                condition=Q(verdict="taken", lot__isnull=False) | (~Q(verdict="taken") & Q(lot=None)),
                name="stores_taken_line_has_its_lot",
            ),
            models.CheckConstraint(
                condition=Q(verdict="rejected") | Q(count__gt=0, milligrams__gt=0),
                name="stores_delivery_line_brings_something",
            ),
            models.CheckConstraint(
                condition=Q(short_date="") | ~Q(short_date_why=""),
                name="stores_short_date_has_its_reason",
            ),
        ]


class AcceptedFor(models.Model):
    """A substitute whose label names more was accepted for this lesson, by a person."""

    lot = models.ForeignKey(Lot, on_delete=models.PROTECT, related_name="accepted_for")
    lesson = models.ForeignKey(Lesson, on_delete=models.PROTECT, related_name="+")
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["lot", "lesson"], name="stores_substitute_accepted_once")
        ]
