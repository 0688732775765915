"""Foods: what they weigh, what they are declared to contain, what they cost."""

from django.conf import settings
from django.db import models
from django.db.models import F, Q

from curriculum.ledgers import LedgerRow


class Food(models.Model):
    """One food of the book. Not versioned: what was said on a label is copied into the kit line."""

    class Storage(models.TextChoices):
        AMBIENT = "ambient", "ambient"
        CHILLED = "chilled", "chilled"
        FROZEN = "frozen", "frozen"

    class Rounding(models.TextChoices):
        UP = "up", "up"
        NEAREST = "nearest", "nearest"

    class CountedIn(models.TextChoices):
        GRAMS = "grams", "grams"
        PIECES = "pieces", "pieces"

    class ScalingClass(models.TextChoices):
        LINEAR = "linear", "linear"
        SEASONING = "seasoning", "seasoning"
        LEAVENING = "leavening", "leavening"
        GELLING = "gelling", "gelling"
        PIECE = "piece", "piece"
        MINIMUM_MASS = "minimum_mass", "minimum mass"
        FRYING_FAT = "frying_fat", "frying fat"
        EVAPORATING = "evaporating", "evaporating"
        VESSEL = "vessel", "vessel"
        RANGE = "range", "range"

    class DoughPart(models.TextChoices):
        NONE = "", "nothing of these"
        FLOUR = "flour", "flour"
        FAT = "fat", "fat"
        LIQUID = "liquid", "liquid"
        EGG = "egg", "egg"
        SUGAR = "sugar", "sugar"
        RAISING = "raising", "raising agent"
        SALT = "salt", "salt"
        GEL = "gel", "setting agent"

    code = models.SlugField(max_length=60, unique=True)
    name = models.CharField(max_length=120)
    storage = models.CharField(max_length=10, choices=Storage.choices, default=Storage.AMBIENT)
    scaling_class = models.CharField(max_length=20, choices=ScalingClass.choices, default=ScalingClass.LINEAR)
    increment_milligrams = models.PositiveIntegerField(default=1000)
    rounding = models.CharField(max_length=10, choices=Rounding.choices, default=Rounding.UP)
    usable_per_mille = models.PositiveSmallIntegerField(default=1000)
    usable_source = models.CharField(max_length=200, blank=True)
    counted_in = models.CharField(max_length=10, choices=CountedIn.choices, default=CountedIn.GRAMS)
    piece_milligrams = models.PositiveIntegerField(null=True, blank=True)
    edible_piece_milligrams = models.PositiveIntegerField(null=True, blank=True)
    piece_source = models.CharField(max_length=200, blank=True)
    dough_part = models.CharField(max_length=8, choices=DoughPart.choices, blank=True, default="")
    milligrams_per_ml = models.PositiveIntegerField(null=True, blank=True)
    density_source = models.CharField(max_length=200, blank=True)
    made_from = models.ForeignKey(
        "self", null=True, blank=True, on_delete=models.PROTECT, related_name="parts"
    )
    made_from_milligrams = models.PositiveIntegerField(null=True, blank=True)
    label_read_on = models.DateField(null=True, blank=True)
    label_read_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="+"
    )
    facts = models.JSONField(default=dict, blank=True)
    from_tap = models.BooleanField(default=False)
    gelatine_bloom = models.PositiveSmallIntegerField(null=True, blank=True)
    note = models.CharField(max_length=300, blank=True)
    retired_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["name"]
        constraints = [
            models.CheckConstraint(
                condition=Q(increment_milligrams__gt=0), name="foods_increment_is_something"
            ),
            models.CheckConstraint(
                condition=Q(usable_per_mille__gt=0, usable_per_mille__lte=1000),
                name="foods_usable_share_is_a_share",
            ),
            models.CheckConstraint(
                condition=Q(made_from=None) | Q(made_from_milligrams__gt=0),
                name="foods_part_of_a_piece_has_a_weight",
            ),
        ]

    def __str__(self) -> str:
        return self.name


class FoodAllergen(models.Model):
    """A kind that this food contains or may contain; the two are kept apart."""

    class Presence(models.TextChoices):
        CONTAINS = "contains", "contains"
        MAY_CONTAIN = "may_contain", "may contain"

    food = models.ForeignKey(Food, on_delete=models.CASCADE, related_name="allergens")
    kind = models.CharField(max_length=20)
    presence = models.CharField(max_length=12, choices=Presence.choices)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["food", "kind"], name="foods_allergen_once_a_food")]


