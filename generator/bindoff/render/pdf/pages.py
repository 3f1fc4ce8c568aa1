"""From the document to the file: lay out, cut into pages, draw, finish."""

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Protocol

from bindoff import regex as re
from bindoff.document.tree import Document, texts
from bindoff.records import Record, replace
from bindoff.render.pdf.aboutfile import Metadata
from bindoff.render.pdf.drawing import colour_numbers, grey_numbers
from bindoff.render.pdf.flow import Flow
from bindoff.render.pdf.fonts import refuse_missing
from bindoff.render.pdf.galley import Fragment, Page
from bindoff.render.pdf.paging import paginate
from bindoff.render.pdf.parts import Frame
from bindoff.render.pdf.sizelanes import reminded
from bindoff.render.pdf.tagging import PdfWriter, Tag, Writer
from bindoff.render.pdf.text import TextRun, lines, paint_line, words
from bindoff.render.pdf.theme import MM, PAPERS, Theme, Words, theme

_CREATOR = "bindoff"
_CUT = " …"
_REMINDED = 3  # times at most, as figures that name their sizes move those below them
_DAY = r"\d{4}-\d{2}-\d{2}"


class Options(Protocol):
    """What the pages need to know of the caller's wishes."""

    @property
    def paper(self) -> str:
        """A name in ``PAPERS``."""

    @property
    def sheet_mm(self) -> tuple[float, float] | None:
        """Another paper, as wide and as high in mm, if there is one."""

    @property
    def theme(self) -> str:
        """A name in ``themes/``."""

    @property
    def grey(self) -> bool:
        """Whether colours become greys."""


class Layout(Record):
    """A document laid out but not drawn. Sizes are points."""

    pages: list[Page]
    root: Tag
    theme: Theme
    paper: tuple[float, float]
    frame: Frame
    turned: Frame


def lay_out(document: Document, options: Options) -> Layout:
    """Set every node and cut the galley into pages.

    Raises ``PatternError`` as ``render_pdf`` does.
    """
    refuse_missing(texts(document))
    look = theme(options.theme, options.grey)
    paper = PAPERS[options.paper]
    if options.sheet_mm is not None:
        paper = (options.sheet_mm[0] * MM, options.sheet_mm[1] * MM)
    else:
        spare = max(0.0, paper[0] - look.left - look.right - look.width) / 2
        look = replace(look, left=look.left + spare, right=look.right + spare)
    frame = _frame(look, *paper)
    turned = _frame(look, paper[1], paper[0])
    root = Tag("Document")
    page_of: dict[str, int] = {}
    bands = Flow(document, look, frame, turned, options.grey, page_of).bands(root)
    pages = paginate(bands, frame.height, turned.height)
    for _ in range(_REMINDED):
        if not reminded(pages):
            break
        pages = paginate(bands, frame.height, turned.height)
    for number, page in enumerate(pages, start=1):
        page_of |= {placed.band.name: number for placed in page.placed if placed.band.name}
    return Layout(pages, root, look, paper, frame, turned)


class Bar(Record):
    """A stroke in the margin, in points from the bottom left of the page."""

    x: float
    low: float
    high: float


_BAR_POINTS = 2.5


def render(document: Document, options: Options) -> bytes:
    """The PDF file of ``document``."""
    return to_file(document, options, lay_out(document, options))


def to_file(
    document: Document,
    options: Options,
    layout: Layout,
    bars: Mapping[int, Sequence[Bar]] = MappingProxyType({}),
) -> bytes:
    """The PDF file of ``document``, which is laid out, with the ``bars`` of each page from 0."""
    writer = PdfWriter(grey_numbers if options.grey else colour_numbers)
    draw(writer, layout, document, bars)
    about = _metadata(document, _title(document, options, layout.theme.words))
    return writer.finish(layout.root, about)


