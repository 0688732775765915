"""The page of a time plan as people use it, and its papers."""

import io

import pytest
from pypdf import PdfReader

from curriculum.records.models import Job
from kitchen.lessons.models import Place
from kitchen.timeplan.models import TimePlan
from kitchen.timeplan.queries import plan_page
from kitchen.timeplan.tasks import solve_job
from tests.builders.cast import build_cast

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


@pytest.fixture
def lecturer(client, cast):
    return signed_in(client, cast.lecturer)


def signed_in(client, user):
    client.force_login(user, "django.contrib.auth.backends.ModelBackend")
    return client


def page(client, cast, what="", **query):
    return client.get(f"/lessons/{cast.lesson.code}/time-plan/{what}", query)


def post(client, cast, what, **data):
    return client.post(f"/lessons/{cast.lesson.code}/time-plan/{what}/", data)


def accept(client, cast):
    return post(client, cast, "accept", draft=plan_page(cast.lesson).draft.mark)


def words_of(pdf):
    return " ".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages)


def test_the_page_shows_a_plan_at_once_with_picture_and_words(lecturer, cast):
    text = page(lecturer, cast).content.decode()
    assert "It fits, with" in text
    assert "Not accepted yet" in text
    assert '<svg viewBox="0 0 920' in text
    assert "Rub the butter into the flour" in text
    assert "Fine crumbs that hold when pressed" in text


def test_the_page_says_what_leading_costs(lecturer, cast):
    text = page(lecturer, cast).content.decode()
    assert "What leading costs" in text
    assert "Led by nobody" in text
    assert "Found at once by our own rule" in text


def test_accepting_says_so_and_keeps_the_plan(lecturer, cast):
    answer = accept(lecturer, cast)
    assert answer.status_code == 302
    assert TimePlan.objects.get().by == cast.lecturer
    text = page(lecturer, cast).content.decode()
    assert "The time plan is accepted as plan 1." in text
    assert "Accept this plan" not in text


def test_a_page_that_showed_another_lesson_is_refused_in_words(lecturer, cast):
    mark = plan_page(cast.lesson).draft.mark
    cast.dish.ahead_steps = [1]
    cast.dish.save()
    answer = post(lecturer, cast, "accept", draft=mark)
    assert answer.status_code == 409
    assert "The lesson, or the best plan of it, has changed" in answer.content.decode()
    assert not TimePlan.objects.exists()


def test_a_changed_lesson_is_said_above_its_old_plan(lecturer, cast):
    accept(lecturer, cast)
    cast.dish.ahead_steps = [1]
    cast.dish.save()
    assert "The lesson has changed since plan 1" in page(lecturer, cast).content.decode()


def test_who_only_looks_is_offered_nothing_to_press(client, cast):
    text = page(signed_in(client, cast.technician), cast).content.decode()
    assert "It fits, with" in text
    assert "Accept this plan" not in text
    assert "Search longer" not in text


def test_a_lesson_too_long_says_what_is_in_the_way_and_looks_for_ways_out(lecturer, cast):
    cast.lesson.minutes = 70
    cast.lesson.save()
    text = page(lecturer, cast).content.decode()
    assert "It does not fit: at least 9 min are missing" in text
    assert "What is in the way" in text
    assert "Look for ways out" in text
    text = page(lecturer, cast, ways="1").content.decode()
    assert "minutes are for cooking. Planned:" in text
    assert "Take this way out" in text
    assert '<ul class="ways"><li><a href="/"' in text


def test_a_way_out_is_taken(lecturer, cast):
    cast.lesson.minutes = 70
    cast.lesson.save()
    answer = post(lecturer, cast, "way-out", kind="longer")
    assert answer.status_code == 302
    cast.lesson.refresh_from_db()
    assert cast.lesson.minutes == 85
    assert "It fits" in page(lecturer, cast).content.decode()


