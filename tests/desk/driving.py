"""What a person does at the desk, for tests in a browser."""

from collections.abc import Callable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from playwright.sync_api import Page

DEMO = "ropewalk-hat"
Opened = Callable[..., "Page"]
"""Opens a page of a desk, on a pattern, with settings of the browser."""


LISTENING = """
addEventListener('DOMContentLoaded', () => {
  const place = document.querySelector('#announcer')
  if (!place) return
  window.heard = []
  new MutationObserver(all => all.flatMap(each => [...each.addedNodes])
    .forEach(each => window.heard.push(each.textContent)))
    .observe(place, { childList: true })
})
"""
"""Keeps each sentence that a screen reader is told: the next may follow before a test looks."""


def told(page: "Page", words: str) -> None:
    """Wait until a sentence is heard that was not asked for before."""
    page.wait_for_function(
        """words => {
          const at = window.heard.findIndex(each => each.includes(words))
          if (at >= 0) window.heard.splice(0, at + 1)
          return at >= 0
        }""",
        arg=words,
    )


def settled(page: "Page") -> None:
    """Wait until what is written has been built and shown."""
    page.wait_for_function(
        """() => {
          const { building, built, painted } = document.body.dataset
          return building && built === building
        }"""
    )


def written(page: "Page", text: str, by: Callable[[], None]) -> None:
    """Do something that changes the text, and wait until a build that follows it has ended."""
    before = page.evaluate("() => Number(document.body.dataset.building)")
    by()
    page.wait_for_function(
        """before => {
          const { building, built } = document.body.dataset
          return Number(building) > before && built === building
        }""",
        arg=before,
    )
    assert text in source(page)


def source(page: "Page") -> str:
    """The whole text of the file that is shown, also what is out of sight."""
    return str(page.evaluate("() => window.desk.editor.text(window.desk.editor.current)"))


def go_to(page: "Page", words: str) -> None:
    """Put the cursor behind the first place of some words."""
    page.evaluate(
        """words => {
          const { view } = window.desk.editor
          const at = view.state.doc.toString().indexOf(words) + words.length
          view.dispatch({ selection: { anchor: at }, scrollIntoView: true })
          view.focus()
        }""",
        words,
    )


def pages_text(page: "Page") -> str:
    return str(page.evaluate("() => document.querySelector('#sheets').textContent"))
