"""Who may look at the foods of the book, and who writes their figures, labels and prices."""

from curriculum.foods.models import Food, YieldFigure
from tests.access_matrix import Row, answers

STAFF = "lecturer other_lecturer cover stores technician second_marker verifier manager"
WRITERS = "lecturer other_lecturer cover stores technician"
BUTTER = {"food": "butter"}


def figure(cast):
    """A table's figure of the food."""
    food = Food.objects.get(code="butter")
    row = YieldFigure.objects.create(food=food, usable_per_mille=900, source="A table")
    return BUTTER | {"figure": row.pk}


def writers(url, status=302, **more):
    return Row(url, "POST", answers(status, WRITERS, rest=403), **({"kwargs": BUTTER} | more))


ROWS = (
    Row("foods:list", "GET", answers(200, STAFF, rest=403)),
    Row("foods:new", "GET", answers(200, WRITERS, rest=403)),
    Row("foods:new", "POST", answers(200, WRITERS, rest=403)),
    Row("foods:food", "GET", answers(200, STAFF, rest=403), BUTTER),
    *(
        row
        for name in ("edit", "label", "new_test", "new_price")
        for row in (
            Row(f"foods:{name}", "GET", answers(200, WRITERS, rest=403), BUTTER),
            writers(f"foods:{name}", 200),
        )
    ),
    writers("foods:use_own", 409),
    writers("foods:use_table", kwargs=figure),
    writers("foods:retire"),
    writers("foods:bring_back"),
    Row("recipes:with_food", "GET", answers(200, STAFF, rest=403), BUTTER),
)
