"""Yarn for the whole pattern: what every step of every piece takes, per yarn and size."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from bindoff.plan.gauge import Gauge
from bindoff.plan.measures import Measures
from bindoff.plan.picture import piece_gauges
from bindoff.plan.sizing import stated_gauge
from bindoff.plan.worked import Loops, PiecePlan, StepPlan
from bindoff.plan.yarn import (
    Ball,
    Loop,
    Part,
    Relaxation,
    Swatch,
    YarnNeed,
    YarnUse,
    bind_off_yarn,
    cast_on_yarn,
    loop_at_another_gauge,
    loop_from_density,
    loop_from_swatch,
    needs_together,
    stitch_density,
    yarn_need,
)
from bindoff.source.lengths import parse_ball
from bindoff.source.read import Source

# A yarn not worked for more rounds than this is cut; up to this many it is carried up the inside.
# Common practice, no source.
CARRIED_ROUNDS = 4


@dataclass(frozen=True, slots=True)
class YarnTotal:
    """What one yarn needs in each size."""

    yarn: str
    ball: Ball
    needs: tuple[YarnNeed, ...]


def balls_of(source: Source) -> Mapping[str, Ball]:
    """The ball of every yarn."""
    return {
        key: Ball(*parse_ball(yarn.ball, source.tree.text_span(("yarns", key, "ball"))))
        for key, yarn in source.pattern.yarns.items()
    }


def loop_of(source: Source, yarn: str, gauge: Gauge, ball: Ball) -> Loop:
    """Yarn in one stitch at a gauge: from the yarn's weighed swatch if it has one, else from the
    gauge. A swatch tells of its own gauge, the pattern's main one unless it names another."""
    written = source.pattern.yarns[yarn].swatch
    if written is None:
        state = Relaxation.WET if gauge.state == "washed" else Relaxation.DRY
        return loop_from_density(gauge.stitches_per(), gauge.rounds_per(), state)
    own = stated_gauge(source, written.gauge or "")
    swatch = Swatch(
        written.grams, written.stitches, ball, written.scale_grams, written.edges_weighed
    )
    return loop_at_another_gauge(loop_from_swatch(swatch), _density(own), _density(gauge))


def _density(gauge: Gauge) -> float:
    return stitch_density(gauge.stitches_per(), gauge.rounds_per())


def plan_yarn(measures: Measures, pieces: tuple[PiecePlan, ...]) -> tuple[YarnTotal, ...]:
    """Metres, grams and balls of every yarn that is used, in the pattern's yarn order."""
    source = measures.source
    balls = balls_of(source)
    totals = []
    for yarn, ball in balls.items():
        needs = tuple(
            needs_together(list(_needs(measures, pieces, yarn, ball, size)), ball)
            for size in range(len(measures.sizes))
        )
        if any(need.metres for need in needs):
            totals.append(YarnTotal(yarn, ball, needs))
    return tuple(totals)


def _needs(
    measures: Measures, pieces: tuple[PiecePlan, ...], yarn: str, ball: Ball, size: int
) -> Iterator[YarnNeed]:
    source = measures.source
    for plan in pieces:
        piece = source.pattern.pieces[plan.key]
        gauge = piece_gauges(measures, piece)[size]
        loop = loop_of(source, yarn, gauge, ball)
        yield from [yarn_need(_use(plan, yarn, size, gauge, loop), loop, ball)] * piece.make


def _use(plan: PiecePlan, yarn: str, size: int, gauge: Gauge, loop: Loop) -> YarnUse:
    """What one copy of a piece takes of a yarn."""
    rounds = [loops for step in plan.steps for loops in step.worked[size]]
    edges = [_edge(step, yarn, size, gauge, loop) for step in plan.steps]
    return YarnUse(
        stitches=sum(dict(loops).get(yarn, 0) for loops in rounds),
        ends=2 * _joins(rounds, yarn),
        floats_mm=sum(_floats(loops, yarn) for loops in rounds) * gauge.stitch_mm,
        cast_on_mm=sum(edge.get(Part.CAST_ON, 0.0) for edge in edges),
        bind_off_mm=sum(edge.get(Part.BIND_OFF, 0.0) for edge in edges),
        embroidery_mm=sum(edge.get(Part.EMBROIDERY, 0.0) for edge in edges),
        edging_mm=sum(edge.get(Part.EDGING, 0.0) for edge in edges),
    )


def _joins(rounds: list[Loops], yarn: str) -> int:
    """How often the yarn is joined: once, and again after each rest too long to carry it."""
    joins, rest = 0, CARRIED_ROUNDS + 1
    for loops in rounds:
        if yarn in dict(loops):
            joins += rest > CARRIED_ROUNDS
            rest = 0
        else:
            rest += 1
    return joins


def _floats(loops: Loops, yarn: str) -> int:
    """Stitches the yarn passes behind in a stranded round."""
    counts = dict(loops)
    return sum(counts.values()) - counts[yarn] if yarn in counts else 0


def _edge(step: StepPlan, yarn: str, size: int, gauge: Gauge, loop: Loop) -> Mapping[Part, float]:
    """Lengths of yarn (mm) that a step takes besides its rounds, by what they are for."""
    taken = dict(step.answers.thread(step, yarn, size))
    if step.yarn != yarn:
        return taken
    begun, closed = step.begins, step.closes
    if begun is not None and begun.by is not None:
        count = sum(part[size] for part in begun.parts)
        taken[Part.CAST_ON] = cast_on_yarn(begun.by, gauge.width_of(count), count, loop)
    if closed is not None and closed.by is not None:
        count = closed.stitches[size]
        taken[Part.BIND_OFF] = bind_off_yarn(closed.by, gauge.width_of(count), count, loop)
    return taken
