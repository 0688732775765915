"""The demonstration: made once, the same when it is started again, refused where it may not begin."""

import io
import json
from datetime import date

import pytest
from django.core.management import call_command

from assessments.feedback.models import HandedBack
from assessments.marking.models import Sheet
from assessments.marking.sittings import differences
from assessments.schemes.models import Brief
from assessments.verification.agreement.figures import figures
from assessments.verification.agreement.plates import lines
from assessments.verification.agreement.queries import marked_twice, sittings_of
from assessments.verification.models import Sample
from kitchen.lessons.models import Dish, Lesson, PlaceLearner
from kitchen.stores.learning.queries import learning_page
from kitchen.stores.models import KitSet, Lot, Movement, Requisition
from kitchen.timeplan.models import DemonstrationPlan, TimePlan
from kitchen.website.demonstration import people
from tests.builders.demonstration import rows, taken_back


def said(*options):
    """What the command says on its standard output."""
    out = io.StringIO()
    call_command("demo", "--no-serve", *options, stdout=out)
    return out.getvalue()


@pytest.fixture(scope="module")
def first_start(django_db_setup, django_db_blocker):
    """What the first start said; the college it made stands for this file."""
    with taken_back(django_db_blocker):
        yield said("--json")


@pytest.fixture
def answer(first_start, db):
    """What the first start said, read, with the database it left."""
    return json.loads(first_start)


def test_a_second_start_says_the_same_and_adds_no_row(first_start, db):
    before = rows()
    assert said("--json") == first_start
    assert rows() == before


def test_the_two_lessons_are_worked_through_with_what_is_short_named(answer):
    quiche, eclairs = answer["lessons"]
    assert (quiche["title"], quiche["benches"], quiche["kits"]) == ("Leek and Cheddar quiche", 7, 7)
    assert (quiche["shortages"], quiche["marked"]) == ([], 28)
    assert (eclairs["title"], eclairs["benches"], eclairs["kits"]) == ("Coffee éclairs", 5, 5)
    assert eclairs["shortages"] == [{"name": "White fondant icing paste", "milligrams": 600_000}]
    assert eclairs["marked"] == 0


def test_one_figure_of_each_kind_is_proposed_from_the_evenings_that_were_held(answer):
    page = learning_page()
    assert [(line.slug, line.food, line.figure) for line in page.to_decide] == [
        ("over-issue", "soft_wheat_flour", "30 g"),
        ("wastage", "double_cream_48", "7 %"),
        ("usable", "leek", "70.5 %"),
    ]
    assert not Lot.objects.filter(code__startswith="EV-", on_hand_milligrams__gt=0).exists()


def test_both_lessons_have_a_plan_that_fits_and_a_bound_that_nothing_beats(answer):
    for lesson in answer["lessons"]:
        plan = lesson["plan"]
        assert set(plan) == {"status", "finish_minutes", "bound_minutes"}
        assert plan["status"] in ("proved", "found", "by hand")
        assert plan["bound_minutes"] <= plan["finish_minutes"]
    assert answer["lessons"][0]["plan"]["finish_minutes"] <= 135
    assert answer["lessons"][1]["plan"]["finish_minutes"] <= 195


def test_the_first_wish_was_found_not_to_fit_and_the_way_out_was_taken(answer):
    dish = Dish.objects.get(lesson__title="Leek and Cheddar quiche")
    assert (dish.working, dish.ahead_steps, dish.ahead_on) == ("pair", [1, 2], date(2027, 2, 15))
    words = said()
    assert "First wish: 14 benches, one learner each" in words
    in_the_way = next(line for line in words.splitlines() if "161 minutes" in line)
    assert "135 minutes" in in_the_way and "26 minutes" in in_the_way
    assert "Would fit: Do steps 1 and 2 ahead and work in pairs on seven benches." in words


def test_the_class_is_shown_the_stages_of_the_files_and_the_plan_leaves_time_for_them(answer):
    stages = {
        row.lesson.title: [(each["step"], each["way"], each["minutes"]) for each in row.answer["shown"]]
        for row in DemonstrationPlan.objects.select_related("lesson")
    }
    assert stages["Leek and Cheddar quiche"] == [
        (4, "live", 6),
        (5, "stage_tray", 4),
        (6, "live", 3),
        (8, "stage_tray", 3),
    ]
    shows = TimePlan.objects.get(lesson__title="Leek and Cheddar quiche").answer["shows"]
    assert len(shows) == 4


