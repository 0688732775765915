"""Who works at which bench: a proposal, and what is wrong with a plan made by hand.

For the places page of a lesson and the action that saves them. Learners come in the
order of the register and benches in the order of the room; places stay in that order, so
that the proposal reads like the class list. A learner can be put only to recipes with
nothing declared against what they avoid (``kitchen.lessons.diets.workable``); whoever
shares a bench works the same recipe; learners who are kept apart do not share.

The proposal puts the learner with the fewest possible partners first and gives each the
partner who changes least: one who would cook the same recipe anyway, the nearest in the
register. It is a rule of the house (common practice, no source), not an optimum; a person
may move anybody, and ``troubles`` then says what stands in the way.
"""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from curriculum.errors import RuleBroken


@dataclass(frozen=True, slots=True)
class Seat:
    """One bench of the room: its number and how many cooks it takes (1 or 2)."""

    bench: int
    cooks: int = 2


@dataclass(frozen=True, slots=True)
class Cook:
    """One learner: any hashable key, the name to say, and the recipes they can be put to.

    ``recipes`` are codes with the ordinary recipe first where it fits; empty means that
    this learner cannot work the dish at all and is not placed.
    """

    key: int
    name: str
    recipes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Placed:
    """Who works at one bench, and the code of the recipe worked there."""

    bench: int
    recipe: str
    cooks: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Trouble:
    """One thing that stands in the way of a plan of places, in a full sentence."""

    code: str
    message: str
    bench: int | None = None
    cooks: tuple[int, ...] = ()


def propose(
    seats: Sequence[Seat], cooks: Sequence[Cook], *, pairs: bool, apart: Iterable[tuple[int, int]] = ()
) -> tuple[Placed, ...]:
    """Put every learner who can work the dish at a bench, singly or in pairs.

    Raises RuleBroken("not_enough_benches") with the figures when the room is too small.
    """
    kept = {frozenset(pair) for pair in apart}
    able = [cook for cook in cooks if cook.recipes]
    teams = _paired(able, kept) if pairs else [(cook,) for cook in able]
    order = {cook.key: index for index, cook in enumerate(cooks)}
    teams.sort(key=lambda team: min(order[cook.key] for cook in team))
    return _seated(seats, teams)


def troubles(
    places: Sequence[Placed],
    seats: Sequence[Seat],
    cooks: Sequence[Cook],
    apart: Iterable[tuple[int, int]] = (),
) -> tuple[Trouble, ...]:
    """Everything that is wrong with these places; empty when nothing is."""
    by_key = {cook.key: cook for cook in cooks}
    room = {seat.bench: seat.cooks for seat in seats}
    return (
        *_benches_twice(places),
        *_people_twice(places, by_key),
        *(trouble for place in places for trouble in _at_bench(place, room, by_key)),
        *_shared_though_apart(places, by_key, {frozenset(pair) for pair in apart}),
    )


def demand_places(
    places: Sequence[Placed],
    seats: Sequence[Seat],
    cooks: Sequence[Cook],
    apart: Iterable[tuple[int, int]] = (),
) -> None:
    """Raise RuleBroken for the first trouble, if there is any."""
    found = troubles(places, seats, cooks, apart)
    if found:
        raise RuleBroken(found[0].code, found[0].message, troubles=found)


def _paired(cooks: list[Cook], kept: set[frozenset[int]]) -> list[tuple[Cook, ...]]:
    waiting = list(cooks)
    teams: list[tuple[Cook, ...]] = []
    while waiting:
        one = min(waiting, key=lambda cook: _hardness(cook, waiting, kept))
        others = _partners(one, waiting, kept)
        team = (one,) if not others else (one, min(others, key=lambda cook: _change(one, cook, waiting)))
        for cook in team:
            waiting.remove(cook)
        teams.append(team)
    return teams


def _partners(cook: Cook, others: list[Cook], kept: set[frozenset[int]]) -> list[Cook]:
    return [
        other
        for other in others
        if other is not cook
        and frozenset((cook.key, other.key)) not in kept
        and set(cook.recipes) & set(other.recipes)
    ]


def _hardness(cook: Cook, waiting: list[Cook], kept: set[frozenset[int]]) -> tuple[int, int]:
    return (len(_partners(cook, waiting, kept)), waiting.index(cook))


