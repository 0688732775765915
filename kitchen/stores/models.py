"""The stores: requisitions, lots, movements and kits; orders and deliveries have folders of their own."""

from django.conf import settings
from django.db import models
from django.db.models import Q

from curriculum.foods.models import Food, Supplier
from curriculum.ledgers import LedgerRow
from curriculum.recipes.models import Version
from kitchen.lessons.models import Lesson, Place


class Requisition(models.Model):
    """What a lesson asks of the stores, with what it was reckoned from (``inputs``, as kits keep it).

    ``amends`` is the one that was approved when this one was submitted.
    """

    class State(models.TextChoices):
        DRAFT = "draft", "draft"
        SUBMITTED = "submitted", "submitted"
        QUERIED = "queried", "queried"
        APPROVED = "approved", "approved"
        SUPERSEDED = "superseded", "superseded"
        WITHDRAWN = "withdrawn", "withdrawn"

    lesson = models.ForeignKey(Lesson, on_delete=models.PROTECT, related_name="requisitions")
    number = models.PositiveIntegerField()
    state = models.CharField(max_length=10, choices=State.choices, default=State.DRAFT)
    inputs = models.JSONField(default=dict, blank=True)
    query = models.CharField(max_length=300, blank=True)
    #: What the lecturer answered to the query, or why the requisition was withdrawn.
    reply = models.CharField(max_length=300, blank=True)
    amends = models.ForeignKey(
        "self", null=True, blank=True, on_delete=models.PROTECT, related_name="amended_by"
    )
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)
    submitted_at = models.DateTimeField(null=True, blank=True)
    approved_at = models.DateTimeField(null=True, blank=True)
    approved_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="+"
    )

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["lesson", "number"], name="stores_requisition_number_once"),
            models.UniqueConstraint(
                fields=["lesson"],
                condition=Q(state="approved"),
                name="stores_one_approved_requisition_a_lesson",
            ),
        ]


class RequisitionLine(models.Model):
    """One food of a requisition, and why it is asked for."""

    requisition = models.ForeignKey(Requisition, on_delete=models.CASCADE, related_name="lines")
    food = models.ForeignKey(Food, on_delete=models.PROTECT, related_name="+")
    milligrams = models.PositiveBigIntegerField()
    pieces = models.PositiveIntegerField(null=True, blank=True)
    why = models.CharField(max_length=40)

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["requisition", "food", "why"], name="stores_requisition_line_once"
            ),
            models.CheckConstraint(
                condition=Q(milligrams__gt=0), name="stores_requisition_line_asks_something"
            ),
        ]


class Lot(models.Model):
    """One batch in the stores. ``on_hand_milligrams`` and ``moves`` are kept by ledger.py alone."""

    class DateKind(models.TextChoices):
        USE_BY = "use_by", "use by"
        BEST_BEFORE = "best_before", "best before"
        NONE = "none", "no date"

    code = models.CharField(max_length=20, unique=True)
    food = models.ForeignKey(Food, on_delete=models.PROTECT, related_name="lots")
    supplier = models.ForeignKey(
        Supplier, null=True, blank=True, on_delete=models.PROTECT, related_name="lots"
    )
    batch = models.CharField(max_length=40, blank=True)
    received_on = models.DateField()
    date_kind = models.CharField(max_length=12, choices=DateKind.choices)
    date = models.DateField(null=True, blank=True)
    opened_on = models.DateField(null=True, blank=True)
    thawed_on = models.DateField(null=True, blank=True)
    reserved_free_from = models.BooleanField(default=False)
    label_allergens = models.JSONField(default=list, blank=True)
    label_may_contain = models.JSONField(default=list, blank=True)
    label_read_on = models.DateField(null=True, blank=True)
    label_read_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="+"
    )
    pence = models.PositiveIntegerField(default=0)
    #: A substitute whose label names more: it goes into the lessons it was accepted for, and no other.
    restricted = models.BooleanField(default=False)
    held = models.BooleanField(default=False)
    held_why = models.CharField(max_length=200, blank=True)
    made_in = models.ForeignKey(
        Lesson, null=True, blank=True, on_delete=models.PROTECT, related_name="made_lots"
    )
    #: A made lot (a pooled bowl): when it was made, when it is thrown away, where it stands.
    made_at = models.DateTimeField(null=True, blank=True)
    discard_at = models.DateTimeField(null=True, blank=True)
    kept_where = models.CharField(max_length=80, blank=True)
    note = models.CharField(max_length=200, blank=True)
    on_hand_milligrams = models.PositiveBigIntegerField(default=0)
    moves = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["date", "received_on", "code"]
        constraints = [
            models.CheckConstraint(
                condition=Q(on_hand_milligrams__gte=0), name="stores_lot_is_not_below_nothing"
            ),
            models.CheckConstraint(
                condition=Q(date_kind="none", date=None) | (~Q(date_kind="none") & Q(date__isnull=False)),
                name="stores_lot_has_the_date_it_says",
            ),
            models.CheckConstraint(
                condition=Q(made_in=None, made_at=None, discard_at=None)
                | Q(made_in__isnull=False, made_at__isnull=False, discard_at__gt=models.F("made_at")),
                name="stores_made_lot_has_its_times",
            ),
        ]


