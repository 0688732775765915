"""What a pasted text came to as a whole: how many lines were read, in which measures, what is not said.

For the top of the page that shows the lines as they were read. Which measures a text is in is
never chosen in silence: words that differ are named, with what each system makes of them, and
which systems know all the words of the text.

Worked example: "1 cup flour" and "1 pint milk", nothing said: "cup" and "pint" are not the same
everywhere; US cups and spoons and imperial pints and ounces know all of them.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from curriculum import wording
from curriculum.foods import measures, units
from curriculum.recipes.data import LineData
from curriculum.recipes.pasting.matching import Proposal
from curriculum.recipes.pasting.sizes import needs_system


@dataclass(frozen=True, slots=True)
class Summary:
    """Sentences for the page. ``asks`` is empty when the measures need no answer."""

    counts: str
    system: str
    words: tuple[tuple[str, str], ...]
    fitting: str
    asks: str


def summary_of(proposals: list[Proposal], text: str, system: str, of_recipe: str) -> Summary:
    """What was read in ``system`` (empty: none said), for a recipe written in ``of_recipe``."""
    words = measures.words_that_differ(text)
    fitting = measures.systems_for(text) if words else ()
    return Summary(
        _counts(proposals),
        _system(system, of_recipe, bool(words)),
        tuple(words.items()),
        _fitting(fitting),
        "These words are not the same everywhere. Say which measures are meant, and read again."
        if words and not system
        else "",
    )


def system_of(lines: Iterable[LineData], system: str) -> str:
    """The system that a recipe is written in through these lines: none when their words need none."""
    return system if any(needs_system(line.written) for line in lines if line.written) else ""


def _counts(proposals: list[Proposal]) -> str:
    asked = sum(bool(each.trouble) for each in proposals)
    if not proposals:
        return "No line was read."
    lines = wording.counted_words(len(proposals), "line")
    if not asked:
        return wording.sentence(f"{lines}, all of them read")
    return wording.sentence(f"{lines}, {wording.number(asked)} to look at")


def _system(system: str, of_recipe: str, differ: bool) -> str:
    if not system:
        return "" if differ else "No word in them depends on the country: no measures had to be chosen."
    said = f"Read in these measures: {units.SYSTEMS[system]}."
    if of_recipe and of_recipe != system:
        said += (
            f" The recipe is written in others ({units.SYSTEMS[of_recipe]}), so of such amounts"
            " only the grams are kept."
        )
    return said


def _fitting(systems: tuple[str, ...]) -> str:
    if len(systems) == len(units.SYSTEMS):
        return ""
    if not systems:
        return "No one system knows all of these words."
    return f"All of these words are known to: {'; '.join(units.SYSTEMS[system] for system in systems)}."
