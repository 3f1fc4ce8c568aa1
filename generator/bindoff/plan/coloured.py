"""The colours of tubes and charts, and the ways in which each could be worked."""

from collections import Counter
from collections.abc import Iterator

from bindoff.plan.colour.embroidery import Area, ThreadRule, plan_embroidery
from bindoff.plan.colour.floats import LimitRule, float_limit, float_runs
from bindoff.plan.colour.grid import ColourGrid
from bindoff.plan.colour.stripes import Stripe, embroidered_cells, plan_stripes
from bindoff.plan.colour.technique import (
    Technique,
    TechniqueChoice,
    TechniqueRule,
    choose_for_area,
    choose_for_bands,
)
from bindoff.plan.gauge import Gauge
from bindoff.plan.loops import loop_in
from bindoff.plan.picture import PicturePlan, chart_yarns, piece_gauges
from bindoff.plan.plan import Plan
from bindoff.plan.tube import TubePart as TubePart
from bindoff.plan.worked import ChartRows, StepPlan
from bindoff.records import Record
from bindoff.remembered import once_each
from bindoff.source.chart import NO_STITCH
from bindoff.source.grid import Grid
from bindoff.source.tube import ColourPlan


class SizeColours(Record):
    """One size's colours: the grid, the part of it that matters, and how it may be worked.

    ``shift`` is how many rounds of the grid lie below round 1 as it is told, ``last`` the last
    round told.
    """

    grid: ColourGrid
    shift: int
    last: int
    rule: TechniqueRule
    areas: tuple[Area, ...]

    @once_each
    def bands(self) -> tuple[TechniqueChoice, ...]:
        """The bands of rounds within what is told, numbered from its round 1."""
        return tuple(
            _numbered(band, self.shift, self.last)
            for band in choose_for_bands(self.grid, self.rule)
            if band.last > self.shift and band.first - self.shift <= self.last
        )

    @once_each
    def area_choices(self) -> tuple[tuple[Area, TechniqueChoice], ...]:
        """Every area with its choice, numbered from round 1 of what is told."""
        return tuple(
            (area, _numbered(choose_for_area(self.grid, area, self.rule), self.shift, self.last))
            for area in self.areas
        )


def _numbered(choice: TechniqueChoice, shift: int, last: int) -> TechniqueChoice:
    first = max(1, choice.first - shift)
    return TechniqueChoice(
        first, min(last, choice.last - shift), choice.yarns, choice.prices, choice.recommended
    )


class TubeColours(Record):
    """A tube in every size; ``colours`` of one with a picture."""

    piece: str
    plans: tuple[PicturePlan, ...]
    colours: tuple[SizeColours, ...]


class ChartColours(Record):
    """A chart knitted in more than one yarn, in every size; ``repeat`` is its width."""

    piece: str
    chart: str
    step: int
    repeat: int
    across: tuple[int, ...]
    gauges: tuple[Gauge, ...]
    colours: tuple[SizeColours, ...]


def tubes_of(plan: Plan) -> Iterator[TubeColours]:
    """The tube of every piece that is one."""
    machine = plan.source.pattern.made.by == "machine"
    for piece in plan.pieces:
        written = plan.source.pattern.pieces[piece.key]
        for step in piece.steps:
            if plans := step.tubes:
                rules = [
                    _technique_rule(gauge, written.colour_plan, machine)
                    for gauge in piece_gauges(plan.measures, written)
                ]
                colours = tuple(
                    SizeColours(
                        each.colours,
                        each.first - 1,
                        each.last - each.first + 1,
                        rule,
                        each.embroidery.areas,
                    )
                    for each, rule in zip(plans, rules, strict=True)
                    if each.has_picture
                )
                yield TubeColours(piece.key, plans, colours)
                break


def _technique_rule(gauge: Gauge, weights: ColourPlan, machine: bool) -> TechniqueRule:
    """A circular machine feeds one yarn to all needles (common practice, no source); a second one
    may be laid in by hand where the designer says so."""
    ways = tuple(Technique)
    if machine:
        laid_in = (Technique.STRANDED,) if weights.stranded else ()
        ways = (Technique.STRIPES, *laid_in, Technique.DUPLICATE)
    return TechniqueRule(
        float_limit(gauge.stitches_per()),
        weights.minutes_per_stitch,
        weights.minutes_per_change,
        available=ways,
    )


