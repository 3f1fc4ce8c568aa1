"""Symbols stay in their cells, differ from each other, and show on every colour."""

from itertools import combinations

import pytest
from coloraide import Color
from hypothesis import given

from bindoff.document.charts.symbols import (
    COLOUR_SYMBOLS,
    SYMBOLS,
    Symbol,
    faded,
    ink_on,
    symbol_of,
)
from bindoff.light import contrast, luminance
from tests.document.chart_cases import colours

Point = tuple[float, float]


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [
        ("#000000", "#ffffff", 21.0),
        ("#767676", "#ffffff", 4.542),
        ("#777777", "#ffffff", 4.478),
        ("#949494", "#ffffff", 3.033),
        ("#595959", "#ffffff", 7.005),
        ("#ff0000", "#ffffff", 3.998),
        ("#0000ff", "#ffffff", 8.592),
        ("#0000ff", "#ff0000", 2.149),
    ],
)
def test_contrast_of_known_pairs(one: str, other: str, ratio: float) -> None:
    """WCAG 2.2, success criterion 1.4.3: #767676 is the lightest grey that passes 4.5 on white."""
    assert contrast(one, other) == contrast(other, one) == pytest.approx(ratio, abs=0.001)


@given(one=colours, other=colours)
def test_contrast_agrees_with_a_colour_library(one: str, other: str) -> None:
    reference = Color(one).contrast(other, method="wcag21")

    assert contrast(one, other) == pytest.approx(reference, rel=2e-3)


@given(colours)
def test_the_ink_reads_on_any_colour(colour: str) -> None:
    """WCAG 2.2 asks 4.5 to 1 for text; a chart symbol is read like a letter."""
    assert contrast(ink_on(colour), colour) >= 4.5


@given(colours)
def test_fading_only_lightens(colour: str) -> None:
    assert luminance(faded(colour)) >= luminance(colour)
    assert faded(colour, 1.0) == "#ffffff"
    assert faded(colour, 0.0) == colour


def _numbers(symbol: Symbol) -> list[tuple[float, float]]:
    return [
        (float(numbers[place]), float(numbers[place + 1]))
        for commands in (symbol.strokes, symbol.fills)
        for _, *numbers in commands
        for place in range(0, len(numbers), 2)
    ]


CROSSES = [
    f"{purl}cable {front}/{back} {side}"
    for purl in ("", "purl ")
    for side in ("right", "left")
    for front in range(1, 5)
    for back in range(1, 5)
]


@pytest.mark.parametrize("name", [*SYMBOLS, *CROSSES])
def test_a_symbol_keeps_clear_of_the_lines_around_its_cells(name: str) -> None:
    symbol = symbol_of(name)
    for x, y in _numbers(symbol):
        assert 0.05 <= x <= symbol.wide - 0.05
        assert 0.05 <= y <= 0.95


def test_yarn_marks_all_differ_in_shape_and_in_words() -> None:
    marks = [SYMBOLS[name] for name in COLOUR_SYMBOLS]

    assert len({(mark.strokes, mark.fills) for mark in marks}) == len(marks)
    assert len({mark.picture for mark in marks}) == len(marks)
    assert marks[0] == Symbol("empty cell", name="blank")


def test_every_stitch_symbol_but_knit_is_drawn() -> None:
    empty = [name for name, s in SYMBOLS.items() if not (s.strokes or s.fills or s.shade)]

    assert empty == ["blank", "knit"]


@pytest.mark.parametrize(
    ("left", "right"),
    [
        ("ssk", "k2tog"),
        ("ssp", "p2tog"),
        ("sssk", "k3tog"),
        ("make 1 left", "make 1 right"),
        ("cable 2/1 left", "cable 2/1 right"),
        ("cable 3/3 left", "cable 3/3 right"),
    ],
)
def test_left_and_right_mirror_each_other(left: str, right: str) -> None:
    wide = symbol_of(left).wide
    mirrored = {(round(wide - x, 6), y) for x, y in _numbers(symbol_of(left))}

    assert mirrored == {(round(x, 6), y) for x, y in _numbers(symbol_of(right))}


def test_decreases_lean_the_way_their_stitch_leans() -> None:
    """The trade's convention: k2tog leans to the right, as / does; ssk to the left."""
    (x1, y1), (x2, y2) = _numbers(SYMBOLS["k2tog"])

    assert (x2 - x1) * (y2 - y1) < 0  # y runs down


@pytest.mark.parametrize("front", [1, 2, 3, 4])
@pytest.mark.parametrize("back", [1, 2, 3, 4])
def test_only_the_stitches_on_top_of_a_cable_are_unbroken(front: int, back: int) -> None:
    """In the trade's cable symbol the unbroken line is the stitches on top."""
    symbol = symbol_of(f"cable {front}/{back} right")
    points = _numbers(symbol)
    strokes = list(zip(points[::2], points[1::2], strict=True))
    unbroken = [s for s in strokes if abs(s[0][1] - s[1][1]) > 0.8]

    assert symbol.wide == front + back
    assert len(unbroken) == 2
    for (x1, y1), (x2, y2) in unbroken:
        assert (x2 - x1) * (y2 - y1) < 0
        assert abs(x2 - x1) == pytest.approx(back)
    for (start, end), (other_start, other_end) in combinations(strokes, 2):
        assert not _cross(start, end, other_start, other_end)


def _cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether the inside of two strokes meet; touching ends do not count."""

    def turn(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    limit = 1e-6
    return turn(a, b, c) * turn(a, b, d) < -limit and turn(c, d, a) * turn(c, d, b) < -limit
