"""The chart pages: each chart with its key, its figures cut to fit a page, its rows in words."""

from collections.abc import Iterator
from dataclasses import dataclass

from generator.document.charts.legend import legend
from generator.document.charts.spec import ChartKey, ChartSpec, Marker, RepeatBox
from generator.document.charts.symbols import COLOUR_SYMBOLS
from generator.document.charts.tiles import Tile, chart_figures, key_map, map_alt
from generator.document.charts.written import written_blocks
from generator.document.phrases import heading, paragraph, text
from generator.document.tree import Block, Blocks, Figure, PageBreak
from generator.document.voice import Voice
from generator.plan.colour.palette import assign_symbols
from generator.plan.gauge import Gauge
from generator.plan.picture import PicturePlan, chart_yarns, piece_gauges
from generator.plan.steps import ChartRows, Embroidered, PiecePlan
from generator.source.models import CellMeaning

# What both A4 and US Letter hold inside their margins, less the chart's heading and caption.
PAGE_WIDTH_MM = 165.0
PAGE_HEIGHT_MM = 190.0

# stitch id -> (chart symbol, words in the key, word in a written row, the same on the wrong side)
_STITCH_SYMBOLS: dict[str, tuple[str, str, str, str]] = {
    "k": ("knit", "knit", "k", "p"),
    "p": ("purl", "purl", "p", "k"),
    "yo": ("yarn over", "yarn over", "yo", "yo"),
    "k2tog": ("k2tog", "knit 2 together", "k2tog", "p2tog"),
    "ssk": ("ssk", "slip, slip, knit", "ssk", "ssp"),
    "p2tog": ("p2tog", "purl 2 together", "p2tog", "k2tog"),
    "ssp": ("ssp", "slip, slip, purl", "ssp", "ssk"),
    "k3tog": ("k3tog", "knit 3 together", "k3tog", "p3tog"),
    "sssk": ("sssk", "slip, slip, slip, knit", "sssk", "sssp"),
    "cdd": ("centred double decrease", "centered double decrease", "cdd", "cdd"),
    "s2kp": ("centred double decrease", "centered double decrease", "s2kp", "s2kp"),
    "sk2p": ("sk2p", "slip 1, knit 2 together, pass over", "sk2p", "sk2p"),
    "m1l": ("make 1 left", "make 1 left", "m1l", "m1l"),
    "m1r": ("make 1 right", "make 1 right", "m1r", "m1r"),
    "kfb": ("kfb", "knit front and back", "kfb", "pfb"),
    "sl": ("slip", "slip 1", "sl1", "sl1"),
}


@dataclass(frozen=True, slots=True)
class ChartPage:
    """A chart of the document: its key in the source or ``embroidery``, its spec, its tiles."""

    id: str
    spec: ChartSpec
    alt: str
    tiles: tuple[Tile, ...]


def chart_pages(voice: Voice, cell_mm: float = 4.0) -> tuple[ChartPage, ...]:
    """Every chart that a step works, then what is embroidered on each tube."""
    pages: list[ChartPage] = []
    for piece in voice.plan.pieces:
        for step in piece.steps:
            match step.detail:
                case ChartRows(chart):
                    if all(page.id != chart for page in pages):
                        spec = _worked_chart(voice, piece, chart)
                        pages.append(_page(chart, spec, _alt(voice, chart), cell_mm))
                case Embroidered(plans):
                    pages.extend(_picture_pages(voice, piece, plans[0], cell_mm))
                case _:
                    pass
    return tuple(pages)


def chart_blocks(page: ChartPage) -> Blocks:
    """A chart's heading, key, pieces and rows in words."""
    return (
        heading(3, page.spec.title, f"chart-{page.id}"),
        *_figures(page),
        legend(page.spec),
        heading(4, f"{page.spec.title} in words"),
        *written_blocks(page.spec),
    )


def _page(id: str, spec: ChartSpec, alt: str, cell_mm: float) -> ChartPage:
    tiles = chart_figures(
        spec, PAGE_WIDTH_MM, PAGE_HEIGHT_MM, cell_mm, where="after the key, below"
    )
    return ChartPage(id, spec, alt, tiles)


def _figures(page: ChartPage) -> Iterator[Block]:
    if len(page.tiles) > 1:
        yield Figure(key_map(page.spec, page.tiles), map_alt(page.tiles), text("How they join"))
    for tile in page.tiles:
        caption = text(tile.label) if len(page.tiles) > 1 else ()
        yield Figure(tile.drawing, f"{page.alt} {tile.alt}", caption)


def _alt(voice: Voice, chart: str) -> str:
    return voice.plan.source.pattern.charts[chart].alt


# ---------------------------------------------------------------- charts worked by a step


def _worked_chart(voice: Voice, piece: PiecePlan, key: str) -> ChartSpec:
    source = voice.plan.source
    chart, grid = source.pattern.charts[key], source.grids[key]
    gauge = _gauge(voice, piece)
    symbols = yarn_symbols(voice)
    keys = []
    for character, meaning in chart.legend.items():
        yarn = chart_yarns(chart)[character]
        stitch = meaning.stitch if isinstance(meaning, CellMeaning) else None
        if yarn not in source.pattern.yarns:
            stitch, yarn = stitch or yarn, None
        keys.append(_chart_key(voice, symbols, character, yarn, stitch))
    flat = source.pattern.pieces[piece.key].worked == "flat"
    box = RepeatBox(1, grid.width, 1, grid.height, f"{grid.width}-stitch repeat")
    return ChartSpec(
        chart.title,
        tuple(tuple(line) for line in grid.rounds),
        tuple(keys),
        worked="flat" if flat else "round",
        cell_width_mm=gauge.stitch_mm,
        cell_height_mm=gauge.round_mm,
        repeats=(box,) if chart.repeats else (),
    )


