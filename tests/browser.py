"""A real browser for tests: Debian's Chromium, driven by playwright; tests skip without either."""

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from playwright.sync_api import Browser

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")

needs_chromium = pytest.mark.skipif(CHROMIUM is None, reason="needs chromium")


@contextmanager
def chromium() -> Iterator["Browser"]:
    """A headless Chromium that ends with the ``with``."""
    api = pytest.importorskip("playwright.sync_api")
    with api.sync_playwright() as playwright:
        # Root, as CI is, has no sandbox; the pages shown are our own.
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        try:
            yield browser
        finally:
            browser.close()
