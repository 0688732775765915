"""The pages of lessons as people use them: what is typed wrong stays, what is refused says why."""

import uuid
from datetime import date, timedelta

import pytest

from curriculum.records.models import HealthRead
from kitchen.lessons.models import Attendance, Lesson, Place
from tests.builders.cast import build_cast
from tests.builders.lessons import a_room, a_variant, an_adjustment, avoids, more_learners

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


def sign_in(client, user):
    client.force_login(user, "django.contrib.auth.backends.ModelBackend")


@pytest.fixture
def lecturer(client, cast):
    sign_in(client, cast.lecturer)
    return client


def typed(cast, **changes):
    said = {
        "version": cast.recipe_version.pk,
        "kind": "practical",
        "working": "pair",
        "portions_a_bench": "8",
        "on": "23 Feb 2027",
        "starts": "9:00",
        "ends": "12:00",
        "start_minutes": "15",
        "clear_minutes": "30",
        "room": cast.room.pk,
        "group": cast.group.pk,
        "lecturer": cast.lecturer.pk,
        "cover": "",
        "technician": "",
        "demonstration_batches": "1",
        "spare_batches": "1",
        "note": "",
        "key": str(uuid.uuid4()),
    }
    return said | changes


def test_a_lesson_is_booked_and_leads_to_its_benches(cast, lecturer):
    answer = lecturer.post("/lessons/book/", typed(cast))
    made = Lesson.objects.get(on=date(2027, 2, 23))
    assert answer.headers["Location"] == f"/lessons/{made.code}/places/"
    assert "Put the learners to their benches." in lecturer.get(answer.headers["Location"]).content.decode()


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"portions_a_bench": "a dozen"}, "You wrote “a dozen”. Write a whole number, such as 8."),
        ({"portions_a_bench": "0"}, "Write a whole number from 1 to 200."),
        ({"portions_a_bench": "-2"}, "Write a whole number from 1 to 200."),
        ({"on": "31 February 2027"}, "February 2027 has 28 days."),
        ({"ends": "08:00"}, "It ends at 08:00 and starts at 09:00. Write an end after the start."),
        ({"ends": "25:00"}, "Write a time from 00:00 to 23:59"),
        ({"ends": "09:40"}, "no minute is left to cook"),
        ({"break_minutes": "15"}, "Write when the break begins, or 0 minutes for none."),
        (
            {"break_minutes": "15", "break_after": "9:05"},
            "The break would begin at 09:05, and start-up ends at 09:15.",
        ),
        ({"break_minutes": "150", "break_after": "10:00"}, "Write a whole number from 0 to 120."),
        ({"supervisors": "0"}, "Write a whole number from 1 to 6."),
        ({"starts": ""}, "This is empty."),
        ({"room": "9999"}, "What was chosen is not listed any more."),
        ({"group": "x"}, "What was chosen is not listed any more."),
        ({"working": "trio"}, "What was chosen is not listed any more."),
        ({"note": "x" * 401}, "You wrote 401 characters. Write 400 at most."),
        ({"note": "x" * 1_000_001}, "You pasted 1.1 MB."),
        ({"note": "a\0b"}, "cannot be kept (NUL)"),
        ({"key": "not-a-number"}, "The form came without its number."),
    ],
)
def test_what_is_wrong_is_said_at_its_field_and_stays(cast, lecturer, changes, says):
    before = Lesson.objects.count()
    answer = lecturer.post("/lessons/book/", typed(cast, **changes))
    html = answer.content.decode()
    assert answer.status_code == 200
    assert says in html
    assert "Not booked yet." in html
    assert 'value="23 Feb 2027"' in html or "on" in changes
    assert Lesson.objects.count() == before


def test_a_break_and_what_is_kept_free_are_booked_and_changed(cast, lecturer):
    more = {"break_after": "10:30", "break_minutes": "15", "contingency_minutes": "10", "supervisors": "2"}
    lecturer.post("/lessons/book/", typed(cast, **more))
    made = Lesson.objects.get(on=date(2027, 2, 23))
    assert (made.break_after, made.break_minutes, made.contingency_minutes) == (90, 15, 10)
    assert (made.supervisors, made.usable_minutes) == (2, 125)
    page = lecturer.get(f"/lessons/{made.code}/change/").content.decode()
    assert 'value="10:30"' in page
    hub = lecturer.get(f"/lessons/{made.code}/").content.decode()
    assert "Break in it, 10:30 to 10:45" in hub and "Kept free before clear-down" in hub
    without = typed(cast, break_minutes="0", break_after="10:30", contingency_minutes="")
    lecturer.post(f"/lessons/{made.code}/change/", without)
    made.refresh_from_db()
    assert (made.break_after, made.break_minutes, made.contingency_minutes) == (0, 0, 0)


