"""The recipe book: recipes, their versions, components, lines and steps.

A variant is a recipe of its own. A version in draft is rows; when it is approved the
whole recipe is frozen as its ``sheet`` and calculations read that.
"""

from django.conf import settings
from django.db import models
from django.db.models import F, Q

from curriculum.foods.models import Food
from curriculum.ledgers import LedgerRow
from curriculum.techniques.models import Level, Technique


class Recipe(models.Model):
    """A dish of the book; its text lives in versions."""

    code = models.SlugField(max_length=20, unique=True)
    title = models.CharField(max_length=160)
    level = models.CharField(max_length=12, choices=Level.choices)
    variant_of = models.ForeignKey(
        "self", null=True, blank=True, on_delete=models.PROTECT, related_name="variants"
    )

    class Meta:
        ordering = ["title"]

    def __str__(self) -> str:
        return self.title


class RecipeFreeFrom(models.Model):
    """A kind or group that this recipe leaves out."""

    recipe = models.ForeignKey(Recipe, on_delete=models.CASCADE, related_name="free_from")
    kind = models.CharField(max_length=20)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["recipe", "kind"], name="recipes_free_from_once")]


class Version(models.Model):
    """One version of a recipe; never changed once approved."""

    class State(models.TextChoices):
        DRAFT = "draft", "draft"
        CHECKED = "checked", "checked"
        APPROVED = "approved", "approved to teach"
        WITHDRAWN = "withdrawn", "withdrawn"

    recipe = models.ForeignKey(Recipe, on_delete=models.PROTECT, related_name="versions")
    number = models.PositiveIntegerField()
    state = models.CharField(max_length=10, choices=State.choices, default=State.DRAFT)
    made_from = models.ForeignKey("self", null=True, blank=True, on_delete=models.PROTECT, related_name="+")
    portions_stated = models.PositiveSmallIntegerField()
    portions_obtainable = models.PositiveSmallIntegerField()
    portion_milligrams = models.PositiveIntegerField(default=0)
    unit = models.CharField(max_length=40, default="portion")
    presentation = models.CharField(max_length=300, blank=True)
    notes = models.TextField(blank=True)
    caution = models.CharField(max_length=300, blank=True)
    reject_per_mille = models.PositiveSmallIntegerField(default=0)
    serve_low_decicelsius = models.IntegerField(null=True, blank=True)
    serve_high_decicelsius = models.IntegerField(null=True, blank=True)
    plate_decicelsius = models.IntegerField(null=True, blank=True)
    #: Parts of a version that are read and written whole: tins, finished weights, equipment.
    tins = models.JSONField(default=list, blank=True)
    finished = models.JSONField(default=list, blank=True)
    equipment = models.JSONField(default=list, blank=True)
    techniques_lost = models.JSONField(default=list, blank=True)
    may_be_cut_for = models.JSONField(default=list, blank=True)
    not_served = models.JSONField(default=list, blank=True)
    #: The measures that its lines are written in: metric, us, imperial or australian.
    measures = models.CharField(max_length=12, blank=True)
    #: What came with an imported recipe and has no place of its own here: [name, JSON text] pairs.
    carried = models.JSONField(default=list, blank=True)
    written_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    written_at = models.DateTimeField(auto_now_add=True)
    checked_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="+"
    )
    #: When the writer said that it may be checked; a change takes it back.
    sent_at = models.DateTimeField(null=True, blank=True)
    approved_at = models.DateTimeField(null=True, blank=True)
    sheet = models.JSONField(null=True, blank=True)
    sheet_hash = models.CharField(max_length=64, blank=True)
    #: The words that the book is searched by, in lower case.
    search_words = models.TextField(blank=True)
    #: What the book is narrowed by, reckoned when the version is written. A cost that is
    #: known has the day of its prices; without a day a food has no price, or nobody reckoned it.
    one_cook_minutes = models.PositiveIntegerField(null=True, blank=True)
    work_minutes = models.PositiveIntegerField(null=True, blank=True)
    oven_minutes = models.PositiveIntegerField(null=True, blank=True)
    portion_pence = models.PositiveIntegerField(null=True, blank=True)
    costed_on = models.DateField(null=True, blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["recipe", "number"], name="recipes_version_number_once"),
            models.UniqueConstraint(
                fields=["recipe"], condition=Q(state="draft"), name="recipes_one_draft_at_a_time"
            ),
            models.CheckConstraint(
                condition=~Q(state="approved")
                | (~Q(sheet_hash="") & Q(checked_by__isnull=False) & ~Q(checked_by=F("written_by"))),
                name="recipes_approved_is_frozen_and_checked_by_another",
            ),
            models.CheckConstraint(condition=Q(portions_stated__gt=0), name="recipes_portions_are_something"),
            models.CheckConstraint(
                condition=Q(portion_pence__isnull=True, costed_on__isnull=True)
                | Q(portion_pence__isnull=False, costed_on__isnull=False),
                name="recipes_a_cost_has_its_day",
            ),
        ]
        #: The newest approved version of every recipe is found, and narrowed by its figures, in
        #: this alone: a row is as long as its sheet.
        indexes = [
            models.Index(
                fields=[
                    "state",
                    "recipe",
                    "number",
                    "one_cook_minutes",
                    "work_minutes",
                    "oven_minutes",
                    "portion_pence",
                ],
                name="recipes_version_by_figures",
            )
        ]

    def __str__(self) -> str:
        return f"{self.recipe.title}, version {self.number}"


