"""From a print to its code, a change, and the one file that replaces what became void and no more."""

from io import BytesIO

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from pypdf import PdfReader

from curriculum.people.models import RoleGrant
from kitchen.lessons.actions import cancel_lesson
from kitchen.lessons.models import Lesson
from kitchen.lessons.papers.models import Print
from kitchen.stores.actions import accept_kits
from kitchen.stores.requisitions.actions import submit_requisition
from kitchen.website.papers.queries import papers_page
from tests.builders.book import TERM, a_book
from tests.builders.stores import COOKED, quiche_stage

pytestmark = [pytest.mark.django_db]


@pytest.fixture
def stage():
    a_book(*COOKED)
    made = quiche_stage()
    accept_kits(lesson=made.lesson, by=made.stores)
    return made


def signed_in(user):
    client = Client()
    client.force_login(user, "django.contrib.auth.backends.ModelBackend")
    return client


def words_of(content):
    return " ".join(" ".join(page.extract_text() for page in PdfReader(BytesIO(content)).pages).split())


def printed(stage, paper="kits/labels.pdf"):
    answer = signed_in(stage.stores).get(f"/lessons/{stage.lesson.code}/{paper}")
    assert answer.status_code == 200
    return answer.content


def another_recipe_at_bench(stage, number):
    place = stage.lesson.shifts.get().places.get(bench__number=number)
    place.version = stage.versions["V1"]
    place.save()
    assert len(papers_page(stage.lesson).stale) == 1, "kits that were made before are said"
    accept_kits(lesson=stage.lesson, by=stage.stores)
    assert papers_page(stage.lesson).stale == ()


def test_a_print_is_a_row_and_each_page_carries_its_code(stage):
    said = words_of(printed(stage))
    row = Print.objects.get()
    assert (row.paper, row.of_number, len(row.parts) > 7) == ("labels", 1, True)
    assert row.code in said and "set 1 of" in said.lower()


def test_who_asks_only_for_the_head_prints_nothing(stage):
    signed_in(stage.stores).head(f"/lessons/{stage.lesson.code}/kits/labels.pdf")
    assert not Print.objects.exists()


def test_one_file_names_what_is_void_and_prints_that_and_no_more(stage):
    printed(stage)
    printed(stage, "kits/issue-sheet.pdf")
    another_recipe_at_bench(stage, 3)
    page = papers_page(stage.lesson)
    assert {row.paper: row.again for row in page.again} == {
        "labels": "kits 3, A1 and A2",
        "issue_sheet": "the whole sheet",
    }
    answer = signed_in(stage.stores).post(f"/lessons/{stage.lesson.code}/papers/again.pdf")
    first = " ".join(PdfReader(BytesIO(answer.content)).pages[0].extract_text().split())
    assert "Throw away" in first and "Kit labels, set 1 of" in first and "kits 3" in first
    parts = set(Print.objects.filter(paper="labels").latest("pk").parts)
    assert "3" in parts and not parts & {"1", "2", "4", "5", "6", "7", "D", "S"}


def test_after_printing_again_nothing_is_void_and_the_button_says_so(stage):
    printed(stage)
    another_recipe_at_bench(stage, 3)
    client = signed_in(stage.stores)
    client.post(f"/lessons/{stage.lesson.code}/papers/again.pdf")
    count = Print.objects.count()
    page = client.post(f"/lessons/{stage.lesson.code}/papers/again.pdf", follow=True)
    assert b"Every print of this lesson is in force" in page.content
    assert Print.objects.count() == count


def test_the_code_on_a_paper_says_whether_it_is_in_force(stage):
    printed(stage)
    code, client = Print.objects.get().code, signed_in(stage.lecturer)
    assert b"This print is in force" in client.get(f"/papers/{code.lower()}/").content
    another_recipe_at_bench(stage, 3)
    said = client.get(f"/papers/{code}/").content.decode()
    assert "Part of this print is void" in said and "Changed since" in said
    cancel_lesson(lesson=stage.lesson, why="No gas.", by=stage.lecturer)
    assert b"This print is void" in client.get(f"/papers/{code}/").content


def test_a_learner_at_a_bench_of_the_lesson_asks_too_and_others_do_not(stage):
    printed(stage)
    code = Print.objects.get().code
    learner = stage.lesson.shifts.get().places.first().learners.first().student.user
    RoleGrant.objects.create(user=learner, role="student", from_on=TERM)
    assert signed_in(learner).get(f"/papers/{code}/").status_code == 200
    assert signed_in(learner).get("/papers/22222222/").status_code == 404


def test_a_requisition_sheet_is_void_when_it_is_approved_otherwise(stage):
    submit_requisition(lesson=stage.lesson, by=stage.lecturer)
    printed(stage, "requisition.pdf")
    Lesson.objects.filter(pk=stage.lesson.pk).update(spare_batches=3)
    stage.lesson.refresh_from_db()
    submit_requisition(lesson=stage.lesson, by=stage.lecturer)
    (row,) = papers_page(stage.lesson).again
    assert row.paper == "requisition" and "foods and amounts" in row.copies[0].why


def test_thirty_prints_cost_no_query_more_than_three(stage):
    counts = []
    for many in (3, 30):
        while Print.objects.count() < many:
            first = Print.objects.first()
            if first is None:
                printed(stage)
                continue
            row = Print(
                lesson=first.lesson, code=f"{Print.objects.count():08}", paper="labels", parts=first.parts
            )
            row.by = first.by
            row.save()
        with CaptureQueriesContext(connection) as told:
            papers_page(stage.lesson)
        counts.append(len(told))
    assert counts[0] == counts[1]