def test_a_clash_stands_at_each_field_it_is_about(cast, lecturer):
    a_room()
    html = lecturer.post(
        "/lessons/book/", typed(cast, on="17 Feb 2027", group=cast.other_group.pk)
    ).content.decode()
    assert "Quince Kitchen is taken by BK2, Shortbread, 09:00 to 12:00. Free then: Medlar Kitchen." in html
    assert "BK2 has Shortbread, 09:00 to 12:00" in html
    assert "Not booked yet. Two things stand in the way." in html
    assert 'href="#id_room"' in html


def test_a_form_sent_twice_books_once(cast, lecturer):
    said, before = typed(cast), Lesson.objects.count()
    assert lecturer.post("/lessons/book/", said).status_code == 302
    assert lecturer.post("/lessons/book/", said).status_code == 302
    assert Lesson.objects.count() == before + 1


def test_html_in_a_note_and_names_in_any_script_stay_text(cast, lecturer):
    type(cast.group).objects.filter(pk=cast.group.pk).update(name="<script>alert(1)</script> 课程 مجموعة")
    html = lecturer.get("/lessons/book/").content.decode()
    assert "&lt;script&gt;alert(1)&lt;/script&gt; 课程 مجموعة" in html


def test_the_list_shows_a_lecturer_their_own_and_everybody_elses_on_request(cast, lecturer):
    own = lecturer.get("/lessons/").content.decode()
    assert f'href="{cast.lesson.code}/"' in own
    assert cast.other_lesson.code not in own
    assert cast.other_lesson.code in lecturer.get("/lessons/?whose=all").content.decode()
    assert cast.other_lesson.code in lecturer.get("/lessons/?group=BK2").content.decode()


def test_the_list_knows_where_the_lessons_before_and_after_are(cast, lecturer):
    html = lecturer.get("/lessons/?from=2027-05-03").content.decode()
    assert "No lesson is booked in these four weeks." in html
    assert "Earlier lessons</a>" in html
    assert "from=2027-01-25" in html
    assert "No later lessons" in html


def test_a_question_that_cannot_be_read_is_not_an_error(cast, lecturer):
    assert lecturer.get("/lessons/?from=yesterday&group=ZZ&whose=x").status_code == 200


@pytest.mark.parametrize("count", [3, 30])
def test_the_list_asks_the_same_number_of_questions_for_any_number_of_lessons(
    cast, lecturer, count, django_assert_num_queries
):
    many_lessons(cast, count)
    lecturer.get("/lessons/")
    with django_assert_num_queries(11):
        html = lecturer.get("/lessons/").content.decode()
    assert html.count('<li class="line') == count + 1


def many_lessons(cast, count):
    for index in range(count):
        Lesson.objects.create(
            code=f"MANY{index:04d}",
            title=f"Dish {index}",
            on=date(2027, 2, 18) + timedelta(days=index % 20),
            starts="09:00",
            minutes=180,
            room=cast.room,
            group=cast.group,
            lecturer=cast.lecturer,
        )


def test_a_change_keeps_what_it_does_not_touch(cast, lecturer):
    page = f"/lessons/{cast.lesson.code}/change/"
    html = lecturer.get(page).content.decode()
    assert 'value="16 Feb 2027"' in html
    assert 'value="12:00"' in html
    said = typed(cast, on="16 Feb 2027", starts="10:00", ends="13:00")
    assert lecturer.post(page, said).status_code == 302
    cast.lesson.refresh_from_db()
    assert cast.lesson.starts.hour == 10
    assert Place.objects.filter(shift__lesson=cast.lesson).exists()


