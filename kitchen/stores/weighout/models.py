"""What is written down during a weigh-out, beside the weights themselves: ledgers, all of them."""

from django.conf import settings
from django.db import models
from django.db.models import Q

from curriculum.ledgers import LedgerRow
from kitchen.stores.models import Kit, KitSet, Lot, Weighing


class Cleaned(LedgerRow):
    """Bench, scale, scoops or hands were clean when weighing began on a day."""

    class Thing(models.TextChoices):
        BENCH = "bench", "bench"
        SCALE = "scale", "scale"
        SCOOPS = "scoops", "scoops"
        HANDS = "hands", "hands"

    kit_set = models.ForeignKey(KitSet, on_delete=models.PROTECT, related_name="cleaned")
    thing = models.CharField(max_length=8, choices=Thing.choices)
    on = models.DateField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["kit_set", "thing", "on"], name="stores_cleaned_once_a_day")
        ]


class Lid(LedgerRow):
    """The lid went on a kit, or came off again; the last row says how it is."""

    kit = models.ForeignKey(Kit, on_delete=models.PROTECT, related_name="lids")
    number = models.PositiveIntegerField()
    is_on = models.BooleanField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["kit", "number"], name="stores_lid_in_order")]


class WeighedFrom(LedgerRow):
    """From which lot a weight was taken, as it was said at the scale. Nothing leaves the lot by it."""

    weighing = models.ForeignKey(Weighing, on_delete=models.PROTECT, related_name="taken_from")
    lot = models.ForeignKey(Lot, on_delete=models.PROTECT, related_name="+")
    milligrams = models.PositiveBigIntegerField()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["weighing", "lot"], name="stores_weighed_from_a_lot_once"),
            models.CheckConstraint(condition=Q(milligrams__gt=0), name="stores_weighed_from_takes_something"),
        ]


class SecondCheck(LedgerRow):
    """A second look at one weight: a person's initials, or the pot on a scale once more.

    ``weighing`` is the last weight of its food on its tray, so that a weight that is taken back
    takes its check with it. ``milligrams`` is what the second scale showed for the whole pot.
    """

    class How(models.TextChoices):
        INITIALS = "initials", "initials"
        CHECK_WEIGHT = "check_weight", "check weight"

    weighing = models.ForeignKey(Weighing, on_delete=models.PROTECT, related_name="checks")
    how = models.CharField(max_length=12, choices=How.choices)
    milligrams = models.PositiveBigIntegerField(null=True, blank=True)
    expected_milligrams = models.PositiveBigIntegerField()
    passed = models.BooleanField()
    second_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="+"
    )
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=Q(how="initials", milligrams=None, second_by__isnull=False, passed=True)
                | Q(how="check_weight", milligrams__isnull=False),
                name="stores_check_says_what_it_is",
            )
        ]


class BulkReading(LedgerRow):
    """What the pack of a lot weighed when somebody put it on the scale, and what the book expected."""

    kit_set = models.ForeignKey(KitSet, on_delete=models.PROTECT, related_name="readings")
    lot = models.ForeignKey(Lot, on_delete=models.PROTECT, related_name="+")
    milligrams = models.PositiveBigIntegerField()
    expected_milligrams = models.BigIntegerField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)


class AllTheSame(LedgerRow):
    """Somebody went on against a warning, and said why; ``standing`` is what stood open then, in words."""

    class What(models.TextChoices):
        BEFORE_LIDS = "before_lids", "weighed on before the free-from kits are lidded"
        OPEN_CHECKS = "open_checks", "issued with checks open"

    kit_set = models.ForeignKey(KitSet, on_delete=models.PROTECT, related_name="all_the_same")
    what = models.CharField(max_length=12, choices=What.choices)
    reason = models.CharField(max_length=200)
    standing = models.JSONField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [
            models.CheckConstraint(condition=~Q(reason=""), name="stores_all_the_same_says_why"),
        ]
