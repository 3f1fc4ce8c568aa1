"""The blocks of a document as elements of HTML that are well-formed XML too.

Headings, lists and tables are what they are in HTML. A figure that differs between sizes is printed
as the trade does, each with the name of its size before it for who listens; ``data-size`` says on
every part of one size alone which it is, so that a page can show that size only.
"""

import json
import xml.etree.ElementTree as ET
from collections.abc import Callable, Iterable, Iterator, Mapping
from itertools import accumulate
from types import MappingProxyType

from bindoff.document.drawing import Drawing
from bindoff.document.tree import (
    Block,
    Blocks,
    Callout,
    Column,
    Cover,
    Definition,
    DefinitionList,
    Emphasis,
    Field,
    Figure,
    Heading,
    Inlines,
    ItemList,
    LineBreak,
    Link,
    ListItem,
    PageBreak,
    Paragraph,
    Ringed,
    SizeValues,
    Strong,
    Table,
    Text,
    plain,
)
from bindoff.records import Record
from bindoff.render.svg import inline_svg

Kid = ET.Element | str

_NONE = "–"
_CALLOUTS: Mapping[str, str] = MappingProxyType({"safety": "Safety", "note": "Note", "tip": "Tip"})


def element(tag: str, attributes: Mapping[str, str] | None = None, *kids: Kid) -> ET.Element:
    """An element with its children, of which texts are some; empty attributes are left out."""
    made = ET.Element(tag, {name: value for name, value in (attributes or {}).items() if value})
    last: ET.Element | None = None
    for kid in kids:
        if isinstance(kid, ET.Element):
            made.append(kid)
            last = kid
        elif last is None:
            made.text = (made.text or "") + kid
        else:
            last.tail = (last.tail or "") + kid
    return made


