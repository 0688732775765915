"""Too much, a session that ended, a broken rule, others who write: in words, for scripts by status."""

import json
import re
import sqlite3
from contextlib import closing

import pytest
from django.contrib.auth.decorators import login_not_required
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import OperationalError, connection, transaction
from django.http import HttpResponse
from django.test import override_settings
from django.urls import include, path

from curriculum.errors import RuleBroken
from curriculum.look import middleware

pytestmark = pytest.mark.django_db


@login_not_required
def refuse(request):
    raise RuleBroken("bench_taken", "Bench 4 is taken <by> Otto.")


@login_not_required
def take(request):
    return HttpResponse(f"{len(request.POST)} fields")


class Refused(Exception):
    """What the driver of a database says, with its code."""

    def __init__(self, **codes):
        super().__init__("locked")
        self.__dict__.update(codes)


@login_not_required
def wait(request):
    said = request.headers.get("Code", "5")
    codes = {"sqlite_errorcode": int(said)} if len(said) < 5 else {"sqlstate": said}
    raise OperationalError("database is locked") from Refused(**codes)


@login_not_required
def write(request):
    with transaction.atomic():
        return HttpResponse("written")


def closed(request):
    return HttpResponse("inside")


urlpatterns = [
    path("refuse/", refuse),
    path("take/", take),
    path("wait/", wait),
    path("write/", write),
    path("closed/", closed),
    path("", include("kitchen.website.urls")),
]


@pytest.fixture(autouse=True)
def our_pages():
    with override_settings(ROOT_URLCONF=__name__, DATA_UPLOAD_MAX_MEMORY_SIZE=2_000_000):
        yield


def test_a_broken_rule_is_a_page_with_a_way_back(client):
    answer = client.post("/refuse/", headers={"Referer": "http://testserver/lessons/"})
    assert answer.status_code == 409
    html = answer.content.decode()
    assert "Bench 4 is taken &lt;by&gt; Otto." in html
    assert 'href="http://testserver/lessons/"' in html


def test_the_way_back_is_never_a_foreign_address(client):
    html = client.post("/refuse/", headers={"Referer": "http://elsewhere.example/"}).content.decode()
    assert "elsewhere.example" not in html


def test_a_broken_rule_is_json_for_scripts(client):
    answer = client.post("/refuse/", headers={"Accept": "application/json"})
    assert (answer.status_code, answer.json()["code"]) == (409, "bench_taken")


def test_too_much_for_one_form_names_the_limit_and_says_that_back_has_the_text(client):
    answer = client.post(
        "/take/", {"words": "x" * 2_100_000}, content_type="application/x-www-form-urlencoded"
    )
    assert answer.status_code == 413
    html = answer.content.decode()
    assert "a form takes up to 2 MB" in html
    assert "the browser still has your text" in html


def test_too_much_text_in_a_form_with_files_says_the_same(client):
    answer = client.post("/take/", {"words": "x" * 2_100_000})
    assert answer.status_code == 413


def test_a_form_with_a_file_beyond_all_measure_is_refused_before_it_is_read(client, monkeypatch):
    monkeypatch.setattr(middleware, "LONGEST_WITH_FILES", 3_000_000)
    small, large = (SimpleUploadedFile("a.txt", b"x" * size) for size in (2_500_000, 3_000_001))
    assert client.post("/take/", {"file": small}).status_code == 200
    assert client.post("/take/", {"file": large}).status_code == 413


def test_too_much_from_a_script_is_json(client):
    answer = client.post("/take/", "x" * 2_100_000, content_type="application/json")
    assert (answer.status_code, answer.json()["limit"]) == (413, "2 MB")


def test_what_fits_goes_through(client):
    assert client.post("/take/", {"words": "x" * 1_900_000}).content == b"1 fields"


def test_a_nul_in_the_address_is_not_read(client):
    assert client.get("/take/?q=%00").status_code == 400
    assert client.get("/take/%00").status_code == 400


@pytest.mark.parametrize(
    "headers",
    [{"Accept": "application/json"}, {"Sec-Fetch-Dest": "empty"}, {"X-Requested-With": "XMLHttpRequest"}],
)
def test_a_script_that_is_signed_out_gets_401_and_never_the_sign_in_page(client, headers):
    answer = client.get("/closed/", headers=headers)
    assert answer.status_code == 401
    assert json.loads(answer.content)["code"] == "signed_out"


