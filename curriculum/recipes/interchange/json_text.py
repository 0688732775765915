"""JSON from anywhere, read strictly: refused with a sentence where it is broken, doubtful or too deep.

For what people bring in. Depth is counted before anything is parsed, so that no nesting can
exhaust the reader; NaN, Infinity and numbers beyond reason are refused, a name that stands twice
in one object too (which one is meant cannot be known), and letters that no database keeps.
"""

import json
import math
import re

from curriculum.errors import RuleBroken

DEEPEST = 40
LONGEST_FIGURE = 40
#: What the parser of the standard library says -> what we say.
_WORDS = {
    "Expecting value": "a value is missing, or is not in quotation marks",
    "Expecting ',' delimiter": "a comma is missing, or a quotation mark too many",
    "Expecting ':' delimiter": "a colon is missing behind a name",
    "Expecting property name": "a name in double quotation marks is missing, or a comma is too many",
    "Unterminated string": "a text begins that has no closing quotation mark",
    "Invalid control character": "a text goes over a line end, or holds a sign that cannot be seen",
    "Invalid \\": "a backslash stands before a letter that it does not belong to",
    "Extra data": "something follows behind the end",
}
_TOKEN = re.compile(r'"(?:[^"\\]|\\.)*+"?|[\[\]{}]', re.DOTALL)


def parse(text: str) -> object:
    """The value. RuleBroken with the line and column, or with what is wrong."""
    _demand_shallow(text)
    try:
        value = json.loads(
            text, object_pairs_hook=_once, parse_constant=_no_number, parse_int=_whole, parse_float=_float
        )
    except json.JSONDecodeError as error:
        raise RuleBroken(
            "broken_json",
            f"This is broken JSON: in line {error.lineno}, at column {error.colno}, {_said(error)}.",
        ) from error
    _demand_letters(value)
    return value


def _said(error: json.JSONDecodeError) -> str:
    """What is wrong, in words for whoever looks at the text."""
    found = next((words for begin, words in _WORDS.items() if error.msg.startswith(begin)), "")
    return found or "something stands that is not JSON"


def text_of(value: object) -> str:
    """The value as JSON text, letters kept."""
    return json.dumps(value, ensure_ascii=False)


def _demand_shallow(text: str) -> None:
    depth = 0
    for token in _TOKEN.finditer(text):
        sign = token[0][0]
        depth += (sign in "[{") - (sign in "]}")
        if depth > DEEPEST:
            raise RuleBroken(
                "too_deep",
                f"This is nested more than {DEEPEST} deep. No recipe is; take out what is around it.",
            )


def _once(pairs: list[tuple[str, object]]) -> dict[str, object]:
    found: dict[str, object] = {}
    for name, value in pairs:
        if name in found:
            raise RuleBroken(
                "name_twice",
                f"“{name[:40]}” stands twice in one object, so which is meant cannot be known. "
                "Take one of them out.",
            )
        found[name] = value
    return found


def _no_number(word: str) -> float:
    raise RuleBroken("no_number", f"{word} is no number in JSON. Write a figure, or take it out.")


def _whole(digits: str) -> int:
    if len(digits) > LONGEST_FIGURE:
        raise RuleBroken(
            "figure_too_long", f"A figure of {len(digits)} digits stands in it. No recipe has one."
        )
    return int(digits)


def _float(digits: str) -> float:
    value = float(digits) if len(digits) <= 10 * LONGEST_FIGURE else math.inf
    if not math.isfinite(value):
        raise RuleBroken("figure_too_large", f"The figure {digits[:20]}… is larger than any number kept.")
    return value


def _demand_letters(value: object) -> None:
    text = text_of(value)
    try:
        text.encode()
    except UnicodeEncodeError as error:
        raise RuleBroken(
            "half_a_letter",
            "A letter in it is only half there (a lone surrogate). Write that letter anew.",
        ) from error
    if re.search(r"(?<!\\)(?:\\\\)*\\u0000", text):
        raise RuleBroken("nul", "There is a character in it that cannot be kept (NUL). Take it out.")
