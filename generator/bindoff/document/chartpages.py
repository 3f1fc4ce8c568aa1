"""The chart pages: each chart with its key, its figures cut to fit a page, its rows in words."""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from math import inf

from bindoff.craft.entry import Side, Stitch
from bindoff.craft.stitches.cells import BIND_OFF
from bindoff.diagnostics import PatternError, Span, fail
from bindoff.document.areas import embroidered_rounds, numbered_areas
from bindoff.document.charts.legend import legend
from bindoff.document.charts.sheets import furniture_height, sheet
from bindoff.document.charts.spec import ChartKey, ChartSpec, Marker, RepeatBox, Tag
from bindoff.document.charts.symbols import COLOUR_SYMBOLS, GROUND_SYMBOLS, symbol_of
from bindoff.document.charts.tiles import Tile, chart_figures, key_map, map_alt
from bindoff.document.charts.written import YARN_BAND, directions, written_blocks
from bindoff.document.drawn import USUALLY, Drawn
from bindoff.document.phrases import heading, join, joined, paragraph, text
from bindoff.document.stepnumbers import numbered
from bindoff.document.tree import Block, Blocks, Figure, Inlines, Link, Paragraph, from_source
from bindoff.document.voice import Voice
from bindoff.english import capital, ended, how_many, listed
from bindoff.plan.chartproof import Line, lines_of
from bindoff.plan.colour.palette import assign_symbols
from bindoff.plan.gauge import Gauge
from bindoff.plan.persize import named
from bindoff.plan.picture import PicturePlan, cell_meaning, chart_yarns, piece_gauges
from bindoff.plan.plan import Plan
from bindoff.plan.worked import ChartRows, PiecePlan, StepPlan
from bindoff.records import Record
from bindoff.source.chart import NO_STITCH, Chart
from bindoff.source.grid import Grid
from bindoff.source.rowlang.syntax import Row, Work

_NO_SYMBOL = "square"  # the mark of a stitch whose entry has none
_EMPTY = COLOUR_SYMBOLS[0]
_NOTES = {
    BIND_OFF: "the stitch left on the right needle by the last of them is the next one of the row"
}
"""What the key adds, as the list of abbreviations does not."""
_LIKE_STITCHES = ("dot", "ring", "slash", "backslash")
"""Marks of yarns that look like a purl, a yarn over and the decreases."""


_LOOKED_AT_KEY = 70.0  # mm, the room beside a chart that is only looked at,
_LOOKED_AT_SHARE = 0.8  # of the least size of a cell: it may be smaller


class ChartPage(Record):
    """A chart of the document: its key in the source or ``embroidery-…``, its spec, its tiles as
    they are ``drawn``, and the words for the rows ``between`` those that are. ``told`` is what its
    written rows say, where that is not what the cells show. ``one_sheet`` asks for a file of it on
    one large sheet. One that is not ``worked`` is only looked at, and has no written rows."""

    id: str
    spec: ChartSpec
    alt: str
    tiles: tuple[Tile, ...]
    drawn: Drawn
    between: Inlines = ()
    told: ChartSpec | None = None
    one_sheet: bool = False
    worked: bool = True
    written: Span | None = None
    """Where the pattern describes it."""


def chart_pages(voice: Voice, drawn: Drawn = USUALLY) -> tuple[ChartPage, ...]:
    """Every chart that a step works, then what is embroidered on each tube."""
    pages: list[ChartPage] = []
    for piece in voice.plan.pieces:
        for step in piece.steps:
            for worked in step.charts:
                id = chart_id(voice.plan, piece, worked)
                if all(page.id != id for page in pages):
                    spec = _worked_chart(voice, piece, worked)
                    chart = voice.plan.source.pattern.charts[worked.chart]
                    page = _page(id, spec, _alt(voice, worked.chart), drawn, chart)
                    between = voice.row(worked.between) if worked.between else ()
                    told = None
                    if worked.slipped:
                        told = _slipped_rows(voice, spec, worked)
                        between = _second_rows(voice, spec, worked)
                    at = voice.plan.source.pattern.charts[worked.chart].place.span
                    pages.append(replace(page, between=between, told=told, written=at))
            if step.pictures:
                pages.extend(_picture_pages(voice, piece, step.pictures, drawn))
    return tuple(pages)


