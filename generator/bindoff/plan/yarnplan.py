"""Yarn for the whole pattern: what every step of every piece takes, per yarn and size."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache

from bindoff.craft.fabric import FABRIC_YARN, HOOKED, Fabric, fabric_named, fabric_of_gauge
from bindoff.craft.lengths import CRAFT_LENGTHS
from bindoff.plan.fabrics import fabrics_of
from bindoff.plan.gauge import Gauge
from bindoff.plan.measures import Measures
from bindoff.plan.picture import piece_gauges
from bindoff.plan.seams import is_flat, seam_yarn
from bindoff.plan.sizing import stated_gauge
from bindoff.plan.worked import Loops, PiecePlan, StepPlan
from bindoff.plan.yarn import (
    Ball,
    BindOffKind,
    CastOnKind,
    Loop,
    Purpose,
    Relaxation,
    Swatch,
    YarnNeed,
    YarnUse,
    bind_off_yarn,
    cast_on_yarn,
    loop_by_swatch,
    loop_from_density,
    loop_from_swatch,
    needs_together,
    yarn_need,
)
from bindoff.plan.yarnends import joined_and_carried
from bindoff.records import Record
from bindoff.source.lengths import parse_ball, parse_length
from bindoff.source.read import Source
from bindoff.source.seams import sews_seams


class YarnTotal(Record):
    """What one yarn needs in each size."""

    yarn: str
    ball: Ball
    needs: tuple[YarnNeed, ...]


def balls_of(source: Source) -> Mapping[str, Ball]:
    """The ball of every yarn."""
    return {
        key: Ball(*parse_ball(yarn.ball, yarn.place.of("ball").text_span))
        for key, yarn in source.pattern.yarns.items()
    }


def loop_of(
    source: Source,
    yarn: str,
    gauge: Gauge,
    ball: Ball,
    key: str | None = None,
    fabric: Fabric | None = None,
) -> Loop:
    """Yarn in one stitch of ``fabric`` (else of what the gauge is worked in) at a gauge.

    ``key`` names the gauge; none is the main one. From the yarn's weighed swatch if it has one,
    else from the gauge. A swatch tells of its own gauge, the main one unless it names another.
    """
    worked = gauge_fabric(source, key)
    if fabric in HOOKED and not _named(source, key):
        worked = fabric  # a piece of crochet has a gauge of its own, whatever it is called
    here = _reckoned(gauge, fabric or worked, worked)
    weighed = swatched(source, yarn, ball)
    return here if weighed is None else loop_by_swatch(*weighed, here)


def swatched(source: Source, yarn: str, ball: Ball) -> tuple[Loop, Loop] | None:
    """The loop of a yarn's weighed swatch, and the one that its gauge would have."""
    written = source.pattern.yarns[yarn].swatch
    if written is None:
        return None
    fabric = gauge_fabric(source, written.gauge)
    swatch = Swatch(
        written.grams, written.stitches, ball, written.scale_grams, written.edges_weighed
    )
    gauge = stated_gauge(source, written.gauge or "")
    return loop_from_swatch(swatch), _reckoned(gauge, fabric, fabric)


def gauge_fabric(source: Source, key: str | None) -> Fabric:
    """The fabric that a gauge is worked in; no name is the main gauge."""
    return fabric_of_gauge(_worked(source, key), uk=source.pattern.terms == "UK")


def _named(source: Source, key: str | None) -> bool:
    """Whether a gauge says in which fabric it was worked, of those that have a figure."""
    named = fabric_named(_worked(source, key), uk=source.pattern.terms == "UK")
    return named not in (None, Fabric.UNKNOWN)


def _worked(source: Source, key: str | None) -> str:
    pattern = source.pattern
    return (pattern.gauges[key] if key else pattern.gauge).worked


def relaxation_of(gauge: Gauge) -> Relaxation:
    """How far the fabric of a gauge has relaxed: blocking wets or steams it as washing does
    (common practice, no source)."""
    return Relaxation.DRY if gauge.state == "unwashed" else Relaxation.WET


def _reckoned(gauge: Gauge, fabric: Fabric, worked: Fabric) -> Loop:
    state = relaxation_of(gauge)
    return loop_from_density(gauge.stitches_per(), gauge.rounds_per(), state, fabric, worked)


