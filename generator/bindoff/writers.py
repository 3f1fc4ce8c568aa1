"""What is written of a pattern: a function for each kind of file, and the list of them all.

A new kind of file is one more function, here or in a module of its own, and a line in ``WRITERS``.
"""

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from bindoff.document.chartpages import ChartPage
from bindoff.document.charts.draw import Look, draw_chart
from bindoff.document.charts.legend import legend
from bindoff.document.charts.sheets import key_alt, key_drawing, sheet
from bindoff.document.charts.tiles import key_map, map_alt
from bindoff.document.drawing import Drawing
from bindoff.document.expansion import expanded
from bindoff.document.phrases import heading
from bindoff.document.spokenrows import signs_in_words
from bindoff.document.tree import Document, Figure
from bindoff.editions import Edition, Form, TextOptions
from bindoff.english import capital
from bindoff.jsontext import indented
from bindoff.records import Record, replace


class Publication(Record):
    """A pattern ready to be written.

    ``called`` is what its files are called. Each edition has its document as it is printed and as
    it is told in plain text. ``language`` is that of the charts. ``abbreviations``: what each
    stands for, where the texts explain them. ``figures``: plain data. ``forms`` are
    what is written of it beside paper and plain text, ``cards`` those of each size for the machine
    where a form has them, ``sheets`` those for test knitters if they are wanted.
    """

    called: str
    editions: tuple[tuple[Edition, Document, Document], ...]
    charts: tuple[ChartPage, ...]
    language: str
    figures: Mapping[str, Any]
    abbreviations: Mapping[str, str]
    text: TextOptions
    forms: tuple[Form, ...] = ()
    cards: tuple[Document, ...] = ()
    sheets: Document | None = None

    @property
    def told(self) -> Document:
        """The pattern in all sizes, as it is told where there is no paper."""
        return self.editions[0][2]


Files = Iterator[tuple[str, bytes]]
"""Names of files, by their path in the pattern's output folder, and what they hold."""


def _figures(of: Publication) -> Files:
    yield "numbers.json", indented(of.figures) + b"\n"


def _pages(of: Publication) -> Files:
    from bindoff.render.pdf import render_pdf

    for edition, printed, _ in of.editions:
        yield f"{of.called}{edition.suffix}.pdf", render_pdf(printed, edition.pdf)


def _texts(of: Publication) -> Files:
    for edition, _, said in _told(of, of.text.width):
        yield f"{of.called}{edition.words}.txt", said.encode()


def _told(of: Publication, width: int = 0) -> Iterator[tuple[Edition, Document, str]]:
    """Every edition that is told in words, and its text in lines of ``width``."""
    from bindoff.render.text import render_text

    for edition, _, told in of.editions:
        if edition.text:
            explained = expanded(told, of.abbreviations) if of.text.explained else told
            yield edition, told, render_text(explained, width, signs_in_words)


def _web_page(of: Publication) -> Files:
    if "html" in of.forms:
        from bindoff.render.web.page import render_page

        yield f"{of.called}.html", render_page(of.told, of.called, of.cards)


def _book(of: Publication) -> Files:
    if "epub" in of.forms:
        from bindoff.render.web.book import render_book

        yield f"{of.called}.epub", render_book(of.told, of.called)


def _test_sheets(of: Publication) -> Files:
    """Sheets for test knitters, to fill in on a screen, and as text to type into."""
    if of.sheets is not None:
        from bindoff.render.pdf import PdfOptions, render_pdf
        from bindoff.render.text import render_text

        paper = of.editions[0][0].pdf.paper
        named = f"{of.called}-test-sheets"
        suffix = "" if paper == PdfOptions().paper else f"-{paper}"
        yield f"{named}{suffix}.pdf", render_pdf(of.sheets, PdfOptions(paper=paper))
        said = render_text(of.sheets, of.text.width, signs_in_words)
        yield f"{named}.txt", said.encode()


