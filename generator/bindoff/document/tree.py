"""The neutral document: a closed set of frozen nodes that every render understands.

Nothing here knows knitting. ``SizeValues`` is the one node that is not plain typography: a value
that differs from size to size. Print shows it as ``80 (88, 96)``; a render for the ear says it size
by size. ``texts`` gives all that is printed, ``dump`` the tree as plain data for tests.
"""

from collections.abc import Iterable, Iterator
from functools import cache
from typing import Any, Literal

from bindoff.diagnostics import Span
from bindoff.document.drawing import Drawing, Label
from bindoff.records import Record, names_of, replace
from bindoff.remembered import once_each


class Origin(Record):
    """Where in the designer's files the words of a node come from, or what asked for them.

    It is no part of what a document says: two nodes that differ only in it are equal.
    """

    span: Span

    def __eq__(self, other: object) -> bool:
        return other is None or isinstance(other, Origin)

    def __ne__(self, other: object) -> bool:
        return not self == other

    def __hash__(self) -> int:
        return hash(None)


# ---------------------------------------------------------------- inlines


class Text(Record):
    """Plain characters; ``language`` (BCP 47) is set where it is not that of the words around."""

    text: str
    language: str = ""


class Strong(Record):
    """Stressed text (bold in print)."""

    children: "Inlines"


class Emphasis(Record):
    """Lightly stressed text (italic in print)."""

    children: "Inlines"


class Link(Record):
    """A link; ``target`` is a URL, or ``#id`` of a heading, figure or table of this document."""

    children: "Inlines"
    target: str


class SizeValues(Record):
    """One value for each of the document's sizes, in order; ``"–"`` where a size has none."""

    values: tuple[str, ...]


class Ringed(Record):
    """Letters that tie words to places in a drawing, in rings as they are there."""

    letters: tuple[str, ...]


class LineBreak(Record):
    """A forced new line within a paragraph."""


class Field(Record):
    """A place to fill in or to tick. ``label`` says what belongs there, ``name`` is like no other
    in the document; ``width`` is about how many figures it has room for."""

    name: str
    label: str
    kind: Literal["text", "tick"] = "text"
    width: int = 12

    @property
    def said(self) -> str:
        """What stands for it where nothing can be filled in."""
        return "to tick" if self.kind == "tick" else "to fill in"


Inline = Text | Strong | Emphasis | Link | SizeValues | Ringed | LineBreak | Field
Inlines = tuple[Inline, ...]

# ---------------------------------------------------------------- blocks


class Heading(Record):
    """A heading, level 1 (document title) to 4; it is kept with the block that follows.

    Two hints to print: what stands under it may be set in two ``columns``, and takes the whole
    width of the page if it is ``wide``. ``language`` is the tag of its language (BCP 47) where it
    is not the document's. ``print_only`` as a paragraph. ``sizes`` are the indices of those sizes
    that all under it is for, none if it is for all.
    """

    level: Literal[1, 2, 3, 4]
    children: Inlines
    id: str = ""
    columns: bool = False
    language: str = ""
    print_only: bool = False
    origin: Origin | None = None
    wide: bool = False
    sizes: tuple[int, ...] = ()


class Paragraph(Record):
    """Running text. ``lead`` is the summary under the title, ``small`` the legal print; an
    ``aside`` says in a few words what the heading before it belongs to, and may stand on its line.

    ``language`` is the tag of its language (BCP 47) where it is not the document's. What is
    ``print_only`` tells how to look at the page: who listens is told the same by other words.
    """

    children: Inlines
    role: Literal["body", "lead", "small", "aside"] = "body"
    language: str = ""
    print_only: bool = False
    origin: Origin | None = None


class ListItem(Record):
    """One entry of a list; a drawing finds its words by its ``id``."""

    blocks: "Blocks"
    origin: Origin | None = None
    id: str = ""


