"""README.md and DEVELOPERS.md are true: what they name is there, and what is there they name."""

import ast
import os
import re
import subprocess
import tomllib
from datetime import date

import pytest

from curriculum.people.roles import ALL, WORDS
from tests.laws.pages import UNWANTED
from tests.laws.sources import ROOT

README = (ROOT / "README.md").read_text("utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text("utf-8")
DOCUMENTS = {"README.md": README, "DEVELOPERS.md": DEVELOPERS}
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]

DEMO_LINE = "python3 -m venv .venv && . .venv/bin/activate && pip install . && python manage.py demo"
TEST_LINE = "python3 -m venv .venv && . .venv/bin/activate && pip install '.[test]' && pytest"
IN_TICKS = re.compile(r"`([^`\n]+)`")
PATH = re.compile(r"^(\.ci|curriculum|kitchen|assessments|tests|fixtures)(/[\w.]+)+/?$|^\w+\.(md|toml|py)$")


def marked(words, marker):
    """The first line of the code block under a marker, as .ci/run finds it."""
    found = re.search(rf"^<!-- run: {marker} -->\n```\w*\n(.+)\n```$", words, re.MULTILINE)
    return found[1] if found else None


def paths_named(words):
    return sorted({name for name in IN_TICKS.findall(words) if PATH.match(name)})


def missing_paths(words):
    shelves = {"models.py", "queries.py", "access.py", "actions.py", "forms.py", "views.py", "urls.py"}
    named = [name for name in paths_named(words) if name not in shelves | {"__init__.py"}]
    return [name for name in named if not (ROOT / name).exists()]


def commands_named(words):
    return set(re.findall(r"python manage\.py (\w+)", words))


def variables_read(source):
    """The environment variables that a settings file reads."""
    return {
        node.args[0].value
        for node in ast.walk(ast.parse(source))
        if isinstance(node, ast.Call) and ast.unparse(node.func) == "os.environ.get"
    } | ({"DATABASE_URL"} if "dj_database_url.config" in source else set())


def first_cells(words, head):
    """The first column of the table that has this head."""
    table = words.split(f"| {head} |", 1)[1].split("\n\n", 1)[0]
    return [row.split("|")[1].strip().strip("`") for row in table.splitlines()[2:] if row.startswith("|")]


@pytest.mark.parametrize(("marker", "line"), [("demo", DEMO_LINE), ("test", TEST_LINE)])
def test_the_readme_holds_the_two_lines_under_their_markers(marker, line):
    assert marked(README, marker) == line


def test_a_line_without_its_marker_is_not_found():
    assert marked(README.replace("<!-- run: demo -->", ""), "demo") is None


@pytest.mark.parametrize("name", DOCUMENTS)
def test_every_path_that_a_document_names_is_there(name):
    assert paths_named(DOCUMENTS[name])
    assert missing_paths(DOCUMENTS[name]) == []


def test_a_path_that_is_not_there_is_caught():
    assert missing_paths("See `kitchen/stores/nothing.py`.") == ["kitchen/stores/nothing.py"]


def test_every_command_that_a_document_names_is_there():
    own = {path.stem for path in (ROOT / "kitchen/website/management/commands").glob("[a-z]*.py")}
    known = own | {"migrate", "collectstatic", "check", "makemigrations"}
    assert commands_named(README + DEVELOPERS) <= known


def test_the_readme_names_every_variable_that_the_settings_read():
    settings = (ROOT / "kitchen/website/settings.py").read_text("utf-8")
    assert set(first_cells(README, "variable | meaning")) == variables_read(settings)


def test_the_readme_names_every_role():
    assert set(first_cells(README, "role | what it is for")) == {WORDS[role] for role in ALL}


def test_the_developers_read_why_each_package_is_needed():
    needed = {re.split(r"[<>=\[ ]", name, maxsplit=1)[0] for name in PROJECT["dependencies"]}
    assert set(first_cells(DEVELOPERS, "package | why")) == needed


def test_the_developers_read_of_each_optional_package():
    extras = [name for names in PROJECT["optional-dependencies"].values() for name in names]
    names = {re.split(r"[<>=\[ ]", name, maxsplit=1)[0] for name in extras}
    section = DEVELOPERS.split("Optional:")[1].split("\n\n")[0]
    assert {name for name in names if name not in section} == set()


def test_each_decision_has_its_day():
    days = [date.fromisoformat(day) for day in first_cells(DEVELOPERS, "date | decision | why")]
    assert days == sorted(days) and days


def test_the_ten_rules_are_ten():
    assert first_cells(DEVELOPERS, "# | rule | imitate") == [str(number) for number in range(1, 11)]


@pytest.mark.parametrize("name", DOCUMENTS)
def test_a_document_neither_begs_nor_cheers(name):
    prose = re.sub(r"```.*?```|`[^`]*`|<!--.*?-->", " ", DOCUMENTS[name], flags=re.DOTALL)
    assert UNWANTED.findall(prose) == []


@pytest.mark.parametrize("script", ["run", "pg"])
def test_the_scripts_of_the_judge_can_be_read_by_the_shell(script):
    path = ROOT / ".ci" / script
    assert os.access(path, os.X_OK)
    assert subprocess.run(["bash", "-n", path], capture_output=True).returncode == 0
