"""The chart symbols, drawn once in a unit cell, and the inks that show on a colour."""

from dataclasses import dataclass

Command = tuple[str | float, ...]


@dataclass(frozen=True, slots=True)
class Symbol:
    """A mark in a unit cell (0 to 1 both ways, y down; ``wide`` cells across).

    ``strokes`` are drawn as lines and ``fills`` as solids, both as ``drawing.Path`` commands.
    ``shade`` fills the whole cell with a colour of its own.
    """

    strokes: tuple[Command, ...] = ()
    fills: tuple[Command, ...] = ()
    wide: int = 1
    shade: str | None = None


SYMBOLS: dict[str, Symbol] = {"blank": Symbol()}
COLOUR_SYMBOLS: tuple[str, ...] = ("blank",)


def luminance(colour: str) -> float:
    """Relative luminance of ``#rrggbb``, 0 black to 1 white (WCAG 2.2)."""
    raise NotImplementedError


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, 1 to 21 (WCAG 2.2)."""
    raise NotImplementedError


def ink_on(colour: str | None) -> str:
    """Black or white, whichever contrasts more with ``colour``: never less than 4.5 to 1."""
    raise NotImplementedError
