"""What all tests share: the option that rewrites the golden files, and how properties are tried."""

import os
import signal
from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest
from hypothesis import settings

if TYPE_CHECKING:
    from playwright.sync_api import Browser

# How long an example takes says more about the machine than about the program. A run of all tests
# draws the same examples each time, so that what fails is what was changed; to look for more,
# ``pytest --hypothesis-profile=anew`` draws others in each run.
settings.register_profile("settled", deadline=None, derandomize=True)
settings.register_profile("anew", deadline=None)
settings.load_profile("settled")

# A run in the background ignores Ctrl-C, and so would each command that a test interrupts.
if signal.getsignal(signal.SIGINT) == signal.SIG_IGN:
    signal.signal(signal.SIGINT, signal.default_int_handler)


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_auto_num_workers() -> int:
    """One more than there are processors: half of the time, tests in a browser wait for it."""
    return (os.cpu_count() or 1) + 1


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--update", action="store_true", help="Rewrite tests/golden from the program.")


@pytest.fixture(scope="session")
def browser() -> "Iterator[Browser]":
    """One browser for all tests that look at pages in it: a process can drive no second."""
    from tests.browser import chromium

    with chromium() as browser:
        yield browser
