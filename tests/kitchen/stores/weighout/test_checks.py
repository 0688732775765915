"""Which weights are looked at twice, how, and when a check passes. Common practice and our own figures."""

from dataclasses import replace

import pytest

from kitchen.stores.weighout.checks import (
    GROUPS_TO_CHECK,
    WeighOutRule,
    check_tolerance,
    group_of,
    kept_rule,
    passes,
    read_rule,
    rule_words,
    sampled,
    way_for,
)
from tests.builders.recipes import college_food

KITS = [f"KIT{number}" for number in range(9)]


@pytest.mark.parametrize(
    ("food", "group"),
    [
        ("fine_salt", "salt"),
        ("caster_sugar", "sugar"),
        ("leaf_gelatine_gold", "gelling"),
        ("fresh_yeast", "leavening"),
        ("flaked_almonds", "nuts"),
        ("unsalted_butter", ""),
        ("soft_wheat_flour", ""),
    ],
)
def test_raising_agents_salt_sugar_gelatine_and_nuts_are_looked_at_and_butter_is_not(food, group):
    assert group_of(college_food(food)) == group


def test_peanuts_count_with_the_nuts():
    assert group_of(replace(college_food("flaked_almonds"), contains=("peanuts",))) == "nuts"


def test_a_college_that_has_said_nothing_wants_initials_of_every_group():
    assert read_rule(None) == WeighOutRule() and WeighOutRule().way == "initials"
    assert WeighOutRule().groups == {code for code, _ in GROUPS_TO_CHECK}


def test_a_rule_is_read_as_it_was_kept_and_keeps_what_an_older_one_did_not_say():
    rule = WeighOutRule("sampled", 4, frozenset(("salt",)), 30, 5, 20)
    assert read_rule(kept_rule(rule)) == rule
    assert read_rule({"way": "check_weight"}) == WeighOutRule("check_weight")
    assert rule_words(rule)["groups"] == ["Salt"]


def test_each_way_asks_for_its_own_check_and_an_unlisted_group_for_none():
    salt = college_food("fine_salt")
    assert way_for(WeighOutRule(), salt, "KIT1", ()) == "initials"
    assert way_for(WeighOutRule("check_weight"), salt, "KIT1", ()) == "check_weight"
    assert way_for(WeighOutRule("sampled"), salt, "KIT1", {"KIT1"}) == "check_weight"
    assert way_for(WeighOutRule("sampled"), salt, "KIT2", {"KIT1"}) == ""
    assert way_for(WeighOutRule(groups=frozenset()), salt, "KIT1", ()) == ""


def test_every_so_many_kits_are_drawn_by_the_seed_and_each_kit_can_be():
    drawn = {sampled(KITS, f"seed {number}", 4) for number in range(60)}
    assert drawn == {frozenset(KITS[first::4]) for first in range(4)}
    assert sampled(KITS, "a", 4) == sampled(KITS, "a", 4)


def test_fewer_kits_than_the_step_still_have_one_drawn():
    assert all(len(sampled(KITS[:3], f"seed {number}", 30)) == 1 for number in range(20))
    assert sampled([], "a", 5) == frozenset()


def test_a_check_weight_passes_within_a_step_of_the_scale_or_the_share_whichever_is_more():
    rule = WeighOutRule(check_per_mille=20)
    small, large = check_tolerance(rule, 30_000, 1000), check_tolerance(rule, 500_000, 1000)
    assert (small, large) == (1000, 10_000)
    assert passes(31_000, 30_000, small) and passes(29_000, 30_000, small)
    assert not passes(31_100, 30_000, small)
