"""The chart pages: each chart with its key, its figures cut to fit a page, its rows in words."""

from collections.abc import Collection, Iterator, Mapping
from itertools import pairwise
from math import inf

from bindoff.diagnostics import Span
from bindoff.document.charts.legend import legend
from bindoff.document.charts.sheets import chart_top, furniture_height, sheet
from bindoff.document.charts.spec import ChartSpec
from bindoff.document.charts.tiles import Tile, chart_figures, key_map, map_alt
from bindoff.document.charts.written import (
    directions,
    order_of,
    said_at,
    span_of_numbers,
    written_blocks,
)
from bindoff.document.drawn import USUALLY, Drawn
from bindoff.document.phrases import heading, join, joined, running, text
from bindoff.document.rowwords import Form
from bindoff.document.stepnumbers import numbered
from bindoff.document.tree import (
    Block,
    Blocks,
    DrawnRow,
    Figure,
    Inlines,
    Link,
    Paragraph,
    Text,
    from_source,
)
from bindoff.document.tubecharts import tube_chart_ids, tube_charts
from bindoff.document.voice import Voice
from bindoff.document.workedcharts import (
    chart_id,
    chart_sizes,
    second_rows,
    slipped_rows,
    worked_chart,
)
from bindoff.english import capital, ended
from bindoff.plan.worked import ChartRows, PiecePlan, StepPlan
from bindoff.records import Record, replace
from bindoff.source.chart import Chart
from bindoff.source.rowlang.syntax import Row

_KEY_MM = 10.0  # so high is an entry of a key beside a chart
_LOOKED_AT_KEY = 100.0  # mm, the room beside a chart that is only looked at,
_SIGNS_KEY = 80.0  # ... and beside one whose symbols alone tell what is there,
_LOOKED_AT_SHARE = 0.6  # of the least size of a cell: it may be smaller


class ChartPage(Record):
    """A chart of the document: its key in the source or ``embroidery-…``, its spec, its tiles as
    they are ``drawn``, and the words for the rows ``between`` those that are. ``told`` is what its
    written rows say, where that is not what the cells show. ``one_sheet`` asks for a file of it on
    one large sheet. One that is not ``worked`` is only looked at, and has no written rows. It is
    for the ``sizes`` at those places, for all where there are none."""

    id: str
    spec: ChartSpec
    alt: str
    tiles: tuple[Tile, ...]
    drawn: Drawn
    between: Inlines = ()
    told: ChartSpec | None = None
    one_sheet: bool = False
    worked: bool = True
    sizes: tuple[int, ...] = ()
    written: Span | None = None
    """Where the pattern describes it."""


def chart_pages(voice: Voice, drawn: Drawn = USUALLY) -> tuple[ChartPage, ...]:
    """Every chart that a step works, then what is embroidered on each tube."""
    pages: dict[str, ChartPage] = {}
    for piece in voice.plan.pieces:
        for step in piece.steps:
            for worked in step.charts:
                id = chart_id(voice.plan, piece, worked)
                if id not in pages:
                    pages[id] = _worked_page(voice, piece, worked, id, drawn)
            if step.pictures:
                picture = voice.plan.source.pattern.pieces[piece.key].picture
                chart = voice.plan.source.pattern.charts[picture.chart] if picture else None
                for each in tube_charts(voice, piece, step.pictures):
                    page = _page(each.id, each.spec, each.alt, drawn, chart, each.worked)
                    pages[each.id] = replace(page, sizes=_some(voice, each.sizes))
    return tuple(pages.values())


def _worked_page(
    voice: Voice, piece: PiecePlan, worked: ChartRows, id: str, drawn: Drawn
) -> ChartPage:
    """The page of a chart that a step works."""
    chart = voice.plan.source.pattern.charts[worked.chart]
    spec = worked_chart(voice, piece, worked)
    page = replace(
        _page(id, spec, ended(chart.alt.strip()), drawn, chart),
        sizes=_some(voice, chart_sizes(voice, worked)),
        written=chart.place.span,
    )
    if worked.slipped:
        told = slipped_rows(voice, spec, worked)
        return replace(page, between=second_rows(voice, spec, worked), told=told)
    return replace(page, between=_row_between(voice, worked.between) if worked.between else ())


def _row_between(voice: Voice, row: Row) -> Inlines:
    """The row between two that a chart draws, in the words of those."""
    first, *rest = voice.row(row, form=Form.CHARTED)
    return (Text(voice.amid(first.text)) if isinstance(first, Text) else first, *rest)


def _some(voice: Voice, sizes: tuple[int, ...]) -> tuple[int, ...]:
    """Places of sizes; none where they are all there are."""
    return sizes if len(sizes) < len(voice.sizes) else ()


