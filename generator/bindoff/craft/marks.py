"""Marks that are no picture of a stitch: for yarns, and for stitches of the designer's own."""

from bindoff.craft.symbols import Symbol, circle, line, mirrored, shape
from bindoff.records import replace

_SLASH = line((0.24, 0.76), (0.76, 0.24))
_BACKSLASH = mirrored(_SLASH)
_LEVEL = line((0.22, 0.5), (0.78, 0.5))
_UPRIGHT = line((0.5, 0.22), (0.5, 0.78))
_TRIANGLE_UP = shape((0.5, 0.28), (0.74, 0.7), (0.26, 0.7))
_TRIANGLE_DOWN = shape((0.5, 0.72), (0.26, 0.3), (0.74, 0.3))
_DIAMOND = shape((0.5, 0.2), (0.78, 0.5), (0.5, 0.8), (0.22, 0.5))
_SQUARE = shape((0.31, 0.31), (0.69, 0.31), (0.69, 0.69), (0.31, 0.69))
_LARGE_SQUARE = shape((0.2, 0.2), (0.8, 0.2), (0.8, 0.8), (0.2, 0.8))
_STAR = (*_UPRIGHT, *line((0.26, 0.36), (0.74, 0.64)), *line((0.26, 0.64), (0.74, 0.36)))
_CHEVRON = line((0.24, 0.64), (0.5, 0.36), (0.76, 0.64))

_DRAWN: dict[str, Symbol] = {
    "blank": Symbol("empty cell"),
    "dot": Symbol("dot", fills=circle(0.5, 0.5, 0.15)),
    "cross": Symbol("cross", strokes=(*_SLASH, *_BACKSLASH)),
    "ring": Symbol("ring", strokes=circle(0.5, 0.5, 0.23)),
    "triangle up": Symbol("solid triangle, point up", fills=_TRIANGLE_UP),
    "slash": Symbol("slash", strokes=_SLASH),
    "square": Symbol("open square", strokes=_SQUARE),
    "plus": Symbol("plus", strokes=(*_LEVEL, *_UPRIGHT)),
    "diamond": Symbol("solid diamond", fills=_DIAMOND),
    "bar": Symbol("level bar", strokes=_LEVEL),
    "backslash": Symbol("backslash", strokes=_BACKSLASH),
    "triangle down": Symbol("open triangle, point down", strokes=_TRIANGLE_DOWN),
    "upright bar": Symbol("upright bar", strokes=_UPRIGHT),
    "star": Symbol("six-pointed star", strokes=_STAR),
    "solid square": Symbol("solid square", fills=_LARGE_SQUARE),
    "chevron": Symbol("chevron, point up", strokes=_CHEVRON),
}

MARKS: dict[str, Symbol] = {name: replace(mark, name=name) for name, mark in _DRAWN.items()}
"""Every mark by its name, the easiest to tell apart first; the first is an empty cell."""

LIKE_STITCHES = ("blank", "dot", "ring", "slash", "backslash")
"""Marks that look like a knit stitch, a purl, a yarn over and the decreases."""

OWN_MARKS: tuple[str, ...] = (
    "square",
    *(name for name in MARKS if name not in (*LIKE_STITCHES, "square")),
)
"""Marks for stitches that have no symbol, in the order they are given."""