def _braille(of: Publication) -> Files:
    """Every text edition in braille, to emboss and for displays."""
    if "braille" in of.forms or "uncontracted braille" in of.forms:
        from bindoff.render.braille import braille_pages, brf, pef

        for edition, told, said in _told(of):
            named = f"{of.called}{edition.words}"
            about = (told.title, told.author, told.language, told.date)
            if "braille" in of.forms:
                pages = braille_pages(said)
                yield f"{named}.brf", brf(pages)
                yield f"{named}.pef", pef(pages, *about)
            if "uncontracted braille" in of.forms:
                pages = braille_pages(said, "uncontracted")
                yield f"{named}-uncontracted.brf", brf(pages)
                yield f"{named}-uncontracted.pef", pef(pages, *about)


def _charts(of: Publication) -> Files:
    from bindoff.render.svg import id_of, render_svg

    for page in of.charts:
        for name, title, seen, drawing in _chart_files(page):
            svg = render_svg(drawing, title, seen, id_of(f"{of.called}-{name}"), of.language)
            yield f"charts/{name}.svg", svg.encode()


def _sheets(of: Publication) -> Files:
    """Charts that are wanted on one large sheet, which no home printer has: for a print shop."""
    from bindoff.render.pdf import PdfOptions, render_pdf

    for page in of.charts:
        if page.one_sheet:
            printed = of.editions[0][1]
            whole = _whole(page)
            blocks = (
                heading(2, page.spec.title, f"chart-{page.id}"),
                Figure(whole, f"{page.alt} {page.tiles[0].chart}"),
                legend(page.spec, colour=page.drawn.colour),
            )
            paper = (
                _up_to_tens(max(whole.width, _LEAST_SHEET_MM) + 2 * _SHEET_MARGIN_MM),
                _up_to_tens(whole.height + _SHEET_HEADING_MM + _KEY_MM * len(page.spec.used_keys)),
            )
            one = replace(printed, title=page.spec.title, summary=page.alt, blocks=blocks)
            options = PdfOptions(sheet_mm=paper)
            yield f"charts/{page.id}-sheet.pdf", render_pdf(one, options)


_LEAST_SHEET_MM, _SHEET_MARGIN_MM, _SHEET_HEADING_MM, _KEY_MM = 170.0, 25.0, 80.0, 9.0


def _up_to_tens(mm: float) -> float:
    return float(-(-mm // 10) * 10)


def _whole(page: ChartPage) -> Drawing:
    """A chart in one piece, its cells as large as they are printed."""
    drawn = page.drawn
    return draw_chart(page.spec, Look(drawn.least, drawn.numbers, drawn.letters, drawn.colour))


def _chart_files(page: ChartPage) -> Iterator[tuple[str, str, str, Drawing]]:
    """The name of each file of a chart, its title, what it shows, and its drawing: the chart and
    its key; of one in pieces each piece, the whole, and the map of the pieces."""
    spec, drawn, tiles = page.spec, page.drawn, page.tiles
    title, whole = spec.title, f"{page.alt} {tiles[0].chart}"
    if len(tiles) == 1:
        yield page.id, title, whole, tiles[0].drawing
    else:
        digits = len(str(len(tiles)))
        for tile in tiles:
            name = f"{page.id}-{str(tile.number).zfill(digits)}"  # names in their order
            piece = sheet(spec, tile, tiles, drawn.width, text=drawn.letters, colour=drawn.colour)
            seen = f"{capital(tile.label)} of the chart “{title}”. The whole chart: {whole}"
            yield name, f"{title}, {tile.label}", seen, piece
        yield f"{page.id}-whole", title, whole, _whole(page)
        small = key_map(spec, tiles, text_mm=drawn.letters, colour=drawn.colour)
        yield f"{page.id}-map", f"{title}, map of its parts", map_alt(title, tiles), small
    yield f"{page.id}-key", f"{title}, key", key_alt(spec), key_drawing(spec, text=drawn.letters)


WRITERS: tuple[Callable[[Publication], Files], ...] = (
    _figures,
    _pages,
    _texts,
    _charts,
    _sheets,
    _web_page,
    _book,
    _test_sheets,
    _braille,
)
"""Every kind of file that is written."""
