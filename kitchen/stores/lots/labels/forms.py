"""The forms of the label on one lot's own pack: read it whole, or say that it is the same as another's."""

from collections.abc import Sequence

from django import forms

from curriculum.look.forms import KeyedForm
from kitchen.stores.entries import LabelRead
from kitchen.stores.lots.forms import LabelForm
from kitchen.stores.models import Lot


class LotLabelForm(LabelForm):
    """What the pack of one lot says. Nothing is ticked before, unless this pack was read already."""

    def __init__(self, *args: object, lot: Lot, **more: object) -> None:
        kinds = {"contains": lot.label_allergens, "may_contain": lot.label_may_contain}
        super().__init__(*args, food=lot.food, kinds=kinds, facts={}, **more)


class SameLabelForm(KeyedForm):
    """The label of this pack says what the label of another lot said; a person has read this pack too."""

    not_done = "This pack counts as not read yet."
    submit_words = "Write it down for this pack"
    same_as = forms.ChoiceField(
        label="The same label as",
        widget=forms.RadioSelect,
        error_messages={
            "invalid_choice": "What that lot says was written anew since this page was opened. Look again."
        },
    )
    read_here = forms.BooleanField(
        error_messages={"required": "Read this pack too, all of its label, and tick that you did."}
    )

    def __init__(self, *args: object, lot: Lot, others: Sequence[tuple[Lot, str]], **more: object) -> None:
        super().__init__(*args, prefix="same", **more)
        self.others = {_as_seen(other): other for other, _ in others}
        words = [(_as_seen(other), f"Lot {other.code}: {says}") for other, says in others]
        self.fields["same_as"].choices = words
        self.fields[
            "read_here"
        ].label = f"I have read the pack of lot {lot.code} itself, and it says the same"

    def other(self) -> Lot:
        """The lot whose label says the same."""
        return self.others[self.cleaned_data["same_as"]]

    def read(self) -> LabelRead:
        """What both packs say."""
        other = self.other()
        return LabelRead(tuple(other.label_allergens), tuple(other.label_may_contain))


def _as_seen(lot: Lot) -> str:
    """A lot with what its label says, so that nobody confirms what they have not read."""
    return f"{lot.code}:{','.join(lot.label_allergens)}:{','.join(lot.label_may_contain)}"
