"""Every address that a page or a function names by its name is there."""

from django.urls import get_resolver

from tests.access_matrix import url_names
from tests.laws.line import LINKS, URL_NAME
from tests.laws.sources import Tree


def names_in(tree):
    """(file, name) for every URL name that Python or a template names; links and errors of people."""
    for source in tree.python():
        yield from ((source.path, words) for _, words in source.strings() if URL_NAME.match(words))
    for source in tree.templates():
        yield from ((source.path, match[3]) for match in LINKS.finditer(source.text) if match[1] == "url")


def unknown(tree, known):
    topics = {name.split(":")[0] for name in known}
    named = {(path, name) for path, name in names_in(tree) if name.split(":")[0] in topics}
    return sorted(f"{path} names {name}" for path, name in named if name not in known)


def test_every_address_named_is_there():
    assert unknown(Tree.of_the_project(), set(url_names(get_resolver().url_patterns))) == []


def test_an_address_that_is_not_there_is_caught():
    planted = Tree.planted(
        {
            "kitchen/stores/views.py": "x = reverse('stores:nowhere')",
            "kitchen/stores/templates/stores/a.html": "{% url 'stores:gone' code %}{% url 'stores:kits' %}",
        }
    )
    assert unknown(planted, {"stores:kits"}) == [
        "kitchen/stores/templates/stores/a.html names stores:gone",
        "kitchen/stores/views.py names stores:nowhere",
    ]
