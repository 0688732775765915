"""What the files of the demonstration college say reaches the topics' actions unchanged."""

from datetime import date, time

from kitchen.stores.barcodes import read
from kitchen.website.demonstration import entries
from tests.builders.recipes import college_food, fixture


def test_a_food_is_the_same_for_the_table_and_for_a_calculation():
    for entry in entries.foods_in(fixture("foods.json")):
        food = college_food(entry.code)
        for name in (
            "name",
            "storage",
            "contains",
            "may_contain",
            "facts",
            "label_read_on",
            "piece_milligrams",
            "dough_part",
            "milligrams_per_ml",
        ):
            assert getattr(entry, name) == getattr(food, name)
        assert (entry.made_from is None) == (food.made_from is None)


def test_a_figure_carries_the_title_of_its_source():
    leek = next(each for each in entries.foods_in(fixture("foods.json")) if each.code == "leek")
    assert leek.usable_per_mille == 750
    assert leek.usable_source and leek.usable_source != "house"


def test_a_figure_of_a_table_carries_the_row_it_is_from():
    foods = {each.code: each for each in entries.foods_in(fixture("foods.json"))}
    garlic = foods["garlic"]
    assert garlic.usable_source.endswith("SR28 (2015), refuse, NDB 11215, refuse 13 %")
    (clove,) = (piece for piece in garlic.piece_weights if piece[0] == "clove")
    assert clove[1] == 3000 and clove[2].endswith("NDB 11215, 1 clove = 3 g")
    shares = [share for share, _ in foods["carrot"].yield_figures]
    assert shares == [890, 820] and foods["carrot"].usable_per_mille == 890
    longest = max(
        (source for food in foods.values() for _, _, source in food.piece_weights),
        key=len,
    )
    assert len(longest) <= 200


def test_both_decks_of_an_oven_are_settings_of_their_own_in_one_body():
    saffron = next(each for each in entries.rooms_in(fixture("rooms.json")) if each.code == "saffron")
    ovens = [each for each in saffron.appliances if each.kind == "oven"]
    assert len(ovens) == 12 and sum(each.units for each in ovens) == 24
    assert len({each.body for each in ovens}) == 6
    assert ovens[0].name == "Oven 1, upper deck"
    assert (ovens[0].heat_seconds_per_10, ovens[0].cool_seconds_per_10) == (60, 120)


def test_juniper_has_twelve_benches_forty_eight_rings_and_fourteen_ovens():
    juniper = next(each for each in entries.rooms_in(fixture("rooms.json")) if each.code == "juniper")
    assert len(juniper.benches) == 12
    assert sum(each.units for each in juniper.appliances if each.kind == "hob") == 48
    ovens = [each for each in juniper.appliances if each.kind == "oven"]
    assert len(ovens) == 14 and sum(each.units for each in ovens) == 36
    assert ovens[-1].heat_seconds_per_10 == 48


def test_suppliers_deliver_on_numbered_weekdays_and_close_at_a_time():
    dairy = entries.suppliers_in(fixture("stores.json"))[0]
    assert (dairy.delivery_weekdays, dairy.cut_off, dairy.least_order_pence) == ((1, 3, 5), time(12), 4000)


def test_packs_are_numbered_in_their_order_with_a_check_digit_that_holds():
    packs = entries.packs_in(fixture("stores.json"), date(2027, 1, 4), "952")
    numbers = [pack.gtin for pack in packs]
    assert len(set(numbers)) == len(packs) and all(len(number) == 14 for number in numbers)
    # GS1 keeps prefix 952 for demonstrations and examples (from memory).
    assert {number[:4] for number in numbers} == {"0952"}
    assert all(read(number, 2027).gtin == number for number in numbers)
    assert {pack.gtin for pack in entries.packs_in(fixture("stores.json"), date(2027, 1, 4))} == {""}


def test_a_pack_of_eggs_keeps_its_pieces_and_its_weight():
    packs = entries.packs_in(fixture("stores.json"), date(2027, 1, 4))
    eggs = [each for each in packs if each.food == "egg_in_shell"]
    assert eggs and all(each.milligrams == each.pieces * 57_000 for each in eggs)


def test_learners_bring_what_was_agreed_with_them():
    learners = {each.username: each for each in entries.learners_in(fixture("college.json"))}
    nia = [(each.kind, each.percent) for each in learners["nia"].adjustments]
    assert nia == [("extra_time", 25), ("large_print", None)]
    assert learners["ewan"].left_handed and learners["ewan"].guardian_consent
    assert not learners["jonas"].photograph_allowed
    assert learners["tamsin"].adjustments[0].kind == "taster"


def test_a_planned_lesson_keeps_what_it_was_planned_from():
    course = entries.courses_in(fixture("courses.json"))[0]
    quiche = next(each for each in course.planned if each.week == 7)
    assert (quiche.on, quiche.dish) == (date(2027, 2, 16), "R01")
    assert quiche.inputs == {"shape": 1, "arrangement": "pairs", "ahead_steps": [1, 2]}
