"""The text edition: plain UTF-8 that a screen reader or a braille display reads line by line.

A sentence takes one line. What differs from size to size is said once for each figure, on a line
that begins with its sizes. Nothing depends on position: there are no columns, rules or indents.
Sections are found by searching for the word "Section" and a number, sizes by "Size" and a name.
"""

import textwrap
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import groupby
from types import MappingProxyType

from bindoff import regex as re
from bindoff.document.tree import (
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
    Origin,
    PageBreak,
    Paragraph,
    SizeValues,
    Table,
    TableRow,
    Text,
    interrupting,
    plain,
)
from bindoff.english import ended, listed, plural
from bindoff.records import Record, replace
from bindoff.render.sizesentences import NO_FIGURE, Notation, Teller
from bindoff.render.spoken import unit_at_end

# Characters of a table's row that are still easy to hear as one line.
LONGEST_ROW = 200

_CALLOUTS: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "safety": ("Safety", "End of safety note."),
        "note": ("Note", "End of note."),
        "tip": ("Tip", "End of tip."),
    }
)


def render_text(document: Document, width: int = 0, notation: Notation = str) -> str:
    """``document`` as plain text; lines are wrapped at ``width`` characters, or not at 0.

    ``notation`` puts signs into words that only the craft knows, such as those of repeats.
    The result ends with a line feed and has no trailing spaces. Raises ``ValueError`` when a
    ``SizeValues`` node has not one value for each size of the document.
    """
    return "".join(f"{line}\n" for line in _wrapped(_lines(document, notation), width))


def told_lines(
    document: Document, notation: Notation = str
) -> tuple[tuple[str, Origin | None], ...]:
    """The lines of ``render_text`` at width 0, each with where its words come from, if known."""
    return tuple(
        (str(line), line.origin if isinstance(line, _Line) else None)
        for line in _lines(document, notation)
    )


class _Line(str):
    """A line that knows where its words come from; to all else it is its words."""

    origin: Origin

    def __new__(cls, words: str, origin: Origin) -> "_Line":
        line = super().__new__(cls, words)
        line.origin = origin
        return line


def _from(origin: Origin | None, lines: Iterable[str]) -> list[str]:
    """The lines, those that know nothing nearer as coming from ``origin``."""
    if origin is None:
        return list(lines)
    return [line if isinstance(line, _Line) or not line else _Line(line, origin) for line in lines]


def _lines(document: Document, notation: Notation) -> list[str]:
    teller = Teller(document.sizes, document.language, notation, _places(document))
    sections = list(_sections(document, teller))
    told = zip(
        sections, _last_steps(sections), interrupting(block for _, block in sections), strict=True
    )
    body = [
        _from(block.origin, ["", heading])
        if heading and isinstance(block, Heading)
        else _block(block, teller, last, "Stage" if inside else "Step")
        for (heading, block), last, inside in told
    ]
    differ = any(re.match(r"Sizes? [^.]+:", line) for lines in body for line in lines)
    parts = [
        *_opening(document, [heading for heading, _ in sections], teller, differ),
        *body,
        ["", f"End of {teller.spelled(document.title)}."],
    ]
    return _apart(parts)


def _sections(document: Document, teller: Teller) -> Iterator[tuple[str, Block]]:
    """The top blocks, each with its numbered heading line if it is a heading."""
    for number, block in _numbered_sections(document):
        words = teller.once(block.children) if number and isinstance(block, Heading) else ""
        yield f"Section {number}: {words}".rstrip(" :") if number else "", block


def _numbered_sections(document: Document) -> Iterator[tuple[str, Block]]:
    """The top blocks that are told, each with its number if it is the heading of a section."""
    counts = [0, 0, 0]
    for block in document.blocks:
        match block:
            case Heading(print_only=True) | Paragraph(print_only=True):
                continue
            case Heading(1, children) if plain(children) == document.title:
                continue
            case Heading(level) if level > 1:
                counts[level - 2] += 1
                counts[level - 1 :] = [0] * (4 - level)
                yield ".".join(str(count) for count in counts if count), block
            case _:
                yield "", block


