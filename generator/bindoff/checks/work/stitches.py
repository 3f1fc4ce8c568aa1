"""The designer's own stitches."""

from collections.abc import Iterator

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.diagnostics import Severity

_FEWEST_WORDS = 4


@check(
    id="stitch.how",
    title="Every stitch of the designer's own is explained",
    looks_at="`how:` of each stitch under `stitches:`",
    why="nobody but the designer knows how it is worked",
    severity=Severity.WARNING,
    remedy="Say in a sentence where the needle goes and what is done with the yarn",
    needs=Needs.SOURCE,
)
def stitch_explained(context: Context) -> Iterator[Finding]:
    """One finding for each stitch."""
    for key, stitch in context.pattern.stitches.items():
        if len(stitch.how.split()) < _FEWEST_WORDS:
            yield Finding(f"`{key}` is hardly explained", stitch.place.of("how").span)


CHECKS = (stitch_explained,)
