"""What can be asked of any drawing: what lies where, and whether its labels can be read."""

from collections.abc import Iterable, Iterator
from importlib.resources import as_file, files
from itertools import combinations

import fontpkg_lato
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont

from bindoff.document.drawing import Drawing, Label, Lines, Path, Rect, Shape, Stamps

Box = tuple[float, float, float, float]


def _advances() -> dict[int, float]:
    """Advance widths of the font the documents are set in, from the font file itself."""
    with as_file(files(fontpkg_lato) / "files" / "Lato-Regular.ttf") as path:
        font = TTFont(path)
    units = font["head"].unitsPerEm
    return {code: font["hmtx"][name][0] / units for code, name in font.getBestCmap().items()}


_ADVANCES = _advances()


def labels(drawing: Drawing) -> list[Label]:
    return [shape for shape in drawing.shapes if isinstance(shape, Label)]


def label_box(label: Label) -> Box:
    """Left, top, right and bottom of the capitals and figures of a label."""
    width = sum(_ADVANCES[ord(letter)] for letter in label.text) * label.size
    left = label.x - {"start": 0.0, "middle": width / 2, "end": width}[label.anchor]
    return left, label.y - 0.72 * label.size, left + width, label.y


def overlap(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def hidden_labels(drawing: Drawing) -> list[tuple[str, str]]:
    """Pairs of labels that overlap each other."""
    found = [(label.text, label_box(label)) for label in labels(drawing)]
    return [(a, b) for (a, one), (b, other) in combinations(found, 2) if overlap(one, other)]


def clipped(drawing: Drawing) -> list[Shape]:
    """Shapes that reach past the edges of the drawing."""
    slack = 0.02
    return [
        shape
        for shape in drawing.shapes
        for left, top, right, bottom in (extent(shape),)
        if left < -slack
        or top < -slack
        or right > drawing.width + slack
        or bottom > drawing.height + slack
    ]


_PEN = {"M": "moveTo", "L": "lineTo", "C": "curveTo", "Z": "closePath"}


def outlines(shapes: Iterable[Shape]) -> Iterator[Path]:
    """All paths among ``shapes``, stamps at each of their places."""
    for shape in shapes:
        if isinstance(shape, Stamps):
            yield from shape.moved()
        elif isinstance(shape, Path):
            yield shape


def extent(shape: Shape) -> Box:
    """The box of a shape, strokes included."""
    match shape:
        case Label():
            return label_box(shape)
        case Rect(x, y, w, h, _, stroke, width):
            half = width / 2 if stroke else 0
            return x - half, y - half, x + w + half, y + h + half
        case Lines(segments, _, _):
            points = [point for x1, y1, x2, y2 in segments for point in ((x1, y1), (x2, y2))]
            half = 0.0
        case Path(commands, _, stroke, width):
            pen = BoundsPen(None)
            for name, path in path_points(commands):
                getattr(pen, _PEN[name])(*path)
            left, top, right, bottom = pen.bounds
            points = [(left, top), (right, bottom)]
            half = width / 2 if stroke else 0
        case Stamps():
            boxes = [extent(path) for path in shape.moved()]
            points = [corner for box in boxes for corner in (box[:2], box[2:])]
            half = 0.0
    xs, ys = zip(*points, strict=True)
    return min(xs) - half, min(ys) - half, max(xs) + half, max(ys) + half


def path_points(
    commands: tuple[tuple[str | float, ...], ...],
) -> Iterator[tuple[str, list[tuple[float, float]]]]:
    for name, *numbers in commands:
        values = [float(number) for number in numbers]
        yield str(name), list(zip(values[::2], values[1::2], strict=True))


def fill_at(drawing: Drawing, x: float, y: float) -> str | None:
    """The colour of the topmost filled rectangle at a point."""
    fill = None
    for shape in drawing.shapes:
        if (
            isinstance(shape, Rect)
            and shape.fill
            and shape.x < x < shape.x + shape.w
            and shape.y < y < shape.y + shape.h
        ):
            fill = shape.fill
    return fill
