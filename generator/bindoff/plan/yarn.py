"""Yarn: loop length, lengths of edges, and what each yarn needs in metres, grams and balls.

A plain stitch holds one loop length of yarn, whatever its colour. Everything else is added part by
part, so that a reader can follow where each metre goes.
"""

from collections.abc import Iterable, Sequence
from enum import StrEnum
from math import ceil, sqrt

from bindoff.craft.fabric import EDGE_TIMES, FABRIC_YARN, Evidence, Fabric
from bindoff.craft.lengths import CRAFT_LENGTHS
from bindoff.plan.values import Value
from bindoff.records import Record

HAND_UNCERTAINTY = 0.05
"""How far a piece may stray from its weighed swatch: two deviations of 2.5 %. Common practice, no
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


class CastOnKind(StrEnum):
    """How a piece begins."""

    LONG_TAIL = "long-tail"
    CABLE = "cable"
    KNITTED = "knitted"
    BACKWARD_LOOP = "backward-loop"
    TUBULAR = "tubular"
    PROVISIONAL = "provisional"
    WASTE_YARN = "waste yarn"
    WOUND = "wound"
    TURKISH = "turkish"
    GERMAN_TWISTED = "german twisted"
    CROCHET = "crochet"


class BindOffKind(StrEnum):
    """How a piece ends."""

    ORDINARY = "ordinary"
    SEWN = "sewn"
    I_CORD = "i-cord"
    PICOT = "picot"
    TUBULAR = "tubular"
    GRAFTED = "grafted"
    GATHERED = "gathered"
    GATHERED_ENDS = "gathered at both ends"
    SLIP_STITCHED = "slip-stitched"
    SEWN_TOGETHER = "sewn together"
    WASTE_YARN = "waste yarn"


class Purpose(StrEnum):
    """What yarn is used for."""

    KNITTING = "knitting"
    FLOATS = "floats"
    CAST_ON = "cast-on"
    BIND_OFF = "bind-off"
    TAILS = "joins and tails"
    EMBROIDERY = "embroidery"
    EDGING = "edging"
    SEAMS = "seams"
    SWATCH = "gauge swatch"
    RESERVE = "reserve"


class Ball(Record):
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


class Swatch(Record):
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


class Loop(Record):
    """Yarn in one stitch: its figure (mm) with derivation, origin, and uncertainty (fraction).

    ``fabric`` is what it is knitted as; ``factor`` how much longer than a plain loop of so many
    stitches in a cm² that makes it; ``doubted`` the fabric whose reserve it has, its own or
    plain knitting, unless a swatch was weighed; ``gauged`` the fabric of the gauge.
    """

    value: Value
    origin: LoopOrigin
    uncertainty: float
    fabric: Fabric = Fabric.PLAIN
    factor: float = 1.0
    doubted: Fabric = Fabric.PLAIN
    gauged: Fabric = Fabric.PLAIN

    @property
    def founded(self) -> Fabric:
        """The fabric that its figures rest on least: its own, or that of the gauge."""
        order = list(Evidence)
        return max(self.fabric, self.gauged, key=lambda each: order.index(_evidence(each)))

    @property
    def mm(self) -> float:
        """Unrounded loop length, mm."""
        return self.value.exact


def _evidence(fabric: Fabric) -> Evidence:
    return FABRIC_YARN[fabric].evidence


class YarnUse(Record):
    """What one yarn does in one size. Lengths of yarn, mm.

    ``stitches``: loops knitted. ``ends``: loose ends of ``tail_mm``, two for each time it is
    joined. ``floats_mm``: carried behind other stitches, or up past other rounds. ``cast_on_mm``,
    ``bind_off_mm``, ``edging_mm``: from ``cast_on_yarn``, ``bind_off_yarn``, ``edging_yarn``.
    ``embroidery_mm``: thread with tails. ``seams_mm``: to sew with, its ends included.
    ``swatch_mm``: knitted to try the gauge, which needs no reserve.
    """

    stitches: float
    ends: int
    floats_mm: float = 0.0
    cast_on_mm: float = 0.0
    bind_off_mm: float = 0.0
    embroidery_mm: float = 0.0
    edging_mm: float = 0.0
    seams_mm: float = 0.0
    swatch_mm: float = 0.0
    tail_mm: float = CRAFT_LENGTHS["tail"]


class YarnPart(Record):
    """One part of a need."""

    name: Purpose
    metres: float


class Knitted(Record):
    """So many stitches of one loop."""

    stitches: float
    loop: Loop


class YarnNeed(Record):
    """What to buy of one yarn in one size.

    ``parts`` (those above 0, the reserve last) add up to ``metres``. ``uncertainty``: the fraction
    of the other parts, a gauge swatch left aside, that the reserve is. ``knitted``: the loops that
    the knitting was reckoned with.
    """

    parts: tuple[YarnPart, ...]
    metres: float
    grams: float
    balls: int
    uncertainty: float
    knitted: tuple[Knitted, ...] = ()


def stitch_density(stitches_per_10cm: float, rounds_per_10cm: float) -> float:
    """Stitches per square centimetre."""
    _above_zero("a gauge", stitches_per_10cm, rounds_per_10cm)
    return stitches_per_10cm * rounds_per_10cm / 100


def fabric_grams_per_m2(density: float, loop_mm: float, tex: float) -> float:
    """Mass of a square metre: stitches per cm² x loop length x tex."""
    return density * loop_mm * tex / 100


def loop_from_density(
    stitches_per_10cm: float,
    rounds_per_10cm: float,
    state: Relaxation,
    fabric: Fabric = Fabric.PLAIN,
    worked: Fabric = Fabric.PLAIN,
) -> Loop:
    """Loop length l = √(Ks / S) of plain knitting (Munden 1959), times the factor of ``fabric``
    where the gauge was ``worked`` in that fabric or another. A factor beside the gauge of another
    fabric goes by plain knitting, so that its reserve is no smaller than that of plain knitting,
    nor than that of a gauge in a fabric without figures."""
    density = stitch_density(stitches_per_10cm, rounds_per_10cm)
    ruled, of_gauge = FABRIC_YARN[fabric], FABRIC_YARN[worked]
    factor = of_gauge.own if fabric is worked else of_gauge.own / of_gauge.beside * ruled.beside
    mm = 10 * sqrt(state.ks / density) * factor
    formula = "10 × √(Ks ÷ stitches per cm²)"
    inputs: tuple[tuple[str, float], ...] = (("Ks", state.ks), ("stitches per cm²", density))
    if factor != 1:
        formula += " × factor of the fabric"
        inputs += (("factor of the fabric", factor),)
    value = Value(mm, round(mm, 1), formula, inputs)
    apart = (Fabric.PLAIN,) if fabric is not worked else ()
    unproved = (worked,) if of_gauge.evidence is Evidence.NONE else ()
    doubted = max((fabric, *apart, *unproved), key=lambda each: FABRIC_YARN[each].reserve)
    reserve = FABRIC_YARN[doubted].reserve
    return Loop(value, LoopOrigin.DENSITY, reserve, fabric, factor, doubted, worked)


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


def loop_by_swatch(swatched: Loop, there: Loop, here: Loop) -> Loop:
    """The loop ``here`` of the hand that made a swatch.

    ``there`` and ``here`` are reckoned from the density: the swatch is as much longer or shorter
    than ``there`` as the loop wanted is than ``here``. So at other gauges loops are as 1 / √S
    (Munden 1959). In another fabric than the swatch's, the doubt is that of the fabric at least.
    """
    same = there.fabric is here.fabric
    doubt = swatched.uncertainty if same else max(swatched.uncertainty, here.uncertainty)
    value = swatched.value
    if there.mm != here.mm:
        mm = swatched.mm * here.mm / there.mm
        inputs = (
            ("swatch's loop", swatched.mm),
            ("reckoned loop here", here.mm),
            ("reckoned loop of the swatch", there.mm),
        )
        formula = "swatch's loop × reckoned loop here ÷ reckoned loop of the swatch"
        value = Value(mm, round(mm, 1), formula, inputs)
    return Loop(
        value, LoopOrigin.SWATCH, doubt, here.fabric, here.factor, here.doubted, here.gauged
    )


def times_width(width_mm: float, times: float, tail_mm: float = 0.0) -> float:
    """Yarn of an edge or row by a handbook's rule: so many times its width, and a tail."""
    return width_mm * times + tail_mm