def charts_of(plan: Plan) -> Iterator[ChartColours]:
    """Every chart of a piece that is knitted in more than one yarn, and whose grid has a stitch in
    every cell: how to work it is compared cell by cell."""
    charts = plan.source.pattern.charts
    gappy = {key for key, chart in charts.items() if NO_STITCH in chart_yarns(chart).values()}
    for piece in plan.pieces:
        done = set[tuple[str, Grid]]()
        below = ""
        for index, step in enumerate(piece.steps):
            for worked in step.charts:
                apart = worked.chart in gappy or worked.slipped
                if not apart and worked.drawing not in done:
                    found = _chart_of(plan, piece.key, index, step, worked, below)
                    if len({yarn for colours in found.colours for yarn in colours.grid.yarns}) > 1:
                        done.add(worked.drawing)
                        yield found
            if step.worked[0] and step.worked[0][-1]:
                below = max(step.worked[0][-1], key=lambda loops: loops[1])[0]


def _chart_of(
    plan: Plan, piece: str, index: int, step: StepPlan, detail: ChartRows, below: str
) -> ChartColours:
    """A chart step; ``below`` is the yarn of the round before it, empty where there is none."""
    source = plan.source
    written = source.pattern.pieces[piece]
    gauges = piece_gauges(plan.measures, written)
    yarns = chart_yarns(source.pattern.charts[detail.chart])
    drawn = detail.grid

    def cells(line: str, across: int) -> tuple[str, ...]:
        known = source.pattern.yarns
        return tuple(
            yarn if (yarn := yarns[c]) in known and yarn else step.yarn
            for c in drawn.laid(line, across)
        )

    def coloured(across: int, count: int, gauge: Gauge) -> SizeColours:
        lines = drawn.rounds[: drawn.lines(count) or None]
        rounds = [cells(line, max(across, 1)) for line in lines]
        if below:
            rounds.insert(0, (below,) * len(rounds[0]))
        grid = ColourGrid(tuple(rounds), wraps=written.worked == "round")
        rule = _technique_rule(gauge, written.colour_plan, source.pattern.made.by == "machine")
        order = tuple(key for key in source.pattern.yarns if key in grid.yarns)
        covered = embroidered_cells(grid, plan_stripes(grid, order))
        loop = loop_in(plan, step.yarn, gauge, written.gauge)
        thread = ThreadRule(loop.mm, gauge.stitch_mm)
        areas = plan_embroidery(covered, order, thread, grid.wraps).areas
        shift = 1 if below else 0
        return SizeColours(grid, shift, grid.height - shift, rule, areas)

    sizes = [*zip(detail.across, detail.rounds, gauges, strict=True)]
    known = {each: coloured(*each) for each in dict.fromkeys(sizes)}
    colours = tuple(known[each] for each in sizes)
    repeat = drawn.repeat
    return ChartColours(piece, detail.chart, index, repeat, detail.across, gauges, colours)


def seen(plan: PicturePlan) -> int:
    """Rounds of the outside that are seen: a turned-up brim covers as many as it has."""
    outer, brim = (plan.tube.segment(part) for part in (TubePart.OUTER, TubePart.OUTER_BRIM))
    assert outer is not None
    covered = brim.last - brim.first + 1 if brim else 0
    return max(0, outer.last - outer.first + 1 - covered)


def embroidered_on(plan: PicturePlan, stripe: Stripe) -> dict[str, int]:
    """Stitches embroidered on a stripe by yarn, in the plan's yarn order."""
    rounds = plan.overlay[stripe.first - 1 : stripe.last]
    counts = Counter(yarn for cells in rounds for yarn in cells if yarn is not None)
    return {yarn: counts[yarn] for yarn, _ in plan.stripes.knitted if counts[yarn]}


def nearest_limit(stitches_per_10cm: float) -> int:
    """The longest float in stitches, were its limit rounded to the nearest."""
    return float_limit(stitches_per_10cm, LimitRule.ROUND)


class _Floats(Record):
    """The longest floats of one yarn in one round, in stitches; 0 where there is none."""

    round_: int
    yarn: str
    inside: int
    across_edge: int

    @property
    def longest(self) -> int:
        return max(self.inside, self.across_edge)


def longest_floats(chart: ChartColours, size: int) -> tuple[_Floats, ...]:
    """Of every yarn in every stranded round, rounds counted from round 1 of the chart."""
    return _longest_floats(chart, chart.colours[size])


@once_each
def _longest_floats(chart: ChartColours, colours: SizeColours) -> tuple[_Floats, ...]:
    found: dict[tuple[int, str], list[int]] = {}
    for run in float_runs(colours.grid):
        crosses = (
            run.last < run.first or (run.first - 2) // chart.repeat != run.last // chart.repeat
        )
        lengths = found.setdefault((run.round_ - colours.shift, run.yarn), [0, 0])
        lengths[crosses] = max(lengths[crosses], run.length)
    return tuple(_Floats(*key, *lengths) for key, lengths in found.items())
