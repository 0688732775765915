"""What a piece of small equipment is called, and in which order things are counted.

For pages and papers. A thing has a code of words: "flan_tin_fluted_24". Knives and peelers
come first, because they are counted before anybody leaves the room.

Source: knives are counted out and in, peelers too: common practice in training kitchens
(the project's notes on the trade, cautions). Which words belong to which group is our own choice.
"""

from dataclasses import dataclass

from curriculum import wording

#: Words after which what follows only says which one it is: the plural goes here.
NOUNS = frozenset(
    ("tin", "ring", "mould", "nozzle", "cutter", "plate", "tub", "bag", "board", "roll", "tray")
)


@dataclass(frozen=True, slots=True)
class Group:
    """Things that are counted together: a title, and the words by which a thing belongs to it."""

    title: str
    one: str
    words: frozenset[str]
    but: frozenset[str] = frozenset()


GROUPS = (
    Group("Knives and peelers", "knife", frozenset(("knife", "peeler", "cleaver")), frozenset(("palette",))),
    Group("Nozzles and bags", "nozzle", frozenset(("nozzle", "piping"))),
    Group("Tins, rings and moulds", "tin", frozenset(("tin", "ring", "mould"))),
    Group("Other small equipment", "thing", frozenset()),
)
KNIVES = GROUPS[0]


def group_of(item: str) -> Group:
    """The group of a thing; what no group names is other small equipment."""
    said = set(item.split("_"))
    return next((each for each in GROUPS[:-1] if said & each.words and not said & each.but), GROUPS[-1])


def order_of(item: str) -> tuple[int, str]:
    """Where a thing stands in a list: knives first, then nozzles, tins, and the rest by name."""
    return GROUPS.index(group_of(item)), item


def name_of(item: str) -> str:
    """One thing in words: "flan tin fluted 24"."""
    return item.replace("_", " ")


def many_of(item: str) -> str:
    """Several of it: "flan tins fluted 24", "chef knives", "pastry brushes"."""
    words = item.split("_")
    at = next((place for place, word in enumerate(words) if word in NOUNS), _last_word(words))
    words[at] = "knives" if words[at] == "knife" else wording.plural(words[at])
    return " ".join(words)


def counted(count: int, item: str) -> str:
    """ "2 flan tins fluted 24", "1 chef knife"."""
    return wording.counted(count, name_of(item), many_of(item))


def _last_word(words: list[str]) -> int:
    """The last part that is a word and no figure."""
    return max(place for place, word in enumerate(words) if word.isalpha() or place == 0)
