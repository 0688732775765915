"""The pages of an own order: what was typed is kept, what breaks is said, the plan stays hidden."""

import contextlib
import io
from datetime import date
from uuid import uuid4

import pytest
from django.test import Client
from django.urls import NoReverseMatch, get_resolver, reverse
from pypdf import PdfReader

from curriculum.wording import clock_minutes
from kitchen.timeplan.actions import accept_draft
from kitchen.timeplan.kept import read_plan
from kitchen.timeplan.own_order.models import OwnOrder
from kitchen.timeplan.own_order.written import read_order
from kitchen.timeplan.queries import plan_page
from tests.access_matrix import url_names
from tests.builders.cast import build_cast
from tests.builders.own_order import GOOD, assess, handed_in, kept, times
from tests.flows.person import reached

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


def signed_in(user):
    client = Client()
    client.force_login(user, "django.contrib.auth.backends.ModelBackend")
    return client


def own(cast, what="", user=None):
    return signed_in(user or cast.student).get(f"/lessons/{cast.lesson.code}/my-order{what}")


def sent(cast, user=None, **said):
    said = {"key": str(uuid4()), "based_on": "0"} | said
    return signed_in(user or cast.student).post(f"/lessons/{cast.lesson.code}/my-order/", said)


def text_of(answer):
    return answer.content.decode()


def plans_times(cast):
    """The plan accepted for the lesson, moved to minutes that nobody writes by chance: its times."""
    row = accept_draft(lesson=cast.lesson, draft=plan_page(cast.lesson).draft, by=cast.lecturer)
    answer = row.answer
    for bench in answer["benches"]:
        for line in bench["lines"]:
            line["start"] += 3
        for bar in bench["bars"]:
            bar["start"] += 3
    row.save(update_fields=["answer"])
    return {clock_minutes(line.start) for bench in read_plan(row.answer).benches for line in bench.lines}


def words_of(answer):
    if answer["content-type"] == "application/pdf":
        return " ".join(page.extract_text() for page in PdfReader(io.BytesIO(answer.content)).pages)
    return answer.content.decode()


def addresses_of(lesson):
    """Every address of a lesson that needs nothing but its code."""
    for name in url_names(get_resolver().url_patterns):
        with contextlib.suppress(NoReverseMatch):
            yield reverse(name, kwargs={"lesson": lesson.code})


def shown_to(user, times_, lesson):
    """Addresses that this person can reach by links or by typing, and that show any of these times."""
    client, found = signed_in(user), []
    for address in dict.fromkeys([*reached(user), *addresses_of(lesson)]):
        answer = client.get(address, follow=True)
        if answer.status_code == 200 and any(each in words_of(answer) for each in times_):
            found.append(address)
    return found


def test_the_page_asks_for_every_step_and_shows_no_check_before_anything_is_kept(cast):
    text = text_of(own(cast, "/"))
    assert "Rub the butter into the flour" in text
    assert "2 min of hands, then 20 min in the oven" in text
    assert 'name="at_2"' in text
    assert 'name="meanwhile_1"' not in text
    assert 'name="meanwhile_2"' in text
    assert "Cooking is from 09:15 to 11:30." in text
    assert 'id="found"' not in text


def test_what_is_kept_comes_back_with_what_breaks(cast):
    answer = sent(cast, at_1="09:20", at_2="11:00", task_1="Rub in", contingency="If <b> it crumbles")
    assert answer.status_code == 302
    text = text_of(own(cast, "/"))
    assert "One rule breaks" in text
    assert "Step 2 follows step 1 after 90 min; at most 60 min." in text
    assert 'value="09:20"' in text
    assert "If &lt;b&gt; it crumbles" in text


def test_a_time_that_cannot_be_read_is_kept_and_named_at_its_field(cast):
    assert sent(cast, at_1="25:99", at_2="09:40").status_code == 302
    text = text_of(own(cast, "/"))
    assert 'value="25:99"' in text
    assert "You wrote “25:99”." in text
    assert 'aria-invalid="true"' in text
    assert 'href="#id_at_1"' in text


def test_too_long_a_text_is_refused_at_its_field_and_what_was_typed_is_kept(cast):
    answer = sent(cast, at_1="09:20", points_1="x" * 301)
    assert answer.status_code == 200
    assert "You wrote 301 characters" in text_of(answer)
    assert "x" * 301 in text_of(answer)
    assert not OwnOrder.objects.exists()


def test_a_second_device_is_told_when_the_other_kept_it_and_loses_nothing(cast):
    kept(cast)
    kept(cast, times("09:25", "09:45"), based_on=1)
    answer = sent(cast, based_on="1", at_1="09:30", at_2="09:50", clean_at_1="10:20", clean_at_2="10:40")
    text = text_of(answer)
    assert "You kept this order from another page on" in text
    assert 'value="09:30"' in text
    assert 'value="10:40"' in text
    assert "What was kept from the other page" in text
    assert "09:25" in text
    assert 'name="based_on" value="2"' in text
    assert read_order(OwnOrder.objects.get().lines).line(1).at == "09:25"
    assert sent(cast, based_on="2", at_1="09:30", at_2="09:50").status_code == 302
    assert read_order(OwnOrder.objects.get().lines).line(1).at == "09:30"


def test_more_cleaning_than_the_page_had_lines_is_kept(cast):
    said = {
        f"clean_{name}_{n}": words
        for n in range(1, 8)
        for name, words in (("at", "10:00"), ("task", f"c{n}"))
    }
    sent(cast, at_1="09:20", **said)
    assert len(read_order(OwnOrder.objects.get().lines).cleaning) == 7


