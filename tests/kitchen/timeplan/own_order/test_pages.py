"""States and findings of an order in words."""

from datetime import UTC, datetime
from types import SimpleNamespace

from kitchen.timeplan.own_order.judging import Judged
from kitchen.timeplan.own_order.pages import finding, heading, hidden_words, missing_words, state_of
from kitchen.timeplan.own_order.told import Told
from kitchen.timeplan.own_order.written import Trouble

AT = datetime(2027, 2, 16, 10, 4, tzinfo=UTC)
BREAK = Told("too_late", "Step 2 follows step 1 after 75 min; at most 60 min.", (1, 2))


def row(**more):
    facts = {"is_handed_in": False, "opened_by": None, "saved_at": AT, "handed_in_at": None}
    return SimpleNamespace(**facts | more)


def test_how_far_an_order_is_is_said_with_the_moment():
    assert state_of(None, UTC).word == "Not begun"
    assert state_of(row(), UTC).words == "Kept on 16 February at 10:04."
    assert state_of(row(is_handed_in=True, handed_in_at=AT), UTC).words == "On 16 February at 10:04."


def test_who_opened_an_order_again_and_why_is_said():
    opened = row(opened_by=SimpleNamespace(name="Ansel"), opened_at=AT, opened_why="The oven was changed")
    words = "Opened again by Ansel on 16 February at 10:04: The oven was changed."
    assert state_of(opened, UTC).words == words


def test_what_was_found_is_one_sentence_for_the_list():
    assert finding(Judged()) == "Nothing breaks."
    found = Judged(breaks=(BREAK,), missing=(3, 4), troubles=(Trouble("at_5", "You wrote “25:99”."),))
    assert finding(found) == "One rule breaks, two steps have no time and one entry cannot be used."


def test_nothing_breaks_is_said_whole_only_of_what_is_whole():
    assert heading(Judged()) == "Nothing breaks"
    assert heading(Judged(missing=(3,))) == "Nothing breaks so far"
    assert heading(Judged(missing=(3,), any_timed=False)) == "Not looked at yet"
    assert heading(Judged(breaks=(BREAK, BREAK))) == "Two rules break"


def test_where_no_rule_could_be_asked_nobody_reads_that_nothing_breaks():
    unknown = Judged(unlooked="The room lacks something that a step needs.", looked_at=False)
    assert (finding(unknown), heading(unknown)) == ("Not looked at yet.", "Not looked at yet")


def test_who_must_not_see_the_plan_yet_is_counted_beside_what_shows_it():
    assert hidden_words(0) == ""
    assert hidden_words(1).startswith(
        "Own orders of work are assessed, and one learner has not handed one in"
    )
    assert "six learners have not handed theirs in yet." in hidden_words(6)


def test_steps_without_a_time_are_named_and_the_plate_with_them():
    words = "No time yet: steps 3 and 5, the plate at the pass. What waits for them is not looked at."
    assert missing_words(Judged(missing=(3, 5, 0))) == words
    assert missing_words(Judged(missing=(3,))) == "No time yet: step 3. What waits for it is not looked at."
    assert missing_words(Judged()) == ""
