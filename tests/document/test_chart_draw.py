"""A drawn chart shows every cell, reads the way the trade reads, and hides none of its type."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.document.charts.cellwork import ink_of
from bindoff.document.charts.draw import Look, Window, draw_chart
from bindoff.document.charts.labels import place_brackets, place_flags, thinned
from bindoff.document.charts.layout import Layout, cell_size, lay_out, whole
from bindoff.document.charts.spec import ChartKey, ChartSpec, Marker, RepeatBox
from bindoff.document.charts.symbols import symbol_of
from bindoff.document.drawing import Drawing, Lines, Path, Rect, Stamps
from bindoff.light import contrast
from tests.document.chart_cases import (
    CABLE,
    FOAM,
    KNIT,
    NO_STITCH,
    RUST,
    TAR,
    YARN_OVER,
    chart,
    colours,
    specs,
)
from tests.document.drawing_checks import (
    clipped,
    fill_at,
    hidden_labels,
    label_box,
    labels,
    outlines,
    path_points,
)

POINT = 25.4 / 72  # mm
LOOK = Look(cell_mm=4.0)


def layout_of(spec: ChartSpec, look: Look = LOOK) -> Layout:
    return lay_out(spec, look, whole(spec))


def centre(layout: Layout, row: int, stitch: int) -> tuple[float, float]:
    return layout.x(stitch - 0.5), layout.y(row - 0.5)


def text_at(drawing: Drawing, text: str) -> tuple[float, float]:
    (found,) = (label for label in labels(drawing) if label.text == text)
    left, top, right, bottom = label_box(found)
    return (left + right) / 2, (top + bottom) / 2


# ---------------------------------------------------------------- cells


@given(specs(most=14))
@settings(max_examples=60)
def test_every_cell_has_its_colour_at_its_place(spec: ChartSpec) -> None:
    drawing, layout, keys = draw_chart(spec, LOOK), layout_of(spec), spec.key_of
    for row, line in enumerate(spec.rows, start=1):
        for column, character in enumerate(line):
            key = keys[character]
            shown = fill_at(drawing, *centre(layout, row, spec.width - column))
            assert shown == (symbol_of(key.symbol).shade or key.colour)


def test_runs_of_one_colour_are_one_rectangle_over_all_the_rows_they_fill() -> None:
    drawing = draw_chart(chart("ttff", "ttff", "ttff"), LOOK)
    filled = [shape for shape in drawing.shapes if isinstance(shape, Rect) and shape.fill]

    assert [shape.fill for shape in filled] == [TAR.colour, FOAM.colour]


@given(st.lists(st.text("tfr", min_size=9, max_size=9), min_size=1, max_size=9))
def test_every_symbol_is_drawn_in_each_of_its_cells_and_nowhere_else(lines: list[str]) -> None:
    spec = chart(*lines, keys=(TAR, FOAM, RUST))
    layout, found = layout_of(spec), dict[tuple[int, int], set[str]]()
    for path in outlines(draw_chart(spec, LOOK).shapes):
        for name, points in path_points(path.commands):
            if name == "M" and points[0][0] < layout.right:
                (x, y) = points[0]
                place = (int((layout.bottom - y) // layout.h), int((x - layout.left) // layout.w))
                found.setdefault(place, set()).add("stroke" if path.stroke else "fill")

    looks = {"t": {"stroke"}, "r": {"fill"}}  # a cross, a dot; foam has an empty cell
    assert found == {
        (row, column): looks[key]
        for row, line in enumerate(spec.rows)
        for column, key in enumerate(line)
        if key in looks
    }


def test_all_symbols_of_one_look_are_stamps_of_one_path() -> None:
    drawing = draw_chart(chart("rfrfrfr", "frfrfrf"), LOOK)
    (dots,) = (shape for shape in drawing.shapes if isinstance(shape, Stamps))

    assert len(dots.places) == 7
    assert sum(name == "M" for name, *_ in dots.path.commands) == 1


def test_a_ring_stays_round_in_a_wide_cell() -> None:
    spec = chart("o", keys=(YARN_OVER,), cell_width_mm=7.0)
    (path,) = (path for path in outlines(draw_chart(spec, LOOK).shapes) if path.stroke)
    points = [point for _, points in path_points(path.commands) for point in points]
    xs, ys = zip(*points, strict=True)

    assert max(xs) - min(xs) == pytest.approx(max(ys) - min(ys))


@given(specs(most=6))
def test_every_ink_reads_on_its_cell_in_colour_and_in_black_and_white(spec: ChartSpec) -> None:
    """WCAG 2.2, success criterion 1.4.3: 4.5 to 1."""
    for key in spec.keys:
        paper = symbol_of(key.symbol).shade or "#ffffff"
        assert contrast(ink_of(key), symbol_of(key.symbol).shade or key.colour or "#ffffff") >= 4.5
        assert contrast(ink_of(key, colour=False), paper) >= 4.5


def test_black_and_white_leaves_out_the_fills_but_keeps_the_symbols() -> None:
    spec = chart("rtf", "frt")
    plain = draw_chart(spec, Look(cell_mm=4.0, colour=False))

    assert not [shape for shape in plain.shapes if isinstance(shape, Rect) and shape.fill]
    assert {path.fill or path.stroke for path in outlines(plain.shapes)} == {"#000000"}


def test_cells_have_the_proportion_of_the_stitches() -> None:
    """20 stitches and 28 rows to 10 cm give cells 1.40 times as wide as high."""
    spec = chart("tf", cell_width_mm=100 / 20, cell_height_mm=100 / 28)
    w, h = cell_size(spec, 5.0)

    assert w == 5.0
    assert w / h == pytest.approx(1.40)


def test_a_chart_drawn_at_the_gauge_is_as_large_as_the_knitting() -> None:
    """n stitches are n / gauge x 10 cm wide, m rows m / gauge x 10 cm high."""
    spec = chart(*["tf" * 10] * 14, cell_width_mm=5.0, cell_height_mm=100 / 28)
    layout = layout_of(spec, Look(cell_mm=5.0))

    assert layout.right - layout.left == pytest.approx(100)
    assert layout.bottom - layout.top == pytest.approx(50)


# ---------------------------------------------------------------- numbers


def test_in_the_round_all_row_numbers_stand_on_the_right() -> None:
    """As in a published magazine's chart-reading lesson."""
    spec = chart("tf", "ft", "tt", first_row=11)
    drawing, layout = draw_chart(spec, LOOK), layout_of(spec)
    for row, text in enumerate(("11", "12", "13"), start=1):
        x, y = text_at(drawing, text)
        assert x > layout.right
        assert y == pytest.approx(layout.y(row - 0.5), abs=0.1)


