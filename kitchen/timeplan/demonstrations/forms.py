"""How long a demonstration takes and what it shows live; or stage by stage, as a person wants it."""

from django import forms

from curriculum.look.fields import WholeNumberField
from curriculum.look.forms import EnamelForm, KeyedForm
from curriculum.recipes.data import RecipeData, StepData
from kitchen.timeplan.demonstration_data import Demonstration, Shown
from kitchen.timeplan.demonstrations.queries import Shows
from kitchen.timeplan.models import DemonstrationPlan

LEAST, MOST = 5, 240
#: What a demonstration is given when nobody said otherwise. Common practice, no source.
USUAL_MINUTES = 45
NOT_SHOWN = "not_shown"
WAY_CHOICES = (
    (NOT_SHOWN, "Not shown"),
    ("live", "Live"),
    ("swapped", "Live, then the finished one comes in"),
    ("stage_tray", "Stage tray"),
)


class SlotForm(EnamelForm):
    """Minutes, and the techniques that are to be seen live."""

    not_done = "Not planned yet."
    submit_words = "Show the plan"
    minutes = WholeNumberField(
        label="Minutes you give it", least=LEAST, most=MOST, such_as=USUAL_MINUTES, unit="minutes"
    )
    technique = forms.MultipleChoiceField(
        label="To be seen live", required=False, widget=forms.CheckboxSelectMultiple
    )

    def __init__(self, shows: Shows, row: DemonstrationPlan | None, *args: object, **more: object) -> None:
        self.usual = min(USUAL_MINUTES, max(LEAST, shows.lesson.usable_minutes))
        by_search = row is not None and not row.answer.get("by_hand")
        techniques = row.inputs.get("targets", []) if by_search else list(shows.usual_targets)
        self.begins_with = {"minutes": row.slot_minutes if row else self.usual, "technique": techniques}
        more.setdefault("initial", self.begins_with)
        super().__init__(*args, **more)
        self.fields["technique"].choices = list(shows.techniques.items())

    def asked(self) -> tuple[int | None, tuple[str, ...]]:
        """(minutes, techniques) as asked; minutes are None when nothing was asked yet."""
        if self.is_bound:
            return self.cleaned_data["minutes"], tuple(self.cleaned_data["technique"])
        return None, tuple(self.begins_with["technique"])


class TakeForm(SlotForm, KeyedForm):
    """The same, to be accepted: it carries its number."""


class StagesForm(KeyedForm):
    """Each step of the method: how it is shown and for how many minutes."""

    not_done = "Not taken yet."
    submit_words = "Take these stages"
    leave_words = "Leave it as it is"
    minutes = WholeNumberField(
        label="Minutes you give it", least=LEAST, most=MOST, such_as=USUAL_MINUTES, unit="minutes"
    )

    def __init__(
        self, recipe: RecipeData, standing: Demonstration | None, *args: object, **more: object
    ) -> None:
        shown = {stage.step: stage for stage in standing.stages} if standing else {}
        self.steps = [step for step in recipe.steps if step.active_minutes]
        super().__init__(*args, **more)
        self.fields["minutes"].initial = standing.slot if standing else USUAL_MINUTES
        for step in self.steps:
            stage = shown.get(step.position)
            self.fields[f"way_{step.position}"] = forms.ChoiceField(
                label=f"Step {step.position}: {step.words}",
                choices=WAY_CHOICES,
                initial=stage.way if stage else NOT_SHOWN,
            )
            self.fields[f"minutes_{step.position}"] = WholeNumberField(
                label=f"Minutes of step {step.position}",
                least=1,
                most=MOST,
                such_as=5,
                unit="minutes",
                required=False,
                initial=stage.minutes if stage else step.active_minutes,
            )

    @property
    def rows(self) -> list[tuple[StepData, forms.BoundField, forms.BoundField]]:
        """Each step with its two fields, for the page."""
        return [(step, self[f"way_{step.position}"], self[f"minutes_{step.position}"]) for step in self.steps]

    def clean(self) -> dict:
        """A stage that is shown has its minutes."""
        facts = super().clean() or self.cleaned_data
        for step in self.steps:
            name = f"minutes_{step.position}"
            shown = facts.get(f"way_{step.position}", NOT_SHOWN) != NOT_SHOWN
            if shown and name in facts and not facts[name]:
                self.add_error(name, "This is empty. Write a whole number, such as 5.")
        return facts

    def stages(self) -> tuple[Shown, ...]:
        """The stages as asked, in the order of the method."""
        return tuple(
            Shown(step.position, self._way(step), self.cleaned_data[f"minutes_{step.position}"])
            for step in self.steps
            if self._way(step) != NOT_SHOWN
        )

    def _way(self, step: StepData) -> str:
        return self.cleaned_data[f"way_{step.position}"]
