"""Drawings as plain data and back, for those that are kept from run to run."""

from typing import Any

from bindoff.document.drawing import Drawing, Label, Lines, Path, Rect, Shape, Stamps
from bindoff.records import values_of

Plain = tuple[Any, ...]

_KINDS: dict[str, type[Shape]] = {kind.__name__: kind for kind in (Rect, Lines, Path, Label)}


def plain(drawing: Drawing) -> Plain:
    """The width and height of a drawing that shows no cells of a chart, and its shapes."""
    return drawing.width, drawing.height, tuple(_plain(shape) for shape in drawing.shapes)


def drawing_of(kept: Plain) -> Drawing:
    """The drawing of which ``plain`` made that."""
    width, height, shapes = kept
    return Drawing(width, height, tuple(_shape(*shape) for shape in shapes))


def _plain(shape: Shape) -> Plain:
    if isinstance(shape, Stamps):
        return "Stamps", values_of(shape.path), shape.places, shape.of
    return type(shape).__name__, *values_of(shape)


def _shape(kind: str, *values: Any) -> Shape:
    if kind == "Stamps":
        path, places, of = values
        return Stamps(Path(*path), places, of)
    return _KINDS[kind](*values)
