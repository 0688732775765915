"""The invented book of the benchmarks: whole recipes, the same every time, written as the actions write."""

from curriculum.recipes.models import Version
from curriculum.recipes.queries import recipe_data
from tests.builders.book import a_book, a_person
from tests.builders.invented_book import invented_book
from tests.builders.large_book import lay_book
from tests.builders.recipes import fixture
from tests.test_fixtures import faults_in


def test_the_same_seed_gives_the_same_recipes_and_every_title_stands_once():
    book = invented_book(300)
    assert invented_book(300) == book != invented_book(300, seed=2)
    assert len({each.title for each in book}) == len({each.code for each in book}) == 300


def test_an_invented_recipe_holds_together_and_trains_known_techniques():
    known = {each["code"] for each in fixture("techniques.json")["techniques"]}
    for recipe in invented_book(120):
        assert faults_in(recipe) == []
        assert {code for step in recipe.steps for code in step.techniques} <= known
        assert max(len(recipe.title), len(recipe.code)) <= 160


def test_a_book_laid_in_bulk_reads_as_it_was_invented(db):
    writer, reader = a_person("odile"), a_person("solveig")
    a_book(by=writer, checker=reader)
    book = invented_book(40)
    assert lay_book(book, by=writer, checker=reader) == 40
    for version, recipe in zip(Version.objects.order_by("recipe__code"), book, strict=True):
        assert recipe_data(version) == recipe
    first = Version.objects.get(recipe__code="B00001")
    assert first.components.count() == len(book[0].components)
    assert first.steps.count() == len(book[0].steps)
    assert not Version.objects.filter(one_cook_minutes=None).exists()


def test_rows_laid_in_bulk_are_the_rows_that_writing_makes(db):
    """Without its sheet a version is read from its rows."""
    writer, reader = a_person("odile"), a_person("solveig")
    a_book(by=writer, checker=reader)
    (recipe,) = invented_book(1)
    lay_book([recipe], by=writer, checker=reader)
    Version.objects.update(state=Version.State.DRAFT, sheet=None)
    assert recipe_data(Version.objects.get()) == recipe
