"""Lengths and weights in the printed units. Each unit is rounded from the same exact figure, never
one from the other.

1 in = 25.4 mm, 1 yd = 0.9144 m and 1 oz = 28.349523125 g exactly (international yard and pound
agreement of 1959; NIST Special Publication 811, appendix B).
"""

import math
from collections.abc import Sequence
from typing import Literal

from bindoff.craft.needles import SOLD_LENGTHS
from bindoff.document.tree import Inline, Inlines, SizeValues, Text

Units = Literal["metric", "imperial", "both"]

MM_PER_INCH = 25.4
METRES_PER_YARD = 0.9144
GRAMS_PER_OUNCE = 28.349523125

_EIGHTHS = ("", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞")
_DUST = 9  # decimals; below them lies the error of binary fractions


def cm(mm: float) -> str:
    """Centimetres to the nearest half: ``53`` or ``8.5``; below 5 cm to the nearest tenth.

    A half of a step goes up. A length that is not nothing never prints as 0.
    """
    tenths = _steps(mm, 5.0) * 5 if abs(mm) >= 50 else _steps(mm, 1.0)
    if tenths == 0 and round(mm, _DUST):
        return "less than 0.1"
    return _signed(mm, f"{tenths / 10:.1f}".removesuffix(".0"))


def inches(mm: float) -> str:
    """Inches to the nearest quarter: ``20¾``; below 1 in to the nearest eighth."""
    eighths = _steps(mm, MM_PER_INCH / 4) * 2
    if abs(mm) < MM_PER_INCH:
        eighths = _steps(mm, MM_PER_INCH / 8)
    if eighths == 0 and round(mm, _DUST):
        return "less than ⅛"
    whole, rest = divmod(eighths, 8)
    return _signed(mm, f"{whole or ''}{_EIGHTHS[rest]}" or "0")


def _steps(mm: float, step_mm: float) -> int:
    """The nearest whole number of steps in a length, without its sign."""
    return math.floor(round(abs(mm) / step_mm, _DUST) + 0.5)


def _signed(mm: float, digits: str) -> str:
    return f"−{digits}" if mm < 0 and digits != "0" else digits


def scales(units: Units) -> tuple[str, ...]:
    """The units to print, in order: ``cm``, ``in``."""
    return {"metric": ("cm",), "imperial": ("in",), "both": ("cm", "in")}[units]


def length_in(mm: float, scale: str) -> str:
    """A length as a bare figure in ``cm`` or ``in``."""
    return cm(mm) if scale == "cm" else inches(mm)


def length(mm: float, units: Units) -> str:
    """One length in words: ``21 cm / 8¼ in``."""
    return " / ".join(f"{length_in(mm, scale)} {scale}" for scale in scales(units))


def round_length(mm: float, units: Units) -> str:
    """A length of advice, such as a tail or a needle: ``60 cm / 24 in``.

    Inches as needles and cables of that length are sold, else whole ones from 4 in up: a handbook's
    60 cm and 24 in are one rule, no conversion.
    """
    sold = SOLD_LENGTHS.get(round(mm / 10)) if mm % 10 == 0 else None
    whole = str(sold[0] if sold else _nearest(mm / MM_PER_INCH))
    said = {"cm": cm(mm), "in": whole if sold or mm >= 4 * MM_PER_INCH else inches(mm)}
    return " / ".join(f"{said[scale]} {scale}" for scale in scales(units))


def lengths(mm: Sequence[float], units: Units) -> Inlines:
    """A length per size: ``21 (22, 23) cm / 8¼ (8¾, 9) in``."""
    found: list[Inline] = []
    for scale in scales(units):
        words = per_size([length_in(each, scale) for each in mm])
        lead = " / " if found else ""
        match words:
            case (Text(same),):
                found.append(Text(f"{lead}{same} {scale}"))
            case _:
                found += [*((Text(lead),) if lead else ()), *words, Text(f" {scale}")]
    return tuple(found)


def per_size(values: Sequence[object]) -> Inlines:
    """One value per size as a node; plain text where all sizes agree."""
    words = tuple(str(value) for value in values)
    return (Text(words[0]),) if len(set(words)) == 1 else (SizeValues(words),)


def yarn_length(metres: float, units: Units) -> str:
    """The length of a ball as its label says it: ``114 m / 125 yd``, to the nearest."""
    yards = metres / METRES_PER_YARD
    both = {"metric": f"{_nearest(metres)} m", "imperial": f"{_nearest(yards)} yd"}
    return both.get(units) or " / ".join(both.values())


def weight(grams: float, units: Units) -> str:
    """The weight of a ball: ``50 g``, or ``1.8 oz`` to the nearest tenth."""
    if units == "imperial":
        tenths = _nearest(grams / GRAMS_PER_OUNCE * 10)
        return f"{tenths / 10:.1f} oz".replace(".0 ", " ")
    return f"{grams:g} g"


def up(number: float) -> int:
    """The next whole number, so that nobody runs out of yarn by rounding."""
    return math.ceil(round(number, _DUST))


def yards_up(metres: float, units: Units) -> int:
    """Whole yards that hold ``metres``; where metres stand beside them, all of those printed."""
    return up((up(metres) if units == "both" else metres) / METRES_PER_YARD)


def up_to_tenths(number: float) -> str:
    """The next tenth: ``1.8``."""
    return f"{up(number * 10) / 10:.1f}"


def _nearest(number: float) -> int:
    return math.floor(round(number, _DUST) + 0.5)
