"""Render a drawing as a PNG of a wished width, for screens and for a look at the fabric.

It is drawn larger and averaged down, so that edges are smooth. The file keeps its true size in
millimetres, so that it prints as large as the drawing is.
"""

from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from io import BytesIO
from itertools import pairwise
from math import ceil, dist, floor, sqrt
from typing import TYPE_CHECKING

from bindoff.diagnostics import fail
from bindoff.document.drawing import Drawing, Label, Lines, Path, Rect, Shape, Stamps
from bindoff.records import Record, replace
from bindoff.render.fontfiles import SANS, font_bytes

if TYPE_CHECKING:
    from PIL.ImageDraw import ImageDraw
    from PIL.ImageFont import FreeTypeFont

PIXEL_LIMIT = 25_000_000
"""Most pixels of a picture."""

_SAMPLE_LIMIT = 60_000_000
_MOST_SAMPLES = 4  # a pixel is the average of so many samples each way, fewer in a large picture
_FONTS = {False: "Lato-Regular.ttf", True: "Lato-Bold.ttf"}

Point = tuple[float, float]
Command = tuple[str | float, ...]


def render_png(drawing: Drawing, width_px: int, ground: str = "#ffffff") -> bytes:
    """The drawing as a PNG ``width_px`` wide on ``ground``.

    Raises:
        PatternError: ``png.size`` when the picture would have no pixel or more than
            ``PIXEL_LIMIT``.
    """
    from PIL import Image, ImageDraw

    height_px = round(drawing.height / drawing.width * width_px)
    if width_px < 1 or height_px < 1 or width_px * height_px > PIXEL_LIMIT:
        raise fail(
            "png.size",
            f"a picture of {width_px:,} by {height_px:,} pixels can't be made",
            f"Choose a width that gives at least 1 and at most {PIXEL_LIMIT // 1_000_000} million "
            "pixels in all",
        )
    samples = min(_MOST_SAMPLES, max(1, int(sqrt(_SAMPLE_LIMIT / (width_px * height_px)))))
    image = Image.new("RGB", (width_px * samples, height_px * samples), ground)
    canvas = _Canvas(ImageDraw.Draw(image), width_px * samples / drawing.width)
    for shape in drawing.shapes:
        canvas.paint(shape)
    dots_per_inch = 25.4 * width_px / drawing.width
    file = BytesIO()
    image.reduce(samples).save(file, "PNG", optimize=True, dpi=(dots_per_inch, dots_per_inch))
    return file.getvalue()


