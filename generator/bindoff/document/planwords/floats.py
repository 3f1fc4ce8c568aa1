"""Charts in several yarns and their floats."""

from collections.abc import Iterable

from bindoff.document.planwords.listing import Listing, Section, sized_listing
from bindoff.document.planwords.techniques import technique_parts
from bindoff.document.voice import Voice
from bindoff.english import listed
from bindoff.plan.colour.floats import float_limit
from bindoff.plan.coloured import ChartColours, longest_floats, nearest_limit


def chart_section(voice: Voice, chart: ChartColours) -> Section:
    """A chart in several yarns: its floats, and the techniques side by side."""
    pattern = voice.plan.source.pattern
    parts: list[str | Listing] = [_limit_listing(voice, chart)]
    floats = _float_listing(voice, chart)
    if floats is not None:
        parts += [
            "A float lies inside a repeat, or goes across its edge into the next one"
            + (" and around the start of the round." if chart.colours[0].grid.wraps else "."),
            floats,
        ]
    return Section(
        f"{pattern.pieces[chart.piece].title}: chart {pattern.charts[chart.chart].title}",
        (*parts, *technique_parts(voice, chart.colours, "chart")),
    )


def _limit_listing(voice: Voice, chart: ChartColours) -> Listing:
    density = [gauge.stitches_per() for gauge in chart.gauges]
    rows: list[tuple[str, Iterable[object]]] = [
        ("Stitches in the round", [colours.grid.width for colours in chart.colours]),
        ("Repeats", chart.across),
        ("Stitches over 10 cm", [f"{each:.4g}" for each in density]),
        ("Longest float allowed", [float_limit(each) for each in density]),
        ("The same, rounded to the nearest", [nearest_limit(each) for each in density]),
    ]
    return sized_listing(voice, "Floats may pass about 2.5 cm of stitches, rounded down", rows)


def _float_listing(voice: Voice, chart: ChartColours) -> Listing | None:
    """The longest floats, with the sizes whose limit they pass; of the size with most repeats."""
    index = max(range(len(voice.sizes)), key=lambda size: chart.across[size])
    rows = []
    order = list(voice.yarn_names)
    for each in sorted(longest_floats(chart, index), key=lambda e: (e.round_, order.index(e.yarn))):
        long = [
            size
            for size, colours in zip(voice.sizes, chart.colours, strict=True)
            if each.longest > colours.rule.float_limit
        ]
        over = "all sizes" if len(long) == len(voice.sizes) > 1 else listed(long)
        rows.append(
            (
                str(each.round_),
                voice.yarn_names[each.yarn],
                str(each.inside or "–"),
                str(each.across_edge or "–"),
                over or "–",
            )
        )
    columns = ("Round", "Yarn", "Inside a repeat", "Across its edge", "Over the limit in")
    caption = "Longest floats of each stranded round, in stitches passed"
    return Listing(caption, columns, "><>><", tuple(rows)) if rows else None
