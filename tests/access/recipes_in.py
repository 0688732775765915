"""Who may bring a recipe in from a file or a text."""

from tests.access_matrix import Row, answers

LECTURERS = "lecturer other_lecturer cover"
TEXT = "Oat rounds\nMakes 12 rounds.\n\n50 g butter\n\nMethod\n1. Rub in.\n"
BROKEN = '{"@type": "Recipe", "name": '

ROWS = (
    Row("recipes:bring_in", "GET", answers(200, LECTURERS, rest=403)),
    Row("recipes:bring_in", "POST", answers(200, LECTURERS, rest=403), data={"text": TEXT}),
    Row("recipes:bring_in", "POST", answers(200, LECTURERS, rest=403), data={"text": BROKEN}),
    Row("recipes:bring_in", "POST", answers(200, LECTURERS, rest=403), data={"source": BROKEN}),
    Row("recipes:bring_in", "POST", answers(200, LECTURERS, rest=403), data={"source": TEXT, "again": "1"}),
)
