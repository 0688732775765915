"""Lessons with their shifts, dishes, places at the benches, and attendance."""

import uuid

from django.conf import settings
from django.db import models
from django.db.models import Q

from curriculum.courses.models import PlannedLesson
from curriculum.ledgers import LedgerRow
from curriculum.people.models import Group, Student
from curriculum.recipes.models import Version
from kitchen.rooms.models import Bench, Room


class Lesson(models.Model):
    """One lesson of one group in one room; ``minutes`` is the whole slot.

    ``start_minutes`` (hands, register, brief), ``clear_minutes`` (tasting, clear-down) and
    ``contingency_minutes`` (kept free before clear-down) are part of the slot; what is left is
    usable for cooking. A break of ``break_minutes`` (0: none) begins ``break_after`` minutes
    after the lesson does. ``supervisors`` may stand beside a step, the lecturer among them.
    """

    class Kind(models.TextChoices):
        PRACTICAL = "practical", "practical"
        DEMONSTRATION = "demonstration", "demonstration"
        ASSESSED = "assessed", "assessed practical"

    class State(models.TextChoices):
        PLANNED = "planned", "planned"
        APPROVED = "approved", "approved"
        RUN = "run", "run"
        CANCELLED = "cancelled", "cancelled"

    uid = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    code = models.CharField(max_length=8, unique=True)
    title = models.CharField(max_length=160)
    planned = models.ForeignKey(
        PlannedLesson, null=True, blank=True, on_delete=models.PROTECT, related_name="lessons"
    )
    on = models.DateField()
    starts = models.TimeField()
    minutes = models.PositiveSmallIntegerField()
    #: Hands, register and brief; tasting and clear-down: common practice, no source. A college has its own.
    start_minutes = models.PositiveSmallIntegerField(default=15)
    clear_minutes = models.PositiveSmallIntegerField(default=30)
    contingency_minutes = models.PositiveSmallIntegerField(default=0)
    break_after = models.PositiveSmallIntegerField(default=0)
    break_minutes = models.PositiveSmallIntegerField(default=0)
    supervisors = models.PositiveSmallIntegerField(default=1)
    room = models.ForeignKey(Room, on_delete=models.PROTECT, related_name="lessons")
    group = models.ForeignKey(Group, on_delete=models.PROTECT, related_name="lessons")
    lecturer = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="lessons")
    cover = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        null=True,
        blank=True,
        on_delete=models.PROTECT,
        related_name="lessons_covered",
    )
    technician = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        null=True,
        blank=True,
        on_delete=models.PROTECT,
        related_name="lessons_served",
    )
    kind = models.CharField(max_length=14, choices=Kind.choices, default=Kind.PRACTICAL)
    assessed = models.BooleanField(default=False)
    minutes_a_plate = models.PositiveSmallIntegerField(default=0)
    demonstration_batches = models.PositiveSmallIntegerField(default=0)
    spare_batches = models.PositiveSmallIntegerField(default=0)
    state = models.CharField(max_length=10, choices=State.choices, default=State.PLANNED)
    sequence = models.PositiveIntegerField(default=0)
    #: Planned by the minutes that the recipes write; paces learned on other days are left aside.
    by_recipe_minutes = models.BooleanField(default=False)
    food_becomes = models.CharField(max_length=20, default="eaten")
    note = models.CharField(max_length=400, blank=True)
    booked_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["on", "starts"]
        constraints = [
            models.CheckConstraint(condition=Q(minutes__gt=0), name="lessons_lesson_lasts"),
            models.CheckConstraint(
                condition=Q(minutes__gte=models.F("start_minutes") + models.F("clear_minutes")),
                name="lessons_slot_holds_start_and_clear_down",
            ),
            models.CheckConstraint(
                condition=Q(
                    minutes__gte=models.F("start_minutes")
                    + models.F("contingency_minutes")
                    + models.F("clear_minutes")
                ),
                name="lessons_slot_holds_contingency",
            ),
            models.CheckConstraint(
                condition=Q(break_minutes=0)
                | Q(minutes__gte=models.F("break_after") + models.F("break_minutes")),
                name="lessons_break_lies_in_the_slot",
            ),
            models.CheckConstraint(condition=Q(supervisors__gte=1), name="lessons_somebody_supervises"),
        ]
        indexes = [models.Index(fields=["on", "room"]), models.Index(fields=["group", "on"])]

    def __str__(self) -> str:
        return self.title

    @property
    def usable_minutes(self) -> int:
        """Minutes of the slot in which food can be cooked, a break among them."""
        return self.minutes - self.start_minutes - self.clear_minutes - self.contingency_minutes


