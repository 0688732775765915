"""What a tap on the page of the day sends."""

from django import forms

from kitchen.lessons.forms import ButtonForm
from kitchen.timeplan.models import What


class TapForm(ButtonForm):
    """One tap: what happened, to what, and when the device says it was (without: now)."""

    what = forms.ChoiceField(choices=What.choices)
    bench = forms.CharField(max_length=8, required=False)
    step = forms.IntegerField(min_value=0, max_value=999, required=False)
    part = forms.IntegerField(min_value=0, max_value=99, required=False)
    oven = forms.CharField(max_length=40, required=False)
    minutes = forms.IntegerField(min_value=1, max_value=120, required=False)
    undoes = forms.IntegerField(min_value=1, required=False)
    seen = forms.IntegerField(min_value=0, required=False)
    device_at = forms.DateTimeField(required=False, input_formats=["%Y-%m-%dT%H:%M:%S.%fZ"])


class AcceptForm(ButtonForm):
    """The re-plan that the page showed, as it was sealed."""

    proposal = forms.CharField(max_length=200_000)


class LearnForm(ButtonForm):
    """The technique whose pace is accepted."""

    technique = forms.SlugField(max_length=40)
