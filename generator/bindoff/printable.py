"""What no page can show, and where it stands in the source: signs and photographs.

The PDF refuses both, but knows only the document; here they are traced back to the designer's file.
"""

import unicodedata
from collections.abc import Callable, Iterator, Sequence
from functools import partial

from bindoff.diagnostics import Diagnostic, PatternError, Severity, Span
from bindoff.document.tree import Document, texts
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
    """An error for each text with signs that no typeface has, and for each unreadable photograph.

    Raises:
        PatternError: when a template of the pattern's own can't be read.
    """
    return (*_signs(source, document, files), *_photographs(source))


# ---------------------------------------------------------------- signs


def _signs(source: Source, document: Document, files: Files) -> Iterator[Diagnostic]:
    printed = (unicodedata.normalize("NFC", text) for text in texts(document))
    unusual = {sign for text in printed for sign in text} - USUAL
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


def _photographs(source: Source) -> Iterator[Diagnostic]:
    for index, (photo, data) in enumerate(zip(source.pattern.photos, source.photos, strict=True)):
        from bindoff.render.pdf.figures import printed_ppi

        place = photo.place.of("file").span
        try:
            ppi = printed_ppi(data, cover=index == 0)
            if ppi < _SHARP_PPI:
                yield Diagnostic(
                    "pdf.photo-soft",
                    f"the photograph `{photo.file}` has {ppi:.0f} pixels to the inch as it is "
                    f"printed, and is sharp from {_SHARP_PPI} on",
                    "Save it larger from the camera's own file; enlarging this one adds nothing",
                    place,
                    Severity.NOTE,
                )
        except PatternError as error:
            for each in error.findings:
                message = each.message.replace("a photograph", f"the photograph `{photo.file}`", 1)
                yield replace(each, message=message, span=place)
