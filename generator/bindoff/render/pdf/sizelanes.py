"""Size lanes: from five sizes on each has a place of its own, the same on every page in all
tables and steps, so that a knitter finds her figures without counting.

``SizeKey`` heads every page of steps with the names of the sizes: over their lanes, or in the order
in which a list in running text gives their figures.
"""

from collections.abc import Iterator, Sequence

from bindoff import regex as re
from bindoff.document.tree import (
    Block,
    Blocks,
    Callout,
    Emphasis,
    Inline,
    Inlines,
    ItemList,
    Paragraph,
    SizeValues,
    Strong,
    Table,
    Text,
    in_print,
)
from bindoff.records import Changing, Record, replace
from bindoff.render.pdf.galley import Band, Fragment, Group, Page
from bindoff.render.pdf.parts import band_of
from bindoff.render.pdf.tablesizes import LEAST_SIZES
from bindoff.render.pdf.tagging import Tag, Writer
from bindoff.render.pdf.text import (
    NBSP,
    Line,
    TextRun,
    baseline,
    lines,
    narrowest,
    paint_line,
    words,
)
from bindoff.render.pdf.theme import MM, Theme

_AIR = 3.0  # in a lane, beside its name
_NAME_LINES = 2
_PAD = 2.625  # above and below figures
_NAME_SIZE, _NAME_LEADING = 8.0, 9.625  # of names that are repeated
_FAR = 90 * MM  # below its names a figure has no more that tell whose it is
_NAMED = "named figures"
_UNIT_GAP = 7.0  # between a unit and the lanes
_TAIL = re.compile(r"(?P<unit>[^\W\d]*(?: [^\W\d]+)?)(?P<end>[.;]?)(?= |$)")
_BETWEEN = re.compile(r" ?(?P<unit>[^\W\d]+) / ")


class SizeLanes(Record):
    """The lanes of the sizes called ``names``: ``wide`` each, from ``left`` in the frame on."""

    names: tuple[str, ...]
    left: float
    wide: float

    def at(self, size: int) -> float:
        """The left edge of a lane."""
        return self.left + size * self.wide


def size_lanes(sizes: tuple[str, ...], theme: Theme, width: float) -> SizeLanes | None:
    """The lanes of a frame so wide; None for few sizes, or names or figures that have no room."""
    if not theme.side or len(sizes) < LEAST_SIZES:
        return None
    wide = (width - theme.side) / len(sizes)
    if wide < theme.lane - 0.01 or not all(_has_room(name, wide, theme) for name in sizes):
        return None
    return SizeLanes(sizes, theme.side, wide)


def _has_room(name: str, wide: float, theme: Theme) -> bool:
    text = words([TextRun(name, theme.table_head.look)])
    return narrowest(text) <= wide - _AIR and len(lines(text, wide - _AIR)) <= _NAME_LINES


# ---------------------------------------------------------------- the key


def differs(blocks: Blocks) -> bool:
    """Whether steps under one heading have figures that differ between sizes."""
    return any(
        isinstance(block, ItemList)
        and block.ordered
        and any(_unlike(i.blocks) for i in block.items)
        for block in blocks
    )


def _unlike(blocks: Blocks) -> bool:
    return any(_differs(block) for block in blocks)


def _differs(block: Block) -> bool:
    match block:
        case Paragraph(children):
            return any(len(set(values)) > 1 for values in _values(children))
        case ItemList(items):
            return any(_unlike(item.blocks) for item in items)
        case Callout(blocks=inner):
            return _unlike(inner)
        case Table(columns=columns):
            return len({column.size for column in columns} - {None}) > 1
        case _:
            return False


def _values(inlines: Inlines) -> Iterator[tuple[str, ...]]:
    for node in inlines:
        match node:
            case SizeValues(values):
                yield values
            case Strong(children) | Emphasis(children):
                yield from _values(children)


class SizeKey(Record, eq=False):
    """The names of the sizes at the head of each page of steps, beside the ``title`` of the piece
    where it is not yet on the page."""

    theme: Theme
    width: float
    lanes: SizeLanes | None
    names: tuple[tuple[Line, ...], ...]
    title: tuple[Line, ...]

    @property
    def once(self) -> bool:
        """Other things may stand among the steps."""
        return True

    @property
    def below(self) -> float:
        """It takes no room under the steps."""
        return 0.0

    @property
    def _high(self) -> float:
        return max(len(name) for name in self.names) * self.theme.table_head.leading + 5.25

    def above(self, again: bool) -> float:
        """The room of names, rule and white space, and that of the title above them again."""
        room = self._high + self.theme.block_gap + (self._title_high if again else 0.0)
        beside = len(self.title) * self.theme.headings[1].leading if self.theme.side else 0.0
        return max(room, beside + self.theme.under_heading[1])

    @property
    def _title_high(self) -> float:
        return 0.0 if self.theme.side else len(self.title) * self.theme.headings[2].leading

    def paint(self, writer: Writer, left: float, fragment: Fragment) -> None:
        """Draw the key above the bands of ``fragment``."""
        theme = self.theme
        style = theme.headings[1] if theme.side else theme.headings[2]
        top = fragment.top
        if not fragment.first:
            writer.artifact("Pagination", "Header")
            for at, line in enumerate(self.title):
                paint_line(writer, line, None, left, baseline(style, top - at * style.leading))
            top -= self._title_high
        writer.artifact("Pagination", "Header")
        bottom = top - self._high
        if self.lanes:
            tint(writer, self.lanes, left, top + 1.75, bottom, theme)
        for index, name in enumerate(self.names):
            y = bottom + 3.5 + len(name) * theme.table_head.leading
            for line in name:
                x, room = self._place(index)
                paint_line(
                    writer,
                    line,
                    None,
                    left + x,
                    baseline(theme.table_head, y),
                    room,
                    "centre" if self.lanes else "left",
                )
                y -= theme.table_head.leading
        end = left + theme.side
        writer.line(end, bottom, left + self.width, bottom, theme.colours.ink, 1.2)

    def _place(self, index: int) -> tuple[float, float]:
        if self.lanes:
            return self.lanes.at(index), self.lanes.wide
        return self.theme.side, self.width - self.theme.side


