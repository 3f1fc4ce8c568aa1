"""One chart, or a window of it, as a drawing in millimetres."""

from dataclasses import dataclass

from generator.document.charts.spec import ChartSpec
from generator.document.drawing import Drawing


@dataclass(frozen=True, slots=True)
class Look:
    """Sizes of a chart in mm: the longer side of a cell and the type. ``colour`` false leaves the
    fills out and prints symbols alone."""

    cell_mm: float = 5.0
    number_mm: float = 2.3
    label_mm: float = 2.6
    colour: bool = True


@dataclass(frozen=True, slots=True)
class Window:
    """The part of a chart to draw, from 1 and inclusive: rows from the bottom, stitches from the
    right. The first and last ``overlap`` cells shared with a neighbour are drawn faded."""

    first_row: int
    last_row: int
    first_stitch: int
    last_stitch: int
    fade_left: int = 0
    fade_right: int = 0
    fade_top: int = 0
    fade_bottom: int = 0


def draw_chart(spec: ChartSpec, look: Look | None = None, window: Window | None = None) -> Drawing:
    """The chart with grid, symbols, numbers, repeat boxes, markers and the base band."""
    raise NotImplementedError
