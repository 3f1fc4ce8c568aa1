"""The colour and yarn plan for the designer: how it was chosen and what the other ways would cost.

``plan_sections`` gives it as sentences and tables, ``plan_data`` as plain data with every figure.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from generator.document.phrases import listed
from generator.document.voice import Voice, voice_of
from generator.plan.colour.embroidery import Area, ThreadRule, plan_embroidery
from generator.plan.colour.floats import LimitRule, float_limit, float_runs, long_floats
from generator.plan.colour.grid import ColourGrid
from generator.plan.colour.stripes import Stripe, embroidered_cells, plan_stripes
from generator.plan.colour.technique import (
    Obstacle,
    Technique,
    TechniqueChoice,
    TechniqueRule,
    choose_for_area,
    choose_for_bands,
)
from generator.plan.gauge import Gauge
from generator.plan.picture import PicturePlan, chart_yarns, piece_gauges
from generator.plan.plan import Plan
from generator.plan.steps import ChartRows, Embroidered, StepPlan, Striped
from generator.plan.tube import Part as TubePart
from generator.plan.yarn import Loop, LoopOrigin, Part, Relaxation, loop_from_density
from generator.plan.yarnplan import loop_of
from generator.source.models import ColourPlan

FORMAT = 1


@dataclass(frozen=True, slots=True)
class Listing:
    """A table of text; ``align`` has ``<`` for a column of words and ``>`` for one of figures.

    ``sized``: every column but the first is a size, so that a few may be shown at a time.
    """

    caption: str
    columns: tuple[str, ...]
    align: str
    rows: tuple[tuple[str, ...], ...]
    sized: bool = False


@dataclass(frozen=True, slots=True)
class Section:
    """A heading, and sentences and tables below it."""

    title: str
    parts: tuple[str | Listing, ...]


def plan_sections(plan: Plan) -> tuple[Section, ...]:
    """The plan in words and tables: tubes, charts in colour, yarn."""
    voice = voice_of(plan)
    tubes = [_tube_section(voice, tube) for tube in _tubes(plan)]
    charts = [_chart_section(voice, chart) for chart in _charts(plan)]
    return (*tubes, *charts, _yarn_section(voice))


def plan_data(plan: Plan) -> dict[str, Any]:
    """Every figure of the plan; lengths in millimetres unless the key says metres."""
    return {
        "format": FORMAT,
        "title": plan.source.pattern.title,
        "version": plan.source.pattern.version,
        "sizes": list(plan.source.sizes),
        "rule": _rule("duplicate stitch"),
        "tubes": [_tube_data(plan, tube) for tube in _tubes(plan)],
        "charts": [_chart_data(plan, chart) for chart in _charts(plan)],
        "loops": [_loop_data(plan, loops) for loops in _loops(plan)],
        "yarn": _yarn_data(plan),
    }


# ---------------------------------------------------------------- what is looked at


@dataclass(frozen=True, slots=True)
class _Colours:
    """One size's colours: the grid, the part of it that matters, and how it may be worked.

    ``shift`` is how many rounds of the grid lie below round 1 as it is told, ``last`` the last
    round told.
    """

    grid: ColourGrid
    shift: int
    last: int
    rule: TechniqueRule
    areas: tuple[Area, ...]

    def bands(self) -> tuple[TechniqueChoice, ...]:
        """The bands of rounds within what is told, numbered from its round 1."""
        return tuple(
            _numbered(band, self.shift, self.last)
            for band in choose_for_bands(self.grid, self.rule)
            if band.last > self.shift and band.first - self.shift <= self.last
        )

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


@dataclass(frozen=True, slots=True)
class _Tube:
    """A tube with a picture, in every size."""

    piece: str
    plans: tuple[PicturePlan, ...]
    colours: tuple[_Colours, ...]


@dataclass(frozen=True, slots=True)
class _Chart:
    """A chart knitted in more than one yarn, in every size; ``repeat`` is its width."""

    piece: str
    chart: str
    step: int
    repeat: int
    across: tuple[int, ...]
    gauges: tuple[Gauge, ...]
    colours: tuple[_Colours, ...]


def _tubes(plan: Plan) -> Iterator[_Tube]:
    machine = plan.source.pattern.made.by == "machine"
    for piece in plan.pieces:
        written = plan.source.pattern.pieces[piece.key]
        for step in piece.steps:
            if isinstance(step.detail, Striped | Embroidered):
                plans = step.detail.plans
                rules = [
                    _technique_rule(gauge, written.colour_plan, machine)
                    for gauge in piece_gauges(plan.measures, written)
                ]
                colours = tuple(
                    _Colours(
                        each.colours,
                        each.first - 1,
                        each.last - each.first + 1,
                        rule,
                        each.embroidery.areas,
                    )
                    for each, rule in zip(plans, rules, strict=True)
                )
                yield _Tube(piece.key, plans, colours)
                break


def _technique_rule(gauge: Gauge, weights: ColourPlan, machine: bool) -> TechniqueRule:
    """A circular machine feeds one yarn to all needles (common practice, no source)."""
    ways = (Technique.STRIPES, Technique.DUPLICATE) if machine else tuple(Technique)
    return TechniqueRule(
        float_limit(gauge.stitches_per()),
        weights.minutes_per_stitch,
        weights.minutes_per_change,
        available=ways,
    )


def _charts(plan: Plan) -> Iterator[_Chart]:
    for piece in plan.pieces:
        done = set()
        below = ""
        for index, step in enumerate(piece.steps):
            detail = step.detail
            if isinstance(detail, ChartRows) and detail.chart not in done:
                found = _chart(plan, piece.key, index, step, detail, below)
                if len({yarn for colours in found.colours for yarn in colours.grid.yarns}) > 1:
                    done.add(detail.chart)
                    yield found
            if step.worked[0] and step.worked[0][-1]:
                below = max(step.worked[0][-1], key=lambda loops: loops[1])[0]


def _chart(
    plan: Plan, piece: str, index: int, step: StepPlan, detail: ChartRows, below: str
) -> _Chart:
    """A chart step; ``below`` is the yarn of the round before it, empty where there is none."""
    source = plan.source
    written = source.pattern.pieces[piece]
    gauges = piece_gauges(plan.measures, written)
    yarns = chart_yarns(source.pattern.charts[detail.chart])
    once = [
        tuple(yarn if (yarn := yarns[c]) in source.pattern.yarns and yarn else step.yarn for c in r)
        for r in source.grids[detail.chart].rounds
    ]
    colours = []
    for across, count, gauge in zip(detail.across, detail.rounds, gauges, strict=True):
        rounds = [row * across for row in once[: min(count, len(once)) or None]]
        if below:
            rounds.insert(0, (below,) * len(rounds[0]))
        grid = ColourGrid(tuple(rounds), wraps=written.worked == "round")
        rule = _technique_rule(gauge, written.colour_plan, source.pattern.made.by == "machine")
        order = tuple(key for key in source.pattern.yarns if key in grid.yarns)
        covered = embroidered_cells(grid, plan_stripes(grid, order))
        loop = _loop(plan, step.yarn, gauge)
        thread = ThreadRule(loop.mm, gauge.stitch_mm)
        areas = plan_embroidery(covered, order, thread, grid.wraps).areas
        shift = 1 if below else 0
        colours.append(_Colours(grid, shift, grid.height - shift, rule, areas))
    width = source.grids[detail.chart].width
    return _Chart(piece, detail.chart, index, width, detail.across, gauges, tuple(colours))


# ---------------------------------------------------------------- tubes


def _tube_section(voice: Voice, tube: _Tube) -> Section:
    piece = voice.plan.source.pattern.pieces[tube.piece]
    weights = piece.colour_plan
    rounds = "round" if weights.shortest_stripe == 1 else "rounds"
    barred = [voice.yarn_names[yarn] for yarn in weights.never_base]
    return Section(
        f"{piece.title}: base stripes",
        (
            f"Every round is knitted in one base yarn, and what differs from it is embroidered. "
            f"Counted are {weights.minutes_per_stitch:g} minutes for an embroidered stitch and "
            f"{weights.minutes_per_change:g} for a change of yarn, in stripes of at least "
            f"{weights.shortest_stripe} {rounds}."
            + (f" Never a base: {listed(barred)}." if barred else ""),
            _work_listing(voice, tube),
            *_stripe_listings(voice, tube),
            *_technique_parts(voice, tube.colours, "picture"),
        ),
    )


def _work_listing(voice: Voice, tube: _Tube) -> Listing:
    """What each size's plan makes of the tube, beside one base throughout."""
    names = voice.yarn_names
    stripes = [plan.stripes for plan in tube.plans]
    weights = voice.plan.source.pattern.pieces[tube.piece].colour_plan
    embroidered = [dict(each.embroidered) for each in stripes]
    yarns = [yarn for yarn in names if any(each.get(yarn) for each in embroidered)]
    changes = [each.change_count * weights.minutes_per_change for each in stripes]
    rows: list[tuple[str, Iterable[object]]] = [
        ("Rounds in all", [plan.tube.total_rounds for plan in tube.plans]),
        ("Rounds that are seen", [_seen(plan) for plan in tube.plans]),
        ("Picture, first round", [plan.first for plan in tube.plans]),
        ("Picture, last round", [plan.last for plan in tube.plans]),
        ("Stripes", [len(each.stripes) for each in stripes]),
        ("Changes of yarn", [each.change_count for each in stripes]),
        *((f"Embroidered in {names[y]}", [each.get(y, 0) for each in embroidered]) for y in yarns),
        ("Embroidered in all", [each.embroidered_total for each in stripes]),
        (
            "Minutes, embroidery",
            [_minutes(e.minutes - c) for e, c in zip(stripes, changes, strict=True)],
        ),
        ("Minutes, changes of yarn", [_minutes(each) for each in changes]),
        ("Minutes in all", [_minutes(each.minutes) for each in stripes]),
        ("One base throughout: yarn", [names[each.single.yarn] for each in stripes]),
        ("One base throughout: embroidered", [each.single.embroidered for each in stripes]),
        ("One base throughout: minutes", [_minutes(each.single.minutes) for each in stripes]),
        ("Saved: embroidered stitches", [each.stitches_saved for each in stripes]),
        ("Saved: minutes", [_minutes(each.minutes_saved) for each in stripes]),
    ]
    return _sized(voice, "The work in each size", rows)


