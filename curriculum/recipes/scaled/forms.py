"""What is asked of "Scale it": benches, portions, another tin, eggs, scales, a dough, a price.

Every field may stay empty and is then as the recipe has it. The form is sent by its address,
so that a page can be kept and handed on.
"""

import re
from dataclasses import dataclass, replace
from fractions import Fraction

from django import forms
from django.core.exceptions import ValidationError

from curriculum import wording
from curriculum.errors import RuleBroken
from curriculum.foods.forms import DegreesField, LengthField, PerCentField, WeightField
from curriculum.look.fields import WholeNumberField
from curriculum.look.forms import EnamelForm
from curriculum.look.reading import quoted
from curriculum.recipes import bakers, egg_counts, tins
from curriculum.recipes.bases import Filled
from curriculum.recipes.data import RecipeData, TinData
from curriculum.recipes.scaled.asked import Asked, Temperatures
from curriculum.recipes.weighing import Scales

AS_WRITTEN = ("", "as the recipe")
STEPS = {"10000": "10 g", "5000": "5 g", "2000": "2 g", "1000": "1 g", "500": "0.5 g", "100": "0.1 g"}
FINE_STEPS = {"1000": "1 g", "500": "0.5 g", "100": "0.1 g", "10": "0.01 g"}
NO_FINE = "none"
MEASURES = ("diameter_mm", "length_mm", "width_mm", "depth_mm")
DOUGH_TEMPERATURES = ("wanted", "flour_at", "room_at", "friction")


@dataclass(frozen=True, slots=True)
class Part:
    """A group of fields with its heading; ``is_open`` where something of it was written or refused."""

    title: str
    fields: tuple[forms.BoundField, ...]
    is_open: bool
    help: str = ""


class PriceField(forms.Field):
    """A price in pounds, "4.50" or "£4.50"; whole pence."""

    def __init__(self, **more: object) -> None:
        more.setdefault("widget", forms.TextInput(attrs={"class": "short", "inputmode": "decimal"}))
        super().__init__(**more)

    def to_python(self, value: object) -> int | None:
        """Pence, or None when nothing was written."""
        text = str(value or "").strip()
        if not text:
            return None
        if not re.fullmatch(r"£?\s*\d{1,5}([.,]\d{1,2})?", text):
            raise ValidationError(f"You wrote {quoted(text)}. Write a price such as 4.50.")
        pence = int(Fraction(text.lstrip("£ ").replace(",", ".")) * 100)
        if not pence:
            raise ValidationError(f"You wrote {quoted(text)}. Write a price above nothing.")
        return pence


