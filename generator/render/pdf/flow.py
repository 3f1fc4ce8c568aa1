"""From the document tree to the galley: every node becomes bands, and tags in reading order."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from generator.diagnostics import fail
from generator.document.drawing import Drawing
from generator.document.tree import (
    Block,
    Blocks,
    Callout,
    Cover,
    Definition,
    DefinitionList,
    Document,
    Figure,
    Heading,
    Inlines,
    ItemList,
    Link,
    ListItem,
    PageBreak,
    Paragraph,
    Table,
    Text,
    plain,
)
from generator.render.pdf.drawing import (
    least_label,
    photo_size,
)
from generator.render.pdf.galley import NEVER, Band, Group
from generator.render.pdf.parts import (
    Entry,
    Fact,
    NoteFrame,
    Picture,
    announced,
    balanced,
    columns_band,
    labelled,
    line_painter,
)
from generator.render.pdf.tables import Room, table_bands
from generator.render.pdf.tagging import Tag, Writer
from generator.render.pdf.text import (
    Run,
    lines,
    runs,
    widest,
    words,
)
from generator.render.pdf.theme import MM, TextStyle, Theme

_IN_TEXT = 3.0  # cost of ending a page inside a paragraph
_IN_LIST = 1.0  # between two entries of a list
_IN_NOTE = 30.0  # inside a note
_BEFORE_SECTION = -2.0  # a section may as well begin a page
_PHOTO_PPI = 150  # a photograph is not printed larger than this sharpness allows
_FIGURE_SHARE = 0.62  # of the frame's height: the most a photograph takes


@dataclass(frozen=True, slots=True)
class Frame:
    """The area of a page that text may use, in points."""

    width: float
    height: float


@dataclass(frozen=True, slots=True)
class _Place:
    """Where blocks go: left edge and width in the frame, parent tag, enclosing groups."""

    x: float
    width: float
    tag: Tag
    groups: tuple[Group, ...] = ()
    depth: int = 0  # of nested lists

    def inset(self, left: float, tag: Tag, right: float = 0.0) -> "_Place":
        return replace(self, x=self.x + left, width=self.width - left - right, tag=tag)


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


class Flow:
    """Builds the galley of one document. ``bands`` does the work; the rest are its parts."""

    def __init__(
        self, document: Document, theme: Theme, frame: Frame, turned: Frame, grey: bool
    ) -> None:
        self._document = document
        self._theme = theme
        self._frame = frame
        self._turned = turned
        self._grey = grey
        self._ids = frozenset(ids_of(document.blocks))
        self._level = 0  # of the heading before, in tags

    def bands(self, root: Tag) -> list[Band]:
        """The whole document as bands; its tags become children of ``root``."""
        return self._blocks(self._document.blocks, _Place(0.0, self._frame.width, root))

    # ------------------------------------------------------------ sequences

    def _blocks(self, blocks: Blocks, place: _Place) -> list[Band]:
        found: list[Band] = []
        new_page = False
        for index, block in enumerate(blocks):
            if isinstance(block, PageBreak):
                new_page = bool(found)
                continue
            lead_in = _kept_height(found)
            bands = self._block(block, place, lead_in)
            if not bands:
                continue
            if new_page:
                bands[0].new_page = True
                new_page = False
            elif found and isinstance(block, Heading) and block.level <= 2:
                found[-1].keep = min(found[-1].keep, _BEFORE_SECTION)
            if _announces(block, blocks[index + 1 : index + 2]):
                bands[-1].keep = NEVER
            found += bands
        return found

    def _block(self, block: Block, place: _Place, lead_in: float) -> list[Band]:
        match block:
            case Heading():
                return self._heading(block, place)
            case Paragraph():
                return self._paragraph(block, place)
            case ItemList():
                return self._item_list(block, place)
            case DefinitionList():
                return self._definitions(block, place)
            case Table():
                room = Room(place.x, place.width, self._frame.height)
                return table_bands(
                    block,
                    room,
                    self._theme,
                    place.tag,
                    self._runs,
                    self._caption(place),
                    place.groups,
                )
            case Figure():
                return self._figure(block, place, lead_in)
            case Callout():
                return self._callout(block, place)
            case Cover():
                return self._cover(block, place)
            case PageBreak():
                return []

    # ------------------------------------------------------------ text

    def _runs(self, inlines: Inlines, style: TextStyle) -> list[Run]:
        return runs(inlines, style, self._theme.colours.accent, self._link_tag)

    def _link_tag(self, link: Link) -> Tag:
        if link.target.startswith("#") and link.target[1:] not in self._ids:
            raise fail(
                "pdf.link",
                f"the link `{plain(link.children)}` leads to `{link.target}`, which does not exist",
                "name the id of a heading, figure or table",
            )
        return Tag("Link", target=link.target, contents=plain(link.children))

    def _text(
        self,
        text: Sequence[Run],
        style: TextStyle,
        place: _Place,
        tag: Tag,
        what: str = "text",
        balance: bool = False,
        measure: bool = True,
    ) -> list[Band]:
        """Lines as bands: two at least stay together at either end of a page."""
        width = self._measure(place) if measure else place.width
        set_lines = lines(words(text), width, balance)
        found = [
            Band(
                style.leading,
                line_painter(line, style, tag, place.x),
                keep=_IN_TEXT,
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

    def _measure(self, place: _Place) -> float:
        """The width of running text: the whole of a narrow place, else the reading measure."""
        return min(place.width, max(self._theme.measure - place.x, place.width * 0.5))

    def _heading(self, node: Heading, place: _Place) -> list[Band]:
        level = min(node.level, self._level + 1)  # tags may not skip a level
        self._level = level
        style = self._theme.headings[node.level - 1]
        bands = self._text(
            self._runs(node.children, style),
            style,
            place,
            place.tag.add(f"H{level}"),
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
            bands[0] = self._ruled(bands[0], place) if node.level == 2 else bands[0]
        return bands

    def _ruled(self, band: Band, place: _Place) -> Band:
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

    def _paragraph(self, node: Paragraph, place: _Place) -> list[Band]:
        styles = {"body": self._theme.body, "lead": self._theme.lead, "small": self._theme.small}
        style = styles[node.role]
        return self._text(self._runs(node.children, style), style, place, place.tag.add("P"))

    def _caption(self, place: _Place) -> Callable[[Inlines, Tag, str], list[Band]]:
        def set_caption(inlines: Inlines, tag: Tag, id: str) -> list[Band]:
            style = self._theme.caption
            bands = self._text(self._runs(inlines, style), style, place, tag, "caption")
            if bands and id:
                bands[0].paint = announced(bands[0].paint, id)
            return bands

        return set_caption

    # ------------------------------------------------------------ lists

    def _item_list(self, node: ItemList, place: _Place) -> list[Band]:
        theme = self._theme
        if not node.items:
            return []
        numbering = "Decimal" if node.ordered else "Disc"
        tag = place.tag.add("L", numbering=numbering)
        labels = [
            f"{number}." if node.ordered else "•–•–"[place.depth % 4]
            for number in range(node.start, node.start + len(node.items))
        ]
        style = replace(
            theme.label, colour=theme.colours.accent if node.ordered else theme.colours.soft
        )
        cut = [lines(words([Run(label, style.look)]), 1e6)[0] for label in labels]
        gutter = max(theme.gutter, max(line.width for line in cut) + theme.body.size * 0.6)
        found: list[Band] = []
        for item, label in zip(node.items, cut, strict=True):
            entry = tag.add("LI")
            entry_label, entry_body = entry.add("Lbl"), entry.add("LBody")
            inner = replace(place.inset(gutter, entry_body), depth=place.depth + 1)
            bands = self._item(item, inner)
            if not bands:
                continue
            at = gutter - theme.body.size * 0.55 - label.width if node.ordered else 1.5
            bands[0].paint = labelled(bands[0].paint, label, style, entry_label, place.x + at)
            bands[0].before = theme.item.before
            bands[-1].keep = _IN_LIST
            found += bands
        if found:
            found[0].before = theme.body.before if place.depth == 0 else theme.item.before
            found[0].keep = max(found[0].keep, _IN_TEXT)
            found[-1].keep = 0.0
        return found

    def _item(self, item: ListItem, place: _Place) -> list[Band]:
        if len(item.blocks) == 1 and isinstance(item.blocks[0], Paragraph):
            style = self._theme.body
            return self._text(self._runs(item.blocks[0].children, style), style, place, place.tag)
        return self._blocks(item.blocks, place)

    def _definitions(self, node: DefinitionList, place: _Place) -> list[Band]:
        if not node.entries:
            return []
        tag = place.tag.add("L", numbering="None")
        count: int = node.columns
        gap = self._theme.column_gap
        wide = place.width if count > 1 else self._measure(place)
        width = (wide - gap * (count - 1)) / count
        while count > 1 and width < self._theme.body.size * 14:  # large print: fewer columns
            count -= 1
            width = (wide - gap * (count - 1)) / count
        entries = self._entries(node.entries, width, place, tag)
        if count == 1:
            found = [entry.band(place.x, place.groups) for entry in entries]
            for band in found:
                band.keep = _IN_LIST
        else:
            found = self._columns(entries, count, width + gap, place)
        found[0].before = self._theme.body.before
        found[-1].keep = 0.0
        if len(found) > 1:
            found[0].keep = max(found[0].keep, _IN_TEXT)
        return found

    def _entries(
        self, nodes: Sequence[Definition], width: float, place: _Place, tag: Tag
    ) -> list[Entry]:
        """Terms beside their meanings, all meanings on one edge."""
        theme = self._theme
        mark_room = max((node.mark.width * MM for node in nodes if node.mark), default=0.0)
        mark_room = min(mark_room, width * 0.4)
        mark_room += 8.0 if mark_room else 0.0
        terms = [words(self._runs(node.term, theme.term)) for node in nodes]
        term_room = min(max(widest(term) for term in terms), (width - mark_room) * 0.42)
        term_room += theme.body.size * 1.1 if term_room else 0.0
        found = []
        for node, term in zip(nodes, terms, strict=True):
            item = tag.add("LI")
            meaning = words(self._runs(node.meaning, theme.body))
            found.append(
                Entry(
                    lines(term, term_room) if term else [],
                    lines(meaning, width - mark_room - term_room) if meaning else [],
                    item.add("Lbl"),
                    item.add("LBody"),
                    node.mark,
                    mark_room,
                    mark_room + term_room,
                    theme,
                )
            )
        return found

    def _columns(
        self, entries: Sequence[Entry], count: int, step: float, place: _Place
    ) -> list[Band]:
        """Entries down one column and then the next, in blocks that fit half a page."""
        limit = self._frame.height * 0.45
        found = []
        rest = list(entries)
        while rest:
            take = len(rest)
            while take > count and balanced(rest[:take], count)[1] > limit:
                take -= 1
            columns, height = balanced(rest[:take], count)
            found.append(columns_band(columns, height, step, place.x, place.groups))
            rest = rest[take:]
        return found

    # ------------------------------------------------------------ notes

    def _callout(self, node: Callout, place: _Place) -> list[Band]:
        theme = self._theme
        width = self._measure(place)
        frame = NoteFrame(theme, node.kind == "safety", place.x, width)
        tag = place.tag.add("Div")
        inner = _Place(
            place.x + frame.inset,
            width - frame.inset - theme.pad,
            tag,
            (*place.groups, frame),
        )
        word = {"safety": theme.words.safety, "note": theme.words.note, "tip": theme.words.tip}[
            node.kind
        ]
        colour = theme.colours.warn if node.kind == "safety" else theme.colours.accent
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
        for band in body[:-1]:
            band.keep = max(band.keep, _IN_NOTE)
        if body and bands:
            body[0].before = min(body[0].before, 3.0)
        bands += body
        if bands:
            bands[0].before = theme.block_gap
            bands[-1].keep = 0.0
        return bands

    # ------------------------------------------------------------ pictures

    def _figure(self, node: Figure, place: _Place, lead_in: float) -> list[Band]:
        theme = self._theme
        holder = place.tag.add("Div") if node.caption else place.tag
        tag = holder.add("Figure", alt=node.alt)
        caption_tag = holder.add("Caption") if node.caption else holder
        caption = self._caption(place)(node.caption, caption_tag, "") if node.caption else []
        below = sum(band.height + band.before for band in caption)
        height = self._frame.height - lead_in - below - theme.block_gap
        pad = sum(group.above(True) + group.below for group in place.groups)
        picture = self._picture(node.picture, place.width, height - pad, tag)
        band = picture.band(place.x, place.groups)
        if isinstance(node.picture, Drawing) and picture.scale < 1.0 and not place.groups:
            turned = self._picture(
                node.picture,
                self._turned.width,
                self._turned.height - below,
                tag,
            )
            label = least_label(node.picture)
            if label * picture.scale < theme.least_label and turned.scale > picture.scale * 1.1:
                band = turned.band(place.x, place.groups)
                band.turned = True
                for line in caption:
                    line.turned = True
        band.before = theme.block_gap
        if node.id:
            band.paint = announced(band.paint, node.id)
        if caption:
            band.keep = NEVER
            for line in caption:
                line.keep = NEVER
            caption[-1].keep = 0.0
        return [band, *caption]

    def _picture(
        self, picture: Drawing | bytes, width: float, height: float, tag: Tag, grow: float = 1.0
    ) -> Picture:
        """``picture`` as large as it is, or as large as fits; ``grow`` lets it be larger."""
        if isinstance(picture, Drawing):
            w, h = picture.width * MM, picture.height * MM
            scale = min(grow, width / w, height / h)
            return Picture(w * scale, h * scale, scale, picture, tag, self._grey)
        pixels = photo_size(picture)
        w, h = (pixel * 72 / _PHOTO_PPI for pixel in pixels)
        scale = min(1.0, width / w, min(height, self._frame.height * _FIGURE_SHARE) / h)
        return Picture(w * scale, h * scale, scale, picture, tag, self._grey)

    # ------------------------------------------------------------ cover

    def _cover(self, node: Cover, place: _Place) -> list[Band]:
        theme = self._theme
        self._level = 1
        title = self._text(
            [Run(node.title, theme.title.look)],
            theme.title,
            place,
            place.tag.add("H1"),
            "heading",
            balance=True,
            measure=False,
        )
        if title:
            title[0].paint = announced(title[0].paint, "", (1, node.title))
        byline = self._text(
            self._runs(node.byline, theme.byline), theme.byline, place, place.tag.add("P")
        )
        lead = self._text(self._runs(node.lead, theme.lead), theme.lead, place, place.tag.add("P"))
        bands = title + byline + lead
        used = sum(band.height + band.before for band in bands)
        bands += self._cover_body(node, place, self._frame.height - used - theme.block_gap * 2)
        for band in bands[:-1]:
            band.keep = NEVER
        return bands

    def _cover_body(self, node: Cover, place: _Place, height: float) -> list[Band]:
        """Facts and art: side by side, or wide art above facts in two columns."""
        theme = self._theme
        gap = theme.column_gap * 1.3
        art_tag = Tag("Figure", alt=node.art.alt) if node.art else None
        facts_tag = Tag("L", numbering="None")
        side = place.width * 0.38
        beside = place.width - side - gap
        facts = self._facts(node.facts, side, facts_tag)
        if node.art is None or art_tag is None:
            if facts:
                place.tag.adopt(facts_tag)
                facts_wide = self._facts(node.facts, (place.width - gap) / 2, facts_tag)
                return [self._two_columns(facts_wide, place, (place.width + gap) / 2)]
            return []
        if _ratio(node.art.picture) > 1.45 or not facts:
            place.tag.adopt(art_tag)
            picture = self._picture(node.art.picture, place.width, height * 0.6, art_tag, 3.0)
            band = picture.band(place.x, place.groups)
            band.before = theme.block_gap * 1.6
            found = [band]
            if facts:
                place.tag.adopt(facts_tag)
                wide = self._facts(node.facts, (place.width - gap) / 2, facts_tag)
                found.append(self._two_columns(wide, place, (place.width + gap) / 2))
            return found
        place.tag.adopt(facts_tag)
        place.tag.adopt(art_tag)
        picture = self._picture(node.art.picture, beside, height, art_tag, 3.0)
        picture_band = picture.band(place.x, place.groups)
        total = sum(fact.height for fact in facts)

        def paint(writer: Writer, left: float, top: float) -> None:
            y = top
            for fact in facts:
                fact.paint(writer, left + place.x, y)
                y -= fact.height
            picture_band.paint(writer, left + side + gap, top)

        return [
            Band(
                max(total, picture.height), paint, theme.block_gap * 1.6, 0.0, place.groups, "cover"
            )
        ]

    def _facts(self, node: DefinitionList, width: float, tag: Tag) -> list[Fact]:
        theme = self._theme
        tag.kids.clear()
        found = []
        for entry in node.entries:
            item = tag.add("LI")
            found.append(
                Fact(
                    lines(words(self._runs(entry.term, theme.label)), width),
                    lines(words(self._runs(entry.meaning, theme.body)), width),
                    item.add("Lbl"),
                    item.add("LBody"),
                    width,
                    theme,
                )
            )
        return found

    def _two_columns(self, facts: Sequence[Fact], place: _Place, step: float) -> Band:
        columns, height = balanced(facts, 2)
        band = columns_band(columns, height, step, place.x, place.groups)
        band.before = self._theme.block_gap * 1.4
        band.what = "cover"
        return band


# ---------------------------------------------------------------- small parts


def _kept_height(bands: Sequence[Band]) -> float:
    """The height of the bands at the end that cannot be parted from what follows."""
    height = 0.0
    for band in reversed(bands):
        if band.keep != NEVER:
            break
        height += band.height + band.before
    return height


def _announces(block: Block, following: Blocks) -> bool:
    """Whether a paragraph ends in a colon and is followed by what it announces."""
    return (
        isinstance(block, Paragraph)
        and plain(block.children).rstrip().endswith(":")
        and bool(following)
        and isinstance(following[0], ItemList | DefinitionList | Table | Figure)
    )


def _ratio(picture: Drawing | bytes) -> float:
    if isinstance(picture, Drawing):
        return picture.width / picture.height
    width, height = photo_size(picture)
    return width / height
