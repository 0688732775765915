"""The weigh-out through the client: one target a weight, warnings with a way on, nothing typed is lost."""

from uuid import uuid4

import pytest
from django.urls import reverse

from curriculum.people.models import College
from curriculum.records.models import HealthRead
from kitchen.lessons.actions import cancel_lesson
from kitchen.stores.models import Kit, Lot, Movement, Weighing
from kitchen.stores.weighout.actions import keep_rule, weigh
from kitchen.stores.weighout.checks import WeighOutRule
from kitchen.stores.weighout.models import AllTheSame, BulkReading, Lid, SecondCheck, WeighedFrom
from kitchen.stores.weighout.queries import weigh_out
from tests.builders.book import a_person
from tests.builders.stores import a_lesson_of, college_lots, kits_made, quiche_stage
from tests.builders.weighout import stop_at, weighed_at, weights_of, whole_kits_lidded

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]
BACKEND = "django.contrib.auth.backends.ModelBackend"


@pytest.fixture
def stage():
    """Two ordinary benches and one without egg; the stores are full."""
    made = quiche_stage(benches=("R01", "R01", "V2"), ahead=())
    college_lots()
    return made


@pytest.fixture
def kit_set(stage):
    return kits_made(stage)


@pytest.fixture
def hana(client, stage):
    client.force_login(stage.stores, BACKEND)
    return client


def address(name, stage, **more):
    return reverse(f"stores:{name}", kwargs={"lesson": stage.lesson.code, **more})


def at(stage, stop):
    return address("weigh_station", stage, stop=stop)


def words_of(answer):
    return " ".join(answer.content.decode().split())


def tap(kit, food):
    return {"key": uuid4(), "kit": kit, "food": food}


def tap_at(hana, stage, kit_set, food, index=0):
    kit, food = weights_of([stop_at(kit_set, food)])[index]
    return hana.post(at(stage, food), tap(kit, food), follow=True)


def test_the_weigh_out_begins_clean_and_says_its_two_rounds(hana, stage, kit_set):
    page = words_of(hana.get(address("weigh", stage)))
    assert "Begin clean" in page and "First round" in page and "Second round" in page
    for thing in ("bench", "scale", "scoops", "hands"):
        hana.post(address("weigh_clean", stage), {"thing": thing})
    assert "Begin clean" not in words_of(hana.get(address("weigh", stage)))
    assert "are clean." in words_of(hana.get(address("weigh_clean", stage)))


def test_a_tap_weighs_and_the_undo_takes_it_back_after_a_reload_too(hana, stage, kit_set):
    assert "1 of 4 weighed here" in words_of(tap_at(hana, stage, kit_set, "nutmeg"))
    page = words_of(hana.get(at(stage, "fine_salt")))
    assert "Nutmeg, grated, Bench 1, 0.3 g weighed." in page and "Take it back" in page
    kit, food = weights_of([stop_at(kit_set, "nutmeg")])[0]
    back = address("take_back", stage, stop="nutmeg")
    page = words_of(hana.post(back, tap(kit, food), follow=True))
    assert "0 of 4 weighed here" in page and Weighing.objects.count() == 2


def test_the_last_weight_of_a_stop_leads_to_the_next_at_once(hana, stage, kit_set):
    for index in range(4):
        answer = tap_at(hana, stage, kit_set, "nutmeg", index)
    assert answer.redirect_chain[-1][0] != at(stage, "nutmeg")


def test_a_second_tablet_is_told_who_weighed_it_and_writes_nothing(hana, stage, kit_set):
    kit, food = weights_of([stop_at(kit_set, "leek")])[0]
    weigh(kit_set=kit_set, weights=[(kit, food)], by=stage.lecturer)
    page = words_of(hana.post(at(stage, "leek"), tap(kit, food), follow=True))
    assert "That was weighed already at" in page and "Put yours back into the pack." in page
    assert Weighing.objects.count() == 1


def test_a_page_that_asks_again_is_answered_only_when_something_was_noted(hana, stage, kit_set):
    page = hana.get(at(stage, "leek")).content.decode()
    seen = page.split("?seen=")[1].split('"')[0]
    again = {"headers": {"HX-Request": "true"}}
    assert hana.get(at(stage, "leek") + f"?seen={seen}", **again).status_code == 204
    weighed_at(kit_set, "leek", stage.lecturer, count=1)
    answer = hana.get(at(stage, "leek") + f"?seen={seen}", **again)
    assert answer.status_code == 200 and "1 of 4 weighed here" in words_of(answer)
    assert "<html" not in answer.content.decode()


