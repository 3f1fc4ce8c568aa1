"""A chart worked by a step, in words."""

from collections.abc import Sequence
from itertools import pairwise

from bindoff.document.fullrows import named_in_full
from bindoff.document.phrases import counted, figures, join, joined, often, paragraph, running, text
from bindoff.document.stepphrases import changed, no_rounds, unit_in, with_yarn
from bindoff.document.steps.words import Words, no_tracks
from bindoff.document.tree import Blocks, Inlines, Link
from bindoff.document.voice import Voice
from bindoff.document.workedcharts import chart_id, chart_title
from bindoff.english import capital, plural
from bindoff.plan.persize import named
from bindoff.plan.picture import chart_yarns
from bindoff.plan.worked import ChartRows, ChartWork, PiecePlan, WorkedStep
from bindoff.source.chart import NO_COLOUR, Chart
from bindoff.source.rowlang.syntax import Row
from bindoff.source.steps.chart import ChartStep

_Step = WorkedStep[ChartStep, ChartWork]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    unit = unit_in(step)
    detail = step.detail
    if not any(detail.rounds):
        return no_rounds(unit)
    chart = voice.plan.source.pattern.charts[detail.chart]
    lead = with_yarn(
        voice, step, new_yarn and _in_yarn_of_step(voice, chart), _what(voice, piece, step)
    )
    across, skipped = _across(detail, unit), _skipped(voice, detail)
    beside, bobbins = _beside(voice, step.charts[0], unit), _bobbins(voice, detail)
    return (paragraph(running(skipped, lead, beside, across, bobbins, changed(step))),)


def _what(voice: Voice, piece: PiecePlan, step: _Step) -> Inlines:
    """Which rows of the chart are worked: all of it once, several times, or for so many."""
    unit, detail = unit_in(step), step.detail
    chart = voice.plan.source.pattern.charts[detail.chart]
    links = [
        (
            Link(
                text(chart_title(voice, f"{chart.title} chart", part)),
                f"#chart-{chart_id(voice.plan, piece, part)}",
            ),
        )
        for part in step.charts
    ]
    link: Inlines = links[0]
    if len(links) > 1:
        link = join("chart for your size (", joined(links, "; "), ")")
    worked = [
        (rounds, high) for rounds, high in zip(detail.rounds, detail.heights, strict=True) if rounds
    ]
    heights = {high for _, high in worked}
    high = max(heights)
    if high > 1 and heights == {high} == {rounds for rounds, _ in worked}:
        return join(f"work {plural(unit)} 1 to {high} of the ", link, ".")
    if all(rounds % height == 0 for rounds, height in worked):
        passes = tuple(
            rounds // (height or 1)
            for rounds, height in zip(detail.rounds, detail.heights, strict=True)
        )
        what = join("work the ", link, " ", often(_agreed(passes)), ".")
        if high > 1:
            return running(what, join("That makes ", counted(_agreed(detail.rounds), unit), "."))
        return what
    count = counted(_agreed(detail.rounds), unit)
    return join("work the ", link, f" from its {unit} 1 for ", count, ".")


def _agreed(values: Sequence[int]) -> Sequence[int]:
    """``values`` with that of the other sizes, where they agree, for those that skip the chart."""
    worked = {each for each in values if each}
    return tuple(worked) * len(values) if len(worked) == 1 else values


def _in_yarn_of_step(voice: Voice, chart: Chart) -> bool:
    """Whether some of its cells name no yarn."""
    known = {*voice.yarn_names, *NO_COLOUR}
    return any(yarn not in known for yarn in chart_yarns(chart).values())


def _skipped(voice: Voice, detail: ChartWork) -> str:
    """The sizes that work no row of it, which go on with the next step."""
    sizes = [size for size, rounds in zip(voice.sizes, detail.rounds, strict=True) if not rounds]
    if not sizes:
        return ""
    skip = "skips" if len(sizes) == 1 else "skip"
    return f"{capital(named(sizes, voice.sizes))} {skip} this step."


def _bobbins(voice: Voice, detail: ChartWork) -> Inlines:
    """What hangs at the needles in intarsia, and the ends it leaves, per size."""
    if not detail.bobbins:
        return ()
    found = [{use.yarn: use for use in size} for size in detail.bobbins]
    each = [
        join(f"{name} ", figures([use[yarn].at_once if yarn in use else 0 for use in found]))
        for yarn, name in voice.yarn_names.items()
        if any(yarn in use for use in found)
    ]
    areas = [sum(use.areas for use in size) for size in detail.bobbins]
    lengths = [sum(use.lengths for use in size) for size in detail.bobbins]
    parts = text("with two ends each")
    if lengths != areas:
        parts = join("worked with ", counted(lengths, "length"), " of yarn, each with two ends")
    return running(
        "Work it in intarsia: each area has a yarn of its own.",
        join("Bobbins in use at once, at the most: ", joined(each), "."),
        join("There are ", counted(areas, "area"), " in all, ", parts, "."),
    )


def _beside(voice: Voice, detail: ChartRows, unit: str) -> Inlines:
    """What is worked before and behind the chart, once for each side where the sides differ."""
    pairs = tuple(zip(detail.first, detail.last, strict=True))
    if not any(row.parts for pair in pairs for row in pair):
        return ()
    right, wrong = pairs[0], pairs[1][::-1]
    if detail.between is not None:
        drawn = "right-side row" if unit == "row" else "round that the chart draws"
        return _ends(voice, f"every {drawn}", *right)
    if unit == "round" or right == wrong:
        return _ends(voice, f"every {unit}", *right)
    first = _ends(voice, "every right-side row", *right)
    return running(first, _ends(voice, "every wrong-side row", *wrong))


def _ends(voice: Voice, when: str, first: Row, last: Row) -> Inlines:
    """``Every row begins before the chart: K2. It ends after the chart: K2.``"""
    begin = join(f"{capital(when)} begins before the chart: ", voice.row(first))
    end = join("It ends after the chart: ", voice.row(last))
    if not last.parts:
        return begin
    if not first.parts:
        return join(f"{capital(when)} ends after the chart: ", voice.row(last))
    return running(begin, end)


def _across(detail: ChartWork, unit: str) -> Inlines:
    """How often the repeat is worked side by side, and how that changes from pass to pass."""
    edged, once = detail.parts[0].grid.edged, detail.parts[0].once
    what = "its repeat" if edged else "its stitches"
    if detail.parts[0].grid.twin:
        what = "each of its two repeats"
    if not detail.passes:
        if set(detail.across) <= {0, 1} and (once or not edged):
            return ()
        return join(f"In every {unit}, work {what} ", often(_agreed(detail.across)), ".")
    first = join(f"The first time through the chart, work {what} ", often(detail.across))
    last = join("; the last time, ", often(tuple(times[-1] for times in detail.passes)), ".")
    steps = {b - a for times in detail.passes for a, b in pairwise(times)}
    if len(steps) == 1:
        (step,) = steps
        much = f"{abs(step)} times {'more' if step > 0 else 'fewer'}"
        if abs(step) == 1:
            much = f"once {'more' if step > 0 else 'less'}"
        return join(first, f" in every {unit}; each time after that, {much}", last)
    return join(first, f" in every {unit}", last)


WORDS = Words(
    ChartStep, tell=_tell, in_full=named_in_full, leads={}, tells_rounds=True, tracks=no_tracks
)
