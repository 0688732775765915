"""The choice of the group."""

import pytest

from kitchen.timeplan.chance import GROUPS
from kitchen.timeplan.slips.forms import GroupForm


@pytest.mark.parametrize(
    ("said", "wanted"), [("first", "first"), ("quick", "quick"), ("", "practised"), ("x", "practised")]
)
def test_the_pace_is_that_of_the_group_chosen(said, wanted):
    assert GroupForm({"group": said}).pace() == GROUPS[wanted]
