"""The pages of a document as pictures for a screen, and which place of the source each part shows.

The layout is that of the PDF; only the writer is another, and nothing is made into a file.
"""

from collections.abc import Callable, Iterator

from bindoff.diagnostics import Span
from bindoff.document.tree import Document
from bindoff.records import Record
from bindoff.render.pdf.drawing import colour_numbers, grey_numbers
from bindoff.render.pdf.galley import Placed
from bindoff.render.pdf.pages import Layout, Options, draw, lay_out
from bindoff.render.pdf.svgwriter import ChartPlace, SvgWriter
from bindoff.render.pdf.tagging import Photo


class Region(Record):
    """A strip of a page that shows what stands at ``span``.

    ``page`` counts from 0; left, top, right and bottom are points from the page's top left corner.
    """

    page: int
    left: float
    top: float
    right: float
    bottom: float
    span: Span


class Screen(Record):
    """Every page as SVG, its width and height in points, the regions in reading order, and where
    the cells of charts are."""

    pages: tuple[str, ...]
    sizes: tuple[tuple[float, float], ...]
    regions: tuple[Region, ...]
    charts: tuple[ChartPlace, ...]


def draw_pages(
    document: Document, options: Options, address: Callable[[Photo], str] | None = None
) -> Screen:
    """The pages of ``document``. ``address`` is that of ``SvgWriter``.

    Raises ``PatternError`` as ``render_pdf`` does.
    """
    layout = lay_out(document, options)
    writer = SvgWriter(grey_numbers if options.grey else colour_numbers, address)
    draw(writer, layout, document)
    sizes = tuple(layout.paper[::-1] if page.turned else layout.paper for page in layout.pages)
    return Screen(writer.pages(), sizes, tuple(_regions(layout)), writer.charts())


def _regions(layout: Layout) -> Iterator[Region]:
    """Neighbouring bands of one origin in one lane are one region."""
    for number, page in enumerate(layout.pages):
        frame = layout.turned if page.turned else layout.frame
        open_region: Region | None = None
        for placed in page.placed:
            region = _region(layout, number, placed, frame.width)
            if open_region and region and _goes_on(open_region, region):
                open_region = Region(
                    number,
                    open_region.left,
                    open_region.top,
                    open_region.right,
                    region.bottom,
                    region.span,
                )
                continue
            if open_region:
                yield open_region
            open_region = region
        if open_region:
            yield open_region


def _region(layout: Layout, page: int, placed: Placed, width: float) -> Region | None:
    band = placed.band
    if band.origin is None or not band.height:
        return None
    lefts = band.lanes.lefts if band.lanes else (0.0,)
    ends = [left for left in lefts if left > placed.x + 1.0]
    right = min(ends) - layout.theme.column_gap if ends else width
    left, top = layout.theme.left, layout.theme.top + placed.top
    return Region(page, left + placed.x, top, left + right, top + band.height, band.origin.span)


def _goes_on(above: Region, below: Region) -> bool:
    near = -0.01 <= below.top - above.bottom < 24.0
    return above.span == below.span and above.left == below.left and near
