"""The chart symbols by name, and the inks that show on a colour.

No symbol is universal, so every chart carries its key.
"""

from collections.abc import Iterator
from functools import cache
from math import hypot

from bindoff.craft.cables import cross_symbol
from bindoff.craft.marks import MARKS
from bindoff.craft.stitches import standard_book
from bindoff.craft.symbols import Commands, Symbol
from bindoff.light import contrast
from bindoff.records import replace

__all__ = [
    "COLOUR_SYMBOLS",
    "SYMBOLS",
    "Commands",
    "Symbol",
    "faded",
    "find_symbol",
    "ink_on",
    "marked",
    "symbol_of",
]

COLOUR_SYMBOLS: tuple[str, ...] = tuple(MARKS)
"""Marks for yarns, the easiest to tell apart first; the first is an empty cell."""

# ---------------------------------------------------------------- the ground of a picture

_CORNER, _SMALL = (0.3, 0.7), 0.6  # the middle and the size of a mark in the lower left corner


def _in_corner(commands: Commands) -> Commands:
    return tuple(
        (name, *(_CORNER[at % 2] + (float(n) - 0.5) * _SMALL for at, n in enumerate(numbers)))
        for name, *numbers in commands
    )


GROUND_SYMBOLS: dict[str, str] = {
    name: name if name == "blank" else f"{name}, ground" for name in MARKS
}
"""The mark of a yarn where it is the ground that another is worked upon, by its usual mark."""

_GROUNDS = {
    GROUND_SYMBOLS[name]: Symbol(
        f"small {mark.picture} in the corner", _in_corner(mark.strokes), _in_corner(mark.fills)
    )
    for name, mark in MARKS.items()
    if name != "blank"
}

# ---------------------------------------------------------------- stitches

SYMBOLS: dict[str, Symbol] = (
    MARKS | {each.name: each for each in standard_book().symbols()} | _GROUNDS
)
"""Every symbol by the name a chart key gives, but for those of crosses, which are made by rule."""


def find_symbol(name: str) -> Symbol | None:
    """The symbol of this name, crosses and ``marked`` ones too, or ``None``."""
    return SYMBOLS.get(name) or cross_symbol(name) or _marked(name)


def symbol_of(name: str) -> Symbol:
    """The symbol of this name; raises ``KeyError`` if there is none."""
    found = find_symbol(name)
    if found is None:
        raise KeyError(name)
    return found


# ---------------------------------------------------------------- one stitch in several yarns

_WITH = " with a small "
_PLACES = (0.15, 0.85)  # the middle of a small mark, from the sides of the cell
_SMALLER = 0.54  # the size of a mark there


def marked(stitch: str, mark: str) -> str:
    """The name of the symbol called ``stitch`` with the ``mark`` of a yarn small beside it."""
    return f"{stitch}{_WITH}{mark}"


@cache
def _marked(name: str) -> Symbol | None:
    """The ``marked`` symbol of this name: the mark stands in the corner that has most room."""
    stitch, _, mark = name.partition(_WITH)
    symbol, small = find_symbol(stitch) if mark else None, MARKS.get(mark)
    if symbol is None or small is None:
        return None
    ink = tuple(_points((*symbol.strokes, *symbol.fills)))
    corners = [(x, y) for x in (_PLACES[0], symbol.wide - _PLACES[0]) for y in _PLACES]
    place = max(
        corners, key=lambda at: min((hypot(at[0] - x, at[1] - y) for x, y in ink), default=0.0)
    )

    def moved(commands: Commands) -> Commands:
        return tuple(
            (name, *(place[at % 2] + (float(n) - 0.5) * _SMALLER for at, n in enumerate(numbers)))
            for name, *numbers in commands
        )

    return replace(
        symbol,
        name=name,
        picture=f"{symbol.picture}, and a small {small.picture}",
        strokes=(*symbol.strokes, *moved(small.strokes)),
        fills=(*symbol.fills, *moved(small.fills)),
    )


def _points(commands: Commands) -> Iterator[tuple[float, float]]:
    """Points along the strokes, and those that bend them."""
    x = y = 0.0
    for name, *numbers in commands:
        places = [float(n) for n in numbers]
        for right, low in zip(places[::2], places[1::2], strict=True):
            for share in (0.25, 0.5, 0.75) if name != "M" else ():
                yield x + (right - x) * share, y + (low - y) * share
            x, y = right, low
            yield x, y


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