def chart_blocks(page: ChartPage, lead: Inlines = ()) -> Blocks:
    """A chart's heading, what leads up to it, how to read the drawing, its pieces, its key, and the
    rows in words of one that is worked from."""
    found = (
        heading(3, page.spec.title, f"chart-{page.id}"),
        *([paragraph(lead)] if lead else []),
        Paragraph(text(directions(page.spec)), print_only=True),
        *_drawn(page),
        *(_in_words(page) if page.worked else ()),
    )
    return from_source(found, page.written)


def _in_words(page: ChartPage) -> Blocks:
    return (
        heading(4, f"Written {page.spec.row_name}s: {page.spec.title}", columns=True),
        *written_blocks(page.told or page.spec, between=page.between),
    )


def _uses(voice: Voice) -> Mapping[str, Inlines]:
    """Which steps work each chart, with links to the sections they stand in."""
    found: dict[str, list[Inlines]] = {}
    for piece in voice.plan.pieces:
        for each in numbered(piece):
            link = (Link(text(f"{_title(voice, piece)}, step {each.number}"), f"#{each.place}"),)
            for id in _charts_of(voice, piece, each.step):
                found.setdefault(id, []).append(link)
    return {id: join("For ", joined(links, "; "), ".") for id, links in found.items()}


def _title(voice: Voice, piece: PiecePlan) -> str:
    return voice.plan.source.pattern.pieces[piece.key].title


def _charts_of(voice: Voice, piece: PiecePlan, step: StepPlan) -> Collection[str]:
    """The ids of the pages whose charts a step works."""
    found = {chart_id(voice.plan, piece, worked) for worked in step.charts}
    if step.pictures:
        found |= {id for id, _ in picture_charts(voice, piece.key)}
        for each in stitchings(piece.key, step.pictures):
            found |= {each.id, f"{each.id}-back"}
    return found


def chart_section(voice: Voice, pages: tuple[ChartPage, ...]) -> Blocks:
    """All chart pages under one heading; nothing where there are none."""
    if not pages:
        return ()
    intro = Paragraph(
        text(
            "Every chart that is worked from is also given in words, row by row. Symbols say what "
            f"{voice.term['colors']} say."
        ),
        print_only=True,
    )
    uses = _uses(voice)
    return (
        heading(2, "Charts", "charts", wide=True),
        intro,
        *(block for page in pages for block in chart_blocks(page, uses[page.id])),
    )


def _page(
    id: str,
    spec: ChartSpec,
    alt: str,
    drawn: Drawn,
    chart: Chart | None = None,
    worked: bool = True,
) -> ChartPage:
    """The page of a chart, printed as its ``chart`` in the source says; one that is only looked at
    leaves room for its key beside it."""
    drawn, sheet = _chosen(drawn, chart), chart.sheet if chart else "upright"
    if not worked and not drawn.key:
        drawn = replace(drawn, key=_LOOKED_AT_KEY, least=drawn.least * _LOOKED_AT_SHARE)
    where = "below" if worked else ""
    tiles = _cut(spec, drawn, drawn.height, where)
    if len(tiles) > 1:  # each has a page of its own, without the chart's heading
        height = drawn.sheet
        if sheet == "landscape":
            drawn = replace(drawn, width=drawn.turned_width)
            height = drawn.turned_height
        height -= furniture_height(spec, drawn.width, drawn.letters)
        tiles = _cut(spec, drawn, height, where)
    return ChartPage(id, spec, alt, tiles, drawn, one_sheet=sheet == "one", worked=worked)


