"""How finished circumferences and lengths sit on the body they are made for."""

from collections.abc import Iterator

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, Needs, check
from bindoff.checks.keys.sizes import bodies, out_of_order, uneven
from bindoff.checks.walk import sizes_said
from bindoff.craft.ease import usual_ease
from bindoff.diagnostics import Severity
from bindoff.plan.fit import Fitted, fitted

_EVEN_POINTS = 8.0
_EVEN_MM = 15.0


def _fits(context: Context) -> Iterator[Fitted]:
    """What sits on a body, without the figures that are doubtful in themselves."""
    doubtful = {key for key, _ in out_of_order(context)} | {key for key, *_ in uneven(context)}
    body = {key: mm for key, mm in bodies(context) if key not in doubtful}
    for fit in fitted(context.plan.measures.finished, body):
        if fit.label not in doubtful:
            yield fit


@check(
    id="fit.ease",
    title="Every size has room for its body, and not too much",
    looks_at="finished against body measurements, each with the ease usual for that part of the "
    "body; the finished label must name the part, or say just circumference",
    why="a hat wider than the head falls over the eyes; a mitten narrower than the hand goes on "
    "nobody",
    severity=Severity.WARNING,
    remedy="Check the ease in the formula; silence it if the piece is meant so",
    needs=Needs.MEASURES,
)
def ease_bounds(context: Context) -> Iterator[Finding]:
    """One finding for each finished measure."""
    for fit in _fits(context):
        low, high = usual_ease(fit.dimension)
        beyond = [size for size, ease in enumerate(fit.percent) if not low <= ease <= high]
        if beyond:
            worst = max((fit.percent[size] for size in beyond), key=abs)
            yield Finding(
                f"`{fit.label}` is {abs(worst):.0f} % {'larger' if worst > 0 else 'smaller'} than "
                f"the {fit.dimension} in {sizes_said(context, beyond)}; usual is {low:+.0f} to "
                f"{high:+.0f} %",
                fit.measure.span,
                sizes=tuple(context.source.sizes[size] for size in beyond),
            )


@check(
    id="fit.even",
    title="All sizes have about the same ease",
    looks_at=f"the ease of each finished measurement over the sizes: a difference of over "
    f"{_EVEN_POINTS:g} points of a percent that is also over {_EVEN_MM / 10:g} cm",
    why="two knitters who choose by the body expect the same fit",
    severity=Severity.NOTE,
    remedy="Use a finer multiple for the count, or other steps between the sizes",
    needs=Needs.MEASURES,
)
def even_ease(context: Context) -> Iterator[Finding]:
    """One finding for each finished measure."""
    names = context.source.sizes
    body = dict(bodies(context))
    for fit in _fits(context):
        if len(set(body.get(fit.dimension, (0.0, 1.0)))) == 1 < len(names):
            continue  # sizes for one body are meant to fit it each in its own way
        if {"infant", "child"} <= set(context.pattern.wearer):
            continue  # the youngest have more room, to grow and for what is worn below
        least, most = min(fit.percent), max(fit.percent)
        if most - least > _EVEN_POINTS and max(fit.mm) - min(fit.mm) > _EVEN_MM:
            yield Finding(
                f"the ease of `{fit.label}` runs from {least:+.0f} % in size "
                f"{names[fit.percent.index(least)]} to {most:+.0f} % in size "
                f"{names[fit.percent.index(most)]}",
                fit.measure.span,
            )


CHECKS = (ease_bounds, even_ease)