class ItemList(Record):
    """A bulleted or numbered list; numbers run on from ``start``. It is ``close``, a hint to print,
    if its entries are short and begin with their own names."""

    items: tuple[ListItem, ...]
    ordered: bool = False
    start: int = 1
    origin: Origin | None = None
    close: bool = False


class Definition(Record):
    """A term and what it stands for, with a small drawing beside it where one helps; ``end`` is one
    at the end of an entry of a ``filling`` list. ``print_only`` as a paragraph. ``stop`` is the
    number of a counter at which the meaning is due.
    """

    term: Inlines
    meaning: Inlines
    mark: Drawing | None = None
    print_only: bool = False
    origin: Origin | None = None
    end: Drawing | None = None
    stop: int | None = None


class DefinitionList(Record):
    """Terms with meanings: materials, abbreviations, chart keys. ``columns`` is a hint to print; so
    is ``filling``: the list is as large as its page allows."""

    entries: tuple[Definition, ...]
    columns: Literal[1, 2, 3] = 1
    origin: Origin | None = None
    filling: bool = False


class Column(Record):
    """A table column. ``size`` is the index of the size whose figures it holds, if any."""

    heading: Inlines
    align: Literal["left", "right", "centre"] = "left"
    size: int | None = None
    weight: float = 1.0  # share of the width left over after narrow columns; a hint to print


class TableRow(Record):
    """One row: as many cells as the table has columns."""

    cells: tuple[Inlines, ...]
    origin: Origin | None = None


class Beside(Record):
    """A narrow figure for the side of a table, in print that has room there.

    Print leads a line from the drawing's right edge, at each of the heights ``leads`` in mm, to a
    row of the table, in turn.
    """

    figure: "Figure"
    leads: tuple[float, ...]


class Table(Record):
    """A data table. The first ``header_columns`` cells of a row name that row.

    ``groups`` are headings over neighbouring columns, as (heading, how many columns); when given,
    they cover all columns. ``tick`` is a hint to print: the rows are worked off one by one; and so
    is ``whole``: they are looked at together.
    """

    caption: Inlines
    columns: tuple[Column, ...]
    rows: tuple[TableRow, ...]
    header_columns: int = 1
    groups: tuple[tuple[Inlines, int], ...] = ()
    id: str = ""
    origin: Origin | None = None
    tick: bool = False
    beside: Beside | None = None
    whole: bool = False


class DrawnRow(Record):
    """A row of a chart on its drawing: its name, where it begins and how high it is in mm from the
    top, and the ids of the list items that tell it in words."""

    name: str
    top: float
    height: float
    said: tuple[str, ...]


class Figure(Record):
    """A drawing or a photograph with the words that replace it for a reader who cannot see it.

    ``picture`` is a drawing, or the bytes of a PNG or JPEG file. ``language`` is that of the words
    where it is not the document's. ``landscape`` wants a page on its side. ``rows`` are those of a
    chart that is worked from, the first one first: a screen may lay a ruler on them.
    """

    picture: Drawing | bytes
    alt: str
    caption: Inlines = ()
    id: str = ""
    language: str = ""
    origin: Origin | None = None
    landscape: bool = False
    rows: tuple[DrawnRow, ...] = ()


class Callout(Record):
    """A set-apart note. ``safety`` must not be missed; ``tip`` helps."""

    kind: Literal["safety", "note", "tip"]
    title: Inlines
    blocks: "Blocks"
    origin: Origin | None = None


class Cover(Record):
    """The opening block: title, one-line summary, byline, the facts a buyer looks for, and art.

    ``language`` is that of title and summary where it is not the document's.
    """

    title: str
    byline: Inlines
    lead: Inlines
    facts: DefinitionList
    art: Figure | None = None
    language: str = ""
    origin: Origin | None = None


class PageBreak(Record):
    """A hint that what follows should open a page where there are pages."""


Block = (
    Heading | Paragraph | ItemList | DefinitionList | Table | Figure | Callout | Cover | PageBreak
)
Blocks = tuple[Block, ...]