class Said(LedgerRow):
    """What became of a version and who did it: sent, sent back with words, checked, approved, withdrawn."""

    class What(models.TextChoices):
        SENT = "sent", "sent for checking"
        SENT_BACK = "sent_back", "sent back"
        CHECKED = "checked", "checked"
        OPENED = "opened", "opened again for writing"
        APPROVED = "approved", "approved to teach"
        WITHDRAWN = "withdrawn", "withdrawn"

    version = models.ForeignKey(Version, on_delete=models.PROTECT, related_name="said")
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)
    what = models.CharField(max_length=10, choices=What.choices)
    #: About the recipe, never about a person.
    words = models.CharField(max_length=600, blank=True)

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.CheckConstraint(
                condition=~Q(what="sent_back") | ~Q(words=""), name="recipes_sent_back_says_why"
            ),
        ]


class Component(models.Model):
    """A paste, a filling, a sauce; it scales on its own basis."""

    class Basis(models.TextChoices):
        PORTIONS = "portions", "by portions"
        LINED_AREA = "lined_area", "by area lined"
        FILLED_VOLUME = "filled_volume", "by volume filled"
        PIECES = "pieces", "by pieces"
        VESSEL = "vessel", "by vessel"
        MINIMUM = "minimum", "a least mass"
        FIXED = "fixed", "fixed for each bench"

    version = models.ForeignKey(Version, on_delete=models.CASCADE, related_name="components")
    position = models.PositiveSmallIntegerField()
    code = models.CharField(max_length=4)
    name = models.CharField(max_length=120)
    basis = models.CharField(max_length=16, choices=Basis.choices, default=Basis.PORTIONS)
    target_milligrams = models.PositiveBigIntegerField(null=True, blank=True)
    piece_count = models.PositiveSmallIntegerField(null=True, blank=True)
    piece_milligrams = models.PositiveBigIntegerField(null=True, blank=True)
    note = models.CharField(max_length=300, blank=True)

    class Meta:
        ordering = ["position"]
        constraints = [
            models.UniqueConstraint(fields=["version", "code"], name="recipes_component_code_once")
        ]


