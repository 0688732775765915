"""A marking scheme as frozen dataclasses, read from its kept JSON by one reader a shape.

For every calculation of marks and for the pages that show a scheme. Points are whole
thousandths (``milli_points``), shares per mille, temperatures tenths of a degree,
weights milligrams. What a scheme says is the college's; only its grammar is here.
"""

from collections.abc import Mapping
from dataclasses import dataclass

#: The shape that is written today.
SHAPE = 1
JUDGED_KINDS = ("judgement", "judgement_by_technique", "judged")
MET_KINDS = ("met_or_not_yet", "met_or_not_yet_by_technique")
KINDS = (*JUDGED_KINDS, *MET_KINDS, "measured")
RULE_KINDS = ("zero_part", "cap", "gate", "stop_and_record", "mark_again")
#: What a tolerance step can compare, and the unit of its limit.
TOLERANCES = (
    "within_per_mille",
    "outside_by_decicelsius",
    "missing_pieces",
    "at_most_milligrams",
    "minutes_outside",
)
AT_MOST = "_mark_at_most"


class UnreadableScheme(ValueError):
    """The content has a shape that nobody can read, or a field is missing or unknown."""


@dataclass(frozen=True, slots=True)
class Rung:
    """One step of a ladder with its descriptor."""

    mark: int
    words: str


@dataclass(frozen=True, slots=True)
class Tolerance:
    """Up to ``limit`` (in the unit that ``kind`` names) earns ``share_per_mille`` of the points."""

    kind: str
    limit: int
    share_per_mille: int


@dataclass(frozen=True, slots=True)
class CriterionContent:
    """One criterion. ``milli_points`` is None where a line is only met or not yet met.

    ``target`` says in the scheme's words where a measured target comes from; ``part_of``
    names the part that a rule may set to zero; a ``critical`` line may stop the sitting.
    """

    code: str
    name: str
    kind: str
    milli_points: int | None = None
    scale_maximum: int = 0
    ladder: tuple[Rung, ...] = ()
    technique_count: int = 0
    milli_points_per_technique: int = 0
    tolerance: tuple[Tolerance, ...] = ()
    otherwise_per_mille: int = 0
    target: str = ""
    minus_milli_points_per_started_minute: int = 0
    floor_milli_points: int = 0
    part_of: str = ""
    critical: bool = False
    note: str = ""

    @property
    def by_technique(self) -> bool:
        """Marked once for each technique of the brief."""
        return self.kind.endswith("_by_technique")

    @property
    def is_clock(self) -> bool:
        """Decided by when the plate was presented."""
        return bool(self.minus_milli_points_per_started_minute) or any(
            step.kind == "minutes_outside" for step in self.tolerance
        )


@dataclass(frozen=True, slots=True)
class RuleContent:
    """One rule: when it acts (``when`` with ``above`` or ``at_most``), and on what."""

    code: str
    kind: str
    when: str
    remark: str = ""
    above: int | None = None
    at_most: int | None = None
    cap_milli_points: int | None = None
    part: str = ""

    @property
    def watches(self) -> str:
        """The criterion whose mark this rule looks at; empty when it looks at something else."""
        return self.when.removesuffix(AT_MOST) if self.when.endswith(AT_MOST) else ""


@dataclass(frozen=True, slots=True)
class Band:
    """A named band of results, from so many points on."""

    name: str
    from_milli_points: int | None = None


@dataclass(frozen=True, slots=True)
class SchemeContent:
    """A whole version of a scheme; ``order`` is the printed order in which it is reckoned."""

    code: str
    number: int
    name: str
    model: str
    criteria: tuple[CriterionContent, ...]
    rules: tuple[RuleContent, ...]
    order: tuple[str, ...]
    result_bands: tuple[Band, ...]
    compensation: bool = True
    assessors: int = 1
    total_milli_points: int | None = None
    rounding_milli_points: int | None = None
    rounding_rule: str | None = None
    note: str = ""
    late_rule: str = ""
    tasting_rule: str = ""

    def criterion(self, code: str) -> CriterionContent:
        """The criterion of that code. KeyError when the scheme has none."""
        for criterion in self.criteria:
            if criterion.code == code:
                return criterion
        raise KeyError(code)

    def events(self) -> tuple[RuleContent, ...]:
        """The rules that need something seen at the bench which no criterion records."""
        return tuple(
            rule for rule in self.rules if rule.when in ("core_celsius_below_recipe", "critical_line_unsafe")
        )


def read_scheme(content: Mapping) -> SchemeContent:
    """The scheme that kept JSON holds.

    Raises UnreadableScheme for another shape, a missing field or a field nobody knows.
    """
    if content.get("shape") != SHAPE:
        raise UnreadableScheme(f"A scheme of shape {content.get('shape')!r} cannot be read.")
    values = {name: value for name, value in content.items() if name != "shape"}
    try:
        values["criteria"] = tuple(_criterion(each) for each in values["criteria"])
        values["rules"] = tuple(RuleContent(**each) for each in values.get("rules", ()))
        values["order"] = tuple(values["order"])
        values["result_bands"] = tuple(Band(**each) for each in values["result_bands"])
        return SchemeContent(**values)
    except (KeyError, TypeError) as error:
        raise UnreadableScheme(f"The scheme cannot be read: {error}.") from error


def _criterion(each: Mapping) -> CriterionContent:
    values = dict(each)
    values["ladder"] = tuple(Rung(rung["mark"], rung["text"]) for rung in values.get("ladder", ()))
    values["tolerance"] = tuple(_tolerance(step) for step in values.get("tolerance", ()))
    return CriterionContent(**values)


def _tolerance(step: Mapping) -> Tolerance:
    kinds = [name for name in step if name != "share_per_mille"]
    if len(kinds) != 1:
        raise UnreadableScheme(f"A tolerance step names one limit and its share, not {sorted(step)}.")
    return Tolerance(kinds[0], step[kinds[0]], step["share_per_mille"])
