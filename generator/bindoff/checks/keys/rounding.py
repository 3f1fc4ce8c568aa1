"""What rounding to whole stitches does to a measure."""

from collections.abc import Iterator

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.walk import sizes_said
from bindoff.diagnostics import Severity

_PART = 0.05


@check(
    id="measure.rounding",
    title="Rounding stays within a twentieth",
    looks_at="every count made from a length: what it was rounded by, if over half a stitch or "
    "round and over 5 % of the length",
    why="a coarse multiple can move a size by as much as the step to the next one",
    severity=Severity.NOTE,
    remedy="Use a smaller multiple, or a length that suits the multiple better",
    needs=Needs.MEASURES,
)
def coarse_rounding(context: Context) -> Iterator[Finding]:
    """One finding for each measure."""
    for name, measure in context.plan.measures.named.items():
        errors = [
            (abs(value.rounded - value.exact) / value.exact, size)
            for size, value in enumerate(measure.values)
            if value.error_mm is not None and value.exact > 0
            if abs(value.rounded - value.exact) > 0.5
        ]
        coarse = [(part, size) for part, size in errors if part > _PART]
        if coarse:
            part, size = max(coarse)
            value = measure.values[size]
            yield Finding(
                f"`{name}` is rounded from {value.exact:.1f} to {value.rounded:g}, {part:.0%} of "
                f"it, in {sizes_said(context, [size])}",
                measure.span,
            )


CHECKS = (coarse_rounding,)
