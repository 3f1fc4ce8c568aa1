"""A short run of the fuzzer, the same one every time; and what it found before stays mended."""

import json
from pathlib import Path

import pytest

from tests.hostile import fuzz_commands
from tests.hostile.fuzz import FOUND, PROMISED, fault, run


def test_two_hundred_mutated_patterns_raise_nothing_but_findings() -> None:
    stages, finds = run(200, seed=2026)
    assert finds == {}
    assert set(stages) >= {"source", "plan", "all"}, "the mutations must reach every stage"


def test_sixty_commands_on_mutated_patterns_and_pictures_end_in_words() -> None:
    ends, finds = fuzz_commands.run(60, seed=2028)
    assert finds == {}
    assert {end.partition(":")[0] for end in ends} >= {"build", "compare", "grid", "plan"}


@pytest.mark.parametrize("case", sorted(FOUND.glob("*.json")), ids=lambda path: path.stem)
def test_a_find_stays_mended(case: Path) -> None:
    """Beside other tests, in a process that holds much, a source takes twice its time."""
    files = json.loads(case.read_text(encoding="utf-8"))["files"]

    assert fault(files, pages=True, slowest=PROMISED) == ""
