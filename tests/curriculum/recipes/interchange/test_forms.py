import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test.utils import CaptureQueriesContext

from curriculum.recipes.interchange import forms
from tests.builders.book import a_book, a_person
from tests.builders.interchange import rounds

pytestmark = pytest.mark.django_db


def _arrive(text="", content=None, name="r.jsonld", system=""):
    files = {} if content is None else {"file": SimpleUploadedFile(name, content)}
    form = forms.ArriveForm({"text": text, "system": system}, files)
    form.is_valid()
    return form


def test_a_file_and_a_text_at_once_and_neither_are_refused():
    assert "Bring one of them" in str(_arrive("Rolls", b"Rolls").errors)
    assert "There is nothing in it" in str(_arrive().errors)


@pytest.mark.parametrize(
    ("content", "field", "said"),
    [
        (b"", "file", "There is nothing in it"),
        (b"\x89PNG\0", "file", "This is no text file"),
        (b"x" * 1_000_001, "file", "1.1 MB"),
        (b'{"a": ,}', "text", "in line 1, at column 7"),
    ],
)
def test_a_refusal_stands_where_it_can_be_mended(content, field, said):
    form = _arrive(content=content).to_mend()
    assert said in str(form.errors[field])
    assert field == "file" or form["text"].value() == content.decode()


def test_a_free_code_is_proposed():
    a_book("R01")
    assert forms.first_review(_arrive(rounds(name="R01"))).head["code"].value() == "r01-2"
    review = forms.first_review(_arrive(rounds(name="Write")))
    assert review.head["code"].value() == "write-2"
    assert forms.first_review(_arrive(rounds(name="パン"))).head["code"].value() == "recipe"
    assert (
        len(
            forms.first_review(_arrive(rounds(name="Supercalifragilisticexpialidocious")))
            .head["code"]
            .value()
        )
        < 20
    )


def test_what_was_read_stands_in_the_forms_with_its_components():
    a_person("odile")
    text = "Rolls\nMakes 8 rolls\n\nDough:\n500 g flour\n\nWash:\n1 egg\n\nMethod\n1. Mix.\n"
    review = forms.first_review(_arrive(text))
    assert [name for name, _ in review.rows] == ["Dough", "Wash"]
    assert (review.head["portions_stated"].value(), review.head["unit"].value()) == (8, "roll")
    assert review.steps[0]["words"].value() == "Mix."


def test_thirty_lines_ask_no_more_of_the_database_than_three(client):
    a_book("R01")
    client.force_login(a_person("odile"))
    counts = []
    for many in (3, 30):
        text = "Rolls\n\n" + "5 g fine salt\n" * many + "\nMethod\n" + "1. Mix.\n" * many
        with CaptureQueriesContext(connection) as asked:
            assert client.post("/recipes/write/bring-in/", {"text": text}).status_code == 200
        counts.append(len(asked))
    assert counts[0] == counts[1]