@pytest.mark.parametrize("first_right_side", [True, False])
def test_flat_row_numbers_stand_where_the_row_starts(first_right_side: bool) -> None:
    """Right-side rows at the right edge, wrong-side rows at the left: the same lesson."""
    spec = chart(*["tf"] * 4, worked="flat", first_right_side=first_right_side, first_row=11)
    drawing, layout = draw_chart(spec, LOOK), layout_of(spec)
    for row, text in enumerate(("11", "12", "13", "14"), start=1):
        x, _ = text_at(drawing, text)
        right_side = (row % 2 == 1) == first_right_side
        assert x > layout.right if right_side else x < layout.left


def test_stitches_are_numbered_from_the_right_below_the_chart() -> None:
    spec = chart("tft", first_row=20)
    drawing, layout = draw_chart(spec, LOOK), layout_of(spec)
    xs = [text_at(drawing, text) for text in ("1", "2", "3")]

    assert [x for x, _ in xs] == [pytest.approx(layout.x(n - 0.5), abs=0.1) for n in (1, 2, 3)]
    assert all(y > layout.bottom for _, y in xs)


@given(
    count=st.integers(1, 400),
    pitch=st.floats(0.2, 8.0),
    room=st.floats(1.0, 6.0),
    step=st.sampled_from([1, 2]),
)
def test_thinned_numbers_never_run_into_each_other(
    count: int, pitch: float, room: float, step: int
) -> None:
    numbers = list(range(1, count * step + 1, step))
    kept = thinned(numbers, int, pitch, room)

    assert kept[0] == numbers[0]
    assert kept == sorted(set(kept) & set(numbers))
    assert all((b - a) / step * pitch >= room for a, b in pairwise(kept))
    if pitch >= room:
        assert kept == numbers


def test_crowded_numbers_keep_the_ends_and_the_tens() -> None:
    assert thinned(range(1, 47), int, 1.0, 4.0) == [1, 5, 10, 15, 20, 25, 30, 35, 40, 46]


@given(specs())
@settings(max_examples=30)
def test_no_label_hides_another_and_nothing_is_cut_off(spec: ChartSpec) -> None:
    for cell in (2.0, 4.0, 8.0):
        drawing = draw_chart(spec, Look(cell_mm=cell))
        assert hidden_labels(drawing) == []
        assert clipped(drawing) == []


# ---------------------------------------------------------------- lines


