"""Schematics are in true proportion, and every length has a measure line with its letter."""

from itertools import combinations, pairwise
from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.diagnostics import PatternError
from bindoff.document.drawing import Drawing, Label, Lines, Path
from bindoff.document.lettering import RING
from bindoff.document.measurelines import Lettered
from bindoff.document.schematic import Ink, draw
from bindoff.plan.outlines.given import given_outline
from bindoff.plan.outlines.shapes import Line, Measured, Outline, Side
from bindoff.source.shape import (
    GivenShape,
    HatShape,
    MittenShape,
    PanelShape,
    RingShape,
    TubeShape,
)
from tests.document.drawing_checks import clipped, extent, hidden_labels, labels

lengths = st.floats(20, 900)
SHAPES: tuple[type[GivenShape], ...] = (PanelShape, TubeShape, HatShape, MittenShape)
PANEL, TUBE, HAT, MITTEN = (object.__new__(shape) for shape in SHAPES)
HAND = {"around": 190.0, "cuff": 70.0, "to thumb": 60.0, "hand": 170.0, "thumb": 60.0}


def drawn(
    shape: GivenShape, mm: dict[str, float], max_mm: tuple[float, float] = (85.0, 80.0)
) -> tuple[Drawing, dict[str, float]]:
    """The drawing, and by letter how long a line on paper is for one mm of the piece."""
    outline = given_outline(shape, mm)
    return lettered(outline, max_mm)


def lettered(
    outline: Outline, max_mm: tuple[float, float] = (85.0, 80.0), look: Ink = Ink()
) -> tuple[Drawing, dict[str, float]]:
    some = [Lettered(chr(97 + at), each) for at, each in enumerate(outline.measures)]
    drawing = draw(outline, some, max_mm, look)
    (strokes,) = (s for s in drawing.shapes if isinstance(s, Lines) and s.width == 0.35)
    middles = [((a + c) / 2, (b + d) / 2) for a, b, c, d in strokes.segments]
    ends = list(zip(middles[::2], middles[1::2], strict=True))
    longest_last = sorted(some, key=lambda each: _long(each.measure.start, each.measure.end))
    return drawing, {
        each.letter: _long(*pair) / _long(each.measure.start, each.measure.end)
        for each, pair in zip(longest_last, ends, strict=True)
    }


def _long(a: tuple[float, float], b: tuple[float, float]) -> float:
    return hypot(b[0] - a[0], b[1] - a[1])


def legible(drawing: Drawing) -> None:
    """No letter is hidden, and no ring lies on another one or on what is not its own line."""
    assert clipped(drawing) == []
    assert hidden_labels(drawing) == []
    rings = [
        extent(shape)
        for shape, letter in pairwise(drawing.shapes)
        if isinstance(shape, Path) and isinstance(letter, Label)
    ]
    assert len(rings) == len(labels(drawing))
    for one, other in combinations(rings, 2):
        middles = [((left + right) / 2, (top + low) / 2) for left, top, right, low in (one, other)]
        assert _long(*middles) > (one[2] - one[0] + other[2] - other[0]) / 2


@pytest.mark.parametrize(
    ("shape", "mm"),
    [
        (TUBE, {"around": 510.0, "depth": 210.0, "brim": 50.0}),
        (TUBE, {"around": 510.0, "depth": 210.0}),
        (HAT, {"around": 500.0, "body": 140.0, "crown": 90.0, "brim": 50.0}),
        (HAT, {"around": 500.0, "body": 140.0, "crown": 90.0}),
        (MITTEN, HAND),
        (PANEL, {"lower edge": 200.0, "height": 260.0, "upper edge": 340.0}),
    ],
)
def test_one_scale_for_all_lengths_and_all_letters_legible(
    shape: GivenShape, mm: dict[str, float]
) -> None:
    drawing, scales = drawn(shape, mm)

    assert sorted(scales) == list("abcdef"[: len(mm)])
    assert {label.text for label in labels(drawing)} == set(scales)
    assert list(scales.values()) == [pytest.approx(scales["a"], rel=1e-6)] * len(mm)
    legible(drawing)


@given(lengths, lengths, lengths)
def test_flat_panels_of_any_shape(bottom: float, height: float, top: float) -> None:
    mm = {"lower edge": bottom, "height": height, "upper edge": top}
    drawing, scales = drawn(PANEL, mm)

    assert clipped(drawing) == []
    assert list(scales.values()) == [pytest.approx(scales["a"], rel=1e-6)] * 3


@given(lengths, lengths, st.floats(0.05, 1.0), st.floats(30, 120), st.floats(40, 120))
def test_a_drawing_fills_the_space_it_is_given_and_no_more(
    around: float, depth: float, share: float, across: float, down: float
) -> None:
    mm = {"around": around, "depth": depth, "brim": depth * share}
    drawing, _ = drawn(TUBE, mm, (across, down))

    assert drawing.width <= across + 0.01
    assert drawing.height <= down + 0.01
    assert drawing.width > across * 0.9 or drawing.height > down * 0.9
    legible(drawing)


