"""Which kits wait for a lecturer's word because a label may contain what they are made without."""

from dataclasses import dataclass

from curriculum.recipes.queries import recipes_data
from kitchen.lessons.models import Lesson
from kitchen.stores.against import blocked_why, may_contain
from kitchen.stores.letting.models import LetGo
from kitchen.stores.managers import kits_to_come, learners_of_kits
from kitchen.stores.models import Kit, KitSet


@dataclass(frozen=True, slots=True)
class ToDecide:
    """Kits of one recipe that a person may let go: the recipe, what labels say, and the kits.

    ``stopped`` is what stands in the way besides; with it nothing is decided.
    """

    recipe: str
    title: str
    what: str
    kits: tuple[Kit, ...]
    stopped: str = ""


def to_decide(lesson: Lesson) -> tuple[ToDecide, ...]:
    """The kits that have not left and that nobody has let go yet, by recipe. Fixed number of queries."""
    kits = list(kits_to_come().filter(kit_set__lesson=lesson, let_go=None).order_by("position"))
    recipes = recipes_data({kit.version_id: kit.version for kit in kits}.values())
    learners = learners_of_kits(kits)
    found = []
    for version, recipe in recipes.items():
        said = may_contain(recipe)
        if not said:
            continue
        mine = tuple(kit for kit in kits if kit.version_id == version)
        stopped = [words for kit in mine if (words := blocked_why(recipe, learners[kit.pk], may_go=True))]
        what = "; ".join(f"{food} may contain {kinds}" for food, kinds in said)
        found.append(ToDecide(recipe.code, recipe.title, what, mine, next(iter(stopped), "")))
    return tuple(found)


def decided(lesson: Lesson) -> tuple[LetGo, ...]:
    """What was let go of the kits that stand, one of each recipe. One query."""
    rows = LetGo.objects.filter(kit__kit_set__lesson=lesson, kit__kit_set__state=KitSet.State.ACCEPTED)
    by_recipe = {
        row.kit.version_id: row
        for row in rows.select_related("by", "kit__version__recipe").order_by("-kit__position")
    }
    return tuple(by_recipe.values())
