"""What the pages of learning read: proposals, decisions that stand, what a figure would change."""

from collections import defaultdict
from dataclasses import dataclass

from django.db.models import Count

from curriculum.foods.models import Food, YieldFigure, YieldTest
from curriculum.foods.queries import prices
from curriculum.foods.yields import TestedYield
from curriculum.people.queries import the_college, today_at
from curriculum.techniques.models import Technique
from kitchen.stores.learning import page, proposals
from kitchen.stores.learning.effect import Change, changes
from kitchen.stores.learning.evidence import OVER_ISSUE, USABLE, LessonFood, Proposal, taught
from kitchen.stores.learning.figures import Figure, foods_trimmed
from kitchen.stores.learning.kept.queries import figure_of, source_of
from kitchen.stores.learning.lessons.queries import coming_lessons, past_lessons
from kitchen.stores.learning.models import KeptFigure
from kitchen.stores.learning.page import Line, Names
from kitchen.stores.learning.usable import Weighed, trimmed

State = KeptFigure.State


@dataclass(frozen=True)
class Learned:
    """Every proposal of today, the decisions about figures, and the names for their words."""

    proposals: tuple[Proposal, ...]
    decisions: tuple[KeptFigure, ...]
    standing: tuple[Figure, ...]
    lessons: tuple[LessonFood, ...]
    names: Names
    sources: dict[str, str]

    def declined(self, each: Proposal) -> bool:
        """Whether this very proposal was declined."""
        return any(row.state == State.DECLINED and row.mark == each.mark for row in self.decisions)

    def source(self, each: Proposal) -> str:
        """Where the figure in use is from, in words."""
        if each.kind == USABLE:
            return self.sources[each.food]
        stands = {(row.food, row.of): row.source for row in self.standing if row.kind == each.kind}
        for key in ((each.food, each.of), ("", each.of), (each.food, "")):
            if key in stands:
                return stands[key]
        return "the recipe" if each.kind == OVER_ISSUE else "no allowance yet"


def learned() -> Learned:
    """Everything that lessons and tests teach today. Sixteen queries at most."""
    past = past_lessons(today_at(the_college()))
    rows = tuple(
        KeptFigure.objects.select_related("food", "recipe", "technique", "by")
        .filter(state__in=(State.ACCEPTED, State.DECLINED))
        .order_by("-pk")
    )
    standing = tuple(figure_of(row, {}) for row in rows if row.state == State.ACCEPTED)
    tests = _tests()
    codes = {each.food for each in past.foods} | set(tests)
    foods = {food.code: food for food in Food.objects.filter(code__in=codes)}
    found = [
        *proposals.over_issues(past.foods, past.recipes, standing),
        *proposals.allowances(past.foods, past.recipes, standing),
        *proposals.usable_shares(tests, _shares(foods, standing)),
    ]
    names = Names(
        {code: food.name for code, food in foods.items()},
        {code: food.storage for code, food in foods.items()},
        {code: recipe.title for code, recipe in past.recipes.items()},
        dict(Technique.objects.values_list("code", "name")),
    )
    sources = {code: food.usable_source or "no source written down" for code, food in foods.items()}
    return Learned(tuple(found), rows, standing, past.foods, names, sources)


@dataclass(frozen=True)
class Decision:
    """A decision in words: of what, the figure, who and when."""

    row: KeptFigure
    title: str
    figure: str
    before: str
    source: str


@dataclass(frozen=True)
class LearningPage:
    """The list: to decide, declined, agreeing with what is in use, with too few lessons; what stands."""

    to_decide: tuple[Line, ...]
    agreeing: tuple[Line, ...]
    too_few: tuple[Line, ...]
    accepted: tuple[Decision, ...]
    declined: tuple[Decision, ...]
    left_out: tuple[tuple[str, str], ...]
    to_weigh: tuple[tuple[str, str, int], ...]


def learning_page() -> LearningPage:
    """The page of everything learned. Twenty-two queries at most."""
    read = learned()
    lines: dict[str, list[Line]] = defaultdict(list)
    for each in read.proposals:
        lines[_place(read, each)].append(page.line(each, read.names))
    decisions = [decision(row) for row in read.decisions]
    return LearningPage(
        tuple(lines["to_decide"]),
        tuple(lines["agreeing"]),
        tuple(lines["too_few"]),
        tuple(each for each in decisions if each.row.state == State.ACCEPTED),
        tuple(each for each in decisions if each.row.state == State.DECLINED),
        taught(read.lessons)[1],
        _to_weigh(),
    )