def cast_on_yarn(method: CastOnKind, width_mm: float, stitches: int, loop: Loop) -> float:
    """Yarn of a cast-on edge, mm, without its end.

    Long-tail: a tail of three times the width (handbook rule) and a loop on the needle for each
    stitch. On waste yarn, and provisional, the piece's own yarn begins with its first round. Wound
    around the needles of a machine, and of backward loops: a loop for each. Cable and knitted: two
    loops for each, the one drawn through another and the one it is drawn through. Tubular: a yarn
    over and a stitch for every two, a row and a half with the set-up rows (geometry, no source).
    Turkish: a loop for each. German twisted: the tail of a long-tail one and a third more, for the
    twist (common practice, no source). Crochet: a chain around the needle, two loops for each.
    """
    match method:
        case CastOnKind.LONG_TAIL:
            return times_width(width_mm, 3) + stitches * loop.mm
        case CastOnKind.WASTE_YARN | CastOnKind.PROVISIONAL:
            return 0.0
        case CastOnKind.GERMAN_TWISTED:
            return times_width(width_mm, 4) + stitches * loop.mm
        case CastOnKind.WOUND | CastOnKind.BACKWARD_LOOP | CastOnKind.TURKISH:
            return stitches * loop.mm
        case CastOnKind.CABLE | CastOnKind.KNITTED | CastOnKind.CROCHET:
            return 2 * stitches * loop.mm
        case CastOnKind.TUBULAR:
            return 1.5 * stitches * loop.mm


