"""The demonstration college for a whole test file: made once, taken back at the end of the file.

Each test of the file works in a transaction of its own inside it, so that no test sees
what another did.
"""

from collections.abc import Iterator
from contextlib import contextmanager

from django.db import connection, transaction


@contextmanager
def taken_back(django_db_blocker) -> Iterator[None]:
    """A transaction around what a module's fixture makes, rolled back when it ends."""
    with django_db_blocker.unblock():
        outer = transaction.atomic()
        outer.__enter__()
        try:
            yield
        finally:
            transaction.set_rollback(True)
            outer.__exit__(None, None, None)


def rows() -> dict[str, int]:
    """How many rows every table holds, but those of Django's own books."""
    tables = [name for name in connection.introspection.table_names() if not name.startswith("django_")]
    with connection.cursor() as cursor:
        counted = {}
        for table in tables:
            cursor.execute(f'SELECT COUNT(*) FROM "{table}"')
            counted[table] = cursor.fetchone()[0]
    return counted
