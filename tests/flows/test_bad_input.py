"""Nonsense in every form that somebody can reach: a clear answer, nothing broken, nothing run.

The forms are found by following links from the first page of each role. Each is sent with
the same nonsense in every field; the answer is a page, and never what was typed as markup.
"""

from urllib.parse import urljoin

import pytest
from django.db import transaction

from tests.builders.cast import build_cast
from tests.builders.feedback import handed_back, weakly_marked
from tests.builders.stores import a_lot
from tests.flows.person import Form, Person, reached

pytestmark = pytest.mark.django_db

MARKUP = "<script>alert(1)</script>"
NONSENSE = {
    "markup": MARKUP,
    "nothing": "",
    "below nothing": "-1",
    "too great": "9" * 400,
    "another script": "نص عربي",
    "no such day": "31 February 2027",
    "half a number": "1/0",
    "a zero byte": "a\x00b",
}
ANSWERS = {200, 302, 303, 400, 404, 409, 413}
ROLES = ("lecturer", "stores", "technician", "student", "second_marker", "verifier", "manager")


@pytest.fixture
def cast():
    made = build_cast()
    a_lot("plain_flour", "FLOUR-1")
    return made


def forms_of(user):
    """(page, method, address, fields, names of hidden fields) of every form this person can reach."""
    client = Person(user).client
    for page in reached(user):
        answer = client.get(page)
        if not answer["content-type"].startswith("text/html"):
            continue
        form = Form(answer.content.decode())
        for (action, fields), method, buttons in zip(form.forms, form.methods, form.buttons, strict=True):
            if buttons and not action.endswith("/sign-out/"):
                yield page, method, urljoin(page, action), fields, form.hidden


def sent(user, method, address, fields):
    """The answer to one form; what it changed is taken back."""
    with transaction.atomic():
        answer = getattr(Person(user).client, method)(address, fields)
        transaction.set_rollback(True)
    return answer


def wrong_answers(user, mangle_hidden):
    found = []
    for page, method, address, fields, hidden in forms_of(user):
        names = [name for name in fields if name != "csrfmiddlewaretoken"]
        names = [name for name in names if mangle_hidden or name not in hidden]
        for what, words in NONSENSE.items():
            answer = sent(user, method, address, {**fields, **dict.fromkeys(names, words)})
            if answer.status_code not in ANSWERS:
                found.append(f"{page}: {address} with {what} answers {answer.status_code}")
            if MARKUP in answer.content.decode(errors="replace"):
                found.append(f"{page}: {address} says what was typed as markup")
    return found


@pytest.mark.parametrize("role", ROLES)
@pytest.mark.parametrize("mangle_hidden", [False, True], ids=["what is typed", "what is hidden too"])
def test_nonsense_is_answered_by_a_page(role, mangle_hidden, cast):
    weakly_marked(cast) if role != "student" else handed_back(cast)
    assert wrong_answers(cast.person(role), mangle_hidden) == []


def test_a_form_that_breaks_is_seen(cast, monkeypatch):
    monkeypatch.setattr("tests.flows.test_bad_input.ANSWERS", {999})
    assert wrong_answers(cast.lecturer, mangle_hidden=False)