class KitSet(models.Model):
    """All kits of a lesson, accepted together with what they were computed from."""

    class State(models.TextChoices):
        ACCEPTED = "accepted", "accepted"
        SUPERSEDED = "superseded", "superseded"

    lesson = models.ForeignKey(Lesson, on_delete=models.PROTECT, related_name="kit_sets")
    number = models.PositiveIntegerField()
    state = models.CharField(max_length=10, choices=State.choices, default=State.ACCEPTED)
    inputs = models.JSONField()
    inputs_hash = models.CharField(max_length=64)
    shortages = models.JSONField(default=list, blank=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)
    issued_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["lesson", "number"], name="stores_kit_set_number_once"),
            models.UniqueConstraint(
                fields=["lesson"], condition=Q(state="accepted"), name="stores_one_kit_set_a_lesson"
            ),
        ]


class Kit(models.Model):
    """What one bench (or the demonstrator) is given on one tray."""

    class Kind(models.TextChoices):
        BENCH = "bench", "bench"
        DEMONSTRATION = "demonstration", "demonstration"
        STAGE_TRAY = "stage_tray", "stage tray"
        SPARE = "spare", "spare"
        AHEAD = "ahead", "prepared ahead"
        SUPPLEMENTARY = "supplementary", "supplementary"

    kit_set = models.ForeignKey(KitSet, on_delete=models.CASCADE, related_name="kits")
    code = models.CharField(max_length=8, unique=True)
    kind = models.CharField(max_length=14, choices=Kind.choices)
    position = models.PositiveSmallIntegerField(default=1)
    place = models.ForeignKey(Place, null=True, blank=True, on_delete=models.PROTECT, related_name="kits")
    part = models.PositiveSmallIntegerField(default=1)
    version = models.ForeignKey(Version, on_delete=models.PROTECT, related_name="kits")
    #: An "ahead" kit holds the paste of several benches.
    batches = models.PositiveSmallIntegerField(default=1)
    #: Why this kit may not leave ("no label read: desiccated coconut"); empty when nothing stops it.
    blocked_why = models.CharField(max_length=300, blank=True)

    class Meta:
        ordering = ["position", "id"]
        constraints = [
            models.UniqueConstraint(
                fields=["kit_set", "place", "part"],
                condition=Q(place__isnull=False),
                name="stores_one_kit_a_place",
            ),
            models.CheckConstraint(
                condition=(Q(kind="bench") & Q(place__isnull=False))
                | Q(kind="supplementary")
                | (~Q(kind="bench") & Q(place=None)),
                name="stores_bench_kit_has_a_place",
            ),
        ]


