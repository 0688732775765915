"""The demonstration college, served as a person would start it, and a real Chromium.

One server for each process of the run: ``manage.py demo`` in a temporary folder. The journeys
are told in order and each size of screen has lessons of its own. With ``-n 2 --dist loadfile
--no-loadscope-reorder`` each file stays whole in one process, and the files keep their order.
"""

import json
import os
import signal
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.conftest import ROOT

CHROMIUM = os.environ.get("CHROMIUM", "/usr/bin/chromium")
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-dev-shm-usage",
    "--force-prefers-reduced-motion",
]


@dataclass(frozen=True)
class Screen:
    """One size of screen, and what it stands for."""

    name: str
    width: int
    height: int
    touch: bool


SCREENS = (
    Screen("desk", 1280, 800, False),
    Screen("tablet", 820, 1180, True),
    Screen("phone", 390, 844, True),
)


@dataclass
class Site:
    """Where the demonstration answers, and what it said of itself."""

    address: str
    said: dict
    database: Path

    def login(self, role: str) -> tuple[str, str]:
        facts = self.said["logins"][role]
        return facts["username"], facts["password"]


@pytest.fixture(scope="session")
def site(tmp_path_factory):
    """The demonstration, made and served by the command that people use."""
    folder = tmp_path_factory.mktemp("demonstration")
    surroundings = {name: value for name, value in os.environ.items() if not name.startswith("KITCHEN_")}
    surroundings |= {"KITCHEN_DATA": str(folder)}
    surroundings.pop("DATABASE_URL", None)
    surroundings.pop("DJANGO_SETTINGS_MODULE", None)
    command = [sys.executable, "manage.py", "demo"]
    said = subprocess.run(
        [*command, "--no-serve", "--json"],
        cwd=ROOT,
        env=surroundings,
        capture_output=True,
        text=True,
        timeout=300,
    )
    assert said.returncode == 0, said.stderr
    port = _free_port()
    server = subprocess.Popen(
        [*command, "--port", str(port)],
        cwd=ROOT,
        env=surroundings,
        stdout=subprocess.DEVNULL,
        stdin=subprocess.DEVNULL,
        start_new_session=True,
    )
    try:
        address = f"http://127.0.0.1:{port}"
        _wait_for(address, server)
        yield Site(address, json.loads(said.stdout), folder / "kitchen.sqlite3")
    finally:
        _end(server)


def _free_port() -> int:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        return taken.getsockname()[1]


def _wait_for(address: str, server: subprocess.Popen) -> None:
    for _ in range(240):
        assert server.poll() is None, f"The demonstration ended by itself with code {server.returncode}."
        try:
            urllib.request.urlopen(address + "/healthz", timeout=5).close()
            return
        except (urllib.error.URLError, ConnectionError, TimeoutError):
            time.sleep(0.5)
    pytest.fail("The demonstration did not answer within two minutes.")


def _end(server: subprocess.Popen) -> None:
    server.terminate()
    try:
        server.wait(20)
    except subprocess.TimeoutExpired:
        os.killpg(server.pid, signal.SIGKILL)
        server.wait()
        raise


@pytest.fixture(scope="session")
def chromium():
    """The browser; where it is missing the journeys fail, they are not passed over."""
    from playwright.sync_api import sync_playwright

    if not os.path.exists(CHROMIUM):
        pytest.fail(f"There is no Chromium at {CHROMIUM}: apt-get install chromium, or set CHROMIUM.")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS, headless=True)
        yield browser
        browser.close()


@pytest.fixture
def window(chromium):
    """A function that opens a new window of a size, with an ear on its console.

    What ``looked_at`` found wrong on the way is told at the end, all of it.
    """
    contexts, wrong = [], {}

    def opened(screen: Screen):
        context = chromium.new_context(
            viewport={"width": screen.width, "height": screen.height},
            has_touch=screen.touch,
            locale="en-GB",
            timezone_id="Europe/London",
            reduced_motion="reduce",
        )
        context.set_default_timeout(30_000)
        contexts.append(context)
        page = context.new_page()
        page.problems, page.wrong = [], wrong
        page.on("console", lambda said: _note(page, said))
        page.on("pageerror", lambda error: page.problems.append(f"script: {error}"))
        return page

    yield opened
    for context in contexts:
        context.close()
    assert wrong == {}, json.dumps(wrong, indent=1)


def _note(page, said) -> None:
    if said.type in ("error", "warning"):
        page.problems.append(f"console: {said.text}")
