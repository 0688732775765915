"""Purity: what a file may do is told by its name.

A file without a framework's name calculates: plain data in, plain data out. It knows no
Django, reads no clock and no file, and draws no number that nobody seeded.
"""

import ast
import subprocess
import sys

from tests.laws.line import Line
from tests.laws.sources import ROOT, Source, Tree

#: A heavy library has one door in the project; ``solver.py`` opens its own inside functions only.
DOORS = {
    "pint": ("curriculum/foods/measures.py",),
    "reportlab": ("curriculum/paper.py",),
    "ortools": ("solver.py",),
}
CLOCKS = frozenset(("now", "utcnow", "today", "localtime", "gmtime", "perf_counter", "monotonic"))
FILES = frozenset(("open", "read_text", "write_text", "read_bytes", "write_bytes", "urlopen"))
UNSEEDED = frozenset(("secrets", "uuid"))

CHILD = """
import importlib, sys

ROOT, DOORS, modules = {root!r}, {doors!r}, {modules!r}
DOORS["django"] = ()
OWN = tuple(ROOT + "/" + app + "/" for app in ("curriculum", "kitchen", "assessments"))


class Guard:
    def find_spec(self, name, path=None, target=None):
        top = name.split(".")[0]
        if top not in DOORS:
            return None
        frame = sys._getframe(1)
        while frame is not None:
            file = frame.f_code.co_filename
            if file.startswith(OWN):
                break
            frame = frame.f_back
        where = frame.f_code.co_filename[len(ROOT) + 1:] if frame else "the child"
        if any(where.endswith(door) for door in DOORS[top]) and top != "ortools":
            return None
        raise ImportError(f"{{where}} reaches for {{name}}")


sys.path.insert(0, ROOT)
sys.meta_path.insert(0, Guard())
for module in modules:
    try:
        importlib.import_module(module)
    except ImportError as error:
        print(f"{{module}}: {{error}}")
"""


def calculations_do_not_import_frameworks(tree: Tree, line: Line) -> list[str]:
    """A calculation names Django nowhere, and a heavy library only at its door."""
    found = []
    for source in _calculations(tree):
        for number, module in source.imports():
            top = module.split(".")[0]
            if top == "django" or (top in DOORS and not source.path.endswith(DOORS[top])):
                found.append(f"{source.path}:{number} imports {module}; a calculation may not.")
    return found


def solvers_import_inside_functions(tree: Tree, line: Line) -> list[str]:
    """Loading OR-tools costs a second, so nothing loads it until a plan is asked for."""
    return [
        f"{source.path}:{node.lineno} imports OR-tools in its header."
        for source in tree.python()
        for node in source.tree.body
        if isinstance(node, ast.Import | ast.ImportFrom)
        and any(
            name.split(".")[0] == "ortools" for _, name in Source(source.path, ast.unparse(node)).imports()
        )
    ]


def calculations_read_no_clock(tree: Tree, line: Line) -> list[str]:
    """The time of day is data that a calculation is given. A solver may measure how long it took."""
    found = []
    for source in _calculations(tree):
        for node in ast.walk(source.tree):
            if isinstance(node, ast.Call) and _called(node) in CLOCKS and not _is_solver_watch(source, node):
                found.append(f"{source.path}:{node.lineno} reads a clock ({_called(node)}).")
    return found


def _is_solver_watch(source: Source, node: ast.Call) -> bool:
    return source.stem == "solver" and _called(node) == "monotonic"


def calculations_draw_no_unseeded_number(tree: Tree, line: Line) -> list[str]:
    """The same data gives the same answer: only ``random.Random(seed)`` may draw."""
    found = []
    for source in _calculations(tree):
        for number, module in source.imports():
            if module.split(".")[0] in UNSEEDED and module != "uuid.UUID":
                found.append(f"{source.path}:{number} imports {module}.")
            if module.startswith("random.") and module != "random.Random":
                found.append(f"{source.path}:{number} draws with {module}, which nobody seeded.")
        for node in ast.walk(source.tree):
            if _draws_unseeded(node):
                found.append(f"{source.path}:{node.lineno} draws a number that nobody seeded.")
    return found


def _draws_unseeded(node: ast.AST) -> bool:
    if not isinstance(node, ast.Call):
        return False
    func = node.func
    if isinstance(func, ast.Attribute) and isinstance(func.value, ast.Name) and func.value.id == "random":
        return func.attr != "Random" or not node.args
    return isinstance(func, ast.Name) and func.id == "Random" and not node.args


def calculations_touch_no_file(tree: Tree, line: Line) -> list[str]:
    """Papers may read the font files of installed packages; nothing else opens anything."""
    return [
        f"{source.path}:{node.lineno} touches a file ({_called(node)})."
        for source in _calculations(tree)
        if source.stem != "paper"
        for node in ast.walk(source.tree)
        if isinstance(node, ast.Call) and _called(node) in FILES
    ]


def _calculations(tree: Tree) -> list[Source]:
    return [source for source in tree.python() if source.is_calculation]


def _called(node: ast.Call) -> str:
    func = node.func
    return func.attr if isinstance(func, ast.Attribute) else getattr(func, "id", "")


def imported_alone(modules: list[str], root: str = str(ROOT)) -> list[str]:
    """Import each module in a child process with Django away, and the rest but at their doors."""
    program = CHILD.format(root=root, doors=dict(DOORS), modules=modules)
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, cwd=root, check=False
    )
    return [line for line in (done.stdout + done.stderr).splitlines() if line.strip()]