def test_a_longer_search_shows_its_progress_and_can_be_stopped(lecturer, cast):
    post(lecturer, cast, "longer")
    text = page(lecturer, cast).content.decode()
    assert "A longer search waits for its turn" in text
    assert "You can leave this page" in text
    fragment = page(lecturer, cast, "progress/").content.decode()
    assert "Waiting for a worker to take it." in fragment
    job = Job.objects.get()
    assert post(lecturer, cast, "stop", job=str(job.key)).status_code == 302
    job.refresh_from_db()
    assert job.state == Job.State.STOPPED


def test_a_stop_of_something_else_is_404(lecturer, cast):
    assert post(lecturer, cast, "stop", job="nonsense").status_code == 404


def test_the_page_is_told_to_load_again_when_the_search_has_ended(lecturer, cast):
    post(lecturer, cast, "longer")
    solve_job(Job.objects.get())
    answer = lecturer.get(f"/lessons/{cast.lesson.code}/time-plan/progress/", headers={"HX-Request": "true"})
    assert answer.headers["HX-Refresh"] == "true"
    assert page(lecturer, cast, "progress/").status_code == 302


def test_a_lesson_with_nothing_to_plan_says_so(lecturer, cast):
    Place.objects.filter(shift__lesson=cast.lesson).delete()
    cast.dish.delete()
    assert "This lesson has no dish yet" in page(lecturer, cast).content.decode()


def test_a_lesson_that_is_only_shown_leads_to_its_demonstration(lecturer, cast):
    cast.lesson.kind = "demonstration"
    cast.lesson.save()
    text = page(lecturer, cast).content.decode()
    assert "nobody cooks at a bench" in text
    assert "Open the demonstration" in text


def test_the_papers_say_what_the_page_says(lecturer, cast):
    accept(lecturer, cast)
    sheet = words_of(page(lecturer, cast, "lecturer.pdf").content)
    assert "Time plan: Shortbread" in sheet
    assert "Clear-down" in sheet
    strip = words_of(page(lecturer, cast, "strips.pdf").content)
    assert "Rub the butter into the flour" in strip
    assert "Look for: Pale gold at the edge." in strip


def test_a_learner_sees_the_own_bench_only_once_a_plan_is_accepted(client, cast):
    student = signed_in(client, cast.student)
    assert "Your bench has no time plan yet" in page(student, cast, "my-bench/").content.decode()
    accept(signed_in(client, cast.lecturer), cast)
    student = signed_in(client, cast.student)
    text = page(student, cast, "my-bench/").content.decode()
    assert "Rub the butter into the flour" in text
    assert "Bench 1" in text
    assert "in hand" not in text
    assert "Look for: Pale gold" in words_of(page(student, cast, "my-bench.pdf").content)


def test_a_learner_is_told_that_the_lesson_has_changed_since_the_plan(client, cast):
    accept(signed_in(client, cast.lecturer), cast)
    student = signed_in(client, cast.student)
    changed = "The lesson has changed since this plan was accepted."
    assert changed not in page(student, cast, "my-bench/").content.decode()
    type(cast.lesson).objects.filter(pk=cast.lesson.pk).update(break_after=60, break_minutes=20)
    assert changed in page(student, cast, "my-bench/").content.decode()


def test_names_are_not_read_as_markup(lecturer, cast):
    cast.student.name = "<b>Zoë</b>"
    cast.student.save()
    text = page(lecturer, cast).content.decode()
    assert "<b>Zoë" not in text
    assert "&lt;b&gt;Zoë" in text


def test_a_draft_is_never_printed(lecturer, cast):
    for sheet in ("lecturer.pdf", "strips.pdf"):
        answer = page(lecturer, cast, sheet)
        assert answer.status_code == 409
        assert "There is no time plan to print yet" in answer.content.decode()


def test_a_room_that_lacks_an_appliance_is_said_and_no_way_out_is_looked_for(lecturer, cast):
    cast.room.appliances.all().delete()
    answer = page(lecturer, cast, "?ways=1")
    assert answer.status_code == 200
    assert "lacks what these steps need" in answer.content.decode()
