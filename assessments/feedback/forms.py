"""The form on which a lecturer writes feedback: Seen, Why, Do for each mark to practise."""

from django import forms

from assessments.feedback.advice import Advice, FaultKnown
from assessments.feedback.content import DraftData, Words
from assessments.feedback.queries import Drafted
from curriculum.look.forms import KeyedForm

PARTS = (("seen", "Seen", 400), ("why", "Why", 400), ("do", "Do", 500))


class FeedbackForm(KeyedForm):
    """One group of fields for each mark, filled with what was drafted from its faults."""

    not_done = "The draft is not kept yet."
    submit_words = "Keep the draft"

    next_time = forms.CharField(
        label="One thing for next time",
        max_length=300,
        widget=forms.Textarea(attrs={"rows": 2}),
        help_text="It stands at the top of the page.",
    )
    note = forms.CharField(
        label="Own words",
        max_length=1200,
        required=False,
        widget=forms.Textarea,
        help_text="What only this plate showed: a reading, a minute, what you saw. About the plate.",
    )

    def __init__(self, data: object = None, *, drafted: Drafted) -> None:
        super().__init__(data, initial={"next_time": drafted.next_time, "note": drafted.draft.note})
        self.advice = drafted.advice
        self.known = drafted.faults
        for number, advice in enumerate(self.advice):
            self._add_fields(number, advice)

    def _add_fields(self, number: int, advice: Advice) -> None:
        parts = PARTS if advice.kind == "practise" else PARTS[:1]
        for part, label, longest in parts:
            self.fields[f"{part}_{number}"] = forms.CharField(
                label=label,
                max_length=longest,
                required=False,
                initial=getattr(advice, part),
                widget=forms.Textarea(attrs={"rows": 2}),
            )
        faults = self.known.get(advice.technique, [])
        if advice.kind == "practise" and faults:
            self.fields[f"fault_{number}"] = forms.ChoiceField(
                label="Take the words of a fault",
                required=False,
                choices=[("", "Keep the words below"), *((each.code, each.seen) for each in faults)],
            )

    def to_practise(self) -> list[tuple[Advice, list]]:
        """Each mark to practise with its bound fields, the choice of a fault first."""
        return self._groups("practise")

    def went_well(self) -> list[tuple[Advice, list]]:
        """Each mark that meets the standard with its bound field."""
        return self._groups("well")

    def _groups(self, kind: str) -> list[tuple[Advice, list]]:
        made = []
        for number, advice in enumerate(self.advice):
            if advice.kind != kind:
                continue
            names = [f"fault_{number}", *(f"{part}_{number}" for part, _, _ in PARTS)]
            made.append((advice, [self[name] for name in names if name in self.fields]))
        return made

    def draft(self) -> DraftData:
        """What was written, as data; a chosen fault brings its seen, cause and remedy."""
        said = self.cleaned_data
        words = []
        for number, advice in enumerate(self.advice):
            texts = {part: said.get(f"{part}_{number}", "").strip() for part, _, _ in PARTS}
            fault = self._fault(advice.technique, said.get(f"fault_{number}", ""))
            if fault:
                texts = {"seen": fault.seen, "why": fault.cause, "do": fault.remedy}
            words.append(Words(advice.place, advice.milli, **texts))
        return DraftData(tuple(words), said["next_time"], said["note"])

    def _fault(self, technique: str, code: str) -> FaultKnown | None:
        return next((each for each in self.known.get(technique, []) if each.code == code), None)
