"""Schematics are in true proportion, and every length has a dimension line with its label."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.diagnostics import PatternError
from bindoff.document.drawing import Drawing, Lines
from bindoff.document.schematic import Extent, Schematic, hat, mitten, panel, tube
from tests.document.drawing_checks import clipped, hidden_labels, label_box, labels

lengths = st.floats(20, 900)


def dimension(drawing: Drawing, text: str) -> float:
    """The length on paper of the dimension line that a label stands beside."""
    (label,) = (found for found in labels(drawing) if found.text == text)
    left, top, right, bottom = label_box(label)
    x, y = (left + right) / 2, (top + bottom) / 2
    lines = next(
        shape for shape in drawing.shapes if isinstance(shape, Lines) and shape.width == 0.2
    )

    def distance(segment: tuple[float, float, float, float]) -> float:
        x1, y1, x2, y2 = segment
        return abs((x1 + x2) / 2 - x) + abs((y1 + y2) / 2 - y)

    x1, y1, x2, y2 = min(lines.segments, key=distance)
    return abs(x2 - x1) + abs(y2 - y1)


def check(schematic: Schematic, *extents: Extent | None) -> None:
    """One scale for all lengths, all labels legible, nothing cut off."""
    drawing = schematic.drawing
    given_ones = [extent for extent in extents if extent is not None]
    assert [name for _, name in schematic.labels] == [extent.name for extent in given_ones]
    assert [label for label, _ in schematic.labels] == list("ABCDEF"[: len(given_ones)])
    assert {label.text for label in labels(drawing)} == {label for label, _ in schematic.labels}
    assert clipped(drawing) == []
    assert hidden_labels(drawing) == []
    scales = [
        dimension(drawing, label) / extent.mm
        for (label, _), extent in zip(schematic.labels, given_ones, strict=True)
    ]
    assert scales == [pytest.approx(scales[0], rel=1e-6)] * len(scales)


def test_a_gathered_tube_with_its_brim() -> None:
    parts = Extent(255, "half the circumference"), Extent(210, "depth"), Extent(50, "brim")

    check(tube(*parts), *parts)
    check(tube(*parts, gathered=False), *parts)


def test_a_hat_with_a_crown() -> None:
    parts = (
        Extent(250, "half the circumference"),
        Extent(140, "body"),
        Extent(90, "crown"),
        Extent(50, "brim"),
    )

    check(hat(*parts), *parts)
    check(hat(*parts[:3]), *parts[:3])


def test_a_mitten_with_its_thumb() -> None:
    parts = (
        Extent(95, "width"),
        Extent(70, "cuff"),
        Extent(170, "hand"),
        Extent(60, "cuff to thumb"),
        Extent(60, "thumb"),
        Extent(36, "thumb width"),
    )

    check(mitten(*parts), *parts)
    check(mitten(*parts[:5]), *parts[:5])


@given(lengths, lengths, lengths)
def test_flat_panels_of_any_shape(bottom: float, height: float, top: float) -> None:
    parts = Extent(bottom, "lower edge"), Extent(height, "length"), Extent(top, "upper edge")
    drawing = panel(*parts).drawing

    assert clipped(drawing) == []
    assert dimension(drawing, "A") * height == pytest.approx(dimension(drawing, "B") * bottom)
    assert dimension(drawing, "A") * top == pytest.approx(dimension(drawing, "C") * bottom)


@given(lengths, lengths, st.floats(0.05, 1.0), st.floats(20, 120), st.floats(40, 120))
def test_a_tube_fills_the_space_it_is_given_and_no_more(
    width: float, depth: float, share: float, across: float, down: float
) -> None:
    schematic = tube(
        Extent(width, "width"),
        Extent(depth, "depth"),
        Extent(depth * share, "brim"),
        max_mm=(across, down),
    )
    drawing = schematic.drawing

    assert drawing.width <= across + 0.01
    assert drawing.height <= down + 0.01
    assert drawing.width > across - 0.1 or drawing.height > down - 0.1
    assert clipped(drawing) == []
    assert hidden_labels(drawing) == []


def test_figures_may_stand_where_letters_would() -> None:
    schematic = panel(Extent(500, "lower edge", "50 (55, 60) cm"), Extent(300, "length"))

    assert schematic.labels == (("50 (55, 60) cm", "lower edge"), ("A", "length"))
    assert clipped(schematic.drawing) == []


def test_a_letter_that_is_taken_is_passed_over() -> None:
    schematic = panel(Extent(500, "lower edge"), Extent(300, "length", "A"))

    assert [label for label, _ in schematic.labels] == ["B", "A"]


def test_the_words_name_every_label() -> None:
    schematic = tube(Extent(255, "half the circumference"), Extent(210, "depth"))

    assert schematic.alt == (
        "Outline of a tube lying flat, gathered at the top. A: half the circumference; B: depth."
    )


@pytest.mark.parametrize("length", [0.0, -10.0, float("nan")])
def test_a_length_that_is_not_above_nothing_is_refused(length: float) -> None:
    with pytest.raises(PatternError, match="`depth` is"):
        tube(Extent(100, "width"), Extent(length, "depth"))


def test_a_part_longer_than_its_whole_is_refused() -> None:
    with pytest.raises(PatternError, match=r"`brim` .* longer than `depth`"):
        tube(Extent(100, "width"), Extent(200, "depth"), Extent(201, "brim"))
    with pytest.raises(PatternError, match=r"`to thumb` .* longer than `hand`"):
        mitten(
            Extent(95, "width"),
            Extent(70, "cuff"),
            Extent(100, "hand"),
            Extent(101, "to thumb"),
            Extent(60, "thumb"),
        )


def test_labels_that_leave_no_room_are_refused() -> None:
    with pytest.raises(PatternError, match="leave no room"):
        panel(Extent(100, "lower edge"), Extent(100, "length", "about " * 20), max_mm=(50, 50))
