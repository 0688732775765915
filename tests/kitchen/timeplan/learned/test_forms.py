"""By which minutes a lesson is planned: one of two, anything else is refused."""

import pytest

from curriculum.errors import RuleBroken
from kitchen.timeplan.learned.forms import MinutesForm


@pytest.mark.parametrize(("minutes", "by_recipe"), [("recipe", True), ("learned", False)])
def test_one_of_two_is_chosen(minutes, by_recipe):
    assert MinutesForm({"minutes": minutes}).by_recipe() is by_recipe


def test_anything_else_is_refused():
    with pytest.raises(RuleBroken):
        MinutesForm({}).by_recipe()
