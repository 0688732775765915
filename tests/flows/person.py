"""Somebody at a page: opens it, reads it, sends its form with what the form itself holds."""

import re
from html import unescape
from html.parser import HTMLParser
from urllib.parse import urldefrag, urljoin

from django.test import Client
from django.urls import resolve, reverse

LINK = re.compile(r'href="([^"]+)"')


class Form(HTMLParser):
    """The forms on a page as a browser would send them: (address, fields), in their order."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.forms: list[tuple[str, dict[str, str]]] = []
        self.methods: list[str] = []
        self.buttons: list[int] = []
        self.hidden: set[str] = set()
        self.here: dict[str, str] | None = None
        self.select = self.area = ""
        self.feed(page)

    def handle_starttag(self, tag, attributes):
        facts = dict(attributes)
        name = facts.get("name") or ""
        if tag == "form":
            self.here = {}
            self.forms.append((facts.get("action") or "", self.here))
            self.methods.append((facts.get("method") or "get").lower())
            self.buttons.append(0)
        elif self.here is None:
            return
        elif tag == "input" and name and self._is_sent(facts):
            self.here[name] = facts.get("value") or ""
            if facts.get("type") == "hidden":
                self.hidden.add(name)
        elif tag == "button":
            self.buttons[-1] += 1
        elif tag == "select":
            self.select = name
        elif tag == "option" and self.select and ("selected" in facts or self.select not in self.here):
            self.here[self.select] = facts.get("value") or ""
        elif tag == "textarea":
            self.area = name
            self.here[name] = ""

    def handle_endtag(self, tag):
        if tag == "form":
            self.here = None
        elif tag == "select":
            self.select = ""
        elif tag == "textarea":
            self.area = ""

    def handle_data(self, data):
        if self.area and self.here is not None:
            self.here[self.area] += data

    @staticmethod
    def _is_sent(facts):
        kind = facts.get("type") or "text"
        return kind not in ("submit", "button") and (kind not in ("radio", "checkbox") or "checked" in facts)


class Person:
    """One signed-in person of a flow."""

    def __init__(self, user) -> None:
        self.client = Client()
        if user is not None:
            self.client.force_login(user, "django.contrib.auth.backends.ModelBackend")
        self.page = ""

    def open(self, name, status=200, **kwargs):
        """Open a page by its URL name and keep what it says."""
        self.address = reverse(name, kwargs=kwargs)
        answer = self.client.get(self.address)
        assert answer.status_code == status, f"{self.address} answers {answer.status_code}"
        self.page = answer.content.decode() if answer["content-type"].startswith("text/html") else ""
        return answer

    def sees(self, *words):
        """The words of the page, without its tags, hold each of these."""
        said = self.words()
        assert [each for each in words if each not in said] == [], said[:4000]

    def words(self):
        without = re.sub(r"<(script|style|svg)\b.*?</\1>", " ", self.page, flags=re.DOTALL)
        return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]+>", " ", without))).strip()

    def send(self, name=None, status=302, kwargs=None, where=None, **typed):
        """Send a form of the open page: what it holds, and what is typed over it.

        ``where`` picks one of several forms by what it holds: ``{"place": "texture"}``.
        """
        address = reverse(name, kwargs=kwargs) if name else self.address
        held = self._held(address, where or {})
        answer = self.client.post(address, {**held, **typed})
        assert answer.status_code == status, self._why(answer)
        self.page = answer.content.decode() if status == 200 else ""
        return answer

    def _held(self, address, where):
        own = ("",) if address == self.address else ()
        for action, fields in Form(self.page).forms:
            if action in (address, *own) and fields.items() >= where.items():
                return fields
        raise AssertionError(f"No form of this page goes to {address} with {where}.")

    def _why(self, answer):
        self.page = answer.content.decode()
        return f"{answer.status_code} {answer.get('location', '')}: {self.words()[:3000]}"


def reached(user, most=80):
    """Every address that this person can reach by links, one for each kind of page."""
    return [address for address, _ in walked(user, most)]


def walked(user, most=80):
    """(address, answer) of every kind of page that this person can reach by links."""
    client, waiting, found, kinds = Person(user).client, ["/"], [], set()
    while waiting and len(found) < most:
        address = waiting.pop(0)
        kind = resolve(address.split("?")[0]).view_name
        if kind in kinds or kind == "people:sign_out":
            continue
        kinds.add(kind)
        answer = client.get(address)
        assert answer.status_code in (200, 302), f"{address} answers {answer.status_code}"
        found.append((address, answer))
        if answer["content-type"].startswith("text/html"):
            links = LINK.findall(answer.content.decode())
            here = (urldefrag(urljoin(address, link.replace("&amp;", "&")))[0] for link in links)
            waiting += [link for link in here if link.startswith("/") and not link.startswith("/static/")]
    return found
