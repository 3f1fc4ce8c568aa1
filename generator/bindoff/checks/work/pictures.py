"""Where the picture of a tube lies."""

from collections.abc import Iterator

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.walk import sizes_said, steps_of
from bindoff.diagnostics import Severity
from bindoff.plan.picture import PicturePlan
from bindoff.plan.tube import TubePart


@check(
    id="picture.covered",
    title="No part of the picture lies behind the brim",
    looks_at="the first round of the picture against the rounds above the lower edge that the "
    "turned-up brim covers, as many as it has itself",
    why="a brim turned up lies over as much of the outside as it is deep, and what was embroidered "
    "there is not seen",
    severity=Severity.WARNING,
    remedy="Start the picture above it, as in `start: rounds(brim)`, or make the brim less deep",
)
def covered_picture(context: Context) -> Iterator[Finding]:
    """One finding for each piece."""
    for at in steps_of(context):
        if at.step.tubes:
            hidden = [_covered(plan) for plan in at.step.tubes]
            some = [size for size, rounds in enumerate(hidden) if rounds]
            if some:
                most = max(hidden)
                rounds = "round" if most == 1 else f"{most} rounds"
                yield Finding(
                    f"the turned-up brim covers the first {rounds} of the picture in "
                    f"{sizes_said(context, some)}",
                    at.piece.pictured[0][1].span,
                )


def _covered(plan: PicturePlan) -> int:
    """Rounds of the picture behind the brim."""
    brim, outer = plan.tube.segment(TubePart.OUTER_BRIM), plan.tube.segment(TubePart.OUTER)
    if brim is None or outer is None:
        return 0
    covers_to = outer.first + brim.last - brim.first
    first, last = outer.first, outer.last
    drawn = [(each.first, each.last) for each in plan.motifs] or [(plan.first, plan.last)]
    covered = (
        min(covers_to, high) - low + 1 for low, high in drawn if first <= low and high <= last
    )
    return max(0, max(covered, default=0))


CHECKS = (covered_picture,)
