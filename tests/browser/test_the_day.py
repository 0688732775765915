"""A class runs on a tablet whose network comes and goes, beside a projector and a second device."""

import re
import sqlite3

import pytest

from tests.browser.conftest import SCREENS
from tests.browser.steps import looked_at, sign_in

pytestmark = pytest.mark.browser
DESK, TABLET, PHONE = SCREENS

LESSON_OF_A_PLAN = """
    SELECT lesson.code FROM kitchen_timeplan AS plan
    JOIN kitchen_lesson AS lesson ON lesson.id = plan.lesson_id
    JOIN curriculum_user AS person ON person.id = lesson.lecturer_id
    WHERE plan.state = 'accepted' AND person.username = ?
    ORDER BY lesson.id LIMIT 1
"""


#: What is kept on the device, and whether the page of the day is with it.
SHELF = """async () => (await caches.has('the day'))
    ? (await (await caches.open('the day')).keys()).map(each => each.url.slice(location.origin.length))
    : []"""
KEPT = f"""async () => {{
    const kept = await ({SHELF})();
    return ['/day/', '.css', '.ttf', '.js'].every(end => kept.some(path => path.endsWith(end)));
}}"""

#: Until when the page of the day is kept, and when it came.
UNTIL = """async (lesson) => {
    const kept = await (await caches.open('the day')).match(`/lessons/${lesson}/day/`);
    return ['X-Until', 'X-Kept'].map(name => Number(kept.headers.get(name)));
}"""
#: The same page, kept until a moment ago.
OVER = """async (lesson) => {
    const shelf = await caches.open('the day');
    const kept = await shelf.match(`/lessons/${lesson}/day/`);
    const headers = new Headers(kept.headers);
    headers.set('X-Until', String(Date.now() - 1));
    await shelf.put(`/lessons/${lesson}/day/`, new Response(await kept.text(), { status: 200, headers }));
}"""


def ask(site, question, *facts):
    with sqlite3.connect(f"file:{site.database}?mode=ro", uri=True) as database:
        return database.execute(question, facts).fetchall()


@pytest.fixture(scope="module")
def lesson(site):
    """The code of the first lesson of the demonstration's lecturer with an accepted plan."""
    username, _ = site.login("lecturer")
    ((code,),) = ask(site, LESSON_OF_A_PLAN, username)
    return code


def counted(site, what):
    ((number,),) = ask(site, "SELECT COUNT(*) FROM kitchen_dayevent WHERE what = ?", what)
    return number


def opened(window, screen, site, lesson, what=""):
    page = window(screen)
    sign_in(page, site, "lecturer")
    page.goto(f"{site.address}/lessons/{lesson}/day/{what}")
    return page


def wait_until_kept(page):
    for _ in range(100):
        if page.evaluate(KEPT):
            return
        page.wait_for_timeout(100)
    pytest.fail(f"Not kept after ten seconds: {page.evaluate(SHELF)}")


def start(page, bench):
    page.get_by_role("button", name=re.compile(rf"^Bench {bench}, step \d+: started$")).first.click()


def unsent(page):
    return page.locator("[data-unsent]")


def test_the_class_begins_and_every_page_of_the_day_can_be_used(window, site, lesson):
    page = opened(window, TABLET, site, lesson)
    looked_at(page, "day-not-begun")
    page.get_by_role("button", name="The class begins").click()
    page.get_by_role("button", name="Undo").wait_for()
    for screen in SCREENS:
        page.set_viewport_size({"width": screen.width, "height": screen.height})
        for what in ("", "bench/1/", "re-plan/", "board/", "after/"):
            page.goto(f"{site.address}/lessons/{lesson}/day/{what}")
            looked_at(page, f"day-{screen.name}-{what.replace('/', '-')}")
    assert counted(site, "began") == 1


