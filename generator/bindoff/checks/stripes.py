"""The base stripes of a tube with a picture."""

from collections.abc import Iterator

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.walk import sizes_said, steps_of
from bindoff.diagnostics import Severity
from bindoff.plan.picture import PicturePlan


@check(
    id="stripe.single",
    title="Stripes are two rounds high or more",
    looks_at="the stripe plan of every tube and size",
    why="a stripe of one round costs two ends to weave and shows its step at the seam",
    severity=Severity.NOTE,
    remedy="Set `shortest stripe: 2` in the colour plan",
)
def single_rounds(context: Context) -> Iterator[Finding]:
    """One finding for each piece; a line of one round that is drawn so is wanted."""
    for at in steps_of(context):
        if at.step.tubes:
            counts = [_chosen_single(plan) for plan in at.step.tubes]
            some = [size for size, count in enumerate(counts) if count]
            if some:
                count = max(counts)
                yield Finding(
                    f"{count} {'stripe is' if count == 1 else 'stripes are'} a single round high "
                    f"in {sizes_said(context, some)}",
                    at.piece.place.of("colour plan").key_span,
                )


def _chosen_single(plan: PicturePlan) -> int:
    """Stripes of one round that the picture does not have in one yarn all around."""
    seen = plan.colours.rounds
    return sum(
        stripe.rounds == 1 and set(seen[stripe.first - 1]) != {stripe.yarn}
        for stripe in plan.stripes.stripes
    )


CHECKS = (single_rounds,)