class KitLine(models.Model):
    """One line of a kit as printed: words and allergens are copied, not looked up again."""

    kit = models.ForeignKey(Kit, on_delete=models.CASCADE, related_name="lines")
    position = models.PositiveSmallIntegerField()
    food = models.ForeignKey(Food, on_delete=models.PROTECT, related_name="+")
    component = models.CharField(max_length=120, blank=True)
    food_words = models.CharField(max_length=160)
    allergens_words = models.CharField(max_length=300, blank=True)
    exact = models.CharField(max_length=60)
    milligrams = models.PositiveBigIntegerField()
    pieces = models.PositiveIntegerField(null=True, blank=True)
    #: What leaves the lots for this line, as bought; more than the bench is given when the stores prepare it.
    stock_milligrams = models.PositiveBigIntegerField(default=0)
    may_contain_words = models.CharField(max_length=300, blank=True)
    label_read_on = models.DateField(null=True, blank=True)
    note = models.CharField(max_length=200, blank=True)
    pooled = models.BooleanField(default=False)

    class Meta:
        ordering = ["position"]
        constraints = [
            models.UniqueConstraint(fields=["kit", "position"], name="stores_kit_line_position_once")
        ]


class Movement(LedgerRow):
    """Stock in and out of a lot; written by ledger.py alone."""

    class Kind(models.TextChoices):
        RECEIVE = "receive", "received"
        ISSUE = "issue", "issued"
        SUPPLEMENTARY = "supplementary", "supplementary issue"
        RETURN = "return", "returned"
        REWORK = "rework", "re-work"
        WASTE = "waste", "wasted"
        COUNT = "count", "count"

    lot = models.ForeignKey(Lot, on_delete=models.PROTECT, related_name="movements")
    number = models.PositiveIntegerField()
    milligrams = models.BigIntegerField()
    balance_milligrams = models.PositiveBigIntegerField()
    kind = models.CharField(max_length=14, choices=Kind.choices)
    kit_line = models.ForeignKey(
        KitLine, null=True, blank=True, on_delete=models.PROTECT, related_name="movements"
    )
    corrects = models.OneToOneField(
        "self", null=True, blank=True, on_delete=models.PROTECT, related_name="corrected_by"
    )
    reason = models.CharField(max_length=200, blank=True)
    #: The reason's code in the list of its kind; None where none was chosen from a list.
    reason_code = models.CharField(max_length=30, null=True, blank=True)
    key = models.UUIDField(unique=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["lot", "number"]
        constraints = [
            models.UniqueConstraint(fields=["lot", "number"], name="stores_movement_in_order"),
            models.CheckConstraint(condition=~Q(milligrams=0), name="stores_movement_moves_something"),
            models.CheckConstraint(
                condition=Q(balance_milligrams__gte=0), name="stores_balance_is_not_below_nothing"
            ),
            models.CheckConstraint(
                condition=Q(number__gt=1) | Q(balance_milligrams=models.F("milligrams")),
                name="stores_first_movement_is_the_balance",
            ),
            models.CheckConstraint(
                condition=Q(kind="count")
                | Q(kind__in=["receive", "return", "rework"], milligrams__gt=0)
                | Q(kind__in=["issue", "supplementary", "waste"], milligrams__lt=0),
                name="stores_sign_fits_the_kind",
            ),
        ]


class MadePart(LedgerRow):
    """What went into a made lot: the movement out of the lot it came from says which and how much."""

    made = models.ForeignKey(Lot, on_delete=models.PROTECT, related_name="parts")
    movement = models.OneToOneField(Movement, on_delete=models.PROTECT, related_name="made_part")

    class Meta:
        ordering = ["made", "movement"]


class Weighing(LedgerRow):
    """A kit line was weighed."""

    kit_line = models.ForeignKey(KitLine, on_delete=models.PROTECT, related_name="weighings")
    number = models.PositiveIntegerField()
    milligrams = models.PositiveBigIntegerField()
    undone = models.BooleanField(default=False)
    key = models.UUIDField(unique=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    second_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="+"
    )
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["kit_line", "number"], name="stores_weighing_in_order")
        ]