def _weights(spec: ChartSpec) -> dict[tuple[str, int], float]:
    """The weight of every whole line, as ("row" or "stitch", count)."""
    layout, found = layout_of(spec), {}
    for shape in draw_chart(spec, LOOK).shapes:
        if isinstance(shape, Lines) and shape.dash is None:
            for x1, y1, x2, y2 in shape.segments:
                if y1 == y2 and layout.left - 0.01 < x1 < x2 < layout.right + 0.01:
                    found["row", round((layout.bottom - y1) / layout.h)] = shape.width
                if x1 == x2 and layout.top - 0.01 < y2 < y1 < layout.bottom + 0.01:
                    found["stitch", round((layout.right - x1) / layout.w)] = shape.width
    return found


def test_every_fifth_line_is_heavier_and_every_tenth_heavier_still() -> None:
    weights = _weights(chart(*["f" * 24] * 23))
    thin, fifth, tenth = (weights["row", count] for count in (1, 5, 10))

    assert thin < fifth < tenth
    assert {weights[way, n] for way in ("row", "stitch") for n in (10, 20)} == {tenth}
    assert {weights[way, n] for way in ("row", "stitch") for n in (5, 15)} == {fifth}
    assert {weights[way, n] for way in ("row", "stitch") for n in (1, 9, 11, 19, 22)} == {thin}


def test_heavier_lines_follow_the_printed_row_numbers() -> None:
    weights = _weights(chart(*["ff"] * 12, first_row=8))

    assert weights["row", 3] == max(weights.values())  # above row 10


@given(specs(most=10))
@settings(max_examples=50)
def test_no_line_is_thinner_than_a_quarter_of_a_point(spec: ChartSpec) -> None:
    """Common print practice: a thinner hairline may not print."""
    shapes = draw_chart(spec, LOOK).shapes
    for shape in (*shapes, *outlines(shapes)):
        if isinstance(shape, Lines) or (isinstance(shape, Rect | Path) and shape.stroke):
            assert shape.width >= 0.25 * POINT


@given(colours)
def test_heavier_lines_can_be_seen_on_any_colour(colour: str) -> None:
    """WCAG 2.2, success criterion 1.4.11: 3 to 1 for what must be seen in a picture."""
    spec = chart(*["y" * 6] * 2, keys=(ChartKey("y", "blank", "yarn", colour),))
    fifth = [s for s in draw_chart(spec, LOOK).shapes if isinstance(s, Lines) and s.width == 0.26]

    assert fifth
    assert all(contrast(line.stroke, colour) >= 3 for line in fifth)


def test_no_line_cuts_a_cable() -> None:
    spec = chart("kkkkkk", "kcccck", "kkkkkk", keys=(KNIT, CABLE))
    layout = layout_of(spec)
    middle = layout.y(1.5)
    crossing = [
        round((layout.right - x1) / layout.w)
        for shape in draw_chart(spec, LOOK).shapes
        if isinstance(shape, Lines)
        for x1, y1, x2, y2 in shape.segments
        if x1 == x2 and min(y1, y2) < middle < max(y1, y2)
    ]

    assert sorted(crossing) == [1, 5]


# ---------------------------------------------------------------- boxes, markers, band


def test_a_repeat_box_encloses_its_stitches_and_says_its_label() -> None:
    spec = chart(*["f" * 12] * 6, repeats=(RepeatBox(3, 10, 2, 5, "8-stitch repeat"),))
    drawing, layout = draw_chart(spec, LOOK), layout_of(spec)
    (box,) = (s for s in drawing.shapes if isinstance(s, Path) and s.stroke)
    points = [point for _, points in path_points(box.commands) for point in points]
    xs, ys = zip(*points, strict=True)

    assert (min(xs), max(xs)) == pytest.approx((layout.x(10), layout.x(2)))
    assert (min(ys), max(ys)) == pytest.approx((layout.y(5), layout.y(1)))
    assert text_at(drawing, "8-stitch repeat")[1] > layout.bottom


def test_a_marker_between_stitches_is_a_dashed_line_under_its_label() -> None:
    spec = chart(*["f" * 8] * 3, markers=(Marker(4, "half round"),))
    drawing, layout = draw_chart(spec, LOOK), layout_of(spec)
    (line,) = (s for s in drawing.shapes if isinstance(s, Lines) and s.dash)

    assert line.segments[0][0] == pytest.approx(layout.x(4))
    assert text_at(drawing, "half round")[0] == pytest.approx(layout.x(4), abs=0.1)
    assert text_at(drawing, "half round")[1] < layout.top


def test_a_marker_in_the_middle_of_a_stitch_leaves_its_symbol_free() -> None:
    spec = chart(*["t" * 7] * 3, markers=(Marker(3.5, "centre front"),))
    drawing, layout = draw_chart(spec, LOOK), layout_of(spec)
    x = layout.x(3.5)
    through = [
        segment
        for shape in drawing.shapes
        if isinstance(shape, Lines)
        for segment in shape.segments
        if abs(segment[0] - x) < 0.01 and max(segment[1], segment[3]) > layout.top + 0.01
    ]

    assert through == []


