"""The fonts of a file: of each typeface the characters that are shown.

A character has the same code in every file, whatever else is shown there: what is drawn of a page
hangs on that page alone. pikepdf writes the fonts, with the programs that ``typefiles`` has.
"""

from collections.abc import Iterator, Set
from functools import cache, lru_cache
from typing import Any

import pikepdf
from pikepdf import Array, Dictionary, Name

from bindoff.render.pdf.streams import stream
from bindoff.render.pdf.typefiles import Font, program

_SPACE, _CODES = 32, 256
_NBSP = "\N{NO-BREAK SPACE}"
_SYMBOLIC, _NONSYMBOLIC = 1 << 2, 1 << 5  # flags of a descriptor (ISO 32000-1, table 123)
_LATIN, _GENERAL = range(0x100), range(0x2000, 0x2300)  # punctuation, fractions, arrows, signs
_CMAP_LINES = 100  # at most in a section of a CMap (ISO 32000-1, 9.10.3)

Piece = tuple[int, bytes, str]
"""Of a text: the number of a subset of its font, its codes there, the operator that shows them."""


@lru_cache(maxsize=1 << 13)  # words are repeated, and stay what they are after an edit
def shown(
    font: Font, text: str, kerns: tuple[int, ...] | None
) -> tuple[tuple[int, bytes, str], ...]:
    """``text`` in pieces: the number of the subset of ``font`` that has each, its codes there, and
    the operator that shows them, moved by ``kerns`` thousandths after each character."""
    found, done = list[tuple[int, bytes, str]](), 0
    for subset, codes in _encoded(font, text):
        own = kerns[done : done + len(codes)] if kerns else None
        found.append((subset, codes, _operator(codes, own)))
        done += len(codes)
    return tuple(found)


def _encoded(font: Font, text: str) -> tuple[tuple[int, bytes], ...]:
    """The codes of a text; a character that the font lacks has the code 0."""
    try:
        codes = text.translate(_first(font)).encode("latin-1")
        return ((0, codes),) if codes else ()
    except UnicodeEncodeError:
        pass  # it needs a further subset
    places, found = _places(font), list[tuple[int, bytearray]]()
    for character in text.replace(_NBSP, " "):
        subset, code = places.get(character, (0, 0))
        if character == " " and found:  # each subset has one
            subset = found[-1][0]
        if not found or found[-1][0] != subset:
            found.append((subset, bytearray()))
        found[-1][1].append(code)
    return tuple((subset, bytes(codes)) for subset, codes in found)


def _operator(codes: bytes, kerns: tuple[int, ...] | None) -> str:
    """The operator that shows ``codes``, moved by ``kerns`` thousandths after each."""
    if not kerns or not any(kerns[:-1]):
        return f"<{codes.hex()}> Tj"
    parts = []
    start = 0
    for index, kern in enumerate(kerns[:-1], 1):
        if kern:
            parts.append(f"<{codes[start:index].hex()}>{-kern}")
            start = index
    parts.append(f"<{codes[start:].hex()}>")
    return f"[{''.join(parts)}] TJ"


def font_object(pdf: pikepdf.Pdf, font: Font, subset: int, codes: Set[int], number: int) -> Any:
    """The font of a file that holds ``codes`` of a subset; its ``number`` there names it."""
    points = tuple(
        point if code in codes else 0
        for code, point in enumerate(_subsets(font)[subset][: max(codes) + 1])
    )
    first = min(codes)
    tag = "".join(chr(ord("A") + number // 26**place % 26) for place in range(5, -1, -1))
    name = Name(f"/{tag}+{font.name}")
    made = program(font, points)
    descriptor = Dictionary(
        Type=Name.FontDescriptor,
        FontName=name,
        Flags=(font.flags & ~_NONSYMBOLIC) | _SYMBOLIC,
        FontBBox=Array(font.box),
        ItalicAngle=font.slant,
        Ascent=font.ascent,
        Descent=font.descent,
        CapHeight=font.cap_height,
        StemV=font.stem,
        MissingWidth=font.missing,
        FontFile2=stream(pdf, made, Length1=len(made)),
    )
    return pdf.make_indirect(
        Dictionary(
            Type=Name.Font,
            Subtype=Name.TrueType,
            BaseFont=name,
            FirstChar=first,
            LastChar=len(points) - 1,
            Widths=Array([font.width(point) for point in points[first:]]),
            FontDescriptor=pdf.make_indirect(descriptor),
            ToUnicode=stream(pdf, "\n".join(_to_unicode(points)).encode()),
        )
    )


@cache
def _subsets(font: Font) -> tuple[tuple[int, ...], ...]:
    """The characters of a font by their codes, in as many subsets as one byte needs; most texts
    need the first alone."""
    points = sorted(
        (point for point in font.widths if point > _SPACE and chr(point) != _NBSP),
        key=lambda point: (point not in _LATIN, point not in _GENERAL, point),
    )
    size = _CODES - _SPACE - 1
    starts = range(0, len(points), size)
    return tuple((*[0] * _SPACE, _SPACE, *points[start : start + size]) for start in starts)


@cache
def _places(font: Font) -> dict[str, tuple[int, int]]:
    return {
        chr(point): (number, code)
        for number, points in reversed(list(enumerate(_subsets(font))))
        for code, point in enumerate(points)
        if point
    }


class _Codes(dict[int, int]):
    """For ``str.translate``: the codes of the first subset; what it lacks becomes no byte."""

    def __missing__(self, _: int) -> int:
        return _CODES


@cache
def _first(font: Font) -> _Codes:
    points = _subsets(font)[0]
    codes = {point: code for code, point in reversed(list(enumerate(points))) if point}
    return _Codes({ord(_NBSP): _SPACE, **codes})


def _to_unicode(points: tuple[int, ...]) -> Iterator[str]:
    """A ToUnicode CMap (ISO 32000-1, 9.10.3) for the character codes of a subset."""
    lines = [
        f"<{code:02X}> <{chr(point).encode('utf-16-be').hex().upper()}>"
        for code, point in enumerate(points)
        if point
    ]
    yield from (
        "/CIDInit /ProcSet findresource begin",
        "12 dict begin",
        "begincmap",
        "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def",
        "/CMapName /Adobe-Identity-UCS def",
        "/CMapType 2 def",
        "1 begincodespacerange",
        "<00> <FF>",
        "endcodespacerange",
    )
    for start in range(0, len(lines), _CMAP_LINES):
        section = lines[start : start + _CMAP_LINES]
        yield from (f"{len(section)} beginbfchar", *section, "endbfchar")
    yield from ("endcmap", "CMapName currentdict /CMap defineresource pop", "end", "end")