def _chosen(drawn: Drawn, chart: Chart | None) -> Drawn:
    """Cells as large as the chart wants them; in large print at least as large as there."""
    if chart is None or chart.cell_mm is None:
        return drawn
    cell = max(chart.cell_mm, drawn.least) if drawn.least > USUALLY.least else chart.cell_mm
    return replace(drawn, least=cell, largest=cell)


def _cut(spec: ChartSpec, drawn: Drawn, height: float, where: str) -> tuple[Tile, ...]:
    return chart_figures(
        spec,
        drawn.width,
        height,
        drawn.least,
        drawn.largest,
        key_beside_mm=drawn.key,
        where=where,
        number_mm=drawn.numbers,
        colour=drawn.colour,
    )


def _drawn(page: ChartPage) -> Iterator[Block]:
    """The chart and its key; of one in parts the map of these and the key, then the parts."""
    spec, drawn, key = page.spec, page.drawn, legend(page.spec, colour=page.drawn.colour)
    if len(page.tiles) == 1:
        (tile,) = page.tiles
        yield Figure(tile.drawing, f"{page.alt} {tile.alt}")
        yield key
        return
    small = key_map(spec, page.tiles, text_mm=drawn.letters, colour=drawn.colour)
    yield Figure(small, map_alt(spec.title, page.tiles), text("How they join"))
    yield key
    landscape = drawn.width == drawn.turned_width < inf
    for tile in page.tiles:
        shown = sheet(spec, tile, page.tiles, drawn.width, text=drawn.letters, colour=drawn.colour)
        caption = text(capital(tile.label))
        yield Figure(shown, f"{page.alt} {tile.alt}", caption, landscape=landscape)


def _alt(voice: Voice, chart: str) -> str:
    return ended(voice.plan.source.pattern.charts[chart].alt.strip())


# ---------------------------------------------------------------- charts worked by a step


class _Way(Record):
    """How a chart is worked: one chart in two ways needs two sets of written rows."""

    chart: str
    grid: Grid
    flat: bool
    inside: bool
    once: bool

    @property
    def drawing(self) -> tuple[str, Grid]:
        """The chart and the grid."""
        return self.chart, self.grid


def chart_id(plan: Plan, piece: PiecePlan, chart: ChartRows) -> str:
    """The id of the page that shows a chart as a piece works it."""
    ways = list(dict.fromkeys(way for _, way in _worked(plan)))
    mine = _way(plan, piece, chart)
    same = [way for way in ways if way.chart == mine.chart]
    number = same.index(mine) + 1
    return mine.chart if number == 1 else f"{mine.chart}-{number}"


def charted_rows(plan: Plan) -> Iterator[Row]:
    """Rows of the stitches that the charts' words name by an abbreviation."""
    for rows, way in _worked(plan):
        chart, grid = plan.source.pattern.charts[way.chart], way.grid
        if rows.between:
            yield rows.between
        yield from (*rows.first, *rows.last)
        starts = chart.first_row == "wrong side"
        for number, line in enumerate(grid.rounds[: grid.lines(max(rows.rounds))]):
            wrong = way.flat and grid.every == 1 and (number % 2 == 1) != starts
            for character in sorted(set(line)):
                stitch = _stitch_of(plan, chart, character)
                if stitch is not None:
                    shown = plan.book.showing(stitch, _side(wrong))
                    if not shown.counted and _is_worked(shown):
                        yield Row((Work(shown.id),))


def _worked(plan: Plan) -> Iterator[tuple[ChartRows, _Way]]:
    for piece in plan.pieces:
        for step in piece.steps:
            for rows in step.charts:
                yield rows, _way(plan, piece, rows)


def _way(plan: Plan, piece: PiecePlan, rows: ChartRows) -> _Way:
    flat = next(step.flat for step in piece.steps if rows in step.charts)
    inside = any(row.parts for row in (*rows.first, *rows.last))
    return _Way(rows.chart, rows.grid, flat, inside, rows.once)


