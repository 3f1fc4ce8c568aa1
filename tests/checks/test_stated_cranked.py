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


FLAP = """\
  flap:
    title: Flap
    worked: flat
    gauge: hand
    schematic: {shape: panel, lower edge: hand_width(30), height: hand_height(flap_rows)}
    steps:
      - cast on: 30
      - work: [k all, p all]
        rounds: flap_rows
      - bind off: all
"""


def said_with_a_flap(length: str, *changes: tuple[str, str]) -> list[str]:
    """The cowl with a flap by hand of 100 rows, 41.7 cm at 24 to 10 cm: 3 % of that are 3 rows."""
    text = changed(
        COWL + FLAP,
        ("  Length around: long\n", f"  Length: {length}\n"),
        ("  long: [60 cm, 70 cm]\n", "  long: [60 cm, 70 cm]\n  turns: rounds(long)\n"),
        ("  turns: rounds(long)\n", "  turns: rounds(long)\n  flap_rows: 100\n"),
        ("yarns:\n", "gauges:\n  hand: {stitches: 16, rounds: 24}\nyarns:\n"),
        *changes,
    )
    findings = check_pattern(MemoryFiles({"pattern.yaml": text}), "pattern.yaml", "cowl")
    return [each.message for each in findings if each.id == "stated.height"]


@pytest.mark.parametrize("length", ["height(turns + 2)", "hand_height(flap_rows + 2)"])
def test_rows_are_counted_by_hand_too_in_a_pattern_from_the_machine(length: str) -> None:
    (message,) = said_with_a_flap(length)

    assert "`Length`" in message


def test_the_height_of_a_schematic_is_held_to_the_rows_too() -> None:
    wrong = ("height: hand_height(flap_rows)", "height: hand_height(flap_rows + 2)")

    assert said_with_a_flap("long") == []
    assert len(said_with_a_flap("long", wrong)) == 1


def test_what_is_worked_to_a_length_has_slack() -> None:
    until = ("        rounds: flap_rows\n", "        until: 42 cm\n")

    assert said_with_a_flap("hand_height(flap_rows + 2)", until) == []
