"""The text edition: plain UTF-8 that a screen reader or a braille display reads line by line.

A sentence takes one line. What differs from size to size is said once for each figure, on a line
that begins with its sizes. Nothing depends on position: there are no columns, rules or indents.
Sections are found by searching for the word "Section" and a number, sizes by "Size" and a name.
"""

import re
import textwrap
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

from generator.document.tree import (
    Block,
    Blocks,
    Callout,
    Column,
    Cover,
    DefinitionList,
    Document,
    Figure,
    Heading,
    Inlines,
    ItemList,
    PageBreak,
    Paragraph,
    SizeValues,
    Table,
    TableRow,
    Text,
    plain,
)
from generator.render.spelling import ended
from generator.render.telling import Teller, listed

_CALLOUTS: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "safety": ("Safety", "End of safety note."),
        "note": ("Note", "End of note."),
        "tip": ("Tip", "End of tip."),
    }
)


def render_text(document: Document, width: int = 0) -> str:
    """``document`` as plain text; lines are wrapped at ``width`` characters, or not at 0.

    The result ends with a line feed and has no trailing spaces. Raises ``ValueError`` when a
    ``SizeValues`` node has not one value for each size of the document.
    """
    teller = Teller(document.sizes, document.language)
    sections = list(_sections(document, teller))
    parts = [
        *_opening(document, [heading for heading, _ in sections], teller),
        *(["", heading] if heading else _block(block, teller) for heading, block in sections),
        ["", f"End of {teller.spelled(document.title)}."],
    ]
    return "".join(f"{line}\n" for line in _wrapped(_apart(parts), width))


def _sections(document: Document, teller: Teller) -> Iterator[tuple[str, Block]]:
    """The top blocks, each with its numbered heading line if it is a heading."""
    counts = [0, 0, 0]
    for block in document.blocks:
        match block:
            case Heading(1, children) if plain(children) == document.title:
                continue
            case Heading(level, children) if level > 1:
                counts[level - 2] += 1
                counts[level - 1 :] = [0] * (4 - level)
                number = ".".join(str(count) for count in counts if count)
                yield f"Section {number}: {teller.once(children)}".rstrip(" :"), block
            case _:
                yield "", block


def _opening(document: Document, headings: list[str], teller: Teller) -> Iterator[list[str]]:
    """Who made it, how to read it, and what is in it."""
    cover = next((block for block in document.blocks if isinstance(block, Cover)), None)
    byline: Inlines = cover.byline if cover else (Text(f"By {document.author}"),)
    version = ", ".join(filter(None, (f"Version {document.version}", document.date)))
    yield [
        teller.spelled(document.title),
        *teller.told(byline),
        *([ended(version)] if document.version else []),
    ]
    yield teller.told(cover.lead if cover else (Text(document.summary),))
    chapters = [line for line in headings if re.match(r"Section \d+:", line)]
    yield [
        "This is the text edition, for screen readers and braille displays.",
        *_about_sizes(teller),
        *(["To go to a section, search for the word Section and its number."] if chapters else []),
    ]
    if len(chapters) > 1:
        yield ["Contents:", *map(ended, chapters)]


def _about_sizes(teller: Teller) -> Iterator[str]:
    if len(teller.sizes) == 1:
        yield ended(f"Size: {teller.spelled(teller.sizes[0])}")
    elif teller.sizes:
        yield f"The sizes are {listed([teller.spelled(size) for size in teller.sizes])}."
        yield "Where sizes differ, a line begins with the sizes that it is for."


def _block(block: Block, teller: Teller) -> list[str]:
    """The lines of one block; empty for what only pages have."""
    match block:
        case Heading(_, children):
            return teller.told(children)
        case Paragraph(children, _):
            return teller.told(children)
        case ItemList():
            return _item_list(block, teller)
        case DefinitionList(entries):
            return _entries(
                teller.told(entry.meaning, f"{teller.once(entry.term).rstrip(':')}:")
                or teller.told(entry.term)
                for entry in entries
            )
        case Table():
            return _table(block, teller)
        case Figure(_, alt, caption):
            return teller.told((Text(alt),), "Picture:") + teller.told(caption, "Caption:")
        case Callout(kind, title, blocks):
            name, end = _CALLOUTS[kind]
            return [*(teller.told(title, f"{name}:") or [f"{name}."]), *_all(blocks, teller), end]
        case Cover():
            art = _block(block.art, teller) if block.art else []
            return _apart([_block(block.facts, teller), art])
        case PageBreak():
            return []


def _all(blocks: Blocks, teller: Teller) -> list[str]:
    return _apart(_block(block, teller) for block in blocks)