def _chart_key(
    voice: Voice, symbols: dict[str, str], character: str, yarn: str | None, stitch: str | None
) -> ChartKey:
    if yarn is not None and stitch is None:
        name = voice.yarn_names[yarn]
        colour = voice.plan.source.pattern.yarns[yarn].colour
        return ChartKey(character, symbols[yarn], name, colour, word=name)
    found = voice.plan.book.find(stitch or "k")
    assert found is not None  # the plan has looked it up
    wording = found.us.name, found.us.abbreviation
    symbol, label, word, wrong = _STITCH_SYMBOLS.get(
        found.id, ("square", wording[0], wording[1], wording[1])
    )
    if yarn is None:
        return ChartKey(character, symbol, label, word=word, wrong_side_word=wrong)
    name = voice.yarn_names[yarn]
    colour = voice.plan.source.pattern.yarns[yarn].colour
    return ChartKey(
        character,
        symbol,
        f"{label} in {name}",
        colour,
        word=f"{word} {name}",
        wrong_side_word=f"{wrong} {name}",
    )


def yarn_symbols(voice: Voice) -> dict[str, str]:
    """A chart symbol of its own for every yarn."""
    return dict(assign_symbols(tuple(voice.yarn_names), COLOUR_SYMBOLS))


def _gauge(voice: Voice, piece: PiecePlan) -> Gauge:
    """The first size's gauge gives the cells their proportions."""
    return piece_gauges(voice.plan.measures, voice.plan.source.pattern.pieces[piece.key])[0]


# ---------------------------------------------------------------- pictures on a tube


def _picture_pages(
    voice: Voice, piece: PiecePlan, plan: PicturePlan, cell_mm: float
) -> Iterator[ChartPage]:
    """The picture as it will be seen, and what is embroidered on the knitted stripes."""
    picture = voice.plan.source.pattern.pieces[piece.key].picture
    assert picture is not None
    chart = voice.plan.source.pattern.charts[picture.chart]
    gauge = _gauge(voice, piece)
    half = plan.mirrored
    window = plan.tube.needles // 2 if half else plan.tube.needles
    seen = tuple(row[-window:] for row in plan.colours.rounds[plan.first - 1 : plan.last])
    overlay = tuple(row[-window:] for row in plan.overlay[plan.first - 1 : plan.last])
    bases = plan.stripes.bases[plan.first - 1 : plan.last]
    markers = (Marker(window, "mirror line"),) if half else ()
    rows = tuple(
        tuple(f"+{yarn}" if yarn else base for yarn in stitches)
        for stitches, base in zip(overlay, bases, strict=True)
    )
    where = " The back half mirrors it." if half else ""
    yield _page(
        f"picture-{piece.key}",
        ChartSpec(
            f"{chart.title}, as it will be seen",
            seen,
            _yarn_keys(voice),
            cell_width_mm=gauge.stitch_mm,
            cell_height_mm=gauge.round_mm,
            markers=markers,
        ),
        chart.alt + where,
        cell_mm,
    )
    yield _page(
        f"embroidery-{piece.key}",
        ChartSpec(
            f"{chart.title}, what to embroider",
            rows,
            _overlay_keys(voice),
            cell_width_mm=gauge.stitch_mm,
            cell_height_mm=gauge.round_mm,
            markers=markers,
        ),
        f"The stripes as knitted, with a symbol on every stitch that is embroidered.{where}",
        cell_mm,
    )


def _yarn_keys(voice: Voice) -> tuple[ChartKey, ...]:
    symbols = yarn_symbols(voice)
    return tuple(
        ChartKey(key, symbols[key], yarn.name, yarn.colour, word=yarn.name)
        for key, yarn in voice.plan.source.pattern.yarns.items()
    )


def _overlay_keys(voice: Voice) -> tuple[ChartKey, ...]:
    """Knitted stitches as plain cells, embroidered ones with the yarn's symbol.

    The yarn whose cells are empty on other charts gets a symbol no other yarn has.
    """
    yarns = voice.plan.source.pattern.yarns
    spare = COLOUR_SYMBOLS[len(yarns)]
    symbols = {
        key: spare if symbol == COLOUR_SYMBOLS[0] else symbol
        for key, symbol in yarn_symbols(voice).items()
    }
    knitted = tuple(
        ChartKey(key, "blank", f"{yarn.name}, as knitted", yarn.colour, word=f"{yarn.name} knitted")
        for key, yarn in yarns.items()
    )
    embroidered = tuple(
        ChartKey(f"+{key}", symbols[key], f"{yarn.name}, embroidered", yarn.colour, word=yarn.name)
        for key, yarn in yarns.items()
    )
    return knitted + embroidered


def chart_section(voice: Voice, pages: tuple[ChartPage, ...]) -> Blocks:
    """All chart pages under one heading; nothing where there are none."""
    if not pages:
        return ()
    intro = paragraph(
        f"Every chart is also given in words, row by row. {voice.term['colors'].capitalize()} and "
        "symbols say the same, so the charts can be printed in black and white."
    )
    return (
        PageBreak(),
        heading(2, "Charts", "charts"),
        intro,
        *(block for page in pages for block in chart_blocks(page)),
    )
