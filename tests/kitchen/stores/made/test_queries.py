"""Which kits take from a bowl, which bowls a lot went into, in a fixed number of queries."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from curriculum.foods.models import Food
from kitchen.stores.actions import issue_kits
from kitchen.stores.made import queries
from kitchen.stores.made.actions import give_from_made
from kitchen.stores.models import KitLine, Lot
from tests.builders.bowls import a_bowl
from tests.builders.stores import a_lesson_of, college_lots, kits_made, quiche_stage, the_book

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


def counted(read, *given):
    with CaptureQueriesContext(
        connection,
    ) as seen:
        read(*given)
    return len(seen)


@pytest.fixture
def stage():
    """Two benches with egg and one without; kits accepted, one bowl made."""
    made = quiche_stage(benches=("R01", "R01", "V2"))
    college_lots()
    kits_made(made)
    return made


def test_kits_free_from_something_and_those_that_separate_eggs_keep_their_own(stage):
    beaten, yolk = Food.objects.get(code="egg_beaten"), Food.objects.get(code="egg_yolk")
    takers = queries.takers(stage.lesson, beaten)
    assert [each.words for each in takers][:2] == [
        "Bench 1, Leek and Cheddar quiche: 215 g instead of 5 pieces",
        "Bench 2, Leek and Cheddar quiche: 215 g instead of 5 pieces",
    ]
    assert all(each.line.kit.version.recipe.code == "R01" for each in takers)
    assert queries.takers(stage.lesson, yolk) == []
    choux = a_lesson_of(the_book(), "R03", ("R03", "R03"), portions=12)
    kits_made(choux)
    assert KitLine.objects.filter(kit__kit_set__lesson=choux.lesson, food=beaten.made_from).exists()
    assert queries.takers(choux.lesson, beaten) == []


def test_what_waits_is_added_before_it_is_rounded(stage):
    row = next(each for each in queries.makeable(stage.lesson) if each.food.code == "egg_beaten")
    assert row.exact_milligrams == row.kits * 215_000
    assert row.pieces == -(-row.kits * 215 // 50)


def test_lots_are_proposed_earliest_date_first_and_unread_ones_left_out(stage):
    beaten = queries.foods_to_make(stage.lesson).get(code="egg_beaten")
    first = queries.lot_choices(beaten, 9)
    assert [(each.code, bool(each.proposed)) for each in first] == [("MP-0710", True), ("MP-0741", False)]
    Lot.objects.filter(code="MP-0710").update(label_read_on=None)
    assert [each.code for each in queries.lot_choices(beaten, 9)] == ["MP-0741"]


def test_a_supplier_s_lot_leads_to_its_bowls_and_their_kits_and_back(stage):
    bowl = a_bowl(stage, {"MP-0710": 6, "MP-0741": 3})
    other = a_bowl(stage, {"MP-0741": 2})
    first, second = (Lot.objects.get(code=code) for code in ("MP-0710", "MP-0741"))
    assert queries.made_lots_with([first]) == [bowl]
    assert set(queries.made_lots_with([second])) == {bowl, other}
    assert queries.made_lots_with([bowl]) == []
    assert [(each.lot, each.amount) for each in queries.parts_of(bowl)] == [
        ("MP-0710", "6 pieces"),
        ("MP-0741", "3 pieces"),
    ]
    line = queries.takers(stage.lesson, bowl.food)[0].line
    give_from_made(lot=bowl, lines=[line.pk], by=stage.stores)
    assert queries.kits_with([bowl, other]) == []
    issue_kits(lesson=stage.lesson, by=stage.stores, short_accepted=True)
    assert [kit.pk for kit in queries.kits_with([bowl, other])] == [line.kit_id]


def test_pages_take_as_many_queries_with_three_bowls_as_with_thirty(stage):
    for _ in range(3):
        a_bowl(stage, {"MP-0710": 1, "MP-0741": 1})
    eggs = list(Lot.objects.filter(food__code="egg_in_shell"))
    beaten = queries.foods_to_make(stage.lesson).get(code="egg_beaten")
    pages = [
        (queries.made_lots, stage.lesson),
        (queries.makeable, stage.lesson),
        (queries.lot_choices, beaten, 9),
        (queries.made_lots_with, eggs),
    ]
    few = [counted(*page) for page in pages]
    for _ in range(27):
        a_bowl(stage, {"MP-0710": 1, "MP-0741": 1})
    assert [counted(*page) for page in pages] == few
    assert max(few) <= 9


def test_kits_that_take_are_read_in_as_many_queries_with_three_benches_as_with_twelve():
    stages = [quiche_stage(benches=("R01",) * 3)]
    college_lots()
    kits_made(stages[0])
    beaten = queries.foods_to_make(stages[0].lesson).get(code="egg_beaten")
    few = counted(queries.takers, stages[0].lesson, beaten)
    stages[0].lesson.spare_batches = 10
    stages[0].lesson.save()
    kits_made(stages[0])
    assert len(queries.takers(stages[0].lesson, beaten)) > 10
    assert counted(queries.takers, stages[0].lesson, beaten) == few == 3


def test_the_label_says_what_when_and_out_of_which_lots(stage):
    bowl = a_bowl(stage)
    label = queries.label_of(bowl)
    assert (label.what, label.amount, label.by) == ("Hen egg, beaten whole", "450 g", "Hana")
    assert (label.contains, label.parts) == (("egg",), (("MP-0710", "9 pieces"),))
