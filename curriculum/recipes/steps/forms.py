"""Writing one step: its deed and cue, the hands, where the food stays, what it comes after."""

from collections.abc import Iterator
from dataclasses import replace

from crispy_forms.helper import FormHelper
from crispy_forms.layout import Fieldset, Layout, Row
from django import forms

from curriculum.foods.forms import DegreesField, WeightField
from curriculum.look.fields import WholeNumberField
from curriculum.look.forms import KeyedForm
from curriculum.look.layouts import WRITES_ON_ENTER, ByGroup, FieldTable, one_more
from curriculum.recipes.data import AfterData, RecipeData, StayData, StepData, WayData
from curriculum.recipes.models import Stay
from curriculum.recipes.opened.forms import Opened
from curriculum.techniques.models import Level, Technique

#: Rows for stays that a new form has, and the most that one may have.
STAYS, MOST_STAYS = 4, 20
#: What one load of a machine needs and holds.
REACH = ("least_milligrams", "most_milligrams")
HANDS_AT = [
    ("bench", "bench"),
    ("ring", "ring"),
    ("mixer", "mixer"),
    ("food_processor", "food processor"),
    ("torch_station", "torch station"),
    ("pass", "pass"),
]
STAYS_IN = [
    ("", "nowhere"),
    ("bench", "on the bench"),
    ("oven", "oven"),
    ("ring", "ring"),
    ("chiller", "chiller"),
    ("blast_chiller", "blast chiller"),
    ("cool_cabinet", "cool cabinet"),
    ("prover", "prover"),
    ("freezer", "freezer"),
]
HEATS = [("", "none"), ("fan", "fan"), ("conventional", "conventional")]
KEPT = [("bench", "on the bench"), ("chilled", "chilled"), ("hot", "hot"), ("frozen", "frozen")]
#: Minutes are those of the portions stated; a part of them may grow with the number.
EACH_HELP = "Piping, turning, plating. Empty: it takes the same for any number."
#: A hold of three days is the longest that is written down.
LONGEST_MINUTES = 4320


def _minutes(label: str, **more: object) -> WholeNumberField:
    return WholeNumberField(
        label=label, least=0, most=LONGEST_MINUTES, such_as=20, unit="min", required=False, **more
    )


def _seconds(label: str, **more: object) -> WholeNumberField:
    return WholeNumberField(label=label, least=0, most=3600, such_as=40, unit="s", required=False, **more)