def test_taps_without_a_network_are_kept_told_and_sent_once_in_their_order(window, site, lesson):
    page = opened(window, TABLET, site, lesson)
    page.route("**/day/tap/", lambda route: route.abort())
    start(page, 1)
    unsent(page).get_by_text("One tap is kept on this device").wait_for()
    start(page, 2)
    unsent(page).get_by_text("2 taps are kept on this device").wait_for()
    assert counted(site, "started") == 0

    page.reload()
    unsent(page).get_by_text("2 taps are kept on this device").wait_for()
    assert re.fullmatch(r"\d\d:\d\d", page.locator("[data-clock]").inner_text())

    page.unroute("**/day/tap/")
    unsent(page).wait_for(state="hidden")
    assert counted(site, "started") == 2
    benches = ask(
        site,
        "SELECT bench.number FROM kitchen_dayevent AS event JOIN kitchen_place AS place"
        " ON place.id = event.place_id JOIN kitchen_bench AS bench ON bench.id = place.bench_id"
        " WHERE event.what = 'started' ORDER BY event.number",
    )
    assert benches == [(1,), (2,)]
    page.problems.clear()


def test_the_page_opens_again_without_a_network_and_its_clock_runs(window, site, lesson):
    page = opened(window, TABLET, site, lesson)
    wait_until_kept(page)
    page.context.set_offline(True)
    page.reload()
    page.locator("[data-away]").get_by_text(re.compile(r"^No network: shown as of \d\d:\d\d\.")).wait_for()
    assert re.fullmatch(r"\d\d:\d\d", page.locator("[data-clock]").inner_text())
    assert page.evaluate("document.fonts.check('16px \"Fira Sans\"')")
    # The whole page at once: the bar at the lower edge lies over whatever stands there until one scrolls,
    # and a button half under it would be counted as too small.
    page.set_viewport_size({"width": TABLET.width, "height": 2600})
    page.problems.clear()
    looked_at(page, "day-without-network")
    # A page that opens anew has a network for a moment before Chromium takes it away again.
    page.route("**/day/tap/", lambda route: route.abort())
    before = counted(site, "started")
    start(page, 5)
    unsent(page).get_by_text("One tap is kept on this device").wait_for()
    page.reload()
    unsent(page).get_by_text("One tap is kept on this device").wait_for()
    assert counted(site, "started") == before

    other = opened(window, TABLET, site, lesson)
    page.unroute("**/day/tap/")
    page.context.set_offline(False)
    unsent(page).wait_for(state="hidden")
    page.locator("[data-away]").wait_for(state="hidden", timeout=20_000)
    assert counted(site, "started") == before + 1
    for device in (page, other):
        row = device.locator("li.benchrow", has=device.get_by_label(re.compile("^Bench 5,.*open$")))
        row.get_by_text("At work").wait_for(timeout=20_000)
    tapped = page.evaluate("() => Number(document.getElementById('day-now').dataset.last)")
    assert tapped == other.evaluate("() => Number(document.getElementById('day-now').dataset.last)")
    page.problems.clear()


def test_a_kept_page_goes_on_by_the_clock_of_the_server(window, site, lesson):
    """Opened ten minutes later without a network, the page is ten minutes on and not where it was kept."""
    page = opened(window, TABLET, site, lesson)
    wait_until_kept(page)
    shown = "() => document.querySelector('[data-clock]').textContent"
    before = page.evaluate(shown)
    page.context.set_offline(True)
    page.clock.install()
    page.clock.fast_forward("10:00")
    page.reload()
    page.locator("[data-away]").get_by_text("No network").wait_for()
    minutes = [int(each[:2]) * 60 + int(each[3:]) for each in (before, page.evaluate(shown))]
    assert 9 <= minutes[1] - minutes[0] <= 11
    page.problems.clear()


