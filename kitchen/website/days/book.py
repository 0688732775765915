"""Recipes that wait for somebody, for the first pages of those who write and approve them."""

from django.urls import reverse
from django.utils.timezone import localdate

from curriculum.people.models import User
from curriculum.recipes.approval.queries import sent_back_to, to_look_at, waiting_words
from curriculum.recipes.models import Version
from kitchen.website.days.parts import DayLine, DaySection


def book_sections(user: User) -> list[DaySection]:
    """What was sent back to this person, if anything, and what waits for a second person. Four queries."""
    back = [recipe_line(version, "Sent back", hand=True) for version in sent_back_to(user)]
    waiting = [
        recipe_line(version, "To approve" if version.state == Version.State.CHECKED else "To check")
        for version in to_look_at(user)
    ]
    second = DaySection(
        "Recipes that wait for a second person", waiting, "No recipe of somebody else waits to be checked."
    )
    return [*([DaySection("Recipes sent back to you", back)] if back else []), second]


def recipe_line(version: Version, state_words: str, hand: bool = False) -> DayLine:
    """A version with who waits for whom; the figure is the day on which it was sent, or sent back."""
    said = list(version.said.all())
    on = localdate(said[-1].at) if said else None
    return DayLine(
        figure="" if on is None else f"{on.day} {on:%b}",
        words=f"{version.recipe.title}, version {version.number}",
        url=reverse("recipes:version", kwargs={"code": version.recipe.code, "number": version.number}),
        detail=f"{'' if hand else f'Written by {version.written_by.name}. '}{waiting_words(version)}",
        state="late" if hand else "todo",
        state_words=state_words,
        hand=hand,
    )
