"""The shape of the code: sizes, places, docstrings, and what views and actions may hold."""

import ast
import re
from collections.abc import Iterator

from tests.laws.line import Line
from tests.laws.sources import APPS, Source, Tree, docstrings

TOP_LEVEL = {"README.md", "DEVELOPERS.md", "pyproject.toml", "manage.py", "tests", "fixtures", *APPS}
GENERAL_NAMES = {"utils", "util", "utilities", "helpers", "helper", "common", "misc", "lib", "shared"}
LONGEST_FUNCTION = 40
LONGEST_FILE = 400
LONGEST_TEST_FILE = 600
LONGEST_THIN_BODY = 25
SIGNALS = re.compile(r"^django\.(db\.models\.signals|dispatch|core\.signals|contrib\.auth\.signals)\b")
ARITHMETIC = (ast.Sub, ast.Mult, ast.Div, ast.FloorDiv, ast.Mod)


def top_level_is_fixed(tree: Tree, line: Line) -> list[str]:
    """Nothing lies at the top level but what stands there by decision, and dot-files."""
    return [
        f"{name} lies at the top level and does not belong there."
        for name in tree.top
        if not name.startswith(".") and name not in TOP_LEVEL
    ]


def no_folder_for_everything(tree: Tree, line: Line) -> list[str]:
    """A name that says nothing ("utils") collects everything; each thing has a topic."""
    return [
        f"{source.path} has a name that says nothing."
        for source in [*tree.python(), *tree.tests()]
        if GENERAL_NAMES & {*source.parts[:-1], source.stem}
    ]


def functions_are_short(tree: Tree, line: Line) -> list[str]:
    """A function is under forty lines, its docstring included."""
    return [
        f"{source.path}:{node.lineno} {node.name} has {_lines(node)} lines."
        for source in tree.python()
        for node in source.functions()
        if _lines(node) >= LONGEST_FUNCTION
    ]


def files_are_short(tree: Tree, line: Line) -> list[str]:
    """A file is under four hundred lines; a test file, which is mostly tables, under six hundred."""
    found = []
    for source in [*tree.python(), *tree.templates(), *tree.scripts(), *tree.tests()]:
        most = LONGEST_TEST_FILE if source.parts[0] == "tests" else LONGEST_FILE
        count = source.text.count("\n")
        if count >= most:
            found.append(f"{source.path} has {count} lines; split it by noun.")
    return found


def views_and_desk_are_thin(tree: Tree, line: Line) -> list[str]:
    """A view, and an action that spans topics, has a body of at most twenty-five lines."""
    return [
        f"{source.path}:{node.lineno} {node.name} has a body of {_body_lines(node)} lines."
        for source in tree.python()
        if source.stem == "views" or source.path.startswith("kitchen/desk/")
        for node in source.functions()
        if _body_lines(node) > LONGEST_THIN_BODY
    ]


def views_ask_access(tree: Tree, line: Line) -> list[str]:
    """A view never queries: objects come from ``access.py`` and ``queries.py``."""
    return [
        f"{source.path}:{node.lineno} queries by itself (.{node.attr})."
        for source in tree.python()
        if source.stem == "views" or source.path.startswith("kitchen/desk/")
        for node in ast.walk(source.tree)
        if isinstance(node, ast.Attribute) and node.attr in ("objects", "_default_manager", "select_related")
    ]


def views_do_not_calculate(tree: Tree, line: Line) -> list[str]:
    """No arithmetic in a view."""
    return [
        f"{source.path}:{node.lineno} calculates in a view."
        for source in tree.python()
        if source.stem == "views"
        for node in ast.walk(source.tree)
        if isinstance(node, ast.BinOp | ast.AugAssign) and isinstance(node.op, ARITHMETIC)
    ]


def no_signals(tree: Tree, line: Line) -> list[str]:
    """An action calls what must follow; nothing is connected behind its back."""
    return [
        f"{source.path}:{number} uses signals ({module})."
        for source in tree.python(migrations=True)
        for number, module in source.imports()
        if SIGNALS.match(module)
    ]


