"""Rules of accessibility that axe-core judges in a page, in every look that a reader may have.

Colours do not hang on the width of a window, and nothing else hangs on colours: so each state of a
page is judged whole once, then by its colours in each look, and by all else in each width.
"""

from collections.abc import Callable
from importlib.resources import files
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from playwright.sync_api import Page

TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
COLOURS = "color-contrast"
USUAL: dict[str, Any] = {"color_scheme": "light", "forced_colors": "none"}
LOOKS: list[dict[str, Any]] = [{"color_scheme": "dark"}, {"forced_colors": "active"}]
WINDOW = (1440, 900)
NARROW = [(1024, 768), (320, 640)]


def violations(page: "Page", colours: bool | None = None) -> list[str]:
    """What axe-core finds; pictures of pages are one image each to it.

    ``colours`` asks for the contrast of colours alone, or for all but that.
    """
    if not page.evaluate("() => Boolean(window.axe)"):
        axe = files("axe_playwright_python").joinpath("axe.min.js").read_text(encoding="utf-8")
        session = page.context.new_cdp_session(page)  # past the content security policy
        session.send("Runtime.evaluate", {"expression": axe})
        session.detach()
    asked: dict[str, object] = {"resultTypes": ["violations"], "runOnly": TAGS}
    if colours is not None:
        asked["rules"] = {COLOURS: {"enabled": colours}}
    if colours:
        asked["runOnly"] = [COLOURS]
    found = page.evaluate(
        """async asked => {
          const told = await axe.run({ exclude: ['.paper svg'] }, asked)
          return told.violations.flatMap(each => each.nodes.map(node =>
            `${each.id}: ${node.target} ${node.failureSummary}`))
        }""",
        asked,
    )
    return [str(each) for each in found]


def broken(
    page: "Page", parts: tuple[str, ...] = ("",), show: Callable[[str], object] = str
) -> list[str]:
    """What the state of a page breaks in light and dark, in the colours of the system, and in
    windows down to 320 px. Where these have no room for all, ``show`` brings up each of its
    ``parts``."""
    found = violations(page)
    for look in LOOKS:
        page.emulate_media(**{**USUAL, **look})
        found += [f"{look}: {each}" for each in violations(page, colours=True)]
    page.emulate_media(**USUAL)
    for wide, high in NARROW:
        page.set_viewport_size({"width": wide, "height": high})
        for part in parts:
            show(part)
            found += [f"{wide} {part}: {each}" for each in violations(page, colours=False)]
            if page.evaluate("() => document.documentElement.scrollWidth > innerWidth"):
                found.append(f"{wide} {part}: is wider than the window")
    page.set_viewport_size({"width": WINDOW[0], "height": WINDOW[1]})
    return found
