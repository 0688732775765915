"""Who may look at the foods of the book and add to them."""

from tests.access_matrix import Row, answers

STAFF = "lecturer other_lecturer cover stores technician second_marker verifier manager"
WRITERS = "lecturer other_lecturer cover stores technician"

ROWS = (
    Row("foods:list", "GET", answers(200, STAFF, rest=403)),
    Row("foods:new", "GET", answers(200, WRITERS, rest=403)),
    Row("foods:new", "POST", answers(200, WRITERS, rest=403)),
)
