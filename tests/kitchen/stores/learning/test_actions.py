"""A person decides about a figure, and what is reckoned by it from then on."""

from uuid import uuid4

import pytest

from curriculum.errors import RuleBroken
from curriculum.foods.models import Food, YieldTest
from curriculum.techniques.models import Technique
from kitchen.stores.actions import accept_kits
from kitchen.stores.learning import actions
from kitchen.stores.learning.evidence import Proposal, Row
from kitchen.stores.learning.models import KeptFigure
from kitchen.stores.models import KitLine, RequisitionLine
from kitchen.stores.queries import kit_question
from kitchen.stores.requisitions.actions import submit_requisition
from tests.builders.book import a_person
from tests.builders.held_lessons import FLOUR, GRAM, a_quiche
from tests.builders.stores import QUICHE_DAY

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


def proposal(kind="over_issue", food=FLOUR, of="R01", amount=30 * GRAM, in_use=20 * GRAM, rows=6, others=()):
    evidence = tuple(Row(f"LESSON{n}", "Quiche", QUICHE_DAY, "G", 7, (), amount) for n in range(rows))
    return Proposal(kind, food, of, amount, in_use, evidence, others=others)


def accepted(made=None, words="Seen it.", key=None, **more):
    made = made or proposal()
    return actions.accept_figure(
        proposal=made,
        of=more.get("of", made.of),
        words=words,
        before_source="the recipe",
        by=a_person("hana", "stores"),
        key=key,
    )


def taken_back(row):
    return actions.take_back_figure(figure=row, words="Wrong.", by=a_person("marek"))


def dusting(lesson):
    kit_set = accept_kits(lesson=lesson, by=a_person("hana", "stores"))
    return list(
        KitLine.objects.filter(kit__kit_set=kit_set, component="dusting").values_list("milligrams", "note")
    )


def test_kits_made_after_it_hold_what_was_accepted_and_say_from_what_it_was_learned():
    lesson = a_quiche(-1, benches=2, state="approved")
    assert dusting(lesson) == [(20 * GRAM, "")] * 2
    accepted()
    assert dusting(lesson) == [(30 * GRAM, "learned from six lessons, the recipe says 20 g")] * 2


def test_kits_that_stand_stay_as_they_were_and_nobody_is_told_to_make_them_again():
    lesson = a_quiche(-1, benches=2, state="approved")
    dusting(lesson)
    before = kit_question(lesson)
    accepted()
    assert kit_question(lesson) == before
    other = a_quiche(-2, state="approved")
    assert [each.amount for each in kit_question(other).learned] == [30 * GRAM]


def test_the_row_keeps_what_was_in_use_the_evidence_and_the_words():
    row = accepted()
    assert (row.before, row.before_source, row.count, row.words) == (20 * GRAM, "the recipe", 6, "Seen it.")
    assert [each["lesson"] for each in row.evidence] == [f"LESSON{n}" for n in range(6)]
    assert (row.by.name, row.state) == (a_person("hana", "stores").name, "accepted")


def test_of_two_who_saw_the_same_proposal_one_decides_and_the_other_is_told_who():
    row = accepted()
    with pytest.raises(RuleBroken, match="Hana has accepted this already"):
        accepted()
    with pytest.raises(RuleBroken, match="Hana has accepted this already"):
        actions.decline_figure(
            proposal=proposal(), words="Too little.", before_source="", by=a_person("marek")
        )
    taken_back(row)
    assert accepted().state == "accepted"


def test_an_allowance_stands_for_one_of_its_techniques_and_not_for_two():
    both = sorted(Technique.objects.values_list("code", flat=True))[:2]
    made = proposal("wastage", of=both[0], amount=50, in_use=0, others=(both[1],))
    accepted(made)
    with pytest.raises(RuleBroken, match="has accepted this already"):
        accepted(made, of=both[1])


def test_a_second_figure_supersedes_the_first_and_taken_back_the_first_stands_again():
    first, second = accepted(), accepted(proposal(amount=35 * GRAM, in_use=30 * GRAM))
    first.refresh_from_db()
    assert (first.state, second.state) == ("superseded", "accepted")
    taken_back(second)
    first.refresh_from_db()
    assert (first.state, first.ended_at) == ("accepted", None)
    row = KeptFigure.objects.get(pk=second.pk)
    assert (row.state, row.ended_words, row.ended_by.username) == ("taken_back", "Wrong.", "marek")
    taken_back(first)
    assert not KeptFigure.objects.filter(state="accepted").exists()


def test_what_was_taken_back_cannot_be_taken_back_again():
    row = accepted()
    taken_back(row)
    with pytest.raises(RuleBroken) as refused:
        taken_back(row)
    assert refused.value.code == "stands_no_more"


def test_the_same_button_twice_is_one_decision():
    key = uuid4()
    assert accepted(key=key) == accepted(key=key)
    assert KeptFigure.objects.count() == 1


def test_too_few_lessons_are_refused():
    with pytest.raises(RuleBroken) as refused:
        accepted(proposal(rows=3))
    assert refused.value.code == "not_enough"
    assert not KeptFigure.objects.exists()


