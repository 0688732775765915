import csv
import io
from dataclasses import replace

import pytest

from curriculum.recipes.interchange import table
from tests.builders.cast import shortbread


@pytest.mark.parametrize("begin", ["=", "+", "-", "@", "\t", "\r"])
def test_no_cell_begins_like_a_formula(begin):
    recipe = shortbread()
    first = recipe.components[0]
    lines = (replace(first.lines[0], note=f"{begin}1+1"), *first.lines[1:])
    rows = list(
        csv.reader(
            io.StringIO(table.write(replace(recipe, components=(replace(first, lines=lines),))), newline="")
        )
    )
    assert rows[1][-1] == f"'{begin}1+1" and tuple(rows[0]) == table.HEADS
