"""The declarable kinds of allergen, by group, and other ways of eating.

Source of the fourteen groups: Regulation (EU) No 1169/2011, Annex II (as carried by
the Reading University copy). A cereal with gluten and a nut are named by kind. A
learner may avoid a whole group ("gluten") or one kind ("almond").

What is *not* on the list is as important: coconut, pine nut and chestnut are not
nuts of the annex, buckwheat is not a gluten cereal. Sulphites are declared from above
10 mg/kg or 10 mg/l as SO2 (the same annex): the label that somebody read says so, no sum here.
"""

#: group code -> (words, kinds); a group of one kind has its own code as the kind.
GROUPS: dict[str, tuple[str, tuple[str, ...]]] = {
    "celery": ("celery", ("celery",)),
    "gluten": (
        "cereals containing gluten",
        ("wheat", "rye", "barley", "oats", "spelt", "khorasan"),
    ),
    "crustaceans": ("crustaceans", ("crustaceans",)),
    "egg": ("egg", ("egg",)),
    "fish": ("fish", ("fish",)),
    "lupin": ("lupin", ("lupin",)),
    "milk": ("milk", ("milk",)),
    "molluscs": ("molluscs", ("molluscs",)),
    "mustard": ("mustard", ("mustard",)),
    "nuts": (
        "nuts",
        (
            "almond",
            "hazelnut",
            "walnut",
            "cashew",
            "pecan",
            "brazil_nut",
            "pistachio",
            "macadamia",
        ),
    ),
    "peanuts": ("peanuts", ("peanuts",)),
    "sesame": ("sesame", ("sesame",)),
    "soya": ("soya", ("soya",)),
    "sulphites": ("sulphur dioxide and sulphites", ("sulphites",)),
}

#: kind code -> group code
GROUP_OF: dict[str, str] = {kind: group for group, (_, kinds) in GROUPS.items() for kind in kinds}

#: every kind, in the order of the annex
KINDS: tuple[str, ...] = tuple(GROUP_OF)

WORDS: dict[str, str] = {kind: kind.replace("_", " ") for kind in KINDS} | {
    "brazil_nut": "Brazil nut",
}

#: other ways of eating: code -> (words, facts of a food that stand against it).
#: Common practice, no source: a college may set its own words beside them.
WAYS: dict[str, tuple[str, tuple[str, ...]]] = {
    "vegetarian": ("vegetarian", ("meat", "fish", "slaughter_by_product", "animal_rennet")),
    "vegan": ("vegan", ("meat", "fish", "slaughter_by_product", "animal_rennet", "egg", "milk")),
    "no_pork": ("no pork", ("pork",)),
    "no_alcohol": ("no alcohol", ("alcohol",)),
    "no_beef": ("no beef", ("beef",)),
    "halal": ("halal", ("pork", "alcohol", "slaughter_by_product", "animal_rennet", "meat")),
}


def words_of(kind: str) -> str:
    """The kind in words as printed: "wheat", "Brazil nut". A group code gives the group's words."""
    if kind in WORDS:
        return WORDS[kind]
    return GROUPS[kind][0]


def printed(kind: str) -> str:
    """The kind as a label prints it, with its group where that says more: "gluten (wheat)"."""
    group = GROUP_OF[kind]
    return WORDS[kind] if group == kind else f"{group} ({WORDS[kind]})"


def kinds_of(code: str) -> frozenset[str]:
    """The kinds behind a code: a group gives all its kinds, a kind gives itself.

    KeyError when the code is neither.
    """
    if code in GROUPS:
        return frozenset(GROUPS[code][1])
    if code in GROUP_OF:
        return frozenset((code,))
    raise KeyError(code)