def test_declining_asks_for_words_and_changes_nothing():
    said = {"proposal": proposal(), "before_source": "the recipe", "by": a_person("hana", "stores")}
    with pytest.raises(RuleBroken) as refused:
        actions.decline_figure(words="", **said)
    assert refused.value.code == "says_why"
    row = actions.decline_figure(words="A new group.", **said)
    assert (row.state, row.mark) == ("declined", proposal().mark)
    assert kit_question(a_quiche(-1, state="approved")).learned == ()


def test_an_accepted_usable_share_is_the_foods_and_goes_back_when_it_is_taken_back():
    leek = Food.objects.get(code="leek")
    before = leek.usable_per_mille, leek.usable_source
    for usable in (590, 600, 610):
        YieldTest.objects.create(
            food=leek,
            on=QUICHE_DAY,
            purchased_milligrams=10**6,
            usable_milligrams=usable * GRAM,
            by=a_person("hana", "stores"),
        )
    made = proposal("usable", "leek", "", 600, before[0], rows=3)
    row = actions.accept_figure(
        proposal=made, of="", words="", before_source=before[1], by=a_person("hana", "stores")
    )
    leek.refresh_from_db()
    assert (leek.usable_per_mille, leek.usable_source[:15]) == (600, "own yield tests")
    lesson = a_quiche(-1, benches=1, state="approved")
    kit_set = accept_kits(lesson=lesson, by=a_person("hana", "stores"))
    line = KitLine.objects.get(kit__kit_set=kit_set, food=leek)
    assert line.milligrams == 500 * GRAM
    assert line.note.endswith("usable 60 %, learned from three yield tests")
    taken_back(row)
    leek.refresh_from_db()
    assert (leek.usable_per_mille, leek.usable_source) == before


def test_a_test_written_down_meanwhile_asks_to_look_again_and_changes_nothing():
    leek = Food.objects.get(code="leek")
    before = leek.usable_per_mille, leek.usable_source
    hana = a_person("hana", "stores")
    said = {"food": leek, "on": QUICHE_DAY, "purchased_milligrams": 10**6, "by": hana}
    for usable in (600, 600, 600, 300):
        YieldTest.objects.create(usable_milligrams=usable * GRAM, **said)
    with pytest.raises(RuleBroken) as refused:
        accepted(proposal("usable", "leek", "", 600, before[0], rows=3))
    assert refused.value.code == "tested_meanwhile" and not KeptFigure.objects.exists()
    leek.refresh_from_db()
    assert (leek.usable_per_mille, leek.usable_source) == before


def test_a_share_that_somebody_chose_since_stays_when_the_learned_one_is_taken_back():
    leek = Food.objects.get(code="leek")
    for _ in range(3):
        YieldTest.objects.create(
            food=leek,
            on=QUICHE_DAY,
            purchased_milligrams=10**6,
            usable_milligrams=600 * GRAM,
            by=a_person("hana", "stores"),
        )
    row = accepted(proposal("usable", "leek", "", 600, 750, rows=3))
    Food.objects.filter(code="leek").update(usable_per_mille=440, usable_source="A table.")
    taken_back(row)
    leek.refresh_from_db()
    assert (leek.usable_per_mille, leek.usable_source) == (440, "A table.")


def technique():
    return Technique.objects.get(code="rubbing_in")


def test_an_allowance_stands_for_the_technique_that_was_chosen_among_those_of_the_lessons():
    made = proposal("wastage", "unsalted_butter", "blind_baking", 70, 0, others=("rubbing_in",))
    assert accepted(made, of="rubbing_in").technique == technique()
    with pytest.raises(RuleBroken) as refused:
        accepted(made, of="poaching_eggs")
    assert refused.value.code == "not_of_these"


def test_a_requisition_asks_for_the_allowance_as_a_line_of_its_own_and_no_kit_holds_it():
    accepted(proposal("wastage", "unsalted_butter", "rubbing_in", 70, 0))
    lesson = a_quiche(-1, benches=2, state="approved")
    submit_requisition(lesson=lesson, by=a_person("marek"))
    lines = {
        line.why: line.milligrams
        for line in RequisitionLine.objects.filter(food__code="unsalted_butter", requisition__lesson=lesson)
    }
    kits = lines.pop("kits of the benches")
    assert lines == {"allowance for wastage": -(-kits * 70 // 10**6) * GRAM}


def written(food=None, by_technique=None, per_mille=50):
    return actions.write_allowance(
        food=food, technique=by_technique, per_mille=per_mille, words="Ours.", by=a_person("marek")
    )


def test_an_allowance_by_hand_is_for_a_food_a_technique_or_both_and_the_next_one_supersedes_it():
    butter = Food.objects.get(code="unsalted_butter")
    for of in ((butter, None), (None, technique()), (butter, technique())):
        first, second = written(*of), written(*of, per_mille=60)
        first.refresh_from_db()
        assert (first.state, second.state) == ("superseded", "accepted")
    assert KeptFigure.objects.filter(state="accepted").count() == 3


def test_an_allowance_of_nothing_is_refused():
    with pytest.raises(RuleBroken) as refused:
        written()
    assert refused.value.code == "of_nothing"