def test_a_page_that_is_fetched_beside_the_pages_leads_a_signed_out_person_to_the_sign_in_page(client):
    page = {"Sec-Fetch-Dest": "empty", "Accept": "text/html,application/xhtml+xml,*/*;q=0.8"}
    answer = client.get("/closed/", headers=page)
    assert answer.status_code == 302
    assert "next=/closed/" in answer.headers["Location"]


def test_htmx_that_is_signed_out_is_led_to_the_sign_in_page(client):
    answer = client.get(
        "/closed/", headers={"HX-Request": "true", "HX-Current-URL": "http://testserver/lessons/"}
    )
    assert answer.status_code == 401
    assert answer.headers["HX-Redirect"].endswith("?next=http%3A%2F%2Ftestserver%2Flessons%2F")


def test_a_person_who_is_signed_out_is_sent_to_the_sign_in_page(client):
    answer = client.get("/closed/")
    assert answer.status_code == 302
    assert "next=/closed/" in answer.headers["Location"]


def test_a_change_whose_turn_did_not_come_says_so_and_keeps_what_was_typed(client):
    sent = {"why": 'Two "pots" <spilt>\nand one bowl', "day": ["1", "2"], "csrfmiddlewaretoken": "old"}
    answer = client.post("/wait/?week=3", sent)
    html = answer.content.decode()
    assert (answer.status_code, answer.headers["Retry-After"]) == (503, "5")
    assert "Others are writing just now" in html and "Nothing was changed" in html
    assert 'action="/wait/?week=3"' in html and "Send it again" in html
    assert 'name="why" value="Two &quot;pots&quot; &lt;spilt&gt;\nand one bowl"' in html
    assert re.findall(r'name="day" value="(\d)"', html) == ["1", "2"]
    assert 'value="old"' not in html


def test_a_page_that_waited_is_opened_again_and_a_script_is_told_by_status(client):
    html = client.get("/wait/?week=3").content.decode()
    assert 'href="/wait/?week=3"' in html and "<input" not in re.sub(r"(?s)<header.*?</header>", "", html)
    answer = client.post("/wait/", headers={"Accept": "application/json"})
    assert (answer.status_code, answer.json()["code"]) == (503, "others_write")


def test_what_htmx_sends_is_answered_so_that_it_shows_the_page_and_what_it_asks_for_is_not(client):
    answer = client.post("/wait/", {"mark": "7"}, headers={"HX-Request": "true"})
    assert answer.status_code == 409 and 'name="mark" value="7"' in answer.content.decode()
    assert client.get("/wait/", headers={"HX-Request": "true"}).status_code == 503


@pytest.mark.parametrize(
    "sent",
    [{"password": "leek"}, {"new_password1": "leek"}, {"why": "leek", "f": SimpleUploadedFile("a", b"x")}],
)
def test_no_password_and_no_half_of_a_form_with_a_file_is_written_into_the_page(client, sent):
    html = client.post("/wait/", sent).content.decode()
    assert "leek" not in html and "Send it again" not in html and "the browser still has" in html


@pytest.mark.parametrize("code", ["5", "6", "261", "517", "40001", "40P01", "55P03"])
def test_each_way_in_which_a_database_says_that_others_write_is_known(client, code):
    assert client.post("/wait/", headers={"Code": code}).status_code == 503


@pytest.mark.parametrize("code", ["1", "13", "57P01"])
def test_any_other_fault_of_the_database_is_a_fault_of_ours(client, code):
    client.raise_request_exception = False
    assert client.post("/wait/", headers={"Code": code}).status_code == 500


@pytest.mark.sqlite_only
@pytest.mark.django_db(transaction=True)
def test_while_another_process_writes_a_change_waits_and_is_then_refused_in_words(client):
    with connection.cursor() as cursor:
        cursor.execute("PRAGMA busy_timeout = 50")
    with closing(sqlite3.connect(connection.settings_dict["NAME"], isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        assert client.post("/write/", {"why": "Spilt"}).status_code == 503
        other.execute("ROLLBACK")
    assert client.post("/write/", {"why": "Spilt"}).content == b"written"
