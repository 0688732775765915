"""The hands of one file of tests wait for its next race, and go home after it."""

import pytest

from tests.faults.workshop import dismiss_all


@pytest.fixture(autouse=True, scope="module")
def hands_go_home():
    yield
    dismiss_all()
