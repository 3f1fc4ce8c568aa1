"""The files of typefaces as a PDF needs them: their measures, and the program of some characters.

ReportLab reads them. It is loaded only where neither is kept of an earlier run.
"""

import io
from functools import cache
from typing import Any

from bindoff.kept import Shelf
from bindoff.records import Record
from bindoff.render.fontfiles import font_bytes

SHELF: Shelf[Any] = Shelf(
    __file__, 64, libraries=("fontpkg-ibm-plex-serif", "fontpkg-lato", "reportlab")
)
"""Measures of files, and programs by file and characters."""


class Font(Record, eq=False):
    """What the file of a typeface says of itself, in 1/1000 em; ``widths`` are those of all its
    characters, by their code points."""

    package: str
    file: str
    ascent: float
    descent: float
    cap_height: float
    box: tuple[float, ...]
    slant: float
    stem: float
    flags: int
    units: int
    missing: float
    widths: dict[int, float]

    @property
    def name(self) -> str:
        """What the typeface is called in a PDF."""
        return self.file.removesuffix(".ttf")

    def width(self, point: int) -> float:
        """That of a character, or of the sign for one that is missing."""
        return self.widths.get(point, self.missing)


@cache
def font(package: str, file: str) -> Font:
    """The typeface of a file; raises ``PatternError`` as ``font_bytes`` does."""
    return Font(package, file, *SHELF.get(file, lambda: _measures(package, file)))


def program(of: Font, points: tuple[int, ...]) -> bytes:
    """The TrueType program of the characters ``points``, by their codes."""
    found: bytes = SHELF.get((of.file, points), lambda: _program(of, points))
    return found


def _program(of: Font, points: tuple[int, ...]) -> bytes:
    return bytes(_read(of.package, of.file).makeSubset(list(points)))


def _measures(package: str, file: str) -> tuple[Any, ...]:
    read = _read(package, file)
    return (
        read.ascent,
        read.descent,
        read.capHeight,
        tuple(read.bbox),
        read.italicAngle,
        read.stemV,
        read.flags,
        read.unitsPerEm,
        read.defaultWidth,
        {point: read.getCharWidth(point) for point in read.charToGlyph},
    )


@cache
def _read(package: str, file: str) -> Any:
    from reportlab.pdfbase.ttfonts import TTFontFace

    return TTFontFace(io.BytesIO(font_bytes(package, file)))
