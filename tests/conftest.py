"""What every test stands on: a database of its own, quick hashes, and an honest end.

For whoever runs ``pytest``: nothing here is skipped. A test that cannot run on this
machine or this database is deselected, and the run ends with the list of those and why.
"""

import hashlib
import os
import shutil
import sys
import tempfile
from collections import Counter
from pathlib import Path

import pytest
from hypothesis import HealthCheck
from hypothesis import settings as hypothesis_settings

ROOT = Path(__file__).resolve().parent.parent
KEPT = ROOT / ".data"
PICTURES = KEPT / "pictures"

hypothesis_settings.register_profile(
    "desk", deadline=None, suppress_health_check=[HealthCheck.too_slow], print_blob=True
)
hypothesis_settings.register_profile(
    "ci", parent=hypothesis_settings.get_profile("desk"), derandomize=True, database=None
)
hypothesis_settings.load_profile("ci" if os.environ.get("CI") else "desk")

_not_run: Counter[str] = Counter()
_scratch: list[Path] = []


def pytest_configure(config):
    """Turn the project's settings into those of a test run, before any table is made."""
    try:
        from django.conf import settings

        databases = settings.DATABASES
    except ImportError:
        return
    scratch = Path(tempfile.mkdtemp(prefix="kitchen-tests-"))
    _scratch.append(scratch)
    _quick_settings(settings, scratch)
    if _vendor(databases) == "sqlite":
        databases["default"].setdefault("TEST", {})["NAME"] = str(scratch / "test.sqlite3")
        _let_the_flush_empty_ledgers()
    sys.addaudithook(_keep_off_kept_data)


def _quick_settings(settings, scratch: Path) -> None:
    (scratch / "static").mkdir()
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
    settings.AXES_ENABLED = False
    settings.MEDIA_ROOT = str(scratch / "media")
    settings.STATIC_ROOT = str(scratch / "static")
    settings.WHITENOISE_USE_FINDERS = True
    settings.WHITENOISE_AUTOREFRESH = True
    settings.SECURE_SSL_REDIRECT = False
    settings.SESSION_COOKIE_SECURE = False
    settings.CSRF_COOKIE_SECURE = False
    settings.STORAGES = {
        **settings.STORAGES,
        "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
    }


@pytest.fixture(scope="session")
def django_db_keepdb():
    """On SQLite the tables are laid once for each state of the migrations, then copied."""
    return _database_in_use() == "sqlite"


@pytest.fixture(scope="session")
def django_db_modify_db_settings(django_db_modify_db_settings):
    """Begin with a copy of the tables where an earlier run has laid them."""
    if _database_in_use() == "sqlite" and _laid_tables().exists():
        shutil.copy(_laid_tables(), _test_database())


@pytest.fixture(scope="session")
def django_db_setup(django_db_setup, django_db_blocker):
    """Keep the empty tables for the next run."""
    if _database_in_use() != "sqlite" or _laid_tables().exists():
        return
    from django.db import connection

    with django_db_blocker.unblock(), connection.cursor() as cursor:
        fresh = f"{_laid_tables()}.{os.getpid()}"
        cursor.execute("VACUUM INTO %s", [fresh])
        os.replace(fresh, _laid_tables())


def _test_database() -> str:
    from django.conf import settings

    return settings.DATABASES["default"]["TEST"]["NAME"]


def _laid_tables() -> Path:
    """One file for each state of the migrations, the ledgers' triggers and the framework."""
    import django

    state = hashlib.sha256(django.__version__.encode())
    for path in [ROOT / "curriculum" / "ledgers.py", *sorted(ROOT.glob("*/migrations/*.py"))]:
        state.update(path.read_bytes())
    folder = Path(tempfile.gettempdir()) / f"kitchen-tables-{os.getuid()}"
    folder.mkdir(mode=0o700, exist_ok=True)
    return folder / f"{state.hexdigest()[:24]}.sqlite3"


def _vendor(databases) -> str:
    return "postgresql" if "postgresql" in databases["default"]["ENGINE"] else "sqlite"


def _let_the_flush_empty_ledgers() -> None:
    """After a transactional test SQLite empties tables by DELETE, which the ledgers refuse.

    Only this flush may lift the triggers; it lays them again in the same script.
    """
    from django.db.backends.sqlite3.base import DatabaseOperations

    plain = DatabaseOperations.sql_flush

    def sql_flush(self, style, tables, **options):
        if not tables:
            return plain(self, style, tables, **options)
        with self.connection.cursor() as cursor:
            cursor.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'")
            triggers = cursor.fetchall()
        lift = [f'DROP TRIGGER "{name}"' for name, _ in triggers]
        return lift + plain(self, style, tables, **options) + [sql for _, sql in triggers]

    DatabaseOperations.sql_flush = sql_flush


def _keep_off_kept_data(event: str, facts: tuple) -> None:
    """Refuse every look into ``.data``: the demonstration's database is not ours to touch."""
    if event not in ("open", "sqlite3.connect") or not isinstance(facts[0], str | bytes | os.PathLike):
        return
    path = os.fsdecode(facts[0]).removeprefix("file:")
    if path.startswith(str(KEPT) + os.sep) and not path.startswith(str(PICTURES)):
        raise RuntimeError(f"A test reached for {path}; tests work in a temporary folder.")


def pytest_unconfigure(config):
    """Leave nothing behind."""
    for folder in _scratch:
        shutil.rmtree(folder, ignore_errors=True)


def pytest_collection_modifyitems(config, items):
    """Take out what this run cannot judge, and remember why."""
    kept, taken = [], []
    for item in items:
        why = _why_not(item)
        if why:
            _not_run[why] += 1
            taken.append(item)
        else:
            kept.append(item)
    if taken:
        config.hook.pytest_deselected(items=taken)
        items[:] = kept


def _why_not(item) -> str:
    if item.get_closest_marker("browser") and os.environ.get("KITCHEN_BROWSER") != "1":
        return "journeys in a real browser: they need Chromium and KITCHEN_BROWSER=1"
    skipped = item.get_closest_marker("skip")
    if skipped and str(skipped.kwargs.get("reason", "")).startswith("got empty parameter set"):
        return "checks over files of ../shared/data: they run where those lie beside the checkout"
    on = _database_in_use()
    if item.get_closest_marker("postgres_only") and on != "postgresql":
        return "rules of PostgreSQL: they need DATABASE_URL to name a PostgreSQL database"
    if item.get_closest_marker("sqlite_only") and on != "sqlite":
        return "rules of SQLite: they run when DATABASE_URL does not name another database"
    return ""


def _database_in_use() -> str:
    try:
        from django.conf import settings

        return _vendor(settings.DATABASES)
    except ImportError:
        return "sqlite"


def pytest_sessionfinish(session):
    """A worker of a run in several processes tells the first one what it left out."""
    if hasattr(session.config, "workeroutput"):
        session.config.workeroutput["not_run"] = dict(_not_run)


@pytest.hookimpl(optionalhook=True)
def pytest_testnodedown(node, error):
    """Every worker collects everything, so the counts are the same; keep the greatest."""
    for why, count in getattr(node, "workeroutput", {}).get("not_run", {}).items():
        _not_run[why] = max(_not_run[why], count)


def pytest_terminal_summary(terminalreporter):
    """Say what was not run here and why."""
    terminalreporter.write_sep("-", "not run here")
    for why, count in sorted(_not_run.items()):
        terminalreporter.write_line(f"{count} of the {why}.")
    terminalreporter.write_line(
        "Benchmarks: they measure and do not judge; python -m tests.benchmarks.main_job runs them."
    )
