"""The text of each piece of marked content in a PDF, as PDFium reads it.

Poppler's ``pdfinfo -struct-text`` reads a page anew for every element on it, which takes it
seconds for a file of many pages; PDFium reads each page once.
"""

import ctypes
from collections.abc import Iterator, Mapping
from pathlib import Path

import pypdfium2
import pypdfium2.raw as pdfium

_LINE_END = "\x02"
"""What PDFium makes of any hyphen, soft or hard, that ends a line."""


def marked_text(path: Path) -> Mapping[tuple[int, int], str] | None:
    """Text by page, from 0, and number of its marked content.

    None for a file where PDFium can't say whether a hyphen that ends a line belongs to the word.
    """
    found: dict[tuple[int, int], str] = {}
    with pypdfium2.PdfDocument(path) as file:
        for number, page in enumerate(file):
            for mark, text in _of_page(page):
                found[number, mark] = found.get((number, mark), "") + text
    return None if any(_LINE_END in text for text in found.values()) else found


def _of_page(page: pypdfium2.PdfPage) -> Iterator[tuple[int, str]]:
    """Mark and text of each text object of a page, in the order in which they are painted."""
    text_page = page.get_textpage()  # closed when nobody holds it
    letters = text_page.raw
    said: dict[int, str] = {}
    for at in range(pdfium.FPDFText_CountChars(letters)):
        if not pdfium.FPDFText_IsGenerated(letters, at):
            one = _address(pdfium.FPDFText_GetTextObject(letters, at))
            said[one] = said.get(one, "") + chr(pdfium.FPDFText_GetUnicode(letters, at))
    for at in range(pdfium.FPDFPage_CountObjects(page.raw)):
        each = pdfium.FPDFPage_GetObject(page.raw, at)
        if pdfium.FPDFPageObj_GetType(each) == pdfium.FPDF_PAGEOBJ_TEXT:
            text = said.pop(
                _address(each), " "
            )  # a space alone, which has no extent, is passed over
            if (mark := pdfium.FPDFPageObj_GetMarkedContentID(each)) >= 0:
                yield mark, text
    assert not said, "text in a form, which is not read here"


def placed_letters(path: Path) -> Mapping[tuple[int, int], list[tuple[str, float, float]]]:
    """The letters by page, from 0, and number of their marked content, each with the left and the
    right edge of its room on the line, in points."""
    found: dict[tuple[int, int], list[tuple[str, float, float]]] = {}
    with pypdfium2.PdfDocument(path) as file:
        for number, page in enumerate(file):
            objects = (
                pdfium.FPDFPage_GetObject(page.raw, at)
                for at in range(pdfium.FPDFPage_CountObjects(page.raw))
            )
            marks = {
                _address(each): pdfium.FPDFPageObj_GetMarkedContentID(each) for each in objects
            }
            text_page = page.get_textpage()
            letters = text_page.raw
            for at in range(pdfium.FPDFText_CountChars(letters)):
                if pdfium.FPDFText_IsGenerated(letters, at):
                    continue
                mark = marks.get(_address(pdfium.FPDFText_GetTextObject(letters, at)), -1)
                left, _, right, _ = text_page.get_charbox(at, loose=True)
                letter = chr(pdfium.FPDFText_GetUnicode(letters, at))
                found.setdefault((number, mark), []).append((letter, left, right))
    return found


def _address(pointer: object) -> int:
    address = ctypes.cast(pointer, ctypes.c_void_p).value  # type: ignore[arg-type]
    assert address is not None
    return address
