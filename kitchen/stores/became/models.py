"""What became of the dish at each bench, and to which benches a kit without one was given."""

from django.conf import settings
from django.db import models
from django.db.models import F, Q

from curriculum.ledgers import LedgerRow
from kitchen.lessons.models import Place
from kitchen.safety.models import Reading
from kitchen.stores.models import Kit


class Became(LedgerRow):
    """What a person said became of one bench's dish, in portions; the last row of a bench stands.

    For what went home: the cooling as it was timed and read (``reading`` keeps the limit that ruled),
    the day and the words of the college's own procedure, and who decided where a limit was not kept.
    """

    place = models.ForeignKey(Place, on_delete=models.PROTECT, related_name="became")
    number = models.PositiveIntegerField()
    eaten_portions = models.PositiveSmallIntegerField(default=0)
    sold_portions = models.PositiveSmallIntegerField(default=0)
    home_portions = models.PositiveSmallIntegerField(default=0)
    wasted_portions = models.PositiveSmallIntegerField(default=0)
    cooling_from = models.DateTimeField(null=True, blank=True)
    cooled_at = models.DateTimeField(null=True, blank=True)
    reading = models.ForeignKey(
        Reading, null=True, blank=True, on_delete=models.PROTECT, related_name="became"
    )
    eat_by = models.DateField(null=True, blank=True)
    keep_words = models.CharField(max_length=200, blank=True)
    decided = models.CharField(max_length=200, blank=True)
    key = models.UUIDField(unique=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["place", "number"]
        constraints = [
            models.UniqueConstraint(fields=["place", "number"], name="stores_became_in_order"),
            models.CheckConstraint(
                condition=Q(home_portions=0) | (Q(eat_by__isnull=False) & ~Q(keep_words="")),
                name="stores_taken_home_says_how_long",
            ),
            models.CheckConstraint(
                condition=Q(cooling_from=None, cooled_at=None, reading=None)
                | Q(cooling_from__isnull=False, cooled_at__gt=F("cooling_from"), reading__isnull=False),
                name="stores_cooling_is_whole",
            ),
        ]


class KitGiven(LedgerRow):
    """A person said to which benches a kit without a bench was given; the last row of a kit stands.

    Without such a row the kit may have reached every bench; a row without benches says to none.
    """

    kit = models.ForeignKey(Kit, on_delete=models.PROTECT, related_name="given")
    number = models.PositiveIntegerField()
    key = models.UUIDField(unique=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["kit", "number"]
        constraints = [
            models.UniqueConstraint(fields=["kit", "number"], name="stores_kit_given_in_order"),
        ]


class KitGivenTo(LedgerRow):
    """One of the benches that a kit was given to."""

    given = models.ForeignKey(KitGiven, on_delete=models.PROTECT, related_name="places")
    place = models.ForeignKey(Place, on_delete=models.PROTECT, related_name="kits_given")

    class Meta:
        ordering = ["given", "place"]
        constraints = [
            models.UniqueConstraint(fields=["given", "place"], name="stores_kit_given_to_a_bench_once"),
        ]
