"""The text editions of the demos as they were last looked over, and the numbers of one.

A change of wording shows here word by word. ``pytest --update`` writes what the program gives now;
read the difference before it is committed.
"""

import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path

import pytest

from bindoff.files import DiskFiles
from bindoff.pipeline import build_pattern

HERE = Path(__file__).parent
PATTERNS = HERE.parents[1] / "patterns"
FILES = (
    "breakwater-cowl/breakwater-cowl.txt",
    "fairway-hat/fairway-hat.txt",
    "harbour-light-hat/harbour-light-hat.txt",
    "hawser-hat/hawser-hat.txt",
    "herring-quay-shawl/herring-quay-shawl.txt",
    "mooring-line-pullover/mooring-line-pullover.txt",
    "netmender-mittens/netmender-mittens.txt",
    "ropewalk-hat/ropewalk-hat.txt",
    "slipway-socks/slipway-socks.txt",
    "ropewalk-hat/numbers.json",
)


@cache
def built(name: str) -> Mapping[str, bytes]:
    return build_pattern(DiskFiles(str(PATTERNS / name)), "pattern.yaml", name).files


@pytest.mark.parametrize("file", FILES)
def test_a_demo_says_what_it_said(file: str, request: pytest.FixtureRequest) -> None:
    folder, name = file.split("/")
    golden = HERE / (name if name.startswith(folder) else f"{folder}-{name}")
    now = built(folder)[name].decode("utf-8")
    if request.config.getoption("--update"):
        golden.write_text(now, encoding="utf-8", newline="\n")

    assert golden.is_file(), "there is none yet: run pytest --update"
    assert now == golden.read_text(encoding="utf-8")


SEEN = re.compile(
    r"\b(?:box(?:es)?|brackets?|dash(?:es)?|dots?|parenthes[ei]s|text edition|this file)\b"
    r"|\d{4}-\d\d-\d\d|(?<![\d.])\([a-z]\)",
    re.IGNORECASE,
)
"""What only eyes see, and what a voice reads as signs."""


@pytest.mark.parametrize("file", [file for file in FILES if file.endswith(".txt")])
def test_a_text_speaks_of_nothing_that_only_eyes_see(file: str) -> None:
    folder, name = file.split("/")

    assert SEEN.findall(built(folder)[name].decode("utf-8")) == []


OTHERS = {"cap-book.txt", "cap-braille.txt", "cap-test-sheets.txt"}
"""Held by the tests of what they are."""


def test_no_golden_file_is_left_over() -> None:
    known = {f"{file.split('/')[0]}-numbers.json" for file in FILES if file.endswith(".json")}
    known |= {file.split("/")[1] for file in FILES if file.endswith(".txt")}

    assert {path.name for path in HERE.iterdir() if path.suffix in (".txt", ".json")} == (
        known | OTHERS
    )
