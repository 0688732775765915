"""Which answer about a food stands when two packs of it answer differently: the stricter one.

Plain data in, plain data out. Diets are judged by the food, so one pack with a trace makes the food
one with a trace; what a pack does not answer changes nothing. Whoever finds that an answer is wrong
writes it on the page of the food, where it replaces the one before.
"""

from collections.abc import Mapping

#: From the mildest to the strictest; "unknown" answers nothing.
ORDER = ("unknown", "no", "trace", "yes")


def stricter(known: Mapping[str, str], read: Mapping[str, str]) -> dict[str, str]:
    """The known answers with those read, each the stricter of both; a word that is none of ours stays."""
    both = dict(known)
    for fact, answer in read.items():
        before = both.get(fact, ORDER[0])
        if answer != ORDER[0] and before in ORDER and ORDER.index(answer) > ORDER.index(before):
            both[fact] = answer
    return both
