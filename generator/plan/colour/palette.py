"""Telling yarn colours apart: on a screen, in grey print, and under colour-vision deficiency."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

TEXT_CONTRAST = 4.5
"""Least contrast of text on its ground: WCAG 2.2, success criterion 1.4.3."""


class Vision(StrEnum):
    """How the colours are looked at."""

    NORMAL = "normal"
    GREY = "grey"
    PROTAN = "protan"
    DEUTAN = "deutan"
    TRITAN = "tritan"


@dataclass(frozen=True, slots=True)
class AlikePair:
    """Two yarns whose colours differ by less than ``limit`` (CIEDE2000) in ``vision``."""

    first: str
    second: str
    vision: Vision
    difference: float
    limit: float


def simulate(colour: str, vision: Vision) -> str:
    """``colour`` (``#rrggbb``) as seen in ``vision``, as ``#rrggbb``."""
    raise NotImplementedError


def difference(first: str, second: str, vision: Vision = Vision.NORMAL) -> float:
    """CIEDE2000 between two colours (``#rrggbb``) in ``vision``."""
    raise NotImplementedError


def pairs_too_alike(
    colours: Sequence[tuple[str, str]], limits: Mapping[Vision, float] | None = None
) -> tuple[AlikePair, ...]:
    """Pairs of (yarn, ``#rrggbb``) that fall below the limit, by pair, then vision."""
    raise NotImplementedError


def contrast(first: str, second: str) -> float:
    """WCAG 2.2 contrast ratio of two colours (``#rrggbb``), 1 to 21."""
    raise NotImplementedError


def symbol_ink(colour: str) -> str:
    """``#000000`` or ``#ffffff``, whichever shows better on ``colour``; always 4.5:1 or more."""
    raise NotImplementedError


def assign_symbols(
    yarns: Sequence[str], symbols: Sequence[str], chosen: Mapping[str, str] | None = None
) -> tuple[tuple[str, str], ...]:
    """A symbol of its own for every yarn, in yarn order; ``chosen`` holds the designer's own.

    Raises ``PatternError`` when two yarns chose the same symbol or there are too few symbols.
    """
    raise NotImplementedError