def _sized(voice: Voice, caption: str, rows: Iterable[tuple[str, Iterable[object]]]) -> Listing:
    """A table with a column for each size."""
    return Listing(
        caption,
        ("", *voice.sizes),
        "<" + ">" * len(voice.sizes),
        tuple((label, *(str(figure) for figure in figures)) for label, figures in rows),
        sized=True,
    )


def _seen(plan: PicturePlan) -> int:
    outer = plan.tube.segment(TubePart.OUTER)
    assert outer is not None
    return outer.last - outer.first + 1


def _stripe_listings(voice: Voice, tube: _Tube) -> Iterator[Listing]:
    """The stripes, one table for all sizes that have the same."""
    rows = [_stripe_rows(voice, plan) for plan in tube.plans]
    for sizes, index in _groups(voice.sizes, rows):
        yield Listing(
            f"Stripes from the cast-on up, {_size_words(sizes)}",
            ("Rounds", "Count", "Base", "Embroidered on it"),
            "<><<",
            rows[index],
        )


def _stripe_rows(voice: Voice, plan: PicturePlan) -> tuple[tuple[str, ...], ...]:
    names = voice.yarn_names
    rows = []
    for stripe in plan.stripes.stripes:
        on_it = _embroidered_on(plan, stripe)
        told = ", ".join(f"{names[yarn]} {count}" for yarn, count in on_it.items()) or "–"
        rounds = _span(stripe.first, stripe.last)
        rows.append((rounds, str(stripe.rounds), names[stripe.yarn], told))
    return tuple(rows)


