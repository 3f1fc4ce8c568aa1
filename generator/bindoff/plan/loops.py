"""Yarn in one stitch, by yarn and gauge."""

from collections.abc import Iterator

from bindoff.plan.gauge import Gauge
from bindoff.plan.plan import Plan
from bindoff.plan.yarn import Loop, Relaxation, loop_from_density
from bindoff.plan.yarnplan import loop_of
from bindoff.records import Record


class Loops(Record):
    """Yarn in one stitch in every size; ``gauge`` is the key of the gauge, empty for the main."""

    yarn: str
    gauge: str
    loops: tuple[Loop, ...]
    gauges: tuple[Gauge, ...]


def loop_in(plan: Plan, yarn: str, gauge: Gauge, key: str | None = None) -> Loop:
    """The loop of a yarn at a gauge, in what that is worked in; ``key`` names it."""
    ball = next(total.ball for total in plan.yarn if total.yarn == yarn)
    return loop_of(plan.source, yarn, gauge, ball, key)


def loops_by_gauge(plan: Plan) -> Iterator[Loops]:
    """By gauge, of those that pieces are worked in, then by yarn."""
    for key in dict.fromkeys(piece.gauge or "" for piece in plan.source.pattern.pieces.values()):
        gauges = tuple(size.gauges[key] for size in plan.measures.sizes)
        for total in plan.yarn:
            loops = tuple(loop_in(plan, total.yarn, gauge, key) for gauge in gauges)
            yield Loops(total.yarn, key, loops, gauges)


def by_state(gauge: Gauge, state: Relaxation) -> float:
    """Loop length in mm at a gauge, were the fabric in ``state``."""
    return loop_from_density(gauge.stitches_per(), gauge.rounds_per(), state).mm
