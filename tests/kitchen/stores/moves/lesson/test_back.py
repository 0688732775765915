"""What comes back is shared out over the lines that took it, the spare kit first."""

import pytest

from kitchen.stores.moves.lesson.back import REWORK, CameBack, Out, less, shared_out

OUTS = [Out(1, 10, "bench", 300), Out(1, 11, "spare", 200), Out(1, 9, "bench", 100)]


@pytest.mark.parametrize(
    ("milligrams", "shares"),
    [
        (350, [(11, 200), (9, 100), (10, 50)]),
        (200, [(11, 200)]),
        (600, [(11, 200), (9, 100), (10, 300)]),
        (0, []),
    ],
)
def test_the_spare_kit_gives_first_and_the_benches_last(milligrams, shares):
    assert shared_out(milligrams, OUTS) == shares
    assert sum(each.milligrams for each in less(OUTS, shares)) == 600 - milligrams


def test_more_than_is_out_is_refused():
    with pytest.raises(ValueError):
        shared_out(601, OUTS)


@pytest.mark.parametrize("nonsense", [{}, {"sealed_milligrams": -1}, {"opened_milligrams": 5}])
def test_nothing_or_opened_food_that_becomes_nothing_is_no_entry(nonsense):
    with pytest.raises(ValueError):
        CameBack(1, **nonsense)


def test_everything_that_came_back_is_sealed_and_opened_together():
    assert CameBack(1, 200, 300, REWORK).milligrams == 500