def _places(document: Document) -> Mapping[str, str]:
    """The number of the section in which each thing with an id stands."""
    found: dict[str, str] = {}
    number = ""
    for here, block in _numbered_sections(document):
        number = here or number
        if isinstance(block, Heading | Figure | Table) and block.id and number:
            found[block.id] = number
    return MappingProxyType(found)


def _last_steps(sections: Sequence[tuple[str, Block]]) -> list[int]:
    """For each list the last number of it and of the lists that run on from it; else 0.

    A list runs on when it starts where the last one of the same section (level 2) ended.
    """
    ends = [0] * len(sections)
    chain: list[int] = []
    inside = interrupting(block for _, block in sections)
    for place, ((_, block), apart) in enumerate(zip(sections, inside, strict=True)):
        if isinstance(block, Heading) and block.level < 3:
            chain = []
        elif isinstance(block, ItemList) and block.ordered and apart:
            ends[place] = block.start + len(block.items) - 1
        elif isinstance(block, ItemList) and block.ordered:
            runs_on = chain and block.start == ends[chain[0]] + 1
            chain = [*chain, place] if runs_on else [place]
            for each in chain:
                ends[each] = block.start + len(block.items) - 1
    return ends


def _opening(
    document: Document, headings: list[str], teller: Teller, differ: bool
) -> Iterator[list[str]]:
    """Who made it, how to read it, and what is in it; sizes ``differ`` if a line names any."""
    cover = next((block for block in document.blocks if isinstance(block, Cover)), None)
    byline: Inlines = cover.byline if cover else (Text(f"By {document.author}"),)
    version = ", ".join(
        filter(None, (f"Version {document.version}", teller.spelled(document.date)))
    )
    said = f"version {document.version}" in plain(byline).casefold()
    copy = ended(f"Copy for {teller.spelled(document.copy_for)}") if document.copy_for else ""
    yield [
        teller.spelled(document.title),
        *teller.told(byline),
        *([ended(version)] if document.version and not said else []),
        *([copy] if copy else []),
    ]
    yield teller.told(cover.lead if cover else (Text(document.summary),))
    chapters = [line for line in headings if re.match(r"Section \d+:", line)]
    steps = any(isinstance(block, ItemList) and block.ordered for block in document.blocks)
    yield [
        *_about_sizes(teller, differ),
        *(["To go to a section, search for the word Section and its number."] if chapters else []),
        *(["To go to a step, search for the word Step and its number."] if steps else []),
    ]
    if len(chapters) > 1:
        yield ["Contents:", *map(ended, chapters)]


def _about_sizes(teller: Teller, differ: bool) -> Iterator[str]:
    if len(teller.sizes) == 1:
        yield ended(f"Size: {teller.spelled(teller.sizes[0])}")
    elif teller.sizes:
        yield f"The sizes are {listed([teller.spelled(size) for size in teller.sizes])}."
        if differ:
            yield "Where sizes differ, a line begins with the sizes that it is for."


def _block(block: Block, teller: Teller, last_step: int = 0, step: str = "Step") -> list[str]:
    """The lines of one block; empty for what only pages have. ``last_step`` is for lists, whose
    numbered entries are called ``step``."""
    lines = _told(block, teller, last_step, step)
    return lines if isinstance(block, Callout | Cover | PageBreak) else _from(block.origin, lines)