def _embroidered_on(plan: PicturePlan, stripe: Stripe) -> dict[str, int]:
    """Stitches embroidered on a stripe by yarn, in the plan's yarn order."""
    rounds = plan.overlay[stripe.first - 1 : stripe.last]
    counts = Counter(yarn for cells in rounds for yarn in cells if yarn is not None)
    return {yarn: counts[yarn] for yarn, _ in plan.stripes.knitted if counts[yarn]}


# ---------------------------------------------------------------- techniques


_MARKS: Mapping[Obstacle, str] = {
    Obstacle.NOT_WHOLE_ROUNDS: "r",
    Obstacle.TOO_MANY_COLOURS: "c",
    Obstacle.LONG_FLOATS: "f",
    Obstacle.TUBE: "t",
    Obstacle.STIFF: "s",
    Obstacle.NOT_AVAILABLE: "m",
}


def _rule(duplicate: str) -> str:
    """How the recommendation is found, in one sentence."""
    ways = listed([*(technique.value for technique in tuple(Technique)[:-1]), duplicate])
    return (
        "Of the techniques with no obstacle, the one with the fewest minutes more than plain "
        f"knitting is recommended (of equals the first of {ways}); where each of them meets an "
        f"obstacle, it is {duplicate}, which can be worked on any plain fabric."
    )


