"""The shape that a crown's decreases give."""

from collections.abc import Iterator

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.walk import gauges_of, sizes_said, steps_of
from bindoff.diagnostics import Severity
from bindoff.plan.crown import flat_disc_decreases
from bindoff.plan.steps.crown import Crowned

_POINTED, _FLAT = 0.6, 1.5


@check(
    id="crown.shape",
    title="A crown is neither pointed nor ruffled",
    looks_at="decreases in a round on average against 2π × round height ÷ stitch width, "
    "the number that lies flat; 0.6 to 1.5 times it is accepted",
    why="too few decreases end in a point, too many in a flat or wavy top",
    severity=Severity.NOTE,
    remedy="Choose another number of wedges or another pace",
)
def crown_shape(context: Context) -> Iterator[Finding]:
    """One finding for each crown."""
    for at in steps_of(context):
        if not isinstance(at.step.detail, Crowned):
            continue
        odd = []
        for size, gauge in enumerate(gauges_of(context, at)):
            rounds = at.step.rounds[size]
            lost = at.step.before[size].stitches - at.step.after[size].stitches
            flat = flat_disc_decreases(gauge)
            if rounds and not _POINTED <= lost / rounds / flat <= _FLAT:
                odd.append((size, lost / rounds, flat))
        if odd:
            size, mean, flat = odd[0]
            what = "pointed" if mean < flat else "flat or wavy"
            yield Finding(
                f"the crown turns out {what} in {sizes_said(context, [s for s, *_ in odd])}: "
                f"{mean:.1f} decreases a round, and {flat:.1f} lie flat",
                at.step.span,
            )


CHECKS = (crown_shape,)
