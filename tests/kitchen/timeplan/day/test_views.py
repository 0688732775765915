"""The pages of the day as people use them: taps, the board, the re-plan, the day beside its plan."""

import re
import uuid

import pytest
from django.core import signing

from curriculum.people.models import Adjustment
from kitchen.timeplan.day.views import SEAL
from kitchen.timeplan.models import DayEvent, LearnedMinutes, TimePlan
from tests.builders.cast import TERM, build_cast
from tests.builders.running import begun, more_benches, planned, second_oven, tapped

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


@pytest.fixture
def lecturer(client, cast):
    client.force_login(cast.lecturer, "django.contrib.auth.backends.ModelBackend")
    return client


def page(client, cast, what="", **headers):
    return client.get(f"/lessons/{cast.lesson.code}/day/{what}", headers=headers)


def post(client, cast, where, headers=None, **data):
    data.setdefault("key", str(uuid.uuid4()))
    return client.post(f"/lessons/{cast.lesson.code}/day/{where}", data, headers=headers or {})


def text_of(answer):
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", answer.content.decode()))


def test_without_a_plan_the_page_says_what_to_do(lecturer, cast):
    assert "Open the time plan" in text_of(page(lecturer, cast))
    assert "no accepted time plan" in text_of(page(lecturer, cast, "board/"))


def test_the_day_of_a_lesson_that_is_only_shown_leads_to_its_demonstration(lecturer, cast):
    cast.lesson.kind = "demonstration"
    cast.lesson.save()
    text = text_of(page(lecturer, cast))
    assert "Open the demonstration" in text
    assert "Open the time plan" not in text


def test_the_class_begins_with_one_tap_and_then_has_a_clock(lecturer, cast):
    planned(cast)
    assert "The class has not begun." in text_of(page(lecturer, cast))
    assert post(lecturer, cast, "tap/", what="began").status_code == 302
    content = page(lecturer, cast).content.decode()
    assert 'data-midnight="1' in content
    assert "Started" in content
    assert "Nothing has been tapped yet." not in content


def test_a_tap_shows_in_the_row_and_at_the_lower_edge_and_undo_takes_it_back(lecturer, cast):
    begun(cast, 15)
    post(lecturer, cast, "tap/", what="started", bench="1", step="1", part="0")
    text = text_of(page(lecturer, cast))
    assert "At work" in text
    assert "Bench 1, step 1: started." in text
    post(lecturer, cast, "tap/", what="undo", undoes="2")
    assert "To start" in text_of(page(lecturer, cast))


def test_a_script_hears_204_and_a_refusal_as_json(lecturer, cast):
    begun(cast)
    fetched = {"X-Tap": "1", "Sec-Fetch-Dest": "empty"}
    answer = post(lecturer, cast, "tap/", fetched, what="started", bench="1", step="1", part="0")
    assert answer.status_code == 204
    refused = post(lecturer, cast, "tap/", fetched, what="started", bench="9", step="1", part="0")
    assert (refused.status_code, refused.json()["code"]) == (409, "no_such_bench")


def test_a_tap_kept_on_a_device_comes_with_its_own_moment(lecturer, cast):
    began = begun(cast, 30)
    moment = began.device_at.strftime("%Y-%m-%dT%H:%M:%S.%fZ")
    post(lecturer, cast, "tap/", what="started", bench="1", step="1", part="0", device_at=moment)
    assert DayEvent.objects.get(number=2).device_at == began.device_at


def test_nonsense_is_refused_and_nothing_is_kept(lecturer, cast):
    begun(cast)
    assert post(lecturer, cast, "tap/", what="eaten").status_code == 409
    assert post(lecturer, cast, "tap/", key="twelve", what="began").status_code == 409
    assert DayEvent.objects.count() == 1


def test_a_script_gets_only_the_part_that_changes(lecturer, cast):
    begun(cast)
    for what in ("", "board/"):
        content = page(lecturer, cast, what, **{"HX-Request": "true"}).content.decode()
        assert content.lstrip().startswith('<div id="day-now"')


def test_a_technician_sees_the_day_without_buttons(client, cast):
    begun(cast)
    client.force_login(cast.technician, "django.contrib.auth.backends.ModelBackend")
    content = page(client, cast).content.decode()
    assert "data-tap" not in content


def test_the_board_names_nobody_and_tells_no_adjustment(lecturer, cast):
    Adjustment.objects.create(
        student=cast.learner, kind="extra_time", percent=25, from_on=TERM, agreed_by=cast.lecturer
    )
    begun(cast, 20)
    content = page(lecturer, cast, "board/").content.decode()
    for word in ("Learner", "N100", "N101", "extra", "FREE FROM", "mark"):
        assert word not in content.split("<main")[1], word
    assert "data-tap" not in content
    assert "Rub the butter" in content


