"""Four people do their work in a real browser, at the size of a desk, a tablet and a phone.

For each size one lesson is told from its booking to the feedback: the lecturer plans it, the
stores issue it, the lecturer marks it, the student reads. Every page on the way is looked at.
The tests of one size build on each other and run in this order.
"""

import re

import pytest

from tests.browser.conftest import SCREENS
from tests.browser.steps import answered, looked_at, sign_in

pytestmark = [
    pytest.mark.browser,
    pytest.mark.parametrize("screen", SCREENS, ids=lambda screen: screen.name, scope="module"),
]

#: A Monday for each size on which nothing else is booked.
DAYS = {"desk": "1 Mar 2027", "tablet": "8 Mar 2027", "phone": "15 Mar 2027"}
LEARNER = "Wren Ashlark"
#: What the lecturer gives: a slot of the sheet, and the step or figure.
TAPPED = {"organisation": 3, "hygiene": 2, "appearance": 7, "texture": 8, "flavour": 6}
TYPED = {"Portion weight": "138", "Food temperature at the pass": "48", "Core temperature": "76"}


@pytest.fixture(scope="module")
def told():
    """What earlier tests of the same size left for later ones: the lesson's address."""
    return {}


@pytest.fixture
def lesson(told, screen):
    assert screen.name in told, "The lecturer's journey at this size did not get to its end."
    return told[screen.name]


@pytest.fixture
def at(window, screen, site):
    """A function: a window of this size with somebody signed in."""

    def signed_in(role):
        page = window(screen)
        sign_in(page, site, role)
        return page

    return signed_in


def choose(page, label, words):
    """Choose the option that begins with these words."""
    box = page.get_by_label(label, exact=True)
    option = box.locator("option", has_text=re.compile(f"^{re.escape(words)}")).first
    box.select_option(value=option.get_attribute("value"))


def fill_booking(page, day, portions):
    choose(page, "Dish", "Leek and Cheddar quiche")
    page.get_by_label("Portions a bench").fill(portions)
    page.get_by_label("Day", exact=True).fill(day)
    page.get_by_label("Starts").fill("09:00")
    page.get_by_label("Ends").fill("12:00")
    choose(page, "Room", "Juniper Kitchen")
    choose(page, "Group", "PC2-A")
    choose(page, "Lecturer", "Marek Thistlewick")


def test_the_lecturer_plans(screen, at, site, told):
    page = at("lecturer")
    looked_at(page, f"{screen.name}-day")
    page.get_by_role("link", name="Lessons", exact=True).first.click()
    looked_at(page, f"{screen.name}-lessons")
    page.get_by_role("link", name="Book a lesson").click()

    fill_booking(page, "31 February 2027", "a dozen")
    page.get_by_role("button", name="Book the lesson").click()
    page.get_by_role("alert").wait_for()
    assert page.get_by_label("Portions a bench").input_value() == "a dozen"
    assert page.get_by_label("Day", exact=True).input_value() == "31 February 2027"
    looked_at(page, f"{screen.name}-not-booked")

    fill_booking(page, DAYS[screen.name], "8")
    page.get_by_role("button", name="Book the lesson").click()
    page.wait_for_url("**/places/")
    address = page.url.removesuffix("places/")
    looked_at(page, f"{screen.name}-places-proposed")
    page.get_by_role("button", name="Keep the benches").click()
    page.get_by_text("The benches are kept.").wait_for()

    page.goto(address + "diets/")
    looked_at(page, f"{screen.name}-diets")
    assert "Needs the variant" in page.inner_text("main")
    assert not re.search(r"\bsafe\b", page.inner_text("main"))

    page.goto(address + "time-plan/")
    assert "It does not fit" in page.inner_text("main")
    looked_at(page, f"{screen.name}-does-not-fit")
    page.get_by_role("link", name="Look for ways out").click()
    page.get_by_role("button", name="Take this way out").first.wait_for()
    looked_at(page, f"{screen.name}-ways-out")
    page.get_by_role("button", name="Take this way out").first.click()
    page.get_by_text("It fits").first.wait_for()
    page.get_by_role("button", name="Accept this plan").click()
    page.get_by_text("is accepted as plan").wait_for()
    looked_at(page, f"{screen.name}-plan")
    for paper in ("lecturer.pdf", "strips.pdf"):
        assert answered(page, f"{address}time-plan/{paper}").startswith(b"%PDF")

    page.goto(address + "demonstration/")
    looked_at(page, f"{screen.name}-demonstration")
    page.goto(address)
    looked_at(page, f"{screen.name}-lesson")
    told[screen.name] = address


