"""Techniques are written down together with what they need and how they fail."""

import pytest

from curriculum.people.models import User
from curriculum.techniques.actions import add_techniques
from curriculum.techniques.entries import FaultEntry, TechniqueEntry
from curriculum.techniques.models import Prerequisite, Technique

FAULT = FaultEntry("pinning_out_1", "The paste tears.", "It is too cold.", "Let it stand five minutes.")
PINNING = TechniqueEntry(
    "pinning_out", "Pinning out", "foundation", "Even to the edge.", ("resting",), (FAULT,)
)
RESTING = TechniqueEntry("resting", "Resting a paste", "foundation", "Firm, not hard.")


@pytest.fixture
def manager(db):
    """Who keeps the list."""
    return User.objects.create_user("hilde", "Hilde Rickmans")


def test_what_a_technique_needs_may_stand_later_among_the_entries(manager):
    add_techniques(entries=[PINNING, RESTING], by=manager)
    assert list(Prerequisite.objects.values_list("technique__code", "needs__code")) == [
        ("pinning_out", "resting")
    ]
    assert Technique.objects.get(code="pinning_out").faults.get().remedy == "Let it stand five minutes."


def test_a_technique_that_needs_an_unknown_one_leaves_nothing_half_written(manager):
    with pytest.raises(KeyError):
        add_techniques(entries=[PINNING], by=manager)
    assert not Technique.objects.exists()


def test_a_technique_without_a_cue_is_never_made():
    with pytest.raises(ValueError, match="no cue"):
        TechniqueEntry("resting", "Resting a paste", "foundation", "")
