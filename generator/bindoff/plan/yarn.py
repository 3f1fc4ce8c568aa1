"""Yarn: loop length, lengths of edges, and what each yarn needs in metres, grams and balls.

A plain stitch holds one loop length of yarn, whatever its colour. Everything else is added part by
part, so that a reader can follow where each metre goes.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from math import ceil, sqrt

from bindoff.craft.lengths import CRAFT_LENGTHS
from bindoff.plan.values import Value

EDGING_TIMES = 6.0
"""Yarn of a single crochet (US) round over the length of the edge. From memory, no source."""

DENSITY_UNCERTAINTY = 0.2
"""The upper end of the usual reserve of 10 to 20 % (common practice, no source)."""

HAND_UNCERTAINTY = 0.07
"""How far a piece may stray from its weighed swatch: two deviations of 3.5 %. Common practice, no
source; with half a step of the scale it keeps simulated projects from running short."""

EDGES_WEIGHED, EDGES_UNCERTAINTY = 0.135, 0.035
"""What edges and tails add to the weight of a swatch: 10 to 17 % (simulated swatches)."""


class Relaxation(StrEnum):
    """State of the fabric the gauge was measured in."""

    DRY = "dry-relaxed"
    WET = "wet-relaxed"
    FULL = "fully relaxed"

    @property
    def ks(self) -> float:
        """Ks of plain knitted wool, stitches per area times loop length squared (Munden 1959).

        The fully relaxed figure is the product of Kc 5.5 and Kw 4.2.
        """
        return {Relaxation.DRY: 19.0, Relaxation.WET: 21.6, Relaxation.FULL: 23.1}[self]


class LoopOrigin(StrEnum):
    """Where a loop length comes from."""

    SWATCH = "swatch"
    DENSITY = "stitch density"


class CastOn(StrEnum):
    """How a piece begins."""

    LONG_TAIL = "long-tail"
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
class Ball:
    """One ball as sold. Raises ``ValueError`` unless both figures are above 0."""

    grams: float
    metres: float

    def __post_init__(self) -> None:
        _above_zero("a ball", self.grams, self.metres)

    @property
    def metres_per_gram(self) -> float:
        """Metres in a gram."""
        return self.metres / self.grams

    @property
    def tex(self) -> float:
        """How thick the yarn is: grams in a kilometre (ISO 1144)."""
        return 1000 * self.grams / self.metres


@dataclass(frozen=True, slots=True)
class Swatch:
    """A weighed swatch: ``stitches`` counted over all of it, without its edges and ends.

    ``scale_grams``: the step in which the scale shows weights. ``with_edges``: whether ``grams``
    are those of its edges and ends too.
    """

    grams: float
    stitches: int
    ball: Ball
    scale_grams: float = 1.0
    with_edges: bool = False

    @property
    def net_grams(self) -> float:
        """What the counted stitches weigh."""
        return self.grams / (1 + EDGES_WEIGHED) if self.with_edges else self.grams

    @property
    def uncertainty(self) -> float:
        """A fraction: what hands stray, half a step of the scale, and the doubt about edges."""
        edges = EDGES_UNCERTAINTY if self.with_edges else 0.0
        return HAND_UNCERTAINTY + self.scale_grams / 2 / self.grams + edges


@dataclass(frozen=True, slots=True)
class Loop:
    """Yarn in one stitch: its figure (mm) with derivation, origin, and uncertainty (fraction)."""

    value: Value
    origin: LoopOrigin
    uncertainty: float

    @property
    def mm(self) -> float:
        """Unrounded loop length, mm."""
        return self.value.exact


@dataclass(frozen=True, slots=True)
class YarnUse:
    """What one yarn does in one size. Lengths of yarn, mm.

    ``stitches``: knitted stitches. ``ends``: loose ends, two for each time it is joined.
    ``floats_mm``: carried behind other stitches. ``cast_on_mm``, ``bind_off_mm``, ``edging_mm``:
    from ``cast_on_yarn``, ``bind_off_yarn``, ``edging_yarn``. ``embroidery_mm``: thread with tails.
    """

    stitches: int
    ends: int
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
    """What to buy of one yarn in one size.

    ``parts`` (those above 0, the reserve last) add up to ``metres``. ``uncertainty``: the fraction
    of the other parts that the reserve is.
    """

    parts: tuple[YarnPart, ...]
    metres: float
    grams: float
    balls: int
    uncertainty: float


def stitch_density(stitches_per_10cm: float, rounds_per_10cm: float) -> float:
    """Stitches per square centimetre."""
    _above_zero("a gauge", stitches_per_10cm, rounds_per_10cm)
    return stitches_per_10cm * rounds_per_10cm / 100


def fabric_grams_per_m2(density: float, loop_mm: float, tex: float) -> float:
    """Mass of a square metre: stitches per cm² x loop length x tex."""
    return density * loop_mm * tex / 100


def loop_from_density(stitches_per_10cm: float, rounds_per_10cm: float, state: Relaxation) -> Loop:
    """Loop length l = √(Ks / S) of plain knitting (Munden 1959)."""
    density = stitch_density(stitches_per_10cm, rounds_per_10cm)
    mm = 10 * sqrt(state.ks / density)
    inputs = (("Ks", state.ks), ("stitches per cm²", density))
    return Loop(
        Value(mm, round(mm, 1), "10 × √(Ks ÷ stitches per cm²)", inputs),
        LoopOrigin.DENSITY,
        DENSITY_UNCERTAINTY,
    )


def loop_from_swatch(swatch: Swatch) -> Loop:
    """Loop length from the grams of counted stitches and the metres in a gram."""
    _above_zero("a swatch", swatch.grams, swatch.stitches)
    metres_per_gram = swatch.ball.metres_per_gram
    mm = 1000 * swatch.net_grams * metres_per_gram / swatch.stitches
    inputs = (
        ("grams", swatch.net_grams),
        ("metres per gram", metres_per_gram),
        ("stitches", float(swatch.stitches)),
    )
    return Loop(
        Value(mm, round(mm, 1), "1000 × grams × metres per gram ÷ stitches", inputs),
        LoopOrigin.SWATCH,
        swatch.uncertainty,
    )


def loop_at_another_gauge(swatched: Loop, density: float, here: float) -> Loop:
    """The loop of a swatch with so many stitches per cm² where there are ``here``.

    Both by Munden's S = Ks / l²: loops of one yarn are as long as 1 / √S. At the swatch's own gauge
    the loop stays as it is.
    """
    _above_zero("a gauge", density, here)
    if density == here:
        return swatched
    mm = swatched.mm * sqrt(density / here)
    inputs = (
        ("swatch's loop", swatched.mm),
        ("stitches per cm² of the swatch", density),
        ("stitches per cm²", here),
    )
    formula = "swatch's loop × √(stitches per cm² of the swatch ÷ stitches per cm²)"
    return replace(swatched, value=Value(mm, round(mm, 1), formula, inputs))


def times_width(width_mm: float, times: float, tail_mm: float = 0.0) -> float:
    """Yarn of an edge or row by a handbook's rule: so many times its width, and a tail."""
    return width_mm * times + tail_mm


