"""What all tests share: the option that rewrites the golden files."""

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--update", action="store_true", help="Rewrite tests/golden from the program.")
