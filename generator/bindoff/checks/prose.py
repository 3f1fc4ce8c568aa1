"""The designer's own words, each text with its kind and a way back to its place."""

from collections.abc import Callable, Iterator
from functools import lru_cache

from bindoff import regex as re
from bindoff.diagnostics import Span
from bindoff.files import Files
from bindoff.records import Record
from bindoff.source.model import TextUse
from bindoff.source.places import Lines
from bindoff.source.read import Source
from bindoff.source.texts import texts
from bindoff.source.yamltree import Path

HOLE = "\ufffc"
"""Stands in ``Prose.text`` for every character that is no word of the text."""

# No part can begin anew at every character of another's failure, so a text of any kind takes a
# time that grows as its length does.
_HOLES = re.compile(
    r"\{\{[^{}]*?\}\}|\{%[^{}]*?%\}|\{#[^{}]*?#\}|(?<=\]\()[^)\s]{0,2000}+(?=\))|<?https?://\S+"
    r"|(?<![^\s@])[^\s@]++@[^\s@]*\.\w+"
)


class Prose(Record):
    """One text as written.

    In ``text`` figures in double braces, links and addresses are holes of the same length, so that
    offsets hold and no check reads them as words. ``piece`` is the key of the piece it belongs to.
    """

    kind: TextUse
    raw: str
    text: str
    piece: str | None
    path: Path
    place: Callable[[int, int], Span]

    @property
    def span(self) -> Span:
        """The place of the whole text."""
        return self.place(0, len(self.raw))

    def has(self, pattern: "re.Pattern[str]") -> bool:
        """Whether ``pattern`` is anywhere in it; each sentence of it may ask."""
        return _has(pattern, self.text)

    def found(self, pattern: "re.Pattern[str]") -> Iterator[tuple["re.Match[str]", Span]]:
        """Every match of ``pattern``, with its place."""
        for match in matches(pattern, self.text):
            yield match, self.place(*match.span())


@lru_cache(
    maxsize=1 << 12
)  # of the texts that are read again after an edit nearly all are the same
def matches(pattern: "re.Pattern[str]", text: str) -> tuple["re.Match[str]", ...]:
    """Every match of ``pattern`` in ``text``."""
    return tuple(pattern.finditer(text))


@lru_cache(maxsize=1 << 10)
def _has(pattern: "re.Pattern[str]", text: str) -> bool:
    return pattern.search(text) is not None


_TEMPLATE_FOLDERS = ("notes", "safety", "techniques")


def prose_of(source: Source, files: Files) -> tuple[Prose, ...]:
    """Every text of the source, then the pattern's own templates.

    Raises:
        PatternError: when a template can't be read.
    """
    return (*_written(source), *_templates(files))


def _written(source: Source) -> Iterator[Prose]:
    for text in texts(source.pattern):
        raw, path = text.place.text, text.path
        piece = str(path[1]) if path[0] == "pieces" else None
        yield Prose(text.use, raw, _holed(raw), piece, path, text.place.part)


def _templates(files: Files) -> Iterator[Prose]:
    for folder in _TEMPLATE_FOLDERS:
        for name in files.list_dir(f"templates/{folder}"):
            if name.endswith(".md"):
                template = files.template(f"{folder}/{name}")
                lines = Lines.of(template.text, template.file)
                text = _holed(template.text)
                yield Prose(TextUse.TEXT, template.text, text, None, (), lines.span)


def _holed(raw: str) -> str:
    return _HOLES.sub(lambda found: HOLE * len(found[0]), raw)