class _Canvas(Record):
    """What shapes are painted on; ``scale`` is samples per millimetre."""

    draw: "ImageDraw"
    scale: float

    def paint(self, shape: Shape) -> None:
        match shape:
            case Rect():
                self._rect(shape)
            case Lines():
                self._lines(shape)
            case Path():
                self._path(shape)
            case Stamps():
                self._stamps(shape)
            case Label():
                self._label(shape)

    def _rect(self, rect: Rect) -> None:
        left, right = round(rect.x * self.scale), round((rect.x + rect.w) * self.scale)
        top, low = round(rect.y * self.scale), round((rect.y + rect.h) * self.scale)
        if rect.fill and right > left and low > top:
            self.draw.rectangle((left, top, right - 1, low - 1), fill=rect.fill)
        if rect.stroke:
            corners = [(left, top), (right, top), (right, low), (left, low)]
            half = rect.width * self.scale / 2
            for start, end in zip(corners, corners[1:] + corners[:1], strict=True):
                # Longer by half the width at both ends: corners are mitred.
                self._line(*_longer(start, end, half), rect.stroke, rect.width)

    def _lines(self, lines: Lines) -> None:
        for x1, y1, x2, y2 in lines.segments:
            for start, end in _dashes((x1, y1), (x2, y2), lines.dash):
                self._line(self._at(start), self._at(end), lines.stroke, lines.width)

    def _line(self, start: Point, end: Point, colour: str, width_mm: float) -> None:
        """A stroke with square ends, as a rectangle along it."""
        length = dist(start, end)
        if length:
            half = max(width_mm * self.scale, 1) / 2
            across = (start[1] - end[1]) / length * half, (end[0] - start[0]) / length * half
            self.draw.polygon(
                [
                    (start[0] + across[0], start[1] + across[1]),
                    (end[0] + across[0], end[1] + across[1]),
                    (end[0] - across[0], end[1] - across[1]),
                    (start[0] - across[0], start[1] - across[1]),
                ],
                fill=colour,
            )

    def _path(self, path: Path) -> None:
        if path.fill:
            self._fill(path.commands, path.fill)
        if path.stroke:
            half = max(path.width * self.scale, 1) / 2
            for points, closed in _outlines(path.commands, self.scale):
                around = [*points, points[0]] if closed else points
                if path.cut:
                    self._band(around, path.stroke, half)
                    continue
                for start, end in pairwise(around):
                    self._line(start, end, path.stroke, path.width)
                for x, y in around:  # round joints and ends
                    self.draw.ellipse((x - half, y - half, x + half, y + half), fill=path.stroke)

    def _stamps(self, stamps: Stamps) -> None:
        """The outline is painted once, and laid at each place on the nearest sample."""
        from PIL import Image, ImageDraw

        path = stamps.path
        figures = [[float(n) for c in path.commands for n in c[axis::2]] for axis in (1, 2)]
        if not all(figures):
            return
        margin = path.width + 2 / self.scale
        left, top = min(figures[0]) - margin, min(figures[1]) - margin
        wide, high = (ceil((max(each) - min(each) + 2 * margin) * self.scale) for each in figures)
        masks: list[tuple[Image.Image, str]] = []
        for paint in (replace(path, stroke=None), replace(path, fill=None)):
            colour = paint.fill or paint.stroke
            if colour is None:
                continue
            white = replace(paint, fill=paint.fill and "#ffffff", stroke=paint.stroke and "#ffffff")
            mask = Image.new("L", (wide, high))
            (moved,) = Stamps(white, ((-left, -top),)).moved()
            _Canvas(ImageDraw.Draw(mask), self.scale).paint(moved)
            masks.append((mask, colour))
        for x, y in stamps.places:
            corner = round((x + left) * self.scale), round((y + top) * self.scale)
            for mask, colour in masks:
                self.draw.bitmap(corner, mask, fill=colour)

    def _band(self, points: Sequence[Point], colour: str, half: float) -> None:
        """A stroke whose parts are mitred, and whose ends are cut off straight."""
        sides = list[tuple[Point, Point]]()
        for before, here, after in zip(
            [points[0], *points], points, [*points[1:], points[-1]], strict=False
        ):
            way = dist(before, after) or 1.0
            x, y = (after[1] - before[1]) / way * half, (before[0] - after[0]) / way * half
            sides.append(((here[0] + x, here[1] + y), (here[0] - x, here[1] - y)))
        for (a, b), (c, d) in pairwise(sides):
            self.draw.polygon([a, c, d, b], fill=colour)

    def _fill(self, commands: Sequence[Command], colour: str) -> None:
        """Fills outlines; what outlines of both directions cover is a hole, as in SVG and PDF.

        (There, outlines count with their direction, and what they count 0 is left open.)
        """
        from PIL import Image, ImageChops, ImageDraw

        # A curve stays within its end and control points.
        wide, high = self.draw.im.size
        left, right = _reach([n for c in commands for n in c[1::2]], self.scale, wide)
        top, low = _reach([n for c in commands for n in c[2::2]], self.scale, high)
        if left >= right or top >= low:
            return
        masks = [Image.new("L", (right - left, low - top)) for _ in range(2)]
        pens = [ImageDraw.Draw(mask) for mask in masks]
        for points, _ in _outlines(commands, self.scale):
            if len(points) > 2:
                pen = pens[_clockwise(points)]
                pen.polygon([(x - left, y - top) for x, y in points], fill=255)
        self.draw.bitmap((left, top), ImageChops.difference(*masks), fill=colour)

    def _label(self, label: Label) -> None:
        from PIL import Image, ImageDraw

        x, y = self._at((label.x, label.y))
        font = _font(label.bold, label.size * self.scale)
        anchor = {"start": "ls", "middle": "ms", "end": "rs"}[label.anchor]
        if not label.turn:
            self.draw.text((x, y), label.text, fill=label.colour, font=font, anchor=anchor)
            return
        reach = ceil(font.getlength(label.text) + 2 * font.size)
        mask = Image.new("L", (2 * reach, 2 * reach))
        ImageDraw.Draw(mask).text((reach, reach), label.text, fill=255, font=font, anchor=anchor)
        turned = mask.rotate(label.turn, Image.Resampling.BICUBIC)
        self.draw.bitmap((round(x) - reach, round(y) - reach), turned, fill=label.colour)

    def _at(self, point: Point) -> Point:
        return point[0] * self.scale, point[1] * self.scale


