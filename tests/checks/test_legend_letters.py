"""Two letters of a legend that each begin what the other stands for are told once."""

import pytest

from bindoff.files import MemoryFiles
from bindoff.pipeline import check_pattern
from tests.small_patterns import CAP, WAVES, changed


def found(legend: str, first: str, second: str) -> list[str]:
    grid = WAVES.replace(".", first).replace("#", second)
    text = changed(CAP, ('{".": slate, "#": foam}', legend))
    if "foam" not in legend:
        text = "".join(line for line in text.splitlines(keepends=True) if "  foam:" not in line)
    findings = check_pattern(
        MemoryFiles({"pattern.yaml": text, "waves.grid": grid}), "pattern.yaml", "own"
    )
    return [each.message for each in findings if each.id == "chart.legend-letters"]


@pytest.mark.parametrize(
    ("legend", "first", "second"),
    [
        ("{s: foam, f: slate}", "s", "f"),
        ("{k: p, p: k}", "k", "p"),
        ("{S: foam, F: slate}", "S", "F"),
    ],
)
def test_letters_that_are_changed_about_are_told(legend: str, first: str, second: str) -> None:
    assert found(legend, first, second) == [
        f"`{first}` and `{second}` in the legend of `waves` each begin what the other stands for"
    ]


@pytest.mark.parametrize(
    ("legend", "first", "second"),
    [
        ("{s: slate, f: foam}", "s", "f"),
        ('{".": foam, "#": slate}', ".", "#"),
        ("{k: k, p: p}", "k", "p"),
        ("{a: slate, b: foam}", "a", "b"),
        ("{f: slate, x: foam}", "f", "x"),
    ],
)
def test_other_legends_are_left_alone(legend: str, first: str, second: str) -> None:
    assert found(legend, first, second) == []
