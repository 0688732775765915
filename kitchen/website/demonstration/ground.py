"""What must be true before the demonstration writes anything: its port, its folder, its database.

Each check refuses with one sentence and an exit code of its own, and changes nothing:
a SQLite file is opened for reading only. The codes are ours: 3 port, 4 another college's
database, 5 folder, 6 other files.
"""

import json
import os
import socket
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

from django.core.management.base import CommandError
from django.db import DEFAULT_DB_ALIAS, connections

PORT_BUSY, NOT_OURS, NOT_WRITABLE, OTHER_FILES = 3, 4, 5, 6


class GroundRefused(CommandError):
    """The demonstration cannot begin here; the message is one sentence."""


def demand_port(host: str, port: int) -> None:
    """Refuse a port on which somebody listens, or which may not be opened."""
    with socket.socket() as trial:
        trial.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            trial.bind((host, port))
        except OSError as error:
            raise GroundRefused(
                f"Port {port} on {host} cannot be used ({error.strerror}); "
                f"end what serves there, or add --port with another number.",
                returncode=PORT_BUSY,
            ) from error


def demand_writable(folder: Path) -> None:
    """Refuse a folder in which nothing can be written; a missing one is judged by what stands above."""
    standing = next(path for path in (folder, *folder.parents) if path.exists())
    if not standing.is_dir() or not os.access(standing, os.W_OK | os.X_OK):
        raise GroundRefused(
            f"Nothing can be written in {folder}; set KITCHEN_DATA to a folder of your own.",
            returncode=NOT_WRITABLE,
        )


def demand_ours(fingerprint: str) -> None:
    """Refuse a database that is another college's, or that was made from other files.

    A database that is missing or empty is ours to fill.
    """
    found = _college_in_sqlite() if _is_sqlite() else _college_elsewhere()
    if found is None:
        return
    is_demonstration, made_from = found
    if not is_demonstration:
        raise GroundRefused(
            f"The database {_name()} is not a demonstration one and was left as it is; "
            "set KITCHEN_DATA to another folder, or DATABASE_URL to another database.",
            returncode=NOT_OURS,
        )
    if made_from != fingerprint:
        raise GroundRefused(
            f"The database {_name()} was made from other files of the demonstration and was left as it is; "
            "remove it to have it made again.",
            returncode=OTHER_FILES,
        )


def sqlite_file() -> Path | None:
    """The file of the SQLite database in use; None for any other database."""
    return Path(connections[DEFAULT_DB_ALIAS].settings_dict["NAME"]) if _is_sqlite() else None


def _is_sqlite() -> bool:
    return connections[DEFAULT_DB_ALIAS].vendor == "sqlite"


def _name() -> str:
    return str(connections[DEFAULT_DB_ALIAS].settings_dict["NAME"])


#: Whether it is a demonstration, and the fingerprint of the files it was made from.
_QUESTION = "SELECT is_demonstration, settings FROM curriculum_college"


def _college_in_sqlite() -> tuple[bool, str] | None:
    path = sqlite_file()
    if not path.exists() or path.stat().st_size == 0:
        return None
    if not os.access(path, os.W_OK):
        raise GroundRefused(f"The database {path} cannot be written.", returncode=NOT_WRITABLE)
    try:
        with closing(sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True)) as database:
            return _judged(lambda question: database.execute(question).fetchall(), _tables(database))
    except sqlite3.DatabaseError:
        return False, ""


def _tables(database: sqlite3.Connection) -> set[str]:
    return {row[0] for row in database.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}


def _college_elsewhere() -> tuple[bool, str] | None:
    connection = connections[DEFAULT_DB_ALIAS]
    with connection.cursor() as cursor:

        def ask(question: str) -> list[tuple]:
            cursor.execute(question)
            return cursor.fetchall()

        return _judged(ask, set(connection.introspection.table_names(cursor)))


def _judged(ask: Callable[[str], list[tuple]], tables: set[str]) -> tuple[bool, str] | None:
    """What the tables say: None for an empty database, else whether it is a demonstration."""
    if not tables:
        return None
    if "curriculum_college" not in tables or "curriculum_user" not in tables:
        return False, ""
    rows = ask(_QUESTION)
    if rows:
        return bool(rows[0][0]), _made_from(rows[0][1])
    return (False, "") if ask("SELECT 1 FROM curriculum_user LIMIT 1") else None


def _made_from(settings: object) -> str:
    """The fingerprint in the college's settings, which come as text or already read."""
    values = json.loads(settings) if isinstance(settings, str) else settings
    return values.get("fixtures", "")