def bind_off_yarn(method: BindOffKind, width_mm: float, stitches: int, loop: Loop) -> float:
    """Yarn of a bound-off edge, mm, without its end.

    Ordinary: four times the width (handbook rule for the cautious). Sewn: five times (handbook
    rule). Grafted, and so tubular: one more row of loops. I-cord: a row of three stitches for each.
    Picot: for every two, two are cast on and four bound off. Gathered: the yarn goes once and a
    half around (from memory); at both ends of a tube by tails of twice around and their ends, as
    the words say. Slip-stitched: a row of slip stitches. Sewn together: three times the width, as
    any seam (common practice, no source). On waste yarn the last round stays open.
    """
    match method:
        case BindOffKind.ORDINARY:
            return times_width(width_mm, 4)
        case BindOffKind.SEWN:
            return times_width(width_mm, 5)
        case BindOffKind.I_CORD:
            return 3 * stitches * loop.mm
        case BindOffKind.PICOT:
            return times_width(width_mm, 8) + 2 * stitches * loop.mm
        case BindOffKind.GRAFTED | BindOffKind.TUBULAR:
            return stitches * loop.mm
        case BindOffKind.GATHERED:
            return times_width(width_mm, 1.5)
        case BindOffKind.GATHERED_ENDS:
            return 2 * times_width(width_mm, 2)
        case BindOffKind.SLIP_STITCHED:
            return times_width(width_mm, EDGE_TIMES["sl st"])
        case BindOffKind.SEWN_TOGETHER:
            return times_width(width_mm, 3)
        case BindOffKind.WASTE_YARN:
            return 0.0


def edging_yarn(width_mm: float, tallest: Sequence[str]) -> float:
    """Yarn of a crochet edging, mm, without its ends: a stitch for each row, its tallest."""
    times = (EDGE_TIMES.get(stitch, EDGE_TIMES["sc"]) for stitch in tallest)
    return sum(times_width(width_mm, each) for each in times)


def yarn_need(use: YarnUse, loop: Loop, ball: Ball) -> YarnNeed:
    """Metres, grams and whole balls of one yarn in one size."""
    lengths = (
        (Purpose.KNITTING, use.stitches * loop.mm),
        (Purpose.FLOATS, use.floats_mm),
        (Purpose.CAST_ON, use.cast_on_mm),
        (Purpose.BIND_OFF, use.bind_off_mm),
        (Purpose.TAILS, use.ends * use.tail_mm),
        (Purpose.EMBROIDERY, use.embroidery_mm),
        (Purpose.EDGING, use.edging_mm),
        (Purpose.SEAMS, use.seams_mm),
    )
    used = sum(mm for _, mm in lengths)
    parts = (*lengths, (Purpose.SWATCH, use.swatch_mm), (Purpose.RESERVE, used * loop.uncertainty))
    knitted = (Knitted(use.stitches, loop),) if use.stitches else ()
    return _to_buy([YarnPart(name, mm / 1000) for name, mm in parts], ball, knitted)


def needs_together(needs: Sequence[YarnNeed], ball: Ball) -> YarnNeed:
    """The needs of one yarn in several pieces as one; ``needs`` holds one at least."""
    parts = [part for need in needs for part in need.parts]
    knitted: dict[Loop, float] = {}
    for each in (each for need in needs for each in need.knitted):
        knitted[each.loop] = knitted.get(each.loop, 0) + each.stitches
    loops = tuple(Knitted(stitches, loop) for loop, stitches in knitted.items())
    return _to_buy(parts, ball, loops)


def _to_buy(parts: Iterable[YarnPart], ball: Ball, knitted: tuple[Knitted, ...]) -> YarnNeed:
    """What is to be bought for ``parts``, of which several may have the same name."""
    total = dict.fromkeys(Purpose, 0.0)
    for part in parts:
        total[part.name] += part.metres
    metres = sum(total.values())
    sure = metres - total[Purpose.RESERVE] - total[Purpose.SWATCH]
    return YarnNeed(
        parts=tuple(YarnPart(name, length) for name, length in total.items() if length > 0),
        metres=metres,
        grams=metres / ball.metres_per_gram,
        # A thousandth of a millimetre is no reason to buy another ball.
        balls=ceil(metres / ball.metres - 1e-6 / ball.metres),
        uncertainty=total[Purpose.RESERVE] / sure if sure else 0.0,
        knitted=knitted,
    )


def _above_zero(what: str, *figures: float) -> None:
    if any(figure <= 0 for figure in figures):
        raise ValueError(f"{what} needs figures above 0")