def interrupting(blocks: Iterable[Block]) -> Iterator[bool]:
    """For each block whether it explains the steps around it, which go on after it: what stands
    under a heading of level 3 that takes the whole width by itself."""
    inside = False
    for block in blocks:
        if isinstance(block, Heading) and block.level <= 3:
            inside = block.level == 3 and block.wide
        yield inside


def from_source(blocks: Iterable[Block], span: Span | None) -> Blocks:
    """``blocks`` as those that ``span`` asks for, where nothing says it more narrowly."""
    if span is None:
        return tuple(blocks)
    origin = Origin(span)
    return tuple(
        block
        if isinstance(block, PageBreak) or block.origin is not None
        else replace(block, origin=origin)
        for block in blocks
    )


class Document(Record):
    """A whole document. ``sizes`` are the size names that ``SizeValues`` and ``Column.size`` index.

    ``date`` is ISO 8601 and comes from the source, never from the clock. ``rights`` says whose it
    is; ``copy_for`` for whom this one copy was made, if for one reader.
    """

    title: str
    author: str
    language: str
    version: str
    date: str
    summary: str
    sizes: tuple[str, ...]
    blocks: Blocks
    keywords: tuple[str, ...] = ()
    rights: str = ""
    copy_for: str = ""


def plain(inlines: Inlines) -> str:
    """The characters of ``inlines`` as one string, size values in print form."""
    parts: list[str] = []
    for node in inlines:
        match node:
            case Text(text):
                parts.append(text)
            case Strong(children) | Emphasis(children) | Link(children, _):
                parts.append(plain(children))
            case SizeValues(values):
                parts.append(in_print(values))
            case Ringed(letters):
                parts.append(f"({', '.join(letters)})")
            case LineBreak():
                parts.append("\n")
            case Field():
                parts.append(node.said)
    return "".join(parts)


def in_print(values: tuple[str, ...]) -> str:
    """The trade's way to print one value per size: ``80 (88, 96)``, or ``80`` if all agree."""
    if len(set(values)) == 1:
        return values[0]
    return f"{values[0]} ({', '.join(values[1:])})"


@once_each
def texts(node: Any) -> tuple[str, ...]:
    """Every text at and under ``node`` that is set in type, lettering of drawings included."""
    found: list[str] = []
    _gather(node, found)
    return tuple(found)


NO_NODES = frozenset({str, int, float, bool, type(None)})
"""Kinds of values that are no part of the tree."""


def _gather(node: Any, found: list[str]) -> None:
    """Add the texts of a node to those that were found; the commonest kinds are tried first."""
    if isinstance(node, Text):
        found.append(node.text)
    elif isinstance(node, tuple):
        for item in node:
            if type(item) not in NO_NODES:
                _gather(item, found)
    elif isinstance(node, SizeValues):
        found += node.values
    elif isinstance(node, Ringed):
        found += node.letters
    elif isinstance(node, Drawing):
        found += [shape.text for shape in node.shapes if isinstance(shape, Label)]
    elif isinstance(node, Record):
        if isinstance(node, Document | Cover):
            found.append(node.title)
        if isinstance(node, Document):
            found += [node.author, node.version, node.copy_for]
        for name in _told(type(node)):
            value = getattr(node, name)
            if type(value) not in NO_NODES:
                _gather(value, found)


@cache
def _told(kind: type[Record]) -> tuple[str, ...]:
    """The fields of a node that may hold what is set in type."""
    return tuple(name for name in names_of(kind) if name != "origin")


def dump(node: Any) -> Any:
    """``node`` as plain lists, dicts and strings, each dict naming its node type; no places."""
    if isinstance(node, Record):
        places = {"origin"} | ({"cells"} if isinstance(node, Drawing) else set())
        return {"node": type(node).__name__} | {
            name: dump(getattr(node, name)) for name in names_of(node) if name not in places
        }
    if isinstance(node, tuple):
        return [dump(item) for item in node]
    if isinstance(node, bytes):
        return f"<{len(node)} bytes>"
    return node
