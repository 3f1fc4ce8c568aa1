"""Colours and symbols that must be told apart."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.walk import charts_worked
from bindoff.diagnostics import Severity
from bindoff.plan.colour.palette import LIMITS, AlikePair, Limit, Vision, pairs_too_alike
from bindoff.plan.picture import chart_yarns

_SEEN = {
    Vision.NORMAL: "to every eye",
    Vision.GREY: "in grey print",
    Vision.PROTAN: "to eyes without red cones",
    Vision.DEUTAN: "to eyes without green cones",
    Vision.TRITAN: "to eyes without blue cones",
}


_OF_STRIPES = (Limit(vision=Vision.NORMAL, least=10.0),)
"""Stripes may be shades of one colour: only what is hardly another is told (ours, no source)."""


@check(
    id="colour.alike",
    title="Yarns that meet can be told apart",
    looks_at="the colours of yarns that meet in a chart, in normal sight, in grey print and in the "
    "three kinds of colour-vision deficiency (CIEDE2000 after simulation); those of plain stripes "
    "that meet, in normal sight",
    why="a knitter who can't tell two yarns apart can't follow the chart or see a mistake, and the "
    "picture is lost on some who look at it",
    severity=Severity.WARNING,
    remedy="Choose colours that differ more in lightness",
)
def colours_alike(context: Context) -> Iterator[Finding]:
    """One finding for each pair of yarns."""
    alike: dict[tuple[str, str], list[AlikePair]] = {}
    met: list[tuple[Sequence[str], Sequence[Limit]]] = []
    met += [(yarns, LIMITS) for yarns in _palettes(context)]
    met += [(yarns, _OF_STRIPES) for yarns in dict.fromkeys(_stripes(context))]
    for yarns, limits in met:
        colours = [(yarn, context.pattern.yarns[yarn].colour) for yarn in yarns]
        for pair in pairs_too_alike(colours, limits):
            known = alike.setdefault((pair.first, pair.second), [])
            if pair not in known:
                known.append(pair)
    for (first, second), pairs in alike.items():
        seen = ", ".join(f"{_SEEN[p.vision]} ({p.difference:.0f} of {p.least:.0f})" for p in pairs)
        yield Finding(
            f"`{first}` and `{second}` look alike {seen}",
            context.pattern.yarns[second].place.of("colour").span,
        )


def _palettes(context: Context) -> Iterator[tuple[str, ...]]:
    """The yarns of each chart or picture that is used, in the pattern's yarn order."""
    used = [detail.chart for _, detail in charts_worked(context)]
    used += [chart for piece in context.pattern.pieces.values() for chart, _ in piece.pictured]
    for chart in dict.fromkeys(used):
        yarns = chart_yarns(context.pattern.charts[chart])
        drawings = context.source.drawings(chart)
        seen = {yarns[c] for grid in drawings for line in grid.rounds for c in line}
        yield tuple(yarn for yarn in context.pattern.yarns if yarn in seen)


def _stripes(context: Context) -> Iterator[tuple[str, str]]:
    """The yarns of plain stripes that meet: of steps that follow each other, each in one yarn.

    Of a pair, the first in the pattern comes first.
    """
    for piece in context.plan.pieces:
        worked = [
            frozenset(yarn for loops in step.worked[0] for yarn, _ in loops)
            for step in piece.steps
            if any(step.rounds) and not step.charts and not step.tubes
        ]
        for one, other in pairwise(worked):
            if len(one) == len(other) == 1 and one != other:
                first, second = (yarn for yarn in context.pattern.yarns if yarn in one | other)
                yield first, second


CHECKS = (colours_alike,)
