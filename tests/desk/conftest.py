"""A browser for the tests of the desk, and a page of it that complains of nothing."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from bindoff.desk.server import Running
from tests.desk.driving import DEMO, Opened, settled
from tests.desk.running import copied, running

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return copied(tmp_path, DEMO)


@pytest.fixture
def desk(folder: Path) -> Iterator[Running]:
    with running(folder) as desk:
        yield desk


@pytest.fixture
def opened(browser: "Browser") -> Iterator[Opened]:
    """Opens a page; anything that the browser complains of fails the test."""
    complaints: list[str] = []
    contexts = []

    def open_page(desk: Running, pattern: str = DEMO, **settings: Any) -> "Page":
        size = {"width": 1440, "height": 900}
        context = browser.new_context(**{"viewport": size, "reduced_motion": "reduce", **settings})
        contexts.append(context)
        page = context.new_page()
        page.set_default_timeout(30_000)
        page.on("pageerror", lambda error: complaints.append(str(error)))
        page.on(
            "console",
            lambda told: complaints.append(told.text) if told.type == "error" else None,
        )
        page.goto(f"{desk.address}#pattern={pattern}" if pattern else desk.address)
        page.wait_for_selector("body[data-ready]")
        if pattern:
            settled(page)
        return page

    yield open_page
    for context in contexts:
        context.close()
    allowed = ("409 (Conflict)",)
    assert [each for each in complaints if not any(word in each for word in allowed)] == []