def _font(bold: bool, size: float) -> "FreeTypeFont":
    from PIL import ImageFont

    data = font_bytes(SANS, _FONTS[bold])
    # The basic layout is the same on every machine.
    return ImageFont.truetype(BytesIO(data), size, layout_engine=ImageFont.Layout.BASIC)


# ---------------------------------------------------------------- outlines


def _reach(figures: Sequence[str | float], scale: float, most: int) -> tuple[int, int]:
    """The samples of an axis, up to ``most``, that figures in mm lie between."""
    found = [float(figure) * scale for figure in figures] or [0.0]
    return max(0, floor(min(found))), min(most, ceil(max(found)) + 1)


def _outlines(commands: Iterable[Command], scale: float) -> Iterator[tuple[list[Point], bool]]:
    """Each outline of a path as points in samples, and whether it is closed."""
    points: list[Point] = []
    for name, *numbers in commands:
        figures = [float(number) * scale for number in numbers]
        to = list(zip(figures[::2], figures[1::2], strict=True))
        match name:
            case "M":
                if points:
                    yield points, False
                points = to
            case "L":
                points += to
            case "C":
                points += _curve(points[-1], *to)
            case _:
                if points:
                    yield points, True
                points = points[:1]
    if len(points) > 1:
        yield points, False


def _curve(start: Point, first: Point, second: Point, end: Point) -> list[Point]:
    """Points along a cubic curve, close enough together to look round."""
    way = dist(start, first) + dist(first, second) + dist(second, end)
    (x1, y1), (x2, y2), (x3, y3), (x4, y4) = start, first, second, end
    return [
        (a * x1 + b * x2 + c * x3 + d * x4, a * y1 + b * y2 + c * y3 + d * y4)
        for a, b, c, d in _shares(max(2, min(32, ceil(sqrt(way)))))
    ]


@cache
def _shares(count: int) -> tuple[tuple[float, float, float, float], ...]:
    """How much of a curve's four points each of ``count`` points along it takes."""
    steps = (step / count for step in range(1, count + 1))
    return tuple(
        ((1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t * t, t * t * t) for t in steps
    )


def _clockwise(outline: Sequence[Point]) -> bool:
    """Whether an outline runs clockwise as seen (its y runs down)."""
    area = 0.0
    x1, y1 = outline[-1]
    for x2, y2 in outline:
        area += x1 * y2 - x2 * y1
        x1, y1 = x2, y2
    return area > 0


def _longer(start: Point, end: Point, by: float) -> tuple[Point, Point]:
    """A line made longer at both ends."""
    length = dist(start, end)
    if not length:
        return start, end
    x, y = (end[0] - start[0]) / length * by, (end[1] - start[1]) / length * by
    return (start[0] - x, start[1] - y), (end[0] + x, end[1] + y)


def _dashes(
    start: Point, end: Point, dash: tuple[float, float] | None
) -> Iterator[tuple[Point, Point]]:
    """A line as its dashes; whole where it has none."""
    length = dist(start, end)
    if dash is None or not length or sum(dash) <= 0:
        yield start, end
        return
    for nth in range(ceil(length / sum(dash))):
        here = nth * sum(dash)
        parts = [place / length for place in (here, min(here + dash[0], length))]
        yield tuple(  # type: ignore[misc]
            (start[0] + (end[0] - start[0]) * t, start[1] + (end[1] - start[1]) * t) for t in parts
        )
