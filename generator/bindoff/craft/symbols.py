"""What a chart symbol is, and the pen its strokes are drawn with.

A symbol is geometry in a unit cell, nothing that needs a page: so it stands in the stitch's own
entry. Every symbol is drawn as the stitch looks from the right side of the fabric. Which picture
stands for which stitch follows the trade's common conventions in words (a dot for purl, a circle
for a yarn over, a stroke that leans the way the decrease leans); the drawings are our own.
"""

from collections.abc import Sequence

from bindoff.records import Record, replace

Command = tuple[str | float, ...]
Commands = tuple[Command, ...]


class Symbol(Record):
    """A mark in a unit cell (0 to 1 both ways, y down; ``wide`` cells across).

    ``picture`` says how it looks to a reader who cannot see it. ``strokes`` are drawn as lines and
    ``fills`` as solids, both as path commands. ``shade`` fills the whole cell with a colour of its
    own. ``name`` is what a pattern calls it.
    """

    picture: str
    strokes: Commands = ()
    fills: Commands = ()
    wide: int = 1
    shade: str | None = None
    name: str = ""


# ---------------------------------------------------------------- the pen


def line(*points: tuple[float, float]) -> Commands:
    """An open stroke through the points."""
    first, *others = points
    return (("M", *first), *(("L", *point) for point in others))


def shape(*points: tuple[float, float]) -> Commands:
    """A closed stroke through the points."""
    return (*line(*points), ("Z",))


def circle(x: float, y: float, radius: float) -> Commands:
    """A circle around (x, y)."""
    bend = 0.5523 * radius  # four cubic curves stay within 0.03 % of a true circle
    left, right, top, low = x - radius, x + radius, y - radius, y + radius
    return (
        ("M", right, y),
        ("C", right, y + bend, x + bend, low, x, low),
        ("C", x - bend, low, left, y + bend, left, y),
        ("C", left, y - bend, x - bend, top, x, top),
        ("C", x + bend, top, right, y - bend, right, y),
        ("Z",),
    )


def mirrored(commands: Commands, wide: int = 1) -> Commands:
    """Left for right within the cell."""
    return tuple(
        (name, *(wide - n if place % 2 == 0 else n for place, n in enumerate(numbers)))
        for name, numbers in _split(commands)
    )


def image(symbol: Symbol, name: str, picture: str) -> Symbol:
    """The mirror image of a symbol, with a name and a picture of its own."""
    return replace(
        symbol,
        name=name,
        picture=picture,
        strokes=mirrored(symbol.strokes, symbol.wide),
        fills=mirrored(symbol.fills, symbol.wide),
    )


def dotted(symbol: Symbol, name: str, x: float, y: float, radius: float = 0.1) -> Symbol:
    """The purled form of a symbol: the same strokes with a dot at (x, y)."""
    return replace(
        symbol,
        name=name,
        picture=f"{symbol.picture} with a dot",
        fills=(*symbol.fills, *circle(x, y, radius)),
    )


def _split(commands: Commands) -> Sequence[tuple[str, tuple[float, ...]]]:
    return [(str(name), tuple(float(n) for n in numbers)) for name, *numbers in commands]


# ---------------------------------------------------------------- strokes that many stitches share

LEAN_RIGHT = line((0.18, 0.84), (0.82, 0.16))
"""The stroke of a decrease that leans to the right."""
