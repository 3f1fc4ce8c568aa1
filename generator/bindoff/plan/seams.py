"""Yarn to sew seams with, where a text sews them: every piece is counted by its outline.

No key says which edges meet, and a seam joins two: so half of the outline of every piece that is
worked flat, or, where none is, of the edges of those in the round. That is the most there can be,
as hems, necks and edges that others are picked up along stay open.
"""

from math import hypot

from bindoff.craft.lengths import CRAFT_LENGTHS
from bindoff.plan.gauge import Gauge
from bindoff.plan.worked import PiecePlan

SEAM_TIMES = 3.0
"""Yarn over the length of a seam. Common practice, no source; mattress stitch goes along both edges
and crosses from one to the other every two rows."""


def seam_yarn(plan: PiecePlan, size: int, gauge: Gauge) -> float:
    """Yarn (mm) that sews one copy of a piece to others, or to itself, its two ends included."""
    outline = _sides(plan, size, gauge) + _across(plan, size, gauge)
    return SEAM_TIMES * outline / 2 + 2 * CRAFT_LENGTHS["tail"] if outline else 0.0


def is_flat(plan: PiecePlan) -> bool:
    """Whether a piece has edges along its rows."""
    return any(level.flat for step in plan.steps for size in step.levels for level in size)


def _sides(plan: PiecePlan, size: int, gauge: Gauge) -> float:
    """The length of both edges along the rows that are worked flat, along their slopes."""
    levels = (each for step in plan.steps if step.levels for each in step.levels[size])
    return sum(
        hypot(gauge.round_mm, gauge.width_of(abs(change)))
        for level in levels
        if level.flat
        for change in (level.right, level.left)
    )


def _across(plan: PiecePlan, size: int, gauge: Gauge) -> float:
    """The stitches that are cast on at the start, and those that are bound off at the end."""
    stitches = 0
    for step in plan.steps:
        if step.begins is not None and step.begins.by is not None:
            stitches += sum(part[size] for part in step.begins.parts)
        if step.closes is not None and step.closes.by is not None and step.closes.to is None:
            stitches += step.closes.stitches[size]
    return gauge.width_of(stitches)