class StepForm(Opened, KeyedForm):
    """One step of a draft. ``recipe`` says which components and steps there are to name."""

    anchor = "words"

    not_done = "Not written yet."
    submit_words = "Write the step"
    leave_words = "Leave without writing"

    words = forms.CharField(
        label="What is done", max_length=600, widget=forms.Textarea(attrs={"rows": 3}), help_text="One deed."
    )
    cue = forms.CharField(
        label="Look for", required=False, max_length=400, help_text="How it looks when it is right."
    )
    caution = forms.CharField(label="Caution", required=False, max_length=400)
    components = forms.MultipleChoiceField(
        label="Uses", widget=forms.CheckboxSelectMultiple, required=False, choices=()
    )
    techniques = forms.MultipleChoiceField(
        label="Trains", required=False, widget=forms.CheckboxSelectMultiple, choices=()
    )
    usual = forms.ChoiceField(
        label="The usual way is",
        choices=[("hand", "by hand"), ("machine", "by machine")],
        widget=forms.RadioSelect,
        initial="hand",
    )
    hand_minutes = _minutes("By hand takes", help_text="Empty: it is not done by hand.")
    hand_portion_seconds = _seconds("By hand, each portion takes of it", help_text=EACH_HELP)
    hand_at = forms.ChoiceField(label="By hand at the", choices=HANDS_AT, required=False)
    hand_words = forms.CharField(label="By hand, how", required=False, max_length=300)
    machine_minutes = _minutes("By machine takes", help_text="Empty: there is no machine for it.")
    machine_portion_seconds = _seconds("By machine, each portion takes of it", help_text=EACH_HELP)
    machine_at = forms.ChoiceField(
        label="By machine at the", choices=HANDS_AT, initial="mixer", required=False
    )
    machine_words = forms.CharField(label="By machine, how", required=False, max_length=300)
    machine_least_milligrams = WeightField(label="A load is at least", required=False)
    machine_most_milligrams = WeightField(label="A load is at most", required=False)
    wait_first = forms.BooleanField(label="It waits first, then needs hands", required=False)
    core_decicelsius = DegreesField(label="Core at least", required=False)
    core_most_decicelsius = DegreesField(label="Core at most", required=False)
    core_seconds = WholeNumberField(
        label="Held for", least=1, most=36000, such_as=120, unit="s", required=False
    )
    target_of = forms.CharField(label="Another temperature, of", required=False, max_length=80)
    target_low_decicelsius = DegreesField(label="From", required=False)
    target_high_decicelsius = DegreesField(label="Up to", required=False)
    kept = forms.ChoiceField(label="Afterwards it is kept", choices=KEPT, required=False, initial="bench")
    ahead_possible = forms.BooleanField(label="It may be done before the lesson", required=False)
    supervised = forms.BooleanField(label="Only with the lecturer beside", required=False)
    shown_first = forms.BooleanField(label="It is shown first", required=False)
    checked_by_lecturer = forms.BooleanField(label="The lecturer looks before they go on", required=False)

    def __init__(
        self, *args: object, recipe: RecipeData, position: int | None = None, **more: object
    ) -> None:
        super().__init__(*args, **more)
        self.portions = recipe.portions_stated
        self.others = [step.position for step in recipe.steps if step.position != position]
        self.fields["components"].choices = [(each.code, each.name) for each in recipe.components]
        levels = self._name_techniques()
        self.fields["stay_rows"] = forms.CharField(widget=forms.HiddenInput, required=False)
        self.stays = self._rows()
        for number in range(1, self.stays + 1):
            self.add_fields(_stay_fields(number))
        for other in self.others:
            self.add_fields(_after_fields(recipe.step(other)))
        self.helper = FormHelper(self)
        self.helper.layout = _layout(self.stays, self.others, levels)

    def _name_techniques(self) -> dict[str, str]:
        rows = list(Technique.objects.filter(retired_at=None).values_list("code", "name", "level"))
        order = {level: place for place, level in enumerate(Level.values)}
        rows.sort(key=lambda row: order.get(row[2], len(order)))
        self.fields["techniques"].choices = [(code, name) for code, name, _ in rows]
        return {code: str(Level(level).label).capitalize() for code, _, level in rows}

    def _rows(self) -> int:
        """As many rows as were shown, and as many as the draft has by now."""
        asked = [self.initial.get("stay_rows"), self.data.get("stay_rows") if self.is_bound else None]
        rows = [int(str(each)) for each in asked if str(each).isdecimal() and len(str(each)) < 4]
        return min(max([STAYS, *rows]), MOST_STAYS)

    def with_one_more(self) -> dict:
        """What was typed, to open the form again with a row more for a stay."""
        return self.as_typed() | {"stay_rows": min(self.stays + 1, MOST_STAYS)}

    @staticmethod
    def initial_of(step: StepData) -> dict:
        """What the form shows of a step."""
        said = {name: getattr(step, name) for name in StepForm.base_fields if hasattr(step, name)}
        said |= {"components": list(step.components), "techniques": list(step.techniques)}
        for way in step.ways:
            said |= {f"{way.name}_minutes": way.active_minutes, f"{way.name}_at": way.at}
            said |= {f"{way.name}_words": way.words}
            said[f"{way.name}_portion_seconds"] = way.portion_seconds or None
            if way.name == "machine":
                said |= {f"machine_{end}": getattr(way, end) for end in REACH}
        said["usual"] = step.ways[0].name if step.ways else "hand"
        for number, stay in enumerate(step.stays, start=1):
            said |= {
                f"stay{number}_{name}": getattr(stay, name) for name in ("minutes", "decicelsius", "heat")
            }
            said[f"stay{number}_shelves"] = stay.shelves if stay.shelves > 1 else None
            said |= {f"stay{number}_door": stay.door, f"stay{number}_in": stay.appliance_kind or "bench"}
        said["stay_rows"] = max(STAYS, len(step.stays))
        for after in step.after:
            said |= {
                f"after_{after.needs}": True,
                f"after_{after.needs}_least": after.least_minutes or None,
                f"after_{after.needs}_longest": after.longest_minutes,
            }
        return said

    def clean(self) -> dict:
        """At least one way; each stay whole; nothing named twice; limits the right way round."""
        said = super().clean()
        if said.get("hand_minutes") is None and said.get("machine_minutes") is None:
            self.add_error("hand_minutes", "Nobody does it. Write the minutes by hand, by machine, or both.")
        elif said.get(f"{said.get('usual')}_minutes") is None and not self.errors:
            self.add_error("usual", "The usual way has no minutes. Choose the other one, or write them.")
        self._clean_stays(said)
        self._clean_after(said)
        self._clean_reach(said)
        for name in ("hand", "machine"):
            self._clean_portions(said, name)
        for low, high in (("core", "core_most"), ("target_low", "target_high")):
            least, most = said.get(f"{low}_decicelsius"), said.get(f"{high}_decicelsius")
            if least is not None and most is not None and least > most:
                self.add_error(
                    f"{high}_decicelsius", "This is below the lower end. Write the warmer one here."
                )
        return said

    def _clean_portions(self, said: dict, name: str) -> None:
        each, minutes = said.get(f"{name}_portion_seconds") or 0, said.get(f"{name}_minutes")
        if each and minutes is None:
            self.add_error(f"{name}_portion_seconds", "It takes no minutes this way. Write them first.")
        elif each and each * self.portions > minutes * 60:
            most = minutes * 60 // self.portions
            words = f"{self.portions} portions would take longer than {minutes} min. Write {most} s or less."
            self.add_error(f"{name}_portion_seconds", words)

    def _clean_reach(self, said: dict) -> None:
        least, most = (said.get(f"machine_{end}") for end in REACH)
        if least is not None and most is not None and least > most:
            self.add_error("machine_most_milligrams", "This is below the least load. Write more.")

    def _clean_stays(self, said: dict) -> None:
        for number in range(1, self.stays + 1):
            minutes, place = said.get(f"stay{number}_minutes"), said.get(f"stay{number}_in")
            if place and not minutes:
                self.add_error(f"stay{number}_minutes", "It stays there for no time. Write the minutes.")
            if minutes and not place:
                self.add_error(f"stay{number}_in", "It stays nowhere. Choose where.")

    def _clean_after(self, said: dict) -> None:
        for other in self.others:
            chosen, name = said.get(f"after_{other}"), f"after_{other}_longest"
            least, longest = said.get(f"after_{other}_least"), said.get(name)
            if not chosen and (least is not None or longest is not None):
                self.add_error(f"after_{other}", f"Step {other} has minutes. Choose it, or take them out.")
            elif longest is not None and longest < (least or 0):
                self.add_error(name, "This is shorter than the least wait. Write more.")

    def step(self, before: StepData) -> StepData:
        """The step with what was written."""
        said = self.cleaned_data
        names = [name for name in self.base_fields if hasattr(before, name)]
        return replace(
            before,
            **{name: said[name] for name in names}
            | {
                "kept": said["kept"] or "bench",
                "components": tuple(said["components"]),
                "techniques": _in_order(before.techniques, said["techniques"]),
                "ways": tuple(self._ways(said, before)),
                "stays": tuple(self._stays(said)),
                "after": tuple(self._after(said)),
            },
        )

    def _ways(self, said: dict, before: StepData) -> Iterator[WayData]:
        old = {way.name: way for way in before.ways}
        usual = said["usual"]
        for name in (usual, "machine" if usual == "hand" else "hand"):
            minutes, place = said[f"{name}_minutes"], said[f"{name}_at"] or "bench"
            if minutes is None:
                continue
            way = replace(old.get(name, WayData(name, minutes)), active_minutes=minutes, at=place)
            reach = {end: said[f"machine_{end}"] for end in REACH} if name == "machine" else {}
            each = said[f"{name}_portion_seconds"] or 0
            yield replace(way, words=said[f"{name}_words"], portion_seconds=each, **reach)

    def _stays(self, said: dict) -> Iterator[StayData]:
        for number in range(1, self.stays + 1):
            minutes, place = said[f"stay{number}_minutes"], said[f"stay{number}_in"]
            if minutes:
                kind = None if place == "bench" else place
                heat, door = said[f"stay{number}_heat"], said[f"stay{number}_door"] or "may_open"
                setting, shelves = said[f"stay{number}_decicelsius"], said[f"stay{number}_shelves"] or 1
                yield StayData(minutes, kind, setting, heat, door, shelves)

    def _after(self, said: dict) -> Iterator[AfterData]:
        for other in self.others:
            if said[f"after_{other}"]:
                least, longest = said[f"after_{other}_least"], said[f"after_{other}_longest"]
                yield AfterData(other, least or 0, longest)


