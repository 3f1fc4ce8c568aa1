"""The names in ``{{ }}`` are filled in, each value as one stand-in character.

What a text becomes with the same values is kept for the next run: most of what a pattern prints
stays as it was when some of it changes.
"""

from collections.abc import Mapping
from hashlib import sha256
from typing import get_args

from bindoff.diagnostics import Span, fail
from bindoff.document.standins import refuse_odd_characters, stand_in
from bindoff.document.tree import Inline, Inlines, Text
from bindoff.kept import Shelf
from bindoff.records import Record

_INLINES = get_args(Inline)

SHELF: Shelf[tuple[str, ...]] = Shelf(
    __file__,
    1000,
    libraries=("jinja2", "markupsafe"),
    sources=("document/braces.py", "document/standins.py", "english.py"),
)
"""The names that a text asks for; and, of a text with its values, the text that is printed and what
its further stand-ins stand for."""


class Filled(Record):
    """Markdown with stand-ins, those of ``standins.stand_in(i)`` for ``slots[i]``."""

    text: str
    slots: tuple[Inlines, ...]


def fill(markdown: str, values: Mapping[str, object], span: Span | None) -> Filled:
    """``markdown`` with the ``values`` of its names.

    A value is text, a number, a tree node, a tuple of tree nodes, or a list or mapping of these.
    ``yes``/``no`` values serve conditions only. Raises ``PatternError`` on a name that is not in
    ``values``, on a syntax error, and on anything but names, conditions and loops.
    """
    refuse_odd_characters(markdown, markdown, span)

    def names() -> tuple[str, ...]:
        from bindoff.document.braces import names_in

        return names_in(markdown, values, span)

    slots = _Slots(span)
    asked = SHELF.get(_key("names", markdown), names)
    known = {name: slots.prepared(values[name]) for name in asked if name in values}
    taken = len(slots.inlines)

    def printed() -> tuple[str, ...]:
        from bindoff.document.braces import printed

        text, texts = printed(markdown, known, taken, values, span)
        return text, *texts

    text, *texts = SHELF.get(_key("text", markdown, repr(known), str(taken)), printed)
    return Filled(text, (*slots.inlines, *((Text(each),) for each in texts)))


def _key(*parts: str) -> bytes:
    """A digest of all parts, which may be long."""
    return sha256(repr(parts).encode()).digest()


class _Slots:
    """Gathers the values of one filling; equal values share a stand-in."""

    def __init__(self, span: Span | None) -> None:
        self._span = span
        self._index: dict[Inlines, int] = {}
        self.inlines: list[Inlines] = []

    def _stand_in(self, value: Inlines) -> str:
        at = self._index.setdefault(value, len(self.inlines))
        if at == len(self.inlines):
            self.inlines.append(value)
        try:
            return stand_in(at)
        except ValueError:
            raise fail(
                "prose.braces",
                "the text prints too many different values",
                "Split the text",
                self._span,
            ) from None

    def prepared(self, value: object) -> object:
        """``value`` as data without any behaviour: text, numbers, dicts and lists."""
        if value is None or isinstance(value, str | int | float):
            return value
        if isinstance(value, _INLINES):
            return self._stand_in((value,))
        if isinstance(value, Mapping):
            return {str(key): self.prepared(each) for key, each in value.items()}
        if isinstance(value, tuple) and value and all(isinstance(each, _INLINES) for each in value):
            return self._stand_in(value)
        if isinstance(value, list | tuple):
            return [self.prepared(each) for each in value]
        raise TypeError(f"prose has no use for a value of type {type(value).__name__}")