def size_key(
    sizes: tuple[str, ...], title: str, theme: Theme, width: float, lanes: SizeLanes | None
) -> SizeKey:
    """The key of ``sizes`` for the steps under ``title``."""
    head = theme.table_head.look
    if lanes:
        names = tuple(
            tuple(lines(words([TextRun(name, head)]), lanes.wide - _AIR)) for name in sizes
        )
    else:
        said = [
            TextRun(f"{theme.words.sizes_are} ", theme.table.look),
            TextRun(in_print(sizes), head),
        ]
        names = (tuple(lines(words(said), width - theme.side)),)
    style = theme.headings[1] if theme.side else theme.headings[2]
    room = theme.side - theme.column_gap if theme.side else width
    return SizeKey(
        theme, width, lanes, names, tuple(lines(words([TextRun(title, style.look)]), room))
    )


def tint(
    writer: Writer, lanes: SizeLanes, left: float, top: float, bottom: float, theme: Theme
) -> None:
    """The tint behind every other lane."""
    for size in range(1, len(lanes.names), 2):
        x = left + lanes.at(size)
        writer.box(x, bottom, lanes.wide, top - bottom, fill=theme.colours.lane_tint)


# ---------------------------------------------------------------- figures in their lanes


Row = tuple[tuple[str, ...], str]
"""The figures of all sizes, and the unit that is said after them."""


class Shown(Record):
    """Figures to be shown in lanes, each row with the unit that is said after it; ``end`` is the
    mark that ends their sentence."""

    rows: tuple[Row, ...]
    end: str = ""


def displayed(inlines: Inlines) -> list[Inlines | Shown]:
    """``inlines`` cut where a sentence ends in figures that differ between sizes: those are shown
    in lanes. Figures inside a sentence or a row stay in the text, and so do those that end it
    after others."""
    leaves = list(_leaves(inlines, ()))
    found: list[Inlines | Shown] = []
    start = at = 0
    amid = False  # a sentence that has figures of its own in the text
    while at < len(leaves):
        shown, rest, stop = _ending(leaves, at)
        if shown is None or amid:
            amid = _amid(leaves[at][0], amid)
            at += 1
            continue
        found += [_rebuilt(leaves[start:at]), shown]
        leaves[stop - 1 : stop] = rest
        start = at = stop - 1
    if start < len(leaves) or not found:
        found.append(_rebuilt(leaves[start:]))
    return [part for part in found if part]


def _amid(node: Inline, before: bool) -> bool:
    """Whether a sentence that goes on after ``node`` has figures that differ between sizes."""
    match node:
        case SizeValues(values):
            return before or len(set(values)) > 1
        case Text(words):
            return before and not _ENDS.search(words)
        case _:
            return before


_ENDS = re.compile(r"\.(?= |$)")
"""The end of a sentence; a semicolon stands amid rows."""

_Leaf = tuple[Inline, tuple[type, ...]]


def _leaves(inlines: Inlines, around: tuple[type, ...]) -> Iterator[_Leaf]:
    for node in inlines:
        match node:
            case Strong(children) | Emphasis(children):
                yield from _leaves(children, (*around, type(node)))
            case _:
                yield node, around


def _rebuilt(leaves: Sequence[_Leaf]) -> Inlines:
    found: list[Inline] = []
    for node, around in leaves:
        for kind in reversed(around):
            node = kind((node,))
        found.append(node)
    return tuple(found)


