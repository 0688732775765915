"""Who may look at rooms."""

from tests.access_matrix import Row, answers

STAFF = "lecturer other_lecturer cover stores technician second_marker verifier manager"

ROWS = (
    Row("rooms:list", "GET", answers(200, STAFF, rest=403)),
    Row("rooms:room", "GET", answers(200, STAFF, rest=403), {"room": "quince"}),
    Row("rooms:listed", "GET", answers(200, STAFF, rest=403)),
    Row("rooms:listed", "POST", answers(302, "manager", rest=403), data={"kinds": ["slicer"]}),
)