def _change(one: Cook, other: Cook, waiting: list[Cook]) -> tuple[bool, int, int]:
    """How much a pair would change: a recipe neither would choose, fewer ways left, distance."""
    distance = abs(waiting.index(one) - waiting.index(other))
    return (one.recipes[0] != other.recipes[0], -len(other.recipes), distance)


def shared_recipe(team: Sequence[Cook]) -> str:
    """The recipe a team works: the first of the member with the fewest, that all can work; else empty."""
    choosiest = min(team, key=lambda cook: len(cook.recipes))
    return next((code for code in choosiest.recipes if all(code in cook.recipes for cook in team)), "")


def _seated(seats: Sequence[Seat], teams: list[tuple[Cook, ...]]) -> tuple[Placed, ...]:
    free = list(seats)
    placed = []
    for team in teams:
        seat = next((each for each in free if each.cooks >= len(team)), None)
        if seat is None:
            raise _too_small(len(teams), len(seats), in_pairs=any(len(each) > 1 for each in teams))
        free.remove(seat)
        placed.append(Placed(seat.bench, shared_recipe(team), tuple(cook.key for cook in team)))
    return tuple(placed)


def _too_small(needed: int, there: int, *, in_pairs: bool) -> RuleBroken:
    ways = "Take" if in_pairs else "Work in pairs, take"
    return RuleBroken(
        "not_enough_benches",
        f"{needed} benches are needed and the room has {there} that fit. "
        f"{ways} a larger room, or make it two sittings.",
        needed=needed,
        there=there,
    )


def _benches_twice(places: Sequence[Placed]) -> list[Trouble]:
    counted = Counter(place.bench for place in places)
    return [
        Trouble("bench_twice", f"Bench {bench} is given out {times} times. A bench is given once.", bench)
        for bench, times in counted.items()
        if times > 1
    ]


def _people_twice(places: Sequence[Placed], by_key: Mapping[int, Cook]) -> list[Trouble]:
    benches: dict[int, list[int]] = {}
    for place in places:
        for key in place.cooks:
            benches.setdefault(key, []).append(place.bench)
    return [
        Trouble(
            "learner_twice",
            f"{_name(by_key, key)} is put on bench {' and on bench '.join(map(str, found))}. "
            "A learner works at one bench.",
            found[-1],
            (key,),
        )
        for key, found in benches.items()
        if len(found) > 1
    ]


def _at_bench(place: Placed, room: Mapping[int, int], by_key: Mapping[int, Cook]) -> list[Trouble]:
    where = f"Bench {place.bench}"
    if place.bench not in room:
        return [Trouble("bench_unknown", f"{where} is not in this room.", place.bench, place.cooks)]
    found = []
    if len(place.cooks) > room[place.bench]:
        words = f"{where} takes {room[place.bench]} and {len(place.cooks)} are put there."
        found.append(Trouble("bench_too_small", words, place.bench, place.cooks))
    for key in place.cooks:
        if key not in by_key:
            found.append(
                Trouble("learner_unknown", f"{where} names somebody who is not in this class.", place.bench)
            )
        elif place.recipe not in by_key[key].recipes:
            found.append(_wrong_recipe(place, by_key[key]))
    return found


def _wrong_recipe(place: Placed, cook: Cook) -> Trouble:
    help_ = (
        "This dish has nothing for them; choose another dish."
        if not cook.recipes
        else (f"They can be put to {', '.join(cook.recipes)}.")
    )
    words = f"Bench {place.bench} works {place.recipe}, and something in it is declared against what "
    return Trouble("recipe_against_diet", f"{words}{cook.name} avoids. {help_}", place.bench, (cook.key,))


def _shared_though_apart(
    places: Sequence[Placed], by_key: Mapping[int, Cook], kept: set[frozenset[int]]
) -> list[Trouble]:
    return [
        Trouble(
            "kept_apart",
            f"Bench {place.bench} is shared by {' and '.join(_name(by_key, key) for key in place.cooks)}, "
            "who do not share a bench. Move one of them.",
            place.bench,
            place.cooks,
        )
        for place in places
        if any(pair <= set(place.cooks) for pair in kept)
    ]


def _name(by_key: Mapping[int, Cook], key: int) -> str:
    return by_key[key].name if key in by_key else "Somebody"
