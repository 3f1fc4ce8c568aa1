"""The base stripes of a tube with a picture."""

from collections.abc import Iterator

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.walk import sizes_said, steps_of
from bindoff.diagnostics import Severity
from bindoff.english import how_many
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


@check(
    id="stripe.short",
    title="No stripe is lower than the pattern asks",
    looks_at="the stripes of every tube and size that are neither wanted nor of a zone's own yarn, "
    "against `shortest stripe:`",
    why="between wanted stripes that stand close there is no room for one as high as was asked for",
    severity=Severity.NOTE,
    remedy="Move the wanted stripes, or ask for a lower `shortest stripe:`",
)
def short_stripes(context: Context) -> Iterator[Finding]:
    """One finding for each piece."""
    for at in steps_of(context):
        least = at.piece.colour_plan.shortest_stripe
        if at.step.tubes and "shortest_stripe" in at.piece.colour_plan.model_fields_set:
            lowest = [_lowest(plan, least) for plan in at.step.tubes]
            some = [size for size, rounds in enumerate(lowest) if rounds]
            if some:
                rounds = min(each for each in lowest if each)
                yield Finding(
                    f"a stripe is {how_many(rounds, 'round')} high in {sizes_said(context, some)}, "
                    f"and the pattern asks for {least} at the least",
                    at.piece.colour_plan.place.of("shortest stripe").span,
                )


def _lowest(plan: PicturePlan, least: int) -> int:
    """The lowest stripe below ``least`` that the plan chose; 0 if there is none."""
    fixed = {round_ for round_, _ in plan.fixed}
    found = (
        stripe.rounds
        for stripe in plan.stripes.stripes
        if stripe.rounds < least and not fixed & set(range(stripe.first, stripe.last + 1))
    )
    return min(found, default=0)


CHECKS = (single_rounds, short_stripes)