class NewStepForm(StepForm):
    """A new step, and which step it is put before."""

    before = forms.ChoiceField(label="It is read", required=False, choices=())

    def __init__(self, *args: object, recipe: RecipeData, **more: object) -> None:
        super().__init__(*args, recipe=recipe, **more)
        places = [(str(step.position), f"before step {step.position}") for step in recipe.steps]
        self.fields["before"].choices = [("", "as the last step"), *places]
        self.helper.layout.insert(0, "before")

    def place(self) -> int | None:
        """The position it is put before; None for the last."""
        return int(self.cleaned_data["before"]) if self.cleaned_data["before"] else None


def _in_order(before: tuple[str, ...], chosen: list[str]) -> tuple[str, ...]:
    """What was chosen, in the order it had before, then what is new."""
    return (*(code for code in before if code in chosen), *(code for code in chosen if code not in before))


def _stay_fields(number: int) -> dict[str, forms.Field]:
    return {
        f"stay{number}_in": forms.ChoiceField(label="It stays", choices=STAYS_IN, required=False),
        f"stay{number}_minutes": _minutes("For"),
        f"stay{number}_decicelsius": DegreesField(label="Setting", required=False),
        f"stay{number}_heat": forms.ChoiceField(label="Kind of heat", choices=HEATS, required=False),
        f"stay{number}_door": forms.ChoiceField(label="Door", choices=Stay.Door.choices, required=False),
        f"stay{number}_shelves": WholeNumberField(
            label="Shelves", least=1, most=10, such_as=2, required=False
        ),
    }


