"""What the pages of a weigh-out say comes next, and what stands open before kits leave."""

from datetime import date

from kitchen.stores.weighout.checks import WeighOutRule
from kitchen.stores.weighout.moments import Moment
from kitchen.stores.weighout.order import Facts, Looked, without_lid
from kitchen.stores.weighout.page import (
    CLEAN_START,
    WeighOut,
    clean_ticks,
    gate_words,
    last_tap,
    second_round_words,
)
from tests.builders.recipes import college_foods
from tests.kitchen.stores.weighout.test_order import WHOLE, everything, order, trays


def a_page(weighed=(), lids=(), **changes):
    facts = Facts(lids=dict.fromkeys(lids, "10:55, HB"))
    made = {"trays": tuple(trays(weighed)), "order": order(weighed, facts), "foods": college_foods()}
    waiting = without_lid(trays(weighed), facts.lids)
    return WeighOut(**made, clean=clean_ticks({}), waiting=waiting, **changes)


def test_a_start_is_clean_when_all_four_are_ticked():
    three = {thing: "08:00, HB" for thing, _ in CLEAN_START[:3]}
    assert len(CLEAN_START) == 4 and not all(tick.done for tick in clean_ticks(three))
    assert WeighOut((), (), {}, clean_ticks({thing: "08:00, HB" for thing, _ in CLEAN_START})).is_clean


def test_the_second_round_is_what_is_cold_and_may_be_left_when_the_first_is_done():
    page = a_page(lids=WHOLE)
    assert {stop.code for stop in page.second_round} >= {"leek", "unsalted_butter"}
    assert page.first_round[0].is_kit and not page.first_round_done
    dry = {stop.code for stop in page.first_round} | everything() - {s.code for s in page.second_round}
    assert a_page(dry | everything(), lids=WHOLE).first_round_done


def test_flour_is_in_the_way_of_waiting_kits_until_somebody_goes_on():
    flour = a_page().stop("soft_wheat_flour")
    assert len(a_page().in_the_way(flour)) == 4
    assert a_page(lids=WHOLE).in_the_way(flour) == ()
    assert a_page(went_on="No free-from kit is near").in_the_way(flour) == ()
    assert a_page().in_the_way(a_page().stop("fine_salt")) == ()
    assert a_page().in_the_way(a_page().order[0]) == ()


def test_the_last_tap_is_found_with_its_stop_and_only_while_it_stands():
    assert last_tap(order({"leek"}), ("KIT1", "leek")).stop == "leek"
    assert last_tap(order(), ("KIT1", "leek")) is None and last_tap(order(), None) is None


def test_the_second_round_says_the_day_and_the_first_time():
    on = date(2027, 2, 16)
    needed = {("KIT1", "unsalted_butter"): Moment(560), ("KIT1", "leek"): Moment(620)}
    found = [stop for stop in order(facts=Facts(moments=needed)) if stop.late]
    assert "not before 08:40 on Tuesday 16 February" in second_round_words(found, on)
    assert "weigh it on Tuesday" in second_round_words([s for s in order() if s.late], on)


def test_nothing_stands_open_where_nothing_was_weighed_here():
    assert gate_words(order(), ["KIT1"], without_lid(trays(), {})) == []


def test_lids_and_second_looks_that_are_missing_stand_open_for_the_kits_that_leave():
    waiting = without_lid(trays(), {})
    said = gate_words(order({"fine_salt"}), ["KIT1", "KIT6"], waiting)
    assert said[0] == "Bench 6 (FREE FROM GLUTEN) is not weighed whole and lidded yet."
    assert any(words.startswith("Fine salt: bench 1 not looked at") for words in said)
    assert not any("bench 2" in words for words in said)


def test_a_weight_that_is_not_written_and_wants_a_second_look_stands_open_too():
    said = gate_words(order({"leek"}), ["KIT1"], ())
    assert said == ["Fine salt: bench 1 not looked at by a second person or scale."]


def test_nothing_stands_open_when_all_was_looked_at():
    looked = {(f"KIT{label}", "fine_salt"): Looked("10:52, DF") for label in "12345DS"}
    facts = Facts(rule=WeighOutRule(), looked=looked)
    assert gate_words(order({"fine_salt"}, facts), ["KIT1", "KIT2"], ()) == []
