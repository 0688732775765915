"""Who may open the pages of what lessons teach the stores, and who decides there."""

from uuid import uuid4

from curriculum.foods.models import Food, YieldTest
from kitchen.stores.learning.actions import write_allowance
from kitchen.stores.learning.queries import learned
from tests.access_matrix import Row, answers
from tests.builders.cast import TERM

LECTURERS = "lecturer other_lecturer cover"
READ = answers(200, f"stores technician manager {LECTURERS}", rest=403)
DECIDE = answers(200, f"stores {LECTURERS}", rest=403)
DECIDE_POST = answers(302, f"stores {LECTURERS}", rest=403)


def keyed(cast):
    return {"key": str(uuid4())}


def weighed(cast):
    """Three yield tests propose another usable share."""
    butter = Food.objects.get(code="butter")
    for usable in (900_000, 910_000, 920_000):
        YieldTest.objects.create(
            food=butter, on=TERM, purchased_milligrams=10**6, usable_milligrams=usable, by=cast.stores
        )
    return {"kind": "usable", "of": "all", "food": "butter"}


def accepted(cast):
    (proposal,) = learned().proposals
    return keyed(cast) | {"decision": "accept", "words": "", "seen": proposal.mark}


def an_allowance(cast):
    """One that stands already."""
    butter = Food.objects.get(code="butter")
    row = write_allowance(food=butter, technique=None, per_mille=50, words="Ours.", by=cast.stores)
    return {"number": row.pk}


ROWS = (
    Row("stores:learning", "GET", READ, lambda cast: weighed(cast) and {}),
    Row("stores:learned", "GET", READ, weighed),
    Row("stores:learned", "POST", DECIDE_POST, weighed, accepted),
    Row("stores:take_back_figure", "GET", DECIDE, an_allowance),
    Row("stores:take_back_figure", "POST", DECIDE_POST, an_allowance, lambda c: keyed(c) | {"words": "No."}),
    Row("stores:allowance", "GET", DECIDE),
    Row(
        "stores:allowance",
        "POST",
        DECIDE_POST,
        {},
        lambda cast: keyed(cast) | {"food": "butter", "technique": "", "per_cent": "5", "words": "Ours."},
    ),
)