def late(cast):
    second_oven(cast)
    more_benches(cast, 1)
    begun(cast, 20)
    tapped(cast, "started", "1", 1, 0, ago=5)
    for _ in range(4):
        tapped(cast, "later", "1", 1, 0, minutes=5)


def test_what_would_move_is_shown_in_words_and_changes_nothing_until_it_is_taken(lecturer, cast):
    late(cast)
    assert "The plan no longer holds" in text_of(page(lecturer, cast))
    answer = page(lecturer, cast, "re-plan/")
    assert re.search(r"Bench 1, step 2 : \d\d:\d\d → \d\d:\d\d", text_of(answer))
    assert TimePlan.objects.count() == 1
    sealed = re.search(r'name="proposal" value="([^"]+)"', answer.content.decode())[1]
    assert post(lecturer, cast, "re-plan/accept/", proposal=sealed).status_code == 302
    assert "The class now runs by plan 2." in text_of(page(lecturer, cast))
    assert "The plan no longer holds" not in text_of(page(lecturer, cast))


def test_a_plan_that_nobody_sealed_is_refused(lecturer, cast):
    late(cast)
    forged = signing.dumps({"shape": 1}, salt="another")
    assert post(lecturer, cast, "re-plan/accept/", proposal=forged).status_code == 409
    assert SEAL != "another"
    assert TimePlan.objects.count() == 1


def test_a_plan_that_was_sealed_for_another_lesson_is_refused(lecturer, cast):
    late(cast)
    sealed = re.search(r'name="proposal" value="([^"]+)"', page(lecturer, cast, "re-plan/").content.decode())[
        1
    ]
    kept = signing.loads(sealed, salt=SEAL + cast.lesson.code)
    of_another = signing.dumps(kept, salt=SEAL + "ANOTHER1", compress=True)
    assert post(lecturer, cast, "re-plan/accept/", proposal=of_another).status_code == 409
    assert TimePlan.objects.count() == 1


def test_when_nothing_moves_there_is_nothing_to_take(lecturer, cast):
    begun(cast, 10)
    answer = page(lecturer, cast, "re-plan/")
    assert "Nothing moves" in text_of(answer)
    assert "proposal" not in answer.content.decode()


def test_a_running_lesson_takes_no_other_plan_than_that_of_its_day(lecturer, cast):
    late(cast)
    sealed = re.search(r'name="proposal" value="([^"]+)"', page(lecturer, cast, "re-plan/").content.decode())[
        1
    ]
    post(lecturer, cast, "re-plan/accept/", proposal=sealed)
    text = text_of(lecturer.get(f"/lessons/{cast.lesson.code}/time-plan/"))
    assert "Made while the class ran" in text
    assert "Accept" not in text.replace("Accepted", "")


def test_the_bench_page_offers_what_goes_wrong(lecturer, cast):
    begun(cast, 20)
    tapped(cast, "started", "1", 1, 0)
    text = text_of(page(lecturer, cast, "bench/1/"))
    assert "Again from here" in text
    assert "One learner fewer" in text
    assert page(lecturer, cast, "bench/9/").status_code == 404


def test_the_day_stands_beside_its_plan_and_a_pace_is_kept(lecturer, cast):
    begun(cast, 40)
    assert "No step was timed." in text_of(page(lecturer, cast, "after/"))
    tapped(cast, "started", "1", 1, 0, ago=20)
    tapped(cast, "done", "1", 1, 0, ago=8)
    text = text_of(page(lecturer, cast, "after/"))
    assert "12 min, 2 min more" in text
    assert "12 min where the recipe says 10 min, from one timed step. That is thin evidence." in text
    post(lecturer, cast, "after/learn/", technique="rubbing_in")
    row = LearnedMinutes.objects.get()
    assert (row.pace_per_mille, row.count, row.lessons) == (1200, 1, [cast.lesson.code])
    assert "Kept" in text_of(page(lecturer, cast, "after/"))
    assert post(lecturer, cast, "after/learn/", technique="baking").status_code == 409


@pytest.mark.parametrize("count", [3, 30])
def test_the_page_takes_the_same_queries_for_few_benches_and_many(
    lecturer, cast, count, django_assert_num_queries
):
    more_benches(cast, count)
    begun(cast, 20)
    for number in range(1, count + 2):
        tapped(cast, "started", str(number), 1, 0)
    page(lecturer, cast)
    with django_assert_num_queries(10):
        page(lecturer, cast)