def _technique_parts(
    voice: Voice, colours: Sequence[_Colours], whole: str
) -> Iterator[str | Listing]:
    """The choices for bands and areas, and what their marks mean."""
    duplicate = voice.term["duplicate_stitch"]
    yield (
        f"Techniques side by side, with the minutes each adds. {_rule(duplicate)} "
        "An area is priced as if it were alone on plain rounds."
    )
    bands = [each.bands() for each in colours]
    areas = [each.area_choices() for each in colours]
    yield from _choice_listings(
        voice,
        f"Bands of rounds, counted from round 1 of the {whole}",
        ("Rounds", "Yarns"),
        "<<",
        [tuple(_band_row(voice, band) for band in each) for each in bands],
    )
    if any(areas):
        yield from _choice_listings(
            voice,
            f"Areas of touching stitches, counted from round 1 of the {whole}",
            ("Rounds", "Yarn", "Stitches each", "Areas"),
            "<<>>",
            [_area_rows(voice, each) for each in areas],
        )
    met = {
        obstacle
        for each in (*bands, *([choice for _, choice in found] for found in areas))
        for choice in each
        for price in choice.prices
        for obstacle in price.obstacles
    }
    words = _obstacles(voice, colours)
    marks = [f"{_MARKS[obstacle]} {words[obstacle]}" for obstacle in Obstacle if obstacle in met]
    if marks:
        yield f"Obstacles: {'; '.join(marks)}."


@dataclass(frozen=True, slots=True)
class _ChoiceRow:
    """A row of a table of choices; sizes that differ in ``count`` and ``minutes`` share a table.

    ``count`` is the number of areas, empty for a band.
    """

    start: tuple[str, ...]
    count: str
    marks: tuple[str, ...]
    minutes: tuple[str, ...]
    recommended: str

    @property
    def cells(self) -> tuple[str, ...]:
        prices = (f"{m} {n}".strip() for m, n in zip(self.marks, self.minutes, strict=True))
        count = (self.count,) if self.count else ()
        return (*self.start, *count, *prices, self.recommended)


def _choice_row(
    voice: Voice, choice: TechniqueChoice, start: tuple[str, ...], count: str = ""
) -> _ChoiceRow:
    duplicate = voice.term["duplicate_stitch"]
    return _ChoiceRow(
        start,
        count,
        tuple("".join(_MARKS[each] for each in price.obstacles) for price in choice.prices),
        tuple("–" if price.minutes is None else _minutes(price.minutes) for price in choice.prices),
        duplicate if choice.recommended is Technique.DUPLICATE else choice.recommended.value,
    )