def draw(
    writer: Writer,
    layout: Layout,
    document: Document,
    bars: Mapping[int, Sequence[Bar]] = MappingProxyType({}),
) -> None:
    """Draw every page of ``layout``, which is that of ``document``, with its ``bars``."""
    writer.lines = layout.theme.lines
    for index, page in enumerate(layout.pages):
        width, height = layout.paper[::-1] if page.turned else layout.paper
        writer.new_page(width, height)
        _draw(writer, page, layout.theme, height)
        if bars.get(index):
            writer.artifact()
        for bar in bars.get(index, ()):
            ink = layout.theme.colours.accent
            writer.line(bar.x, bar.low, bar.x, bar.high, ink, _BAR_POINTS)
        _draw_foot(writer, document, layout.theme, width, index + 1, len(layout.pages))


def _frame(look: Theme, width: float, height: float) -> Frame:
    return Frame(width - look.left - look.right, height - look.top - look.bottom)


def _draw(writer: Writer, page: Page, look: Theme, height: float) -> None:
    top = height - look.top
    for fragment in page.fragments:
        fragment.group.paint(writer, look.left + fragment.x, _lifted(fragment, top))
    for placed in sorted(page.placed, key=lambda each: each.band.reading):
        placed.band.paint(writer, look.left + placed.x, top - placed.top)


def _lifted(fragment: Fragment, top: float) -> Fragment:
    """``fragment`` measured from the bottom of the paper instead of down from the frame."""
    return replace(
        fragment,
        top=top - fragment.top,
        bottom=top - fragment.bottom,
        bands=[(band, top - down) for band, down in fragment.bands],
    )


def _draw_foot(
    writer: Writer, document: Document, look: Theme, width: float, page: int, pages: int
) -> None:
    """Title, version and author on the left, as much as fits on every page, and on the right the
    page number."""
    writer.artifact("Pagination", "Footer")
    style = look.running
    right = width - look.right
    said = [document.title]
    if document.version:
        said.append(look.words.version.format(version=document.version))
    if document.author:
        said.append(document.author)
    mine = [look.words.copy.format(reader=document.copy_for)] if document.copy_for else []
    folio = look.words.page.format(page=page, pages=pages)
    folio_line = lines(words([TextRun(folio, style.look)]), 1e6)[0]
    longest = look.words.page.format(page=pages, pages=pages)
    beside = lines(words([TextRun(longest, style.look)]), 1e6)[0].width
    room = right - look.left - beside - style.size * 2
    while True:
        line = lines(words([TextRun(" · ".join((*mine, *said)), style.look)]), 1e6)[0]
        if line.width <= room or len(said) + len(mine) == 1:
            break
        said.pop()
    while line.width > room and " " in said[0]:  # a long title loses its end
        said[0] = f"{said[0].removesuffix(_CUT).rpartition(' ')[0]}{_CUT}"
        line = lines(words([TextRun(said[0], style.look)]), 1e6)[0]
    rule = look.foot + style.leading * 1.15
    writer.line(look.left, rule, right, rule, look.colours.hairline, 0.5)
    if line.width <= room:
        paint_line(writer, line, None, look.left, look.foot)
    paint_line(writer, folio_line, None, right - folio_line.width, look.foot)


def _title(document: Document, options: Options, words: Words) -> str:
    """The title of the file: no two editions of a pattern have the same."""
    themes = {"large-print": words.large_print, "print-saver": words.print_saver}
    said = (
        themes.get(options.theme, ""),
        words.letter if options.paper == "letter" else "",
        words.grey if options.grey else "",
    )
    return ", ".join((document.title, *filter(None, said)))


def _copy_for(document: Document) -> str:
    return f"Copy for {document.copy_for}" if document.copy_for else ""


def _metadata(document: Document, title: str) -> Metadata:
    return Metadata(
        title=title,
        author=document.author,
        language=document.language,
        subject=document.summary,
        keywords=document.keywords,
        date=document.date if re.fullmatch(_DAY, document.date) else "",
        creator=_CREATOR,
        version=document.version,
        rights=" · ".join(filter(None, (document.rights, _copy_for(document)))),
    )
