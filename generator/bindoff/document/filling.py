"""The names in ``{{ }}`` are filled in, each value as one stand-in character.

The stand-ins are private-use characters. Markdown carries them through as it does letters, so a
value is never read as markup, and a value per size can take its place in the tree afterwards.

The text may print names, loop over lists and choose by conditions; it cannot calculate, call or
define anything. So a text always ends, its length is bounded, and every number in a document is
one that the plan made.
"""

from collections.abc import Iterable, Mapping
from functools import lru_cache, partial
from typing import get_args

from bindoff import regex as re
from bindoff.diagnostics import PatternError, Span, closest, fail
from bindoff.document.printing import Missing, Part, Printing, RefusedError, UnknownError
from bindoff.document.tree import Inline, Inlines, Text
from bindoff.kept import Shelf
from bindoff.records import Changing, Record, field

FIRST_STAND_IN = 0xF0000
LAST_STAND_IN = 0xFFFFD
STAND_IN = re.compile("[\U000f0000-\U000ffffd]")
_SURROGATE = "[\ud800-\udfff]"
LENGTH_LIMIT = 20_000


class Filled(Record):
    """Markdown with stand-ins; ``chr(FIRST_STAND_IN + i)`` stands for ``slots[i]``."""

    text: str
    slots: tuple[Inlines, ...]


def fill(markdown: str, values: Mapping[str, object], span: Span | None) -> Filled:
    """``markdown`` with the ``values`` of its names.

    A value is text, a number, a tree node, a tuple of tree nodes, or a list or mapping of these.
    ``yes``/``no`` values serve conditions only. Raises ``PatternError`` on a name that is not in
    ``values``, on a syntax error, and on anything but names, conditions and loops.
    """
    refuse_odd_characters(markdown, markdown, span)
    slots = _Slots(span)
    try:
        parts, names = _read(markdown)
        known = {name: slots.prepared(values[name]) for name in names if name in values}
        return Filled(_printed(parts, known, slots), tuple(slots.inlines))
    except UnknownError as error:
        raise _unknown(error, values, markdown, span) from None
    except RefusedError as error:
        where = _in_braces(markdown, span, error.line, error.excerpt)
        raise fail("prose.braces", error.message, error.help, where) from None


def _printed(parts: tuple[Part, ...], values: Mapping[str, object], slots: "_Slots") -> str:
    """The text, part by part so that its length is bounded."""
    said: list[str] = []
    length = 0
    printing = Printing(slots.printed)
    try:
        for part in printing.parts(parts, values):
            said.append(part)
            length += len(part)
            if length > LENGTH_LIMIT:
                raise RefusedError(
                    f"the text grows beyond {LENGTH_LIMIT:,} characters", "shorten its loops"
                )
    except TypeError as error:
        raise RefusedError(
            f"a value is used in a way it does not allow: {error}",
            "loop over lists only, and compare values of one kind",
            printing.line,
        ) from None
    except RefusedError as error:
        error.line = error.line or printing.line
        raise
    return "".join(said)


def refuse_odd_characters(text: str, markdown: str, span: Span | None) -> None:
    """Raise ``PatternError`` if ``text`` has half a character or one kept for stand-ins."""
    if found := re.search(f"{STAND_IN.pattern}|{_SURROGATE}", text):
        line = text.count("\n", 0, found.start()) + 1
        start = found.start() - text.rfind("\n", 0, found.start()) - 1
        raise fail(
            "prose.character",
            f"the text has the character U+{ord(found[0]):X}, which stands for nothing",
            "Remove the character",
            place(markdown, span, line, start, start + 1),
        )


def place(
    markdown: str, span: Span | None, line: int, start: int = 0, end: int | None = None
) -> Span | None:
    """The place of the characters ``start`` to ``end`` in line ``line`` (from 1) of ``markdown``.

    A ``span`` of several lines is taken to begin with the text's first line, all equally deep.
    Where the lines of ``span`` and ``markdown`` cannot be matched, the place is ``span`` itself.
    """
    lines = markdown.split("\n")
    if span is None or not 1 <= line <= len(lines):
        return span
    end = len(lines[line - 1]) if end is None else end
    if span.line == span.end_line:
        fits = len(lines) == 1 and end <= span.end_column - span.column
        return span.inside(start, end) if fits else span
    row = min(span.line + line - 1, span.end_line)
    return Span(span.file, row, span.column + start, row, span.column + max(end, start + 1))


