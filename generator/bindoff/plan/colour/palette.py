"""Telling yarn colours apart: on a screen, in grey print, and under colour-vision deficiency.

Colours are written ``#rrggbb`` (sRGB). Differences are CIEDE2000 (ISO/CIE 11664-6). Deficient
vision is simulated after Machado, Oliveira and Fernandes 2009 at severity 1.0, in linear light,
clipped to what a screen shows. Grey is a print of the same luminance.
"""

from collections.abc import Mapping, Sequence
from enum import StrEnum
from functools import lru_cache
from itertools import combinations
from typing import TYPE_CHECKING

from bindoff.diagnostics import Diagnostic, PatternError
from bindoff.kept import Shelf
from bindoff.records import Record

if TYPE_CHECKING:
    from coloraide import Color

Lab = tuple[float, float, float]
"""CIELAB L*, a*, b* under daylight D65."""

_MOST_KEPT = 4000
SHELF: Shelf[float] = Shelf(__file__, _MOST_KEPT, libraries=("coloraide",))
"""Differences of earlier runs: to load the colour library takes as long as half of the checks."""


class Vision(StrEnum):
    """How the colours are looked at."""

    NORMAL = "normal"
    GREY = "grey"
    PROTAN = "protan"
    DEUTAN = "deutan"
    TRITAN = "tritan"


class Limit(Record):
    """Least CIEDE2000 between two yarns in one kind of vision."""

    vision: Vision
    least: float


LIMITS = (
    Limit(Vision.NORMAL, 20.0),
    Limit(Vision.GREY, 10.0),
    Limit(Vision.PROTAN, 10.0),
    Limit(Vision.DEUTAN, 10.0),
    Limit(Vision.TRITAN, 10.0),
)
"""Ours: common practice, no source, figures from memory."""


class AlikePair(Record):
    """Two yarns whose colours differ by less than ``least`` (CIEDE2000) in ``vision``."""

    first: str
    second: str
    vision: Vision
    difference: float
    least: float


def simulate(colour: str, vision: Vision) -> str:
    """``colour`` as seen in ``vision``, to the nearest ``#rrggbb``."""
    return _seen(colour, vision).convert("srgb").to_string(hex=True)


def difference(first: str, second: str, vision: Vision = Vision.NORMAL) -> float:
    """CIEDE2000 between two colours in ``vision``."""
    return SHELF.get(
        (first, second, vision.value), lambda: ciede2000(_lab(first, vision), _lab(second, vision))
    )


def ciede2000(first: Lab, second: Lab) -> float:
    """CIEDE2000 between two CIELAB colours, with all parametric factors 1."""
    from coloraide import Color

    return float(Color("lab-d65", first).delta_e(Color("lab-d65", second), method="2000"))


def pairs_too_alike(
    colours: Sequence[tuple[str, str]], limits: Sequence[Limit] = LIMITS
) -> tuple[AlikePair, ...]:
    """Pairs of (yarn, colour) that fall below a limit, by pair, then in the order of ``limits``."""
    pairs = (
        AlikePair(one, other, limit.vision, difference(first, second, limit.vision), limit.least)
        for (one, first), (other, second) in combinations(colours, 2)
        for limit in limits
    )
    return tuple(pair for pair in pairs if pair.difference < pair.least)


def assign_symbols(
    yarns: Sequence[str], symbols: Sequence[str], chosen: Mapping[str, str] | None = None
) -> tuple[tuple[str, str], ...]:
    """A symbol of its own for every yarn, in yarn order; ``chosen`` holds the designer's own.

    The other yarns get the free ``symbols`` in the order given.

    Raises ``PatternError`` when two yarns chose the same symbol or there are too few symbols.
    """
    own = {yarn: symbol for yarn, symbol in (chosen or {}).items() if yarn in yarns}
    free = [symbol for symbol in dict.fromkeys(symbols) if symbol not in own.values()]
    others = [yarn for yarn in yarns if yarn not in own]
    findings = _same_symbol(own)
    if len(others) > len(free):
        findings.append(
            Diagnostic(
                "symbol.too-few",
                f"{len(others)} yarns need a symbol but only {len(free)} are left",
                f"Give `{others[len(free)]}` a symbol of its own, or use fewer yarns",
            )
        )
    if findings:
        raise PatternError(findings)
    given = own | dict(zip(others, free, strict=False))
    return tuple((yarn, given[yarn]) for yarn in yarns)


def _same_symbol(own: Mapping[str, str]) -> list[Diagnostic]:
    return [
        Diagnostic(
            "symbol.same",
            f"yarns `{first}` and `{second}` have the same symbol `{own[first]}`",
            f"Choose another symbol for `{second}`",
        )
        for first, second in combinations(own, 2)
        if own[first] == own[second]
    ]


def _seen(colour: str, vision: Vision) -> "Color":
    """A colour as seen, within the colours of a screen."""
    # Imported here because it takes as long as all the rest of a check.
    from coloraide import Color

    plain = Color(colour)
    if vision is Vision.NORMAL:
        return plain
    if vision is Vision.GREY:
        return plain.filter("grayscale").clip()
    return plain.filter(vision.value, method="machado").clip()


@lru_cache
def _lab(colour: str, vision: Vision) -> Lab:
    lightness, a, b = _seen(colour, vision).convert("lab-d65").coords()
    return (lightness, a, b)