def _band_row(voice: Voice, band: TechniqueChoice) -> _ChoiceRow:
    yarns = ", ".join(voice.yarn_names[yarn] for yarn in band.yarns)
    return _choice_row(voice, band, (_span(band.first, band.last), yarns))


def _area_rows(
    voice: Voice, areas: Sequence[tuple[Area, TechniqueChoice]]
) -> tuple[_ChoiceRow, ...]:
    """One row for all areas that agree in everything but their place in the round."""
    counts = Counter((area.stitches, choice) for area, choice in areas)
    ordered = sorted(counts, key=lambda each: (each[1].first, each[1].last))
    return tuple(
        _choice_row(
            voice,
            choice,
            (
                _span(choice.first, choice.last),
                voice.yarn_names[choice.yarns[0]],
                str(stitches),
            ),
            str(counts[stitches, choice]),
        )
        for stitches, choice in ordered
    )


def _choice_listings(
    voice: Voice,
    caption: str,
    start: tuple[str, ...],
    align: str,
    rows: Sequence[tuple[_ChoiceRow, ...]],
) -> Iterator[Listing]:
    duplicate = voice.term["duplicate_stitch"].capitalize()
    techniques = tuple(technique.value.capitalize() for technique in tuple(Technique)[:-1])
    columns = (*start, *techniques, duplicate, "Recommended")
    shapes = [tuple((r.start, r.marks, r.recommended) for r in each) for each in rows]
    for sizes, index in _groups(voice.sizes, shapes):
        same = {rows[voice.sizes.index(size)] for size in sizes}
        differ = "minutes and numbers of areas" if rows[index][0].count else "minutes"
        words = _size_words(sizes)
        if len(same) > 1:
            words = f"{_size_words(sizes[:1])} ({listed(sizes[1:])}: only {differ} differ)"
        cells = tuple(row.cells for row in rows[index])
        yield Listing(f"{caption}, {words}", columns, f"{align}>>>><", cells)


def _obstacles(voice: Voice, colours: Sequence[_Colours]) -> Mapping[Obstacle, str]:
    limits = sorted({each.rule.float_limit for each in colours})
    carried = max(each.rule.colours_stranded for each in colours)
    return {
        Obstacle.NOT_WHOLE_ROUNDS: f"a round has more than one {voice.term['color']}",
        Obstacle.TOO_MANY_COLOURS: f"a round has more than {carried} {voice.term['colors']}",
        Obstacle.LONG_FLOATS: f"a float passes more than {listed(map(str, limits), 'or')} stitches",
        Obstacle.TUBE: "in a tube the yarns end a round on the wrong side of their block",
        Obstacle.STIFF: "an area is too large to be covered with a second layer of yarn",
        Obstacle.NOT_AVAILABLE: "the machine feeds one yarn to all needles",
    }


# ---------------------------------------------------------------- charts


def _chart_section(voice: Voice, chart: _Chart) -> Section:
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
        (*parts, *_technique_parts(voice, chart.colours, "chart")),
    )


def _limit_listing(voice: Voice, chart: _Chart) -> Listing:
    density = [gauge.stitches_per() for gauge in chart.gauges]
    rows: list[tuple[str, Iterable[object]]] = [
        ("Stitches in the round", [colours.grid.width for colours in chart.colours]),
        ("Repeats", chart.across),
        ("Stitches over 10 cm", [f"{each:.4g}" for each in density]),
        ("Longest float allowed", [float_limit(each) for each in density]),
        ("The same, rounded to the nearest", [_nearest_limit(each) for each in density]),
    ]
    return _sized(voice, "Floats may pass about 2.5 cm of stitches, rounded down", rows)


def _nearest_limit(stitches_per_10cm: float) -> int:
    return float_limit(stitches_per_10cm, LimitRule.ROUND)


@dataclass(frozen=True, slots=True)
class _Floats:
    """The longest floats of one yarn in one round, in stitches; 0 where there is none."""

    round_: int
    yarn: str
    inside: int
    across_edge: int

    @property
    def longest(self) -> int:
        return max(self.inside, self.across_edge)


