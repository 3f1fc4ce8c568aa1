"""Numbers on a chart hide no symbol, and a line leads each to the corner of its cell."""

from itertools import combinations
from math import hypot
from pathlib import Path as FilePath

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.document.chartpages import chart_pages
from bindoff.document.charts.draw import Look, draw_chart
from bindoff.document.charts.layout import lay_out, whole
from bindoff.document.charts.spec import ChartSpec, Tag
from bindoff.document.drawing import Drawing, Label, Lines, Path, Rect, Stamps
from bindoff.document.voice import voice_of
from bindoff.files import DiskFiles
from bindoff.pipeline import drawn_for, plan_pattern
from bindoff.render.pdf import ThemeName
from tests.document.chart_cases import chart
from tests.document.drawing_checks import Box, extent, overlap

PATTERNS = FilePath(__file__).parents[2] / "patterns"
BOAT = (
    "fffffffffffffffffffffffff",
    "ffffffffffftrffffffffffff",
    "fffffffffftttrrffffffffff",
    "ffffffffftttttrrrffffffff",
    "fffffffffffftffffffffffff",
    "ffffffffrrrrrrrrrffffffff",
    "fffffffffrrrrrrrfffffffff",
)
"""FOAM has an empty cell, the others a cross and a dot."""
STARTS = (Tag(4, 11, "1"), Tag(3, 13, "12"), Tag(4, 9, "23"), Tag(1, 10, "34"), Tag(2, 9, "5"))


def boxes(drawing: Drawing) -> list[tuple[str, Box]]:
    """The numbers in boxes, each with its box: the bold labels on white rectangles."""
    found = []
    for at, shape in enumerate(drawing.shapes):
        if isinstance(shape, Label) and shape.bold:
            behind = drawing.shapes[at - 1]
            assert isinstance(behind, Rect)
            found.append((shape.text, extent(behind)))
    return found


def symbol_boxes(drawing: Drawing) -> list[Box]:
    """Each symbol with the weight of its strokes, from the paths that are drawn."""
    found = []
    for shape in drawing.shapes:
        if isinstance(shape, Stamps):
            for path in shape.moved():
                xs = [float(n) for _, *ns in path.commands for n in ns[::2]]
                ys = [float(n) for _, *ns in path.commands for n in ns[1::2]]
                half = path.width / 2 if path.stroke else 0
                found.append((min(xs) - half, min(ys) - half, max(xs) + half, max(ys) + half))
    return found


def hidden(drawing: Drawing) -> list[str]:
    return [
        text
        for text, box in boxes(drawing)
        if any(overlap(box, symbol) for symbol in symbol_boxes(drawing))
    ]


def tagged(*tags: Tag) -> ChartSpec:
    return chart(*BOAT, tags=tags, cell_height_mm=0.71)


@pytest.mark.parametrize("cell", [3.4, 4.0, 5.0, 7.0])
@pytest.mark.parametrize("numbers", [2.3, 2.85])
def test_a_number_hides_no_symbol_and_no_other_number(cell: float, numbers: float) -> None:
    drawing = draw_chart(tagged(*STARTS), Look(cell, numbers))

    assert sorted(text for text, _ in boxes(drawing)) == sorted(tag.text for tag in STARTS)
    assert hidden(drawing) == []
    for (_, one), (_, other) in combinations(boxes(drawing), 2):
        assert not overlap(one, other)


def test_a_number_with_room_stays_on_the_corner_of_its_cell() -> None:
    spec = tagged(Tag(6, 3, "8"))
    drawing, layout = draw_chart(spec), lay_out(spec, Look(), whole(spec))
    ((_, (left, top, right, bottom)),) = boxes(drawing)

    assert (left + right) / 2 == pytest.approx(layout.x(2))
    assert (top + bottom) / 2 == pytest.approx(layout.y(5))


def test_a_line_leads_from_a_number_to_the_corner_of_its_cell() -> None:
    """In cells of 3.4 mm a number of two digits has no room on the corner of a stitch among
    others: a line leads to that corner, which has a small mark inside its cell."""
    spec, look = tagged(Tag(2, 13, "12")), Look(3.4, 2.85)
    drawing, layout = draw_chart(spec, look), lay_out(spec, look, whole(spec))
    (box,) = (box for _, box in boxes(drawing))
    x, y = layout.x(12), layout.y(1)
    (line,) = (
        segment
        for shape in drawing.shapes
        if isinstance(shape, Lines) and shape.width == 0.3
        for segment in shape.segments
    )
    mark = next(s for s in drawing.shapes if isinstance(s, Path) and s.width == 0.15)

    assert line[2:] == (x, y)
    assert box[0] <= line[0] <= box[2]
    assert box[1] <= line[1] <= box[3]
    left, top, right, bottom = extent(mark)
    assert x - layout.w / 2 < left
    assert y - layout.h / 2 < top
    assert right == pytest.approx(x, abs=0.1)
    assert bottom == pytest.approx(y, abs=0.1)


@settings(max_examples=30, deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(1, 7), st.integers(1, 25)), min_size=1, max_size=12, unique=True
    ),
    st.sampled_from([3.4, 4.0, 6.0]),
)
def test_wherever_areas_start_the_numbers_lie_within_the_frame(
    places: list[tuple[int, int]], cell: float
) -> None:
    tags = tuple(Tag(row, stitch, str(n)) for n, (row, stitch) in enumerate(places, start=1))
    spec, look = tagged(*tags), Look(cell, 2.85)
    drawing, layout = draw_chart(spec, look), lay_out(spec, look, whole(spec))

    assert sorted(text for text, _ in boxes(drawing)) == sorted(tag.text for tag in tags)
    for _, (left, top, right, bottom) in boxes(drawing):
        slack = 0.1
        assert layout.left - slack <= left
        assert right <= layout.right + slack
        assert layout.top - slack <= top
        assert bottom <= layout.bottom + slack


@pytest.mark.parametrize("edition", ["calm", "print-saver", "large-print"])
def test_numbers_stay_near_their_areas_and_no_line_runs_along_the_grid(edition: ThemeName) -> None:
    """Symbols of the ground are alike far around, so a long line to a free place is worse; and one
    that runs along a line of the grid is seen by nobody."""
    name = "harbour-light-hat"
    plan = plan_pattern(DiskFiles(str(PATTERNS / name)), "pattern.yaml", name)
    pages = chart_pages(voice_of(plan), drawn_for(edition))
    tiles = [tile for page in pages if page.spec.tags for tile in page.tiles]
    assert len(tiles) >= 2
    for tile in tiles:
        lines = [
            (abs(c - a), abs(d - b))
            for shape in tile.drawing.shapes
            if isinstance(shape, Lines) and shape.width == 0.3
            for a, b, c, d in shape.segments
        ]
        assert all(hypot(*line) < 6 * tile.row_height for line in lines)
        assert all(min(line) > 0.25 * max(line) for line in lines)
