"""The eyes of the journeys see what is wrong: each look is shown a page that breaks it."""

import pytest

from tests.browser.conftest import SCREENS
from tests.browser.eyes import axe, complaints, small_targets, too_wide

pytestmark = pytest.mark.browser

PAGE = """<!doctype html><html lang="en-GB"><head><title>Kits</title></head><body><main><h1>Kits</h1>
{inside}</main></body></html>"""


@pytest.fixture
def shown(window):
    def show(inside):
        page = window(SCREENS[2])
        page.set_content(PAGE.format(inside=inside))
        return page

    return show


def test_an_ordinary_page_has_nothing_to_complain_of(shown):
    assert complaints(shown('<button style="min-height: 3rem">Issue the kits</button>')) == []


def test_a_field_without_a_label_is_seen(shown):
    assert any("label" in words for words in axe(shown('<input style="height: 3rem">')))


def test_a_small_button_is_seen(shown):
    assert small_targets(shown('<button style="height: 20px">Undo</button>')) == [
        'BUTTON "Undo" is 20 px high'
    ]


def test_a_narrow_way_is_seen(shown):
    way = '<a href="/" style="display: inline-block; height: 44px; width: 27px">Kit</a>'
    nav = f'<nav aria-label="Ways">{way}</nav>'
    assert small_targets(shown(nav)) == ['A "Kit" is 27 px wide']


def test_a_page_that_slides_sideways_is_seen(shown):
    assert too_wide(shown('<div style="width: 900px">wide</div>')) == ["the page is 518 px too wide"]


def test_a_word_on_the_console_is_seen(shown):
    page = shown("<p>text</p>")
    page.evaluate("console.error('lost')")
    assert "console: lost" in complaints(page)


def test_an_error_of_a_script_is_seen(shown):
    page = shown("<p>text</p>")
    page.evaluate("setTimeout(() => { throw new Error('broken') }, 0)")
    page.wait_for_timeout(50)
    assert any("broken" in words for words in page.problems)