def _worked_chart(voice: Voice, piece: PiecePlan, rows: ChartRows) -> ChartSpec:
    source, grid = voice.plan.source, rows.grid
    chart = source.pattern.charts[rows.chart]
    gauge = _gauge(voice, piece)
    way = _way(voice.plan, piece, rows)
    first = next(each for _, each in _worked(voice.plan) if each.drawing == way.drawing)
    lines = lines_of(grid, chart, source.pattern.yarns, voice.plan.book)
    changes = [line.change for line in lines]
    steady = {count for each in changes for count in (each.uses, each.makes)} == {grid.repeat}
    label = f"{grid.repeat}-stitch repeat" if steady else "repeat"
    boxed = chart.repeats and not way.once
    box = RepeatBox(1 + grid.before, grid.width - grid.after, 1, grid.height, label)
    return ChartSpec(
        _title_of(voice, chart, way, first),
        tuple(tuple(line) for line in grid.rounds),
        _worked_keys(voice, chart),
        worked="flat" if way.flat else "round",
        cell_width_mm=gauge.stitch_mm,
        cell_height_mm=gauge.round_mm * (2 if chart.mode == "mosaic" else 1),
        first_right_side=grid.every > 1 or chart.first_row == "right side",
        first_row=grid.first,
        every=grid.every,
        inside=way.inside,
        twice=chart.mode == "mosaic",
        base=_yarn_band(chart, rows),
        base_label=YARN_BAND if rows.slipped else "base",
        repeats=(box,) if boxed else (),
        needs=_needs(lines[0]) if grid.edged and boxed else "",
    )


def _yarn_band(chart: Chart, rows: ChartRows) -> tuple[str, ...]:
    """The character of the yarn that each line is worked in, where all others are slipped."""
    of = {yarn: character for character, yarn in chart_yarns(chart).items()}
    return tuple(of[line.yarn] for line in rows.slipped)


_WORKED, _SLIPPED = "worked", "slipped"


def _slipped_rows(voice: Voice, spec: ChartSpec, rows: ChartRows) -> ChartSpec:
    """The rows as they are worked: so many knitted in the yarn of the row, so many slipped."""
    book = voice.plan.book
    keys = []
    for name, stitch in ((_WORKED, book["k"]), (_SLIPPED, book["sl"])):
        right, wrong = (_said(voice, book.showing(stitch, side)) for side in Side)
        symbol = spec.keys[0].symbol
        keys.append(ChartKey(name, symbol, name, word=right, wrong_side_word=wrong))
    cells = tuple(
        tuple(_WORKED if worked else _SLIPPED for worked in line.worked) for line in rows.slipped
    )
    return replace(spec, rows=cells, keys=(*keys, *spec.keys))


def _second_rows(voice: Voice, spec: ChartSpec, rows: ChartRows) -> Inlines:
    """The second row of each line of a mosaic chart, in words for all of them."""
    if not spec.twice:
        return ()
    chart, unit = voice.plan.source.pattern.charts[rows.chart], spec.row_name
    flat = spec.worked == "flat"
    worked = {"k": "knit", "p": "purl"}[chart.second or ("p" if flat else "k")]
    place = "front" if flat else "back"
    return text(
        f"In the yarn of the {unit} before, {worked} the stitches that it knitted, and slip with "
        f"yarn in {place} those that it slipped."
    )


def _needs(first: Line) -> str:
    """The counts of stitches that a chart with edges fits, at its first row."""
    multiple, plus = first.change.uses, first.edges.uses
    return f"a multiple of {how_many(multiple, 'stitch')}" + (f", plus {plus}" if plus else "")


def _title_of(voice: Voice, chart: Chart, way: _Way, first: _Way) -> str:
    """The title, the sizes where others have a grid of their own, and how the chart is worked where
    the document shows it in another way too."""
    title = chart_title(voice, chart.title, way)
    if way.flat != first.flat:
        return f"{title}, worked {_worked_how(way)}"
    if way.once != first.once:
        return f"{title}, worked {'once' if way.once else 'in repeats'}"
    if way.inside != first.inside:
        return f"{title}, worked {'between stitches' if way.inside else 'alone'}"
    return title


