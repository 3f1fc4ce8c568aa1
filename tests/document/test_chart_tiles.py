"""A chart cut into pieces fits the page, loses no stitch and tells how the pieces join."""

from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.document.charts.spec import ChartSpec, Marker, RepeatBox
from bindoff.document.charts.tiles import Tile, chart_figures, key_map, map_alt
from bindoff.document.drawing import Lines
from bindoff.records import replace
from tests.document.chart_cases import CABLE, KNIT, TAR, YARNS, chart, specs
from tests.document.drawing_checks import clipped, fill_at, hidden_labels, labels

A4_INSIDE = (184.6, 254.0)  # ISO 216 A4 across, US Letter down, less 12.7 mm margins


def cells_of(tile: Tile) -> list[tuple[int, int]]:
    core = tile.core
    return [
        (row, stitch)
        for row in core.rows
        for stitch in range(core.first_stitch, core.last_stitch + 1)
    ]


@given(specs(most=60), st.floats(70, 190), st.floats(70, 260))
@settings(max_examples=25)
def test_every_stitch_is_in_exactly_one_piece_and_every_piece_fits(
    spec: ChartSpec, width: float, height: float
) -> None:
    tiles = chart_figures(spec, width, height)
    counted = Counter(cell for tile in tiles for cell in cells_of(tile))

    assert counted == Counter(
        (row, s) for row in range(1, spec.height + 1) for s in range(1, spec.width + 1)
    )
    for tile in tiles:
        assert tile.drawing.width <= width
        assert tile.drawing.height <= height
        assert hidden_labels(tile.drawing) == []
        assert clipped(tile.drawing) == []


def test_a_chart_that_fits_is_one_piece_with_cells_as_large_as_allowed() -> None:
    (tile,) = chart_figures(chart(*["tf" * 5] * 8, cell_width_mm=1.4), *A4_INSIDE)

    assert tile.label == "rounds 1–8, stitches 1–10"
    assert 10 * 6.0 < tile.drawing.width < 10 * 6.0 + 12


def test_cells_shrink_to_their_least_size_before_a_chart_is_cut() -> None:
    spec = chart(*["tf" * 20] * 8)  # 40 stitches: 160 mm at 4 mm, 240 mm at 6 mm

    assert len(chart_figures(spec, 175.0, 200.0)) == 1
    assert len(chart_figures(spec, 155.0, 200.0)) == 2
    assert len(chart_figures(spec, 175.0, 200.0, cell_mm=8.0)) > 1


def test_a_chart_is_not_cut_for_a_little_more_than_a_page() -> None:
    """46 stitches on 170 mm: one sheet with cells of 3.5 mm, not two of 4."""
    spec = chart(*["tf" * 23] * 8)
    (tile,) = chart_figures(spec, 170.0, 200.0, whole_cell_mm=3.4)

    assert 46 * 3.4 <= tile.drawing.width <= 170.0
    assert len(chart_figures(spec, 170.0, 200.0)) == 2
    wider = chart(*["tf" * 30] * 8)
    assert len(chart_figures(wider, 170.0, 200.0, whole_cell_mm=3.4)) == 2
    assert chart_figures(wider, 170.0, 200.0, whole_cell_mm=3.4) == chart_figures(
        wider, 170.0, 200.0
    )


@pytest.mark.parametrize("room", [120.0, 170.0])
def test_a_narrow_repeat_is_shown_again_until_the_width_is_full(room: float) -> None:
    """8 stitches of 6 mm: as many repeats as the width holds, all but the first of them faded."""
    spec = chart(*["tffftfff"] * 8, repeats=(RepeatBox(1, 8, 1, 8, "8-stitch repeat"),))
    (tile,) = chart_figures(spec, room, 200.0)
    one = chart_figures(replace(spec, repeats=()), room, 200.0)[0].drawing.width
    across = tile.window.last_stitch - tile.window.first_stitch + 1

    assert room - 8 * 6.0 < tile.drawing.width <= room
    assert tile.drawing.width == pytest.approx(one + (across - 8) * 6.0, abs=0.1)
    assert tile.window.fade_left == across - 8
    assert (tile.core.first_stitch, tile.core.last_stitch) == (1, 8)