def _ending(leaves: list[_Leaf], at: int) -> tuple[Shown | None, list[_Leaf], int]:
    """The figures from leaf ``at`` on that end a sentence, what is left of the last leaf that they
    take, and the place after that."""
    rows: list[Row] = []
    while at < len(leaves):
        node = leaves[at][0]
        if not isinstance(node, SizeValues) or len(set(node.values)) < 2:
            return None, [], 0
        tail = ""
        stop = at + 1
        while stop < len(leaves) and isinstance(leaves[stop][0], Text):
            text = leaves[stop][0]
            assert isinstance(text, Text)
            if text.language:
                return None, [], 0
            tail += text.text
            between = _BETWEEN.fullmatch(tail)
            if between and stop + 1 < len(leaves):
                rows.append((node.values, between["unit"]))
                at = stop + 1
                break
            end = _TAIL.match(tail.removeprefix(" "))
            if end and end["end"]:
                lead = len(tail) - len(tail.removeprefix(" "))
                rest = tail[lead + end.end() :].lstrip()
                rows.append((node.values, end["unit"]))
                kept: list[_Leaf] = [(Text(rest), leaves[stop][1])] if rest else []
                return Shown(tuple(rows), end["end"]), kept, stop + 1
            stop += 1
        else:
            if stop == len(leaves) and len(tail.split()) <= 2:
                rows.append((node.values, tail.strip()))
                return Shown(tuple(rows)), [], stop
            return None, [], 0
    return None, [], 0


class LaneRow(Changing):
    """One row of figures in their lanes, its unit on the left: all have tags of their own in
    ``tag``. Far below the key the names of the sizes stand over them, ``named`` once more."""

    lanes: SizeLanes
    figures: tuple[Line, ...]
    unit: Line | None
    tags: tuple[Tag, ...]
    unit_tag: Tag
    tag: Tag
    theme: Theme
    named: bool = False

    @property
    def height(self) -> float:
        """In points."""
        return self.theme.figure.leading + 2 * _PAD + self._names_high

    @property
    def _names_high(self) -> float:
        return _NAME_LEADING * max(map(len, self._names())) if self.named else 0.0

    def _names(self) -> list[list[Line]]:
        look = replace(self.theme.table_head.look, size=_NAME_SIZE)
        room = self.lanes.wide - _AIR
        return [lines(words([TextRun(name, look)]), room) for name in self.lanes.names]

    def paint(self, writer: Writer, left: float, top: float) -> None:
        """Draw it with the frame's left edge at ``left``."""
        lanes, style = self.lanes, self.theme.figure
        writer.artifact()
        tint(writer, lanes, left, top, top - self.height, self.theme)
        if self.named:
            for size, name in enumerate(self._names()):
                for at, line in enumerate(name, start=1):
                    y = top - _PAD / 2 - at * _NAME_LEADING + _NAME_SIZE * 0.25
                    paint_line(writer, line, None, left + lanes.at(size), y, lanes.wide, "centre")
            top -= self._names_high
        y = baseline(style, top - _PAD)
        for size, (figure, tag) in enumerate(zip(self.figures, self.tags, strict=True)):
            self.tag.adopt(tag)
            x = left + lanes.at(size)
            paint_line(writer, figure, tag, x, y, lanes.wide, "centre")
        if self.unit:
            unit = self.theme.body
            x = left + lanes.left - _UNIT_GAP - self.unit.width
            self.tag.adopt(self.unit_tag)
            paint_line(writer, self.unit, self.unit_tag, x, baseline(unit, top - _PAD))


def figures_band(row: LaneRow, groups: tuple[Group, ...]) -> Band:
    """``row`` as a band that can name its sizes once more."""
    band = band_of(row, 0.0, groups, "figures")

    def remind() -> None:
        row.named = True
        band.height, band.what = row.height, _NAMED

    band.remind = remind
    return band


def reminded(pages: Sequence[Page]) -> bool:
    """Let figures far below the key of sizes, or the last figures that name theirs, name them once
    more; whether any do."""
    found = False
    for page in pages:
        keys = [each.top for each in page.fragments if isinstance(each.group, SizeKey)]
        last = 0.0
        for placed in page.placed:
            last = max([last, *(top for top in keys if top <= placed.top)])
            if placed.band.what == _NAMED:
                last = placed.top
            elif placed.band.remind is not None and placed.top - last > _FAR:
                placed.band.remind()
                last, found = placed.top, True
    return found


def lane_row(row: Row, end: str, lanes: SizeLanes, tag: Tag, theme: Theme) -> LaneRow | None:
    """The figures of ``row`` in ``lanes``, their tags and that of the unit to stand under ``tag``;
    None if one has no room."""
    values, unit = row
    last = len(values) - 1
    stop = end or ("" if unit else ",")
    figures = []
    tags = []
    for at, (name, value) in enumerate(zip(lanes.names, values, strict=True)):
        (line,) = lines(words([TextRun(value, theme.figure.look)]), 1e6)
        if line.width > lanes.wide - _AIR:
            return None
        figures.append(line)
        said = f" {name}: {value}{';' if at < last else '' if unit else f'{stop} '}"
        tags.append(Tag("Span", actual=said))
    named = lines(words([TextRun(unit.replace(" ", NBSP), theme.body.look)]), 1e6)
    named_tag = Tag("Span", actual=f" {unit}{stop} ")
    return LaneRow(
        lanes, tuple(figures), named[0] if named else None, tuple(tags), named_tag, tag, theme
    )