class Markup(Record):
    """Makes the elements of a document for ``sizes``.

    ``source`` gives the address of a photograph; ``lang`` is the name of the attribute for a
    language; ``down`` is how many levels headings are lowered.
    """

    sizes: tuple[str, ...]
    source: Callable[[bytes], str]
    lang: str = "lang"
    down: int = 0

    def blocks(self, blocks: Blocks) -> Iterator[ET.Element]:
        """The elements of all blocks; what only pages of paper have is left out.

        What is for some sizes alone is in an element with their places as ``data-sizes``.
        """
        within: ET.Element | None = None
        level = 0
        for block in blocks:
            if isinstance(block, Heading) and (within is None or block.level <= level):
                if within is not None:
                    yield within
                within, level = None, block.level
                if block.sizes:
                    places = " ".join(map(str, block.sizes))
                    within = element("div", {"data-sizes": places})
            if within is None:
                yield from self._block(block)
            else:
                within.extend(self._block(block))
        if within is not None:
            yield within

    def _block(self, block: Block) -> Iterator[ET.Element]:
        match block:
            case Heading(level, children):
                tag = f"h{min(6, level + self.down)}"
                names = {"id": block.id, **self._language(block.language)}
                yield element(tag, names, *self.inlines(children))
            case Paragraph(children, role):
                look = {"body": "", "aside": "", "lead": "lead", "small": "small"}[role]
                names = {"class": look, "data-not": _not_for(children)}
                yield element(
                    "p", {**names, **self._language(block.language)}, *self.inlines(children)
                )
            case ItemList():
                yield self._list(block)
            case DefinitionList(entries):
                yield element("dl", {}, *(self._entry(entry) for entry in entries))
            case Table():
                yield self._table(block)
            case Figure():
                yield self._figure(block)
            case Callout(kind, title, inner):
                label = f"{_CALLOUTS[kind]}: " if title else _CALLOUTS[kind]
                head = element("p", {"class": "title"}, label, *self.inlines(title))
                names = {"class": f"callout {kind}", "role": "note"}
                yield element("div", names, head, *self.blocks(inner))
            case Cover():
                yield self._cover(block)
            case PageBreak():
                return

    # ------------------------------------------------------------ blocks

    def _cover(self, cover: Cover) -> ET.Element:
        own = self._language(cover.language)
        art = [self._figure(cover.art, "art")] if cover.art else []
        return element(
            "header",
            {"class": "cover"},
            element(f"h{1 + self.down}", own, cover.title),
            element("p", {"class": "byline"}, *self.inlines(cover.byline)),
            element("p", {"class": "lead", **own}, *self.inlines(cover.lead)),
            *art,
            *self.blocks((cover.facts,)),
        )

    def _list(self, block: ItemList) -> ET.Element:
        start = str(block.start) if block.ordered and block.start != 1 else ""
        items = (self._item(item) for item in block.items)
        return element("ol" if block.ordered else "ul", {"start": start}, *items)

    def _item(self, item: ListItem) -> ET.Element:
        return element("li", {"id": item.id}, *self.blocks(item.blocks))

    def _entry(self, entry: Definition) -> ET.Element:
        mark = [inline_svg(entry.mark, "")] if entry.mark else []
        gap = [" "] if mark else []
        stop = "" if entry.stop is None else str(entry.stop)
        term = element("dt", {}, *mark, *gap, *self.inlines(entry.term))
        end: list[Kid] = [" ", inline_svg(entry.end, "", paper=False)] if entry.end else []
        meaning = element(
            "dd", {"data-not": _not_for(entry.meaning)}, *self.inlines(entry.meaning), *end
        )
        return element("div", {"data-stop": stop}, term, meaning)

    def _figure(self, figure: Figure, look: str = "") -> ET.Element:
        caption = [element("figcaption", {}, *self.inlines(figure.caption))]
        if isinstance(figure.picture, Drawing):
            rows = [[row.name, row.top, row.height, row.said] for row in figure.rows]
            inner = inline_svg(figure.picture, figure.alt)
            names = {"class": look or f"drawing w{width_class(figure.picture)}"}
            if rows:
                told = json.dumps(rows, ensure_ascii=False, separators=(",", ":"))
                names["data-rows"] = told
        else:
            inner = element("img", {"src": self.source(figure.picture)})
            inner.set("alt", figure.alt)
            names = {"class": look or "photo"}
        own = self._language(figure.language)
        holds = element("div", {"class": "view"}, inner)
        return element(
            "figure", {"id": figure.id, **names, **own}, holds, *(caption if figure.caption else [])
        )

    def _table(self, table: Table) -> ET.Element:
        head = []
        if table.groups:
            cells, at = [], 0
            for heading, count in table.groups:
                span = {"colspan": str(count) if count > 1 else "", "scope": "colgroup"}
                sizes = {column.size for column in table.columns[at : at + count]}
                one = {"data-size": str(*sizes)} if len(sizes) == 1 and None not in sizes else {}
                at += count
                told = self.inlines(heading)
                cells.append(
                    element("th" if told else "td", {**span, **one} if told else {}, *told)
                )
            head.append(element("tr", {}, *cells))
        opening = set(accumulate(count for _, count in table.groups[:-1]))  # a group of columns
        titles = (
            self._cell(column, column.heading, "col", at in opening)
            for at, column in enumerate(table.columns)
        )
        head.append(element("tr", {}, *titles))
        body = [
            element(
                "tr",
                {},
                *(
                    self._cell(
                        column, cell, "row" if at < table.header_columns else "", at in opening
                    )
                    for at, (column, cell) in enumerate(zip(table.columns, row.cells, strict=True))
                ),
            )
            for row in table.rows
        ]
        said = element("span", {}, *self.inlines(table.caption))
        caption = [element("caption", {}, said)] if table.caption else []
        made = element(
            "table",
            {"id": table.id, "class": "ticked" if table.tick else ""},
            *caption,
            element("thead", {}, *head),
            element("tbody", {}, *body),
        )
        return element("div", {"class": "view wide"}, made)

    def _cell(self, column: Column, cell: Inlines, scope: str, first: bool) -> ET.Element:
        size = "" if column.size is None else str(column.size)
        looks = [column.align] * (column.align != "left") + ["first"] * first
        names = {"data-size": size, "class": " ".join(looks)}
        told = self.inlines(cell)
        if scope and told:
            return element("th", {"scope": scope, **names}, *told)
        return element("td", names, *told)

    # ------------------------------------------------------------ inlines

    def inlines(self, inlines: Inlines) -> tuple[Kid, ...]:
        """The texts and elements of running text."""
        return tuple(self._inlines(inlines))

    def _inlines(self, inlines: Inlines) -> Iterator[Kid]:
        for node in inlines:
            match node:
                case Text(text, language):
                    yield element("span", self._language(language), text) if language else text
                case Strong(children):
                    yield element("strong", {}, *self.inlines(children))
                case Emphasis(children):
                    yield element("em", {}, *self.inlines(children))
                case Link(children, target):
                    yield element("a", {"href": target}, *self.inlines(children))
                case SizeValues(values):
                    yield self._values(values) if len(set(values)) > 1 else values[0]
                case Ringed(letters):
                    for at, letter in enumerate(letters):
                        yield from (" ",) if at else ()
                        yield element("span", {"class": "ring"}, letter)
                case LineBreak():
                    yield element("br")
                case Field(_, label, kind):
                    look = {"type": "checkbox" if kind == "tick" else "text", "aria-label": label}
                    yield element("input", look)

    def _values(self, values: tuple[str, ...]) -> ET.Element:
        kids: list[Kid] = []
        for index, value in enumerate(values):
            if index:
                kids.append(element("span", {"class": "among"}, " (" if index == 1 else ", "))
            name = element("span", {"class": "named"}, f"{self.sizes[index]}: ")
            kids.append(element("span", {"data-size": str(index)}, name, value))
        kids.append(element("span", {"class": "among"}, ")"))
        return element("span", {"class": "values"}, *kids)

    def _language(self, language: str) -> dict[str, str]:
        return {self.lang: language} if language else {}


