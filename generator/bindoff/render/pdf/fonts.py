"""The typefaces: loading, measuring with kerning, and refusing characters they lack.

Lato and IBM Plex Serif come from Python packages as static TrueType files, so every machine sets
the same page. Kerning comes from the fonts' own tables through HarfBuzz; ligatures are left off so
that a search or a screen reader finds the letters that were written.
"""

import unicodedata
from collections.abc import Iterable, Iterator
from functools import cache, lru_cache
from typing import Any, NamedTuple

from bindoff.diagnostics import Diagnostic, PatternError
from bindoff.kept import Shelf
from bindoff.records import Record
from bindoff.render.fontfiles import SANS, SERIF, font_bytes
from bindoff.render.pdf.typefiles import Font, font

_FILES = {
    "sans": (SANS, "Lato-Regular.ttf"),
    "sans-italic": (SANS, "Lato-Italic.ttf"),
    "sans-bold": (SANS, "Lato-Bold.ttf"),
    "sans-bold-italic": (SANS, "Lato-BoldItalic.ttf"),
    "serif": (SERIF, "IBMPlexSerif-Regular.ttf"),
    "serif-italic": (SERIF, "IBMPlexSerif-Italic.ttf"),
    "serif-bold": (SERIF, "IBMPlexSerif-SemiBold.ttf"),
    "serif-bold-italic": (SERIF, "IBMPlexSerif-SemiBoldItalic.ttf"),
}
_FAMILIES = {SANS: "Lato", SERIF: "IBM Plex Serif"}
_WEIGHTS = {"Bold": 700, "SemiBold": 600}
_STAND_INS = {"sans": "serif", "serif": "sans"}

SHELF: Shelf[tuple[float, tuple[int, ...] | None]] = Shelf(
    __file__,
    8000,
    libraries=("fontpkg-ibm-plex-serif", "fontpkg-lato", "reportlab", "uharfbuzz"),
)
"""What words measure in a face."""

_SPACES = str.maketrans({"\t": " ", "\n": " ", "\N{NARROW NO-BREAK SPACE}": "\N{NO-BREAK SPACE}"})
_INVISIBLE = str.maketrans(
    "", "", "\N{SOFT HYPHEN}\N{WORD JOINER}\N{ZERO WIDTH NO-BREAK SPACE}\N{ZERO WIDTH JOINER}"
)


class Face(Record, eq=False):
    """One typeface. Heights are in ems above (or, ``descent``, below) the baseline."""

    name: str
    font: Font
    ascent: float
    descent: float
    cap_height: float

    def has(self, character: str) -> bool:
        """Whether the face can print ``character``."""
        return ord(character) in self.font.widths or character == "\N{NO-BREAK SPACE}"


@cache
def face(name: str) -> Face:
    """The face called ``name``: ``sans`` or ``serif``, with ``-bold``, ``-italic`` or both."""
    found = font(*_FILES[name])
    return Face(
        name=name,
        font=found,
        ascent=found.ascent / 1000,
        descent=-found.descent / 1000,
        cap_height=found.cap_height / 1000,
    )


class WebFace(Record):
    """How a web page chooses a typeface, and the file that holds it."""

    family: str
    weight: int
    italic: bool
    file: str


@cache
def web_faces() -> tuple[WebFace, ...]:
    """All typefaces that a page may be set in."""
    found = []
    for package, file in _FILES.values():
        style = file.removesuffix(".ttf").partition("-")[2]
        weight = _WEIGHTS.get(style.removesuffix("Italic"), 400)
        found.append(WebFace(_FAMILIES[package], weight, style.endswith("Italic"), file))
    return tuple(found)


def web_face(font_name: str) -> WebFace:
    """The typeface whose ReportLab font is called ``font_name``."""
    return next(each for each in web_faces() if each.file == f"{font_name}.ttf")


def font_file(file: str) -> bytes:
    """The bytes of the file of a ``WebFace``; raises ``PatternError`` as ``font_bytes`` does."""
    package = next(package for package, name in _FILES.values() if name == file)
    return font_bytes(package, file)


