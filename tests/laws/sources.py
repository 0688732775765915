"""Reads the project's own files, or invented ones, into what the rules of the house judge.

A rule gets a ``Tree`` and gives back complaints, each a sentence that begins with the
file. Invented sources (``Tree.planted``) let a test prove that the rule can fail.
"""

import ast
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
APPS = ("curriculum", "kitchen", "assessments")

#: A file with one of these names, or under one of these folders, may use Django.
FRAMEWORK_NAMES = frozenset(
    ("models", "managers", "queries", "access", "actions", "tasks", "ledgers", "storage", "forms", "views")
    + ("urls", "admin", "apps", "settings", "middleware", "context_processors", "wsgi", "asgi")
)
FRAMEWORK_FOLDERS = frozenset(("migrations", "management", "templatetags", "look", "website"))


@dataclass(frozen=True)
class Source:
    """One file: ``path`` from the root with slashes, ``text`` as it stands."""

    path: str
    text: str

    @cached_property
    def tree(self) -> ast.Module:
        return ast.parse(self.text, self.path)

    @property
    def parts(self) -> tuple[str, ...]:
        return tuple(self.path.split("/"))

    @property
    def stem(self) -> str:
        return self.parts[-1].rsplit(".", 1)[0]

    @property
    def module(self) -> str:
        """The dotted name: "kitchen/stores/kits.py" is "kitchen.stores.kits"."""
        names = [*self.parts[:-1], self.stem]
        return ".".join(names[:-1] if names[-1] == "__init__" else names)

    @property
    def is_migration(self) -> bool:
        return "migrations" in self.parts

    @property
    def is_calculation(self) -> bool:
        """May this file do nothing but calculate?"""
        if self.parts[0] not in APPS or self.stem == "__init__":
            return False
        return self.stem not in FRAMEWORK_NAMES and not FRAMEWORK_FOLDERS & set(self.parts[:-1])

    def functions(self) -> Iterator[ast.FunctionDef | ast.AsyncFunctionDef]:
        for node in ast.walk(self.tree):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
                yield node

    def strings(self) -> Iterator[tuple[int, str]]:
        """Every string that is not a docstring, with its line."""
        docs = {id(node) for node in docstrings(self.tree)}
        for node in ast.walk(self.tree):
            if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in docs:
                yield node.lineno, node.value

    def imports(self) -> Iterator[tuple[int, str]]:
        """Every module named in an import, in headers and in functions alike, made absolute.

        ``from kitchen.stores import kits`` gives "kitchen.stores.kits", since the name may be a module.
        """
        for node in ast.walk(self.tree):
            if isinstance(node, ast.Import):
                for alias in node.names:
                    yield node.lineno, alias.name
            elif isinstance(node, ast.ImportFrom):
                base = self._absolute(node)
                for alias in node.names:
                    yield node.lineno, f"{base}.{alias.name}" if base else alias.name

    def _absolute(self, node: ast.ImportFrom) -> str:
        if not node.level:
            return node.module or ""
        folder = list(self.parts[:-1])
        folder = folder[: len(folder) - node.level + 1]
        return ".".join([*folder, *([node.module] if node.module else [])])


def docstrings(tree: ast.AST) -> Iterator[ast.Constant]:
    """The docstring nodes of a module, its classes and functions."""
    for node in ast.walk(tree):
        if not isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef):
            continue
        first = node.body[0] if node.body else None
        if (
            isinstance(first, ast.Expr)
            and isinstance(first.value, ast.Constant)
            and isinstance(first.value.value, str)
        ):
            yield first.value


@dataclass(frozen=True)
class Tree:
    """All files a rule may look at, and the names that stand at the top level."""

    sources: tuple[Source, ...]
    top: tuple[str, ...] = field(default=())

    @classmethod
    def planted(cls, files: dict[str, str], top: tuple[str, ...] = ()) -> "Tree":
        """A tree of invented files."""
        return cls(tuple(Source(path, text) for path, text in files.items()), top)

    @classmethod
    def of_the_project(cls) -> "Tree":
        """The tree as it lies on disk, without what git never sees."""
        found = []
        for app in (*APPS, "tests"):
            for kind in ("*.py", "*.html", "*.js"):
                found += [path for path in (ROOT / app).rglob(kind) if "__pycache__" not in path.parts]
        sources = [
            Source(path.relative_to(ROOT).as_posix(), path.read_text("utf-8")) for path in sorted(found)
        ]
        return cls(tuple(sources), tuple(sorted(path.name for path in ROOT.iterdir())))

    def python(self, *, migrations: bool = False) -> list[Source]:
        """The Python files of the three apps."""
        return [
            source
            for source in self.sources
            if source.path.endswith(".py")
            and source.parts[0] in APPS
            and (migrations or not source.is_migration)
        ]

    def tests(self) -> list[Source]:
        return [
            source for source in self.sources if source.parts[0] == "tests" and source.path.endswith(".py")
        ]

    def templates(self) -> list[Source]:
        return [source for source in self.sources if source.path.endswith(".html")]

    def scripts(self) -> list[Source]:
        return [source for source in self.sources if source.path.endswith(".js")]
