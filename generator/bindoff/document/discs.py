"""Letters in rings: they tie a place in a drawing to its words."""

from collections.abc import Iterator

from bindoff.craft.symbols import circle
from bindoff.document.drawing import Drawing, Label, Path, Shape
from bindoff.document.lettering import RING, middle_of, text_width

_INK, _PAPER = "#000000", "#ffffff"
_OUTLINE = 0.25  # mm
_SIDE = 0.3  # of the type size: white on both sides of letters too wide for a circle


def disc(x: float, y: float, letter: str, size: float) -> Iterator[Shape]:
    """``letter`` of type ``size`` in a ring around (x, y), mm; a ring about several is drawn out
    sideways."""
    radius, half = size * RING, half_width(letter, size)
    yield Path(_ring(x, y, radius, half / radius), _PAPER, _INK, _OUTLINE)
    yield Label(x, y + size * middle_of(letter), letter, size, "middle", bold=True)


def alone(letter: str, size: float) -> Drawing:
    """A letter in its ring, with nothing around."""
    half, radius = half_width(letter, size), size * RING
    return Drawing(2 * half, 2 * radius, tuple(disc(half, radius, letter, size)))


def half_width(letter: str, size: float) -> float:
    """From the middle of a ring to its side, mm."""
    if len(letter) == 1:
        return size * RING
    return max(size * RING, text_width(letter, size, bold=True) / 2 + size * _SIDE)


def _ring(x: float, y: float, radius: float, wide: float) -> tuple[tuple[str | float, ...], ...]:
    """A circle drawn out sideways, ``wide`` times."""
    return tuple(
        (name, *(float(n) if at % 2 else x + (float(n) - x) * wide for at, n in enumerate(numbers)))
        for name, *numbers in circle(x, y, radius)
    )
