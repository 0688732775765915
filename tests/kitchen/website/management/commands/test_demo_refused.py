"""The demonstration is refused where it may not begin, and goes on where an earlier start ended."""

import io
import json
import socket
from datetime import date

import pytest
from django.core.management import call_command
from django.db import connections

from curriculum.courses.models import Course
from curriculum.people.models import College
from curriculum.recipes.models import Version
from kitchen.website.demonstration import college, ground
from kitchen.website.management.commands import demo
from tests.builders.demonstration import rows


def test_a_busy_port_is_one_sentence_and_a_code_and_nothing_is_written(db, capsys):
    with socket.socket() as taken:
        taken.bind((demo.HOST, 0))
        taken.listen()
        with pytest.raises(SystemExit) as ended:
            call_command("demo", "--port", str(taken.getsockname()[1]))
    assert ended.value.code == ground.PORT_BUSY
    assert capsys.readouterr().err.count("\n") == 1
    assert not College.objects.exists()


@pytest.mark.sqlite_only
def test_an_unwritable_folder_is_one_sentence_and_a_code(tmp_path, monkeypatch, capsys):
    (tmp_path / "a-file").touch()
    place = str(tmp_path / "a-file" / "kitchen.sqlite3")
    monkeypatch.setitem(connections["default"].settings_dict, "NAME", place)
    with pytest.raises(SystemExit) as ended:
        call_command("demo", "--no-serve")
    assert ended.value.code == ground.NOT_WRITABLE
    assert capsys.readouterr().err.count("\n") == 1


@pytest.mark.django_db(transaction=True)
def test_another_colleges_database_is_left_as_it_is(capsys):
    College.objects.create(name="A real college", short_name="Real")
    before = rows()
    with pytest.raises(SystemExit) as ended:
        call_command("demo", "--no-serve")
    assert ended.value.code == ground.NOT_OURS
    assert capsys.readouterr().err.count("\n") == 1
    assert rows() == before


def test_a_start_that_was_interrupted_goes_on_where_it_ended(db, monkeypatch):
    college.write_college(date(2027, 2, 17))
    monkeypatch.setattr(demo, "lessons_to_work", list)
    out = io.StringIO()
    call_command("demo", "--no-serve", "--json", stdout=out)
    assert json.loads(out.getvalue())["lessons"] == []
    assert (Version.objects.filter(state="approved").count(), Course.objects.count()) == (17, 4)