def square(*measures: tuple[str, tuple[float, float], tuple[float, float], Side]) -> Outline:
    box: Line = ((0.0, 0.0), (400.0, 0.0), (400.0, 400.0), (0.0, 400.0))
    return Outline(
        "a square",
        (box,),
        tuple(Measured(name, 1.0, start, end, side) for name, start, end, side in measures),
    )


def test_lines_that_would_cover_each_other_stand_in_rows() -> None:
    drawing, scales = lettered(
        square(
            ("low", (0.0, 400.0), (0.0, 200.0), "left"),
            ("high", (0.0, 200.0), (0.0, 0.0), "left"),
            ("whole", (0.0, 400.0), (0.0, 0.0), "left"),
            ("slope", (0.0, 0.0), (400.0, 400.0), "along"),
            ("part", (0.0, 0.0), (200.0, 200.0), "along"),
        )
    )
    across = {label.text: label.x for label in labels(drawing)}

    assert across["a"] == pytest.approx(across["b"])
    assert across["a"] - across["c"] == pytest.approx(5.0)
    assert len({round(scale, 6) for scale in scales.values()}) == 1
    legible(drawing)


def test_letters_of_short_lines_stand_beside_them_and_apart() -> None:
    measures = [
        (f"part {n}", (0.0, 400.0 - 10 * n), (0.0, 390.0 - 10 * n), "left") for n in range(4)
    ]
    drawing, _ = lettered(square(*measures))  # type: ignore[arg-type]

    legible(drawing)


def test_a_letter_beside_a_short_line_is_clear_of_the_line_that_measures_more() -> None:
    """A short part and the whole, side by side: the letter of the part is no nearer to the line of
    the whole than its ring is wide."""
    drawing, _ = lettered(
        square(
            ("part", (0.0, 400.0), (0.0, 380.0), "left"),
            ("whole", (0.0, 400.0), (0.0, 0.0), "left"),
        )
    )
    part, whole = sorted(labels(drawing), key=lambda label: label.text)
    below = part.y - drawing.height / 2 > 0

    assert below
    assert part.y > whole.y + 20
    assert abs(part.x - whole.x) > 3.2 * RING + 0.5


def test_large_letters_leave_the_drawing_whole() -> None:
    drawing, _ = lettered(given_outline(MITTEN, HAND), (158.0, 95.0), Ink(6.35))

    assert {label.size for label in drawing.shapes if isinstance(label, Label)} == {6.35}
    legible(drawing)


def test_large_letters_stand_off_the_piece_and_from_each_other_by_a_share_of_their_size() -> None:
    """A part and the whole beside a square: a sixth of the type size is white at the least."""
    size = 6.35
    drawing, _ = lettered(
        square(
            ("part", (0.0, 400.0), (0.0, 100.0), "left"),
            ("whole", (0.0, 400.0), (0.0, 0.0), "left"),
        ),
        (158.0, 95.0),
        Ink(size),
    )
    edge = min(extent(s)[0] for s in drawing.shapes if isinstance(s, Path) and s.fill == "#f4f4f4")
    part, whole = sorted(labels(drawing), key=lambda label: label.text)

    assert edge - part.x > size * (RING + 1 / 6)
    assert part.x - whole.x > size * (2 * RING + 1 / 6)


@pytest.mark.parametrize("length", [0.0, -10.0, float("nan")])
def test_a_length_that_is_not_above_nothing_is_refused(length: float) -> None:
    with pytest.raises(PatternError, match="`depth` is"):
        given_outline(TUBE, {"around": 100.0, "depth": length})


def test_a_part_longer_than_its_whole_is_refused() -> None:
    with pytest.raises(PatternError, match=r"`brim` .* longer than `depth`"):
        given_outline(TUBE, {"around": 100.0, "depth": 200.0, "brim": 201.0})
    with pytest.raises(PatternError, match=r"`to thumb` .* longer than `hand`"):
        given_outline(MITTEN, HAND | {"to thumb": 171.0})


def test_letters_that_leave_no_room_are_refused() -> None:
    with pytest.raises(PatternError, match="leave no room"):
        drawn(TUBE, {"around": 100.0, "depth": 100.0}, (8.0, 8.0))


@given(lengths, lengths)
def test_the_front_of_a_ring_is_half_as_long_as_the_ring(around: float, wide: float) -> None:
    """So that its fabric, laid between the two edges of the front, keeps its size."""
    mm = {"length": around, "width": wide}
    outline = given_outline(object.__new__(RingShape), mm)
    front = next(part for part in outline.parts if part.name == "front")

    for edge in (front.one, front.other):
        assert sum(_long(a, b) for a, b in pairwise(edge)) == pytest.approx(around / 2)
    drawing, _ = drawn(object.__new__(RingShape), mm)
    legible(drawing)
