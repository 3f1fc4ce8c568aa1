"""The chart symbols, drawn once in a unit cell, and the inks that show on a colour.

Every symbol is drawn as the stitch looks from the right side of the fabric. Which picture stands
for which stitch follows the trade's common conventions in words (a dot for purl, a circle for a
yarn over, a stroke that leans the way the decrease leans); the drawings are our own. No symbol is
universal, so every chart carries its key.
"""

from collections.abc import Sequence
from dataclasses import dataclass

Command = tuple[str | float, ...]
Commands = tuple[Command, ...]


@dataclass(frozen=True, slots=True)
class Symbol:
    """A mark in a unit cell (0 to 1 both ways, y down; ``wide`` cells across).

    ``picture`` says how it looks to a reader who cannot see it.
    ``strokes`` are drawn as lines and ``fills`` as solids, both as ``drawing.Path`` commands.
    ``shade`` fills the whole cell with a colour of its own.
    """

    picture: str
    strokes: Commands = ()
    fills: Commands = ()
    wide: int = 1
    shade: str | None = None


# ---------------------------------------------------------------- drawing by hand


def _line(*points: tuple[float, float]) -> Commands:
    first, *others = points
    return (("M", *first), *(("L", *point) for point in others))


def _shape(*points: tuple[float, float]) -> Commands:
    return (*_line(*points), ("Z",))


def _circle(x: float, y: float, radius: float) -> Commands:
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


def _mirrored(commands: Commands, wide: int = 1) -> Commands:
    """Left for right within the cell."""
    return tuple(
        (name, *(wide - n if place % 2 == 0 else n for place, n in enumerate(numbers)))
        for name, numbers in _split(commands)
    )


def _split(commands: Commands) -> Sequence[tuple[str, tuple[float, ...]]]:
    return [(str(name), tuple(float(n) for n in numbers)) for name, *numbers in commands]


# ---------------------------------------------------------------- marks for yarn colours

_SLASH = _line((0.24, 0.76), (0.76, 0.24))
_BACKSLASH = _mirrored(_SLASH)
_LEVEL = _line((0.22, 0.5), (0.78, 0.5))
_UPRIGHT = _line((0.5, 0.22), (0.5, 0.78))
_TRIANGLE_UP = _shape((0.5, 0.28), (0.74, 0.7), (0.26, 0.7))
_TRIANGLE_DOWN = _shape((0.5, 0.72), (0.26, 0.3), (0.74, 0.3))
_DIAMOND = _shape((0.5, 0.2), (0.78, 0.5), (0.5, 0.8), (0.22, 0.5))
_SQUARE = _shape((0.31, 0.31), (0.69, 0.31), (0.69, 0.69), (0.31, 0.69))
_STAR = (*_UPRIGHT, *_line((0.26, 0.36), (0.74, 0.64)), *_line((0.26, 0.64), (0.74, 0.36)))
_CHEVRON = _line((0.24, 0.64), (0.5, 0.36), (0.76, 0.64))

_COLOUR_MARKS: dict[str, Symbol] = {
    "blank": Symbol("empty cell"),
    "dot": Symbol("dot", fills=_circle(0.5, 0.5, 0.15)),
    "cross": Symbol("cross", strokes=(*_SLASH, *_BACKSLASH)),
    "ring": Symbol("ring", strokes=_circle(0.5, 0.5, 0.23)),
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
    "solid square": Symbol("solid square", fills=_SQUARE),
    "chevron": Symbol("chevron, point up", strokes=_CHEVRON),
}

COLOUR_SYMBOLS: tuple[str, ...] = tuple(_COLOUR_MARKS)
"""Marks for yarns, the easiest to tell apart first; the first is an empty cell."""

# ---------------------------------------------------------------- stitches

_LEAN_RIGHT = _line((0.18, 0.84), (0.82, 0.16))
_LEGS = (*_line((0.5, 0.5), (0.5, 0.84)), *_line((0.5, 0.5), (0.82, 0.84)))
_V = _line((0.24, 0.24), (0.5, 0.76), (0.76, 0.24))
_FOOT_LEFT: Commands = (
    ("M", 0.64, 0.16),
    ("L", 0.64, 0.56),
    ("C", 0.64, 0.86, 0.4, 0.88, 0.24, 0.72),
)
_RIBBON: Commands = (
    ("M", 0.26, 0.82),
    ("C", 0.88, 0.42, 0.82, 0.16, 0.5, 0.16),
    ("C", 0.18, 0.16, 0.12, 0.42, 0.74, 0.82),
)
_ARCH: Commands = (("M", 0.18, 0.72), ("C", 0.24, 0.3, 0.76, 0.3, 0.82, 0.72))
_CUP: Commands = (
    ("M", 0.3, 0.26),
    ("L", 0.3, 0.54),
    ("C", 0.3, 0.84, 0.7, 0.84, 0.7, 0.54),
    ("L", 0.7, 0.26),
)
_TRIPOD = (*_line((0.5, 0.18), (0.5, 0.82)), *_line((0.2, 0.82), (0.5, 0.18), (0.8, 0.82)))
_FORK = (*_line((0.22, 0.2), (0.5, 0.52), (0.78, 0.2)), *_line((0.5, 0.52), (0.5, 0.82)))
_SLIPPED_TRIPOD = (
    *_mirrored(_LEAN_RIGHT),
    *_line((0.5, 0.5), (0.24, 0.82)),
    *_line((0.44, 0.18), (0.72, 0.18)),
)

