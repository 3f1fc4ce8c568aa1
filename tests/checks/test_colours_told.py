"""Colours in words, held against the yarns of the chart that they speak of."""

import pytest

from bindoff.files import MemoryFiles
from bindoff.pipeline import check_pattern
from tests.small_patterns import CAP, changed


def found(words: str, grid: str) -> list[str]:
    """What `check` says of colours where a chart of Coal and Spark shows a flame."""
    text = changed(
        CAP,
        ("A plain cap with a band of waves.", f"A plain cap with {words}."),
        ("title: Waves", "title: Flame"),
        ("alt: Low light waves on a dark ground.", "alt: Flames side by side."),
        ('name: Slate, colour: "#46566b"', 'name: Coal, colour: "#26282b"'),
        ('name: Foam, colour: "#e9eef0"', 'name: Spark, colour: "#e2a33a"'),
    )
    files = MemoryFiles({"pattern.yaml": text, "waves.grid": grid})
    every = check_pattern(files, "pattern.yaml", "own")
    return [each.message for each in every if each.id == "prose.colour"]


FEW, MOST = "..#.\n.##.\n.#..\n....\n", "#.##\n####\n#.##\n####\n"


@pytest.mark.parametrize("grid", [FEW, MOST])
def test_a_colour_that_a_yarn_of_the_chart_can_be_called_is_not_denied(grid: str) -> None:
    """Spark, #e2a33a, is a yellow and an orange, whether it makes the ground or the flame."""
    assert found("a yellow flame", grid) == []
    assert found("an orange flame", grid) == []


@pytest.mark.parametrize("grid", [FEW, MOST])
def test_of_a_colour_that_no_yarn_has_the_nearest_yarn_is_named(grid: str) -> None:
    """Coal is next to black: it has no hue that green could be near."""
    assert found("a green flame", grid) == [
        "`green flame` stands here, and the nearest of its yarns is Spark"
    ]
