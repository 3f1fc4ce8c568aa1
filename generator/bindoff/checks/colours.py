"""Colours and symbols that must be told apart."""

from collections.abc import Iterator

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.walk import charts_worked
from bindoff.diagnostics import Severity
from bindoff.plan.colour.palette import AlikePair, Vision, pairs_too_alike
from bindoff.plan.picture import chart_yarns

_SEEN = {
    Vision.NORMAL: "to every eye",
    Vision.GREY: "in grey print",
    Vision.PROTAN: "to eyes without red cones",
    Vision.DEUTAN: "to eyes without green cones",
    Vision.TRITAN: "to eyes without blue cones",
}


@check(
    id="colour.alike",
    title="Yarns of one chart can be told apart",
    looks_at="the colours of yarns that meet in a chart, in normal sight, in grey print and in the "
    "three kinds of colour-vision deficiency (CIEDE2000 after simulation)",
    why="a knitter who can't tell two yarns apart can't follow the chart or see a mistake, and the "
    "picture is lost on some who look at it",
    severity=Severity.WARNING,
    remedy="Choose colours that differ more in lightness",
)
def colours_alike(context: Context) -> Iterator[Finding]:
    """One finding for each pair of yarns."""
    alike: dict[tuple[str, str], list[AlikePair]] = {}
    for yarns in _palettes(context):
        colours = [(yarn, context.pattern.yarns[yarn].colour) for yarn in yarns]
        for pair in pairs_too_alike(colours):
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


CHECKS = (colours_alike,)