def _told(block: Block, teller: Teller, last_step: int, step: str) -> list[str]:
    match block:
        case Heading(print_only=True) | Paragraph(print_only=True):
            return []
        case Heading(_, children):
            return teller.told(children)
        case Paragraph(children, _):
            return teller.told(children)
        case ItemList():
            return _item_list(block, teller, last_step, step)
        case DefinitionList(entries):
            return _entries(
                _from(
                    entry.origin,
                    teller.told(entry.meaning, f"{teller.once(entry.term).rstrip(':')}:")
                    or teller.told(entry.term),
                )
                for entry in entries
                if not entry.print_only
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


def _item_list(
    block: ItemList, teller: Teller, last: int, step: str, within: str = ""
) -> list[str]:
    """Numbered entries are steps of so many, called ``step``; others are lines of their own.

    Tables in them, and lists with empty lines, are set apart from what is around them.
    """
    last = last or block.start + len(block.items) - 1
    found = []
    for number, item in enumerate(block.items, block.start):
        place = f"{within}, part {number}" if within else f"{step} {number}"
        label = f"{place} of {last}:" if block.ordered else ""
        first, rest = item.blocks[:1], item.blocks[1:]
        if first and isinstance(first[0], Paragraph):
            lines = teller.told(first[0].children, label)
        else:
            lines, rest = [label] if label else [], item.blocks
        after_apart = False
        for each in rest:
            match each:
                case ItemList():
                    more = _item_list(each, teller, 0, step, place if block.ordered else within)
                case _:
                    more = _block(each, teller)
            apart = isinstance(each, Table) or "" in more
            lines += ["", *more] if lines and more and (apart or after_apart) else more
            after_apart = apart
        found.append(_from(item.origin, lines))
    return _entries(found)


# ---------------------------------------------------------------- tables


def _table(table: Table, teller: Teller) -> list[str]:
    """A row is its name, then each figure with its column in words.

    A table without figures per size takes a line for each row, others a line for each figure. Rows
    in turn that give one thing in several units are told as one.
    """
    labels = _labels(table, teller)
    named = [_named(row, table, labels, teller) for row in table.rows]
    together = list(_units_together(named))
    rows = [_row(row, teller) for row in together]
    short = all(len(group) == 1 for row in rows for group in row) and all(
        sum(len(line) for (line,) in row) <= LONGEST_ROW for row in rows
    )
    lines = [[line for group in row for line in group] for row in rows]
    count = f"{len(rows)} {'row' if len(rows) == 1 else 'rows'}"
    return [
        *(teller.told(table.caption, f"Table with {count}:") or [f"Table with {count}."]),
        *_entries(
            _from(told.origin, [" ".join(row)] if short else row)
            for row, told in zip(lines, together, strict=True)
        ),
        "End of table.",
    ]


_Cells = list[tuple[int | None, Inlines]]


class _Label(Record):
    """What a column tells: its words, the unit at their end, and the size it is for."""

    words: str
    unit: str
    size: int | None


class _Named(Record):
    """A row: the lines of its name, its words without the unit at their end, its facts."""

    name: list[str]
    words: str
    unit: str
    facts: dict[str, _Cells]
    origin: Origin | None = None

    def goes_on(self, before: "_Named") -> bool:
        """Whether it gives for each size in another unit what the row ``before`` gives."""
        return (
            self.words == before.words != ""
            and "" not in (self.unit, before.unit)
            and self.unit != before.unit
            and list(self.facts) == list(before.facts) == [""]
            and all(size is not None for row in (self, before) for size, _ in row.facts[""])
        )


def _named(row: TableRow, table: Table, labels: Sequence[_Label], teller: Teller) -> _Named:
    head = table.header_columns
    name = teller.told(_row_name(table.columns[:head], row.cells[:head], teller.sizes))
    words, unit = unit_at_end(name[0].rstrip(".")) if len(name) == 1 else ("", "")
    return _Named(name, words, unit, _facts(labels, row.cells[head:], unit), row.origin)


def _units_together(rows: Iterable[_Named]) -> Iterator[_Named]:
    """Rows as they are, but those that give one thing in several units made one."""
    for _, group in groupby(_numbered(rows), lambda each: each[0]):
        same = [row for _, row in group]
        cells = [cell for row in same for cell in row.facts.get("", [])]
        yield replace(same[0], facts={"": cells}) if len(same) > 1 else same[0]


def _numbered(rows: Iterable[_Named]) -> Iterator[tuple[int, _Named]]:
    """Each row with the number of the thing it gives."""
    number, before = 0, None
    for row in rows:
        number += before is None or not row.goes_on(before)
        before = row
        yield number, row


def _row(row: _Named, teller: Teller) -> list[list[str]]:
    """The lines of the row's name and of each of its facts."""
    if row.words and list(row.facts) == [""]:
        return [_fact(f"{row.words}:", row.facts[""], teller) or row.name]
    told = [
        _fact(f"{label}:" if label else "", cells, teller) for label, cells in row.facts.items()
    ]
    return [group for group in ([ended(row.words)] if row.words else row.name, *told) if group]


def _row_name(columns: Sequence[Column], cells: Sequence[Inlines], sizes: Sequence[str]) -> Inlines:
    """The cells that name a row; a bare number takes the heading of its column before it, in the
    plural where it is more than one, and so do sizes."""
    name: Inlines = ()
    for column, cell in zip(columns, cells, strict=True):
        lead: Inlines = ()
        several = plain(cell).split(", ")
        if plain(cell) in sizes:
            lead = (Text("Size "),)
        elif set(several) <= set(sizes):
            cell = (Text(f"Sizes {listed(several)}"),)
        elif column.heading and re.fullmatch(r"\d+( to |–)\d+", plain(cell)):
            lead = (Text(f"{plural(plain(column.heading))} "),)
        elif column.heading and re.fullmatch(r"\d[\d ,–-]*( to \d+)?(\(.*\))?", plain(cell)):
            lead = (*column.heading, Text(" "))
        name += (*((Text(", "),) if name and cell else ()), *lead, *cell)
    return name


def _labels(table: Table, teller: Teller) -> list[_Label]:
    """What each column after those of the row's name tells."""
    over = [heading for heading, count in table.groups for _ in range(count)]
    groups: list[Inlines] = over or [()] * len(table.columns)
    inner = list(zip(table.columns, groups, strict=True))[table.header_columns :]
    labels = []
    for column, group in inner:
        words = [teller.once(group), teller.once(column.heading)]
        if column.size is not None:
            size = teller.sizes[column.size]
            words = [word for word in words if word not in (size, f"Size {size}", "Size", "Sizes")]
        label, unit = unit_at_end(", ".join(filter(None, words)))
        if len(inner) == 1 and column.size is None:
            label = ""
        labels.append(_Label(label, unit, column.size))
    return labels


def _facts(labels: Sequence[_Label], cells: Sequence[Inlines], unit: str) -> dict[str, _Cells]:
    """The ``cells`` after the row's name, by what they tell; those of all sizes come together.

    A unit in a heading goes to the figures under it, the ``unit`` of the row to all its figures.
    """
    facts: dict[str, _Cells] = {}
    for label, cell in zip(labels, cells, strict=True):
        text = plain(cell)
        if text:
            sign = label.unit or (unit if text[-1:].isnumeric() else "")
            said = (*cell, Text(f" {sign}")) if sign and text != NO_FIGURE else cell
            facts.setdefault(label.words, []).append((label.size, said))
    return facts


def _fact(label: str, cells: _Cells, teller: Teller) -> list[str]:
    """The lines of the cells under one label; those of one size, such as units, side by side."""
    lines: list[str] = []
    by_size: dict[int, list[str]] = {}
    for size, cell in cells:
        if size is None:
            lines += teller.told(cell, label)
        else:
            by_size.setdefault(size, []).append(plain(cell))
    figures = tuple(
        ", ".join(text for text in texts if text != NO_FIGURE) or NO_FIGURE
        for texts in by_size.values()
    )
    if len(by_size) == 1 < len(teller.sizes):
        lines += [label] if label else []
        lines += teller.told((Text(*figures),), f"{teller.labelled(list(by_size))}:")
    elif by_size:
        some = replace(teller, sizes=tuple(teller.sizes[size] for size in by_size))
        shared = "All sizes:" if len(by_size) > 1 == len(set(figures)) else ""
        lines += some.told((SizeValues(figures),), label or shared)
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