class Line(models.Model):
    """One ingredient line of a component."""

    class WeightIs(models.TextChoices):
        PREPARED = "prepared", "prepared"
        AS_BOUGHT = "as_bought", "as bought"

    class Issued(models.TextChoices):
        PREPARED = "prepared", "prepared by the stores"
        AS_BOUGHT = "as_bought", "as bought, for the learner to prepare"

    class Part(models.TextChoices):
        RECIPE = "recipe", "recipe"
        OVER_ISSUE = "over_issue", "over-issue"
        TEST_PIECE = "test_piece", "test piece"

    component = models.ForeignKey(Component, on_delete=models.CASCADE, related_name="lines")
    position = models.PositiveSmallIntegerField()
    food = models.ForeignKey(Food, on_delete=models.PROTECT, related_name="+")
    milligrams = models.PositiveBigIntegerField()
    pieces = models.PositiveIntegerField(null=True, blank=True)
    weight_is = models.CharField(max_length=10, choices=WeightIs.choices, default=WeightIs.PREPARED)
    issued = models.CharField(max_length=10, choices=Issued.choices, default=Issued.PREPARED)
    yield_per_mille = models.PositiveSmallIntegerField(null=True, blank=True)
    scaling_class = models.CharField(max_length=20, choices=Food.ScalingClass.choices, blank=True)
    least_milligrams = models.PositiveBigIntegerField(null=True, blank=True)
    most_milligrams = models.PositiveBigIntegerField(null=True, blank=True)
    held_back_milligrams = models.PositiveBigIntegerField(default=0)
    target_milligrams = models.PositiveBigIntegerField(null=True, blank=True)
    minimum_milligrams = models.PositiveBigIntegerField(null=True, blank=True)
    returned_milligrams = models.PositiveBigIntegerField(null=True, blank=True)
    milligrams_per_litre = models.PositiveBigIntegerField(null=True, blank=True)
    vessel_ml = models.PositiveIntegerField(null=True, blank=True)
    enters_portion = models.BooleanField(default=True)
    part = models.CharField(max_length=12, choices=Part.choices, default=Part.RECIPE)
    purpose = models.CharField(max_length=60, blank=True)
    note = models.CharField(max_length=300, blank=True)
    #: The amount as the writer wrote it ("1 1/2 cups"); the grams rule.
    written = models.CharField(max_length=120, blank=True)

    class Meta:
        ordering = ["position"]
        constraints = [
            models.UniqueConstraint(fields=["component", "position"], name="recipes_line_position_once"),
            models.CheckConstraint(condition=Q(milligrams__gt=0), name="recipes_line_weighs_something"),
            models.CheckConstraint(
                condition=Q(least_milligrams=None)
                | Q(least_milligrams__lte=F("milligrams"), milligrams__lte=F("most_milligrams")),
                name="recipes_range_holds_the_weight",
            ),
            models.CheckConstraint(
                condition=Q(held_back_milligrams__lte=F("milligrams")), name="recipes_held_back_is_a_part"
            ),
        ]


class Step(models.Model):
    """One step of the method."""

    version = models.ForeignKey(Version, on_delete=models.CASCADE, related_name="steps")
    position = models.PositiveSmallIntegerField()
    components = models.ManyToManyField(Component, blank=True, related_name="steps")
    techniques = models.ManyToManyField(Technique, blank=True, through="StepTechnique", related_name="steps")
    words = models.CharField(max_length=600)
    cue = models.CharField(max_length=400, blank=True)
    caution = models.CharField(max_length=400, blank=True)
    wait_first = models.BooleanField(default=False)
    shown_first = models.BooleanField(default=False)
    checked_by_lecturer = models.BooleanField(default=False)
    supervised = models.BooleanField(default=False)
    core_decicelsius = models.IntegerField(null=True, blank=True)
    core_most_decicelsius = models.IntegerField(null=True, blank=True)
    core_seconds = models.PositiveIntegerField(null=True, blank=True)
    target_low_decicelsius = models.IntegerField(null=True, blank=True)
    target_high_decicelsius = models.IntegerField(null=True, blank=True)
    target_of = models.CharField(max_length=80, blank=True)
    kept = models.CharField(max_length=20, default="bench")
    ahead_possible = models.BooleanField(default=False)

    class Meta:
        ordering = ["position"]
        constraints = [
            models.UniqueConstraint(fields=["version", "position"], name="recipes_step_position_once")
        ]


