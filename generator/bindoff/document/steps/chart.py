"""A chart worked by a step, in words."""

from itertools import pairwise

from bindoff.document.chartpages import chart_id
from bindoff.document.fullrows import named_in_full
from bindoff.document.phrases import counted, figures, join, joined, often, paragraph, running, text
from bindoff.document.stepphrases import changed, no_rounds, unit_in, with_yarn
from bindoff.document.steps.words import Words
from bindoff.document.tree import Blocks, Inlines, Link
from bindoff.document.voice import Voice
from bindoff.english import capital, plural
from bindoff.plan.picture import chart_yarns
from bindoff.plan.worked import ChartRows, PiecePlan, WorkedStep
from bindoff.source.chart import NO_STITCH
from bindoff.source.rowlang.syntax import Row
from bindoff.source.steps.chart import ChartStep

_Step = WorkedStep[ChartStep, ChartRows]


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    unit = unit_in(step)
    detail = step.detail
    if not any(detail.rounds):
        return no_rounds(unit)
    chart = voice.plan.source.pattern.charts[detail.chart]
    height = voice.plan.source.grids[detail.chart].rows
    target = f"#chart-{chart_id(voice.plan, piece, detail)}"
    link: Inlines = (Link(text(f"{chart.title} chart"), target),)
    if height > 1 and set(detail.rounds) == {height}:
        what = join(f"work {plural(unit)} 1 to {height} of the ", link, ".")
    elif all(rounds % height == 0 for rounds in detail.rounds):
        passes = tuple(rounds // height for rounds in detail.rounds)
        what = join("work the ", link, " ", often(passes), ".")
        if height > 1:
            what = running(what, join("That makes ", counted(detail.rounds, unit), "."))
    else:
        what = join("work the ", link, f" from its {unit} 1 for ", counted(detail.rounds, unit))
        what = join(what, ".")
    across = _across(voice, detail, unit)
    named = {*voice.yarn_names, NO_STITCH}
    own = any(yarn not in named for yarn in chart_yarns(chart).values())
    lead = with_yarn(voice, step, new_yarn and own, what)
    beside, bobbins = _beside(voice, detail, unit), _bobbins(voice, detail)
    return (paragraph(running(lead, beside, across, bobbins, changed(step))),)


def _bobbins(voice: Voice, detail: ChartRows) -> Inlines:
    """What hangs at the needles in intarsia, and the ends it leaves, per size."""
    if not detail.bobbins:
        return ()
    found = [{use.yarn: use for use in size} for size in detail.bobbins]
    named = [
        join(f"{name} ", figures([use[yarn].at_once if yarn in use else 0 for use in found]))
        for yarn, name in voice.yarn_names.items()
        if any(yarn in use for use in found)
    ]
    areas = [sum(use.areas for use in size) for size in detail.bobbins]
    return running(
        "Work it in intarsia: each area has a yarn of its own.",
        join("Bobbins in use at once, at the most: ", joined(named), "."),
        join("There are ", counted(areas, "area"), " in all, with two ends each."),
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


def _across(voice: Voice, detail: ChartRows, unit: str) -> Inlines:
    """How often the repeat is worked side by side, and how that changes from pass to pass."""
    grid = voice.plan.source.grids[detail.chart]
    what = "its repeat" if grid.edged else "its stitches"
    if not detail.passes:
        if set(detail.across) == {1} and (detail.once or not grid.edged):
            return ()
        return join(f"In every {unit}, work {what} ", often(detail.across), ".")
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


WORDS = Words(ChartStep, tell=_tell, in_full=named_in_full, leads={}, tells_rounds=True)
