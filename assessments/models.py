"""The models of this app, from their topic folders, for Django to find."""

from assessments.feedback.models import Draft, HandedBack, SelfScore
from assessments.marking.models import MarkEntry, Photograph, Remark, Sheet, Sitting
from assessments.schemes.models import Brief, Criterion, Scheme, SchemeVersion
from assessments.verification.models import Decision, Result, Sample, SampleItem

__all__ = [
    "Brief",
    "Criterion",
    "Decision",
    "Draft",
    "HandedBack",
    "MarkEntry",
    "Photograph",
    "Remark",
    "Result",
    "Sample",
    "SampleItem",
    "Scheme",
    "SchemeVersion",
    "SelfScore",
    "Sheet",
    "Sitting",
]
