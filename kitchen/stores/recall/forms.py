"""The forms of a recall: what is looked for, and why everything is held."""

from django import forms

from curriculum.foods.models import Food, Supplier
from curriculum.look.fields import DayField
from curriculum.look.forms import EnamelForm, KeyedForm
from curriculum.wording import counted, listed
from kitchen.stores.barcodes import read
from kitchen.stores.models import Lot
from kitchen.stores.recall.queries import Asked, lots_asked, place_named

#: How many lots one recall takes; more of them are asked for in parts, so that a sheet stays readable
#: (our own choice, no source).
MOST_LOTS = 60


class FindForm(EnamelForm):
    """Our lot, a supplier's batch, a scan or a bench's code; or supplier, food and days."""

    not_done = "Nothing is found yet."
    text = forms.CharField(
        max_length=200,
        required=False,
        label="Lot, supplier’s batch or scan",
        help_text="The code of a kit or of a bench’s sheet leads back from the plate.",
    )
    supplier = forms.ModelChoiceField(
        Supplier.objects.order_by("name"), required=False, empty_label="Any", label="Supplier"
    )
    food = forms.ModelChoiceField(
        Food.objects.filter(from_tap=False).order_by("name"), required=False, empty_label="Any", label="Food"
    )
    first = DayField(required=False, label="Received from")
    last = DayField(required=False, label="Received until")

    def __init__(self, year: int, *args: object, **more: object) -> None:
        self.year, self.place, self.lots = year, "", []
        super().__init__(*args, **more)

    def clean(self) -> dict:
        """Find the bench or the lots; say at the field what would help when there are none or too many."""
        said = super().clean()
        text = said.get("text", "").strip()
        if self.errors:
            return said
        if not text and not (said.get("supplier") and said.get("food")):
            self.add_error("text", "Write a lot or a batch, or choose supplier and food below.")
            return said
        self.place = place_named(text)
        if not self.place:
            self._find_lots(text, said)
        return said

    def _find_lots(self, text: str, said: dict) -> None:
        keys = {name: said[name].pk if said.get(name) else None for name in ("supplier", "food")}
        batch = read(text, self.year).batch if text else ""
        asked = Asked(text, batch, first=said.get("first"), last=said.get("last"), **keys)
        self.lots = lots_asked(asked)
        if not self.lots:
            self.add_error("text", "No lot in the book has this code or batch. Look at the pack again.")
        elif len(self.lots) > MOST_LOTS:
            found = counted(len(self.lots), "lot")
            self.add_error("first", f"These are {found}; one recall takes {MOST_LOTS}. Write fewer days.")
        elif text and not keys["supplier"]:
            self._demand_one_supplier(self.lots)

    def _demand_one_supplier(self, lots: list[Lot]) -> None:
        names = sorted({lot.supplier.name if lot.supplier else "nobody known" for lot in lots})
        if len(names) > 1:
            self.add_error("supplier", f"This batch came from {listed(names)}. Choose the supplier.")


class HoldAllForm(KeyedForm):
    """Hold all lots of a recall, with the reason."""

    not_done = "Nothing is held yet."
    submit_words = "Hold everything left"
    why = forms.CharField(max_length=120, label="Why it is held")
