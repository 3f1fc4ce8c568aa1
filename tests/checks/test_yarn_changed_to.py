"""A yarn that is changed to together with something else is looked for among the yarns."""

import pytest

from bindoff.files import MemoryFiles
from bindoff.pipeline import check_pattern
from tests.small_patterns import CAP, WAVES, changed


def told(sentence: str) -> list[str]:
    text = changed(CAP, ("      - crown: 8", f"      - say: {sentence}\n      - crown: 8"))
    files = MemoryFiles({"pattern.yaml": text, "waves.grid": WAVES})
    findings = check_pattern(files, "pattern.yaml", "own")
    return [each.message for each in findings if "no yarn called" in each.message]


@pytest.mark.parametrize(
    "sentence",
    [
        "Change to the larger needles and Lagoon again.",
        "Change to the smaller needle and back to Lagoon.",
        "Switch needles and again to Lagoon, as before.",
    ],
)
def test_a_yarn_that_is_not_there_is_told(sentence: str) -> None:
    assert told(sentence) == ["there is no yarn called `Lagoon`"]


@pytest.mark.parametrize(
    "sentence",
    [
        "Change to the larger needles and Slate again.",
        "Change to the larger needles and purl the next round.",
        "Change needles and Foam goes on to the end.",
        "Change to double-pointed needles and knit to the end.",
    ],
)
def test_what_is_there_is_left_alone(sentence: str) -> None:
    assert told(sentence) == []
