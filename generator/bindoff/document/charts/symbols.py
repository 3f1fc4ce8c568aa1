"""The chart symbols by name, and the inks that show on a colour.

Marks of yarns are drawn here, symbols of stitches in the stitch book. No symbol is universal, so
every chart carries its key.
"""

from bindoff.craft.cables import cross_symbol
from bindoff.craft.stitches import standard_book
from bindoff.craft.symbols import Commands, Symbol, circle, line, mirrored, shape
from bindoff.light import contrast

__all__ = [
    "COLOUR_SYMBOLS",
    "SYMBOLS",
    "Commands",
    "Symbol",
    "faded",
    "find_symbol",
    "ink_on",
    "symbol_of",
]

# ---------------------------------------------------------------- marks for yarn colours

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

_COLOUR_MARKS: dict[str, Symbol] = {
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

COLOUR_SYMBOLS: tuple[str, ...] = tuple(_COLOUR_MARKS)
"""Marks for yarns, the easiest to tell apart first; the first is an empty cell."""

# ---------------------------------------------------------------- the ground of a picture

_CORNER, _SMALL = (0.3, 0.7), 0.6  # the middle and the size of a mark in the lower left corner


def _in_corner(commands: Commands) -> Commands:
    return tuple(
        (name, *(_CORNER[at % 2] + (float(n) - 0.5) * _SMALL for at, n in enumerate(numbers)))
        for name, *numbers in commands
    )


GROUND_SYMBOLS: dict[str, str] = {
    name: name if name == "blank" else f"{name}, ground" for name in _COLOUR_MARKS
}
"""The mark of a yarn where it is the ground that another is worked upon, by its usual mark."""

_GROUNDS = {
    GROUND_SYMBOLS[name]: Symbol(
        f"small {mark.picture} in the corner", _in_corner(mark.strokes), _in_corner(mark.fills)
    )
    for name, mark in _COLOUR_MARKS.items()
    if name != "blank"
}

# ---------------------------------------------------------------- stitches

SYMBOLS: dict[str, Symbol] = (
    _COLOUR_MARKS | {each.name: each for each in standard_book().symbols()} | _GROUNDS
)
"""Every symbol by the name a chart key gives, but for those of crosses, which are made by rule."""


def find_symbol(name: str) -> Symbol | None:
    """The symbol of this name, crosses too, or ``None``."""
    return SYMBOLS.get(name) or cross_symbol(name)


def symbol_of(name: str) -> Symbol:
    """The symbol of this name; raises ``KeyError`` if there is none."""
    found = find_symbol(name)
    if found is None:
        raise KeyError(name)
    return found


# ---------------------------------------------------------------- ink


def ink_on(colour: str | None) -> str:
    """Black or white, whichever contrasts more with ``colour``: never less than 4.5 to 1."""
    if colour is None or contrast("#000000", colour) >= contrast("#ffffff", colour):
        return "#000000"
    return "#ffffff"


def faded(colour: str, share: float = 0.6) -> str:
    """``colour`` with that ``share`` of white mixed in."""
    channels = (int(colour[place : place + 2], 16) for place in (1, 3, 5))
    return "#" + "".join(f"{round(c + (255 - c) * share):02x}" for c in channels)
