"""What a reader of the PDF can find in it: every count of ``numbers.json``, size by size."""

import io
import json
import re
from collections.abc import Iterator
from functools import cache
from itertools import combinations, pairwise
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from bindoff.files import DiskFiles
from bindoff.pipeline import build_pattern

ROOT = Path(__file__).parents[1]
PATTERNS = sorted(path.parent for path in (ROOT / "patterns").glob("*/pattern.yaml"))
each_pattern = pytest.mark.parametrize("pattern", PATTERNS, ids=lambda path: path.name)


@cache
def built(pattern: Path) -> tuple[str, dict[str, Any]]:
    """The words of the PDF on one line, and the numbers beside it."""
    files = build_pattern(DiskFiles(str(pattern)), "pattern.yaml", pattern.name).files
    pages = PdfReader(io.BytesIO(files[f"{pattern.name}.pdf"])).pages
    words = " ".join(page.extract_text() for page in pages)
    return " ".join(words.split()), json.loads(files["numbers.json"])


def is_printed(found: tuple[int, ...], words: str) -> bool:
    """As a row of a table, as a list of sizes, or as one number for all sizes.

    Neighbouring sizes that agree may share a column of the table.
    """
    figures = [f"{count:,}" for count in found]
    rows = [
        " ".join(f for at, f in enumerate(figures) if at not in joined)
        for some in range(len(figures))
        for joined in combinations(
            [n for n, (a, b) in enumerate(pairwise(figures), 1) if a == b], some
        )
    ]
    listed = f"{figures[0]} ({', '.join(figures[1:])})"
    whole = [listed, *(row for row in rows if " " in row or len(set(figures)) == 1)]
    return any(re.search(rf"(?<![\d.,]){re.escape(text)}(?![\d.,]*\d)", words) for text in whole)


def missing_counts(numbers: dict[str, Any], words: str) -> Iterator[str]:
    """Counts of worked steps and numbers of balls that the PDF does not have, all sizes in order.

    The rounds of a step may also stand beside its stitches in a line for each size, as in a table
    of shaping, or follow from the rounds worked so far before and after it.
    """
    for key, steps in numbers["pieces"].items():
        before = True
        for step in steps:
            rounds, so_far, live = (
                tuple(step[what].values()) for what in ("rounds", "rounds_so_far", "stitches")
            )
            beside = all(is_printed((r, s), words) for r, s in zip(rounds, live, strict=True))
            after = is_printed(so_far, words) or (beside and so_far == rounds)
            name = f"step {step['step']} of {key}"
            if any(rounds) and not (is_printed(rounds, words) or beside or (before and after)):
                yield f"rounds of {name}: {rounds}"
            if any(rounds) and not after:
                yield f"rounds so far at {name}: {so_far}"
            if any(live) and not (is_printed(live, words) or (any(rounds) and beside)):
                yield f"stitches after {name}: {live}"
            before = after
    for yarn, needs in numbers["yarn"].items():
        balls = tuple(need["balls"] for need in needs.values())
        if not is_printed(balls, words):
            yield f"balls of {yarn}: {balls}"


@each_pattern
def test_every_count_is_in_the_pdf(pattern: Path) -> None:
    words, numbers = built(pattern)

    assert list(missing_counts(numbers, words)) == []


@each_pattern
def test_a_count_that_is_not_there_is_missed(pattern: Path) -> None:
    """The check above sees it when any one number of the plan is another."""
    words, numbers = built(pattern)
    changed = json.loads(json.dumps(numbers))
    size = numbers["sizes"][0]
    steps = [step for steps in changed["pieces"].values() for step in steps]
    for step in steps:
        step["stitches"][size] += 7000

    live = [step for step in steps if any(step["stitches"].values())]
    assert len(list(missing_counts(changed, words))) >= len(live)


@each_pattern
def test_sizes_stand_in_one_order(pattern: Path) -> None:
    words, numbers = built(pattern)

    assert " ".join(numbers["sizes"]) in words


def test_the_search_tells_a_missing_count() -> None:
    """A list with one other count, and a number inside a longer one, are not found."""
    words = "Cast on 96 (104, 112) stitches. Work 12 rounds. Row 7 8 10"

    assert is_printed((96, 104, 112), words)
    assert is_printed((7, 8, 10), words)
    assert is_printed((12, 12, 12), words)
    assert not is_printed((96, 104, 113), words)
    assert not is_printed((2, 2, 2), words)
    assert not is_printed((10, 4, 11), words)
