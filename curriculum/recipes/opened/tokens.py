"""What somebody saw when a form was opened, and what is different now.

Two people may write the same draft at once. A form carries the digest of each of its
fields as they stood when it was opened (``token``); when it comes back, the fields that
stand otherwise now are found (``changed``). Whatever cannot be read counts as never seen.
"""

import hashlib
import json
from collections.abc import Mapping

#: Two different texts have the same digest once in 2 to the power of 48 times.
DIGEST_LENGTH = 12


def digest(words: str) -> str:
    """A short digest of a text; ends of lines and spaces around it do not count."""
    same = "\n".join(words.split("\r\n")).strip()
    return hashlib.sha256(same.encode("utf-8", "surrogatepass")).hexdigest()[:DIGEST_LENGTH]


EMPTY = digest("")


def token(shown: Mapping[str, str]) -> str:
    """What a form carries of the fields it shows."""
    return json.dumps({name: digest(words) for name, words in shown.items()}, separators=(",", ":"))


def read(text: str) -> dict[str, str]:
    """Digests by field as a form brings them back; empty when it brings none that can be read."""
    try:
        said = json.loads(text)
    except (ValueError, RecursionError):
        return {}
    return {str(name): str(each) for name, each in said.items()} if isinstance(said, dict) else {}


def changed(seen: Mapping[str, str], now: Mapping[str, str]) -> tuple[str, ...]:
    """The fields that stand otherwise than they were seen, in the order of ``now``.

    A field that was not there when the form was opened was empty; nothing is changed where
    nothing was seen.
    """
    return tuple(n for n, words in now.items() if seen and digest(words) != seen.get(n, EMPTY))
