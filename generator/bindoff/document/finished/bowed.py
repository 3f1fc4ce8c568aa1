"""Fabric in bows around a middle: a crescent shawl, worked from its neck outwards."""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from itertools import pairwise
from math import atan2, cos, hypot, sin

from bindoff.document.drawing import Path, Shape
from bindoff.document.fabric import darker
from bindoff.document.finished.laidflat import Patch
from bindoff.document.finished.stitched import (
    EDGE,
    GROUND,
    Cells,
    Stitched,
    kind_of,
    main_yarn,
    near_turn,
    outline_commands,
    row_at,
    stamped,
)
from bindoff.document.yarn.cloth import Command
from bindoff.plan.gauge import Gauge
from bindoff.plan.outlines.shapes import Point

_SIDE = 24  # straight parts of the ground of a row


def bowed(patch: Patch, gauge: Gauge, colours: Mapping[str, str], merged: int) -> Iterator[Shape]:
    """The shapes of a patch whose outer edge is an arc around (0, 0); its courses begin there."""
    wide, high = gauge.stitch_mm * merged, gauge.round_mm * merged
    outer = max(hypot(x, y) for x, y in patch.outline)
    inner = sorted(
        (atan2(x, y), hypot(x, y))
        for x, y in patch.outline
        if x >= 0 and hypot(x, y) < outer * 0.999
    )
    inner.append((max(atan2(x, y) for x, y in patch.outline), outer))
    main = main_yarn(patch.courses)
    ground, edge = darker(colours[main], GROUND), darker(colours[main], EDGE)
    yield Path(outline_commands(patch.outline), ground, edge, 0.06 * wide + 0.5)
    grounds: defaultdict[str, list[Command]] = defaultdict(list)
    places: defaultdict[Stitched, list[Point]] = defaultdict(list)
    for number in range(int((outer - inner[0][1]) / high)):
        course = row_at(patch.courses, number * merged, merged)
        foot = outer - (number + 1) * high
        radius = foot + high / 2
        half = _open_to(inner, radius)
        cells = Cells(course, -half * radius, half * radius, wide, merged, False)
        if cells.ground not in (main, ""):
            grounds[cells.ground] += outline_commands(_ring(half, foot, foot + high))
        for x, yarn, face in cells:
            angle = x / radius
            place = foot * sin(angle), foot * cos(angle)
            places[Stitched(yarn, 1.0, kind_of(face), wide, high, near_turn(-angle))].append(place)
    for yarn, commands in grounds.items():
        yield Path(tuple(commands), darker(colours[yarn], GROUND))
    yield from stamped(places, True, colours)


def _open_to(inner: list[tuple[float, float]], radius: float) -> float:
    """How far from the middle a row of that radius goes, as an angle."""
    for (a, low), (b, far) in pairwise(inner):
        if low <= radius <= far:
            return a + (b - a) * ((radius - low) / (far - low) if far > low else 0.0)
    return inner[-1][0]


def _ring(half: float, low: float, high: float) -> list[Point]:
    angles = [half * (2 * step / _SIDE - 1) for step in range(_SIDE + 1)]
    there = [(high * sin(angle), high * cos(angle)) for angle in angles]
    return [*there, *((low * sin(angle), low * cos(angle)) for angle in reversed(angles))]
