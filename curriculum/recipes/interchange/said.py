"""What the page of an import says beside its fields: times, what is carried, what steps still lack."""

from curriculum import wording
from curriculum.recipes.interchange.json_ld_read import TIMES
from curriculum.recipes.interchange.reading import ImportedRecipe

_TIME_WORDS = dict(zip(TIMES, ("Preparing", "Cooking", "In all", "Doing"), strict=True))
#: Properties that have a place here and are shown at it.
_PLACED = frozenset(
    (
        "@context",
        "@type",
        "@id",
        "name",
        "recipeYield",
        "recipeIngredient",
        "recipeInstructions",
        "tool",
        *TIMES,
    )
)


def time_words(imported: ImportedRecipe) -> str:
    """ "Preparing 20 min; cooking 1 h." with what becomes of it; empty where no time was said."""
    said = [
        f"{_TIME_WORDS[name].lower()} {wording.duration(round(seconds / 60))}"
        for name, seconds, _ in imported.times
    ]
    if not said:
        return ""
    return wording.sentence("; ".join(said)) + " These are kept as they came until the steps have minutes."


def carried_words(imported: ImportedRecipe) -> str:
    """What has no place here and goes out again as it came, named."""
    names = [name[:60] for name, _ in imported.carried if name not in _PLACED]
    if not names:
        return ""
    shown = names[:20] + ([f"{wording.number(len(names) - 20)} more"] if len(names) > 20 else [])
    return f"Kept as it came, and given out with the recipe again: {wording.listed(shown)}."


def steps_words(imported: ImportedRecipe) -> str:
    """How many steps were read, and that none has minutes; empty where there is none."""
    if not imported.steps:
        return ""
    count = wording.counted_words(len(imported.steps), "step")
    return f"{wording.sentence(count)} None has minutes yet: they are written step by step in the draft."
