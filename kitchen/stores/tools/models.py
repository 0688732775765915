"""Small equipment: what a requisition asks for beside food, and the ledger of each thing in each place."""

from django.conf import settings
from django.db import models
from django.db.models import Q

from curriculum.ledgers import LedgerRow
from kitchen.lessons.models import Lesson, Place
from kitchen.rooms.models import Equipment, Room
from kitchen.stores.models import Requisition


class EquipmentLine(models.Model):
    """So many of a thing that the room lacks: out of another place, or (``from_room`` empty) short."""

    requisition = models.ForeignKey(Requisition, on_delete=models.CASCADE, related_name="equipment")
    item = models.SlugField(max_length=60)
    from_room = models.ForeignKey(Room, null=True, blank=True, on_delete=models.PROTECT, related_name="+")
    count = models.PositiveIntegerField()
    words = models.CharField(max_length=400, blank=True)

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["requisition", "item", "from_room"], name="stores_equipment_line_once"
            ),
            models.UniqueConstraint(
                fields=["requisition", "item"],
                condition=Q(from_room=None),
                name="stores_equipment_short_once",
            ),
            models.CheckConstraint(condition=Q(count__gt=0), name="stores_equipment_line_asks_for_something"),
        ]


class EquipmentMove(LedgerRow):
    """One change of a thing in a place: how many there are (``change``), how many are out (``out_change``).

    What a lesson counts out stays the place's own until it is written off. ``place`` is the bench
    that had it, empty for the class as a whole; ``other`` the place it came from or went to.
    """

    class Kind(models.TextChoices):
        CORRECT = "correct", "corrected"
        GONE = "gone", "moved away"
        CAME = "came", "moved in"
        OUT = "out", "counted out"
        BACK = "back", "counted in"
        LOST = "lost", "written off"

    equipment = models.ForeignKey(Equipment, on_delete=models.PROTECT, related_name="ledger")
    number = models.PositiveIntegerField()
    kind = models.CharField(max_length=8, choices=Kind.choices)
    change = models.IntegerField(default=0)
    out_change = models.IntegerField(default=0)
    count_after = models.PositiveIntegerField()
    out_after = models.PositiveIntegerField()
    lesson = models.ForeignKey(
        Lesson, null=True, blank=True, on_delete=models.PROTECT, related_name="equipment_moves"
    )
    place = models.ForeignKey(
        Place, null=True, blank=True, on_delete=models.PROTECT, related_name="equipment_moves"
    )
    other = models.ForeignKey(Room, null=True, blank=True, on_delete=models.PROTECT, related_name="+")
    reason = models.CharField(max_length=200, blank=True)
    key = models.UUIDField(unique=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["equipment", "number"]
        constraints = [
            models.UniqueConstraint(fields=["equipment", "number"], name="stores_equipment_move_in_order"),
            models.CheckConstraint(
                condition=Q(out_after__lte=models.F("count_after")), name="stores_no_more_out_than_there_are"
            ),
            models.CheckConstraint(
                condition=~Q(change=0) | ~Q(out_change=0), name="stores_equipment_move_moves_something"
            ),
            models.CheckConstraint(
                condition=Q(kind__in=["out", "back", "lost"], lesson__isnull=False)
                | Q(kind__in=["correct", "gone", "came"], lesson=None, out_change=0),
                name="stores_equipment_out_is_for_a_lesson",
            ),
        ]
        indexes = [models.Index(fields=["lesson", "equipment"])]

    @property
    def how_many(self) -> int:
        """How many pieces the change is about."""
        return abs(self.change or self.out_change)