def test_what_is_more_than_one_repeat_is_shown_once() -> None:
    """A box around a part of the chart, or beside a key that takes the room."""
    part = chart(*["tffftfff"] * 8, repeats=(RepeatBox(3, 6, 1, 8, "4-stitch repeat"),))
    whole = replace(part, repeats=(RepeatBox(1, 8, 1, 8, "8-stitch repeat"),))
    (shown,) = chart_figures(part, 170.0, 200.0)
    (beside,) = chart_figures(whole, 170.0, 200.0, key_beside_mm=60.0)

    assert shown.window.fade_left == beside.window.fade_left == 0


def test_large_print_cells_are_never_smaller_than_asked() -> None:
    """Common practice: 8 mm or more for low vision."""
    spec = chart(*["tf" * 20] * 8)
    for tile in chart_figures(spec, *A4_INSIDE, cell_mm=8.0, largest_cell_mm=10.0):
        shown = tile.core.columns
        assert tile.drawing.width > shown * 8.0


def test_pieces_are_counted_from_where_the_knitter_starts() -> None:
    """Bottom right first, as rows and stitches are counted."""
    tiles = chart_figures(chart(*["tf" * 30] * 60, first_row=11), 140.0, 140.0)

    assert [tile.number for tile in tiles] == list(range(1, len(tiles) + 1))
    assert (tiles[0].core.first_row, tiles[0].core.first_stitch) == (1, 1)
    assert tiles[0].label == "part 1 of 4: rounds 11–40, stitches 1–30"
    assert tiles[0].alt.startswith("Part 1 of 4: rounds 11–40, stitches 1–30. Chart Test: 60")
    assert tiles[1].core.first_row == 1
    assert tiles[-1].label.endswith("stitches 31–60")


def test_joins_lie_on_heavy_lines_of_the_printed_numbers() -> None:
    tiles = chart_figures(chart(*["tf" * 35] * 70, first_row=4), 150.0, 150.0)
    rows = {tile.core.last_row + 3 for tile in tiles} - {73}
    stitches = {tile.core.last_stitch for tile in tiles} - {70}

    assert rows
    assert stitches
    assert {number % 5 for number in rows | stitches} == {0}


def test_a_join_never_cuts_a_cable() -> None:
    line = "k" * 18 + "cccc" + "k" * 18
    tiles = chart_figures(chart(*[line] * 6, keys=(KNIT, CABLE)), 100.0, 100.0)
    joins = {tile.core.last_stitch for tile in tiles} - {40}

    assert joins
    assert not joins & {19, 20, 21}


def test_a_piece_shows_two_faded_stitches_of_its_neighbour_and_marks_the_join() -> None:
    spec = chart(*["t" * 40] * 4, keys=YARNS)
    first, second = chart_figures(spec, 120.0, 100.0)

    def colours(tile: Tile) -> list[str | None]:
        y = tile.drawing.height - 10
        found = [fill_at(tile.drawing, x / 10, y) for x in range(int(tile.drawing.width * 10))]
        return [c for c, before in zip(found, [None, *found], strict=False) if c and c != before]

    assert len(colours(first)) == len(colours(second)) == 2
    assert colours(first)[1] == colours(second)[0] == TAR.colour
    assert colours(first)[0] == colours(second)[1] != TAR.colour
    last = first.core.last_stitch
    assert {str(last + 1), str(last + 2)} <= {label.text for label in labels(first.drawing)}
    for tile in (first, second):
        assert [s for s in tile.drawing.shapes if isinstance(s, Lines) and s.dash]


def test_long_marker_labels_do_not_push_a_piece_off_the_page() -> None:
    markers = tuple(Marker(n, "the middle of the back of the piece") for n in range(0, 81, 5))
    for tile in chart_figures(chart(*["tf" * 40] * 40, markers=markers), 150.0, 200.0):
        assert tile.drawing.width <= 150.0
        assert tile.drawing.height <= 200.0
        assert hidden_labels(tile.drawing) == []


def test_the_map_shows_the_chart_and_the_number_of_every_piece() -> None:
    spec = chart(*["t" * 35 + "f" * 35] * 70, cell_width_mm=1.4)
    tiles = chart_figures(spec, 150.0, 150.0)
    drawing = key_map(spec, tiles, 60.0)

    assert drawing.width <= 60.0
    assert drawing.width / drawing.height == pytest.approx(1.4, abs=0.02)
    assert [label.text for label in labels(drawing)] == [str(tile.number) for tile in tiles]
    assert fill_at(drawing, 2, 2) == TAR.colour
    assert clipped(drawing) == []
    assert map_alt("Boats", tiles).count("part") == len(tiles)
