"""What all tests share: the option that rewrites the golden files, and no clock for properties."""

import pytest
from hypothesis import settings

# How long an example takes says more about the machine than about the program.
settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--update", action="store_true", help="Rewrite tests/golden from the program.")
