"""The demonstration college is written down whole, through actions, in one transaction."""

from datetime import date

import pytest

from curriculum.courses.actions import add_term
from curriculum.courses.models import Holiday
from curriculum.foods.models import Avoidance, Food, Pack
from curriculum.people.models import College, Membership, RoleGrant, User
from curriculum.techniques.models import Fault, Technique
from kitchen.rooms.models import Appliance, Room
from kitchen.website.demonstration import college, files, people
from tests.builders.demonstration import taken_back

pytestmark = pytest.mark.django_db


@pytest.fixture(scope="module")
def made(django_db_setup, django_db_blocker):
    """The college as it stands before the first lesson, for this file."""
    with taken_back(django_db_blocker):
        college.write_college(date(2027, 2, 17))
        yield


@pytest.fixture
def written(made, db):
    """The college as it was written."""


def test_everybody_and_everything_of_the_files_stands(written):
    assert College.objects.get().is_demonstration
    assert User.objects.count() == 55
    assert (Technique.objects.count(), Fault.objects.count()) == (81, 195)
    assert (Food.objects.count(), Pack.objects.count()) == (338, 407)
    assert (Room.objects.count(), Appliance.objects.filter(kind="oven").count()) == (6, 27)
    assert dict.fromkeys(Membership.objects.values_list("group__code", flat=True)).keys() == {
        "PC2-A",
        "PT3",
        "EV1",
        "KC3",
    }


def test_every_role_is_held_by_somebody(written):
    held = set(RoleGrant.objects.values_list("role", flat=True))
    assert held == {
        *("lecturer", "stores", "technician", "student"),
        *("second_marker", "verifier", "manager", "external"),
    }


def test_everybody_signs_in_with_the_password_of_the_demonstration(written):
    passwords = set(User.objects.values_list("password", flat=True))
    assert len(passwords) == 1
    assert people.person("marek").check_password(people.PASSWORD)


def test_an_emergency_note_stands_with_the_allergy_and_not_with_a_choice(written):
    notes = dict(Avoidance.objects.values_list("student__user__username", "note"))
    assert notes["otto"].startswith("Coeliac")
    assert notes["farah"] == ""


def test_the_college_remembers_the_files_it_was_made_from(written):
    assert College.objects.get().settings["fixtures"] == files.fingerprint()


def test_writing_it_twice_changes_nothing(written):
    with pytest.raises(Exception, match="(?i)college|unique"):
        college.write_college(date(2027, 2, 17))
    assert (User.objects.count(), Food.objects.count()) == (55, 338)


def test_nothing_is_left_of_a_college_that_could_not_be_written_whole(written, monkeypatch):
    def fail(**_):
        raise RuntimeError("The disc is full.")

    before = Holiday.objects.count()
    monkeypatch.setattr(college, "add_term", lambda **said: (add_term(**said), fail()))
    with pytest.raises(RuntimeError):
        college.write_courses()
    assert Holiday.objects.count() == before == 0