def plan_yarn(measures: Measures, pieces: tuple[PiecePlan, ...]) -> tuple[YarnTotal, ...]:
    """Metres, grams and balls of every yarn that is used, in the pattern's yarn order."""
    source = measures.source
    balls = balls_of(source)
    sizes = range(len(measures.sizes))
    fabrics = [[fabrics_of(plan, step, source) for step in plan.steps] for plan in pieces]
    knitted = [
        [_stitches(source, plan, size, made) for plan, made in zip(pieces, fabrics, strict=True)]
        for size in sizes
    ]
    totals = []
    for yarn, ball in balls.items():
        needs = tuple(
            needs_together(
                [
                    *_needs(measures, pieces, knitted[size], yarn, ball, size),
                    *_swatches(measures, pieces, knitted[size], yarn, ball, size),
                ],
                ball,
            )
            for size in sizes
        )
        if any(need.metres for need in needs):
            totals.append(YarnTotal(yarn, ball, needs))
    return tuple(totals)


Counts = Mapping[tuple[str, Fabric], float]
"""Stitches of each yarn in each fabric."""


def _stitches(
    source: Source, plan: PiecePlan, size: int, fabrics: Sequence[Sequence[Fabric | None]]
) -> Counts:
    """The stitches of one copy of a piece, with the ``fabrics`` of its steps in each size."""
    found: dict[tuple[str, Fabric], float] = {}
    unknown = gauge_fabric(source, source.pattern.pieces[plan.key].gauge) is Fabric.UNKNOWN
    for step, made in zip(plan.steps, fabrics, strict=True):
        fabric = made[size]
        if fabric is None:
            continue
        if unknown and fabric not in HOOKED:
            fabric = Fabric.UNKNOWN
        across = (step.before[size].stitches + step.after[size].stitches) / 2
        for loops in step.worked[size]:
            drawn = sum(count for _, count in loops)
            every = FABRIC_YARN[fabric].each_stitch
            more = max(1.0, across / drawn) if every and drawn else 1.0
            of_round = Fabric.STRANDED if len(loops) > 1 and not every else fabric
            for yarn, count in loops:
                found[yarn, of_round] = found.get((yarn, of_round), 0.0) + count * more
    return found


def _needs(
    measures: Measures,
    pieces: tuple[PiecePlan, ...],
    knitted: Sequence[Counts],
    yarn: str,
    ball: Ball,
    size: int,
) -> Iterator[YarnNeed]:
    source = measures.source
    sewn = _sewn(source, pieces, knitted)
    for plan, counts, sewn_in in zip(pieces, knitted, sewn, strict=True):
        piece = source.pattern.pieces[plan.key]
        gauge = piece_gauges(measures, piece)[size]
        found = [
            yarn_need(
                YarnUse(count, ends=0),
                loop_of(source, yarn, gauge, ball, piece.gauge, fabric),
                ball,
            )
            for (key, fabric), count in counts.items()
            if key == yarn
        ]
        plain = loop_of(source, yarn, gauge, ball, piece.gauge, Fabric.PLAIN)
        seams = seam_yarn(plan, size, gauge) if sewn_in == yarn else 0.0
        use = _use(source, plan, yarn, size, gauge, plain, seams)
        found.append(yarn_need(use, plain, ball))
        yield from found * piece.make


def _swatches(
    measures: Measures,
    pieces: tuple[PiecePlan, ...],
    knitted: Sequence[Counts],
    yarn: str,
    ball: Ball,
    size: int,
) -> Iterator[YarnNeed]:
    """Yarn to try each gauge with: a swatch of the size that the notes ask for, shared by their
    stitches among the yarn with most of them at that gauge and those with half as many. One for a
    tube from the machine is a tube of that length, for the machine cranks all its needles."""
    source = measures.source
    side = CRAFT_LENGTHS["swatch"]
    by_gauge: dict[str, dict[str, float]] = {}
    needles: dict[str, int] = {}
    made: dict[str, Counter[Fabric]] = {}
    for plan, counts in zip(pieces, knitted, strict=True):
        piece = source.pattern.pieces[plan.key]
        found = by_gauge.setdefault(piece.gauge or "", {})
        for tubes in (step.tubes for step in plan.steps if step.tubes):
            needles[piece.gauge or ""] = tubes[size].tube.needles
        for (key, fabric), count in counts.items():
            found[key] = found.get(key, 0.0) + count * piece.make
            made.setdefault(piece.gauge or "", Counter())[fabric] += round(count * piece.make)
    for key, found in by_gauge.items():
        main = [count for count in found.values() if count >= max(found.values()) / 2]
        if found.get(yarn, 0.0) in main:
            gauge = measures.sizes[size].gauges[key]
            most, _ = made[key].most_common(1)[0]
            loop = loop_of(source, yarn, gauge, ball, key, most if most in HOOKED else None)
            share = found[yarn] / sum(main)
            stitches = needles.get(key, side / gauge.stitch_mm) * side / gauge.round_mm * share
            yield yarn_need(YarnUse(0, ends=0, swatch_mm=stitches * loop.mm), loop, ball)