_STITCHES: dict[str, Symbol] = {
    "knit": Symbol("empty cell"),
    "purl": Symbol("dot", fills=_circle(0.5, 0.5, 0.13)),
    "yarn over": Symbol("open circle", strokes=_circle(0.5, 0.5, 0.29)),
    "k2tog": Symbol("stroke leaning right", strokes=_LEAN_RIGHT),
    "ssk": Symbol("stroke leaning left", strokes=_mirrored(_LEAN_RIGHT)),
    "p2tog": Symbol(
        "stroke leaning right with a dot", strokes=_LEAN_RIGHT, fills=_circle(0.74, 0.72, 0.1)
    ),
    "ssp": Symbol(
        "stroke leaning left with a dot",
        strokes=_mirrored(_LEAN_RIGHT),
        fills=_circle(0.26, 0.72, 0.1),
    ),
    "k3tog": Symbol("three-legged stroke leaning right", strokes=(*_LEAN_RIGHT, *_LEGS)),
    "sssk": Symbol("three-legged stroke leaning left", strokes=_mirrored((*_LEAN_RIGHT, *_LEGS))),
    "centred double decrease": Symbol("upright tripod", strokes=_TRIPOD),
    "sk2p": Symbol("stroke leaning left with a leg and a bar on top", strokes=_SLIPPED_TRIPOD),
    "make 1 left": Symbol("hook with its foot to the left", strokes=_FOOT_LEFT),
    "make 1 right": Symbol("hook with its foot to the right", strokes=_mirrored(_FOOT_LEFT)),
    "kfb": Symbol("fork", strokes=_FORK),
    "slip": Symbol("V", strokes=_V),
    "slip yarn in front": Symbol("V over a bar", strokes=(*_V, *_line((0.24, 0.86), (0.76, 0.86)))),
    "ktbl": Symbol("loop with crossed feet", strokes=_RIBBON),
    "bobble": Symbol("large dot", fills=_circle(0.5, 0.5, 0.3)),
    "bind off": Symbol("low arch", strokes=_ARCH),
    "cast on": Symbol("cup", strokes=_CUP),
    "no stitch": Symbol("grey cell", shade="#c4c4c4"),
}


def _cable(front: int, back: int) -> Symbol:
    """A right cross: ``front`` stitches lean right on top, ``back`` stitches pass under them."""
    wide, inset, low, high = front + back, 0.1, 0.92, 0.08
    over = [(inset, back + inset), (front - inset, wide - inset)]
    under = [(front + inset, inset), (wide - inset, back - inset)]
    strokes: list[Command] = []
    for start, end in over:
        strokes += _line((start, low), (end, high))
    for start, end in under:
        meet_low, meet_high = sorted(
            (start - edge) / ((start - end) + (edge_end - edge)) for edge, edge_end in over
        )
        for part in ((0.0, meet_low), (meet_high, 1.0)):
            strokes += _line(*((start + t * (end - start), low + t * (high - low)) for t in part))
    return Symbol("crossed strokes, the right-leaning ones on top", tuple(strokes), wide=wide)


def _cables() -> dict[str, Symbol]:
    """Crosses named ``cable FRONT/BACK right`` or ``left``, for 1 to 4 stitches each."""
    found: dict[str, Symbol] = {}
    for front in range(1, 5):
        for back in range(1, 5):
            cross = _cable(front, back)
            left = Symbol(
                "crossed strokes, the left-leaning ones on top",
                _mirrored(cross.strokes, cross.wide),
                wide=cross.wide,
            )
            found[f"cable {front}/{back} right"] = cross
            found[f"cable {front}/{back} left"] = left
    return found


# ---------------------------------------------------------------- the ground of a picture

_CORNER, _SMALL = (0.3, 0.7), 0.6  # the middle and the size of a mark in the lower left corner


def _in_corner(commands: Commands) -> Commands:
    return tuple(
        (name, *(_CORNER[at % 2] + (n - 0.5) * _SMALL for at, n in enumerate(numbers)))
        for name, numbers in _split(commands)
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

SYMBOLS: dict[str, Symbol] = _COLOUR_MARKS | _STITCHES | _cables() | _GROUNDS
"""Every symbol by the name a chart key gives."""

# ---------------------------------------------------------------- ink


def luminance(colour: str) -> float:
    """Relative luminance of ``#rrggbb``, 0 black to 1 white (WCAG 2.2)."""
    channels = (int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5))
    red, green, blue = (
        c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, 1 to 21 (WCAG 2.2)."""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def ink_on(colour: str | None) -> str:
    """Black or white, whichever contrasts more with ``colour``: never less than 4.5 to 1."""
    if colour is None or contrast("#000000", colour) >= contrast("#ffffff", colour):
        return "#000000"
    return "#ffffff"


def faded(colour: str, share: float = 0.6) -> str:
    """``colour`` with that ``share`` of white mixed in."""
    channels = (int(colour[place : place + 2], 16) for place in (1, 3, 5))
    return "#" + "".join(f"{round(c + (255 - c) * share):02x}" for c in channels)
