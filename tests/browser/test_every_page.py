"""Every page that somebody can reach from their first page is walked and looked at.

From the day of each role the links are followed; of each kind of page (one URL name) the
first is opened. A link that leads to a refusal, a page that axe complains of, a word
on the console or a target too small for a finger fails, with the name of the page.
"""

import json
from urllib.parse import urldefrag, urlsplit

import pytest
from django.urls import Resolver404, resolve

from tests.browser.conftest import SCREENS
from tests.browser.eyes import complaints, keep_picture
from tests.browser.steps import sign_in

pytestmark = pytest.mark.browser

ROLES = (
    "lecturer",
    "stores",
    "technician",
    "student",
    "second_marker",
    "verifier",
    "manager",
    "external",
)
OF_EACH_KIND = 1
MOST_PAGES = 60
LINKS = "() => [...document.querySelectorAll('a[href]')].map(one => one.href)"


def kind_of(address):
    """The URL name of an address, or None for what is not a page of the site."""
    try:
        return resolve(urlsplit(address).path).view_name
    except Resolver404:
        return None


def links_of(page, site):
    """The pages of the site that this page links to; papers and files are not pages."""
    found = (urldefrag(one)[0] for one in page.evaluate(LINKS))
    return [one for one in found if one.startswith(site.address) and "/static/" not in one]


def walk(page, site, look):
    """Open page after page; ``look(address, status)`` is asked of each. Returns the kinds seen."""
    seen, waiting, kinds = {page.url}, links_of(page, site), {}
    look(page.url, 200)
    while waiting and len(seen) < MOST_PAGES:
        address = waiting.pop(0)
        kind = kind_of(address)
        if address in seen or kinds.get(kind, 0) >= OF_EACH_KIND or kind == "people:sign_out":
            continue
        seen.add(address)
        kinds[kind] = kinds.get(kind, 0) + 1
        answer = page.request.get(address)
        if answer.headers.get("content-type", "").startswith("text/html"):
            page.goto(address)
            look(address, answer.status)
            waiting += links_of(page, site)
        else:
            look(address, answer.status)
    return kinds


DESK, TABLET, PHONE = SCREENS
WALKS = [(role, PHONE) for role in ROLES] + [("lecturer", DESK), ("stores", TABLET), ("student", DESK)]


@pytest.mark.parametrize(("role", "screen"), WALKS, ids=[f"{role}-{screen.name}" for role, screen in WALKS])
def test_every_page_a_role_can_reach_can_be_used(role, screen, site, window):
    page = window(screen)
    sign_in(page, site, role)
    wrong = {}

    def look(address, status):
        found = [] if status == 200 else [f"the link answers {status}"]
        found += complaints(page) if status == 200 else []
        if found:
            name = f"{role}-{screen.name}-{kind_of(address)}".replace(":", "-")
            keep_picture(page, name)
            wrong[address.removeprefix(site.address)] = found
        page.problems.clear()

    kinds = walk(page, site, look)
    assert wrong == {}, json.dumps(wrong, indent=1)
    assert kinds, "The first page leads nowhere."
