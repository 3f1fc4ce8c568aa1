"""How large a picture is printed: its own size, shrunk, on a turned page, or in several parts.

A drawing is shrunk no further than its lettering can be read. A chart still too large goes on a
page that lies on its side; one that is too large even for that is cut into strips along its own
lines, never through a row of cells.
"""

import math
from collections import defaultdict
from collections.abc import Iterator, Sequence
from itertools import pairwise

from bindoff.document.drawing import Drawing, Label, Lines, Path, Rect, Shape, Stamps
from bindoff.records import Record, replace
from bindoff.render.pdf.drawing import least_label, photo_size
from bindoff.render.pdf.theme import MM

_PHOTO_PPI = 150  # a photograph is not printed larger than this sharpness allows
PHOTO_SHARE = 0.62  # of the frame's height: the most a photograph takes
_COVER_PPI = 100  # the cover's may be softer
_GROW = 4.0  # art drawn for the cover may be enlarged this much
_UNLABELLED = 0.5  # a drawing without lettering may be shrunk this much
_TIED = 0.85  # it is not shrunk further to stay with the words above it
_NEAR = 1e-6

Command = tuple[str | float, ...]


class Box(Record):
    """Room for a picture, in points."""

    width: float
    height: float


class Fit(Record):
    """How a drawing is printed: ``scale`` of natural size, on a turned page, in ``strips``."""

    scale: float
    turned: bool = False
    strips: tuple[Drawing, ...] = ()


def natural(picture: Drawing | bytes, cover: bool = False) -> Box:
    """The size in points at which a picture is printed if there is room."""
    if isinstance(picture, Drawing):
        grow = _GROW if cover else 1.0
        return Box(picture.width * MM * grow, picture.height * MM * grow)
    width, height = photo_size(picture)
    ppi = _COVER_PPI if cover else _PHOTO_PPI
    return Box(width * 72 / ppi, height * 72 / ppi)


def inside(size: Box, room: Box) -> float:
    """The largest scale, at most 1, at which ``size`` fits ``room``."""
    return min(1.0, room.width / size.width, room.height / size.height)


def fit(
    drawing: Drawing,
    tied: Box,
    upright: Box,
    turned: Box | None,
    label_wish: float,
    least: float,
) -> Fit:
    """Choose the way to print ``drawing``.

    ``tied`` is the room on the page of the words that lead up to it, ``upright`` the room of a page
    of its own, ``turned`` that of a page on its side, if there may be one. The drawing is enlarged
    to make its lettering ``label_wish`` points, and not shrunk below ``least`` if that can be
    helped.
    """
    label = least_label(drawing)
    wish = max(1.0, label_wish / label) if label else 1.0
    enough = least / label if label else _UNLABELLED
    size = natural(drawing)
    wished = Box(size.width * wish, size.height * wish)
    scale = inside(wished, tied) * wish
    if scale >= max(enough, wish * _TIED) - _NEAR:
        return Fit(scale)
    scale = inside(wished, upright) * wish
    if scale >= enough - _NEAR:
        return Fit(scale)
    on_side = inside(wished, turned) * wish if turned else 0.0
    if on_side >= enough - _NEAR:
        return Fit(on_side, turned=True)
    across = min(wish, upright.width / size.width)
    across_turned = min(wish, turned.width / size.width) if turned else 0.0
    if turned and across < enough and across_turned > across * 1.1:
        return Fit(across_turned, True, _strips_for(drawing, across_turned, turned))
    return Fit(across, False, _strips_for(drawing, across, upright))


def _strips_for(drawing: Drawing, scale: float, room: Box) -> tuple[Drawing, ...]:
    height = drawing.height * MM * scale
    if height <= room.height + _NEAR:
        return ()
    return tuple(strips(drawing, room.height / (MM * scale)))


