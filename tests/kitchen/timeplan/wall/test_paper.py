"""The picture on paper: black only, the size that was asked for, its plan's stamp on each page."""

import io

import pytest
from pypdf import PdfReader

from kitchen.timeplan.wall.paper import wall_paper
from tests.builders.timeplan_plans import a_bench, a_plan

MM = 72 / 25.4


@pytest.mark.parametrize(("paper", "wide", "high"), [("A3", 420, 297), ("A4", 297, 210)])
@pytest.mark.parametrize("count", [7, 30])
def test_it_has_its_size_its_benches_and_its_stamp(paper, wide, high, count):
    plan = a_plan(*(a_bench(n) for n in range(1, count + 1)))
    reader = PdfReader(io.BytesIO(wall_paper(plan, "Tuesday.", "Plan 3, 16 Feb 2027 09:42", paper)))
    texts = [page.extract_text() for page in reader.pages]
    assert float(reader.pages[0].mediabox.width) == pytest.approx(wide * MM, abs=0.5)
    assert float(reader.pages[0].mediabox.height) == pytest.approx(high * MM, abs=0.5)
    assert all("Plan 3, 16 Feb 2027 09:42" in text for text in texts)
    whole = " ".join(texts)
    assert all(f"Bench {n}" in whole for n in range(1, count + 1))
    assert "180\xa0°C" in whole or "180 °C" in whole
    assert "Ada" not in whole


def test_it_is_black_and_white_only():
    reader = PdfReader(io.BytesIO(wall_paper(a_plan(a_bench(1, beside="young")), "Tuesday.", "Plan 1", "A3")))
    content = b"\n".join(page.get_contents().get_data() for page in reader.pages)
    greys = {line.split()[0] for line in content.split(b"\n") if line.endswith((b" g", b" G"))}
    assert greys <= {b"0", b"1"}
    colours = [line for line in content.split(b"\n") if line.endswith((b" rg", b" RG"))]
    assert {line.rsplit(b" ", 1)[0] for line in colours} <= {b"0 0 0", b"1 1 1"}