def _floats(chart: _Chart, size: int) -> tuple[_Floats, ...]:
    """Of every yarn in every stranded round, rounds counted from round 1 of the chart."""
    colours = chart.colours[size]
    found: dict[tuple[int, str], list[int]] = {}
    for run in float_runs(colours.grid):
        crosses = (
            run.last < run.first or (run.first - 2) // chart.repeat != run.last // chart.repeat
        )
        lengths = found.setdefault((run.round_ - colours.shift, run.yarn), [0, 0])
        lengths[crosses] = max(lengths[crosses], run.length)
    return tuple(_Floats(*key, *lengths) for key, lengths in found.items())


def _float_listing(voice: Voice, chart: _Chart) -> Listing | None:
    """The longest floats, with the sizes whose limit they pass; of the size with most repeats."""
    index = max(range(len(voice.sizes)), key=lambda size: chart.across[size])
    rows = []
    order = list(voice.yarn_names)
    for each in sorted(_floats(chart, index), key=lambda e: (e.round_, order.index(e.yarn))):
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


# ---------------------------------------------------------------- yarn


@dataclass(frozen=True, slots=True)
class _Loops:
    """Yarn in one stitch in every size; ``gauge`` is the key of the gauge, empty for the main."""

    yarn: str
    gauge: str
    loops: tuple[Loop, ...]
    gauges: tuple[Gauge, ...]


def _loop(plan: Plan, yarn: str, gauge: Gauge) -> Loop:
    ball = next(total.ball for total in plan.yarn if total.yarn == yarn)
    return loop_of(plan.source, yarn, gauge, ball)


def _loops(plan: Plan) -> Iterator[_Loops]:
    """By gauge, of those that pieces are worked in, then by yarn."""
    for key in dict.fromkeys(piece.gauge or "" for piece in plan.source.pattern.pieces.values()):
        gauges = tuple(size.gauges[key] for size in plan.measures.sizes)
        for total in plan.yarn:
            loops = tuple(_loop(plan, total.yarn, gauge) for gauge in gauges)
            yield _Loops(total.yarn, key, loops, gauges)


def _yarn_section(voice: Voice) -> Section:
    return Section(
        "Yarn",
        (
            "A stitch holds one loop length of yarn: l = √(Ks ÷ S), with S stitches in a cm² "
            "and Ks by how far the fabric has relaxed (Munden 1959); or what a weighed swatch "
            "took, where there is one.",
            *_loop_listings(voice),
            *_origins(voice),
            *_need_listings(voice),
        ),
    )


def _loop_listings(voice: Voice) -> Iterator[Listing]:
    """Loop length by relaxation state for each gauge."""
    plan = voice.plan
    for key in dict.fromkeys(loops.gauge for loops in _loops(plan)):
        gauges = [size.gauges[key] for size in plan.measures.sizes]
        states = {state: [_by_state(gauge, state) for gauge in gauges] for state in Relaxation}
        rows: list[tuple[str, Iterable[object]]] = [
            ("Stitches in a cm²", [f"{_density(gauge):.2f}" for gauge in gauges]),
            *(
                (f"{state.value.capitalize()}, Ks {state.ks:g}", [f"{mm:.1f}" for mm in figures])
                for state, figures in states.items()
            ),
        ]
        name = f"{voice.term['gauge']} {key}" if key else f"main {voice.term['gauge']}"
        yield _sized(voice, f"Loop length in mm at the {name}", rows)


def _density(gauge: Gauge) -> float:
    return gauge.stitches_per() * gauge.rounds_per() / 100


def _by_state(gauge: Gauge, state: Relaxation) -> float:
    return loop_from_density(gauge.stitches_per(), gauge.rounds_per(), state).mm


def _state(gauge: Gauge) -> Relaxation:
    return Relaxation.WET if gauge.state == "washed" else Relaxation.DRY