def test_cancelling_asks_with_the_consequence_and_keeps_the_reason(cast, lecturer):
    page = f"/lessons/{cast.lesson.code}/cancel/"
    assert "Two learners lose this lesson." in lecturer.get(page).content.decode()
    assert "Not cancelled yet." in lecturer.post(page, {"why": ""}).content.decode()
    lecturer.post(page, {"why": "The gas is off."})
    cast.lesson.refresh_from_db()
    assert (cast.lesson.state, cast.lesson.note) == ("cancelled", "The gas is off.")


def empty_benches(cast):
    Place.objects.filter(shift__lesson=cast.lesson).delete()
    return f"/lessons/{cast.lesson.code}/places/"


def test_without_places_a_proposal_is_shown_and_not_kept(cast, lecturer):
    page = empty_benches(cast)
    html = lecturer.get(page).content.decode()
    assert "Proposed, not kept yet" in html
    assert html.count('<option value="1" selected>bench 1</option>') == 2
    assert not Place.objects.filter(shift__lesson=cast.lesson).exists()


def test_a_learner_is_moved_by_choosing_another_bench(cast, lecturer):
    page = empty_benches(cast)
    said = {"bench_N100": "1", "bench_N101": "2", "key": str(uuid.uuid4())}
    assert lecturer.post(page, said).status_code == 302
    places = Place.objects.filter(shift__lesson=cast.lesson)
    assert [place.learners.get().student.college_number for place in places] == ["N100", "N101"]


def test_a_bench_works_what_its_learners_need(cast, lecturer):
    variant = a_variant(cast)
    avoids(cast, cast.learner, kind="milk")
    page = empty_benches(cast)
    lecturer.post(page, {"bench_N100": "1", "bench_N101": "1", "key": str(uuid.uuid4())})
    assert Place.objects.get(shift__lesson=cast.lesson).version == variant


def test_a_recipe_against_a_diet_is_refused_at_the_learner(cast, lecturer):
    a_variant(cast)
    avoids(cast, cast.learner, kind="milk")
    page = empty_benches(cast)
    said = {"bench_N100": "1", "bench_N101": "1", "works_1": "shortbread", "key": str(uuid.uuid4())}
    html = lecturer.post(page, said).content.decode()
    assert "Not kept yet. One thing stands in the way." in html
    assert 'href="#id_bench_N100"' in html
    assert "They can be put to shortbread_plain." in html


def test_a_bench_of_another_room_is_refused(cast, lecturer):
    html = lecturer.post(empty_benches(cast), {"bench_N100": "77", "key": str(uuid.uuid4())}).content.decode()
    assert "That bench is not in Quince Kitchen. Choose one that is." in html


def test_three_at_a_bench_for_two_are_refused(cast, lecturer):
    (third,) = more_learners(cast, 1)
    said = {
        "bench_N100": "1",
        "bench_N101": "1",
        f"bench_{third.college_number}": "1",
        "key": str(uuid.uuid4()),
    }
    html = lecturer.post(empty_benches(cast), said).content.decode()
    assert "Bench 1 takes 2 and 3 are put there." in html


def test_a_room_that_is_too_small_says_how_many_benches_are_missing(cast, lecturer):
    more_learners(cast, 6)
    html = lecturer.get(empty_benches(cast)).content.decode()
    assert "4 benches are needed and the room has 2 that fit." in html


def test_stores_see_the_benches_and_cannot_move_anybody(cast, client):
    sign_in(client, cast.stores)
    html = client.get(f"/lessons/{cast.lesson.code}/places/").content.decode()
    assert "<select" not in html
    assert "Keep the benches" not in html


@pytest.mark.parametrize("learners", [3, 30])
def test_the_benches_ask_the_same_number_of_questions_for_any_class(
    cast, lecturer, learners, django_assert_max_num_queries
):
    for student in more_learners(cast, learners):
        avoids(cast, student, kind="sesame")
    lecturer.get(f"/lessons/{cast.lesson.code}/places/")
    with django_assert_max_num_queries(24):
        lecturer.get(f"/lessons/{cast.lesson.code}/places/")
    with django_assert_max_num_queries(24):
        lecturer.get(f"/lessons/{cast.lesson.code}/diets/")


def diets(client, cast):
    return client.get(f"/lessons/{cast.lesson.code}/diets/").content.decode()