class Shift(models.Model):
    """A lesson has at least one shift; two shifts cook one after the other."""

    lesson = models.ForeignKey(Lesson, on_delete=models.CASCADE, related_name="shifts")
    number = models.PositiveSmallIntegerField(default=1)
    starts = models.TimeField()
    minutes = models.PositiveSmallIntegerField()

    class Meta:
        ordering = ["number"]
        constraints = [models.UniqueConstraint(fields=["lesson", "number"], name="lessons_shift_number_once")]


class Dish(models.Model):
    """What is cooked in a lesson, how many portions a bench, and what is done ahead.

    ``ahead_steps`` are positions of steps that stores or technician do before the lesson.
    ``taught_steps`` is empty when the whole method is taught. Plates for tasting, for the
    photograph and for the second marker are portions a bench, counted within ``portions_a_bench``.
    """

    class Working(models.TextChoices):
        SINGLE = "single", "one learner a bench"
        PAIR = "pair", "pairs"

    lesson = models.ForeignKey(Lesson, on_delete=models.CASCADE, related_name="dishes")
    version = models.ForeignKey(Version, on_delete=models.PROTECT, related_name="dishes")
    portions_a_bench = models.PositiveSmallIntegerField()
    tasting_plates = models.PositiveSmallIntegerField(default=0)
    photograph_plates = models.PositiveSmallIntegerField(default=0)
    second_marker_plates = models.PositiveSmallIntegerField(default=0)
    working = models.CharField(max_length=8, choices=Working.choices, default=Working.PAIR)
    ahead_steps = models.JSONField(default=list, blank=True)
    ahead_on = models.DateField(null=True, blank=True)
    taught_steps = models.JSONField(default=list, blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["lesson", "version"], name="lessons_dish_once"),
            models.CheckConstraint(condition=Q(portions_a_bench__gt=0), name="lessons_bench_makes_something"),
            models.CheckConstraint(
                condition=Q(
                    portions_a_bench__gt=models.F("tasting_plates")
                    + models.F("photograph_plates")
                    + models.F("second_marker_plates")
                ),
                name="lessons_plates_are_not_all_portions",
            ),
        ]

    @property
    def plates(self) -> int:
        """Portions of a bench that are plates for tasting, photograph and second marker."""
        return self.tasting_plates + self.photograph_plates + self.second_marker_plates

    @property
    def portions_for_learners(self) -> int:
        """Portions of a bench that its learners make for themselves."""
        return self.portions_a_bench - self.plates


class Place(models.Model):
    """One bench of one shift, with the version (the variant) that is cooked there."""

    shift = models.ForeignKey(Shift, on_delete=models.CASCADE, related_name="places")
    bench = models.ForeignKey(Bench, on_delete=models.PROTECT, related_name="places")
    dish = models.ForeignKey(Dish, on_delete=models.CASCADE, related_name="places")
    version = models.ForeignKey(Version, on_delete=models.PROTECT, related_name="places")
    code = models.CharField(max_length=8, unique=True)

    class Meta:
        ordering = ["bench__number"]
        constraints = [models.UniqueConstraint(fields=["shift", "bench"], name="lessons_bench_once_a_shift")]

    @property
    def plate(self) -> str:
        """The bench's number; in a second shift with the shift behind it."""
        number, shift = self.bench.number, self.shift.number
        return str(number) if shift == 1 else f"{number}.{shift}"


class PlaceLearner(models.Model):
    """A learner at a place; on one bench only."""

    place = models.ForeignKey(Place, on_delete=models.CASCADE, related_name="learners")
    shift = models.ForeignKey(Shift, on_delete=models.CASCADE, related_name="+")
    student = models.ForeignKey(Student, on_delete=models.PROTECT, related_name="places")

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["shift", "student"], name="lessons_student_on_one_bench"),
            models.UniqueConstraint(fields=["place", "student"], name="lessons_student_once_a_place"),
        ]


class Attendance(LedgerRow):
    """Who was there; a change of mind is a new row with the next number."""

    class State(models.TextChoices):
        PRESENT = "present", "present"
        LATE = "late", "late"
        ABSENT = "absent", "absent"
        LEFT = "left", "left early"

    lesson = models.ForeignKey(Lesson, on_delete=models.PROTECT, related_name="attendance")
    student = models.ForeignKey(Student, on_delete=models.PROTECT, related_name="attendance")
    number = models.PositiveIntegerField()
    state = models.CharField(max_length=8, choices=State.choices)
    key = models.UUIDField(unique=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["lesson", "student", "number"], name="lessons_attendance_in_order"
            )
        ]