def _origins(voice: Voice) -> Iterator[str]:
    """Where each yarn's loop length comes from, and how sure it is."""
    said: dict[str, list[str]] = {}
    for loops in _loops(voice.plan):
        for loop, gauge in zip(loops.loops, loops.gauges, strict=True):
            where = (
                f"a weighed swatch ({loop.mm:.1f} mm)"
                if loop.origin is LoopOrigin.SWATCH
                else f"stitch density, {_state(gauge).value}"
            )
            names = said.setdefault(f"{where}, give or take {loop.uncertainty:.0%}", [])
            if voice.yarn_names[loops.yarn] not in names:
                names.append(voice.yarn_names[loops.yarn])
    told = "; ".join(f"{listed(names)}: {where}" for where, names in said.items())
    yield f"Where the loop length comes from. {told}."


def _need_listings(voice: Voice) -> Iterator[Listing]:
    for total in voice.plan.yarn:
        parts = [{part.name: part.metres for part in need.parts} for need in total.needs]
        labels = {part: part.value.capitalize() for part in Part}
        labels[Part.RESERVE] += f", {max(need.uncertainty for need in total.needs):.0%}"
        ball = f"{total.ball.grams:g} g = {total.ball.metres:g} m"
        rows: list[tuple[str, Iterable[object]]] = [
            *(
                (label, [f"{each.get(part, 0.0):.1f}" for each in parts])
                for part, label in labels.items()
                if any(part in each for each in parts)
            ),
            ("In all, m", [f"{need.metres:.1f}" for need in total.needs]),
            ("In all, g", [f"{need.grams:.1f}" for need in total.needs]),
            (f"Balls of {ball}", [need.balls for need in total.needs]),
        ]
        yield _sized(voice, f"{voice.yarn_names[total.yarn]}, in metres", rows)


# ---------------------------------------------------------------- plain data


def _tube_data(plan: Plan, tube: _Tube) -> dict[str, Any]:
    weights = plan.source.pattern.pieces[tube.piece].colour_plan
    return {
        "piece": tube.piece,
        "minutes_per_stitch": weights.minutes_per_stitch,
        "minutes_per_change": weights.minutes_per_change,
        "shortest_stripe": weights.shortest_stripe,
        "never_base": list(weights.never_base),
        "sizes": {
            size: _stripe_data(each) | _choice_data(colours)
            for size, each, colours in zip(plan.source.sizes, tube.plans, tube.colours, strict=True)
        },
    }


def _stripe_data(plan: PicturePlan) -> dict[str, Any]:
    stripes = plan.stripes
    return {
        "rounds": plan.tube.total_rounds,
        "rounds_seen": _seen(plan),
        "picture": {"first": plan.first, "last": plan.last, "mirrored": plan.mirrored},
        "stripes": [
            {
                "first": stripe.first,
                "last": stripe.last,
                "rounds": stripe.rounds,
                "yarn": stripe.yarn,
                "embroidered": _embroidered_on(plan, stripe),
            }
            for stripe in stripes.stripes
        ],
        "changes": [
            {
                "counter": change.counter,
                "drop": list(change.drop),
                "take_up": list(change.take_up),
                "base": change.base,
            }
            for change in stripes.changes
        ],
        "change_count": stripes.change_count,
        "knitted": dict(stripes.knitted),
        "embroidered": dict(stripes.embroidered),
        "joins": dict(stripes.joins),
        "minutes": _exact(stripes.minutes),
        "single_base": {
            "yarn": stripes.single.yarn,
            "embroidered": stripes.single.embroidered,
            "minutes": _exact(stripes.single.minutes),
        },
        "saved": {
            "stitches": stripes.stitches_saved,
            "minutes": _exact(stripes.minutes_saved),
        },
    }


def _choice_data(colours: _Colours) -> dict[str, Any]:
    return {
        "float_limit": colours.rule.float_limit,
        "bands": [_one_choice(band) for band in colours.bands()],
        "areas": [
            {"yarn": area.yarn, "stitches": area.stitches} | _one_choice(choice)
            for area, choice in colours.area_choices()
        ],
    }


