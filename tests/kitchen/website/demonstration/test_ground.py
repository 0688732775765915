"""The demonstration begins only where it may: a free port, a folder of its own, a database of its own."""

import json
import socket
import sqlite3

import pytest
from django.db import connections

from kitchen.website.demonstration import ground
from kitchen.website.demonstration.ground import GroundRefused

pytestmark = pytest.mark.sqlite_only


@pytest.fixture
def database(tmp_path, monkeypatch):
    """The file that the site is told to use; it does not exist yet."""
    path = tmp_path / "kitchen.sqlite3"
    monkeypatch.setitem(connections["default"].settings_dict, "NAME", str(path))
    return path


def college_in(path, is_demonstration=True, fixtures="abc", people=()):
    """A file with the two tables that are asked."""
    with sqlite3.connect(path) as made:
        made.execute("CREATE TABLE curriculum_college (is_demonstration bool, settings text)")
        made.execute("CREATE TABLE curriculum_user (name text)")
        if is_demonstration is not None:
            settings = json.dumps({"fixtures": fixtures})
            made.execute("INSERT INTO curriculum_college VALUES (?, ?)", (is_demonstration, settings))
        made.executemany("INSERT INTO curriculum_user VALUES (?)", [(name,) for name in people])
    made.close()


def test_a_port_on_which_somebody_listens_is_refused_with_its_own_code():
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        with pytest.raises(GroundRefused, match=f"Port {port} on 127.0.0.1 cannot be used") as refused:
            ground.demand_port("127.0.0.1", port)
    assert refused.value.returncode == ground.PORT_BUSY
    ground.demand_port("127.0.0.1", port)


def test_a_missing_and_an_empty_database_are_ours_to_fill(database):
    ground.demand_ours("abc")
    assert not database.exists()
    database.touch()
    ground.demand_ours("abc")


def test_a_demonstration_made_from_the_same_files_may_go_on(database):
    college_in(database)
    ground.demand_ours("abc")


def test_a_database_with_tables_and_nobody_in_it_may_go_on(database):
    college_in(database, is_demonstration=None)
    ground.demand_ours("abc")


@pytest.mark.parametrize("college", [False, None])
def test_another_colleges_database_is_refused_and_left_as_it_is(database, college):
    college_in(database, is_demonstration=college, people=["Somebody"])
    before = database.read_bytes()
    with pytest.raises(GroundRefused, match="is not a demonstration one") as refused:
        ground.demand_ours("abc")
    assert refused.value.returncode == ground.NOT_OURS
    assert database.read_bytes() == before
    assert [path.name for path in database.parent.iterdir()] == [database.name]


def test_a_database_of_another_program_and_a_file_that_is_none_are_refused(database):
    with sqlite3.connect(database) as made:
        made.execute("CREATE TABLE invoices (number int)")
    made.close()
    with pytest.raises(GroundRefused, match="not a demonstration one"):
        ground.demand_ours("abc")
    database.write_text("A shopping list, not a database. " * 100)
    with pytest.raises(GroundRefused, match="not a demonstration one"):
        ground.demand_ours("abc")


def test_a_demonstration_made_from_other_files_is_refused(database):
    college_in(database, fixtures="older")
    with pytest.raises(GroundRefused, match="made from other files") as refused:
        ground.demand_ours("abc")
    assert refused.value.returncode == ground.OTHER_FILES


def test_a_folder_below_a_file_is_refused_and_a_missing_one_below_a_folder_is_not(tmp_path):
    (tmp_path / "a-file").touch()
    with pytest.raises(GroundRefused, match="Nothing can be written") as refused:
        ground.demand_writable(tmp_path / "a-file" / "data")
    assert refused.value.returncode == ground.NOT_WRITABLE
    ground.demand_writable(tmp_path / "new" / "data")
    assert not (tmp_path / "new").exists()
