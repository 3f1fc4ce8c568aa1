"""Schematic drawings: an outline in true proportion, with a letter on a line for each measure.

The outline is in millimetres of the piece; it is scaled to the space there is. Lines and type keep
their size whatever the scale.
"""

from collections.abc import Iterator, Sequence

from bindoff.diagnostics import fail
from bindoff.document.drawing import Drawing, Lines, Path, Shape, moved, reach
from bindoff.document.measureletters import DETAIL_INK, INK, line_shapes
from bindoff.document.measurelines import (
    Lettered,
    Segment,
    box_of,
    measure_lines,
    on_way,
    segments,
    way_long,
)
from bindoff.plan.outlines.shapes import Line, Outline, Point, smoothed
from bindoff.records import Record, replace

_TINT = "#f4f4f4"  # prints as next to nothing, but parts the piece from the paper
_OUTLINE, _DETAIL = 0.45, 0.13
_DASH = (1.2, 0.8)
_FINE = 0.06  # mm: points nearer than that to the line between their neighbours say nothing
_MOST_POINTS = 1500  # of a line
_RIB = 1.15  # mm between two lines of ribbing
_EDGE = 1.0  # mm of white around all
_TRIES = 40


class Ink(Record):
    """How a schematic is drawn: the size of its ``letters`` in mm, and whether a faint ``tint``
    parts the piece from the paper."""

    letters: float = 3.2
    tint: bool = True


def draw(
    outline: Outline,
    lettered: Sequence[Lettered],
    max_mm: tuple[float, float] = (85.0, 95.0),
    look: Ink = Ink(),
) -> Drawing:
    """``outline`` as large as ``max_mm`` allows, with a line for each measure.

    Raises:
        PatternError: ``schematic.size`` where the letters leave no room for the piece.
    """
    box = box_of([point for line in outline.shapes for point in line])
    scale = min(max_mm[0] / max(box[2] - box[0], 1e-6), max_mm[1] / max(box[3] - box[1], 1e-6))
    outline = _thinned(outline, _FINE / scale)
    for _ in range(_TRIES):
        shapes = _shapes(outline, lettered, scale, look)
        left, top, right, bottom = reach(shapes)
        wide, high = right - left + 2 * _EDGE, bottom - top + 2 * _EDGE
        over = max(wide - max_mm[0], high - max_mm[1])
        if over <= 0:
            move = (_EDGE - left, _EDGE - top)
            return Drawing(round(wide, 2), round(high, 2), tuple(moved(shapes, *move)))
        spare = [
            (limit - (now - scale * size)) / size
            for now, limit, size in (
                (wide, max_mm[0], box[2] - box[0]),
                (high, max_mm[1], box[3] - box[1]),
            )
        ]
        after = min(*spare, scale * 0.995)
        if after <= scale * 0.02:
            break
        scale = after
    raise fail(
        "schematic.size",
        "the labels of the schematic leave no room for the piece",
        "Give it fewer measures",
    )


def _thinned(outline: Outline, fine: float) -> Outline:
    """The outline without points nearer than ``fine`` to the line between their neighbours."""

    def thin(line: Line) -> Line:
        return smoothed(line[:: max(1, len(line) // _MOST_POINTS)], fine)

    shapes, lines = (tuple(map(thin, each)) for each in (outline.shapes, outline.lines))
    return replace(outline, shapes=shapes, lines=lines)


# ---------------------------------------------------------------- the piece


def _shapes(outline: Outline, lettered: Sequence[Lettered], scale: float, look: Ink) -> list[Shape]:
    def paper(line: Sequence[Point]) -> Line:
        return tuple((x * scale, y * scale) for x, y in line)

    fill = _TINT if look.tint else "#ffffff"
    sides = [paper(line) for line in outline.shapes]
    made: list[Shape] = [Path((*_commands(line), ("Z",)), fill, INK, _OUTLINE) for line in sides]
    ribs = [
        segment for band in outline.bands for segment in _ribs(paper(band.lower), paper(band.upper))
    ]
    if ribs:
        made.append(Lines(tuple(ribs), DETAIL_INK, _DETAIL))
    made += [Path(_commands(paper(line)), None, DETAIL_INK, _DETAIL) for line in outline.lines]
    folds = [segment for line in outline.folds for segment in segments(paper(line))]
    if folds:
        made.append(Lines(tuple(folds), INK, _DETAIL, _DASH))
    measured = list(measure_lines(lettered, scale, sides, look.letters))
    return [*made, *line_shapes(measured, sides, look.letters)]


def _commands(line: Sequence[Point]) -> tuple[tuple[str | float, ...], ...]:
    return tuple(("L" if at else "M", x, y) for at, (x, y) in enumerate(line))


def _ribs(lower: Sequence[Point], upper: Sequence[Point]) -> Iterator[Segment]:
    """Lines from the lower edge to the upper one, and both edges."""
    count = max(2, round(way_long(lower) / _RIB))
    for number in range(1, count):
        yield *on_way(lower, number / count), *on_way(upper, number / count)
    yield from segments(upper)
    yield from segments(lower)