def _one_choice(choice: TechniqueChoice) -> dict[str, Any]:
    return {
        "first": choice.first,
        "last": choice.last,
        "yarns": list(choice.yarns),
        "techniques": {
            price.technique.value: {
                "minutes": None if price.minutes is None else _exact(price.minutes),
                "obstacles": [obstacle.value for obstacle in price.obstacles],
            }
            for price in choice.prices
        },
        "recommended": choice.recommended.value,
    }


def _chart_data(plan: Plan, chart: _Chart) -> dict[str, Any]:
    return {
        "piece": chart.piece,
        "chart": chart.chart,
        "step": chart.step + 1,
        "sizes": {
            size: {
                "stitches": chart.colours[index].grid.width,
                "repeats": chart.across[index],
                "float_limit_nearest": _nearest_limit(chart.gauges[index].stitches_per()),
                "floats": [
                    {
                        "round": each.round_,
                        "yarn": each.yarn,
                        "inside": each.inside,
                        "across_edge": each.across_edge,
                    }
                    for each in _floats(chart, index)
                ],
                "long_floats": _long_data(chart.colours[index]),
            }
            | _choice_data(chart.colours[index])
            for index, size in enumerate(plan.source.sizes)
        },
    }


def _long_data(colours: _Colours) -> list[dict[str, Any]]:
    return [
        {
            "round": long.run.round_ - colours.shift,
            "yarn": long.run.yarn,
            "first": long.run.first,
            "last": long.run.last,
            "length": long.run.length,
            "catch_at": list(long.catches),
        }
        for long in long_floats(colours.grid, colours.rule.float_limit)
    ]


def _loop_data(plan: Plan, loops: _Loops) -> dict[str, Any]:
    return {
        "yarn": loops.yarn,
        "gauge": loops.gauge or "main",
        "sizes": {
            size: {
                "mm": _exact(loop.mm),
                "origin": loop.origin.value,
                "uncertainty": loop.uncertainty,
                "formula": loop.value.formula,
                "inputs": {name: _exact(figure) for name, figure in loop.value.inputs},
                "state": _state(gauge).value,
                "by_state": {state.value: _exact(_by_state(gauge, state)) for state in Relaxation},
            }
            for size, loop, gauge in zip(plan.source.sizes, loops.loops, loops.gauges, strict=True)
        },
    }


def _yarn_data(plan: Plan) -> dict[str, Any]:
    return {
        total.yarn: {
            "name": plan.source.pattern.yarns[total.yarn].name,
            "ball": {"grams": total.ball.grams, "metres": total.ball.metres},
            "sizes": {
                size: {
                    "parts_metres": {part.name.value: _exact(part.metres) for part in need.parts},
                    "metres": _exact(need.metres),
                    "grams": _exact(need.grams),
                    "balls": need.balls,
                    "uncertainty": need.uncertainty,
                }
                for size, need in zip(plan.source.sizes, total.needs, strict=True)
            },
        }
        for total in plan.yarn
    }


# ---------------------------------------------------------------- small words


def _groups(
    sizes: Sequence[str], versions: Sequence[object]
) -> Iterator[tuple[tuple[str, ...], int]]:
    """Sizes with equal versions, and the place of their first."""
    for index, version in enumerate(versions):
        if version not in versions[:index]:
            same = zip(sizes, versions, strict=True)
            yield tuple(size for size, each in same if each == version), index


def _size_words(sizes: Sequence[str]) -> str:
    return f"size{'' if len(sizes) == 1 else 's'} {listed(sizes)}"


def _span(first: int, last: int) -> str:
    return str(first) if first == last else f"{first} to {last}"


def _minutes(minutes: float) -> str:
    """Minutes, with a decimal below 10."""
    return f"{round(minutes, 1):g}" if abs(minutes) < 10 else f"{minutes:.0f}"


def _exact(number: float) -> float:
    """Six decimals: below any printed figure, above binary dust."""
    return round(number, 6)