def chart_title(voice: Voice, title: str, worked: "ChartRows | _Way") -> str:
    """The title of a chart, with the sizes that share its grid where others have another."""
    drawings = voice.plan.source.drawings(worked.chart)
    if len(drawings) == 1:
        return title
    sizes = [voice.sizes[size] for size in drawings[worked.grid]]
    return f"{title}, {named(sizes, voice.sizes)}"


def _worked_how(way: _Way) -> str:
    return "in rows" if way.flat else "in the round"


def _worked_keys(voice: Voice, chart: Chart) -> tuple[ChartKey, ...]:
    """The key of a chart; entries that mean different things look different."""
    keys = [_chart_key(voice, chart, character) for character in chart.legend]
    names = set(voice.yarn_names.values())
    yarns = {_picture(symbol) for symbol in yarn_symbols(voice).values()}
    meant = {_picture(key.symbol): key.label for key in keys if key.label in names}
    found = []
    for key in keys:
        if meant.setdefault(_picture(key.symbol), key.label) != key.label:
            taken = yarns.union(meant, map(_picture, (each.symbol for each in keys)))
            free = next((each for each in COLOUR_SYMBOLS if _picture(each) not in taken), None)
            if free is None or key.span > 1:
                raise fail(
                    "chart.one-symbol",
                    f"the symbol of `{key.key}` stands for something else on this chart, and no "
                    "other is left",
                    "Part the chart into several, or declare stitches with a chart symbol",
                    chart.place.of("legend").of(key.key).span,
                )
            key = replace(key, symbol=free)
            meant[_picture(key.symbol)] = key.label
        found.append(key)
    return tuple(found)


def _picture(symbol: str) -> str:
    return symbol_of(symbol).picture


def _chart_key(voice: Voice, chart: Chart, character: str) -> ChartKey:
    plan = voice.plan
    stitch, yarn = _stitch_of(plan, chart, character), _yarn_of(plan, chart, character)
    colour = plan.source.pattern.yarns[yarn].colour if yarn else None
    if yarn and (stitch is None or stitch.id == "k"):
        name = voice.yarn_names[yarn]
        return ChartKey(character, yarn_symbols(voice)[yarn], name, colour, word=name)
    assert stitch is not None
    label = voice.abbreviation(stitch.id)[1]
    said = [_said(voice, plan.book.showing(stitch, side)) for side in Side]
    if yarn:
        name = voice.yarn_names[yarn]
        label, said = f"{label} in {name}", [f"{word} in {name}" for word in said]
    return ChartKey(
        character,
        stitch.symbol.name if stitch.symbol else _NO_SYMBOL,
        label,
        colour,
        word=said[0],
        wrong_side_word=said[1],
        span=stitch.cells,
        uses=stitch.consumes,
        worked=_is_worked(stitch),
        note=_NOTES.get(stitch.id, ""),
    )


def _said(voice: Voice, stitch: Stitch) -> str:
    """``knit {n}`` for a stitch whose number is part of its name, others by abbreviation."""
    if stitch.counted:
        return stitch.wording(voice.plan.book.terms).spoken
    return voice.abbreviation(stitch.id)[0]


def _is_worked(stitch: Stitch) -> bool:
    """Whether anything is done for it: not for a cell that only keeps its place."""
    return stitch.id != NO_STITCH


def _yarn_of(plan: Plan, chart: Chart, character: str) -> str | None:
    yarn, _ = cell_meaning(chart.legend[character], plan.source.pattern.yarns)
    return yarn


def _stitch_of(plan: Plan, chart: Chart, character: str) -> Stitch | None:
    """The stitch that a character names, ``None`` for a yarn alone."""
    _, stitch = cell_meaning(chart.legend[character], plan.source.pattern.yarns)
    return plan.book.named(stitch) if stitch is not None else None


def _side(wrong: bool) -> Side:
    return Side.WRONG if wrong else Side.RIGHT


