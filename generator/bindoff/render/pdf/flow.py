"""From the document tree to the galley: every node becomes bands, and tags in reading order."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import accumulate, pairwise

from bindoff.diagnostics import fail
from bindoff.document.tree import (
    Block,
    Blocks,
    Callout,
    Cover,
    DefinitionList,
    Document,
    Figure,
    Heading,
    Inlines,
    ItemList,
    Link,
    ListItem,
    Origin,
    PageBreak,
    Paragraph,
    Table,
    Text,
    plain,
)
from bindoff.records import Record
from bindoff.render.pdf.columns import allowed, beside, narrow, suits
from bindoff.render.pdf.contents import contents_bands
from bindoff.render.pdf.cover import cover_body
from bindoff.render.pdf.figures import PHOTO_SHARE, Box, fit, inside, natural
from bindoff.render.pdf.galley import CHEAPEST, IN_LIST, IN_TEXT, NEVER, Band, Lanes
from bindoff.render.pdf.hyphens import hyphens
from bindoff.render.pdf.parts import (
    Frame,
    NoteFrame,
    Picture,
    Place,
    Setting,
    announced,
    labelled,
    line_painter,
    picture_of,
)
from bindoff.render.pdf.tables import Room, fitted, row_blocks, table_bands
from bindoff.render.pdf.tagging import Tag, Writer
from bindoff.render.pdf.terms import definition_bands
from bindoff.render.pdf.text import TextRun, lines, runs, words
from bindoff.render.pdf.theme import MM, TextStyle, Theme

_IN_NOTE = 12.0  # inside a note
_AT_NOTE_END = 45.0  # inside the last bands of one, so many:
_NOTE_END = 6
_OPENING = 30.0  # after the words that open a section
_BEGUN = 12.0  # soon after a section has begun:
_BEGUN_LINES = 8
_SAID = 24.0  # between a picture and its words
_TIED = 60.0  # between a figure and the words that lead up to it
_TIE_SHARE = 0.3  # of the frame's height: the most such words may take
_BROAD = 0.8  # of the frame's width: pictures in a narrower place are not turned


def ids_of(blocks: Blocks) -> Iterator[str]:
    """The names that links of the document may lead to."""
    for block in blocks:
        match block:
            case Heading(id=id) | Table(id=id) | Figure(id=id):
                if id:
                    yield id
            case ItemList(items):
                for item in items:
                    yield from ids_of(item.blocks)
            case Callout(blocks=inner):
                yield from ids_of(inner)
            case Cover(art=Figure(id=id)) if id:
                yield id


class _Seat(Record):
    """Where a block stands; ``held`` in a lane of its own."""

    place: Place
    lanes: Lanes | None = None
    held: bool = False

    def take(self, bands: Sequence[Band]) -> None:
        for band in bands:
            band.lanes = self.lanes
        if self.held:
            for band in bands[:-1]:
                band.keep = NEVER


class Flow:
    """Builds the galley of one document. ``bands`` does the work; the rest are its parts."""

    def __init__(
        self,
        document: Document,
        theme: Theme,
        frame: Frame,
        turned: Frame,
        grey: bool,
        page_of: Mapping[str, int],
    ) -> None:
        self._document = document
        self._theme = theme
        self._frame = frame
        self._turned = turned
        self._setting = Setting(theme, self._runs, frame, grey)
        self._ids = frozenset(ids_of(document.blocks))
        self._page_of = page_of  # by name of heading; filled when the pages are known
        self._level = 0  # of the heading before, in tags

    def bands(self, root: Tag) -> list[Band]:
        """The whole document as bands; its tags become children of ``root``."""
        return self._blocks(self._document.blocks, Place(0.0, self._frame.width, root))

    # ------------------------------------------------------------ sequences

    def _blocks(self, blocks: Blocks, place: Place) -> list[Band]:
        found: list[Band] = []
        before: Block | None = None
        new_page = False
        sections: list[int] = []
        for index, (block, seat) in enumerate(zip(blocks, self._seats(blocks, place), strict=True)):
            if isinstance(block, PageBreak):
                new_page = bool(found)
                continue
            if isinstance(block, Figure):
                _tie(found, blocks[:index], self._frame.height * _TIE_SHARE)
            bands = self._block(block, seat.place, found)
            if not bands:
                continue
            seat.take(bands)
            if not isinstance(block, PageBreak):
                _come_from(bands, block.origin)
            self._space(bands[0], before, block)
            if new_page:
                bands[0].new_page = True
                new_page = False
            elif found and isinstance(block, Heading):
                _hold(found[-1], block, blocks[:index])
            if _announces(block, blocks[index + 1 : index + 2]):
                bands[-1].keep = NEVER
            if isinstance(block, Heading) and block.level == 2:
                sections.append(len(found))
            found += bands
            before = block
        for start, stop in pairwise([*sections, len(found)]):
            _settle(found[start : stop - 1], self._theme.body.leading * _BEGUN_LINES)
        return found

    def _seats(self, blocks: Blocks, place: Place) -> list["_Seat"]:
        """Where each of ``blocks`` stands: across ``place``, in its columns, or beside another."""
        seats = [_Seat(place) for _ in blocks]
        if place.groups:
            return seats
        gap = self._theme.column_gap
        for index in range(len(blocks) - 1):
            wide = beside(blocks[index], blocks[index + 1], place.width, self._setting)
            if wide and not seats[index].lanes:
                lanes = Lanes((0.0, wide + gap))
                seats[index] = _Seat(replace(place, width=wide), lanes, held=True)
                rest = replace(place, width=place.width - wide - gap)
                seats[index + 1] = _Seat(rest, lanes, held=True)
        if self._theme.columns == 1:
            return seats
        step = (place.width + gap) / self._theme.columns
        lane = replace(place, width=step - gap)
        lanes = Lanes(tuple(step * number for number in range(self._theme.columns)))
        could = [
            may and not seat.lanes and suits(block, lane.width, self._setting)
            for may, block, seat in zip(allowed(blocks), blocks, seats, strict=True)
        ]
        for index, stays in enumerate(narrow(blocks, could)):
            if stays:
                seats[index] = _Seat(lane, lanes)
        return seats

    def _space(self, first: Band, before: Block | None, block: Block) -> None:
        """Less white space under a heading than above it; as much below a figure as above it."""
        if isinstance(before, Heading) and not isinstance(block, Heading):
            gap = self._theme.under_heading[before.level - 1]
            if isinstance(block, Callout):  # its frame needs air
                gap += self._theme.pad * 0.4
            first.before = min(first.before, gap)
        elif isinstance(before, Table | Figure | Callout | Cover):
            first.before = max(first.before, self._theme.block_gap)

    def _block(self, block: Block, place: Place, above: Sequence[Band]) -> list[Band]:
        match block:
            case Heading():
                return self._heading(block, place)
            case Paragraph():
                return self._paragraph(block, place)
            case ItemList():
                return self._item_list(block, place)
            case DefinitionList():
                return definition_bands(block, place, self._setting)
            case Table():
                return self._table(block, place)
            case Figure():
                return self._figure(block, place, above)
            case Callout():
                return self._callout(block, place)
            case Cover():
                return self._cover(block, place)
            case PageBreak():
                return []

    # ------------------------------------------------------------ text

    def _runs(self, inlines: Inlines, style: TextStyle) -> list[TextRun]:
        return runs(inlines, style, self._theme, self._link_tag)

    def _link_tag(self, link: Link) -> Tag:
        if link.target.startswith("#") and link.target[1:] not in self._ids:
            raise fail(
                "pdf.link",
                f"the link `{plain(link.children)}` leads to `{link.target}`, which does not exist",
                "Name the id of a heading, figure or table",
            )
        return Tag("Link", target=link.target, contents=plain(link.children))

    def _text(
        self,
        text: Sequence[TextRun],
        style: TextStyle,
        place: Place,
        tag: Tag,
        what: str = "text",
        balance: bool = False,
        measure: bool = True,
    ) -> list[Band]:
        """Lines as bands: two at least stay together at either end of a page."""
        width = place.measure(self._theme) if measure else place.width
        rule = hyphens(tag.language or self._document.language) if what == "text" else None
        set_lines = lines(words(text), width, balance, rule)
        found = [
            Band(
                style.leading,
                line_painter(line, style, tag, place.x),
                keep=IN_TEXT,
                groups=place.groups,
                what=what,
            )
            for line in set_lines
        ]
        if found:
            for band in (found[0], *found[-2:-1]):
                band.keep = NEVER
            found[0].before = style.before
            found[-1].keep = 0.0
        return found

    def _heading(self, node: Heading, place: Place) -> list[Band]:
        level = min(node.level, self._level + 1)  # tags may not skip a level
        self._level = level
        style = self._theme.headings[node.level - 1]
        bands = self._text(
            self._runs(node.children, style),
            style,
            place,
            place.tag.add(f"H{level}", language=node.language),
            "heading",
            balance=True,
            measure=False,
        )
        for band in bands:
            band.keep = NEVER
        if bands:
            bands[0].paint = announced(
                bands[0].paint, node.id, (level, plain(node.children).replace("\n", " "))
            )
            bands[0].name = node.id
            bands[0] = self._ruled(bands[0], place) if node.level == 2 else bands[0]
        return bands

    def _ruled(self, band: Band, place: Place) -> Band:
        """A heading under a hairline that opens its section."""
        gap = band.before * 0.42
        colour = self._theme.colours.rule
        inner = band.paint

        def paint(writer: Writer, left: float, top: float) -> None:
            writer.artifact()
            writer.line(left + place.x, top, left + place.x + place.width, top, colour, 0.5)
            inner(writer, left, top - gap)

        band.paint = paint
        band.height += gap
        band.before -= gap
        return band

    def _paragraph(self, node: Paragraph, place: Place) -> list[Band]:
        styles = {"body": self._theme.body, "lead": self._theme.lead, "small": self._theme.small}
        style = styles[node.role]
        tag = place.tag.add("P", language=node.language)
        return self._text(self._runs(node.children, style), style, place, tag)

    def _caption(self, place: Place) -> Callable[[Inlines, Tag, str], list[Band]]:
        def set_caption(inlines: Inlines, tag: Tag, id: str) -> list[Band]:
            style = self._theme.caption
            bands = self._text(self._runs(inlines, style), style, place, tag, "caption")
            if bands and id:
                bands[0].paint = announced(bands[0].paint, id)
            return bands

        return set_caption

    # ------------------------------------------------------------ lists

    def _item_list(self, node: ItemList, place: Place) -> list[Band]:
        theme = self._theme
        if not node.items:
            return []
        numbering = "Decimal" if node.ordered else "Disc"
        tag = place.tag.add("L", numbering=numbering)
        labels = [
            f"{number}." if node.ordered else "•–•–"[place.depth % 4]
            for number in range(node.start, node.start + len(node.items))
        ]
        style = theme.label
        cut = [lines(words([TextRun(label, style.look)]), 1e6)[0] for label in labels]
        gutter = max(theme.gutter, max(line.width for line in cut) + theme.body.size * 0.6)
        found: list[Band] = []
        before: ListItem | None = None
        for item, label in zip(node.items, cut, strict=True):
            entry = tag.add("LI")
            entry_label, entry_body = entry.add("Lbl"), entry.add("LBody")
            inner = replace(place.inset(gutter, entry_body), depth=place.depth + 1)
            bands = self._item(item, inner)
            if not bands:
                continue
            _come_from(bands, item.origin)
            at = gutter - theme.body.size * 0.55 - label.width if node.ordered else 1.5
            bands[0].paint = labelled(bands[0].paint, label, style, entry_label, place.x + at)
            bands[0].before = theme.item.before
            if before and isinstance(before.blocks[-1], Table | Figure | Callout):
                bands[0].before = theme.block_gap
            bands[-1].keep = IN_LIST
            found += bands
            before = item
        if found:
            found[0].before = theme.body.before if place.depth == 0 else theme.item.before
            found[0].keep = max(found[0].keep, IN_TEXT)
            found[-1].keep = 0.0
        return found

    def _item(self, item: ListItem, place: Place) -> list[Band]:
        if len(item.blocks) == 1 and isinstance(item.blocks[0], Paragraph):
            style = self._theme.body
            place.tag.language = item.blocks[0].language
            return self._text(self._runs(item.blocks[0].children, style), style, place, place.tag)
        bands = self._blocks(item.blocks, place)
        _bind(bands[:-1], IN_TEXT)
        return bands

    def _table(self, node: Table, place: Place) -> list[Band]:
        """In columns, or where none fit as a list of its rows.

        In a list a table may reach out to the left rather than be parted. One without rows has
        nothing to show and no valid structure: it gives no bands.
        """
        if not node.rows:
            return []
        theme, frame = self._theme, self._frame
        room = Room(place.x, place.width, frame.height)
        pieces = fitted(node, room, theme, self._runs)
        if place.depth and not place.groups and (pieces is None or len(pieces) > 1):
            wide = Room(0.0, place.x + place.width, frame.height)
            others = fitted(node, wide, theme, self._runs)
            if others is not None and (pieces is None or len(others) < len(pieces)):
                room, pieces = wide, others
        if pieces is not None:
            caption = self._caption(replace(place, x=room.x, width=room.width))
            return table_bands(pieces, room, theme, place.tag, self._runs, caption, place.groups)
        bands = self._blocks(row_blocks(node), place)
        bands[0].before = theme.block_gap
        if node.caption:
            bands[0].keep = NEVER
        if node.id:
            bands[0].paint = announced(bands[0].paint, node.id)
        return bands

    # ------------------------------------------------------------ notes

    def _callout(self, node: Callout, place: Place) -> list[Band]:
        theme = self._theme
        width = place.measure(self._theme)
        frame = NoteFrame(theme, node.kind == "safety", place.x, width)
        tag = place.tag.add("Div")
        inner = Place(
            place.x + frame.inset,
            width - frame.inset - theme.pad,
            tag,
            (*place.groups, frame),
        )
        word = {"safety": theme.words.safety, "note": theme.words.note, "tip": theme.words.tip}[
            node.kind
        ]
        colour = theme.colours.warn if node.kind == "safety" else theme.label.colour
        style = replace(theme.label, colour=colour)
        title = plain(node.title)
        shown: Inlines = (
            node.title
            if title.casefold().startswith(word.casefold())
            else (
                Text(f"{word}: " if title else word),
                *node.title,
            )
        )
        bands = self._text(self._runs(shown, style), style, inner, tag.add("P"), measure=False)
        for band in bands:
            band.keep = NEVER
        body = self._blocks(node.blocks, inner)
        _bind(body[:-1], _IN_NOTE)
        _bind(body[-_NOTE_END:-1], _AT_NOTE_END)
        if body and bands:
            body[0].before = min(body[0].before, 3.0)
        bands += body
        if bands:
            bands[0].before = theme.block_gap
            bands[-1].keep = 0.0
        return bands

    # ------------------------------------------------------------ pictures

    def _figure(self, node: Figure, place: Place, above: Sequence[Band]) -> list[Band]:
        theme = self._theme
        holder = place.tag.add("Div") if node.caption else place.tag
        tags = [holder.add("Figure", alt=node.alt, language=node.language)]
        caption_tag = Tag("Caption", language=node.language)
        caption = self._caption(place)(node.caption, caption_tag, "") if node.caption else []
        taken = sum(line.height + line.before for line in caption) + theme.block_gap
        taken += sum(group.above(True) + group.below for group in place.groups)
        pictures, turned = self._sized(node, place, above, taken, tags)
        for tag in tags[1:]:
            holder.adopt(tag)
        if caption:
            holder.adopt(caption_tag)
        found = [picture.band(place.x, place.groups) for picture in pictures]
        for band in found:
            band.before = theme.block_gap
        if node.id:
            found[0].paint = announced(found[0].paint, node.id)
        if caption:
            found[-1].keep = NEVER
            for line in caption[:-1]:
                line.keep = NEVER
        found += caption
        if turned:
            for band in [*_tail(above, NEVER), *found]:
                band.turned = True
        return found

    def _sized(
        self,
        node: Figure,
        place: Place,
        above: Sequence[Band],
        taken: float,
        tags: list[Tag],
    ) -> tuple[list[Picture], bool]:
        """The picture, or its parts, at their printed size, and whether they lie on their side."""
        height = self._frame.height - taken
        tied = Box(place.width, height - _height(above, _TIED))
        alone = Box(place.width, height - _height(above, NEVER))
        if isinstance(node.picture, bytes):
            size = natural(node.picture)
            most = Box(alone.width, min(alone.height, self._frame.height * PHOTO_SHARE))
            scale = inside(size, most)
            return [picture_of(node.picture, size, scale, tags[0], self._setting.grey)], False
        side = None
        if place.width >= self._frame.width * _BROAD:
            side = Box(self._turned.width, self._turned.height - taken - _height(above, NEVER))
        way = fit(node.picture, tied, alone, side, self._theme.label_wish, self._theme.least_label)
        if way.turned or way.strips or way.scale * node.picture.height * MM > tied.height + 0.01:
            _untie(above)
        parts = way.strips or (node.picture,)
        for number in range(2, len(parts) + 1):
            words = self._theme.words.part.format(part=number, parts=len(parts))
            tags.append(Tag("Figure", alt=f"{node.alt} ({words})", language=node.language))
        pictures = [
            picture_of(
                part, natural(part), way.scale, tag, self._setting.grey, cut=bool(way.strips)
            )
            for part, tag in zip(parts, tags, strict=True)
        ]
        return pictures, way.turned

    # ------------------------------------------------------------ cover

    def _cover(self, node: Cover, place: Place) -> list[Band]:
        theme = self._theme
        self._level = 1
        title = self._text(
            [TextRun(node.title, theme.title.look)],
            theme.title,
            place,
            place.tag.add("H1", language=node.language),
            "heading",
            balance=True,
            measure=False,
        )
        if title:
            title[0].paint = announced(title[0].paint, "", (1, node.title))
        byline = self._text(
            self._runs(node.byline, theme.byline), theme.byline, place, place.tag.add("P")
        )
        lead_tag = place.tag.add("P", language=node.language)
        lead = self._text(self._runs(node.lead, theme.lead), theme.lead, place, lead_tag)
        bands = title + byline + lead
        height = self._frame.height - sum(band.height + band.before for band in bands)
        body = cover_body(node, place, height - theme.block_gap * 2, self._setting)
        bands += body
        if sum(band.height + band.before for band in body) <= height:
            for band in bands[:-1]:
                band.keep = NEVER
        bands += contents_bands(self._document.blocks, self._page_of, place, self._setting)
        return bands


# ---------------------------------------------------------------- small parts


def _come_from(bands: Sequence[Band], origin: Origin | None) -> None:
    """The origin of bands whose own node has none: the innermost that is known."""
    for band in bands:
        if band.origin is None:
            band.origin = origin


def _tail(bands: Sequence[Band], cost: float) -> list[Band]:
    """The bands at the end that cannot be parted from what follows for less than ``cost``."""
    start = len(bands)
    while start and bands[start - 1].keep >= cost:
        start -= 1
    return list(bands[start:])


def _height(bands: Sequence[Band], cost: float) -> float:
    return sum(band.height + band.before for band in _tail(bands, cost))


def _bind(bands: Sequence[Band], cost: float) -> None:
    """No break after any of ``bands`` costs less than ``cost``."""
    for band in bands:
        band.keep = max(band.keep, cost)


def _tie(bands: Sequence[Band], blocks: Blocks, limit: float) -> None:
    """Keep the words and the key that lead up to a figure on its page, if they are short."""
    leading = 0
    for block in reversed(blocks[-3:]):
        if not isinstance(block, Paragraph | DefinitionList):
            break
        leading += 1
    if leading == 0 or len(blocks) <= leading or not isinstance(blocks[-leading - 1], Heading):
        return
    heading = max(index for index, band in enumerate(bands) if band.what == "heading")
    if sum(band.height + band.before for band in bands[heading:]) <= limit:
        _bind(bands[heading:], _TIED)


def _hold(last: Band, block: Heading, above: Blocks) -> None:
    """A section may begin a page; one that has hardly begun goes on, and a picture stands with the
    words that say it again."""
    if block.level <= 2:
        last.keep = min(last.keep, CHEAPEST)
    elif len(above) > 1 and isinstance(above[-2], Heading) and isinstance(above[-1], Paragraph):
        last.keep = max(last.keep, _OPENING if above[-2].level < block.level else 0.0)
    elif any(isinstance(each, Figure) for each in above[-2:]) and block.level > 3:
        last.keep = max(last.keep, _SAID)


def _settle(section: Sequence[Band], least: float) -> None:
    """A section that begins on a page has some room there."""
    filled = accumulate(band.height + band.before for band in section)
    _bind(section[: sum(height < least for height in filled)], _BEGUN)


def _untie(bands: Sequence[Band]) -> None:
    for band in bands:
        if band.keep == _TIED:
            band.keep = IN_TEXT


def _announces(block: Block, following: Blocks) -> bool:
    """Whether a paragraph ends in a colon and is followed by what it announces."""
    return (
        isinstance(block, Paragraph)
        and plain(block.children).rstrip().endswith(":")
        and bool(following)
        and isinstance(following[0], ItemList | DefinitionList | Table | Figure)
    )