def no_get_model(tree: Tree, line: Line) -> list[str]:
    """``get_model`` is an import in disguise; only migrations need it."""
    return [
        f"{source.path}:{node.lineno} looks a model up by its name."
        for source in tree.python()
        for node in ast.walk(source.tree)
        if isinstance(node, ast.Call) and getattr(node.func, "attr", "") == "get_model"
    ]


def init_files_are_empty(tree: Tree, line: Line) -> list[str]:
    """``__init__.py`` holds at most a docstring."""
    return [
        f"{source.path} holds more than a docstring."
        for source in [*tree.python(migrations=True), *tree.tests()]
        if source.stem == "__init__" and len(source.tree.body) > len(list(docstrings(source.tree)))
    ]


def public_things_are_described(tree: Tree, line: Line) -> list[str]:
    """Every file, and every public function and class at its top, has a docstring."""
    found = []
    for source in tree.python():
        if source.stem == "__init__":
            continue
        if not ast.get_docstring(source.tree):
            found.append(f"{source.path} does not say what it is for.")
        found += [
            f"{source.path}:{node.lineno} {node.name} has no docstring."
            for node in _public(source)
            if not ast.get_docstring(node)
        ]
    return found


def _public(source: Source) -> Iterator[ast.FunctionDef | ast.ClassDef]:
    for node in source.tree.body:
        if isinstance(node, ast.FunctionDef | ast.ClassDef) and not node.name.startswith("_"):
            yield node


def functions_are_annotated(tree: Tree, line: Line) -> list[str]:
    """Every argument and every answer says its type."""
    return [
        f"{source.path}:{node.lineno} {node.name} leaves out an annotation."
        for source in tree.python()
        for node in source.functions()
        if not _is_annotated(node)
    ]


def _is_annotated(node: ast.FunctionDef | ast.AsyncFunctionDef) -> bool:
    given = [*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs]
    given += [extra for extra in (node.args.vararg, node.args.kwarg) if extra]
    return node.returns is not None and all(
        argument.annotation for argument in given if argument.arg not in ("self", "cls")
    )


def actions_name_who(tree: Tree, line: Line) -> list[str]:
    """An action (one transaction) takes keywords only, and ``by``: the person who does it."""
    found = []
    for source in tree.python():
        if source.stem != "actions":
            continue
        for node in _public(source):
            if _is_atomic(node) and not _names_who(node):
                found.append(f"{source.path}:{node.lineno} {node.name} is not called by keywords with by=.")
    return found


def _is_atomic(node: ast.FunctionDef | ast.ClassDef) -> bool:
    return isinstance(node, ast.FunctionDef) and any(
        "atomic" in ast.unparse(one) for one in node.decorator_list
    )


def _names_who(node: ast.FunctionDef) -> bool:
    return not node.args.args and "by" in {argument.arg for argument in node.args.kwonlyargs}


def nothing_is_left_to_do(tree: Tree, line: Line) -> list[str]:
    """What is not done is told to people who can do it, not left in the code."""
    marks = ("TO" + "DO", "FIX" + "ME", "X" + "XX")
    return [
        f"{source.path} leaves a {mark}."
        for source in tree.sources
        for mark in marks
        if re.search(rf"\b{mark}\b", source.text)
    ]


def tests_mirror_files(tree: Tree, line: Line) -> list[str]:
    """A test under tests/APP/TOPIC/ carries the name of the file it judges."""
    files = {source.path for source in tree.python()}
    found = []
    for source in tree.tests():
        inner = source.parts[1:]
        if inner[0] not in ("curriculum", "kitchen", "assessments") or not source.stem.startswith("test_"):
            continue
        folder, name = "/".join(inner[:-1]), source.stem.removeprefix("test_")
        stems = {
            path.rsplit("/", 1)[1].removesuffix(".py") for path in files if path.startswith(folder + "/")
        }
        if not any(name == stem or name.startswith(stem + "_") for stem in stems):
            found.append(f"{source.path} names no file of {folder}.")
    return found


def _lines(node: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    return (node.end_lineno or node.lineno) - node.lineno + 1


def _body_lines(node: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    body = node.body[1:] if ast.get_docstring(node) else node.body
    return (body[-1].end_lineno or 0) - body[0].lineno + 1 if body else 0