def yarn_symbols(voice: Voice) -> Mapping[str, str]:
    """A chart symbol for every yarn, the same in all charts.

    Where a chart names stitches, yarns leave them the marks that stitches are known by. Raises
    ``PatternError`` where there are more yarns than symbols.
    """
    plan = voice.plan
    stitches = any(
        _stitch_of(plan, chart, character)
        for chart in (plan.source.pattern.charts[way.chart] for _, way in _worked(plan))
        for character in chart.legend
    )
    symbols = [each for each in COLOUR_SYMBOLS if not stitches or each not in _LIKE_STITCHES]
    try:
        return dict(assign_symbols(tuple(voice.yarn_names), symbols))
    except PatternError as error:
        place = plan.source.pattern.yarns[list(voice.yarn_names)[len(symbols)]].place.key_span
        raise PatternError(replace(each, span=place) for each in error.findings) from None


def _gauge(voice: Voice, piece: PiecePlan) -> Gauge:
    """The first size's gauge gives the cells their proportions."""
    return piece_gauges(voice.plan.measures, voice.plan.source.pattern.pieces[piece.key])[0]


# ---------------------------------------------------------------- pictures on a tube

Rounds = tuple[tuple[str, ...], ...]
"""Keys of a chart, bottom round first, each round left to right."""


class Stitching(Record):
    """What is embroidered on a piece in some sizes, which share one chart.

    ``sizes`` are places in the order of sizes; ``id`` is that of the chart's page.
    """

    id: str
    sizes: tuple[int, ...]
    plan: PicturePlan


def stitchings(piece: str, plans: Sequence[PicturePlan]) -> tuple[Stitching, ...]:
    """The embroidery charts of a piece: one for all sizes, or one for each that differs."""
    groups: dict[Rounds, list[int]] = {}
    for size, plan in enumerate(plans):
        if any(any(row) for row in plan.overlay):
            groups.setdefault(_window(plan), []).append(size)
    return tuple(
        Stitching(
            _numbered(f"embroidery-{piece}", number),
            tuple(sizes),
            plans[sizes[0]],
        )
        for number, sizes in enumerate(groups.values(), start=1)
    )


def chart_links(voice: Voice, charts: Sequence[Stitching]) -> Inlines:
    """The embroidery charts of a piece, by size where there are several, each with its link."""
    if len(charts) == 1:
        return (Link(text("embroidery chart"), f"#chart-{charts[0].id}"),)
    links: list[Inlines] = []
    for chart in charts:
        names = listed(voice.sizes[size] for size in chart.sizes)
        word = "size" if len(chart.sizes) == 1 else "sizes"
        links.append((Link(text(f"embroidery chart for {word} {names}"), f"#chart-{chart.id}"),))
    return joined(links, " or the ")


def _window(plan: PicturePlan, half: range | None = None) -> Rounds:
    """Those rounds as knitted and embroidered: the stitches ``half``, else the front half where the
    back mirrors it."""
    first, last = embroidered_rounds(plan)
    knitted, overlay = plan.knitted[first - 1 : last], plan.overlay[first - 1 : last]
    places = [plan.tube.needles - stitch for stitch in reversed(half or _front(plan))]
    return tuple(
        tuple(f"+{above[at]}" if above[at] else below[at] for at in places)
        for below, above in zip(knitted, overlay, strict=True)
    )