def _sewn(
    source: Source, pieces: tuple[PiecePlan, ...], knitted: Sequence[Counts]
) -> Sequence[str | None]:
    """The yarn that each piece is sewn with: that of most of its stitches; none where nothing is
    sewn, or where only flat pieces are."""
    if not sews_seams(source.pattern):
        return [None] * len(pieces)
    flat = [is_flat(plan) for plan in pieces]
    return [
        max(counts, key=lambda each: counts[each])[0] if counts and own == any(flat) else None
        for counts, own in zip(knitted, flat, strict=True)
    ]


def _use(
    source: Source,
    plan: PiecePlan,
    yarn: str,
    size: int,
    gauge: Gauge,
    loop: Loop,
    seams_mm: float,
) -> YarnUse:
    """What one copy of a piece takes of a yarn besides its stitches."""
    carried = [
        loops
        for step in plan.steps
        if not any(chart.bobbins for chart in step.charts)
        for loops in step.worked[size]
    ]
    edges = [_edge(step, yarn, size, gauge, loop) for step in plan.steps]
    inside = [_edges_in_rows(step, yarn, size, gauge, loop) for step in plan.steps]
    wishes = source.pattern.pieces[plan.key].colour_plan
    joins, up = joined_and_carried(source, plan, yarn, size)
    beside = _floats(tuple(carried), yarn)
    return YarnUse(
        stitches=0,
        ends=2 * joins,
        tail_mm=parse_length(wishes.tail, wishes.place.of("tail").span),
        floats_mm=beside * gauge.stitch_mm + up * gauge.round_mm,
        cast_on_mm=sum(edge.get(Purpose.CAST_ON, 0.0) for edge in edges)
        + sum(cast_on for cast_on, _ in inside),
        bind_off_mm=sum(edge.get(Purpose.BIND_OFF, 0.0) for edge in edges)
        + sum(bound_off for _, bound_off in inside),
        embroidery_mm=sum(edge.get(Purpose.EMBROIDERY, 0.0) for edge in edges),
        edging_mm=sum(edge.get(Purpose.EDGING, 0.0) for edge in edges),
        seams_mm=seams_mm,
    )


@lru_cache(maxsize=1 << 10)  # many sizes work the same rounds
def _floats(rounds: tuple[Loops, ...], yarn: str) -> int:
    """Stitches the yarn passes behind in stranded rounds."""
    counted = [dict(loops) for loops in rounds if len(loops) > 1]
    return sum(sum(counts.values()) - counts[yarn] for counts in counted if yarn in counts)


def _edge(
    step: StepPlan, yarn: str, size: int, gauge: Gauge, loop: Loop
) -> Mapping[Purpose, float]:
    """Lengths of yarn (mm) that a step takes besides its rounds, by what they are for."""
    taken = dict(step.answers.thread(step, yarn, size))
    if step.yarn != yarn:
        return taken
    begun, closed = step.begins, step.closes
    if begun is not None and begun.by is not None:
        count = sum(part[size] for part in begun.parts)
        taken[Purpose.CAST_ON] = cast_on_yarn(begun.by, gauge.width_of(count), count, loop)
    if closed is not None and closed.by is not None:
        count = closed.stitches[size]
        taken[Purpose.BIND_OFF] = bind_off_yarn(closed.by, gauge.width_of(count), count, loop)
    if begun is not None and begun.new:
        taken[Purpose.CAST_ON] = begun.new[size] * loop.mm
    return taken


def _edges_in_rows(
    step: StepPlan, yarn: str, size: int, gauge: Gauge, loop: Loop
) -> tuple[float, float]:
    """Lengths of yarn (mm) that rows take where they cast on and bind off: the one with two loops a
    stitch, as cable and knitted cast-ons have, the other as any edge."""
    cast_on, bound_off = 0.0, 0.0
    if len(step.worked[size]) == len(step.levels[size] if step.levels else ()):
        for loops, level in zip(step.worked[size], step.levels[size], strict=True):
            if not level.cast_on and not level.bound_off:
                continue
            used = dict(loops)
            if (yarn in used) if len(used) == 1 else yarn == step.yarn:
                cast_on += cast_on_yarn(CastOnKind.CABLE, 0, level.cast_on, loop)
                width = gauge.width_of(level.bound_off)
                bound_off += bind_off_yarn(BindOffKind.ORDINARY, width, level.bound_off, loop)
    return cast_on, bound_off
