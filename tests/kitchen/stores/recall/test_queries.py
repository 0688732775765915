"""From a lot to plates, through a bowl, and back to its supplier; nothing of the ledger is lost."""

import pytest

from kitchen.stores.actions import issue_kits
from kitchen.stores.made.actions import give_from_made
from kitchen.stores.made.queries import takers
from kitchen.stores.models import Lot, Movement
from kitchen.stores.recall.queries import (
    Asked,
    lots_asked,
    moves_of,
    place_named,
    places_in,
    plate_of,
    recall_of,
    with_made,
    with_parts,
)
from tests.builders.book import a_person
from tests.builders.bowls import a_bowl
from tests.builders.stores import a_lot, college_lots, kits_made, quiche_stage

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


@pytest.fixture
def stage():
    """Two quiche benches, a bowl of egg given to both, everything issued."""
    made = quiche_stage(benches=("R01", "R01"))
    college_lots()
    kits_made(made)
    bowl = a_bowl(made, {"MP-0710": 18})
    lines = [each.line.pk for each in takers(made.lesson, bowl.food)]
    give_from_made(lot=bowl, lines=lines, by=made.stores)
    issue_kits(lesson=made.lesson, by=made.stores)
    return made


def eggs():
    return Lot.objects.get(code="MP-0710")


def test_eggs_lead_through_their_bowl_to_every_bench_and_learner(stage):
    page = recall_of([eggs()])
    bowl = Lot.objects.get(made_in=stage.lesson)
    assert {row.code for row in page.lots} == {"MP-0710", bowl.code}
    (lesson,) = page.lessons
    assert [bench.bench for bench in lesson.benches] == ["Bench 1", "Bench 2"]
    assert page.learners == 4 and lesson.became == "eaten in the college"
    assert any(f"of lot {bowl.code}" in words for words in lesson.benches[0].had)
    (made,) = [row for row in page.lots if row.code == bowl.code]
    assert made.out_of == ("MP-0710",)


def broken_round_trips(lots, forward, back):
    """Lot and bench where the bench that a lot leads to does not lead back to that lot, or the other way."""
    benches = {bench.place for lot in lots for row in forward([lot]).lessons for bench in row.benches}
    places = {
        place.code: place for place in places_in(Movement.objects.values("kit_line__kit__kit_set__lesson"))
    }
    to = {(lot.code, bench.place) for lot in lots for row in forward([lot]).lessons for bench in row.benches}
    from_plate = {(row.code, place) for place in benches for row in back(places[place]).lots}
    return to ^ from_plate


def test_forward_then_backward_gives_the_start(stage):
    assert broken_round_trips(list(Lot.objects.all()), recall_of, plate_of) == set()


def test_a_way_that_forgets_bowls_is_caught(stage):
    class Cut:
        def __init__(self, page):
            self.lessons = page.lessons if page.codes != ("MP-0710",) else ()

    assert broken_round_trips(list(Lot.objects.all()), lambda lots: Cut(recall_of(lots)), plate_of)


def test_every_movement_of_every_lot_is_accounted_for(stage):
    pages = recall_of(list(Lot.objects.all()))
    assert len(pages.lots) > 10 and all(row.faults == () for row in pages.lots)


def test_a_lot_whose_book_says_too_much_is_named(stage):
    Lot.objects.filter(code="MP-0710").update(on_hand_milligrams=10**9)
    (row,) = [row for row in recall_of([eggs()]).lots if row.code == "MP-0710"]
    assert "not accounted for" in row.faults[0]


def test_a_lecturer_sees_their_own_lessons_only(stage):
    assert recall_of([eggs()], stage.lecturer).lessons
    page = recall_of([eggs()], a_person("odile"))
    assert page.lessons == () and not page.whole


def test_the_way_down_and_up_is_closed(stage):
    bowl = Lot.objects.get(made_in=stage.lesson)
    assert with_made([eggs().pk]) == {eggs().pk, bowl.pk} == with_parts([bowl.pk])
    assert set(moves_of([bowl.pk])) == {bowl.pk}


def test_a_lot_is_found_by_our_code_and_a_batch_by_its_text(stage):
    Lot.objects.filter(code="MP-0710").update(batch="B/77 a")
    assert [lot.code for lot in lots_asked(Asked(text="mp-0710"))] == ["MP-0710"]
    assert [lot.code for lot in lots_asked(Asked(text="b/77 A"))] == ["MP-0710"]
    assert lots_asked(Asked(text="nothing of it")) == [] == lots_asked(Asked())


def test_a_kit_and_a_bench_lead_to_the_plate(stage):
    place = places_in([stage.lesson.pk])[0]
    assert place_named(place.code) == place.code == place_named(place.kits.first().code.lower())
    assert place_named("") == "" == place_named("MP-0710")


@pytest.mark.parametrize("benches", [3, 30])
def test_the_number_of_queries_does_not_grow(django_assert_num_queries, benches):
    made = quiche_stage(benches=("R01",) * benches)
    college_lots()
    kits_made(made)
    issue_kits(lesson=made.lesson, by=made.stores, short_accepted=True)
    lots = list(Lot.objects.filter(movements__kind="issue").distinct())
    with django_assert_num_queries(12):
        recall_of(lots)
    place = places_in([made.lesson.pk])[0]
    with django_assert_num_queries(13):
        plate_of(place)


def test_eggs_are_recalled_in_pieces_as_the_stores_count_them():
    lot = a_lot("egg_in_shell", "E-1", 570)
    (row,) = recall_of([lot]).lots
    assert "piece" in row.received and row.received == row.left and row.issued == "0 pieces"
