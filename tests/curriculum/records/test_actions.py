"""What was asked twice is done once."""

import uuid

import pytest

from curriculum.errors import RuleBroken
from curriculum.people.models import College, User
from curriculum.records.actions import draw_code, once, own_key
from curriculum.records.models import Receipt
from kitchen.lessons.models import Lesson

pytestmark = pytest.mark.django_db


@pytest.fixture
def person():
    College.objects.create(name="Harrowmere", short_name="Harrowmere")
    return User.objects.create_user("odile", "Odile Farthingbrook")


def test_a_second_request_with_the_same_key_gets_the_first_answer(person):
    done = []
    key = uuid.uuid4()
    for _ in range(2):
        answer = once(
            key=key,
            action="count",
            by=person,
            said={"n": 1},
            do=lambda: done.append(1) or {"made": len(done)},
        )
    assert answer == {"made": 1}
    assert done == [1]


def test_one_key_cannot_stand_for_two_requests(person):
    key = uuid.uuid4()
    once(key=key, action="count", by=person, said={"n": 1}, do=lambda: {})
    with pytest.raises(RuleBroken) as caught:
        once(key=key, action="count", by=person, said={"n": 2}, do=lambda: {})
    assert caught.value.code == "key_used_for_something_else"


def test_a_refused_deed_leaves_no_receipt(person):
    def refuse():
        raise RuleBroken("no", "No.")

    with pytest.raises(RuleBroken):
        once(key=uuid.uuid4(), action="count", by=person, said={}, do=refuse)
    assert not Receipt.objects.exists()


def test_a_code_has_eight_characters_that_nobody_misreads():
    code = draw_code(Lesson)
    assert len(code) == 8
    assert not set(code) & set("01OILU")


def test_each_row_of_a_request_has_a_key_of_its_own_and_the_same_again():
    key = uuid.uuid4()
    assert own_key(key, 7, "LOT") == own_key(key, 7, "LOT")
    assert len({own_key(key, 7, "LOT"), own_key(key, 8, "LOT"), own_key(uuid.uuid4(), 7, "LOT"), key}) == 4
    assert own_key(None, 7) != own_key(None, 7)
