"""What no page can show, and where it stands in the source: signs and photographs.

The PDF refuses both, but knows only the document; here they are traced back to the designer's file.
"""

import unicodedata
from collections.abc import Callable, Iterator, Sequence
from functools import partial

from bindoff.diagnostics import Diagnostic, PatternError, Severity, Span
from bindoff.document.tree import Document, texts
from bindoff.document.units import length
from bindoff.files import Files
from bindoff.records import replace
from bindoff.source.read import Source
from bindoff.source.yamltree import Path, Place

Find = Callable[[str], Span]
"""The place of a sign in a text."""

USUAL = frozenset(
    [chr(code) for code in range(0x20, 0x180) if not 0x7F <= code < 0xA0] + list("‘’“”–—…×½¼¾•−")
)
"""Signs that the typefaces are known to have: for these alone they need not be loaded."""

MOST_NAMED = 4
"""So many signs of one text are named; the rest are counted."""

_NEVER_PRINTED = ("grid", "file", "legend", "language", "colour")
_PRINTED_KEYS: tuple[Path, ...] = (("sizes",), ("finished",))

SIGN_HELP = (
    "Write it in Latin, Greek or Cyrillic letters; a picture can stand in a chart or a photograph"
)


def unprintable(source: Source, document: Document, files: Files) -> tuple[Diagnostic, ...]:
    """An error for each text with signs that no typeface has, and for each unreadable photograph; a
    note for each that is not sharp as it is printed.

    Raises:
        PatternError: when a template of the pattern's own can't be read.
    """
    signs, broken = tuple(_signs(source, document, files)), tuple(_broken(source))
    return (*signs, *broken) if signs or broken else tuple(_soft(source, document))


# ---------------------------------------------------------------- signs


def _signs(source: Source, document: Document, files: Files) -> Iterator[Diagnostic]:
    unusual = set(unicodedata.normalize("NFC", "\n".join(texts(document)))) - USUAL - {"\n"}
    lost = {sign for sign in unusual if _is_lost(sign)}
    if not lost:
        return
    placed = set[str]()
    for text, span in _written(source, files):
        signs = [sign for sign in dict.fromkeys(unicodedata.normalize("NFC", text)) if sign in lost]
        if signs:
            placed.update(signs)
            yield _sign_error(signs, _around(text, signs[0]), span(signs[0]))
    rest = sorted(lost - placed)  # such as letters that a change of case makes
    if rest:
        yield _sign_error(rest, "", None)


def _is_lost(sign: str) -> bool:
    from bindoff.render.pdf.fonts import refuse_missing

    try:
        refuse_missing([sign])
    except PatternError:
        return True
    return False


def _sign_error(signs: Sequence[str], around: str, span: Span | None) -> Diagnostic:
    named = [_named(sign) for sign in signs[:MOST_NAMED]]
    more = f" and {len(signs) - MOST_NAMED} more" if len(signs) > MOST_NAMED else ""
    where = f" in `{around}`" if around else ""
    return Diagnostic(
        "font.glyph",
        f"no typeface here can print {', '.join(named)}{more}{where}",
        SIGN_HELP,
        span,
    )


def _named(sign: str) -> str:
    """The sign, unless it is one that is not seen or disturbs the line, with its code and name."""
    told = f"U+{ord(sign):04X}, {unicodedata.name(sign, 'unnamed character').lower()}"
    return f"`{sign}` ({told})" if sign.isprintable() else f"({told})"


def _around(text: str, sign: str) -> str:
    """A few words of the text on both sides of the sign."""
    flat = " ".join(unicodedata.normalize("NFC", text).split())
    at = flat.find(sign)
    near = flat[max(0, at - 20) : at + 20].strip()
    return "".join(each if each.isprintable() else "…" for each in near)


def _written(source: Source, files: Files) -> Iterator[tuple[str, Find]]:
    """Every text that may be printed, with a function that gives the place of a sign in it."""
    from bindoff.checks.prose import prose_of

    yield from _texts_of(source.pattern.place, ())
    for prose in prose_of(source, files):
        if not prose.path:  # a template of the pattern's own
            yield prose.raw, _find_in(prose.raw, prose.place)


def _texts_of(place: Place, path: Path) -> Iterator[tuple[str, Find]]:
    if place.node.text is not None:
        yield place.text, _find_in(place.text, place.part)
    for key in place.node.children:
        inner = place.of(key)
        if path in _PRINTED_KEYS:
            yield str(key), partial(_whole, inner.key_span)
        if key not in _NEVER_PRINTED:
            yield from _texts_of(inner, (*path, key))


def _whole(span: Span, _: str) -> Span:
    return span


def _find_in(text: str, place: Callable[[int, int], Span]) -> Find:
    def find(sign: str) -> Span:
        forms = (sign, unicodedata.normalize("NFD", sign))
        start, form = next(((at, f) for f in forms if (at := text.find(f)) >= 0), (0, text))
        return place(start, start + len(form))

    return find


# ---------------------------------------------------------------- photographs

_SHARP_PPI = 200
"""Pixels to the inch of print; common practice, no source."""

_SHARP_ANYWHERE = 1_700
"""Pixels across that are sharp over the whole width of a page: 210 mm are 8.3 in."""


def _broken(source: Source) -> Iterator[Diagnostic]:
    """An error for each photograph that can't be opened."""
    for photo, data in zip(source.pattern.photos, source.photos, strict=True):
        from bindoff.render.pdf.drawing import photo_size

        try:
            photo_size(data)
        except PatternError as error:
            for each in error.findings:
                message = each.message.replace("a photograph", f"the photograph `{photo.file}`", 1)
                yield replace(each, message=message, span=photo.place.of("file").span)


def _soft(source: Source, document: Document) -> Iterator[Diagnostic]:
    """A note for each photograph that is printed too large for its pixels."""
    if not source.photos:
        return
    from bindoff.render.pdf.drawing import photo_size

    if all(photo_size(data)[0] >= _SHARP_ANYWHERE for data in source.photos):
        return
    from bindoff.render.pdf import PdfOptions
    from bindoff.render.pdf.photographs import printed_photos

    shown = printed_photos(document, PdfOptions())
    units = source.pattern.units
    for photo, printed in zip(source.pattern.photos, shown, strict=True):
        if printed.ppi < _SHARP_PPI:
            across, down = printed.pixels
            wide, high = length(printed.width, units), length(printed.height, units)
            yield Diagnostic(
                "pdf.photo-soft",
                f"the photograph `{photo.file}` has {across} × {down} pixels and is printed {wide} "
                f"wide and {high} high on A4: {printed.ppi:.0f} pixels to the inch, where "
                f"print is sharp from {_SHARP_PPI} on",
                f"Save it larger from the camera's own file, {_SHARP_ANYWHERE:,} pixels across if "
                "you can; enlarging this one adds nothing",
                photo.place.of("file").span,
                Severity.NOTE,
            )
