"""The frozen sheet of a recipe version: the whole of it as JSON, and back again.

For the action that approves a version (it keeps the sheet and its hash) and for every
query that hands an approved recipe to a calculation. A sheet carries its shape; there
is one reader a shape. Dates are written as 2027-02-16, tuples as lists; every field is
written, so that a sheet never changes its meaning when a default changes later.
"""

import dataclasses
import hashlib
import json
import types
import typing
from datetime import date
from functools import cache

from curriculum.recipes.data import FoodData, RecipeData

#: The shape that is written today.
SHAPE = 1


class UnreadableSheet(ValueError):
    """The sheet has a shape that nobody can read, or a field that the shape does not know."""


def write_sheet(recipe: RecipeData) -> dict:
    """The whole recipe as plain JSON values, with ``"shape": 1``."""
    return {**_plain(recipe), "shape": SHAPE}


def read_sheet(sheet: dict) -> RecipeData:
    """The recipe that a sheet holds; fields it does not have take their defaults.

    Raises UnreadableSheet for another shape, an unknown field or a missing one.
    """
    if sheet.get("shape") != SHAPE:
        raise UnreadableSheet(f"A sheet of shape {sheet.get('shape')!r} cannot be read.")
    return _made(RecipeData, sheet)


def write_food(food: FoodData) -> dict:
    """One food as plain JSON values, as a sheet holds it."""
    return _plain(food)


def read_food(values: dict) -> FoodData:
    """One food from the values of a sheet. Raises UnreadableSheet as ``read_sheet`` does."""
    return _made(FoodData, values)


def sheet_hash(sheet: dict) -> str:
    """SHA-256 (64 hexadecimal digits) of the sheet as canonical JSON: sorted keys, no spaces."""
    text = json.dumps(sheet, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode("utf-8")).hexdigest()


def _plain(value: object) -> typing.Any:
    if dataclasses.is_dataclass(value):
        return {each.name: _plain(getattr(value, each.name)) for each in dataclasses.fields(value)}
    if isinstance(value, tuple):
        return [_plain(each) for each in value]
    if isinstance(value, date):
        return value.isoformat()
    return value


@cache
def _hints(kind: type) -> dict[str, typing.Any]:
    return typing.get_type_hints(kind)


def _made(kind: type, values: dict) -> typing.Any:
    """One dataclass of that kind from its plain values."""
    hints = _hints(kind)
    unknown = sorted(set(values) - set(hints))
    if unknown:
        raise UnreadableSheet(f"{kind.__name__} has no field {unknown[0]}.")
    try:
        return kind(**{name: _read(hints[name], value) for name, value in values.items()})
    except TypeError as error:
        raise UnreadableSheet(f"{kind.__name__}: {error}.") from error


def _read(hint: typing.Any, value: typing.Any) -> typing.Any:
    """One value as its annotation wants it."""
    if value is None:
        return None
    if isinstance(hint, types.UnionType):
        hint = next(each for each in typing.get_args(hint) if each is not type(None))
    if typing.get_origin(hint) is tuple:
        return _tuple(typing.get_args(hint), value)
    if dataclasses.is_dataclass(hint):
        return _made(hint, value)
    return date.fromisoformat(value) if hint is date else value


def _tuple(kinds: tuple, values: list) -> tuple:
    if kinds[-1] is Ellipsis:
        return tuple(_read(kinds[0], each) for each in values)
    return tuple(_read(kind, each) for kind, each in zip(kinds, values, strict=True))
