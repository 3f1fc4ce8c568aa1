"""The designer's own words, each text with its kind and a way back to its place."""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from bindoff.diagnostics import Span
from bindoff.files import Files
from bindoff.source.places import Lines
from bindoff.source.read import Source
from bindoff.source.yamltree import Path

HOLE = "\ufffc"
"""Stands in ``Prose.text`` for every character that is no word of the text."""

_HOLES = re.compile(
    r"\{\{.*?\}\}|\{%.*?%\}|\{#.*?#\}|(?<=\]\()[^)\s]*(?=\))|<?https?://\S+|\S+@\S+\.\w+",
    re.DOTALL,
)


class Kind(StrEnum):
    """What a text is for."""

    TITLE = "title"
    HEAD = "head"
    GAUGE = "gauge"
    MATERIAL = "material"
    STEP = "step"
    TEXT = "text"
    ALT = "alt"
    STITCH = "stitch"


@dataclass(frozen=True, slots=True)
class Prose:
    """One text as written.

    In ``text`` figures in double braces, links and addresses are holes of the same length, so that
    offsets hold and no check reads them as words. ``piece`` is the key of the piece it belongs to.
    """

    kind: Kind
    raw: str
    text: str
    piece: str | None
    path: Path
    place: Callable[[int, int], Span]

    @property
    def span(self) -> Span:
        """The place of the whole text."""
        return self.place(0, len(self.raw))

    def found(self, pattern: "re.Pattern[str]") -> Iterator[tuple["re.Match[str]", Span]]:
        """Every match of ``pattern``, with its place."""
        for match in pattern.finditer(self.text):
            yield match, self.place(*match.span())


# A star stands for any key or any place in a list.
_PATHS: tuple[tuple[Kind, tuple[str, ...]], ...] = (
    (Kind.TITLE, ("title",)),
    (Kind.HEAD, ("summary",)),
    (Kind.HEAD, ("skill",)),
    (Kind.TEXT, ("changes", "*", "note")),
    (Kind.ALT, ("photos", "*", "alt")),
    (Kind.TEXT, ("photos", "*", "caption")),
    (Kind.GAUGE, ("gauge", "worked")),
    (Kind.GAUGE, ("gauge", "tool")),
    (Kind.GAUGE, ("gauges", "*", "worked")),
    (Kind.GAUGE, ("gauges", "*", "tool")),
    (Kind.GAUGE, ("sizes", "*", "gauge", "worked")),
    (Kind.GAUGE, ("sizes", "*", "gauge", "tool")),
    (Kind.MATERIAL, ("tools", "*", "name")),
    (Kind.MATERIAL, ("tools", "*", "use")),
    (Kind.MATERIAL, ("notions", "*")),
    (Kind.TITLE, ("charts", "*", "title")),
    (Kind.ALT, ("charts", "*", "alt")),
    (Kind.STITCH, ("stitches", "*", "name")),
    (Kind.STITCH, ("stitches", "*", "how")),
    (Kind.TEXT, ("notes",)),
    (Kind.TITLE, ("pieces", "*", "title")),
    (Kind.TITLE, ("pieces", "*", "steps", "*", "section")),
    (Kind.STEP, ("pieces", "*", "steps", "*", "say")),
    (Kind.STEP, ("pieces", "*", "steps", "*", "how")),
    (Kind.STEP, ("pieces", "*", "steps", "*", "note")),
    (Kind.TEXT, ("finishing",)),
    (Kind.TEXT, ("care",)),
    (Kind.TEXT, ("licence",)),
)

_TEMPLATE_FOLDERS = ("notes", "safety", "techniques")


def prose_of(source: Source, files: Files) -> tuple[Prose, ...]:
    """Every text of the source, then the pattern's own templates.

    Raises:
        PatternError: when a template can't be read.
    """
    return (*_written(source), *_templates(files))


def _written(source: Source) -> Iterator[Prose]:
    for kind, pattern in _PATHS:
        for path in _matching(source.tree.data, pattern):
            raw = source.tree.text(path)
            piece = str(path[1]) if path[0] == "pieces" else None
            yield Prose(kind, raw, _holed(raw), piece, path, _placer(source, path))


def _placer(source: Source, path: Path) -> Callable[[int, int], Span]:
    def place(start: int, end: int) -> Span:
        return source.tree.place(path, start, end)

    return place


def _matching(data: Any, pattern: tuple[str, ...]) -> Iterator[Path]:
    """Paths of the texts that ``pattern`` names, as far as they are there."""
    if not pattern:
        if isinstance(data, str | int | float):
            yield ()
        return
    first, rest = pattern[0], pattern[1:]
    if isinstance(data, dict):
        keys = list(data) if first == "*" else [key for key in data if key == first]
        for key in keys:
            yield from ((key, *inner) for inner in _matching(data[key], rest))
    elif isinstance(data, list) and first == "*":
        for index, value in enumerate(data):
            yield from ((index, *inner) for inner in _matching(value, rest))


def _templates(files: Files) -> Iterator[Prose]:
    for folder in _TEMPLATE_FOLDERS:
        for name in files.list_dir(f"templates/{folder}"):
            if name.endswith(".md"):
                template = files.template(f"{folder}/{name}")
                lines = Lines.of(template.text, template.file)
                text = _holed(template.text)
                yield Prose(Kind.TEXT, template.text, text, None, (), lines.span)


def _holed(raw: str) -> str:
    return _HOLES.sub(lambda found: HOLE * len(found[0]), raw)
