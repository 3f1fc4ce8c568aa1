"""The fabric of a chart whose rows grow or go in: the piece that it makes, with sloping edges."""

from collections.abc import Iterator, Mapping, Sequence

from bindoff.document.drawing import Drawing
from bindoff.document.faces import Face, Look
from bindoff.document.finished.courses import Course
from bindoff.document.finished.laidflat import Patch, filled, scale_of
from bindoff.document.finished.picture import on_ground
from bindoff.document.finished.stitched import main_yarn
from bindoff.plan.gauge import Gauge
from bindoff.plan.outlines.shapes import Line, Point, smoothed

_SLOPE = 1.2  # stitches: steps of an edge that lie so near a line through them are drawn as one


def growing(
    rows: Sequence[Sequence[str]],
    faces: Mapping[tuple[int, int], Face],
    gauge: Gauge,
    colours: Mapping[str, str],
    room: tuple[float, float],
) -> Drawing:
    """``rows`` of yarns, bottom first, each from left to right, on a pale ground ``room`` wide and
    high in mm. Where a cell's face is nothing there is no stitch."""
    worked = [
        (number, [at for at in range(len(row)) if faces.get((number, at)) is not Look.NOTHING])
        for number, row in enumerate(rows)
    ]
    kept = [(number, places) for number, places in worked if places]
    courses = tuple(
        Course(
            tuple(rows[number][at] for at in places),
            tuple(faces.get((number, at)) for at in places),
        )
        for number, places in kept
    )
    outline = _outline([(places[0], places[-1] + 1) for _, places in kept], gauge)
    patch = Patch(outline, courses, around=False)
    shapes = filled(patch, gauge, colours, scale_of([outline], gauge))
    return on_ground(tuple(shapes), *room, colours[main_yarn(courses)])


def _outline(edges: Sequence[tuple[int, int]], gauge: Gauge) -> Line:
    """The outline of rows between their edges, in stitches from the left."""
    left, right = (tuple(_edge([each[side] for each in edges], gauge)) for side in (0, 1))
    fine = _SLOPE * gauge.stitch_mm
    return (*smoothed(left, fine), *reversed(smoothed(right, fine)))


def _edge(stitches: Sequence[int], gauge: Gauge) -> Iterator[Point]:
    """An edge from its foot up, through the middle of every row."""
    yield stitches[0] * gauge.stitch_mm, 0.0
    for row, each in enumerate(stitches):
        yield each * gauge.stitch_mm, -(row + 0.5) * gauge.round_mm
    yield stitches[-1] * gauge.stitch_mm, -len(stitches) * gauge.round_mm