def strips(drawing: Drawing, height: float) -> Iterator[Drawing]:
    """``drawing`` in strips at most ``height`` mm high, of like height, cut along its lines."""
    marks = _cut_lines(drawing)
    count = math.ceil(drawing.height / height - _NEAR)
    cuts = [0.0]
    while drawing.height - cuts[-1] > height + _NEAR:
        left = max(1, count - len(cuts) + 1)
        wanted = min(height, (drawing.height - cuts[-1]) / left * 1.03)
        good = [y for y in marks if cuts[-1] + wanted * 0.6 < y <= cuts[-1] + wanted]
        cuts.append(good[-1] if good else cuts[-1] + wanted)
    for top, bottom in pairwise([*cuts, drawing.height]):
        yield _strip(drawing, top, bottom)


def _cut_lines(drawing: Drawing) -> list[float]:
    """Heights at which level edges, of lines or of cells, cross most of the drawing."""
    lengths: defaultdict[float, float] = defaultdict(float)
    for item in drawing.shapes:
        if isinstance(item, Lines):
            for x1, y1, x2, y2 in item.segments:
                if abs(y1 - y2) < _NEAR:
                    lengths[round(y1, 2)] += abs(x2 - x1)
        elif isinstance(item, Rect):
            lengths[round(item.y, 2)] += item.w
    return sorted(y for y, length in lengths.items() if length > drawing.width * 0.5)


def _strip(drawing: Drawing, top: float, bottom: float) -> Drawing:
    shapes = tuple(part for item in drawing.shapes for part in _between(item, top, bottom))
    cells = drawing.cells.between(top, bottom) if drawing.cells else None
    return Drawing(drawing.width, bottom - top, shapes, cells)


def _between(item: Shape, top: float, bottom: float) -> Iterator[Shape]:
    """What of ``item`` lies between two heights, moved up by ``top``."""
    match item:
        case Rect(x, y, w, h):
            low, high = max(y, top), min(y + h, bottom)
            if high - low > _NEAR:
                yield replace(item, x=x, y=low - top, w=w, h=high - low)
        case Lines(segments):
            kept = tuple(cut for segment in segments if (cut := _cut_segment(segment, top, bottom)))
            if kept:
                yield replace(item, segments=kept)
        case Path(commands):
            kept_outlines = tuple(
                command
                for outline in _outlines(commands)
                if _crosses(outline, top, bottom)
                for command in _raised(outline, top)
            )
            if kept_outlines:
                yield replace(item, commands=kept_outlines)
        case Stamps(path, places):
            heights = _heights(path.commands)
            low, high = min(heights), max(heights)
            inside = tuple((x, y - top) for x, y in places if y + low < bottom and y + high > top)
            if inside:
                yield replace(item, places=inside)
        case Label(y=y, size=size):
            if top <= y - size * 0.35 < bottom:
                yield replace(item, y=y - top)


def _cut_segment(
    segment: tuple[float, float, float, float], top: float, bottom: float
) -> tuple[float, float, float, float] | None:
    x1, y1, x2, y2 = segment
    if max(y1, y2) < top - _NEAR or min(y1, y2) > bottom + _NEAR:
        return None
    if abs(y1 - y2) < _NEAR:
        return (x1, y1 - top, x2, y2 - top)

    def at(y: float) -> tuple[float, float]:
        y = min(max(y, top), bottom)
        return x1 + (x2 - x1) * (y - y1) / (y2 - y1), y - top

    return (*at(y1), *at(y2))


def _outlines(commands: Sequence[Command]) -> Iterator[list[Command]]:
    """The parts of a path that begin with a move of the pen."""
    outline: list[Command] = []
    for command in commands:
        if command[0] == "M" and outline:
            yield outline
            outline = []
        outline.append(command)
    if outline:
        yield outline


def _crosses(outline: Sequence[Command], top: float, bottom: float) -> bool:
    heights = _heights(outline)
    return bool(heights) and min(heights) < bottom and max(heights) > top


def _heights(outline: Sequence[Command]) -> list[float]:
    return [float(value) for _, *numbers in outline for value in numbers[1::2]]


def _raised(commands: Sequence[Command], top: float) -> Iterator[Command]:
    for kind, *numbers in commands:
        flat = [float(value) for value in numbers]
        yield (kind, *(value - top * (index % 2) for index, value in enumerate(flat)))
