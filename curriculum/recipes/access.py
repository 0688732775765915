"""Who may read and write the recipe book.

Everybody of the college reads what is approved to teach; learners and the external
examiner read only that. Lecturers write; whoever checks and approves is a lecturer or the
programme manager, and never the writer (a rule of the action).
"""

from django.db.models import QuerySet
from django.http import Http404

from curriculum.errors import RuleBroken
from curriculum.people.access import demand_role, roles_of
from curriculum.people.models import User
from curriculum.people.roles import EXTERNAL, LECTURER, MANAGER, STAFF, STUDENT
from curriculum.recipes import queries
from curriculum.recipes.comparing.queries import family
from curriculum.recipes.data import ComponentData, LineData, RecipeData, StepData, TinData
from curriculum.recipes.editing import component_of
from curriculum.recipes.models import Recipe, Version
from curriculum.recipes.variants.queries import ordinary_of
from curriculum.techniques.models import Technique

READERS = (*sorted(STAFF), EXTERNAL, STUDENT)
WRITERS = (LECTURER,)
APPROVERS = (LECTURER, MANAGER)


def demand_reader(user: User) -> frozenset[str]:
    """Refuse (403) whoever holds no role of the college."""
    return demand_role(user, *READERS)


def demand_writer(user: User) -> frozenset[str]:
    """Refuse (403) whoever does not write recipes."""
    return demand_role(user, *WRITERS)


def may_write(user: User) -> bool:
    """Whether this person writes recipes."""
    return bool(roles_of(user) & {*WRITERS})


def sees_cost(user: User) -> bool:
    """Whether this person is shown what a recipe costs: staff, not learners."""
    return bool(roles_of(user) & STAFF)


def reads_drafts(user: User) -> bool:
    """Whether this person sees versions that are not approved to teach."""
    return bool(roles_of(user) & STAFF)


def recipe_for(user: User, code: str) -> Version:
    """The version of a recipe that this person reads first: the newest approved, else the newest of all."""
    demand_reader(user)
    version = queries.approved(code)
    if version is None and reads_drafts(user):
        version = _versions().filter(recipe__code=code).order_by("-number").first()
    if version is None:
        raise Http404("No such recipe.")
    return version


def version_for(user: User, code: str, number: int) -> Version:
    """One version. Learners and the external examiner find only what is approved to teach."""
    demand_reader(user)
    version = _versions().filter(recipe__code=code, number=number).first()
    hidden = version is not None and version.state != Version.State.APPROVED and not reads_drafts(user)
    if version is None or hidden:
        raise Http404("No such version.")
    return version


def draft_for(user: User, code: str, number: int) -> Version:
    """A draft to write in. RuleBroken when the version is not a draft any more."""
    demand_writer(user)
    version = version_for(user, code, number)
    if version.state != Version.State.DRAFT:
        raise RuleBroken(
            "wrong_state",
            f"Version {version.number} of {version.recipe.title} is {version.get_state_display()} and is not "
            "changed any more. Revise it: that makes a new draft.",
        )
    return version


def component_for(recipe: RecipeData, code: str) -> ComponentData:
    """A component of a draft that was read. 404 when it is not there."""
    try:
        return component_of(recipe, code)
    except KeyError:
        raise Http404("No such component.") from None


def line_for(recipe: RecipeData, code: str, position: int) -> LineData:
    """A line of a component. 404 when it is not there."""
    for line in component_for(recipe, code).lines:
        if line.position == position:
            return line
    raise Http404("No such line.")


def step_for(recipe: RecipeData, position: int) -> StepData:
    """A step of a draft that was read. 404 when it is not there."""
    try:
        return recipe.step(position)
    except KeyError:
        raise Http404("No such step.") from None


def tin_for(recipe: RecipeData, place: int) -> TinData:
    """A tin of a draft by its place, from 1. 404 when it is not there."""
    if not 1 <= place <= len(recipe.tins):
        raise Http404("No such tin.")
    return recipe.tins[place - 1]


def to_write(user: User, code: str, number: int) -> Version:
    """A version that a lecturer revises."""
    demand_writer(user)
    return version_for(user, code, number)


def compared_for(user: User, code: str) -> tuple[Recipe, list[Version]]:
    """A recipe and the versions that this person may compare: learners only what is approved to teach."""
    recipe = recipe_for(user, code).recipe
    return recipe, family(recipe, approved_only=not reads_drafts(user))


def to_vary(user: User, code: str, number: int) -> Version:
    """An approved ordinary recipe that a lecturer makes a variant of. RuleBroken for any other."""
    version = to_write(user, code, number)
    if "vary" not in acts_on(user, version):
        itself = " and a variant itself" if version.recipe.variant_of_id else ""
        raise RuleBroken(
            "not_varied",
            f"A variant is made of an ordinary recipe that is approved to teach. {version} is "
            f"{version.get_state_display()}{itself}.",
        )
    return version


def variant_for(user: User, code: str, number: int) -> tuple[Version, Version]:
    """A variant and the ordinary recipe behind it. 404 for what is no variant."""
    version = version_for(user, code, number)
    ordinary = ordinary_of(version)
    if ordinary is None or (ordinary.state != Version.State.APPROVED and not reads_drafts(user)):
        raise Http404("No such variant.")
    return version, ordinary


def to_approve(user: User, code: str, number: int) -> Version:
    """A version that a lecturer or the programme manager checks, approves or withdraws."""
    demand_role(user, *APPROVERS)
    return version_for(user, code, number)


def to_ask(user: User, code: str, number: int, act: str) -> Version:
    """A version that this person is asked about: to withdraw it, to send it back.

    RuleBroken when ``act`` is named and the version does not stand so, or this person wrote it.
    """
    version = to_approve(user, code, number)
    if act and act not in acts_on(user, version):
        raise RuleBroken(
            "wrong_state",
            f"Version {version.number} of {version.recipe.title} is {version.get_state_display()} and was "
            f"written by {version.written_by.name}. As it stands you can neither send it back nor withdraw "
            "it. Go back to its page: it says what can be done with it.",
        )
    return version


def technique_for(user: User, code: str) -> Technique:
    """One technique, for everybody of the college."""
    demand_reader(user)
    technique = queries.technique(code)
    if technique is None:
        raise Http404("No such technique.")
    return technique


def acts_on(user: User, version: Version) -> frozenset[str]:
    """What this person may do with a version as it stands: write, send, send_back, check, approve …"""
    held = roles_of(user)
    states = Version.State
    second = version.written_by_id != user.pk and bool(held & {*APPROVERS})
    writes = bool(held & {*WRITERS})
    waits = version.state == states.CHECKED or (version.state == states.DRAFT and version.sent_at is not None)
    acts = {
        "write": writes and version.state == states.DRAFT,
        "revise": writes and version.state in (states.APPROVED, states.WITHDRAWN),
        "copy": writes,
        "vary": writes and version.state == states.APPROVED and version.recipe.variant_of_id is None,
        "send": writes and version.state == states.DRAFT and version.sent_at is None,
        "check": second and version.state == states.DRAFT and version.sent_at is not None,
        "send_back": second and waits,
        "approve": second and version.state == states.CHECKED,
        "back": writes and version.state == states.CHECKED,
        "withdraw": bool(held & {*APPROVERS}) and version.state == states.APPROVED,
    }
    return frozenset(act for act, may in acts.items() if may)


def _versions() -> QuerySet[Version]:
    return Version.objects.select_related(
        "recipe__variant_of", "written_by", "checked_by", "made_from__recipe"
    )