class ScaleItForm(EnamelForm):
    """Everything that may be asked. ``costs`` adds the price, for those who see what a recipe costs."""

    not_done = "Not scaled yet."
    submit_words = "Scale it"

    benches = WholeNumberField(label="Benches", least=1, most=200, such_as=7, required=False)
    portions = WholeNumberField(label="Portions a bench", least=1, most=1000, such_as=16, required=False)
    portion_weight = WeightField(label="Weight of a portion", required=False)
    learners = WholeNumberField(label="Learners in the class", least=1, most=500, such_as=14, required=False)

    fill_inside = forms.ChoiceField(
        label="Volume is measured",
        required=False,
        choices=(("", "inside the paste"), ("outside", "outside the paste")),
    )
    old_part = PerCentField(label="The recipe fills its tin to", required=False)
    new_part = PerCentField(label="Fill the tin to", required=False)

    egg_size = forms.ChoiceField(label="Eggs in hand", required=False)
    bloom = WholeNumberField(
        label="Bloom of the gelatine in hand", least=50, most=400, such_as=200, required=False
    )
    leaf = WeightField(label="A leaf of it weighs", required=False)

    bulk_step = forms.ChoiceField(
        label="The bench scale shows", required=False, choices=[("", "as each food says"), *STEPS.items()]
    )
    small_step = forms.ChoiceField(
        label="Salt, raising agent, gel and spice",
        required=False,
        choices=[("", "as each food says"), *FINE_STEPS.items()],
    )
    fine_step = forms.ChoiceField(
        label="Under 20 g",
        required=False,
        choices=[
            ("", "0.5 g, under 5 g 0.1 g"),
            (NO_FINE, "there is no fine scale"),
            *FINE_STEPS.items(),
        ],
    )
    pool = forms.BooleanField(
        label="Weigh once for all benches what the scale cannot show for one", required=False
    )

    dough = WeightField(label="Make so much dough", required=False)
    known_food = forms.ChoiceField(label="Or from this food", required=False)
    known_weight = WeightField(label="of which there is", required=False)
    wanted = DegreesField(label="The dough comes out at", required=False)
    flour_at = DegreesField(label="Flour", required=False)
    room_at = DegreesField(label="Room", required=False)
    friction = DegreesField(label="The mixer warms it by", required=False)
    preferment = DegreesField(label="Preferment, if there is one", required=False)
    tap = DegreesField(label="The cold tap gives", required=False, help_text="12 °C when left empty.")

    price = PriceField(label="A portion is sold at", required=False)
    share = PerCentField(label="Food cost wanted", required=False)

    def __init__(self, *args: object, recipe: RecipeData, costs: bool, **more: object) -> None:
        super().__init__(*args, **more)
        self.recipe = recipe
        self.doughs = bakers.doughs(recipe)
        for number, tin in enumerate(recipe.tins, start=1):
            self._add_tin(number, tin)
        self._fill_choices()
        self._drop([] if costs else ["price", "share"])

    def _fill_choices(self) -> None:
        sizes = egg_counts.SHELL_MILLIGRAMS
        self.fields["egg_size"].choices = [
            AS_WRITTEN,
            *((size, f"{size}, about {wording.amount(each)} in the shell") for size, each in sizes.items()),
        ]
        known = dict.fromkeys(food for _, shares in self.doughs for food in shares)
        self.fields["known_food"].choices = [
            ("", "none in particular"),
            *((food, self.recipe.food(food).name) for food in known),
        ]
        written = wording.amount(self.recipe.portion_milligrams) if self.recipe.portion_milligrams else ""
        self.fields["portion_weight"].help_text = f"Written: {written}." if written else ""
        self.fields["benches"].initial, self.fields["portions"].initial = 1, self.recipe.portions_stated
        self.fields["portions"].help_text = f"Written: {self.recipe.portions_stated}."
        if not written:
            self._drop(["portion_weight"])

    def _drop(self, more: list[str]) -> None:
        """Fields that this recipe has no use for."""
        foods = self.recipe.foods
        dropped = list(more)
        if not self.recipe.tins:
            dropped += ["fill_inside", "old_part", "new_part"]
        if not any(egg_counts.is_egg(food) for food in foods):
            dropped.append("egg_size")
        if not any(food.gelatine_bloom for food in foods):
            dropped += ["bloom", "leaf"]
        if not self.doughs:
            dropped += ["dough", "known_food", "known_weight", *DOUGH_TEMPERATURES, "preferment", "tap"]
        for name in dropped:
            self.fields.pop(name, None)

    def _add_tin(self, number: int, tin: TinData) -> None:
        fields = {
            "shape": forms.ChoiceField(
                label=f"In place of the {tins.words(tin)}",
                required=False,
                choices=[AS_WRITTEN, *tins.SHAPE_WORDS.items()],
            ),
            "count": WholeNumberField(label="How many a bench", least=1, most=200, such_as=1, required=False),
            "diameter_mm": LengthField(label="Diameter", required=False),
            "length_mm": LengthField(label="Length, or side", required=False),
            "width_mm": LengthField(label="Width", required=False),
            "depth_mm": LengthField(label="Depth", required=False),
            "volume_ml": WholeNumberField(
                label="Or its volume", least=1, most=100_000, such_as=100, unit="ml", required=False
            ),
        }
        for name, field in fields.items():
            self.fields[f"tin{number}_{name}"] = field

    def parts(self) -> list[Part]:
        """The groups of fields under the first four, in the order of the page."""
        tin_fields = [name for name in self.fields if name.startswith("tin")]
        groups = (
            (
                "Another tin",
                [*tin_fields, "fill_inside", "old_part", "new_part"],
                "What is left empty stays as the recipe has it.",
            ),
            ("Eggs and gelatine", ["egg_size", "bloom", "leaf"], ""),
            ("Scales", ["bulk_step", "small_step", "fine_step", "pool"], ""),
            ("So much dough", ["dough", "known_food", "known_weight"], ""),
            ("Water of the dough", [*DOUGH_TEMPERATURES, "preferment", "tap"], ""),
            ("Price", ["price", "share"], ""),
        )
        made = []
        for title, names, words in groups:
            fields = tuple(self[name] for name in names if name in self.fields)
            if fields:
                made.append(Part(title, fields, any(each.errors or each.value() for each in fields), words))
        return made

    def first(self) -> list[forms.BoundField]:
        """The fields that are always in sight."""
        names = ("benches", "portions", "portion_weight", "learners")
        return [self[name] for name in names if name in self.fields]

    def clean(self) -> dict:
        """What belongs together is written together; a new tin has measures enough."""
        said = super().clean()
        self._demand_together(("known_food", "known_weight"))
        if any(said.get(name) is not None for name in (*DOUGH_TEMPERATURES, "preferment")):
            self._demand_together(DOUGH_TEMPERATURES, any_of=True)
        for number, tin in enumerate(self.recipe.tins, start=1):
            self._check_tin(number, self._new_tin(number, tin))
        return said

    def _demand_together(self, names: tuple[str, ...], any_of: bool = False) -> None:
        said = [self.cleaned_data.get(name) for name in names]
        if not any_of and not any(said):
            return
        for name, value in zip(names, said, strict=True):
            if name in self.fields and value in (None, "") and name not in self.errors:
                self.add_error(name, "This is needed too.")

    def _tin_said(self, number: int) -> dict:
        names = ("shape", "count", *MEASURES, "volume_ml")
        said = {name: self.cleaned_data.get(f"tin{number}_{name}") for name in names}
        return {name: value for name, value in said.items() if value}

    def _new_tin(self, number: int, tin: TinData) -> TinData:
        said = self._tin_said(number)
        if said.get("shape", tin.shape) != tin.shape:
            tin = replace(tin, diameter_mm=None, length_mm=None, width_mm=None, volume_ml=None)
        elif any(name in said for name in MEASURES):
            tin = replace(tin, volume_ml=None)
        return replace(tin, **said)

    def _check_tin(self, number: int, tin: TinData) -> None:
        if not self._tin_said(number):
            return
        try:
            if tin.lined_with is not None:
                tins.lined_area(tin)
            tins.filled_volume(tin, self._filled().inside)
        except RuleBroken as error:
            measure = error.facts.get("measure")
            name = f"tin{number}_{measure or 'depth'}_mm"
            missing = f"The {tins.words(tin)} needs its {measure}, in centimetres, or its volume."
            if name not in self.errors:
                self.add_error(name, missing if measure else error.message)

    def _filled(self) -> Filled:
        said = self.cleaned_data
        parts = (Fraction(said.get(name) or 1000, 1000) for name in ("old_part", "new_part"))
        return Filled(said.get("fill_inside") != "outside", *parts)

    def asked(self) -> Asked:
        """What was asked, of a form that is valid; of one that was not sent, the recipe as written."""
        said = self.cleaned_data if self.is_bound else {}
        if not self.is_bound:
            return Asked(self.recipe.portions_stated)
        changed = any(self._tin_said(number) for number, _ in enumerate(self.recipe.tins, start=1))
        new = tuple(self._new_tin(number, tin) for number, tin in enumerate(self.recipe.tins, start=1))
        return Asked(
            portions=said["portions"] or self.recipe.portions_stated,
            benches=said["benches"] or 1,
            learners=said["learners"],
            portion_milligrams=said.get("portion_weight"),
            tins=new if changed else None,
            filled=self._filled(),
            shell_milligrams=egg_counts.SHELL_MILLIGRAMS.get(said.get("egg_size", "")),
            scales=_scales(said),
            pool=said["pool"],
            bloom=said.get("bloom"),
            leaf_milligrams=said.get("leaf"),
            dough_milligrams=said.get("dough"),
            known_food=said.get("known_food", ""),
            known_milligrams=said.get("known_weight"),
            temperatures=_temperatures(said),
            selling_pence=said.get("price"),
            share_per_mille=said.get("share"),
        )


def _scales(said: dict) -> Scales:
    fine = said["fine_step"]
    return Scales(
        bulk=int(said["bulk_step"]) if said["bulk_step"] else None,
        small=int(said["small_step"]) if said["small_step"] else None,
        fine=int(fine) if fine and fine != NO_FINE else None,
        no_fine=fine == NO_FINE,
    )


def _temperatures(said: dict) -> Temperatures | None:
    given = [said.get(name) for name in DOUGH_TEMPERATURES]
    if any(each is None for each in given):
        return None
    tap = said.get("tap")
    return Temperatures(*given, preferment=said.get("preferment"), **({} if tap is None else {"tap": tap}))