def decision(row: KeptFigure) -> Decision:
    """One decision in words."""
    said = row.food.name if row.food else "Every food"
    if row.recipe:
        said += f": over-issue in {row.recipe.title}"
    elif row.kind == USABLE:
        said += ": usable share"
    else:
        said += f": allowance for {page.small(row.technique.name)}" if row.technique else ": allowance"
    words = [page.amount_words(row.kind, amount) for amount in (row.amount, row.before)]
    return Decision(row, said, words[0], words[1], source_of(row))


@dataclass(frozen=True)
class ProposalPage:
    """One proposal with its evidence, what others print, and what it would change."""

    proposal: Proposal
    line: Line
    source: str
    rows: tuple[page.EvidenceLine, ...]
    caveats: tuple[str, ...]
    tables: tuple[tuple[str, str], ...]
    trim: tuple[tuple[LessonFood, str], ...]
    changes: tuple[page.ChangeLine, ...]
    change_sum: str
    declined: bool
    techniques: tuple[tuple[str, str], ...]


def proposal_page(read: Learned, each: Proposal) -> ProposalPage:
    """The page of one proposal. Seven queries at most."""
    changed = _changes(read, each)
    return ProposalPage(
        each,
        page.line(each, read.names),
        read.source(each),
        page.evidence_lines(each),
        page.caveats(each, read.names),
        _tables(each) if each.kind == USABLE else (),
        _trim(read, each) if each.kind == USABLE else (),
        page.change_lines(changed),
        page.change_sum(changed),
        read.declined(each),
        tuple((code, read.names.techniques.get(code, code)) for code in (each.of, *each.others)),
    )


def _to_weigh() -> tuple[tuple[str, str, int], ...]:
    """Foods that are trimmed in lessons to come, by name: code, name, and how many tests there are."""
    recipes = [recipe for each in coming_lessons(today_at(the_college())) for recipe, _ in each.batches]
    foods = {recipe.food(code).name: code for recipe in recipes for code in foods_trimmed(recipe)}
    rows = YieldTest.objects.filter(food__code__in=foods.values()).order_by()
    tests = dict(rows.values_list("food__code").annotate(count=Count("pk")))
    return tuple((code, name, tests.get(code, 0)) for name, code in sorted(foods.items()))


def _place(read: Learned, each: Proposal) -> str:
    if not each.enough:
        return "too_few"
    if not each.changes_something:
        return "agreeing"
    return "declined" if read.declined(each) else "to_decide"


def _tests() -> dict[str, list[Weighed]]:
    found: dict[str, list[Weighed]] = defaultdict(list)
    for row in YieldTest.objects.select_related("food", "by").order_by("on", "pk"):
        test = TestedYield(row.on, row.purchased_milligrams, row.usable_milligrams)
        found[row.food.code].append(Weighed(test, row.by.name))
    return dict(found)


def _shares(foods: dict[str, Food], standing: tuple[Figure, ...]) -> dict[str, int]:
    """The usable share in use: accepted here, else the food's own."""
    own = {code: food.usable_per_mille for code, food in foods.items()}
    return own | {each.food: each.amount for each in standing if each.kind == USABLE}


def _tables(each: Proposal) -> tuple[tuple[str, str], ...]:
    rows = YieldFigure.objects.filter(food__code=each.food).values_list("usable_per_mille", "source")
    return tuple((page.amount_words(USABLE, per_mille), source) for per_mille, source in rows)


def _trim(read: Learned, each: Proposal) -> tuple[tuple[LessonFood, str], ...]:
    found = trimmed(one for one in read.lessons if one.food == each.food)
    return tuple((lesson, page.amount_words(USABLE, per_mille)) for lesson, per_mille in found)


def _changes(read: Learned, each: Proposal) -> tuple[Change, ...]:
    today = today_at(the_college())
    new = Figure(each.kind, each.food, each.of, each.amount, "")
    return changes(coming_lessons(today), each.food, read.standing, new, prices(today, [each.food]))
