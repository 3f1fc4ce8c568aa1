"""Weighed swatches: possible at their gauge, and large enough for the scale."""

import pytest

from bindoff.files import MemoryFiles
from tests.faults.seeding import checked
from tests.small_patterns import CAP, WAVES, changed


def said(swatch: str) -> list[str]:
    text = changed(CAP, ("ball: 100 g = 200 m}", f"ball: 100 g = 200 m, swatch: {{{swatch}}}}}"))
    files = MemoryFiles({"pattern.yaml": text.encode(), "waves.grid": WAVES.encode()})
    return [found.message for found in checked(files) if found.id == "yarn.swatch"]


@pytest.mark.parametrize(
    "swatch",
    [
        "stitches: 1000, grams: 9.8",
        "stitches: 1000, grams: 8, scale: 0.1 g",
        "stitches: 2400, grams: 21",
        "stitches: 2400, grams: 24, edges weighed: true",
    ],
)
def test_a_sound_swatch_is_left_alone(swatch: str) -> None:
    """20 x 28 stitches hold 19.6 mm each (Munden 1959): 9.8 g a thousand at 2 m a gram."""
    assert said(swatch) == []


@pytest.mark.parametrize(("grams", "times"), [("98", "10 times"), ("0.98, scale: 0.1 g", "0.1 ")])
def test_a_decimal_point_that_slipped_is_told(grams: str, times: str) -> None:
    assert times in said(f"stitches: 1000, grams: {grams}")[0]


def test_rows_in_place_of_stitches_are_told() -> None:
    """Someone counted 42 stitches across and forgot the rows."""
    assert said("stitches: 42, grams: 20") != []


def test_a_swatch_too_small_for_its_scale_is_told() -> None:
    """5 % for the hand and half a gram in 3.9: 18 %, more than plain knitting has without one."""
    assert said("stitches: 400, grams: 3.9") == [
        "3.9 g on a scale of 1 g leave 18 % in doubt, and without a swatch it would be 11 %"
    ]
    assert said("stitches: 400, grams: 3.9, scale: 0.1 g") == []
