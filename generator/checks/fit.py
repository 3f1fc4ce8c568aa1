"""How finished circumferences and lengths sit on the body they are made for."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from generator.checks.context import Context
from generator.checks.engine import Finding, check
from generator.checks.sizes import bodies, out_of_order, uneven
from generator.checks.walk import sizes_said
from generator.diagnostics import Severity
from generator.plan.standards.bodies import Dimension
from generator.plan.standards.ease import HAT_EASE
from generator.plan.values import Kind, Measure

_LENGTHS = ("hand length", "foot length")
_AROUND = re.compile(r"(finished )?(circumference|around)")
_NOT_AROUND = re.compile(r"\b(length|depth|deep|height|high|long|cuff|brim|above|below)\b")
_EVEN_POINTS = 8.0
_EVEN_MM = 15.0

# Least and most ease in % of the body. A head: the tables' loosest to tightest hat, and a loose
# one; the rest common practice, no source.
_BOUNDS: Mapping[str, tuple[float, float]] = {
    "head": (min(rule.low or 0.0 for rule in HAT_EASE), 5.0),
    "hand": (-15.0, 20.0),
    "hand length": (-10.0, 20.0),
    "foot": (-20.0, 5.0),
    "foot length": (-20.0, 5.0),
    "neck": (-15.0, 100.0),
    "wrist": (-30.0, 40.0),
    "ankle": (-30.0, 30.0),
}
_OTHERS = (-15.0, 60.0)


@dataclass(frozen=True, slots=True)
class _Fit:
    """A finished measure and the body measurement it goes around or along; ease per size."""

    label: str
    measure: Measure
    dimension: str
    body: tuple[float, ...]

    @property
    def mm(self) -> tuple[float, ...]:
        """Ease in mm."""
        return tuple(a - b for a, b in zip(self.measure.rounded, self.body, strict=True))

    @property
    def ease(self) -> tuple[float, ...]:
        """Ease in % of the body."""
        return tuple(100 * mm / body for mm, body in zip(self.mm, self.body, strict=True))


def _fits(context: Context) -> Iterator[_Fit]:
    known = {dimension.value for dimension in Dimension}
    doubtful = {key for key, _ in out_of_order(context)} | {key for key, *_ in uneven(context)}
    body = {key: mm for key, mm in bodies(context) if key in known and key not in doubtful}
    for label, measure in context.plan.measures.finished.items():
        dimension = _dimension(label.lower(), tuple(body))
        if measure.kind is Kind.LENGTH and dimension and label not in doubtful:
            yield _Fit(label, measure, dimension, body[dimension])


def _dimension(label: str, body: tuple[str, ...]) -> str | None:
    """The body measurement that a finished label speaks of, if it is clear."""
    longest_first = sorted(body, key=len, reverse=True)
    named = [key for key in longest_first if re.search(rf"\b{re.escape(key)}\b", label)]
    if named and (named[0] in _LENGTHS or not _NOT_AROUND.search(label)):
        return named[0]
    around = [key for key in body if key not in _LENGTHS]
    return around[0] if _AROUND.fullmatch(label) and len(around) == 1 else None


@check(
    id="fit.ease",
    title="Every size has room for its body, and not too much",
    looks_at="finished against body measurements, each with the ease usual for that part of the "
    "body; the finished label must name the part, or say just circumference",
    why="a hat wider than the head falls over the eyes; a mitten narrower than the hand goes on "
    "nobody",
    severity=Severity.WARNING,
    remedy="Check the ease in the formula; silence it if the piece is meant so",
)
def ease_bounds(context: Context) -> Iterator[Finding]:
    """One finding for each finished measure."""
    for fit in _fits(context):
        low, high = _BOUNDS.get(fit.dimension, _OTHERS)
        beyond = [size for size, ease in enumerate(fit.ease) if not low <= ease <= high]
        if beyond:
            worst = max((fit.ease[size] for size in beyond), key=abs)
            yield Finding(
                f"`{fit.label}` is {abs(worst):.0f} % {'larger' if worst > 0 else 'smaller'} than "
                f"the {fit.dimension} in {sizes_said(context, beyond)}; usual is {low:+.0f} to "
                f"{high:+.0f} %",
                fit.measure.span,
            )


@check(
    id="fit.even",
    title="All sizes have about the same ease",
    looks_at=f"the ease of each finished measurement over the sizes: a difference of over "
    f"{_EVEN_POINTS:g} points of a percent that is also over {_EVEN_MM / 10:g} cm",
    why="two knitters who choose by the body expect the same fit",
    severity=Severity.NOTE,
    remedy="Use a finer multiple for the count, or other steps between the sizes",
)
def even_ease(context: Context) -> Iterator[Finding]:
    """One finding for each finished measure."""
    names = context.source.sizes
    for fit in _fits(context):
        least, most = min(fit.ease), max(fit.ease)
        if most - least > _EVEN_POINTS and max(fit.mm) - min(fit.mm) > _EVEN_MM:
            yield Finding(
                f"the ease of `{fit.label}` runs from {least:+.0f} % in size "
                f"{names[fit.ease.index(least)]} to {most:+.0f} % in size "
                f"{names[fit.ease.index(most)]}",
                fit.measure.span,
            )


CHECKS = (ease_bounds, even_ease)