def test_a_kept_page_is_shown_no_more_when_its_lesson_is_long_over(window, site, lesson):
    """Names are on it. The device's clock cannot be turned for the script beside the pages: the mark is."""
    page = opened(window, TABLET, site, lesson)
    wait_until_kept(page)
    said, came = page.evaluate(UNTIL, lesson)
    now = page.locator("#day-now")
    wanted = int(now.get_attribute("data-until")) - int(now.get_attribute("data-server"))
    assert 0 < wanted <= 12 * 60 * 60 * 1000
    assert abs(said - came - wanted) < 30_000
    page.evaluate(OVER, lesson)
    page.context.set_offline(True)
    page.reload()
    page.get_by_role("heading", name="No network").wait_for()
    assert f"/lessons/{lesson}/day/" not in page.evaluate(SHELF)
    page.problems.clear()


def test_only_the_pages_of_the_day_are_kept_and_signing_out_empties_the_shelf(window, site, lesson):
    page = opened(window, TABLET, site, lesson)
    wait_until_kept(page)
    page.goto(f"{site.address}/lessons/{lesson}/time-plan/")
    page.goto(f"{site.address}/lessons/{lesson}/day/bench/1/")
    paths = page.evaluate(SHELF)
    assert {path for path in paths if not path.startswith("/static/")} <= {
        f"/lessons/{lesson}/day/",
        f"/lessons/{lesson}/day/?part",
    }
    page.context.set_offline(True)
    page.goto(f"{site.address}/lessons/{lesson}/day/bench/2/")
    page.get_by_role("heading", name="No network").wait_for()
    page.get_by_role("link", name="Back to all benches").click()
    page.locator("[data-away]").get_by_text("No network").wait_for()
    page.context.set_offline(False)
    page.get_by_role("button", name="Sign out").click()
    page.wait_for_url("**/sign-in/**")
    assert page.evaluate(SHELF) == []
    page.problems.clear()


def test_a_second_device_agrees_and_a_tap_of_both_is_one(window, site, lesson):
    one, other = (opened(window, TABLET, site, lesson) for _ in range(2))
    start(one, 3)
    start(other, 3)
    for page in (one, other):
        row = page.locator("li.benchrow", has=page.get_by_label(re.compile("^Bench 3,.*open$")))
        row.get_by_text("At work").wait_for()
    assert counted(site, "started") == 4


def test_the_projector_follows_and_names_nobody(window, site, lesson):
    tablet = opened(window, TABLET, site, lesson)
    board = opened(window, DESK, site, lesson, "board/")
    names = ask(
        site, "SELECT name FROM curriculum_user JOIN curriculum_student ON user_id = curriculum_user.id"
    )
    shown = board.inner_text("main")
    assert not [name for (name,) in names if name.split()[0] in shown.split()]
    tablet.get_by_role("button", name="Undo").click()
    followed = "() => Number(document.getElementById('day-now').dataset.last) > 4"
    board.wait_for_function(followed, timeout=20_000)
    assert board.locator("form[data-tap]").count() == 0


def test_without_script_every_tap_still_counts(chromium, site, lesson):
    context = chromium.new_context(java_script_enabled=False)
    page = context.new_page()
    sign_in(page, site, "lecturer")
    page.goto(f"{site.address}/lessons/{lesson}/day/")
    before = counted(site, "later")
    page.get_by_role("button", name=re.compile("^Bench 4, .*five minutes more$")).first.click()
    page.get_by_text("5 min more").wait_for()
    assert counted(site, "later") == before + 1
    context.close()


def test_a_tap_on_the_page_of_one_bench_goes_by_the_clock_of_the_server(window, site, lesson):
    """A tablet whose clock is an hour and a half ahead says the minute at which it was tapped."""
    page = opened(window, TABLET, site, lesson, "bench/2/")
    page.clock.install()
    page.clock.fast_forward("01:30:00")
    page.reload()
    page.get_by_role("button", name="One learner fewer").click()
    page.get_by_text("Bench 2: one learner fewer.").wait_for()
    apart = "SELECT ABS(julianday(device_at) - julianday(at)) * 1440 FROM kitchen_dayevent"
    ((minutes,),) = ask(site, f"{apart} ORDER BY id DESC LIMIT 1")
    assert minutes < 1