def chart_blocks(page: ChartPage, lead: Inlines = (), before: ChartPage | None = None) -> Blocks:
    """A chart's heading, what it is for, its pieces and its key; of one that is worked from how to
    read the drawing, and its rows in words, as those of the page ``before`` where that says so."""
    found = (
        replace(heading(3, page.spec.title, f"chart-{page.id}"), sizes=page.sizes),
        *([Paragraph(lead, role="aside")] if lead else []),
        *([Paragraph(text(directions(page.spec)), print_only=True)] if page.worked else ()),
        *_drawn(page),
        *(_in_words(page, before) if page.worked else ()),
    )
    return from_source(found, page.written)


def _in_words(page: ChartPage, before: ChartPage | None) -> Blocks:
    told = page.told or page.spec
    again = before is not None and order_of(told) == order_of(before.told or before.spec)
    return (
        heading(4, f"Written {page.spec.row_name}s: {page.spec.title}", columns=True),
        *written_blocks(told, between=page.between, id=page.id, again=again),
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
        found.update(tube_chart_ids(voice, piece.key, step.pictures))
    return found


def chart_section(voice: Voice, pages: tuple[ChartPage, ...], notes: Blocks = ()) -> Blocks:
    """All chart pages under one heading, below ``notes`` on reading and working them; nothing where
    there are none."""
    if not pages:
        return ()
    colours = any(key.colour for page in pages for key in page.spec.used_keys)
    intro = Paragraph(
        running(
            "Every chart that is worked from is also given in words, row by row.",
            f"Its symbols repeat what its {voice.term['colors']} show." if colours else "",
        ),
        print_only=True,
    )
    uses = _uses(voice)
    worked = [page for page in pages if page.worked]
    before = {page.id: last for last, page in pairwise(worked)}
    return (
        heading(2, "Charts", "charts", wide=True),
        intro,
        *notes,
        *(
            block
            for page in pages
            for block in chart_blocks(page, uses[page.id], before.get(page.id))
        ),
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
    if not worked:
        beside = _LOOKED_AT_KEY if drawn.colour else _SIGNS_KEY
        least, key = drawn.least * _LOOKED_AT_SHARE, max(drawn.key, beside)
        drawn = replace(drawn, key=key, key_cell=0.0, least=least)
    where = "below" if worked else ""
    tiles = _cut(spec, drawn, drawn.height, where)
    if drawn.key_cell and tiles[0].height < len(spec.used_keys) * _KEY_MM:
        drawn = replace(drawn, key=0.0, key_cell=0.0)  # its key has more room below it
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
    return replace(drawn, least=cell, largest=cell, whole=cell)


def _cut(spec: ChartSpec, drawn: Drawn, height: float, where: str) -> tuple[Tile, ...]:
    return chart_figures(
        spec,
        drawn.width,
        height,
        drawn.least,
        drawn.largest,
        whole_cell_mm=drawn.whole,
        key_beside_mm=drawn.key,
        beside_cell_mm=drawn.key_cell,
        where=where,
        number_mm=drawn.numbers,
        colour=drawn.colour,
        tagged=drawn.painted,
    )


def _drawn(page: ChartPage) -> Iterator[Block]:
    """The chart and its key; of one in parts the map of these and the key, then the parts."""
    spec, drawn, key = page.spec, page.drawn, legend(page.spec, colour=page.drawn.colour)
    if len(page.tiles) == 1:
        (tile,) = page.tiles
        yield Figure(tile.drawing, f"{page.alt} {tile.alt}", rows=_rows_of(page, tile))
        yield key
        return
    small = key_map(spec, page.tiles, text_mm=drawn.letters, colour=drawn.colour)
    yield Figure(small, map_alt(spec.title, page.tiles), text("How they join"))
    yield key
    landscape = drawn.width == drawn.turned_width < inf
    for tile in page.tiles:
        shown = sheet(spec, tile, page.tiles, drawn.width, text=drawn.letters, colour=drawn.colour)
        caption = text(capital(tile.label))
        rows = _rows_of(page, tile)
        yield Figure(shown, f"{page.alt} {tile.alt}", caption, landscape=landscape, rows=rows)


def _rows_of(page: ChartPage, tile: Tile) -> tuple[DrawnRow, ...]:
    """The rows that a piece of a chart shows, with their words; none of one that is only seen."""
    if not page.worked:
        return ()
    spec, top = page.spec, chart_top(page.spec, tile, page.drawn.width, page.drawn.letters)
    said = said_at(page.told or spec, page.id, between=bool(page.between))
    return tuple(
        DrawnRow(
            capital(span_of_numbers(spec.row_name, number, number)),
            round(top + down, 2),
            tile.row_height,
            said[number],
        )
        for number, down in tile.rows
    )
