"""Telling yarn colours apart: on a screen, in grey print, and under colour-vision deficiency.

Colours are written ``#rrggbb`` (sRGB). Differences are CIEDE2000 (ISO/CIE 11664-6). Deficient
vision is simulated after Machado, Oliveira and Fernandes 2009 at severity 1.0, in linear light,
clipped to what a screen shows. Grey is a print of the same luminance.
"""

from collections.abc import Mapping, Sequence
from enum import StrEnum
from itertools import combinations

from bindoff.diagnostics import Diagnostic, PatternError
from bindoff.light import Light, apart, colour_of, lab_of, lights, luminance
from bindoff.records import Record


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
    return colour_of(_seen(colour, vision))


def difference(first: str, second: str, vision: Vision = Vision.NORMAL) -> float:
    """CIEDE2000 between two colours in ``vision``."""
    return apart(lab_of(_seen(first, vision)), lab_of(_seen(second, vision)))


def pairs_too_alike(
    colours: Sequence[tuple[str, str]], limits: Sequence[Limit] = LIMITS
) -> tuple[AlikePair, ...]:
    """Pairs of (yarn, colour) that fall below a limit, by pair, then in the order of ``limits``."""
    seen = {
        (yarn, limit.vision): lab_of(_seen(colour, limit.vision))
        for yarn, colour in colours
        for limit in limits
    }
    pairs = (
        AlikePair(
            first,
            second,
            limit.vision,
            apart(seen[first, limit.vision], seen[second, limit.vision]),
            limit.least,
        )
        for (first, _), (second, _) in combinations(colours, 2)
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


# Machado, Oliveira and Fernandes 2009, the matrices for severity 1.0.
_DEFICIENT = {
    Vision.PROTAN: (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    Vision.DEUTAN: (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    Vision.TRITAN: (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}


def _seen(colour: str, vision: Vision) -> Light:
    """The light of a colour as seen, within what a screen shows."""
    if vision is Vision.GREY:
        grey = luminance(colour)
        return grey, grey, grey
    light = lights(colour)
    if vision is Vision.NORMAL:
        return light
    red, green, blue = (
        min(max(sum(share * each for share, each in zip(row, light, strict=True)), 0.0), 1.0)
        for row in _DEFICIENT[vision]
    )
    return red, green, blue