def test_flour_is_stopped_with_the_way_to_the_kit_and_a_reason_goes_on(hana, stage, kit_set):
    page = words_of(hana.get(at(stage, "soft_wheat_flour")))
    assert "stays shut for now" in page and "Weigh Bench 3 first" in page and ">Weighed</button>" not in page
    assert "stays shut" in words_of(tap_at(hana, stage, kit_set, "soft_wheat_flour"))
    on = address("weigh_go_on", stage, stop="soft_wheat_flour")
    assert "This is empty." in words_of(hana.post(on, {"reason": ""}))
    page = words_of(hana.post(on, {"reason": "It stands in the other store."}, follow=True))
    assert ">Weighed</button>" in page and "It stands in the other store." in page
    assert AllTheSame.objects.get().by == stage.stores


def test_the_whole_kit_ends_with_its_lid_and_the_lid_comes_off_again(hana, stage, kit_set):
    kit = next(stop for stop in weigh_out(kit_set).order if stop.is_kit)
    weigh(kit_set=kit_set, weights=weights_of([kit]), by=stage.stores)
    assert "Everything of this kit is weighed." in words_of(hana.get(at(stage, kit.code)))
    lid = address("weigh_lid", stage, stop=kit.code)
    hana.post(lid, {"key": uuid4(), "lid": "on"})
    assert "Weighed and lidded" in words_of(hana.get(at(stage, kit.code)))
    hana.post(lid, {"key": uuid4(), "lid": "off"})
    assert [row.is_on for row in Lid.objects.order_by("number")] == [True, False]
    assert hana.post(address("weigh_lid", stage, stop="leek"), {"lid": "on"}).status_code == 404


def test_a_second_person_is_chosen_and_what_was_ticked_is_kept_when_it_is_refused(hana, stage, kit_set):
    salt = weighed_at(kit_set, "fine_salt", stage.stores)
    weights = [f"{item.kit}:{item.food}" for item in salt.items]
    here = address("weigh_initial", stage, stop="fine_salt")
    refused = hana.post(here, {"key": uuid4(), "second": stage.stores.username, "weights": weights[:1]})
    page = words_of(refused)
    assert "Somebody else looks at it" in page and page.count("checked") == 1
    hana.post(here, {"key": uuid4(), "second": stage.lecturer.username, "weights": weights})
    assert SecondCheck.objects.filter(second_by=stage.lecturer).count() == 4


def test_a_check_weight_that_cannot_be_read_is_said_at_its_field_and_kept(hana, stage, kit_set):
    keep_rule(rule=WeighOutRule("check_weight"), by=stage.stores)
    item = weighed_at(kit_set, "fine_salt", stage.stores).items[0]
    here = address("weigh_check", stage, stop="fine_salt")
    said = {"key": uuid4(), "weight": f"{item.kit}:{item.food}"}
    page = words_of(hana.post(here, said | {"shown": "about seven"}))
    assert "about seven" in page and not SecondCheck.objects.exists()
    page = words_of(hana.post(here, said | {"shown": "9"}, follow=True))
    assert "that is not the weight" in page and "9 g on the second scale instead of 7 g" in page
    hana.post(here, said | {"key": uuid4(), "shown": "7.2"})
    assert SecondCheck.objects.filter(passed=True).count() == 1


def test_a_pack_that_is_a_bench_short_says_so_and_bad_input_is_kept(hana, stage, kit_set):
    whole_kits_lidded(kit_set, stage.stores)
    flour = weighed_at(kit_set, "soft_wheat_flour", stage.stores)
    page = hana.get(at(stage, "soft_wheat_flour"))
    tally = page.context["tally"].tally.lots[0]
    here = address("weigh_bulk", stage, stop="soft_wheat_flour")
    said = {"key": uuid4(), "lot": tally.lot}
    assert "half a sack" in words_of(hana.post(here, said | {"left": "half a sack"}))
    left = (tally.remains - flour.items[0].milligrams) // 1000
    page = words_of(hana.post(here, said | {"left": str(left)}, follow=True))
    assert "That is as much as one weight. Was a bench weighed twice?" in page
    assert BulkReading.objects.get().expected_milligrams == tally.remains


def test_kits_leave_from_the_page_with_the_reason_written_beside_what_is_open(hana, stage, kit_set):
    whole_kits_lidded(kit_set, stage.stores)
    weighed_at(kit_set, "fine_salt", stage.stores)
    assert "Open at the scale" in words_of(hana.get(address("issue", stage)))
    page = words_of(hana.post(address("issue", stage), {"key": uuid4(), "unchecked_why": ""}))
    assert "Nothing has left the stores." in page and not Movement.objects.filter(kind="issue").exists()
    hana.post(address("issue", stage), {"key": uuid4(), "unchecked_why": "Alone today."})
    assert Movement.objects.filter(kind="issue").exists()