def test_handed_in_there_is_no_form_any_more(cast):
    handed_in(cast)
    text = text_of(own(cast, "/"))
    assert "Handed in" in text
    assert 'name="at_1"' not in text
    assert sent(cast, based_on="1", at_1="09:30").status_code == 200
    assert read_order(OwnOrder.objects.get().lines) == GOOD


@pytest.mark.parametrize("what", ["hand-in/", ""])
def test_a_button_that_sends_nonsense_is_refused_as_a_whole(cast, what):
    kept(cast)
    client = signed_in(cast.student)
    address = f"/lessons/{cast.lesson.code}/my-order/{what}"
    assert client.post(address, {"based_on": "many"}).status_code in (200, 409)
    assert not OwnOrder.objects.get().is_handed_in


def test_the_paper_holds_the_order(cast):
    kept(cast)
    words = words_of(own(cast, ".pdf"))
    assert "Learner N100" in words
    assert "Cold hands" in words


def test_a_partner_reads_only_their_own(cast):
    kept(cast)
    partner = cast.partner.user
    assert "Cold hands" not in text_of(own(cast, "/", partner))
    assert "Cold hands" not in words_of(own(cast, ".pdf", partner))


def test_where_it_is_not_assessed_a_learner_sees_plan_and_writes(cast):
    times_ = plans_times(cast)
    assert any("my-bench/" in address for address in shown_to(cast.student, times_, cast.lesson))
    assert own(cast, "/").status_code == 200


def test_where_it_is_assessed_no_page_or_paper_of_a_learner_holds_the_plans_times(cast):
    """Person by object: the writer, the partner at the same bench; before, after, and opened again."""
    assess(cast)
    times_ = plans_times(cast)
    assert shown_to(cast.student, times_, cast.lesson) == []
    strip = f"/lessons/{cast.lesson.code}/time-plan/my-bench"
    assert signed_in(cast.student).get(f"{strip}.pdf").status_code == 409
    kept(cast)
    assert shown_to(cast.student, times_, cast.lesson) == []
    handed_in_row = OwnOrder.objects.get()
    signed_in(cast.student).post(
        f"/lessons/{cast.lesson.code}/my-order/hand-in/",
        {"key": str(uuid4()), "based_on": handed_in_row.saved},
    )
    assert any(address == f"{strip}/" for address in shown_to(cast.student, times_, cast.lesson))
    assert shown_to(cast.partner.user, times_, cast.lesson) == []
    assert signed_in(cast.partner.user).get(f"{strip}.pdf").status_code == 409
    client = signed_in(cast.lecturer)
    address = f"/lessons/{cast.lesson.code}/orders-of-work/{cast.learner.college_number}"
    client.post(f"{address}/open/", {"key": str(uuid4()), "why": "Moved."})
    assert shown_to(cast.student, times_, cast.lesson) == []


def test_a_lecturer_sees_the_plans_times_all_along(cast):
    assess(cast)
    times_ = plans_times(cast)
    assert f"/lessons/{cast.lesson.code}/time-plan/" in shown_to(cast.lecturer, times_, cast.lesson)


def test_after_the_day_the_plan_is_shown(cast):
    assess(cast)
    times_ = plans_times(cast)
    cast.lesson.on = date(2027, 2, 15)
    cast.lesson.save()
    answer = signed_in(cast.student).get(f"/lessons/{cast.lesson.code}/time-plan/my-bench/")
    assert any(each in text_of(answer) for each in times_)


def test_the_lecturer_sees_who_handed_in_and_what_breaks(cast):
    handed_in(cast, times("09:20", "11:00"))
    text = text_of(signed_in(cast.lecturer).get(f"/lessons/{cast.lesson.code}/orders-of-work/"))
    assert "1 of 2 handed in." in text
    assert "One rule breaks." in text
    assert "Not begun" in text


def test_the_written_order_stands_beside_the_plan_for_who_reads_it(cast):
    times_ = plans_times(cast)
    handed_in(cast)
    address = f"/lessons/{cast.lesson.code}/orders-of-work/N100/"
    for reader in (cast.lecturer, cast.second_marker, cast.verifier, cast.manager):
        text = text_of(signed_in(reader).get(address))
        assert all(f"The site’s plan: {each}" in text for each in times_)
    assert 'name="why"' in text_of(signed_in(cast.lecturer).get(address))
    assert 'name="why"' not in text_of(signed_in(cast.verifier).get(address))


def test_opened_without_a_reason_is_refused_at_the_field(cast):
    handed_in(cast)
    address = f"/lessons/{cast.lesson.code}/orders-of-work/N100/open/"
    answer = signed_in(cast.lecturer).post(address, {"key": str(uuid4()), "why": " "})
    assert answer.status_code == 200
    assert "This is empty." in text_of(answer)
    assert OwnOrder.objects.count() == 1


def test_a_learner_of_another_lesson_is_nobody_here(cast):
    address = f"/lessons/{cast.lesson.code}/orders-of-work/{cast.other_learner.college_number}/"
    assert signed_in(cast.lecturer).get(address).status_code == 404


def test_a_lesson_that_is_only_shown_says_so(cast):
    cast.lesson.kind = "demonstration"
    cast.lesson.save()
    text = text_of(signed_in(cast.lecturer).get(f"/lessons/{cast.lesson.code}/orders-of-work/"))
    assert "No order of work can be written yet." in text
    assert own(cast, "/").status_code == 409
    assert "my-order/" not in text_of(
        signed_in(cast.student).get(f"/lessons/{cast.lesson.code}/time-plan/my-bench/")
    )