def _front(plan: PicturePlan) -> range:
    """The stitches that a chart shows: all, or the front half where the back mirrors it."""
    needles = plan.tube.needles
    return range(1, (needles // 2 if plan.mirrored else needles) + 1)


def _picture_pages(
    voice: Voice, piece: PiecePlan, plans: Sequence[PicturePlan], drawn: Drawn
) -> Iterator[ChartPage]:
    """The picture as it will be seen, and what is embroidered on the knitted stripes."""
    title, alt = _pictured(voice, piece, plans)
    where = " The back half mirrors it." if plans[0].mirrored else ""
    source, seen = voice.plan.source, picture_charts(voice, piece.key)
    picture = source.pattern.pieces[piece.key].picture
    chart = source.pattern.charts[picture.chart] if picture else None
    for id, sizes in seen:
        plan = plans[sizes[0]]
        of = f", {named([voice.sizes[size] for size in sizes])}" if len(seen) > 1 else ""
        yield _page(
            id,
            _picture_chart(
                voice,
                piece,
                plan,
                f"{title}, as it will be seen{of}",
                picture_rounds(plan),
                _yarn_keys(voice),
                _front(plan),
            ),
            alt + where,
            drawn,
            chart,
            worked=not stitchings(piece.key, plans),
        )
    for each in stitchings(piece.key, plans):
        yield from _embroidery_pages(voice, piece, each, title, drawn, chart)


def _embroidery_pages(
    voice: Voice,
    piece: PiecePlan,
    each: Stitching,
    title: str,
    drawn: Drawn,
    chart: Chart | None,
) -> Iterator[ChartPage]:
    """What is embroidered, with the number of each area where it starts; of a picture whose back
    mirrors its front, the back too."""
    plan = each.plan
    halves = [("", "", _front(plan))]
    if plan.mirrored:
        back = range(len(_front(plan)) + 1, plan.tube.needles + 1)
        halves = [("", " on the front", _front(plan)), ("-back", " on the back", back)]
    for suffix, where, half in halves:
        name = f"{title}, what to embroider{where}{_for_sizes(voice, each)}"
        rows, keys = _window(plan, half), _overlay_keys(voice)
        spec = _picture_chart(voice, piece, plan, name, rows, keys, half)
        yield _page(
            f"{each.id}{suffix}",
            replace(spec, tags=tuple(_tags(plan, half))),
            "The stripes as knitted, with a symbol on every stitch that is embroidered.",
            drawn,
            chart,
        )


def _tags(plan: PicturePlan, half: range) -> Iterator[Tag]:
    """The number of each area at the stitch where it starts."""
    for area in numbered_areas(plan):
        for stitch in (area.stitch, area.again):
            if stitch is not None and stitch in half:
                yield Tag(area.round_, stitch - half[0] + 1, str(area.number))


def picture_charts(voice: Voice, piece: str) -> tuple[tuple[str, tuple[int, ...]], ...]:
    """The charts of a piece's picture, one for each of its grids, or of its motifs, one for sizes
    that have the same ones: the id of the page, and the places of the sizes. Motifs that are
    embroidered as they are seen have none."""
    source = voice.plan.source
    written = source.pattern.pieces[piece]
    drawings = (
        source.drawings(written.picture.chart).values()
        if written.picture
        else _motif_drawings(tubes_of(voice, piece))
    )
    return tuple(
        (_numbered(f"picture-{piece}", number), sizes)
        for number, sizes in enumerate(drawings, start=1)
    )


def tubes_of(voice: Voice, piece: str) -> tuple[PicturePlan, ...]:
    """The tube of a piece in every size."""
    steps = (step for each in voice.plan.pieces if each.key == piece for step in each.steps)
    return next((step.tubes for step in steps if step.tubes), ())


def _motif_drawings(plans: Sequence[PicturePlan]) -> Iterator[tuple[int, ...]]:
    """The sizes whose motifs are seen alike, where stripes show a part of them."""
    groups: dict[Rounds, list[int]] = {}
    for size, plan in enumerate(plans):
        if plan.has_picture and not _all_embroidered(plan):
            groups.setdefault(picture_rounds(plan), []).append(size)
    yield from map(tuple, groups.values())


def _pictured(voice: Voice, piece: PiecePlan, plans: Sequence[PicturePlan]) -> tuple[str, str]:
    """What is on a tube, as a title and in words: its picture, or its motifs."""
    source = voice.plan.source
    written = source.pattern.pieces[piece.key]
    if written.picture is not None:
        chart = written.picture.chart
        return source.pattern.charts[chart].title, _alt(voice, chart)
    charts = dict.fromkeys(chart for chart, _ in written.pictured)
    titles = [source.pattern.charts[chart].title for chart in charts]
    places: dict[str, list[str]] = {}
    for each in plans[0].motifs:
        places.setdefault(each.chart, []).append(each.place)
    told = (
        f"{source.pattern.charts[chart].title}, {listed(where)}: {_alt(voice, chart)}"
        for chart, where in places.items()
    )
    return f"{written.title}: {listed(titles)}", " ".join(told)


def _all_embroidered(plan: PicturePlan) -> bool:
    """Whether every stitch of a tube's motifs is embroidered on what is around them."""
    return bool(plan.motifs) and all(
        plan.overlay[round_ - 1][column]
        for motif in plan.motifs
        for round_, column, _ in motif.at(plan.tube.needles)
    )


def _numbered(id: str, number: int) -> str:
    return id if number == 1 else f"{id}-{number}"


def picture_rounds(plan: PicturePlan) -> Rounds:
    """The yarns of the picture, bottom round first: the front half where the back mirrors it."""
    width = plan.tube.needles // 2 if plan.mirrored else plan.tube.needles
    return tuple(row[-width:] for row in plan.colours.rounds[plan.first - 1 : plan.last])


def _for_sizes(voice: Voice, each: Stitching) -> str:
    if len(each.sizes) == len(voice.sizes):
        return ""
    return f", {named([voice.sizes[size] for size in each.sizes])}"


def _picture_chart(
    voice: Voice,
    piece: PiecePlan,
    plan: PicturePlan,
    title: str,
    rows: Rounds,
    keys: tuple[ChartKey, ...],
    half: range,
) -> ChartSpec:
    gauge = _gauge(voice, piece)
    return ChartSpec(
        title,
        rows,
        keys,
        cell_width_mm=gauge.stitch_mm,
        cell_height_mm=gauge.round_mm,
        markers=tuple(_lines(plan, half)),
        first_stitch=half[0],
    )


def _lines(plan: PicturePlan, half: range) -> Iterator[Marker]:
    """The sides of a tube, the middles of its front and back, and where a picture is mirrored, as
    far as they lie on the stitches ``half``."""
    tube = plan.tube
    before, needles = half[0] - 1, tube.needles
    if plan.mirrored:
        yield Marker(len(half) if half[0] == 1 else 0, "mirror line")
    elif needles % 2 == 0:
        for marker in tube.markers:
            yield Marker(marker - 1, "side")
    for quarter, name in ((1, "middle of the front"), (3, "middle of the back")):
        after = (tube.front - 1 + quarter * needles / 4) % needles - before
        if 0 <= after <= len(half):
            yield Marker(after, name)


def _yarn_keys(voice: Voice) -> tuple[ChartKey, ...]:
    symbols = yarn_symbols(voice)
    return tuple(
        ChartKey(key, symbols[key], yarn.name, yarn.colour, word=yarn.name)
        for key, yarn in voice.plan.source.pattern.yarns.items()
    )


def _overlay_keys(voice: Voice) -> tuple[ChartKey, ...]:
    """Embroidered stitches with the yarn's symbol, knitted ones with the same one small.

    The yarn whose cells are empty on other charts gets a symbol no other yarn has.
    """
    yarns = voice.plan.source.pattern.yarns
    symbols = yarn_symbols(voice)
    spare = _spare(symbols.values())
    knitted = tuple(
        ChartKey(
            key,
            GROUND_SYMBOLS[symbols[key]],
            f"{yarn.name}, as knitted",
            yarn.colour,
            word=f"{yarn.name} knitted",
        )
        for key, yarn in yarns.items()
    )
    embroidered = tuple(
        ChartKey(
            f"+{key}",
            spare if symbols[key] == _EMPTY else symbols[key],
            f"{yarn.name}, embroidered",
            yarn.colour,
            word=yarn.name,
        )
        for key, yarn in yarns.items()
    )
    return knitted + embroidered


def _spare(taken: Iterable[str]) -> str:
    used = set(taken)
    return next((each for each in COLOUR_SYMBOLS if each not in used | {_EMPTY}), _EMPTY)
