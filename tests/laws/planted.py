"""Invented files, one or more for each rule of the house, that the rule must catch."""

from tests.laws import line as lines
from tests.laws import pages, purity, shape

#: One violation or more for each rule: the rule, the invented files, what lies at the top level.
PLANTED = [
    (lines.imports_point_left, {"curriculum/foods/costs.py": "from kitchen.stores.packs import Pack"}),
    (lines.imports_point_left, {"kitchen/stores/kits.py": "def f():\n    import kitchen.desk.cancel"}),
    (lines.imports_point_left, {"kitchen/rooms/models.py": "from ..lessons import models"}),
    (lines.imports_point_left, {"kitchen/stores/views.py": "from assessments.marking.queries import sheet"}),
    (lines.imports_point_left, {"curriculum/models.py": "from kitchen.rooms.models import Room"}),
    (lines.imports_point_left, {"kitchen/migrations/0001_a.py": "import assessments.marking.models"}),
    (lines.imports_come_from_topics, {"kitchen/stores/models.py": "from curriculum.models import Food"}),
    (
        lines.imports_stand_in_headers,
        {"kitchen/stores/kits.py": "def f():\n    from curriculum.foods import eggs"},
    ),
    (
        lines.imports_stand_in_headers,
        {"kitchen/stores/kits.py": "if True:\n    from ..rooms import capacity"},
    ),
    (lines.every_folder_stands_on_the_line, {"kitchen/reports/views.py": ""}),
    (lines.every_folder_stands_on_the_line, {"curriculum/dates.py": ""}),
    (lines.strings_point_left, {"curriculum/people/views.py": "x = redirect('stores:kits')"}),
    (lines.strings_point_left, {"kitchen/rooms/views.py": "render(request, 'lessons/lesson.html')"}),
    (lines.strings_point_left, {"curriculum/apps.py": "x = 'kitchen.website.menu'"}),
    (
        lines.keys_point_left,
        {
            "kitchen/rooms/models.py": "class Room(Model):\n    x = models.ForeignKey('kitchen.Lesson', PROTECT)",
            "kitchen/lessons/models.py": "class Lesson(Model): pass",
        },
    ),
    (
        lines.keys_point_left,
        {
            "kitchen/rooms/models.py": "class Room(Model):\n    x = models.OneToOneField(to='Lesson')",
            "kitchen/lessons/models.py": "class Lesson(Model): pass",
        },
    ),
    (lines.migrations_point_left, {"kitchen/migrations/0002_b.py": "x = ('assessments', '0001_a')"}),
    (lines.migrations_point_left, {"curriculum/migrations/0002_b.py": "x = Key(to='kitchen.lesson')"}),
    (
        lines.templates_point_left,
        {"kitchen/rooms/templates/rooms/room.html": "{% url 'lessons:lesson' code %}"},
    ),
    (
        lines.templates_point_left,
        {"kitchen/stores/templates/stores/a.html": '{% include "desk/part.html" %}'},
    ),
    (
        lines.templates_point_left,
        {"curriculum/look/templates/look/base.html": "{% extends 'website/frame.html' %}"},
    ),
    (
        purity.calculations_do_not_import_frameworks,
        {"kitchen/stores/kits.py": "from django.db import models"},
    ),
    (purity.calculations_do_not_import_frameworks, {"kitchen/stores/kits.py": "def f():\n    import pint"}),
    (
        purity.calculations_do_not_import_frameworks,
        {"kitchen/stores/paper.py": "from reportlab.pdfgen import canvas"},
    ),
    (
        purity.solvers_import_inside_functions,
        {"kitchen/timeplan/solver.py": "from ortools.sat import cp_model"},
    ),
    (
        purity.calculations_read_no_clock,
        {"kitchen/lessons/places.py": "import datetime\nx = datetime.date.today()"},
    ),
    (purity.calculations_read_no_clock, {"kitchen/timeplan/solver.py": "x = datetime.now()"}),
    (purity.calculations_read_no_clock, {"kitchen/timeplan/chance.py": "x = time.monotonic()"}),
    (
        purity.calculations_draw_no_unseeded_number,
        {"kitchen/timeplan/chance.py": "import random\nx = random.random()"},
    ),
    (
        purity.calculations_draw_no_unseeded_number,
        {"kitchen/timeplan/chance.py": "import random\nx = random.Random()"},
    ),
    (purity.calculations_draw_no_unseeded_number, {"kitchen/stores/kits.py": "from uuid import uuid4"}),
    (purity.calculations_touch_no_file, {"curriculum/recipes/interchange.py": "x = open('a')"}),
    (purity.calculations_touch_no_file, {"curriculum/recipes/interchange.py": "x = path.read_text()"}),
    (shape.top_level_is_fixed, {}, ("manage.py", "notes.txt")),
    (shape.no_folder_for_everything, {"kitchen/utils/dates.py": ""}),
    (shape.no_folder_for_everything, {"tests/builders/helpers.py": ""}),
    (shape.functions_are_short, {"kitchen/stores/kits.py": "def f():\n" + "    x = 1\n" * 39}),
    (shape.files_are_short, {"kitchen/stores/kits.py": "x = 1\n" * 400}),
    (shape.files_are_short, {"tests/kitchen/test_a.py": "x = 1\n" * 600}),
    (
        shape.views_and_desk_are_thin,
        {"kitchen/stores/views.py": "def f():\n    'Do.'\n" + "    x = 1\n" * 26},
    ),
    (shape.views_and_desk_are_thin, {"kitchen/desk/cancel.py": "def f():\n" + "    x = 1\n" * 26}),
    (shape.views_ask_access, {"kitchen/stores/views.py": "x = Lot.objects.get(code=code)"}),
    (shape.views_ask_access, {"kitchen/desk/erase.py": "x = Student.objects.all()"}),
    (shape.views_do_not_calculate, {"kitchen/stores/views.py": "x = a * b"}),
    (shape.views_do_not_calculate, {"kitchen/stores/views.py": "x -= 1"}),
    (shape.no_signals, {"kitchen/stores/apps.py": "from django.db.models.signals import post_save"}),
    (shape.no_signals, {"kitchen/stores/apps.py": "def f():\n    from django.dispatch import receiver"}),
    (shape.no_get_model, {"kitchen/stores/queries.py": "x = apps.get_model('kitchen', 'Lesson')"}),
    (shape.init_files_are_empty, {"kitchen/stores/__init__.py": "'Stores.'\nfrom . import kits"}),
    (shape.public_things_are_described, {"kitchen/stores/kits.py": "x = 1"}),
    (shape.public_things_are_described, {"kitchen/stores/kits.py": "'Kits.'\ndef weigh(): pass"}),
    (shape.functions_are_annotated, {"kitchen/stores/kits.py": "def weigh(line) -> int: pass"}),
    (
        shape.functions_are_annotated,
        {"kitchen/stores/kits.py": "class A:\n    def weigh(self, a: int): pass"},
    ),
    (shape.actions_name_who, {"kitchen/stores/actions.py": "@atomic\ndef issue_kits(lesson, *, by): pass"}),
    (
        shape.actions_name_who,
        {"kitchen/stores/actions.py": "@transaction.atomic\ndef issue_kits(*, lesson): pass"},
    ),
    (shape.nothing_is_left_to_do, {"kitchen/stores/kits.py": "# TO" + "DO: round"}),
    (shape.tests_mirror_files, {"tests/kitchen/stores/test_more.py": "", "kitchen/stores/kits.py": ""}),
    (pages.templates_hold_nothing_refused, {"kitchen/a/templates/a/b.html": '<p style="color: red">'}),
    (pages.templates_hold_nothing_refused, {"kitchen/a/templates/a/b.html": "<script>x()</script>"}),
    (pages.templates_hold_nothing_refused, {"kitchen/a/templates/a/b.html": '<b hx-on:click="x()">'}),
    (pages.templates_hold_nothing_refused, {"kitchen/a/templates/a/b.html": '<b onclick="x()">'}),
    (
        pages.templates_hold_nothing_refused,
        {"kitchen/a/templates/a/b.html": '<img src="https://a.example/b">'},
    ),
    (pages.templates_hold_nothing_refused, {"kitchen/a/templates/a/b.html": "{{ a|add:1 }}"}),
    (pages.templates_escape_everything, {"kitchen/a/templates/a/b.html": "{{ name|safe }}"}),
    (
        pages.what_stands_in_the_way_is_said_once,
        {"kitchen/a/templates/a/b.html": "{% error_summary form %}{{ form|crispy }}"},
    ),
    (pages.words_are_ours, {"kitchen/a/templates/a/b.html": "<p>Please wait.</p>"}),
    (pages.words_are_ours, {"kitchen/a/templates/a/b.html": "<p>This dish is safe.</p>"}),
    (pages.words_are_ours, {"kitchen/a/templates/a/b.html": "<p>Well done!</p>"}),
    (pages.messages_are_ours, {"kitchen/a/views.py": "x = 'Saved successfully.'"}),
    (pages.templates_stand_in_their_topic, {"kitchen/stores/templates/kits.html": ""}),
    (pages.every_script_is_ours, {"curriculum/look/static/look/a.js": "el.innerHTML = text"}),
]
