"""The PDF render: a tagged, printable pattern (PDF/UA-1, PDF/A-2a) from the neutral tree."""

from typing import Literal

from bindoff.document.tree import Document
from bindoff.records import Record

Paper = Literal["a4", "letter"]
ThemeName = Literal["calm", "print-saver", "large-print", "card"]


class PdfOptions(Record):
    """How the pages should look.

    ``large-print`` sets everything in at least 18 pt in one column, ``print-saver`` on few sheets,
    ``card`` has still larger numbers for the machine;
    ``grey`` maps each colour of a picture to the grey of the same lightness, as an economical
    printer would, and prints headings in black. ``sheet_mm`` is a paper of its own, instead of
    ``paper``, as wide and as high.
    """

    paper: Paper = "a4"
    theme: ThemeName = "calm"
    grey: bool = False
    sheet_mm: tuple[float, float] | None = None


def render_pdf(document: Document, options: PdfOptions = PdfOptions()) -> bytes:
    """The document as the bytes of a PDF file; the same document gives the same bytes.

    Raises ``PatternError`` with id ``font.glyph`` for a character no typeface here can print,
    ``pdf.layout`` for a block that cannot be put on a page, ``pdf.photo`` for a photograph that
    is neither PNG nor JPEG.
    """
    from bindoff.render.pdf.pages import render

    return render(document, options)
