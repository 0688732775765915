"""From the accepted plan to what the day taught: a class runs, an oven fails, the plan is made anew."""

import re
import uuid
from datetime import timedelta

import pytest
from django.utils import timezone

from kitchen.timeplan.day.check import check_from, hard
from kitchen.timeplan.day.situation import situation
from kitchen.timeplan.models import DayEvent, TimePlan
from tests.builders.cast import build_cast
from tests.builders.running import begun, more_benches, now_of, second_oven

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    made = build_cast()
    second_oven(made)
    more_benches(made, 3)
    return made


def tap(client, cast, what, **said):
    data = {"key": str(uuid.uuid4()), "what": what, **said}
    answer = client.post(f"/lessons/{cast.lesson.code}/day/tap/", data)
    assert answer.status_code == 302, answer.content


def words_of(client, cast, what=""):
    content = client.get(f"/lessons/{cast.lesson.code}/day/{what}").content.decode()
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", content)), content


def test_an_oven_fails_while_the_class_bakes(client, cast):
    client.force_login(cast.lecturer, "django.contrib.auth.backends.ModelBackend")
    begun(cast, 27)
    for bench in "1234":
        began = timezone.now() - timedelta(minutes=20)
        tap(client, cast, "started", bench=bench, step=1, part=0, device_at=f"{began:%Y-%m-%dT%H:%M:%S.%fZ}")
        tap(client, cast, "done", bench=bench, step=1, part=0)
    baking = now_of(cast).answer.ovens
    for bench in "12":
        tap(client, cast, "started", bench=bench, step=2, part=0)
        tap(client, cast, "done", bench=bench, step=2, part=0, oven=baking[f"{bench}/2/1"])
    assert "In the oven" in words_of(client, cast)[0]

    before = now_of(cast)
    tap(client, cast, "failed", oven=baking["1/2/1"])
    words, _ = words_of(client, cast)
    assert "No oven" in words
    assert "The plan no longer holds" in words
    assert "No oven" in words_of(client, cast, "board/")[0]

    words, content = words_of(client, cast, "re-plan/")
    assert "the rest of its minutes" in words
    sealed = re.search(r'name="proposal" value="([^"]+)"', content)[1]
    assert TimePlan.objects.count() == 1
    client.post(
        f"/lessons/{cast.lesson.code}/day/re-plan/accept/", {"key": str(uuid.uuid4()), "proposal": sealed}
    )

    after = now_of(cast)
    assert after.row.number == 2
    assert after.answer.ovens["1/2/1"] != baking["1/2/1"]
    for name in before.state.begun.keys() & after.state.begun.keys():
        assert after.state.begun[name] == before.state.begun[name]
    at = situation(after.state, after.row.finish_minutes)
    assert hard(check_from(at.problem, after.answer, at.past)) == []
    assert list(DayEvent.objects.order_by("number").values_list("number", flat=True)) == list(range(1, 15))

    text = words_of(client, cast, "after/")[0]
    assert "By step" in text


def test_a_learner_sees_nothing_of_the_day(client, cast):
    begun(cast)
    client.force_login(cast.learner.user, "django.contrib.auth.backends.ModelBackend")
    for what in ("", "board/", "bench/1/", "re-plan/", "after/"):
        assert client.get(f"/lessons/{cast.lesson.code}/day/{what}").status_code == 403
