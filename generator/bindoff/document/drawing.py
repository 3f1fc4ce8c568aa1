"""The one drawing model: shapes in millimetres that SVG and PDF both draw, so they agree.

The origin is the top left corner; x runs right, y runs down. Colours are ``#rrggbb``.
"""

from collections.abc import Iterable, Iterator
from typing import Literal

from bindoff.document.lettering import CAP_HEIGHT, text_width
from bindoff.records import Record, replace

Box = tuple[float, float, float, float]
"""Left, top, right and bottom, mm."""


class Rect(Record):
    """A rectangle; ``fill`` or ``stroke`` may be absent. ``width`` of the stroke in mm. ``of`` says
    what it shows, where a file keeps such shapes together under a name."""

    x: float
    y: float
    w: float
    h: float
    fill: str | None = None
    stroke: str | None = None
    width: float = 0.1
    of: str = ""


class Lines(Record):
    """Straight strokes of one look, each (x1, y1, x2, y2); ``dash`` is on, off in mm."""

    segments: tuple[tuple[float, float, float, float], ...]
    stroke: str = "#000000"
    width: float = 0.1
    dash: tuple[float, float] | None = None


class Path(Record):
    """Outlines of one look. Each command is ("M", x, y), ("L", x, y), ("C", x1, y1, x2, y2, x, y)
    or ("Z",). Strokes that are ``cut`` end straight, as yarn that lies under another seems to."""

    commands: tuple[tuple[str | float, ...], ...]
    fill: str | None = None
    stroke: str | None = None
    width: float = 0.1
    cut: bool = False


class Label(Record):
    """Text with its baseline at ``y``; ``size`` in mm (1 pt = 0.3528 mm); ``turn`` in degrees
    counter-clockwise about (x, y)."""

    x: float
    y: float
    text: str
    size: float = 2.5
    anchor: Literal["start", "middle", "end"] = "start"
    colour: str = "#000000"
    bold: bool = False
    turn: float = 0.0


class Stamps(Record):
    """One small outline drawn at many places: ``path`` has its coordinates from (0, 0), and each
    place (x, y) is where that point comes to lie. Thousands of symbols of a chart cost little.
    ``of`` says what they show, as that of ``Rect``."""

    path: Path
    places: tuple[tuple[float, float], ...]
    of: str = ""

    def moved(self) -> Iterator[Path]:
        """The outline at every place."""
        for x, y in self.places:
            commands = (
                (name, *(float(n) + (y if at % 2 else x) for at, n in enumerate(numbers)))
                for name, *numbers in self.path.commands
            )
            yield replace(self.path, commands=tuple(commands))


Shape = Rect | Lines | Path | Stamps | Label


def moved(shapes: Iterable[Shape], x: float, y: float) -> Iterator[Shape]:
    """The shapes ``x`` mm further right and ``y`` mm further down."""
    for shape in shapes:
        match shape:
            case Rect() | Label():
                yield replace(shape, x=shape.x + x, y=shape.y + y)
            case Lines():
                segments = tuple((a + x, b + y, c + x, d + y) for a, b, c, d in shape.segments)
                yield replace(shape, segments=segments)
            case Path():
                (path,) = Stamps(shape, ((x, y),)).moved()
                yield path
            case Stamps():
                yield replace(shape, places=tuple((a + x, b + y) for a, b in shape.places))


def reach(shapes: Iterable[Shape]) -> Box:
    """The box of what shapes may cover; a curve stays within its points."""
    boxes = [_box(each) for each in shapes]
    return (
        min(box[0] for box in boxes),
        min(box[1] for box in boxes),
        max(box[2] for box in boxes),
        max(box[3] for box in boxes),
    )


def _box(shape: Shape) -> Box:
    match shape:
        case Path(commands, _, stroke, width):
            half = width / 2 if stroke else 0.0
            xs = [float(n) for c in commands for n in c[1::2]]
            ys = [float(n) for c in commands for n in c[2::2]]
        case Lines(segments, _, width):
            half = width / 2
            xs = [x for a, _, c, _ in segments for x in (a, c)]
            ys = [y for _, b, _, d in segments for y in (b, d)]
        case Label(x, y, text, size, anchor, _, bold):
            half, wide = 0.0, text_width(text, size, bold)
            start = x - {"start": 0.0, "middle": wide / 2, "end": wide}[anchor]
            xs, ys = [start, start + wide], [y - size * CAP_HEIGHT, y]
        case Rect(x, y, w, h, _, stroke, width):
            half = width / 2 if stroke else 0.0
            xs, ys = [x, x + w], [y, y + h]
        case Stamps(path, places):
            left, top, right, low = _box(path)
            across, down = zip(*places, strict=True)
            return left + min(across), top + min(down), right + max(across), low + max(down)
    return min(xs) - half, min(ys) - half, max(xs) + half, max(ys) + half


class Cells(Record):
    """Where the cells of a chart lie in a drawing, so that a place in it leads to a cell.

    They begin at (``left``, ``top``), are ``w`` by ``h`` mm, and are ``columns`` by ``rows``. The
    one at the bottom right is stitch ``stitch`` of line ``line`` of a grid, both from 1, from the
    right and from below; ``file`` is that of the grid, and after ``repeat`` stitches it begins
    anew. Of the map of a tube, lines are its rounds, and ``file`` is a word and its piece.
    """

    left: float
    top: float
    w: float
    h: float
    columns: int
    rows: int
    line: int
    stitch: int
    repeat: int
    file: str

    def between(self, top: float, bottom: float) -> "Cells | None":
        """The rows whose middle lies between two heights, moved up by ``top``."""
        above = sum(self.top + (row + 0.5) * self.h < top for row in range(self.rows))
        below = sum(self.top + (row + 0.5) * self.h >= bottom for row in range(self.rows))
        if above + below >= self.rows:
            return None
        return replace(
            self,
            top=self.top + above * self.h - top,
            rows=self.rows - above - below,
            line=self.line + below,
        )


class Drawing(Record):
    """A picture of ``width`` by ``height`` mm; shapes are painted in order. ``cells`` are those of
    the chart that it shows, where they are those of a grid."""

    width: float
    height: float
    shapes: tuple[Shape, ...]
    cells: Cells | None = None


def scaled(drawing: Drawing, by: float) -> Drawing:
    """The drawing ``by`` times as large, lines and type with it."""
    if by == 1.0:
        return drawing
    shapes = tuple(_scaled(each, by) for each in drawing.shapes)
    return Drawing(drawing.width * by, drawing.height * by, shapes)


def _scaled(shape: Shape, by: float) -> Shape:
    match shape:
        case Path(commands, fill, stroke, width, cut):
            larger = tuple((name, *(float(n) * by for n in numbers)) for name, *numbers in commands)
            return Path(larger, fill, stroke, width * by, cut)
        case Lines(segments, stroke, width, dash):
            longer = tuple((a * by, b * by, c * by, d * by) for a, b, c, d in segments)
            gaps = (dash[0] * by, dash[1] * by) if dash else None
            return Lines(longer, stroke, width * by, gaps)
        case Label(x, y, text, size, anchor, colour, bold, turn):
            return Label(x * by, y * by, text, size * by, anchor, colour, bold, turn)
        case Rect(x, y, w, h, fill, stroke, width, of):
            return Rect(x * by, y * by, w * by, h * by, fill, stroke, width * by, of)
        case Stamps(path, places, of):
            outline = _scaled(path, by)
            assert isinstance(outline, Path)
            return Stamps(outline, tuple((x * by, y * by) for x, y in places), of)
