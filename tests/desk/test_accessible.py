"""The desk for people who see little, use no mouse, or hear the page (WCAG 2.2, level AA).

axe-core judges what a program can judge: names, roles, contrast, targets of 24 px.
"""

from importlib.resources import files
from typing import TYPE_CHECKING, Any

import pytest

from bindoff.desk.server import Running
from tests.browser import needs_chromium
from tests.desk.driving import Opened, go_to, settled, written

if TYPE_CHECKING:
    from playwright.sync_api import Page

pytestmark = needs_chromium

TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
SETTINGS: list[dict[str, Any]] = [
    {},
    {"color_scheme": "dark"},
    {"forced_colors": "active"},
    {"viewport": {"width": 320, "height": 640}},
    {"viewport": {"width": 1024, "height": 768}},
]
IDS = ["usual", "dark", "forced-colours", "320px", "1024px"]


def violations(page: "Page") -> list[str]:
    """What axe-core finds; pictures of pages are one image each to it."""
    axe = files("axe_playwright_python").joinpath("axe.min.js").read_text(encoding="utf-8")
    session = page.context.new_cdp_session(page)
    session.send("Runtime.evaluate", {"expression": axe})
    found = page.evaluate(
        """async tags => {
          const told = await axe.run({ exclude: ['.paper svg'] },
            { runOnly: tags, resultTypes: ['violations'] })
          return told.violations.flatMap(each => each.nodes.map(node =>
            `${each.id}: ${node.target} ${node.failureSummary}`))
        }""",
        TAGS,
    )
    return [str(each) for each in found]


@pytest.mark.parametrize("settings", SETTINGS, ids=IDS)
def test_no_rule_is_broken_while_one_works(
    desk: Running, opened: Opened, settings: dict[str, Any]
) -> None:
    page = opened(desk, **settings)
    assert violations(page) == []
    go_to(page, "  cast_on: stitches(around")
    page.keyboard.press("ArrowLeft")
    page.wait_for_selector("#reckoning h2", state="attached")
    assert violations(page) == []
    go_to(page, "wearer: [infant, child, adult")
    written(page, "adultx]", lambda: page.keyboard.type("x"))
    page.wait_for_selector("#stale", state="attached")
    for view in ("source", "pages", "read"):
        page.evaluate("view => window.desk.layout.show(view)", view)
        assert violations(page) == []
    page.evaluate("() => window.desk.tellKeys()")
    assert violations(page) == []
    page.keyboard.press("Escape")
    page.evaluate("() => window.desk.editor.open([])")


@pytest.mark.parametrize("settings", SETTINGS, ids=IDS)
def test_no_rule_is_broken_while_one_tries_and_comments(
    desk: Running, opened: Opened, settings: dict[str, Any]
) -> None:
    """With another gauge, findings that may be silenced, a list of changes, comments, a tooltip."""
    page = opened(desk, **settings)
    page.fill("#gauge-stitches", "20")
    page.wait_for_selector("#changed li", state="attached")
    page.wait_for_selector(".silencing", state="attached")
    page.evaluate("() => { document.querySelector('.silencing').open = true }")
    page.evaluate("() => { const box = document.querySelector('#beside'); box.click() }")
    page.wait_for_selector(".sheet.old svg", state="attached")
    page.evaluate(
        """() => window.desk.comments.do({
          do: 'add', file: 'pattern.yaml', line: 81, size: 'M',
          text: 'Is it so?', by: 'Ada', date: '2026-11-29',
        })"""
    )
    page.wait_for_selector(".comment", state="attached")
    for view in ("source", "pages", "read"):
        page.evaluate("view => window.desk.layout.show(view)", view)
        assert violations(page) == []
        assert page.evaluate("() => document.documentElement.scrollWidth <= innerWidth")
    page.evaluate("() => window.desk.layout.show('source')")
    go_to(page, "yarn: tar")
    page.keyboard.press("ArrowLeft")
    page.keyboard.press("Control+i")
    page.wait_for_selector(".about")
    assert violations(page) == []


@pytest.mark.parametrize("settings", SETTINGS, ids=IDS)
def test_no_rule_is_broken_by_the_form(
    desk: Running, opened: Opened, settings: dict[str, Any]
) -> None:
    page = opened(desk, "", **settings)
    page.click("text=Begin >> nth=-1")
    page.wait_for_selector("#faults li")
    assert violations(page) == []
    assert page.evaluate("() => document.documentElement.scrollWidth <= innerWidth")


def test_the_rules_are_judged_at_all(desk: Running, opened: Opened) -> None:
    page = opened(desk)
    page.evaluate("() => document.querySelector('#save').append(document.createElement('input'))")
    assert violations(page) != []


def test_the_tab_key_visits_everything_in_order_and_is_caught_nowhere(
    desk: Running, opened: Opened
) -> None:
    page = opened(desk)
    page.evaluate("() => document.activeElement.blur()")
    visited: list[str] = []
    for _ in range(20):
        page.keyboard.press("Tab")
        visited.append(
            page.evaluate(
                """() => {
                  const { id, className, dataset } = document.activeElement
                  return id || dataset.of || className.split(' ')[0]
                }"""
            )
        )
    order = [
        *("pattern", "size", "edition", "zoom", "pdf", "make", "keys"),
        *("tab-pattern.yaml", "cm-content", "source", "sheets", "read", "scroll"),
    ]
    places = [visited.index(each) for each in order]
    assert places == sorted(places)


def test_changes_are_told_in_one_polite_sentence(desk: Running, opened: Opened) -> None:
    page = opened(desk)
    assert page.get_attribute("#announcer", "aria-live") == "polite"
    go_to(page, "- cast on: cast_on")
    written(page, "cast_onx", lambda: page.keyboard.type("x"))
    page.wait_for_function(
        "() => /^[0-9]+ error/.test(document.querySelector('#announcer').textContent)"
    )
    page.evaluate("() => window.desk.editor.open([])")


def test_every_page_is_named_and_the_text_stands_beside_it(desk: Running, opened: Opened) -> None:
    page = opened(desk)
    settled(page)
    count = page.locator(".sheet").count()
    names = page.eval_on_selector_all(".paper", "all => all.map(each => each.ariaLabel)")
    assert names == [f"Page {number} of {count}" for number in range(1, count + 1)]
    page.wait_for_selector("#text h3")
    assert page.locator("#text h3").count() > 5
