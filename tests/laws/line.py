"""The line: what may point to what.

Imports (in headers and in functions, relative ones too), foreign keys, dotted strings,
URL names and template names point to the left or stay in their own topic.
"""

import ast
import re
from dataclasses import dataclass

from tests.laws.sources import APPS, Source, Tree

SEPARATORS = re.compile(r"[\s·→]+")
DOTTED = re.compile(r"^(?:curriculum|kitchen|assessments)(?:\.[a-z_]\w*)+$")
URL_NAME = re.compile(r"^([a-z_]+):[a-z_]+$")
TEMPLATE_NAME = re.compile(r"^([a-z_]+)/[\w/]+\.html$")
LINKS = re.compile(r"{%-?\s*(url|extends|include)\s+([\"'])([^\"']+)\2")
KEY_FIELDS = frozenset(("ForeignKey", "OneToOneField", "ManyToManyField"))


@dataclass(frozen=True)
class Line:
    """The topics from left to right, "kitchen.stores" and the like."""

    topics: tuple[str, ...]

    @classmethod
    def read(cls, words: str) -> "Line":
        """Read the line as people write it: an app is named once and holds until the next."""
        topics, app = [], ""
        for word in SEPARATORS.split(words.strip()):
            if "." in word:
                app, word = word.split(".")
            topics.append(f"{app}.{word}")
        return cls(tuple(topics))

    def topic(self, module: str) -> str | None:
        """The topic of a dotted name; an app's own files (models.py, apps.py, migrations) give the app."""
        names = module.split(".")
        if names[0] not in APPS:
            return None
        two = ".".join(names[:2])
        return two if two in self.topics else names[0]

    def rank(self, topic: str) -> float:
        """How far to the right a topic stands. An app itself stands behind the last topic with tables."""
        if topic in self.topics:
            return self.topics.index(topic)
        last = {"curriculum": "curriculum.courses", "kitchen": "kitchen.stores"}
        return self.topics.index(last.get(topic, self.topics[-3])) + 0.5

    def by_name(self, name: str) -> str | None:
        """The topic whose folder has this name: URL and template names begin with it."""
        return next((topic for topic in self.topics if topic.split(".")[1] == name), None)

    def allows(self, source: Source, target: str) -> bool:
        """May this file point to that topic?"""
        own = self.topic(source.module)
        return own is None or self.rank(target) <= self.rank(own)


def imports_point_left(tree: Tree, line: Line) -> list[str]:
    """No file imports what stands to its right, wherever the import is written."""
    found = []
    for source in tree.python(migrations=True):
        for number, module in source.imports():
            target = line.topic(module)
            if target and not line.allows(source, target):
                found.append(f"{source.path}:{number} imports {module}, which stands to its right.")
    return found


def imports_come_from_topics(tree: Tree, line: Line) -> list[str]:
    """What a topic owns is imported from the topic, never from the app's list of models."""
    return [
        f"{source.path}:{number} imports {module}; import it from its topic."
        for source in tree.python()
        for number, module in source.imports()
        if re.match(r"^(curriculum|kitchen|assessments)\.models\b", module)
    ]


def imports_stand_in_headers(tree: Tree, line: Line) -> list[str]:
    """No import of project code is hidden in a function."""
    found = []
    for source in tree.python():
        headers = {id(node) for node in source.tree.body}
        for node in ast.walk(source.tree):
            if id(node) in headers or not isinstance(node, ast.Import | ast.ImportFrom):
                continue
            inner = Source(source.path, ast.unparse(node))
            if any(module.split(".")[0] in APPS for _, module in inner.imports()):
                found.append(f"{source.path}:{node.lineno} hides an import of the project in a block.")
    return found


def every_folder_stands_on_the_line(tree: Tree, line: Line) -> list[str]:
    """A topic folder, or a file beside the topics, that the line does not name is not built."""
    allowed = {"__init__", "models", "apps", "migrations"}
    found = set()
    for source in tree.python(migrations=True):
        name = source.parts[1].removesuffix(".py")
        if name not in allowed and f"{source.parts[0]}.{name}" not in line.topics:
            found.add(f"{source.path} belongs to {source.parts[0]}.{name}, which the line does not name.")
    return sorted(found)


def strings_point_left(tree: Tree, line: Line) -> list[str]:
    """Dotted strings, URL names and template names written in Python point left."""
    found = []
    for source in tree.python():
        for number, words in source.strings():
            target = _named_by(words, line)
            if target and not line.allows(source, target):
                found.append(f"{source.path}:{number} names {words!r}, which stands to its right.")
    return found


def _named_by(words: str, line: Line) -> str | None:
    if DOTTED.match(words):
        return line.topic(words)
    match = URL_NAME.match(words) or TEMPLATE_NAME.match(words)
    return line.by_name(match[1]) if match else None


def keys_point_left(tree: Tree, line: Line) -> list[str]:
    """A foreign key written as a string ("kitchen.Lesson", "Lesson") points left too."""
    owners = _owners_of_models(tree)
    found = []
    for source in tree.python():
        if source.stem != "models":
            continue
        for number, name in _keys_by_name(source):
            target = owners.get(name.split(".")[-1].lower())
            if target and not line.allows(source, line.topic(target) or target):
                found.append(f"{source.path}:{number} has a key to {name}, which stands to its right.")
    return found


def _owners_of_models(tree: Tree) -> dict[str, str]:
    return {
        node.name.lower(): source.module
        for source in tree.python()
        if source.stem == "models" and len(source.parts) > 2
        for node in source.tree.body
        if isinstance(node, ast.ClassDef)
    }


def _keys_by_name(source: Source) -> list[tuple[int, str]]:
    found = []
    for node in ast.walk(source.tree):
        if not isinstance(node, ast.Call) or getattr(node.func, "attr", "") not in KEY_FIELDS:
            continue
        values = [*node.args[:1], *(word.value for word in node.keywords if word.arg == "to")]
        found += [
            (node.lineno, value.value)
            for value in values
            if isinstance(value, ast.Constant) and isinstance(value.value, str) and value.value != "self"
        ]
    return found


def migrations_point_left(tree: Tree, line: Line) -> list[str]:
    """The migrations of an app depend on the apps to its left only, in keys and dependencies."""
    order = ("curriculum", "kitchen", "assessments")
    found = []
    for source in tree.python(migrations=True):
        if not source.is_migration:
            continue
        own = order.index(source.parts[0])
        for number, words in source.strings():
            app = words.split(".")[0]
            if app in order and order.index(app) > own:
                found.append(f"{source.path}:{number} needs {words!r}, which stands to its right.")
    return found


def templates_point_left(tree: Tree, line: Line) -> list[str]:
    """Links, bases and parts named in a template belong to its own topic or one to its left."""
    found = []
    for source in tree.templates():
        for match in LINKS.finditer(source.text):
            pattern = URL_NAME if match[1] == "url" else TEMPLATE_NAME
            named = pattern.match(match[3])
            target = line.by_name(named[1]) if named else None
            if target and not line.allows(source, target):
                found.append(f"{source.path} points to {match[3]}, which stands to its right.")
    return found
