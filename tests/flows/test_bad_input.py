"""Nonsense in every form that somebody can reach: a clear answer, nothing broken, nothing run.

The forms are found by following links from the first page of each role. Each is sent with
the same nonsense in every field; the answer is a page, and never what was typed as markup.
"""

from urllib.parse import urljoin

import pytest
from django.conf import settings
from django.db import transaction

from tests.builders.cast import build_cast
from tests.builders.feedback import handed_back, weakly_marked
from tests.builders.stores import a_lot
from tests.flows.person import Form, Person, walked

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
SIGN_IN = "/sign-in/"
ANSWERS = {200, 302, 303, 400, 404, 409, 413}
ROLES = ("lecturer", "stores", "technician", "student", "second_marker", "verifier", "manager")


@pytest.fixture
def cast():
    made = build_cast()
    a_lot("plain_flour", "FLOUR-1")
    return made


def forms_of(user):
    """(page, method, address, fields, names of hidden fields) of every form this person can reach."""
    for page, answer in walked(user):
        if not answer["content-type"].startswith("text/html"):
            continue
        form = Form(answer.content.decode())
        for (action, fields), method, buttons in zip(form.forms, form.methods, form.buttons, strict=True):
            if buttons and not action.endswith("/sign-out/"):
                yield page, method, urljoin(page, action), fields, form.hidden


def mangled(user, mangle_hidden):
    """(page, method, address, what, fields) of everything to send, each request once.

    A form without such a field is the same under all nonsense, and one without a hidden field
    the same in both ways; the database is the same each time, so once is enough.
    """
    seen = set()
    for page, method, address, fields, hidden in forms_of(user):
        typed = [name for name in fields if name != "csrfmiddlewaretoken"]
        if mangle_hidden and not hidden.intersection(typed):
            continue
        names = [name for name in typed if mangle_hidden or name not in hidden]
        for what, words in NONSENSE.items():
            sends = {**fields, **dict.fromkeys(names, words)}
            request = (method, address, frozenset((name, sends[name]) for name in typed))
            if request not in seen:
                seen.add(request)
                yield page, method, address, what, sends


def sent(client, session, method, address, fields):
    """The answer to one form in the session of the one signed in; what it changed is taken back."""
    client.cookies.clear()
    client.cookies[settings.SESSION_COOKIE_NAME] = session
    with transaction.atomic():
        answer = getattr(client, method)(address, fields)
        transaction.set_rollback(True)
    return answer


def wrong_answers(user, mangle_hidden):
    """What is wrong with each answer, in words, as it is found."""
    client = Person(user).client
    session = client.cookies[settings.SESSION_COOKIE_NAME].value
    for page, method, address, what, fields in mangled(user, mangle_hidden):
        answer = sent(client, session, method, address, fields)
        if answer.status_code not in ANSWERS:
            yield f"{page}: {address} with {what} answers {answer.status_code}"
        if answer.get("location", "").startswith(SIGN_IN):
            yield f"{page}: {address} with {what} was sent by nobody"
        if MARKUP in answer.content.decode(errors="replace"):
            yield f"{page}: {address} says what was typed as markup"


@pytest.mark.parametrize("role", ROLES)
@pytest.mark.parametrize("mangle_hidden", [False, True], ids=["what is typed", "what is hidden too"])
def test_nonsense_is_answered_by_a_page(role, mangle_hidden, cast):
    weakly_marked(cast) if role != "student" else handed_back(cast)
    assert list(wrong_answers(cast.person(role), mangle_hidden)) == []


def test_a_form_that_breaks_is_seen(cast, monkeypatch):
    monkeypatch.setattr("tests.flows.test_bad_input.ANSWERS", {999})
    assert next(wrong_answers(cast.lecturer, mangle_hidden=False), None)


def test_a_form_that_was_sent_by_nobody_is_seen(cast, monkeypatch):
    monkeypatch.setattr("tests.flows.test_bad_input.SIGN_IN", "/")
    assert "was sent by nobody" in next(wrong_answers(cast.lecturer, mangle_hidden=False), "")
