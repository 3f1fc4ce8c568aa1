"""Whom a tube on a fixed number of needles fits, and what a crown comes to."""

from collections.abc import Iterator, Mapping, Sequence

from bindoff.craft.ease import EaseRule, tube_ease
from bindoff.plan.fit import around
from bindoff.plan.gauge import Gauge
from bindoff.plan.picture import piece_gauges
from bindoff.plan.plan import Plan
from bindoff.plan.steps.crown import Crowned
from bindoff.plan.tube import Fit, GaugeRange, fit, gauge_needed, gauges_fitting, sizes_served
from bindoff.plan.values import Value
from bindoff.records import Record


class TubeOnNeedles(Record):
    """A tube on a machine's needles: needles and gauge in every size, and the body it goes around,
    in mm."""

    needles: tuple[int, ...]
    dimension: str
    bodies: tuple[float, ...]
    gauges: tuple[Gauge, ...]
    rule: EaseRule

    @property
    def own(self) -> tuple[Fit, ...]:
        """Every size at its own gauge."""
        return tuple(
            fit(needles, gauge, mm, self.rule)
            for needles, gauge, mm in zip(self.needles, self.gauges, self.bodies, strict=True)
        )

    @property
    def served(self) -> tuple[tuple[Gauge, tuple[Fit, ...]], ...]:
        """Every size at each of the gauges."""
        return tuple(
            (gauge, sizes_served(self.needles, gauge, self.bodies, self.rule))
            for gauge in dict.fromkeys(self.gauges)
        )

    @property
    def ranges(self) -> tuple[GaugeRange, ...]:
        """The gauges that serve every size."""
        sized = zip(self.needles, self.bodies, strict=True)
        return tuple(gauges_fitting(needles, mm, self.rule) for needles, mm in sized)

    @property
    def middles(self) -> tuple[Value, ...]:
        """The gauge that gives every size the middle of the ease."""
        middles = [sum(self.rule.finished_range(mm)) / 2 for mm in self.bodies]
        return tuple(map(gauge_needed, self.needles, middles))


class CrownFigures(Record):
    """A crown: stitches before and after it, its rounds and the gauge, per size."""

    piece: str
    before: tuple[int, ...]
    after: tuple[int, ...]
    rounds: tuple[int, ...]
    gauges: tuple[Gauge, ...]


def tube_on_needles(plan: Plan, bodies: Mapping[str, Sequence[float]]) -> TubeOnNeedles | None:
    """The tube on a machine's needles, where it is clear which part of the body it goes around.

    ``bodies``: the body measurements that are printed, in mm per size.
    """
    sizes = plan.source.sizes
    needles = tuple(n for size in sizes if (n := plan.source.pattern.needles(size)))
    dimension = around(bodies)
    if len(needles) < len(sizes) or dimension is None:
        return None
    tubes = [piece.gauge or "" for piece in plan.source.pattern.pieces.values() if piece.tube]
    key = tubes[0] if tubes else ""
    gauges = tuple(size.gauges[key] for size in plan.measures.sizes)
    return TubeOnNeedles(needles, dimension, tuple(bodies[dimension]), gauges, tube_ease(dimension))


def crowns_of(plan: Plan) -> Iterator[CrownFigures]:
    """The crown of every piece that has one."""
    for piece in plan.pieces:
        gauges = piece_gauges(plan.measures, plan.source.pattern.pieces[piece.key])
        for step in piece.steps:
            if isinstance(step.detail, Crowned):
                yield CrownFigures(
                    piece.key,
                    tuple(progress.stitches for progress in step.before),
                    tuple(progress.stitches for progress in step.after),
                    step.rounds,
                    gauges,
                )
