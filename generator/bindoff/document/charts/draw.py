"""One chart, or a window of it, as a drawing in millimetres.

The conventions are the trade's: rows are read from the bottom, stitches are numbered from the
right, right-side rows carry their number at the right edge and wrong-side rows at the left, and
every fifth and tenth line is heavier.
"""

from bindoff.document.charts.cellwork import base_band, fills, symbols
from bindoff.document.charts.gridlines import frame, grid_lines
from bindoff.document.charts.layout import Layout, Look, Window, lay_out, whole
from bindoff.document.charts.marks import (
    brackets,
    joins,
    marker_lines,
    repeat_boxes,
    row_numbers,
    stitch_numbers,
)
from bindoff.document.charts.spec import ChartSpec
from bindoff.document.charts.tags import tags
from bindoff.document.drawing import Cells, Drawing

__all__ = ["Look", "Window", "draw_chart", "whole"]


def draw_chart(spec: ChartSpec, look: Look | None = None, window: Window | None = None) -> Drawing:
    """The chart with grid, symbols, numbers, repeat boxes, markers and the base band.

    The drawing is as large as its cells and the type around them need.
    """
    layout = lay_out(spec, look or Look(), window or whole(spec))
    return Drawing(
        round(layout.width, 2),
        round(layout.height, 2),
        (
            *fills(layout),
            *base_band(layout),
            *grid_lines(layout),
            *symbols(layout),
            frame(layout),
            *joins(layout),
            *repeat_boxes(layout),
            *brackets(layout),
            *marker_lines(layout),
            *(tags(layout) if layout.look.tagged else ()),
            *row_numbers(layout),
            *stitch_numbers(layout),
        ),
        _cells(layout),
    )


def _cells(layout: Layout) -> Cells | None:
    """The cells that the layout shows, those of a neighbouring piece too."""
    spec, window = layout.spec, layout.window
    if not spec.grid:
        return None
    return Cells(
        layout.left,
        layout.top,
        layout.w,
        layout.h,
        window.columns,
        len(window.rows),
        window.first_row,
        window.first_stitch,
        spec.repeat or spec.width,
        spec.grid,
    )