def define_once(parts: Iterable[ET.Element]) -> None:
    """Leave of what drawings define under one name the first: on a page it serves them all."""
    known = set[str | None]()
    for part in [each for one in parts for each in one.iter() if each.find("defs") is not None]:
        for defined in part.findall("defs"):
            for path in list(defined):
                if path.get("id") in known:
                    defined.remove(path)
                known.add(path.get("id"))
            if not len(defined):
                part.remove(defined)


def width_class(drawing: Drawing) -> int:
    """The width of a drawing in whole centimetres, by which the style sets how small it may get."""
    return round(drawing.width / 10)


def _not_for(inlines: Inlines) -> str:
    """The sizes for which running text has no figure though it has some for others."""
    found = list(_differing(inlines))
    if not found:
        return ""
    none = (size for size in range(len(found[0])) if all(each[size] == _NONE for each in found))
    return " ".join(map(str, none))


def _differing(inlines: Inlines) -> Iterator[tuple[str, ...]]:
    for node in inlines:
        match node:
            case SizeValues(values) if len(set(values)) > 1:
                yield values
            case Strong(children) | Emphasis(children) | Link(children, _):
                yield from _differing(children)
            case Text() | SizeValues() | Ringed() | LineBreak() | Field():
                pass


class Chapter(Record):
    """What stands under a heading of level 2, the heading first; what comes before all of them has
    none and is called ``""``."""

    id: str
    title: str
    blocks: Blocks


def chapters(blocks: Iterable[Block]) -> tuple[Chapter, ...]:
    """A document in chapters, each with an id of its own; a heading of level 1 opens none."""
    parts: list[list[Block]] = [[]]
    for block in blocks:
        if isinstance(block, Heading) and block.level == 2:
            parts.append([])
        parts[-1].append(block)
    found = []
    for number, part in enumerate(parts):
        first = part[0] if part else None
        if isinstance(first, Heading) and first.level == 2:
            id = first.id or f"chapter-{number}"
            found.append(Chapter(id, plain(first.children), tuple(part)))
        elif part:
            found.append(Chapter("", "", tuple(part)))
    return tuple(found)
