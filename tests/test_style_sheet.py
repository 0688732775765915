"""The one style sheet and the page of a fault: all they need is here, nothing comes from outside."""

import re

import pytest
from django.contrib.staticfiles import finders
from django.template.loader import get_template

from tests.conftest import ROOT

SHEET = ROOT / "curriculum" / "look" / "static" / "look" / "site.css"
ADDRESS = re.compile(r"url\(([^)]+)\)")


def missing(sheet, folder="look"):
    """Addresses in a style sheet that the static files do not have."""
    paths = [address.strip("\"'") for address in ADDRESS.findall(sheet)]
    return [path for path in paths if finders.find(_joined(folder, path)) is None]


def _joined(folder, path):
    parts = folder.split("/")
    for part in path.split("/"):
        parts = parts[:-1] if part == ".." else [*parts, part]
    return "/".join(parts)


def test_every_face_of_the_style_sheet_is_in_an_installed_package():
    sheet = SHEET.read_text("utf-8")
    assert len(ADDRESS.findall(sheet)) == 3
    assert missing(sheet) == []


def test_a_face_that_is_not_there_is_noticed():
    assert missing("@font-face { src: url(../fonts/arvo/None.ttf); }") == ["../fonts/arvo/None.ttf"]


def test_the_style_sheet_takes_nothing_from_outside():
    assert not re.search(r"https?:|@import|data:", SHEET.read_text("utf-8"))


@pytest.mark.parametrize("name", ["look/500.html"])
def test_the_page_of_a_fault_needs_nothing_that_could_fail_again(name):
    source = get_template(name).template.source
    assert "{%" not in source
    assert "{{" not in source
    for path in re.findall(r"/static/([^\"]+)", source):
        assert finders.find(path), path
