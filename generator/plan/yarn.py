"""Yarn: loop length, lengths of edges, and what each yarn needs in metres, grams and balls."""

from dataclasses import dataclass
from enum import StrEnum

TAIL_MM = 150.0
"""Length of one end: 15 cm, 6 in (common practice, no source)."""


class Relaxation(StrEnum):
    """State of the fabric the gauge was measured in (Munden 1959)."""

    DRY = "dry-relaxed"
    WET = "wet-relaxed"
    FULL = "fully relaxed"


class LoopOrigin(StrEnum):
    """Where a loop length comes from."""

    SWATCH = "swatch"
    DENSITY = "stitch density"


class CastOn(StrEnum):
    """How a piece begins."""

    LONG_TAIL = "long-tail"
    KNITTED = "knitted"
    WASTE_YARN = "waste yarn"


class BindOff(StrEnum):
    """How a piece ends."""

    ORDINARY = "ordinary"
    SEWN = "sewn"
    GRAFTED = "grafted"
    GATHERED = "gathered"
    WASTE_YARN = "waste yarn"


class Part(StrEnum):
    """What yarn is used for."""

    KNITTING = "knitting"
    FLOATS = "floats"
    CAST_ON = "cast-on"
    BIND_OFF = "bind-off"
    TAILS = "joins and tails"
    EMBROIDERY = "embroidery"
    EDGING = "edging"
    RESERVE = "reserve"


@dataclass(frozen=True, slots=True)
class Loop:
    """Yarn in one stitch, mm; where it is from; ``uncertainty`` as a fraction."""

    mm: float
    origin: LoopOrigin
    uncertainty: float


@dataclass(frozen=True, slots=True)
class Ball:
    """One ball as sold."""

    grams: float
    metres: float

    @property
    def metres_per_gram(self) -> float:
        """Metres in a gram."""
        return self.metres / self.grams

    @property
    def tex(self) -> float:
        """Grams per kilometre."""
        return 1000 * self.grams / self.metres


@dataclass(frozen=True, slots=True)
class YarnUse:
    """What one yarn does in one size. Lengths mm.

    ``stitches``: knitted. ``ends``: loose ends, two for each join. ``cast_on_mm`` and
    ``bind_off_mm``: yarn (not width), from ``cast_on_yarn`` and ``bind_off_yarn``;
    ``floats_mm``: stranded; ``embroidery_mm``: thread with its tails; ``edging_mm``: yarn.
    """

    yarn: str
    stitches: int
    ends: int = 2
    floats_mm: float = 0.0
    cast_on_mm: float = 0.0
    bind_off_mm: float = 0.0
    embroidery_mm: float = 0.0
    edging_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class YarnPart:
    """One part of a need."""

    name: Part
    metres: float


@dataclass(frozen=True, slots=True)
class YarnNeed:
    """What to buy of one yarn in one size. ``metres`` holds the reserve; ``parts`` add up to it."""

    yarn: str
    parts: tuple[YarnPart, ...]
    metres: float
    grams: float
    balls: int
    uncertainty: float


def stitch_density(stitches_per_10cm: float, rounds_per_10cm: float) -> float:
    """Stitches per square centimetre."""
    raise NotImplementedError


def loop_from_density(
    stitches_per_10cm: float, rounds_per_10cm: float, state: Relaxation = Relaxation.DRY
) -> Loop:
    """Loop length l = √(Ks / S) of plain knitting (Munden 1959)."""
    raise NotImplementedError


def loop_from_swatch(grams: float, stitches: int, ball: Ball) -> Loop:
    """Loop length from a weighed swatch of counted stitches."""
    raise NotImplementedError


def cast_on_yarn(method: CastOn, width_mm: float, stitches: int, loop: Loop) -> float:
    """Yarn of a cast-on edge, mm, without its end."""
    raise NotImplementedError


def bind_off_yarn(method: BindOff, width_mm: float, stitches: int, loop: Loop) -> float:
    """Yarn of a bound-off edge, mm, without its end."""
    raise NotImplementedError


def edging_yarn(width_mm: float, rounds: int) -> float:
    """Yarn of a crochet edging of single crochet (US), mm, without its end."""
    raise NotImplementedError


def yarn_need(use: YarnUse, loop: Loop, ball: Ball) -> YarnNeed:
    """Metres, grams and whole balls of one yarn in one size."""
    raise NotImplementedError