def test_a_cancelled_lesson_says_what_is_taken_apart_and_a_tap_says_it_is_done(hana, stage, kit_set):
    weighed_at(kit_set, "leek", stage.stores)
    cancel_lesson(lesson=stage.lesson, why="Burst pipe", by=stage.lecturer)
    assert "weighed trays apart" in words_of(hana.get(address("weigh", stage)))
    assert "Weighed trays that nobody wants" in words_of(hana.get(address("kits", stage)))
    here = address("old_trays", stage)
    assert "Take apart: Bench 1" in words_of(hana.get(here))
    for kit in Kit.objects.filter(kit_set=kit_set):
        page = words_of(hana.post(here, {"key": uuid4(), "kit": kit.code}, follow=True))
    assert "No such tray stands here" in page


def test_trays_made_again_just_the_same_stay_by_one_tap(hana, stage, kit_set):
    from_before = weights_of(list(weigh_out(kit_set).order))
    whole_kits_lidded(kit_set, stage.stores)
    weigh(kit_set=kit_set, weights=from_before, by=stage.stores)
    kits_made(stage)
    here = address("old_trays", stage)
    page = hana.get(here)
    tray = page.context["page"].kept[0]
    said = {"key": uuid4(), "kit": tray.kit, "same_as": tray.same_as}
    assert "The tray stands for the new kit." in words_of(hana.post(here, said, follow=True))
    assert hana.post(here, {"key": uuid4(), "kit": tray.same_as}).status_code == 404


def test_a_kit_or_a_food_of_another_lesson_is_not_there(hana, stage, kit_set):
    other = a_lesson_of(stage.versions, "R03", ("R03",), portions=12)
    foreign = kits_made(other).kits.first()
    assert hana.post(at(stage, "fine_salt"), tap(foreign.code, "fine_salt")).status_code == 404
    assert hana.get(at(stage, "gold_leaf")).status_code == 404


def test_who_reads_who_works_a_variant_is_noted_once_a_day_and_not_by_asking_again(hana, stage, kit_set):
    for _ in range(2):
        hana.get(at(stage, "leek"))
        hana.get(at(stage, "leek"), headers={"HX-Request": "true"})
    assert HealthRead.objects.filter(reader=stage.stores, page="weigh-out").count() == 2


def test_the_college_writes_its_own_rule_and_bad_figures_are_kept(hana, stage):
    here = reverse("stores:weigh_rule")
    said = {"way": "sampled", "every": "4", "groups": ["salt"], "check_per_mille": "3"}
    said |= {"bulk_per_mille": "0.5", "cold_minutes": "a while"}
    assert "a while" in words_of(hana.post(here, said)) and not College.objects.get().settings.get(
        "weigh_out"
    )
    hana.post(here, said | {"cold_minutes": "20"})
    kept = College.objects.get().settings["weigh_out"]
    assert (kept["way"], kept["every"], kept["bulk_per_mille"], kept["cold_minutes"]) == ("sampled", 4, 5, 20)


def test_who_does_not_keep_the_rule_reads_it(client, stage):
    client.force_login(a_person("desmond", "technician"), BACKEND)
    page = words_of(client.get(reverse("stores:weigh_rule")))
    assert "A second person’s initials" in page and "Keep it so" not in page


def test_food_that_may_not_leave_is_told_on_the_issue_page_before_its_button(hana, stage, kit_set):
    kit, food = weights_of([stop_at(kit_set, "nutmeg")])[0]
    hana.post(at(stage, food), tap(kit, food))
    Lot.objects.filter(food__code="nutmeg").update(held=True, held_why="Smells.")
    page = words_of(hana.get(address("issue", stage)))
    assert "Weighed from a lot that may not leave" in page and "Take it back and weigh it again." in page


def test_what_no_lot_covers_is_counted_in_before_it_is_weighed(hana, stage, kit_set):
    kit, food = weights_of([stop_at(kit_set, "nutmeg")])[0]
    lots = Lot.objects.filter(food__code="nutmeg")
    lots.update(held=True, held_why="Smells.")
    page = words_of(hana.get(at(stage, food)))
    assert "short of" in page and "?food=nutmeg" in page
    refused = words_of(hana.post(at(stage, food), tap(kit, food), follow=True))
    assert "too little" in refused and "count it in with its lot first" in refused
    assert not Weighing.objects.filter(kit_line__kit__code=kit, kit_line__food__code=food).exists()
    lots.update(held=False, held_why="")
    hana.post(at(stage, food), tap(kit, food))
    assert WeighedFrom.objects.filter(weighing__kit_line__kit__code=kit, lot__in=lots).exists()


def test_a_pack_counted_to_nothing_under_a_weighed_tray_is_said_on_the_tray(hana, stage, kit_set):
    kit, food = weights_of([stop_at(kit_set, "nutmeg")])[0]
    hana.post(at(stage, food), tap(kit, food))
    Lot.objects.filter(food__code="nutmeg").update(on_hand_milligrams=0)
    done = words_of(hana.get(at(stage, food)))
    assert "The book holds less than was weighed." in done[done.index("<h2>Weighed</h2>") :]
