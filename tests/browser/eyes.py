"""What is looked at on every page of a journey: axe, the console, targets, width, pictures.

Each look gives back complaints in words; an empty list is a page that can be used.
"""

import contextlib
from pathlib import Path

from tests.conftest import PICTURES

#: Every rule of WCAG 2.2 A and AA, and what axe calls best practice.
RULES = {
    "runOnly": {
        "type": "tag",
        "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa", "best-practice"],
    }
}
LEAST_TARGET = 44
#: What a finger is meant for. A link inside a sentence is as high as its line (WCAG 2.5.8 exempts it).
TARGETS = """() => {
  const meant = 'button, .button, input:not([type=hidden]), select, textarea, label.choice, ' +
    'summary, nav a, a.plate';
  const found = [];
  for (const one of document.querySelectorAll(meant)) {
    const box = one.getBoundingClientRect();
    if (!box.width || !box.height || getComputedStyle(one).visibility === 'hidden') continue;
    if (one.closest('.trail') || one.matches('input[type=radio], input[type=checkbox]')) continue;
    const words = (one.innerText || one.name || '').trim().slice(0, 40);
    if (box.height < LEAST - 0.5) found.push(`${one.tagName} "${words}" is ${box.height} px high`);
    else if (one.matches('nav a') && box.width < LEAST - 0.5)
      found.push(`${one.tagName} "${words}" is ${box.width} px wide`);
  }
  return found;
}"""
WIDTH = "() => document.scrollingElement.scrollWidth - document.documentElement.clientWidth"


def complaints(page) -> list[str]:
    """Everything that is wrong with the page as it stands."""
    return [*axe(page), *small_targets(page), *too_wide(page), *page.problems]


def axe(page) -> list[str]:
    """What axe finds, by rule and by the first element."""
    from axe_playwright_python.sync_playwright import Axe

    answer = Axe().run(page, options=RULES).response
    if not answer["passes"]:
        return ["axe looked at nothing"]
    return [
        f"axe {found['id']}: {found['help']} ({found['nodes'][0]['html'][:160]})"
        for found in answer["violations"]
    ]


def small_targets(page) -> list[str]:
    """What is too small for a floury finger."""
    return page.evaluate(TARGETS.replace("LEAST", str(LEAST_TARGET)))


def too_wide(page) -> list[str]:
    """The page itself never slides sideways; a wide picture does so inside its own frame."""
    over = page.evaluate(WIDTH)
    return [f"the page is {over} px too wide"] if over > 1 else []


def keep_picture(page, name: str) -> Path:
    """A picture of the page under .data/pictures, for whoever wants to see what failed."""
    PICTURES.mkdir(parents=True, exist_ok=True)
    path = PICTURES / f"{name}.png"
    with contextlib.suppress(Exception):
        page.screenshot(path=str(path), full_page=True)
    return path