def test_markers_at_one_place_share_one_label() -> None:
    markers = (Marker(2, "side"), Marker(2, "half round"))

    assert text_at(draw_chart(chart("tftf", markers=markers), LOOK), "side, half round")


@given(st.lists(st.tuples(st.floats(0, 150), st.text("abc", min_size=1, max_size=20)), max_size=7))
def test_flags_hide_neither_labels_nor_stems(stems: list[tuple[float, str]]) -> None:
    unique = sorted(dict(stems).items(), reverse=True)
    flags = place_flags(unique, 2.6, 150.0)

    assert [(flag.x, flag.text) for flag in flags] == unique
    for flag in flags:
        assert flag.start >= 0
        for other in flags:
            if other is not flag and other.tier == flag.tier:
                assert flag.end < other.start or other.end < flag.start
            if other is not flag and other.tier > flag.tier:
                assert not flag.start < other.x < flag.end


@given(
    st.lists(
        st.tuples(st.floats(0, 100), st.floats(0, 50), st.text("abc", min_size=1, max_size=12)),
        max_size=6,
    )
)
def test_brackets_on_one_line_keep_apart(spans: list[tuple[float, float, str]]) -> None:
    placed = place_brackets([(left, left + w, text) for left, w, text in spans], 2.6, 150.0)

    assert len(placed) == len(spans)
    for bracket in placed:
        for other in placed:
            if other is not bracket and other.tier == bracket.tier:
                assert bracket.right < other.left or other.right < bracket.left


def test_the_base_band_shows_each_rows_base_beside_it() -> None:
    spec = chart("tf", "ft", base=("r", "t"))
    drawing, layout = draw_chart(spec, LOOK), layout_of(spec)
    x = layout.band_right - layout.band_width / 2

    assert [fill_at(drawing, x, layout.y(row - 0.5)) for row in (1, 2)] == [RUST.colour, TAR.colour]
    assert text_at(drawing, "base")[0] < layout.left


# ---------------------------------------------------------------- windows


def test_a_window_keeps_the_numbers_of_the_whole_chart_and_fades_its_neighbours() -> None:
    spec = chart(*["t" * 12] * 12)
    window = Window(5, 9, 4, 8, fade_left=2, fade_bottom=1)
    drawing, layout = draw_chart(spec, LOOK, window), lay_out(spec, LOOK, window)
    texts = {label.text for label in labels(drawing)}

    assert texts == {"4", "5", "6", "7", "8", "9"}
    assert fill_at(drawing, *centre(layout, 6, 6)) == TAR.colour
    assert fill_at(drawing, *centre(layout, 6, 7)) not in (TAR.colour, None)
    assert fill_at(drawing, *centre(layout, 5, 4)) not in (TAR.colour, None)


def test_a_cell_that_is_no_stitch_never_looks_like_a_knit_one() -> None:
    """It is filled in grey, with no line between two of them, and does not fade with its
    neighbours: faded, it had the grey of a faded knit cell. Grey-filled cells are common practice,
    no source."""
    spec = chart("nnkk", "nnkk", keys=(KNIT, NO_STITCH))
    window = Window(1, 2, 1, 4, fade_left=3)
    drawing, layout = draw_chart(spec, LOOK, window), lay_out(spec, LOOK, window)
    grey, faded = (fill_at(drawing, *centre(layout, 1, stitch)) for stitch in (4, 2))
    lines = {
        ((x1 + x2) / 2, (y1 + y2) / 2)
        for shape in drawing.shapes
        if isinstance(shape, Lines)
        for x1, y1, x2, y2 in shape.segments
    }

    assert grey == symbol_of("no stitch").shade
    assert grey is not None
    assert faded is not None
    assert contrast(grey, faded) > 1.5
    assert contrast(grey, "#ffffff") > 1.8
    assert (layout.x(3), layout.y(1)) not in lines  # between the two columns that are no stitch
    assert (layout.x(1), layout.y(1)) in lines


def test_a_box_that_runs_on_beyond_the_window_stays_open_there() -> None:
    spec = chart(*["f" * 12] * 4, repeats=(RepeatBox(3, 10, 1, 4, "8-stitch repeat"),))
    window = Window(1, 4, 1, 6)
    drawing, layout = draw_chart(spec, LOOK, window), lay_out(spec, LOOK, window)
    (box,) = (s for s in drawing.shapes if isinstance(s, Path) and s.stroke)
    uprights = {
        (points[0][0], end[0][0])
        for (_, points), (_, end) in zip(
            list(path_points(box.commands))[::2], list(path_points(box.commands))[1::2], strict=True
        )
        if points[0][0] == end[0][0]
    }

    assert uprights == {(layout.x(2), layout.x(2))}