def test_nothing_declared_is_said_as_that_and_not_more(cast, lecturer):
    avoids(cast, cast.learner, kind="sesame")
    html = diets(lecturer, cast)
    assert "Nothing declared against it" in html
    assert "Bench 1 has the ordinary kit." in html
    assert "One learner of the class has nothing on file." in html
    assert " safe" not in html


def test_a_variant_that_nobody_works_yet_asks_for_a_change(cast, lecturer):
    a_variant(cast)
    avoids(cast, cast.learner, kind="milk")
    html = diets(lecturer, cast)
    assert "Needs the variant" in html
    assert "Butter (Paste): contains milk" in html
    assert "Bench 1 is put to Shortbread. Change it." in html


def test_an_unread_label_of_the_variant_stops_the_kit(cast, lecturer):
    a_variant(cast, label_read=False)
    avoids(cast, cast.learner, kind="milk")
    html = diets(lecturer, cast)
    assert "No label read" in html
    assert "waits until somebody has read the label of Margarine." in html


def test_cannot_comes_with_other_dishes_and_one_of_them_can_be_cooked_too(cast, lecturer):
    other = another_dish_of_the_book(cast)
    avoids(cast, cast.learner, kind="milk")
    html = diets(lecturer, cast)
    assert "Cannot work Shortbread" in html
    assert "Oil crackers, one technique in common" in html
    said = {"recipe": "crackers", "key": str(uuid.uuid4())}
    lecturer.post(f"/lessons/{cast.lesson.code}/dishes/", said)
    assert cast.lesson.dishes.filter(version=other).exists()
    lecturer.post(empty_benches(cast), {"bench_N100": "1", "key": str(uuid.uuid4())})
    assert Place.objects.get(shift__lesson=cast.lesson).version == other


def another_dish_of_the_book(cast):
    version = a_variant(cast)
    recipe = version.recipe
    recipe.variant_of, recipe.code, recipe.title = None, "crackers", "Oil crackers"
    recipe.save()
    version.sheet |= {"code": "crackers", "title": "Oil crackers", "variant_of": None, "free_from": []}
    version.save()
    return version


def test_reading_diets_is_noted_once_a_day(cast, lecturer):
    avoids(cast, cast.learner, kind="sesame")
    diets(lecturer, cast)
    diets(lecturer, cast)
    (row,) = HealthRead.objects.all()
    assert (row.reader, row.student, row.page) == (cast.lecturer, cast.learner, "diets")


def tap(cast, **changes):
    return {"learner": "N100", "state": "present", "key": str(uuid.uuid4())} | changes


def test_a_tap_writes_the_register_and_shows_the_row_again(cast, lecturer):
    an_adjustment(cast, cast.learner)
    page = f"/lessons/{cast.lesson.code}/attendance/"
    assert "extra time 25 %" in lecturer.get(page).content.decode()
    answer = lecturer.post(page, tap(cast), headers={"HX-Request": "true"})
    html = answer.content.decode()
    assert answer.status_code == 200
    assert "1 present and 1 not said yet." in html
    assert 'value="present" aria-pressed="true"' in html
    assert "<html" not in html


def test_without_script_a_tap_comes_back_to_the_register(cast, lecturer):
    page = f"/lessons/{cast.lesson.code}/attendance/"
    assert lecturer.post(page, tap(cast)).headers["Location"] == page


def test_the_cover_takes_the_register(cast, client):
    sign_in(client, cast.cover)
    client.post(f"/lessons/{cast.lesson.code}/attendance/", tap(cast, state="late"))
    assert Attendance.objects.get().by == cast.cover


@pytest.mark.parametrize("changes", [{"state": "asleep"}, {"key": ""}, {"learner": ""}])
def test_a_tap_that_the_page_does_not_offer_is_refused(cast, lecturer, changes):
    answer = lecturer.post(f"/lessons/{cast.lesson.code}/attendance/", tap(cast, **changes))
    assert answer.status_code == 409
    assert not Attendance.objects.exists()


def test_a_learner_of_another_group_is_not_there(cast, lecturer):
    answer = lecturer.post(f"/lessons/{cast.lesson.code}/attendance/", tap(cast, learner="N200"))
    assert answer.status_code == 404


def test_an_expired_session_answers_a_tap_with_401(cast, client):
    answer = client.post(
        f"/lessons/{cast.lesson.code}/attendance/", tap(cast), headers={"Accept": "application/json"}
    )
    assert answer.status_code == 401