class PieceWeight(models.Model):
    """What one of something weighs as a cook counts it: a clove, a sprig, a bunch, a leaf."""

    food = models.ForeignKey(Food, on_delete=models.CASCADE, related_name="piece_weights")
    name = models.CharField(max_length=40)
    milligrams = models.PositiveIntegerField()
    source = models.CharField(max_length=200)

    class Meta:
        ordering = ["name"]
        constraints = [
            models.UniqueConstraint(fields=["food", "name"], name="foods_piece_named_once"),
            models.CheckConstraint(condition=Q(milligrams__gt=0), name="foods_named_piece_weighs_something"),
        ]


class YieldFigure(models.Model):
    """A usable share that a table prints. Tables disagree, so each figure stands with whose it is."""

    food = models.ForeignKey(Food, on_delete=models.CASCADE, related_name="yield_figures")
    usable_per_mille = models.PositiveSmallIntegerField()
    source = models.CharField(max_length=200)

    class Meta:
        ordering = ["source"]
        constraints = [
            models.UniqueConstraint(fields=["food", "source"], name="foods_yield_figure_once_a_source"),
            models.CheckConstraint(
                condition=Q(usable_per_mille__gt=0, usable_per_mille__lte=1000),
                name="foods_yield_figure_is_a_share",
            ),
        ]


class Avoidance(models.Model):
    """What a learner avoids: a kind or group of allergens, one food, or a way of eating."""

    class Severity(models.TextChoices):
        ALLERGY = "allergy", "allergy"
        INTOLERANCE = "intolerance", "intolerance"
        CHOICE = "choice", "choice"

    student = models.ForeignKey("curriculum.Student", on_delete=models.PROTECT, related_name="avoidances")
    kind = models.CharField(max_length=20, blank=True)
    food = models.ForeignKey(Food, null=True, blank=True, on_delete=models.PROTECT, related_name="+")
    way = models.CharField(max_length=20, blank=True)
    severity = models.CharField(max_length=12, choices=Severity.choices, default=Severity.ALLERGY)
    note = models.CharField(max_length=300, blank=True)
    from_on = models.DateField()
    until_on = models.DateField(null=True, blank=True)
    noted_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=(~Q(kind="") & Q(food=None, way=""))
                | (Q(kind="", way="") & Q(food__isnull=False))
                | (Q(kind="", food=None) & ~Q(way="")),
                name="foods_avoidance_names_exactly_one_thing",
            )
        ]


class YieldTest(LedgerRow):
    """A dated yield test of the college's own."""

    food = models.ForeignKey(Food, on_delete=models.PROTECT, related_name="yield_tests")
    on = models.DateField()
    purchased_milligrams = models.PositiveBigIntegerField()
    usable_milligrams = models.PositiveBigIntegerField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=Q(usable_milligrams__gt=0, usable_milligrams__lte=F("purchased_milligrams")),
                name="foods_usable_is_part_of_purchased",
            )
        ]


class Supplier(models.Model):
    """Who delivers, when orders close, and the least order taken."""

    code = models.SlugField(max_length=40, unique=True)
    name = models.CharField(max_length=120)
    lead_days = models.PositiveSmallIntegerField()
    cut_off = models.TimeField()
    delivery_weekdays = models.JSONField(default=list)
    least_order_pence = models.PositiveIntegerField(default=0)
    delivery_pence = models.PositiveIntegerField(default=0)

    def __str__(self) -> str:
        return self.name


class Pack(models.Model):
    """One size that one supplier sells, at a price, from a day until a day."""

    food = models.ForeignKey(Food, on_delete=models.PROTECT, related_name="packs")
    supplier = models.ForeignKey(Supplier, on_delete=models.PROTECT, related_name="packs")
    milligrams = models.PositiveBigIntegerField()
    pieces = models.PositiveIntegerField(null=True, blank=True)
    pence = models.PositiveIntegerField()
    for_costing = models.BooleanField(default=False)
    #: The number on its bar code in fourteen digits; several suppliers may sell the same pack.
    gtin = models.CharField(max_length=14, blank=True, default="", db_index=True)
    from_on = models.DateField()
    until_on = models.DateField(null=True, blank=True)

    class Meta:
        constraints = [
            models.CheckConstraint(condition=Q(milligrams__gt=0), name="foods_pack_weighs_something")
        ]
