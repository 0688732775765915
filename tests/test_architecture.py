"""The line and the other rules of the house, each with a planted violation it must catch.

The line stands here once, as people read it; README.md and DEVELOPERS.md carry the same
words. Nobody adds an exception: what needs one stands on the wrong side of the line.
"""

import pytest

from tests.laws import line as lines
from tests.laws import pages, purity, shape
from tests.laws.line import Line
from tests.laws.planted import PLANTED
from tests.laws.sources import ROOT, Tree

THE_LINE = """\
curriculum.errors codes wording allergens limits ledgers lettering paper blocks look
  · people · records · foods · techniques · recipes · courses
  → kitchen.rooms · lessons · safety · timeplan · stores
     → assessments.schemes · marking · verification · feedback · progress
        → kitchen.desk → kitchen.website
"""
LINE = Line.read(THE_LINE)

RULES = [
    value
    for module in (lines, purity, shape, pages)
    for value in vars(module).values()
    if not getattr(value, "__name__", "_").startswith("_")
    and getattr(value, "__annotations__", {}).get("tree") is Tree
]
#: What a rule must leave alone: each of these breaks none of them.
INNOCENT = {
    "curriculum/foods/costs.py": '"""Costs."""\nfrom curriculum.wording import amount\nx = 2 * 3',
    "curriculum/foods/measures.py": '"""Measures."""\nimport pint',
    "curriculum/paper.py": '"""Paper."""\nfrom reportlab.pdfgen import canvas\nx = open("font.ttf")',
    "kitchen/timeplan/solver.py": (
        '"""Solves."""\nimport random\nfrom time import monotonic\n\n'
        'def solve(seed: int) -> int:\n    """Do."""\n    from ortools.sat.python import cp_model\n'
        "    monotonic()\n    return random.Random(seed).random()"
    ),
    "kitchen/stores/views.py": (
        '"""Pages."""\ndef kits(request: object) -> object:\n    """The kits."""\n'
        '    return render(request, "stores/kits.html", {"a": reverse("lessons:lesson")})'
    ),
    "kitchen/stores/templates/stores/kits.html": (
        '{% extends "look/base.html" %}<p class="facts">Weigh, <a href="{% url \'stores:kits\' %}">back</a>.'
        "</p>{% if a != b %}<script src=\"{% static 'a.js' %}\"></script>{% endif %}"
    ),
    "kitchen/models.py": '"""Models."""\nfrom kitchen.rooms.models import Room',
    "assessments/migrations/0001_initial.py": "x = ('kitchen', '0001_initial')",
}


@pytest.fixture(scope="module")
def project():
    return Tree.of_the_project()


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.__name__)
def test_the_project_keeps_the_rule(rule, project):
    complaints = rule(project, LINE)
    assert not complaints, "\n".join([rule.__doc__, *complaints])


@pytest.mark.parametrize("planted", PLANTED, ids=lambda planted: planted[0].__name__)
def test_the_rule_catches_what_breaks_it(planted):
    rule, files, *top = planted
    assert rule(Tree.planted(files, *top), LINE)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.__name__)
def test_the_rule_leaves_ordinary_files_alone(rule):
    assert rule(Tree.planted(INNOCENT, ("README.md", ".ci")), LINE) == []


def test_every_rule_has_a_planted_violation():
    assert {rule.__name__ for rule in RULES} == {planted[0].__name__ for planted in PLANTED}


def test_the_line_is_read_from_left_to_right():
    assert LINE.topics[0] == "curriculum.errors"
    assert LINE.topics[-1] == "kitchen.website"
    assert LINE.rank("curriculum.look") < LINE.rank("curriculum.people") < LINE.rank("curriculum")
    assert LINE.rank("kitchen.stores") < LINE.rank("kitchen") < LINE.rank("assessments.schemes")
    assert LINE.rank("assessments.progress") < LINE.rank("assessments") < LINE.rank("kitchen.desk")


@pytest.mark.parametrize("document", ["README.md", "DEVELOPERS.md"])
def test_the_documents_carry_the_same_line(document):
    assert THE_LINE in (ROOT / document).read_text("utf-8")


def test_every_calculation_imports_where_the_frameworks_are_missing(project):
    modules = [source.module for source in project.python() if source.is_calculation]
    assert modules
    assert purity.imported_alone(modules) == []


def test_a_calculation_that_reaches_a_framework_through_a_neighbour_is_caught(tmp_path):
    folder = tmp_path / "kitchen"
    (folder / "stores").mkdir(parents=True)
    for package in (folder, folder / "stores"):
        (package / "__init__.py").write_text("")
    (folder / "stores" / "models.py").write_text("from django.db import models\n")
    (folder / "stores" / "kits.py").write_text("from kitchen.stores import models\n")
    (folder / "stores" / "eggs.py").write_text("import reportlab\n")
    found = purity.imported_alone(["kitchen.stores.kits", "kitchen.stores.eggs"], str(tmp_path))
    assert "kitchen.stores.kits: kitchen/stores/models.py reaches for django" in found[0]
    assert "reportlab" in found[1]
