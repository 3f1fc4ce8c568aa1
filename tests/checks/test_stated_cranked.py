"""Heights of cranked pieces, whose rows the counter shows: two rows too many are told."""

import pytest

from bindoff.files import MemoryFiles
from bindoff.pipeline import check_pattern
from tests.small_machine import COWL
from tests.small_patterns import changed


def said(length: str) -> list[str]:
    """What is found of a cowl of 60 and 70 cm, which are 84 and 98 rounds at 14 to 10 cm."""
    text = changed(
        COWL,
        ("  Length around: long\n", f"  Length: {length}\n"),
        ("  long: [60 cm, 70 cm]\n", "  long: [60 cm, 70 cm]\n  turns: rounds(long)\n"),
    )
    findings = check_pattern(MemoryFiles({"pattern.yaml": text}), "pattern.yaml", "cowl")
    return [each.message for each in findings if each.id == "stated.height"]


@pytest.mark.parametrize("length", ["height(turns + 2)", "height(turns - 1)"])
def test_a_length_of_other_rows_than_the_tube_has_is_told(length: str) -> None:
    (message,) = said(length)

    assert "`Length`" in message


@pytest.mark.parametrize("length", ["height(turns)", "long"])
def test_the_rows_of_the_tube_and_a_length_are_sound(length: str) -> None:
    assert said(length) == []