class StepTechnique(models.Model):
    """A step trains a technique."""

    step = models.ForeignKey(Step, on_delete=models.CASCADE)
    technique = models.ForeignKey(Technique, on_delete=models.PROTECT)
    position = models.PositiveSmallIntegerField(default=0)

    class Meta:
        ordering = ["position"]
        constraints = [
            models.UniqueConstraint(fields=["step", "technique"], name="recipes_technique_once_a_step")
        ]


class Way(models.Model):
    """One way to do a step, by hand or by machine; the first is the usual one."""

    step = models.ForeignKey(Step, on_delete=models.CASCADE, related_name="ways")
    position = models.PositiveSmallIntegerField(default=1)
    name = models.CharField(max_length=10)
    active_minutes = models.PositiveSmallIntegerField()
    #: Seconds of these minutes that each portion takes (piping, turning, plating); 0: none of it grows.
    portion_seconds = models.PositiveSmallIntegerField(default=0)
    at = models.CharField(max_length=20, default="bench")
    words = models.CharField(max_length=300, blank=True)
    least_milligrams = models.PositiveBigIntegerField(null=True, blank=True)
    most_milligrams = models.PositiveBigIntegerField(null=True, blank=True)

    class Meta:
        ordering = ["position"]
        constraints = [
            models.UniqueConstraint(fields=["step", "name"], name="recipes_way_once_a_step"),
            models.CheckConstraint(
                condition=Q(least_milligrams=None)
                | Q(most_milligrams=None)
                | Q(least_milligrams__lte=F("most_milligrams")),
                name="recipes_reach_of_a_way_goes_up",
            ),
        ]


class Stay(models.Model):
    """One stay of the food without hands: oven, chiller, prover, bench."""

    class Door(models.TextChoices):
        MAY_OPEN = "may_open", "may be opened"
        SHUT = "shut", "stays shut"
        OFF_AND_SHUT = "off_and_shut", "heat off, door shut"

    step = models.ForeignKey(Step, on_delete=models.CASCADE, related_name="stays")
    position = models.PositiveSmallIntegerField()
    minutes = models.PositiveSmallIntegerField()
    appliance_kind = models.CharField(max_length=20, blank=True)
    decicelsius = models.IntegerField(null=True, blank=True)
    heat = models.CharField(max_length=20, blank=True)
    door = models.CharField(max_length=12, choices=Door.choices, default=Door.MAY_OPEN)
    shelves = models.PositiveSmallIntegerField(default=1)

    class Meta:
        ordering = ["position"]
        constraints = [
            models.UniqueConstraint(fields=["step", "position"], name="recipes_stay_position_once"),
            models.CheckConstraint(condition=Q(minutes__gt=0), name="recipes_stay_lasts"),
        ]


class After(models.Model):
    """A step comes after another, at least and at most so many minutes later."""

    step = models.ForeignKey(Step, on_delete=models.CASCADE, related_name="after")
    needs = models.ForeignKey(Step, on_delete=models.CASCADE, related_name="followed_by")
    least_minutes = models.PositiveSmallIntegerField(default=0)
    longest_minutes = models.PositiveIntegerField(null=True, blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["step", "needs"], name="recipes_after_once"),
            models.CheckConstraint(condition=~Q(step=F("needs")), name="recipes_step_not_after_itself"),
            models.CheckConstraint(
                condition=Q(longest_minutes=None) | Q(least_minutes__lte=F("longest_minutes")),
                name="recipes_longest_hold_is_not_below_least",
            ),
        ]
