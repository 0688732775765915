"""Recipe sheets: a learner reads their own and nobody else's; the lecturer opens any bench's."""

import re
from io import BytesIO

import pytest
from pypdf import PdfReader

from curriculum.people.models import User
from tests.builders.cast import build_cast
from tests.builders.lessons import a_variant, an_adjustment, benches

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    cast = build_cast()
    cast.lesson.assessed = True
    cast.lesson.save()
    return cast


def signed_in(client, user):
    client.force_login(user, "django.contrib.auth.backends.ModelBackend")
    return client


def own(client, cast, kind="/"):
    return client.get(f"/lessons/{cast.lesson.code}/sheet{kind}")


def bench(client, cast, kind="/"):
    return client.get(f"/lessons/{cast.lesson.code}/benches/{cast.place.code}/sheet{kind}")


def words_of(answer):
    pages = PdfReader(BytesIO(answer.content)).pages
    return " ".join(" ".join(page.extract_text() for page in pages).split())


def text_of(answer):
    """The words inside the page's main part."""
    main = re.search(r"<main.*</main>", answer.content.decode(), re.DOTALL).group()
    return set(re.sub(r"<[^>]+>", " ", main).split())


def test_a_learner_reads_the_sheet_of_their_own_bench(client, cast):
    said = own(signed_in(client, cast.student), cast).content.decode()
    assert "Bench 1, Learner N100 and Learner N101. 8 portions." in said
    assert "200 <small>g</small>" in said
    assert '<span class="allergen">wheat</span>' in said
    assert "Plain flour" in words_of(own(client, cast, ".pdf"))


def test_the_sheet_is_scaled_to_the_bench(client, cast):
    cast.dish.portions_a_bench = 16
    cast.dish.save()
    assert "400 <small>g</small>" in own(signed_in(client, cast.student), cast).content.decode()


def test_nobody_reads_the_sheet_of_another_bench(client, cast):
    signed_in(client, cast.other_student)
    assert own(client, cast).status_code == 404
    assert bench(client, cast).status_code == 404
    assert bench(client, cast, ".pdf").status_code == 404


def test_a_bench_of_another_lesson_is_not_found(client, cast):
    signed_in(client, cast.lecturer)
    answer = client.get(f"/lessons/{cast.other_lesson.code}/benches/{cast.place.code}/sheet/")
    assert answer.status_code == 404


def test_extra_time_is_on_the_own_sheet_and_not_on_the_partner_s(client, cast):
    an_adjustment(cast, cast.learner, kind="extra_time", percent=25)
    assert "Extra time of 25 % is agreed." in own(signed_in(client, cast.student), cast).content.decode()
    partner = User.objects.get(username="partner")
    assert "Extra time" not in own(signed_in(client, partner), cast).content.decode()


def test_only_who_teaches_the_lesson_sees_what_was_agreed(client, cast):
    an_adjustment(cast, cast.learner, kind="extra_time", percent=25)
    assert "Extra time" in bench(signed_in(client, cast.lecturer), cast).content.decode()
    assert "Extra time" not in bench(signed_in(client, cast.technician), cast).content.decode()


def said_above_the_foot(answer):
    """The words of each page without the line of its print, which has a code of its own."""
    pages = PdfReader(BytesIO(answer.content)).pages
    return [page.extract_text().rsplit("Recipe sheets, printed", 1)[0] for page in pages]


def test_large_print_is_agreed_or_asked_for(client, cast):
    signed_in(client, cast.student)
    pages = len(PdfReader(BytesIO(own(client, cast, ".pdf").content)).pages)
    asked = own(client, cast, ".pdf?print=large")
    an_adjustment(cast, cast.learner, kind="large_print")
    agreed = own(client, cast, ".pdf")
    assert said_above_the_foot(agreed) == said_above_the_foot(asked)
    assert len(PdfReader(BytesIO(agreed.content)).pages) >= pages
    assert "In large print" not in own(client, cast).content.decode()


def test_the_variant_of_the_bench_is_the_one_that_is_shown(client, cast):
    variant = a_variant(cast)
    cast.place.version = variant
    cast.place.save()
    said = own(signed_in(client, cast.student), cast).content.decode()
    assert "FREE FROM MILK: this bench" in said
    assert '<span class="allergen">milk</span>' not in said


def test_what_was_done_before_is_marked(client, cast):
    cast.dish.ahead_steps = [1]
    cast.dish.save()
    said = own(signed_in(client, cast.student), cast).content.decode()
    assert "Paste, prepared for you" in said
    assert said.count("Done before the lesson.") == 1


def test_names_are_printed_as_people_want_them(client, cast):
    user = cast.student
    user.name, user.name_to_print = "\U00013000 <b>Ib</b>", ""
    user.save()
    said = own(signed_in(client, user), cast).content.decode()
    assert "&lt;b&gt;Ib&lt;/b&gt;" in said
    assert "No font here has every letter" in said
    assert "<b>Ib</b> (1 letter not printed)" in words_of(own(client, cast, ".pdf"))
    user.name_to_print = "Ib"
    user.save()
    assert "No font here has" not in own(client, cast).content.decode()
    assert "Bench 1, Ib and Learner N101." in words_of(own(client, cast, ".pdf"))


def test_the_page_in_large_print_says_every_word_of_the_ordinary_one(client, cast):
    ordinary = text_of(own(signed_in(client, cast.student), cast))
    cast.student.large_print = True
    cast.student.save()
    large = own(client, cast)
    assert 'data-print="large"' in large.content.decode()
    assert ordinary - text_of(large) <= {"In", "large", "print"}  # the button that asks for it


def test_all_sheets_of_a_lesson_are_one_file_with_a_bookmark_for_each_bench(client, cast):
    benches(cast, 3)
    answer = client.get(f"/lessons/{cast.lesson.code}/sheets.pdf")
    assert answer.status_code == 302
    answer = signed_in(client, cast.technician).get(f"/lessons/{cast.lesson.code}/sheets.pdf")
    pdf = PdfReader(BytesIO(answer.content))
    assert [each.title.split(",")[0] for each in pdf.outline] == ["Bench 1", "Bench 2", "Bench 3"]
    for each in pdf.outline:
        words = pdf.pages[pdf.get_destination_page_number(each)].extract_text()
        assert f"{each.title.split(',')[0].lower()}, 1 of " in words


def test_a_lesson_where_nobody_stands_has_no_sheets(client, cast):
    cast.place.learners.all().delete()
    answer = signed_in(client, cast.lecturer).get(f"/lessons/{cast.lesson.code}/sheets.pdf")
    assert answer.status_code == 404


@pytest.mark.parametrize("count", [3, 30])
def test_a_sheet_takes_a_fixed_number_of_queries(client, cast, count, django_assert_max_num_queries):
    for _ in range(count):
        an_adjustment(cast, cast.learner, kind="other", words="quiet")
    signed_in(client, cast.student)
    with django_assert_max_num_queries(20):
        own(client, cast)
