"""The desk for people who see little, use no mouse, or hear the page (WCAG 2.2, level AA).

axe-core judges what a program can judge: names, roles, contrast, targets of 24 px.
"""

from typing import TYPE_CHECKING

from bindoff.desk.server import Running
from tests.axe import broken, violations
from tests.browser import needs_chromium
from tests.desk.driving import Opened, go_to, settled, told, written

if TYPE_CHECKING:
    from playwright.sync_api import Page

pytestmark = needs_chromium

LEAVE_OUT = """() => {
  for (const picture of document.querySelectorAll('.paper > svg')) picture.replaceChildren()
  for (const section of [...document.querySelectorAll('#text > section')].slice(3)) section.remove()
}"""


def broken_at_the_desk(
    page: "Page", parts: tuple[str, ...] = ("source", "pages", "read")
) -> list[str]:
    """The rules that a state of the desk breaks. Of pages and text, where one line is as another,
    little is left: each costs the judge as much as the first."""
    page.evaluate(LEAVE_OUT)
    show = "part => window.desk.layout.show(part)"
    return broken(page, parts, lambda part: page.evaluate(show, part))


def violations_at_the_desk(page: "Page") -> list[str]:
    """The same in the one look and size that the desk has now."""
    page.evaluate(LEAVE_OUT)
    return violations(page)


def test_no_rule_is_broken_while_one_works(desk: Running, opened: Opened) -> None:
    page = opened(desk)
    go_to(page, "  cast_on: stitches(around")
    page.keyboard.press("ArrowLeft")
    page.wait_for_selector("#reckoning h2", state="attached")
    assert broken_at_the_desk(page) == []
    go_to(page, "wearer: [infant, child, adult")
    written(page, "adultx]", lambda: page.keyboard.type("x"))
    page.wait_for_selector("#stale", state="attached")
    assert broken_at_the_desk(page) == []
    page.evaluate("() => window.desk.tellKeys()")
    assert violations(page) == []


def test_no_rule_is_broken_while_one_tries_and_comments(desk: Running, opened: Opened) -> None:
    """With another gauge, findings that may be silenced, a list of changes, comments, a tooltip."""
    page = opened(desk)
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
    assert broken_at_the_desk(page) == []
    go_to(page, "yarn: tar")
    page.keyboard.press("ArrowLeft")
    page.keyboard.press("Control+i")
    page.wait_for_selector(".about")
    assert violations(page) == []


def test_no_rule_is_broken_by_the_form(desk: Running, opened: Opened) -> None:
    page = opened(desk, "")
    page.click("text=Begin >> nth=-1")
    page.wait_for_selector(".field .wrong")
    assert broken(page) == []


def test_the_rules_are_judged_at_all(desk: Running, opened: Opened) -> None:
    page = opened(desk)
    page.evaluate("() => document.querySelector('#save').append(document.createElement('input'))")
    assert violations_at_the_desk(page) != []


def test_the_tab_key_visits_everything_in_order_and_is_caught_nowhere(
    desk: Running, opened: Opened
) -> None:
    page = opened(desk)
    page.evaluate("() => document.activeElement.blur()")
    visited: list[str] = []
    for _ in range(22):
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
    told(page, "1 error")


def test_every_page_is_named_and_the_text_stands_beside_it(desk: Running, opened: Opened) -> None:
    page = opened(desk)
    settled(page)
    count = page.locator(".sheet").count()
    names = page.eval_on_selector_all(".paper", "all => all.map(each => each.ariaLabel)")
    assert names == [f"Page {number} of {count}" for number in range(1, count + 1)]
    page.wait_for_selector("#text h3")
    assert page.locator("#text h3").count() > 5
