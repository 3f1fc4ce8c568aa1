"""A piece laid out to dry, from above."""

from bindoff.craft.symbols import circle
from bindoff.document.drawing import Drawing, Path, Shape
from bindoff.document.techniques.paper import Inks, Point, arrow, lines, number, polygon, sheet

_HALF_WIDE, _HALF_HIGH = 22.0, 13.0  # mm
_HEAD = 0.75  # mm, the radius of a pin's head
_OUTLINE = 0.28
_PIN = 2.6  # mm of a pin that is seen
_BETWEEN = 3  # parts of half a side


def pinned(inks: Inks) -> Drawing:
    """A flat piece with pins along its edges: in the corners, in the middles, and between."""
    w, h = _HALF_WIDE, _HALF_HIGH
    box = polygon([(-w, -h), (w, -h), (w, h), (-w, h)])
    shapes: list[Shape] = [Path(box, fill=inks.tint, stroke=inks.ink, width=0.45)]
    for across in range(-_BETWEEN, _BETWEEN + 1):
        for side in (-1, 1):
            x = w * across / _BETWEEN
            shapes += _pin((x, side * h), (_slant(across), float(side)), inks)
            if abs(across) < _BETWEEN:
                y = h * across / _BETWEEN
                shapes += _pin((side * w, y), (float(side), 0.0), inks)
    for ends in (((-5.0, 0.0), (-12.0, 0.0)), ((5.0, 0.0), (12.0, 0.0))):
        shapes += arrow(ends, inks)
    for ends in (((0.0, 3.2), (0.0, 8.2)), ((0.0, -3.2), (0.0, -8.2))):
        shapes += arrow(ends, inks)
    inner = w - 4.4, h - 4.4
    shapes += number(inner[0], inner[1], "1", inks)
    shapes += number(inner[0], 0.0, "2", inks)
    shapes += number(inner[0] * 0.42, inner[1], "3", inks)
    return sheet(shapes)


def _slant(across: int) -> float:
    """How far a pin of the upper or lower edge points to the side: those of corners do."""
    return across / _BETWEEN if abs(across) == _BETWEEN else 0.0


def _pin(foot: Point, way: tuple[float, float], inks: Inks) -> list[Shape]:
    """A pin through the edge at ``foot``, which holds it outwards, with a ring of the accent."""
    long = (way[0] ** 2 + way[1] ** 2) ** 0.5
    dx, dy = way[0] / long, way[1] / long
    start = (foot[0] - dx * 0.9, foot[1] - dy * 0.9)
    end = (foot[0] + dx * _PIN, foot[1] + dy * _PIN)
    return [
        lines([(start, end)], inks, 0.35),
        Path(circle(end[0], -end[1], _HEAD), fill=inks.paper, stroke=inks.ink, width=_OUTLINE),
        Path(circle(end[0], -end[1], _HEAD / 2), stroke=inks.thread, width=_HEAD - _OUTLINE),
    ]