def test_the_stores_issue(screen, at, lesson):
    page = at("stores")
    looked_at(page, f"{screen.name}-stores-day")
    page.goto(lesson + "kits/")
    looked_at(page, f"{screen.name}-kits-proposed")
    page.get_by_role("button", name="Make the kits").click()
    page.get_by_text("The kits are made.").wait_for()
    looked_at(page, f"{screen.name}-kits")
    for paper in ("kits/labels.pdf", "kits/issue-sheet.pdf"):
        assert answered(page, lesson + paper).startswith(b"%PDF")

    page.goto(lesson + "weigh/")
    looked_at(page, f"{screen.name}-trolley")
    page.get_by_role("link", name="Begin clean").click()
    looked_at(page, f"{screen.name}-clean-start")
    for left in (4, 3, 2, 1):
        page.get_by_role("button", name="Clean:").nth(left - 1).wait_for()
        page.get_by_role("button", name="Clean:").first.click()
    page.locator("main .next a.first").click()
    looked_at(page, f"{screen.name}-scale")
    page.get_by_role("button", name="Weighed", exact=True).click()
    page.get_by_text("1 of ").first.wait_for()
    looked_at(page, f"{screen.name}-weighed")

    page.goto(lesson + "issue/")
    looked_at(page, f"{screen.name}-issue")
    page.get_by_label("Why they leave all the same").fill("Weighed on paper today.")
    short = page.get_by_label("Issue what is there; what is short stays short")
    if short.count():
        page.get_by_role("button", name="Issue the kits").click()
        page.get_by_role("alert").wait_for()
        looked_at(page, f"{screen.name}-issue-refused")
        short.check()
    page.get_by_role("button", name="Issue the kits").click()
    page.get_by_text("The kits have left the stores.").wait_for()
    looked_at(page, f"{screen.name}-issued")


def tap(page, place, value):
    """Tap a step of a slot and wait until the mark is kept."""
    anchor = f"slot-{place.replace('.', '-')}"
    with page.expect_response(lambda answer: answer.url.endswith("/give/")) as kept:
        page.locator(f"label:has(#{anchor}-{value})").click()
    assert kept.value.status == 200


def write_figure(page, slot, words, button):
    """Write a figure into the slot with this heading and wait until it is kept."""
    section = page.locator("main section").filter(has=page.get_by_role("heading", name=slot, exact=True))
    section.locator("input[name=value]").fill(words)
    with page.expect_response(lambda answer: answer.url.endswith("/give/")) as kept:
        section.get_by_role("button", name=button).click()
    assert kept.value.status == 200


def test_the_lecturer_marks_and_hands_back(screen, at, lesson):
    page = at("lecturer")
    page.goto(lesson + "brief/")
    page.get_by_label("Working time").fill("165")
    page.get_by_role("button", name="Write the brief").click()
    page.get_by_text("The brief is written.").wait_for()
    looked_at(page, f"{screen.name}-brief")
    verifier = at("verifier")
    verifier.goto(lesson + "brief/")
    verifier.get_by_role("button", name="The brief is right").click()
    verifier.get_by_text("The brief is checked.").wait_for()
    looked_at(verifier, f"{screen.name}-brief-checked")

    page.goto(lesson + "marks/")
    page.get_by_role("button", name="Open the mark sheets").click()
    looked_at(page, f"{screen.name}-marks")
    page.get_by_role("link", name=LEARNER).click()
    looked_at(page, f"{screen.name}-sheet")
    for place, value in TAPPED.items():
        tap(page, place, value)
    techniques = page.locator("section[id^='slot-technique-']").evaluate_all("all => all.map(one => one.id)")
    for place in techniques:
        tap(page, place.removeprefix("slot-"), 1)
    with page.expect_response(lambda answer: answer.url.endswith("/give/")):
        page.locator(f"#{techniques[0]} .faults label").first.click()
    for slot, words in TYPED.items():
        write_figure(page, slot, words, "Keep the figure")
    write_figure(page, "Timing", "11:50", "Keep the time")
    looked_at(page, f"{screen.name}-sheet-marked")
    page.get_by_role("button", name="Submit the sheet").click()
    page.wait_for_url("**/marks/")

    page.goto(lesson + "feedback/")
    looked_at(page, f"{screen.name}-feedback-of-the-lesson")
    page.get_by_role("link", name=LEARNER).click()
    page.get_by_label("One thing for next time").fill("Rub until no lump is left")
    for box in page.get_by_label("Take the words of a fault").all():
        box.select_option(index=1)
    page.get_by_role("button", name="Keep the draft").click()
    page.get_by_text("The draft is kept.").wait_for()
    looked_at(page, f"{screen.name}-feedback-draft")
    page.get_by_role("button", name="Hand it back").click()
    page.get_by_text("can read it now").wait_for()
    looked_at(page, f"{screen.name}-handed-back")


def test_the_student_reads(screen, at, site, lesson):
    page = at("student")
    looked_at(page, f"{screen.name}-student-day")
    page.get_by_role("link", name="Feedback", exact=True).first.click()
    looked_at(page, f"{screen.name}-own-feedback")
    page.locator("main a[href^='/feedback/']").first.click()
    said = page.inner_text("main")
    assert "Rub until no lump is left" in said
    assert page.locator("main h1").count() == 1
    looked_at(page, f"{screen.name}-feedback")
    assert answered(page, page.url + "paper/").startswith(b"%PDF")
    page.goto(lesson + "time-plan/my-bench/")
    looked_at(page, f"{screen.name}-own-strip")
    page.goto(lesson + "sheet/")
    looked_at(page, f"{screen.name}-own-sheet")
    assert "Quiche without gluten" in page.inner_text("main")
    for closed in ("kits/", "marks/", "diets/", "feedback/"):
        assert page.request.get(lesson + closed).status == 403
