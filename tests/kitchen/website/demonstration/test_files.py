"""The files of the demonstration are found where the apps are, and known by one fingerprint."""

import pytest

from kitchen.website.demonstration import files
from tests.builders.recipes import FIXTURES


@pytest.fixture
def elsewhere(tmp_path, monkeypatch):
    """A folder of files of its own, as an installed wheel has it."""
    (tmp_path / "recipes").mkdir()
    for name in ("college.json", "recipes/R01.json"):
        (tmp_path / name).write_text('{"shape": 1}')
    monkeypatch.setattr(files, "FOLDERS", (tmp_path / "missing", tmp_path))
    for cached in (files.folder, files.read, files.fingerprint):
        cached.cache_clear()
    yield tmp_path
    for cached in (files.folder, files.read, files.fingerprint):
        cached.cache_clear()


def test_in_a_checkout_the_files_lie_beside_the_apps():
    assert files.folder() == FIXTURES


def test_in_a_wheel_they_lie_in_the_first_folder_that_has_them(elsewhere):
    assert files.folder() == elsewhere
    assert files.read("college.json") == {"shape": 1}
    assert files.recipe_names() == ["recipes/R01.json"]


def test_a_changed_file_changes_the_fingerprint(elsewhere):
    before = files.fingerprint()
    (elsewhere / "recipes" / "R01.json").write_text('{"shape": 2}')
    files.fingerprint.cache_clear()
    assert files.fingerprint() != before


def test_an_installation_without_the_files_says_so(elsewhere, monkeypatch):
    monkeypatch.setattr(files, "FOLDERS", (elsewhere / "missing",))
    files.folder.cache_clear()
    with pytest.raises(FileNotFoundError, match="not installed"):
        files.folder()


def test_ordinary_recipes_come_before_their_variants():
    names = files.recipe_names()
    assert names[0] == "recipes/R01.json" and names[-1] == "recipes/V5.json"
    assert len(names) == 17
