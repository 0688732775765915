"""Drawing a sample that can be drawn again from its record."""

from collections.abc import Collection
from uuid import UUID

from assessments.verification.models import Sample, SampleItem
from assessments.verification.queries import candidates_in
from assessments.verification.sampling import drawn
from curriculum.errors import RuleBroken
from curriculum.people.models import User
from curriculum.records.actions import draw_code, once


def draw_sample(
    *, lessons: Collection[str], seed: str, by: User, margin_points: int = 2, key: UUID | None = None
) -> Sample:
    """Draw a sample from the finished sittings of lessons (codes), by a written seed.

    RuleBroken: "nothing_to_draw" while no sheet of these lessons is in.
    """
    said = {"lessons": sorted(lessons), "seed": seed, "margin_points": margin_points}

    def do() -> dict:
        found = candidates_in(lessons)
        if not found:
            raise RuleBroken(
                "nothing_to_draw",
                "No sitting of these lessons is finished yet. Draw once the sheets are in.",
                field="lessons",
            )
        chosen = drawn((candidate for _, candidate in found.values()), seed, margin_points * 1000)
        sample = Sample.objects.create(
            code=draw_code(Sample),
            seed=seed,
            rule={"shape": 1, **said, "drawn_from": sorted(found)},
            by=by,
        )
        SampleItem.objects.bulk_create(
            [SampleItem(sample=sample, sitting=found[each.code][0], why=each.why[:80]) for each in chosen]
        )
        return {"sample": sample.pk}

    answer = once(key=key, action="verification.draw_sample", by=by, said=said, do=do)
    return Sample.objects.get(pk=answer["sample"])
