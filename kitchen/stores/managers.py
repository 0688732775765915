"""What several actions of the stores write of kits that wait: whether the labels let them leave.

For the actions alone. A label may also be written down on the food's own page, which knows
nothing of kits; so kits are judged when a label is read here, and again when they leave.
"""

from collections import defaultdict
from collections.abc import Iterable

from django.db.models import Exists, OuterRef, Q, QuerySet, Subquery, Sum
from django.db.models.functions import Coalesce

from curriculum.people.queries import the_college, today_at
from curriculum.recipes.queries import recipes_data
from kitchen.lessons.diets import Avoids
from kitchen.lessons.models import PlaceLearner
from kitchen.lessons.queries import avoidances_by_day
from kitchen.stores.against import blocked_why
from kitchen.stores.models import Kit, KitLine, KitSet, Movement


def waiting_sets() -> QuerySet[KitSet]:
    """Accepted sets of which something may still leave: not issued, or short for a lesson that is to come."""
    to_come = Q(lesson__on__gte=today_at(the_college()))
    return KitSet.objects.filter(Q(issued_at=None) | to_come, state=KitSet.State.ACCEPTED)


def waiting_kits() -> QuerySet[Kit]:
    """Kits of accepted sets of which something has still to leave, with their versions.

    A kit that left short waits too: what is still to come is judged like the rest.
    """
    return kits_to_come().filter(kit_set__in=waiting_sets())


def kits_to_come() -> QuerySet[Kit]:
    """The same of accepted sets however old; for one set of them."""
    issues = Movement.objects.filter(kit_line=OuterRef("pk"), kind=Movement.Kind.ISSUE)
    issued = issues.order_by().values("kit_line").annotate(sum=Sum("milligrams")).values("sum")
    open_lines = KitLine.objects.filter(kit=OuterRef("pk"), stock_milligrams__gt=0).filter(
        stock_milligrams__gt=-Coalesce(Subquery(issued), 0)
    )
    return (
        Kit.objects.filter(Exists(open_lines), kit_set__state=KitSet.State.ACCEPTED)
        .exclude(kind=Kit.Kind.SUPPLEMENTARY)
        .select_related("version__recipe", "kit_set__lesson", "let_go")
    )


def judge_blocks(kits: Iterable[Kit]) -> None:
    """Free the kits whose labels are all read now; stop those whose label says otherwise.

    A label is held against what the kit is free from and against what the learners avoid who work it.
    """
    kits = list(kits)
    recipes = recipes_data({kit.version_id: kit.version for kit in kits}.values())
    learners = learners_of_kits(kits)
    changed = []
    for kit in kits:
        may_go = hasattr(kit, "let_go")
        why = blocked_why(recipes[kit.version_id], learners[kit.pk], may_go=may_go)[:300]
        if why != kit.blocked_why:
            kit.blocked_why = why
            changed.append(kit)
    Kit.objects.bulk_update(changed, ["blocked_why"])


def learners_of_kits(kits: Iterable[Kit]) -> dict[int, list[tuple[Avoids, ...]]]:
    """What each learner avoids who works a kit, by the kit's key. Two queries.

    What is prepared ahead of a recipe is worked by all who work that recipe in the lesson.
    """
    kits = list(kits)
    lessons = {kit.kit_set.lesson_id: kit.kit_set.lesson.on for kit in kits}
    rows = list(
        PlaceLearner.objects.filter(shift__lesson__in=lessons)
        .order_by("pk")
        .values_list("shift__lesson", "place", "place__version", "student")
    )
    avoids = avoidances_by_day((student, lessons[lesson]) for lesson, _, _, student in rows)
    found: dict[int, list[tuple[Avoids, ...]]] = defaultdict(list)
    for kit in kits:
        for lesson, place, version, student in rows:
            here = place == kit.place_id or (kit.kind == Kit.Kind.AHEAD and version == kit.version_id)
            if here and lesson == kit.kit_set.lesson_id:
                found[kit.pk].append(avoids.get((student, lessons[lesson]), ()))
    return found
