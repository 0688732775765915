"""Feedback that was handed back, on top of a marked lesson."""

from assessments.feedback.actions import hand_back
from assessments.feedback.models import HandedBack
from assessments.marking.models import Sitting
from tests.builders.cast import Cast
from tests.builders.marking import WEAK, marked

FAULTS = {"technique.rubbing_in": ["rubbing_in_1"]}


def weakly_marked(cast: Cast) -> Sitting:
    """A submitted sitting with one technique below the standard and its fault tapped."""
    return marked(cast, WEAK, FAULTS)


def handed_back(cast: Cast) -> HandedBack:
    """The same, handed back by the lesson's lecturer."""
    return hand_back(sitting=weakly_marked(cast), by=cast.lecturer)
