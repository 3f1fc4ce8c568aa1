"""Lengths in the printed units. Both are rounded from the same exact figure, never one from the
other."""

from collections.abc import Sequence
from typing import Literal

from generator.document.tree import Inline, Inlines, SizeValues, Text

Units = Literal["metric", "imperial", "both"]

MM_PER_INCH = 25.4
METRES_PER_YARD = 0.9144
_QUARTERS = ("", "¼", "½", "¾")


def cm(mm: float) -> str:
    """Centimetres to the nearest half: ``53`` or ``8.5``; below 5 cm to the nearest tenth."""
    step = 0.5 if abs(mm) >= 50 else 0.1
    return f"{round(mm / 10 / step) * step:.1f}".removesuffix(".0")


def inches(mm: float) -> str:
    """Inches to the nearest quarter: ``20¾``."""
    quarters = round(mm / MM_PER_INCH * 4)
    whole, rest = divmod(abs(quarters), 4)
    digits = f"{whole}{_QUARTERS[rest]}" if whole or not rest else _QUARTERS[rest]
    return f"−{digits}" if quarters < 0 else digits


def scales(units: Units) -> tuple[str, ...]:
    """The units to print, in order: ``cm``, ``in``."""
    return {"metric": ("cm",), "imperial": ("in",), "both": ("cm", "in")}[units]


def length_in(mm: float, scale: str) -> str:
    """A length as a bare figure in ``cm`` or ``in``."""
    return cm(mm) if scale == "cm" else inches(mm)


def length(mm: float, units: Units) -> str:
    """One length in words: ``21 cm / 8¼ in``."""
    return " / ".join(f"{length_in(mm, scale)} {scale}" for scale in scales(units))


def lengths(mm: Sequence[float], units: Units) -> Inlines:
    """A length per size: ``21 (22, 23) cm / 8¼ (8¾, 9) in``."""
    found: list[Inline] = []
    for scale in scales(units):
        if found:
            found.append(Text(" / "))
        found += [*per_size([length_in(each, scale) for each in mm]), Text(f" {scale}")]
    return tuple(found)


def per_size(values: Sequence[object]) -> Inlines:
    """One value per size as a node; plain text where all sizes agree."""
    words = tuple(str(value) for value in values)
    return (Text(words[0]),) if len(set(words)) == 1 else (SizeValues(words),)


def yarn_length(metres: float, units: Units) -> str:
    """A length of yarn: ``114 m / 125 yd``, rounded up."""
    yards = metres / METRES_PER_YARD
    both = {"metric": f"{up(metres)} m", "imperial": f"{up(yards)} yd"}
    return both.get(units) or " / ".join(both.values())


def up(number: float) -> int:
    """The next whole number, so that nobody runs out of yarn by rounding."""
    return -int(-number // 1)
