"""Rooms, benches, appliances and small equipment, and when they are closed."""

from django.db import models
from django.db.models import F, Q


class Room(models.Model):
    """A room of the college."""

    code = models.SlugField(max_length=40, unique=True)
    name = models.CharField(max_length=120)
    purpose = models.CharField(max_length=40)
    seats = models.PositiveSmallIntegerField(default=0)
    #: 20 °C where nobody has measured the room: common practice, no source.
    decicelsius = models.IntegerField(default=200)
    note = models.CharField(max_length=400, blank=True)

    class Meta:
        ordering = ["name"]

    def __str__(self) -> str:
        return self.name


class Bench(models.Model):
    """A bench for one or two cooks."""

    room = models.ForeignKey(Room, on_delete=models.PROTECT, related_name="benches")
    number = models.PositiveSmallIntegerField()
    cooks = models.PositiveSmallIntegerField(default=2)

    class Meta:
        ordering = ["number"]
        constraints = [
            models.UniqueConstraint(fields=["room", "number"], name="rooms_bench_number_once"),
            models.CheckConstraint(
                condition=Q(cooks__gte=1, cooks__lte=2), name="rooms_bench_takes_one_or_two"
            ),
        ]

    def __str__(self) -> str:
        return f"Bench {self.number}"


class Appliance(models.Model):
    """One setting of its own: an oven deck with its thermostat is an appliance.

    ``units`` is what can be used at once: shelves of an oven, rings of a hob, one bowl
    of a mixer. ``body`` names the body whose failure takes several along. Ovens heat and
    cool at so many seconds per 10 °C (a setting of the appliance, no source).
    """

    room = models.ForeignKey(Room, on_delete=models.PROTECT, related_name="appliances")
    code = models.SlugField(max_length=40)
    name = models.CharField(max_length=80)
    kind = models.CharField(max_length=20)
    body = models.CharField(max_length=40, blank=True)
    units = models.PositiveSmallIntegerField(default=1)
    heat = models.JSONField(default=list, blank=True)
    #: One minute up and two down for 10 °C until the oven is measured: common practice, no source.
    heat_seconds_per_10 = models.PositiveSmallIntegerField(default=60)
    cool_seconds_per_10 = models.PositiveSmallIntegerField(default=120)
    least_decicelsius = models.IntegerField(null=True, blank=True)
    most_decicelsius = models.IntegerField(null=True, blank=True)
    can_stand_off_and_shut = models.BooleanField(default=False)
    capacity_note = models.CharField(max_length=80, blank=True)

    class Meta:
        ordering = ["id"]
        constraints = [
            models.UniqueConstraint(fields=["room", "code"], name="rooms_appliance_code_once"),
            models.CheckConstraint(condition=Q(units__gt=0), name="rooms_appliance_holds_something"),
        ]

    def __str__(self) -> str:
        return self.name


class Equipment(models.Model):
    """How many of a small thing a room has, those that are out with a lesson among them.

    ``at_first`` is what was there when the room was written down. ``count``, ``out`` and ``moves``
    are a copy of the end of the thing's ledger, which the stores write.
    """

    room = models.ForeignKey(Room, on_delete=models.PROTECT, related_name="equipment")
    item = models.SlugField(max_length=60)
    at_first = models.PositiveIntegerField(default=0)
    count = models.PositiveIntegerField()
    out = models.PositiveIntegerField(default=0)
    moves = models.PositiveIntegerField(default=0)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["room", "item"], name="rooms_equipment_item_once"),
            models.CheckConstraint(condition=Q(out__lte=F("count")), name="rooms_equipment_out_is_there"),
        ]


class Closure(models.Model):
    """A room or one appliance is out of use for a time."""

    room = models.ForeignKey(Room, on_delete=models.PROTECT, related_name="closures")
    appliance = models.ForeignKey(
        Appliance, null=True, blank=True, on_delete=models.PROTECT, related_name="closures"
    )
    from_at = models.DateTimeField()
    until_at = models.DateTimeField(null=True, blank=True)
    why = models.CharField(max_length=200)

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=Q(until_at=None) | Q(until_at__gt=F("from_at")),
                name="rooms_closure_ends_after_it_starts",
            )
        ]
