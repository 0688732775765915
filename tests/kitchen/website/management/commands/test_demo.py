"""The demonstration: made once, the same when it is started again, refused where it may not begin."""

import io
import json
import socket
from datetime import date

import pytest
from django.core.management import call_command
from django.db import connection, connections, transaction

from curriculum.courses.models import Course
from curriculum.people.models import College
from curriculum.recipes.models import Version
from kitchen.stores.models import Lot, Movement
from kitchen.website.demonstration import college, ground, people
from kitchen.website.management.commands import demo


def said(*options):
    """What the command says on its standard output."""
    out = io.StringIO()
    call_command("demo", "--no-serve", *options, stdout=out)
    return out.getvalue()


def rows():
    """How many rows every table holds, but those of Django's own books."""
    tables = [name for name in connection.introspection.table_names() if not name.startswith("django_")]
    with connection.cursor() as cursor:
        counted = {}
        for table in tables:
            cursor.execute(f'SELECT COUNT(*) FROM "{table}"')
            counted[table] = cursor.fetchone()[0]
    return counted


@pytest.fixture(scope="module")
def demonstration(django_db_setup, django_db_blocker):
    """What the first start said; the college it made is taken back at the end of this file."""
    with django_db_blocker.unblock():
        outer = transaction.atomic()
        outer.__enter__()
        try:
            yield said("--json")
        finally:
            transaction.set_rollback(True)
            outer.__exit__(None, None, None)


@pytest.fixture
def unblocked(demonstration, django_db_blocker):
    """The database of the demonstration, for one test of this file."""
    with django_db_blocker.unblock():
        yield json.loads(demonstration)


def test_a_second_start_says_the_same_and_adds_no_row(demonstration, unblocked):
    before = rows()
    assert said("--json") == demonstration
    assert rows() == before


def test_the_two_lessons_are_worked_through_with_what_is_short_named(unblocked):
    quiche, eclairs = unblocked["lessons"]
    assert (quiche["title"], quiche["benches"], quiche["kits"]) == ("Leek and Cheddar quiche", 7, 7)
    assert (quiche["shortages"], quiche["marked"]) == ([], 14)
    assert (eclairs["title"], eclairs["benches"], eclairs["kits"]) == ("Coffee éclairs", 5, 5)
    assert eclairs["shortages"] == [{"name": "White fondant icing paste", "milligrams": 600_000}]
    assert eclairs["marked"] == 0


def test_every_role_has_a_login_that_opens_an_account(unblocked):
    assert set(unblocked["logins"]) == {
        *("lecturer", "stores", "technician", "student"),
        *("second_marker", "verifier", "manager", "external"),
    }
    for login in unblocked["logins"].values():
        assert people.person(login["username"]).check_password(login["password"])


def test_butter_leaves_the_lot_with_the_earliest_date_first(unblocked):
    drawn = {}
    for lot, milligrams in Movement.objects.filter(kind="issue").values_list("lot__code", "milligrams"):
        drawn[lot] = drawn.get(lot, 0) - milligrams
    assert (drawn["LS-2207"], drawn["LS-2219"]) == (1_000_000, 440_000 + 930_000)
    assert drawn["QS-0871"] == 1_500_000
    assert Lot.objects.get(code="LS-2207").on_hand_milligrams == 0


def test_the_label_that_held_a_kit_back_was_read_the_day_before(unblocked):
    lot = Lot.objects.get(code="QS-0844")
    assert (lot.label_read_on, lot.label_read_by.username) == (date(2027, 2, 15), "hana")


def test_the_report_says_in_words_what_was_done_and_where_to_look(unblocked):
    words = said()
    assert "Leek and Cheddar quiche: Tuesday 16 February 2027, 09:00 to 12:00, Juniper Kitchen" in words
    assert "Short in the stores: White fondant icing paste, 600 g." in words
    assert "Short in the stores: nothing." in words
    assert "http://127.0.0.1:8000/lessons/" in words
    assert f"with the password {people.PASSWORD} as:" in words


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
    assert json.loads(said("--json"))["lessons"] == []
    assert (Version.objects.filter(state="approved").count(), Course.objects.count()) == (17, 4)
