"""The one base of append-only tables, and the triggers that keep them so.

A ledger row is added and never changed; a correction is a new row. ``protect(table)``
is a migration operation that makes the triggers on SQLite and PostgreSQL. It must be
the last operation of every migration that alters a ledger table, because SQLite
rebuilds a table on such a change and silently drops its triggers.
"""

from collections.abc import Iterable

from django.apps import apps
from django.db import connection, migrations, models


class LedgerRow(models.Model):
    """A row that is added once. ``save`` refuses a second time, ``delete`` always."""

    class Meta:
        abstract = True

    def save(self, *args: object, **kwargs: object) -> None:
        """Add the row; a row that already stands is never written again."""
        if not self._state.adding:
            raise TypeError(f"{type(self).__name__} is a ledger: add a new row instead of changing one.")
        super().save(*args, **kwargs)

    def delete(self, *args: object, **kwargs: object) -> None:
        """Refuse."""
        raise TypeError(f"{type(self).__name__} is a ledger: rows are never deleted.")


SQLITE_TRIGGER = (
    "CREATE TRIGGER IF NOT EXISTS {table}_no_{name} BEFORE {event} ON {table} "
    "BEGIN SELECT RAISE(ABORT, '{table} is append-only'); END"
)
POSTGRES_FUNCTION = (
    "CREATE OR REPLACE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$ "
    "BEGIN RAISE EXCEPTION '% is append-only', TG_TABLE_NAME "
    "USING ERRCODE = 'integrity_constraint_violation'; END $$"
)
POSTGRES_TRIGGER = (
    "CREATE OR REPLACE TRIGGER {table}_no_change BEFORE UPDATE OR DELETE ON {table} "
    "FOR EACH ROW EXECUTE FUNCTION refuse_change()"
)


def statements(vendor: str, table: str) -> list[str]:
    """The statements that protect one table on one kind of database."""
    if vendor == "sqlite":
        return [
            SQLITE_TRIGGER.format(table=table, name=event.lower(), event=event)
            for event in ("UPDATE", "DELETE")
        ]
    return [POSTGRES_FUNCTION, POSTGRES_TRIGGER.format(table=table)]


def protect(*tables: str) -> migrations.RunPython:
    """A migration operation that makes (again) the triggers of these tables."""

    def forward(_apps: object, editor: object) -> None:
        for table in tables:
            for statement in statements(editor.connection.vendor, table):
                editor.execute(statement, params=None)

    return migrations.RunPython(forward, migrations.RunPython.noop)


def ledger_models() -> list[type[models.Model]]:
    """Every concrete ledger of the project."""
    return [model for model in apps.get_models() if issubclass(model, LedgerRow)]


def unprotected(tables: Iterable[str]) -> list[str]:
    """Those of the tables whose triggers are missing in the database in use."""
    with connection.cursor() as cursor:
        if connection.vendor == "sqlite":
            cursor.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'")
            wanted = {table: {f"{table}_no_update", f"{table}_no_delete"} for table in tables}
        else:
            cursor.execute("SELECT tgname FROM pg_trigger WHERE NOT tgisinternal")
            wanted = {table: {f"{table}_no_change"} for table in tables}
        found = {row[0] for row in cursor.fetchall()}
    return [table for table, names in wanted.items() if not names <= found]
