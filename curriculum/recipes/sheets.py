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
from collections.abc import Callable
from datetime import date
from functools import cache

from curriculum.recipes.data import FoodData, RecipeData

#: Reads one value of a sheet.
Reader = Callable[[typing.Any], typing.Any]

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
def _readers(kind: type) -> dict[str, Reader | None]:
    """How each field of a dataclass is read: None where the value is kept as it stands."""
    return {name: _reader(hint) for name, hint in typing.get_type_hints(kind).items()}


def _made(kind: type, values: dict) -> typing.Any:
    """One dataclass of that kind from its plain values."""
    readers = _readers(kind)
    unknown = sorted(values.keys() - readers.keys())
    if unknown:
        raise UnreadableSheet(f"{kind.__name__} has no field {unknown[0]}.")
    try:
        return kind(
            **{name: readers[name](value) if readers[name] else value for name, value in values.items()}
        )
    except TypeError as error:
        raise UnreadableSheet(f"{kind.__name__}: {error}.") from error


@cache
def _reader(hint: typing.Any) -> Reader | None:
    """How a value is read that its annotation describes; worked out once for each annotation."""
    if isinstance(hint, types.UnionType):
        inner = _reader(next(each for each in typing.get_args(hint) if each is not type(None)))
        return inner and (lambda value: None if value is None else inner(value))
    if typing.get_origin(hint) is tuple:
        return _tuple_reader(typing.get_args(hint))
    if dataclasses.is_dataclass(hint):
        return lambda value: _made(hint, value)
    return date.fromisoformat if hint is date else None


def _tuple_reader(kinds: tuple) -> Reader:
    if kinds[-1] is not Ellipsis:
        readers = [_reader(kind) or _as_it_is for kind in kinds]
        return lambda values: tuple(read(each) for read, each in zip(readers, values, strict=True))
    reader = _reader(kinds[0])
    return tuple if reader is None else lambda values: tuple(reader(each) for each in values)


def _as_it_is(value: typing.Any) -> typing.Any:
    return value
