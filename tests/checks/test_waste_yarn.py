"""Waste yarn for the two ends of a tube."""

from math import sqrt

import pytest

from bindoff.files import MemoryFiles
from bindoff.pipeline import check_pattern
from tests.small_patterns import TUBE, WAVES, changed

# 24 needles, 8 rounds at either end; l = √(Ks ÷ S), S = 10 x 14 stitches in 100 cm², Ks 21.6
# washed (Munden 1959).
LOOP = sqrt(21.6 / 1.4) / 100
METRES = 16 * 24 * LOOP


def said(notion: str) -> list[str]:
    text = changed(TUBE, ("sizes:\n", f"notions: [{notion}]\nsizes:\n"))
    files = MemoryFiles({"pattern.yaml": text, "waves.grid": WAVES})
    findings = check_pattern(files, "pattern.yaml", "cap")
    return [each.message for each in findings if each.id == "notion.waste-yarn"]


def test_the_length_is_that_of_sixteen_rounds() -> None:
    assert pytest.approx(15.08, abs=0.05) == METRES
    assert said("Waste yarn about 15 m long") == [
        "15 m of waste yarn are listed, and the two ends of the tube take 16 m"
    ]
    assert said("Waste yarn about 16 m (16 yd) long") == []


def test_yards_are_told_in_yards() -> None:
    """15.1 m are 16.5 yd, at 0.9144 m a yard."""
    assert said("16 yards of scrap yarn") == [
        "16 yards of waste yarn are listed, and the two ends of the tube take 17 yards"
    ]
    assert said("17 yd of scrap yarn") == []


@pytest.mark.parametrize("notion", ["Waste yarn", "2 m of ribbon", "Waste yarn 5 mm thick"])
def test_what_gives_no_length_of_waste_yarn_is_left_alone(notion: str) -> None:
    assert said(notion) == []
