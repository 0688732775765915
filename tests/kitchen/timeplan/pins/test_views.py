"""The page "Fix by hand": from an impossible start to a plan that fits, and what it says on the way."""

import re
import uuid

import pytest

from kitchen.lessons.models import Place, PlaceLearner
from kitchen.timeplan.pins.models import Pin
from tests.builders.cast import build_cast
from tests.builders.running import more_benches, second_oven

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


@pytest.fixture
def at(client, cast):
    client.force_login(cast.lecturer, "django.contrib.auth.backends.ModelBackend")
    address = f"/lessons/{cast.lesson.code}/time-plan/fix/"

    def open_or_send(what="", **sent):
        if what:
            data = {"key": str(uuid.uuid4()), **{name.replace("__", "-"): v for name, v in sent.items()}}
            return client.post(f"{address}{what}/", data, follow=True)
        return client.get(address)

    return open_or_send


def words(answer):
    text = re.sub(r"<(style|script).*?</\1>", " ", answer.content.decode(), flags=re.S)
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", text))


def test_an_impossible_start_is_told_let_go_and_then_the_plan_fits(at):
    assert "It fits" in words(at())
    told = words(at("start", start__place="1", start__part="2-1", start__at="09:20"))
    assert "No plan keeps all that is fixed" in told
    assert "Step 2 of bench 1, in the oven, begins at 09:20" in told
    assert (
        "can begin at 09:29 at the earliest, after what comes before it and from a cold oven: 9 min too few"
        in told
    )
    assert "It is proved that no plan keeps this" in told
    assert "Let go of “Step 2 of bench 1, in the oven, begins at 09:20”" in told
    assert "a plan of the whole class ends at 09:52" in told
    number = Pin.objects.get().pk
    after = words(at("let-go", numbers=str(number)))
    assert "It fits" in after
    assert "Nothing is fixed" in after


def test_a_start_that_can_be_is_planned_round_with_its_cost_and_its_mark(at, client, cast):
    answer = at("start", start__place="1", start__part="1-0", start__at="10:07")
    told = words(answer)
    assert "Step 1 of bench 1 begins at 10:07." in told
    assert re.search(
        r"What is fixed costs \w[\w -]* minutes: the plan that our own rule makes without it", told
    )
    assert "fixed by the lecturer" in told
    assert "Fixed by the lecturer." in told
    assert 'class="linkhead"' in answer.content.decode()
    plan = words(client.get(f"/lessons/{cast.lesson.code}/time-plan/"))
    assert "Fix a start, an oven or an order by hand" in plan
    assert "10:07" in plan


def test_two_benches_and_an_order_at_one_oven(at, cast):
    more_benches(cast, 1)
    told = words(
        at("order", order__place="2", order__part="2-1", order__other_place="1", order__other_part="2-0")
    )
    assert "Step 2 of bench 2, in the oven, has ended before step 2 of bench 1 begins." in told
    backwards = words(
        at("order", order__place="1", order__part="2-1", order__other_place="2", order__other_part="2-0")
    )
    assert "Not fixed yet" in backwards
    assert "has it the other way round" in backwards
    itself = words(
        at("order", order__place="1", order__part="2-1", order__other_place="1", order__other_part="2-1")
    )
    assert "That is one and the same part: it cannot end before it begins." in itself
    assert Pin.objects.count() == 1


def test_the_whole_class_is_fixed_and_let_go_at_once(at, cast):
    more_benches(cast, 1)
    second_oven(cast)
    told = words(at("oven", oven__place="all", oven__part="2-1", oven__oven="oven-2"))
    assert "Step 2 of benches 1 and 2, in the oven, bakes in Oven 2." in told
    numbers = ",".join(str(pk) for pk in Pin.objects.values_list("pk", flat=True))
    assert numbers in at().content.decode()
    at("let-go", numbers=numbers)
    assert not Pin.objects.exists()


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("08:30", "08:30 is outside this lesson’s cooking, 09:15 to 11:30."),
        ("11:30", "11:30 is outside this lesson’s cooking, 09:15 to 11:30."),
        ("25:00", "You wrote “25:00”. Write a time from 00:00 to 23:59, such as 13:05."),
        ("soon", "You wrote “soon”. Write a time"),
        ("", "This is empty."),
    ],
)
def test_a_time_that_cannot_be_is_said_at_its_field_and_what_was_typed_is_kept(at, typed, said):
    answer = at("start", start__place="1", start__part="2-1", start__at=typed)
    told = words(answer)
    assert said in told
    assert "Not fixed yet" in told
    assert f'value="{typed}"' in answer.content.decode() or not typed
    assert re.search(r'value="2-1"\s+selected', answer.content.decode())
    assert not Pin.objects.exists()


def test_an_oven_that_does_not_take_the_heat_is_said_at_its_field(at, cast):
    cool = second_oven(cast)
    cool.most_decicelsius = 1000
    cool.save()
    told = words(at("oven", oven__place="1", oven__part="2-1", oven__oven="oven-2"))
    assert "No such oven is in the room now that takes this bake." in told
    assert not Pin.objects.exists()


def test_a_part_without_a_place_is_asked_for(at):
    assert "Nothing is chosen. Choose one." in words(at("start", start__part="1-0", start__at="09:30"))


def test_what_means_nothing_any_more_is_said_and_can_be_let_go(at, cast):
    at("start", start__place="1", start__part="1-0", start__at="09:30")
    cast.dish.ahead_steps = [1]
    cast.dish.ahead_on = cast.lesson.on
    cast.dish.save()
    told = words(at())
    assert "The lesson has no such step at that bench now." in told
    assert "It fits" in told


def test_who_only_reads_sees_no_form(at, client, cast):
    at("start", start__place="1", start__part="1-0", start__at="09:30")
    client.force_login(cast.people["manager"], "django.contrib.auth.backends.ModelBackend")
    answer = at()
    assert "Step 1 of bench 1 begins at 09:30." in words(answer)
    assert "Fix something" not in words(answer)
    assert "Let go" not in words(answer)


def test_a_lesson_without_cooks_says_why_nothing_can_be_fixed(at, cast):
    PlaceLearner.objects.all().delete()
    Place.objects.all().delete()
    cast.group.memberships.all().delete()
    assert "nothing to plan" in words(at())


def test_the_page_asks_the_same_number_of_queries_with_three_and_with_thirty_fixed(
    at, cast, django_assert_max_num_queries
):
    for step in range(1, 4):
        _fixed(cast, step)
    at()
    with django_assert_max_num_queries(60) as three:
        at()
    for step in range(4, 31):
        _fixed(cast, step)
    with django_assert_max_num_queries(60) as thirty:
        at()
    assert len(three) == len(thirty)


def _fixed(cast, step):
    facts = {"kind": "start", "bench": 1, "step": step, "minute": 10, "by": cast.lecturer}
    Pin.objects.create(lesson=cast.lesson, **facts)
