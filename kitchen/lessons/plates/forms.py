"""How many plates a bench makes beside those that its learners make for themselves."""

from django import forms

from curriculum.look.fields import WholeNumberField
from curriculum.look.forms import KeyedForm
from kitchen.lessons.models import Lesson
from kitchen.lessons.plates.actions import Plates

#: More plates of one kind from one bench is a slip of the keys: our own choice, no source.
MOST = 6


def _box(label: str, help_text: str) -> WholeNumberField:
    return WholeNumberField(
        label=label, least=0, most=MOST, such_as=1, unit="a bench", required=False, help_text=help_text
    )


class PlatesForm(KeyedForm):
    """Plates for tasting, the photograph and the second marker; ``plates`` gives them."""

    not_done = "The plates are not kept yet."
    submit_words = "Keep the plates"
    leave_words = "Leave them as they are"

    tasting = _box("For tasting", "What the lecturer tastes, where it is not a plate of the learners.")
    photograph = _box("For the photograph", "A plate that stays whole until it is photographed.")
    second_marker = _box("For the second marker", "A plate of each bench for whoever marks second.")

    within = forms.BooleanField(
        required=False,
        label="Take them out of the portions that a bench makes already",
        help_text="Such as wedges of one quiche: then nothing more is weighed. One portion more than a tin "
        "holds is a whole tin more.",
    )

    def __init__(self, *args: object, standing: Plates, lesson: Lesson, **more: object) -> None:
        propose = lesson.assessed and not standing.second_marker
        began = {
            "tasting": standing.tasting,
            "photograph": standing.photograph,
            "second_marker": 1 if propose else standing.second_marker,
        }
        super().__init__(*args, initial=began, **more)
        if propose:
            self.fields["second_marker"].help_text += " One is proposed, since the lesson is assessed."

    def plates(self) -> Plates:
        """What was asked for; an empty box is none."""
        names = ("tasting", "photograph", "second_marker")
        return Plates(*(self.cleaned_data[name] or 0 for name in names))