def _after_fields(step: StepData) -> dict[str, forms.Field]:
    name, words = f"after_{step.position}", f"{step.position}. {_short(step.words)}"
    return {
        name: forms.BooleanField(label=words, required=False),
        f"{name}_least": _named("At least later", step.position),
        f"{name}_longest": _named("At most later", step.position),
    }


def _named(label: str, position: int) -> WholeNumberField:
    """Minutes in a table: the box says by itself what it is and of which step."""
    field = _minutes(f"{label} than step {position}")
    field.widget.attrs["aria-label"] = f"{label} than step {position}, in minutes"
    return field


def _short(words: str) -> str:
    return words if len(words) <= 90 else f"{words[:88].rstrip()}…"


def _layout(stays: int, others: list[int], levels: dict[str, str]) -> Layout:
    names = ("in", "minutes", "decicelsius", "heat", "door", "shelves")
    rows = [
        Fieldset(f"Stay {n}", Row(*(f"stay{n}_{name}" for name in names), css_class="tight"))
        for n in range(1, stays + 1)
    ]
    more = [one_more("One more stay")] if stays < MOST_STAYS else []
    return Layout(
        WRITES_ON_ENTER,
        *("words", "cue", "caution", "components"),
        _hands(),
        Fieldset("Where the food stays", *rows, *more, css_class="part"),
        _comes_after(others),
        Fieldset(
            "Temperatures",
            Row("core_decicelsius", "core_most_decicelsius", "core_seconds"),
            Row("target_of", "target_low_decicelsius", "target_high_decicelsius"),
            css_class="part",
        ),
        Fieldset(
            "In the lesson",
            *("kept", "ahead_possible", "supervised", "shown_first", "checked_by_lecturer"),
            css_class="part",
        ),
        ByGroup("techniques", levels),
        *("key", "opened", "stay_rows"),
    )


def _hands() -> Fieldset:
    return Fieldset(
        "Hands",
        "usual",
        Row("hand_minutes", "hand_portion_seconds", "hand_at", "hand_words"),
        Row("machine_minutes", "machine_portion_seconds", "machine_at", "machine_words"),
        Row("machine_least_milligrams", "machine_most_milligrams"),
        "wait_first",
        css_class="part",
    )


def _comes_after(others: list[int]) -> Fieldset:
    rows = [(f"after_{n}", f"after_{n}_least", f"after_{n}_longest") for n in others]
    heads = ("Step", "At least later", "At most later (empty: it keeps)")
    return Fieldset(
        "What it comes after", FieldTable(rows, heads, "It is the only step so far."), css_class="part"
    )
