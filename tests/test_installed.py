"""Versions of libraries, against Python's own reader of them."""

import re
import sys
from importlib.metadata import distributions
from pathlib import Path

import pytest

from bindoff.installed import version_of


def test_every_installed_library_has_the_version_that_python_finds() -> None:
    found = {each.metadata["Name"]: each.version for each in reversed(list(distributions()))}
    assert {"pydantic", "reportlab", "PyYAML"} <= found.keys()
    plain = {name: _plain(version) for name, version in found.items()}
    assert {name: _plain(version_of(name)) for name in found} == plain


def _plain(version: str) -> str:
    """Without leading zeros, which the names of folders leave out: 2.006 is 2.6."""
    return re.sub(r"\b0+(?=\d)", "", version)


def test_a_library_that_is_not_installed_has_none() -> None:
    assert version_of("no-such-library-anywhere") == ""


def test_a_library_that_stands_first_in_the_way_counts(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "PyYAML-0.1.dist-info").mkdir()
    monkeypatch.setattr(sys, "path", [str(tmp_path), *sys.path])
    assert version_of("pyyaml") == "0.1"
