"""Characters that stand for values while a text is read as Markdown.

They are private-use characters. Markdown carries them through as it does letters, so a value is
never read as markup, and a value per size can take its place in the tree afterwards.
"""

from bindoff import regex as re
from bindoff.diagnostics import Span, fail

_FIRST, _LAST = 0xF0000, 0xFFFFD
STAND_IN = re.compile("[\U000f0000-\U000ffffd]")
SURROGATE = "[\ud800-\udfff]"


def stand_in(number: int) -> str:
    """The character that stands for the value of that number, from 0; raises ``ValueError`` where
    there are no more."""
    if number > _LAST - _FIRST:
        raise ValueError("too many values")
    return chr(_FIRST + number)


def number_of(character: str) -> int:
    """The number of the value that a character stands for."""
    return ord(character) - _FIRST


def refuse_odd_characters(text: str, markdown: str, span: Span | None) -> None:
    """Raise ``PatternError`` if ``text`` has half a character or one kept for stand-ins."""
    if found := re.search(f"{STAND_IN.pattern}|{SURROGATE}", text):
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