def styled(name: str, bold: bool, italic: bool) -> str:
    """The name of the bold or italic brother of a face."""
    family, _, rest = name.partition("-")
    if bold or "bold" in rest:
        family += "-bold"
    return family + "-italic" if italic or "italic" in rest else family


def clean(text: str) -> str:
    """``text`` composed (NFC), with one kind of space and without invisible characters."""
    return _tidied(unicodedata.normalize("NFC", text))


def _tidied(text: str) -> str:
    return text.translate(_SPACES).translate(_INVISIBLE)


def covered(text: str, name: str) -> Iterator[tuple[str, str]]:
    """``text`` in pieces with the face that prints each: ``name`` or its stand-in.

    Characters neither can print stay with ``name``; ``refuse_missing`` finds them beforehand.
    """
    if text.isascii():
        yield text, name
        return
    own = face(name)
    if all(own.has(character) for character in text):
        yield text, name
        return
    family, dash, rest = name.partition("-")
    other = _STAND_INS[family] + dash + rest
    start = 0
    current = name
    for index, character in enumerate(text):
        wanted = other if not own.has(character) and face(other).has(character) else name
        if wanted != current:
            if index > start:
                yield text[start:index], current
            start, current = index, wanted
    yield text[start:], current


def refuse_missing(texts: Iterable[str]) -> None:
    """Raise ``PatternError`` (id ``font.glyph``) naming each character no face here can print."""
    said = list(texts)
    families = [face(name) for name in _STAND_INS]
    composed = set(unicodedata.normalize("NFC", "\n".join(said)))  # of which there are few
    lost = {
        character
        for character in set(_tidied("".join(composed))) - {"\N{ZERO WIDTH SPACE}"}
        if not any(one.has(character) for one in families)
    }
    if lost:
        first: dict[str, str] = {}
        for tidy in map(clean, said):
            for character in sorted(lost & set(tidy)):
                first.setdefault(character, tidy)
        raise PatternError(_lost(character, text) for character, text in first.items())


def _lost(character: str, text: str) -> Diagnostic:
    name = unicodedata.name(character, "unnamed character").lower()
    at = text.index(character)
    around = text[max(0, at - 20) : at + 20].strip()
    return Diagnostic(
        "font.glyph",
        f"no typeface here can print `{character}` (U+{ord(character):04X}, {name}) in `{around}`",
        "Replace the character, or draw it as a chart symbol",
    )


class Shaped(NamedTuple):
    """A measured word: its width in ems and the kerning after each character in 1/1000 em."""

    width: float
    kerns: tuple[int, ...] | None


@lru_cache(maxsize=16384)
def shape(word: str, name: str) -> Shaped:
    """Measure ``word`` in a face, with kerning."""
    return Shaped(*SHELF.get((word, name), lambda: _shaped(word, name)))


@cache
def _shaper(name: str) -> Any:
    import uharfbuzz  # type: ignore[import-untyped]

    return uharfbuzz.Font(uharfbuzz.Face(uharfbuzz.Blob(font_file(_FILES[name][1]))))


def _shaped(word: str, name: str) -> tuple[float, tuple[int, ...] | None]:
    own = face(name).font
    plain = [
        own.width(32 if character == "\N{NO-BREAK SPACE}" else ord(character)) for character in word
    ]
    if len(word) > 1:
        import uharfbuzz

        buffer = uharfbuzz.Buffer()
        buffer.add_str(word)
        buffer.guess_segment_properties()
        uharfbuzz.shape(
            _shaper(name), buffer, {"kern": True, "liga": False, "clig": False, "calt": False}
        )
        moves = buffer.glyph_positions
        if len(moves) == len(word):  # else the font composed letters: leave those unkerned
            kerns = tuple(
                round(move.x_advance * (1000 / own.units) - width)
                for move, width in zip(moves, plain, strict=True)
            )
            if any(kerns):
                return (sum(plain) + sum(kerns)) / 1000, kerns
    return sum(plain) / 1000, None