def test_feedback_is_handed_back_to_some_and_the_verifier_has_a_sample(answer):
    assert HandedBack.objects.count() == 10
    sample = Sample.objects.get()
    names = set(sample.items.values_list("sitting__student__user__username", flat=True))
    assert sample.by.username == "ruth"
    assert "cian" in names


def test_the_plates_were_marked_twice_and_only_one_pair_of_sheets_is_still_to_be_talked_over(answer):
    (said_of,) = [each for each in marked_twice() if each.sittings]
    found = [figures(line) for line in lines(data for _, data in sittings_of(said_of.code))]
    assert said_of.sittings == 14 and all(each.enough for each in found)
    assert all(each.alpha > 0.6 for each in found) and any(each.alpha < 0.9 for each in found)
    apart = [data.sheet("first").marker for _, data in sittings_of(said_of.code) if differences(data)]
    assert len(apart) == 1


def test_the_week_after_is_booked_and_not_worked(answer):
    ahead = Lesson.objects.filter(on__gt=date(2027, 2, 17))
    assert ahead.count() == 7
    assert not KitSet.objects.filter(lesson__in=ahead).exists()
    shown = ahead.get(title="Moulded chocolates, shown")
    assert (shown.kind, shown.dishes.get().taught_steps) == ("demonstration", [1, 2, 3, 4, 5])


def test_everybody_finds_something_to_do(answer):
    asked = Requisition.objects.get(state="submitted")
    assert asked.lesson.title == "Asparagus, poached egg and hollandaise"
    assert {brief.lesson.title for brief in Brief.objects.filter(checked_by=None)} == {
        "Quiche, assessed, sitting one"
    }
    waiting = Sheet.objects.filter(submitted_at=None, sitting__brief__lesson__title="Coffee éclairs")
    assert set(waiting.values_list("marker__username", flat=True)) == {"odile", "tobias", "solveig"}
    assert PlaceLearner.objects.filter(student__user__username="wren").count() == 3


def test_every_role_has_a_login_that_opens_an_account(answer):
    assert set(answer["logins"]) == {
        *("lecturer", "stores", "technician", "student"),
        *("second_marker", "verifier", "manager", "external"),
    }
    for login in answer["logins"].values():
        assert people.person(login["username"]).check_password(login["password"])


def test_butter_leaves_the_lot_with_the_earliest_date_first(answer):
    drawn = {}
    for lot, milligrams in Movement.objects.filter(kind="issue").values_list("lot__code", "milligrams"):
        drawn[lot] = drawn.get(lot, 0) - milligrams
    quiche = 8 * 160_000 + 3 * 130_000 + 30_000
    eclairs = 5 * 155_000 + 3 * (110_000 + 5_000) + 155_000
    assert (drawn["LS-2207"], drawn["LS-2219"]) == (1_000_000, quiche - 1_000_000 + eclairs)
    assert drawn["QS-0871"] == 1_500_000
    assert Lot.objects.get(code="LS-2207").on_hand_milligrams == 0


def test_what_is_made_before_for_the_class_to_see_is_weighed_on_trays_of_its_own(answer):
    quiche = KitSet.objects.get(lesson__title="Leek and Cheddar quiche")
    kinds = list(quiche.kits.values_list("kind", flat=True))
    assert (kinds.count("stage_tray"), kinds.count("demonstration"), kinds.count("spare")) == (3, 1, 1)
    assert [tray["made"] for tray in quiche.inputs["shown"]["trays"]] == [
        "as far as step 2",
        "as far as step 5",
        "as far as step 8",
    ]
    assert "3 for stage trays" in said()


def test_the_label_that_held_a_kit_back_was_read_the_day_before(answer):
    lot = Lot.objects.get(code="QS-0844")
    assert (lot.label_read_on, lot.label_read_by.username) == (date(2027, 2, 15), "hana")


def test_the_report_says_in_words_what_was_done_and_where_to_look(answer):
    words = said()
    assert "Leek and Cheddar quiche: Tuesday 16 February 2027, 09:00 to 12:00, Juniper Kitchen" in words
    assert "Short in the stores: White fondant icing paste, 600 g." in words
    assert "Short in the stores: nothing." in words
    assert "http://127.0.0.1:8000/lessons/" in words
    assert f"with the password {people.PASSWORD} as:" in words