def _in_braces(markdown: str, span: Span | None, line: int, excerpt: str) -> Span | None:
    """The place of ``excerpt`` where it stands in braces in that line, or of the whole line."""
    text = markdown.split("\n")[line - 1] if 1 <= line <= markdown.count("\n") + 1 else ""
    found = re.search(rf"(?<!\\)\{{[{{%][^{{}}]*?({re.escape(excerpt)})(?!\w)", text)
    if excerpt == "{":
        found = re.search(r"(?<!\\)(\{[{%#].*?([}%#]\}|$))", text)
    return place(markdown, span, line, *(found.span(1) if found else ()))


def suggestion(name: str, known: Iterable[str]) -> str:
    """What to write instead of ``name``: the nearest known name, and what else there is."""
    names = sorted(known)
    near = closest(name, names)
    listed = ", ".join(f"`{each}`" for each in names[:20])
    more = f" and {len(names) - 20} more" if len(names) > 20 else ""
    exist = f"the names here are {listed}{more}" if names else "there are no names here"
    return f"Write `{near}`; {exist}" if near else f"{exist[0].upper()}{exist[1:]}"


class _Slots(Changing):
    """Gathers the values of one filling; equal values share a stand-in."""

    span: Span | None
    inlines: list[Inlines] = field(default_factory=list)
    index: dict[Inlines, int] = field(default_factory=dict)

    def stand_in(self, value: Inlines) -> str:
        at = self.index.setdefault(value, len(self.inlines))
        if at == len(self.inlines):
            if FIRST_STAND_IN + at > LAST_STAND_IN:
                raise fail(
                    "prose.braces",
                    "the text prints too many different values",
                    "Split the text",
                    self.span,
                )
            self.inlines.append(value)
        return chr(FIRST_STAND_IN + at)

    def prepared(self, value: object) -> object:
        """``value`` as data without any behaviour: text, numbers, dicts and lists."""
        if value is None or isinstance(value, str | int | float):
            return value
        if isinstance(value, get_args(Inline)):
            return self.stand_in((value,))
        if isinstance(value, Mapping):
            return {str(key): self.prepared(each) for key, each in value.items()}
        if (
            isinstance(value, tuple)
            and value
            and all(isinstance(v, get_args(Inline)) for v in value)
        ):
            return self.stand_in(value)
        if isinstance(value, list | tuple):
            return [self.prepared(each) for each in value]
        raise TypeError(f"prose has no use for a value of type {type(value).__name__}")

    def printed(self, value: object) -> str:
        """The stand-ins for what ``{{ }}`` prints."""
        match value:
            case Missing():
                return str(value)  # raises with the name
            case bool() | None:
                word = {True: "yes", False: "no", None: "nothing"}[value]
                raise RefusedError(
                    f"the text prints a value that is only `{word}`",
                    "ask for it in a condition: `{% if name %} … {% endif %}`",
                )
            case str() if re.search(_SURROGATE, value):
                raise RefusedError("a value holds half a character", "Write the value anew")
            case str():
                return "".join(
                    part if STAND_IN.match(part) else self.stand_in((Text(part),))
                    for part in re.split(f"({STAND_IN.pattern})", re.sub(r"\s*\n\s*", " ", value))
                    if part
                )
            case int() | float():
                return self.stand_in((Text(format(value, ".10g")),))
            case []:
                return ""
            case list():
                raise RefusedError(
                    "the text prints a list as if it were one value",
                    "join it: `{{ name | join(', ') }}`, or loop over it",
                )
            case dict():
                raise RefusedError(
                    "the text prints a group of values as if it were one",
                    "name one of its parts: " + ", ".join(f"`{key}`" for key in sorted(value)),
                )
            case _:
                raise RefusedError("the text prints what is not a value", "print a name's value")


SHELF: Shelf[tuple[tuple[Part, ...], tuple[str, ...]]] = Shelf(
    __file__, 400, libraries=("jinja2",), sources=("document/braces.py",)
)
"""The parts of texts and the names they ask for: of the standing ones, and those of the patterns at
hand."""


@lru_cache(maxsize=512)
def _read(markdown: str) -> tuple[tuple[Part, ...], tuple[str, ...]]:
    """The parts of the text and the names it asks for. One text is printed for many editions."""
    return SHELF.get(markdown, partial(_new, markdown))


def _new(markdown: str) -> tuple[tuple[Part, ...], tuple[str, ...]]:
    from bindoff.document.braces import read

    return read(markdown)


def _unknown(
    error: UnknownError, values: Mapping[str, object], markdown: str, span: Span | None
) -> PatternError:
    where = _in_braces(markdown, span, error.line, error.name)
    if error.owner is None:
        return fail(
            "prose.name",
            f"there is no value named `{error.name}`",
            suggestion(error.name, values),
            where,
        )
    parts = error.owner if isinstance(error.owner, dict) else ()
    return fail(
        "prose.name",
        f"this value has no part named `{error.name}`",
        suggestion(error.name, parts) if parts else "Print the value by its name alone",
        where,
    )