def _item_list(block: ItemList, teller: Teller, within: str = "") -> list[str]:
    """Numbered entries are steps of so many; others are lines of their own."""
    last = block.start + len(block.items) - 1
    found = []
    for number, item in enumerate(block.items, block.start):
        place = f"{within}, part {number}" if within else f"Step {number}"
        label = f"{place} of {last}:" if block.ordered else ""
        first, rest = item.blocks[:1], item.blocks[1:]
        if first and isinstance(first[0], Paragraph):
            lines = teller.told(first[0].children, label)
        else:
            lines, rest = [label] if label else [], item.blocks
        for each in rest:
            match each:
                case ItemList():
                    lines += _item_list(each, teller, place if block.ordered else within)
                case _:
                    lines += _block(each, teller)
        found.append(lines)
    return _entries(found)


# ---------------------------------------------------------------- tables


def _table(table: Table, teller: Teller) -> list[str]:
    """A row is a small group of lines: its name, then each figure with its column in words."""
    count = f"{len(table.rows)} {'row' if len(table.rows) == 1 else 'rows'}"
    return [
        *(teller.told(table.caption, f"Table with {count}:") or [f"Table with {count}."]),
        *_entries(_row(row, table, teller) for row in table.rows),
        "End of table.",
    ]


def _row(row: TableRow, table: Table, teller: Teller) -> list[str]:
    head = table.header_columns
    name = teller.told(_row_name(table.columns[:head], row.cells[:head]))
    facts = _facts(table, row, teller)
    if len(name) == 1 and list(facts) == [""]:
        return _fact(f"{name[0].rstrip('.')}:", facts[""], teller) or name
    lines = [
        line
        for label, cells in facts.items()
        for line in _fact(f"{label}:" if label else "", cells, teller)
    ]
    return [" ".join(name + lines)] if len(name) == len(lines) == 1 else name + lines


def _row_name(columns: Sequence[Column], cells: Sequence[Inlines]) -> Inlines:
    """The cells that name a row; a bare number takes the heading of its column before it."""
    name: Inlines = ()
    for column, cell in zip(columns, cells, strict=True):
        bare = column.heading and re.fullmatch(r"\d[\d ,–-]*(\(.*\))?", plain(cell))
        lead = (*column.heading, Text(" ")) if bare else ()
        name += (*((Text(", "),) if name and cell else ()), *lead, *cell)
    return name


_Cells = list[tuple[int | None, Inlines]]


def _facts(table: Table, row: TableRow, teller: Teller) -> dict[str, _Cells]:
    """The cells after the row's name, by what they tell; those of all sizes come together."""
    over = [heading for heading, count in table.groups for _ in range(count)]
    groups: list[Inlines] = over or [()] * len(table.columns)
    inner = list(zip(table.columns, groups, row.cells, strict=True))[table.header_columns :]
    facts: dict[str, _Cells] = {}
    for column, group, cell in inner:
        words = [teller.once(group), teller.once(column.heading)]
        if column.size is not None:
            size = teller.sizes[column.size]
            words = [word for word in words if word not in (size, f"Size {size}", "Size", "Sizes")]
        elif len(inner) == 1:
            words = []
        if cell:
            facts.setdefault(", ".join(filter(None, words)), []).append((column.size, cell))
    return facts


def _fact(label: str, cells: _Cells, teller: Teller) -> list[str]:
    """The lines of the cells under one label."""
    lines: list[str] = []
    by_size = {size: plain(cell) for size, cell in cells if size is not None}
    for size, cell in cells:
        if size is None:
            lines += teller.told(cell, label)
    if len(by_size) == 1 < len(teller.sizes):
        lines += [label] if label else []
        lines += teller.told((Text(*by_size.values()),), f"{teller.labelled(list(by_size))}:")
    elif by_size:
        some = replace(teller, sizes=tuple(teller.sizes[size] for size in by_size))
        lines += some.told((SizeValues(tuple(by_size.values())),), label)
    return lines


# ---------------------------------------------------------------- lines


def _apart(groups: Iterable[list[str]]) -> list[str]:
    """The lines of all ``groups`` with an empty line between them."""
    lines: list[str] = []
    for group in filter(None, groups):
        lines += ["", *group] if lines else group
    return lines


def _entries(groups: Iterable[list[str]]) -> list[str]:
    """Entries line by line, or set apart where any of them takes more than one line."""
    found = list(groups)
    if any(len(group) > 1 for group in found):
        return _apart(found)
    return [line for group in found for line in group]


def _wrapped(lines: Iterable[str], width: int) -> Iterator[str]:
    for line in lines:
        if width and line:
            yield from textwrap.wrap(line, width, break_long_words=False, break_on_hyphens=False)
        else:
            yield line
