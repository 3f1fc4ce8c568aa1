"""A desk and a window on it for the tests, which complains of nothing.

One desk serves all tests of a process and one page is loaded anew for each, because starting either
takes longer than most tests. Each test finds the folder as it was, and nothing kept in the page.
"""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from bindoff.desk.server import Running
from tests.axe import USUAL, WINDOW
from tests.desk.driving import DEMO, LISTENING, Opened, settled
from tests.desk.running import copied, emptied, running

if TYPE_CHECKING:
    from playwright.sync_api import Browser, ConsoleMessage, Page

SEEN: Any = {"width": WINDOW[0], "height": WINDOW[1]}


@pytest.fixture(scope="session")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Running, Path]]:
    """A desk and its folder."""
    folder = tmp_path_factory.mktemp("desk")
    with running(folder) as desk:
        yield desk, folder


@pytest.fixture
def folder(served: tuple[Running, Path]) -> Path:
    """The folder of the desk, with the demo in it and nothing else."""
    _, folder = served
    emptied(folder)
    return copied(folder, DEMO)


@pytest.fixture
def desk(served: tuple[Running, Path], folder: Path) -> Running:
    return served[0]


@pytest.fixture
def reading(folder: Path) -> Iterator[Running]:
    """A desk over the same folder that is for reading only."""
    with running(folder, read_only=True) as desk:
        yield desk


class Window:
    """A page, and what the browser complained of in it."""

    def __init__(self, browser: "Browser", **settings: Any) -> None:
        self.context = browser.new_context(
            **{"viewport": SEEN, "reduced_motion": "reduce", **USUAL, **settings}
        )
        self.context.add_init_script(LISTENING)
        self.page = self.context.new_page()
        self.complaints: list[str] = []
        self.page.set_default_timeout(30_000)
        self.page.on("dialog", lambda dialog: dialog.accept())
        self.page.on("pageerror", lambda error: self.complaints.append(str(error)))
        self.page.on("console", self._told)

    def _told(self, told: "ConsoleMessage") -> None:
        # For the picture that it waits at, a browser asks for an icon by a name of its own.
        if told.type == "error" and not told.location["url"].endswith("/favicon.ico"):
            self.complaints.append(told.text)

    def empty(self) -> None:
        """Forget what was written and kept, and show next to nothing.

        That is a picture of the same desk: for any other page the browser starts a new process.
        """
        self.page.evaluate(
            """() => {
              window.desk?.editor.open([])
              sessionStorage.clear()
              localStorage.clear()
            }"""
        )
        self.page.goto(f"{self.page.url.partition('#')[0]}static/icon.svg")
        self.page.set_viewport_size(SEEN)
        self.page.emulate_media(**USUAL)
        self.complaints.clear()


@pytest.fixture(scope="session")
def window(browser: "Browser") -> Window:
    """The page that is loaded anew by all tests that ask for no other."""
    return Window(browser)


@pytest.fixture
def opened(browser: "Browser", window: Window) -> Iterator[Opened]:
    """Opens a page; anything that the browser complains of fails the test.

    A second page of a test, and one with ``settings`` of its own, is in a window of its own. One
    that is only of another ``size`` is not: a new window has yet to fetch script and typefaces.
    """
    windows: list[Window] = []

    def open_page(
        desk: Running, pattern: str = DEMO, size: tuple[int, int] = WINDOW, **settings: Any
    ) -> "Page":
        own = settings or windows
        windows.append(Window(browser, **settings) if own else window)
        page = windows[-1].page
        page.set_viewport_size({"width": size[0], "height": size[1]})
        page.goto(f"{desk.address}#pattern={pattern}" if pattern else desk.address)
        page.wait_for_selector("body[data-ready]")
        if pattern:
            settled(page)
        return page

    yield open_page
    complaints = [each for seen in windows for each in seen.complaints]
    for seen in windows:
        seen.empty()
        if seen is not window:
            seen.context.close()
    allowed = ("409 (Conflict)",)
    assert [each for each in complaints if not any(word in each for word in allowed)] == []