def cast_on_yarn(method: CastOn, width_mm: float, stitches: int, loop: Loop) -> float:
    """Yarn of a cast-on edge, mm, without its end.

    Long-tail: a tail of three times the width (handbook rule) and a loop on the needle for each
    stitch. On waste yarn the piece's own yarn begins with its first round.
    """
    match method:
        case CastOn.LONG_TAIL:
            return times_width(width_mm, 3) + stitches * loop.mm
        case CastOn.WASTE_YARN:
            return 0.0


def bind_off_yarn(method: BindOff, width_mm: float, stitches: int, loop: Loop) -> float:
    """Yarn of a bound-off edge, mm, without its end.

    Ordinary: four times the width (handbook rule for the cautious). Sewn: five times (handbook
    rule). Grafted: one more row of loops. Gathered: the yarn goes once and a half around (from
    memory). On waste yarn the last round stays open.
    """
    match method:
        case BindOff.ORDINARY:
            return times_width(width_mm, 4)
        case BindOff.SEWN:
            return times_width(width_mm, 5)
        case BindOff.GRAFTED:
            return stitches * loop.mm
        case BindOff.GATHERED:
            return times_width(width_mm, 1.5)
        case BindOff.WASTE_YARN:
            return 0.0


def edging_yarn(width_mm: float, rounds: int) -> float:
    """Yarn of a crochet edging of single crochet (US) rounds, mm, without its ends."""
    return times_width(width_mm, EDGING_TIMES) * rounds


def yarn_need(use: YarnUse, loop: Loop, ball: Ball) -> YarnNeed:
    """Metres, grams and whole balls of one yarn in one size."""
    lengths = (
        (Part.KNITTING, use.stitches * loop.mm),
        (Part.FLOATS, use.floats_mm),
        (Part.CAST_ON, use.cast_on_mm),
        (Part.BIND_OFF, use.bind_off_mm),
        (Part.TAILS, use.ends * CRAFT_LENGTHS["tail"]),
        (Part.EMBROIDERY, use.embroidery_mm),
        (Part.EDGING, use.edging_mm),
    )
    used = sum(mm for _, mm in lengths)
    parts = (*lengths, (Part.RESERVE, used * loop.uncertainty))
    return _to_buy([YarnPart(name, mm / 1000) for name, mm in parts], ball, loop.uncertainty)


def needs_together(needs: Sequence[YarnNeed], ball: Ball) -> YarnNeed:
    """The needs of one yarn in several pieces as one; ``needs`` holds one at least."""
    parts = [part for need in needs for part in need.parts]
    reserve = sum(part.metres for part in parts if part.name is Part.RESERVE)
    used = sum(part.metres for part in parts) - reserve
    return _to_buy(parts, ball, reserve / used if used else 0.0)


def _to_buy(parts: Iterable[YarnPart], ball: Ball, uncertainty: float) -> YarnNeed:
    """What is to be bought for ``parts``, of which several may have the same name."""
    total = dict.fromkeys(Part, 0.0)
    for part in parts:
        total[part.name] += part.metres
    metres = sum(total.values())
    return YarnNeed(
        parts=tuple(YarnPart(name, length) for name, length in total.items() if length > 0),
        metres=metres,
        grams=metres / ball.metres_per_gram,
        # A thousandth of a millimetre is no reason to buy another ball.
        balls=ceil(metres / ball.metres - 1e-6 / ball.metres),
        uncertainty=uncertainty,
    )


def _above_zero(what: str, *figures: float) -> None:
    if any(figure <= 0 for figure in figures):
        raise ValueError(f"{what} needs figures above 0")
