"""From the document tree to the galley: every node becomes bands, and tags in reading order."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial
from itertools import accumulate, pairwise, takewhile

from bindoff.diagnostics import fail
from bindoff.document.tree import (
    Beside,
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
    interrupting,
    plain,
)
from bindoff.records import Changing, replace
from bindoff.render.pdf.besides import set_beside
from bindoff.render.pdf.columns import allowed, beside, close_ones, narrow, suits
from bindoff.render.pdf.contents import contents_band, contents_bands
from bindoff.render.pdf.cover import bled_art, cover_body, fact_band
from bindoff.render.pdf.figures import PHOTO_SHARE, Box, Fit, fit, inside, natural
from bindoff.render.pdf.galley import CHEAPEST, IN_LIST, IN_TEXT, NEVER, Band, Lanes, Painter
from bindoff.render.pdf.halves import halved, halved_bands, paired, paired_bands
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
from bindoff.render.pdf.rowlists import row_blocks
from bindoff.render.pdf.side import SideColumn, is_beside_contents, wide_ones
from bindoff.render.pdf.sizelanes import (
    LaneRow,
    Row,
    Shown,
    SizeKey,
    differs,
    displayed,
    figures_band,
    lane_row,
    size_key,
    size_lanes,
)
from bindoff.render.pdf.stops import stop_bands
from bindoff.render.pdf.tablefit import (
    TIGHT,
    Grid,
    Room,
    fitted,
    has_broken_cells,
    hung_names,
    parts_and_lines,
)
from bindoff.render.pdf.tablelanes import in_lanes
from bindoff.render.pdf.tablerows import TICK_AT
from bindoff.render.pdf.tables import table_bands
from bindoff.render.pdf.tablesizes import LEAST_SIZES
from bindoff.render.pdf.tagging import Tag, Writer
from bindoff.render.pdf.terms import definition_bands
from bindoff.render.pdf.text import (
    TextRun,
    baseline,
    lines,
    narrowest,
    runs,
    widest,
    words,
)
from bindoff.render.pdf.theme import MM, TextStyle, Theme

_IN_NOTE = 12.0  # inside a note
_AT_NOTE_END = 45.0  # inside the last bands of one, so many:
_NOTE_END = 6
_OPENING = 30.0  # after the words that open a section
_BEGUN = 12.0  # soon after a section has begun:
_BEGUN_LINES = 8
_SAID = 24.0  # between a picture and its words
_TALL = 30.0  # between the words of a step and a table to tick off of more than
_TALL_ROWS = 12
_FEW_LINES = 6
_ALONE = 8.0  # before the end of a list, or what is said after it, of no more lines than
_ALONE_LINES = 3
_LEAST_LETTERS = 8.0  # points: a drawing gives way no further than to this
_TIED = 300.0  # between a figure and the words that lead up to it
_TIE_SHARE = 0.3  # of the frame's height: the most such words may take
_TIE_SHARE_LARGE = 0.5  # ... in large type
_IN_STEP = 20.0  # between the paragraphs of a step
_LAST_LINE = 120.0  # before the last line of a step of several paragraphs
_NUMBER_EMS = 0.9  # the room of a step's number beside a title in the side column
_TITLES = (1.0, 0.81, 0.667, 0.54, 0.43, 0.36)  # of its size: a long title is set smaller,
_TITLE_LINES = 3  # ... so that it has no more lines than this
_BESIDE_EMS = 3.5  # of a table's type: what a figure beside it leaves free on its left
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


class _Seat(Changing):
    """Where a block stands; ``held`` in a lane of its own, ``hung`` in the side column."""

    place: Place
    lanes: Lanes | None = None
    held: bool = False
    hung: bool = False

    def take(self, bands: Sequence[Band]) -> None:
        for band in bands:
            band.lanes = self.lanes or band.lanes
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
        self._usual, self._fine = theme, theme.of_notes
        self._frame = frame
        self._turned = turned
        self._setting = Setting(theme, self._runs, frame, grey)
        self._lanes = size_lanes(document.sizes, theme, frame.width)
        self._ids = frozenset(ids_of(document.blocks))
        self._waiting = False  # the contents, for the title under which they hang
        self._page_of = page_of  # by name of heading; filled when the pages are known
        self._level = 0  # of the heading before, in tags
        self._section = ""  # the title of the section

    def bands(self, root: Tag) -> list[Band]:
        """The whole document as bands; its tags become children of ``root``."""
        whole = Place(0.0, self._frame.width, root, side=self._theme.side)
        return self._blocks(self._document.blocks, whole)

    # ------------------------------------------------------------ sequences

    def _blocks(self, blocks: Blocks, place: Place) -> list[Band]:
        found: list[Band] = []
        before: Block | None = None
        new_page = False
        sections: list[int] = []
        side = SideColumn()
        noted = 4  # the level of heading that ends what is set as notes are
        key: SizeKey | None = None
        paired_with: Block | None = None  # of two tables side by side the second
        told = zip(blocks, self._seats(blocks, place), interrupting(blocks), strict=True)
        for index, (block, seat, aside) in enumerate(told):
            if isinstance(block, PageBreak):
                new_page = bool(found)
                continue
            if isinstance(block, Figure):
                share = _TIE_SHARE if self._theme.columns > 1 else _TIE_SHARE_LARGE
                _tie(found, blocks[:index], self._frame.height * share)
            if isinstance(block, Heading) and block.level <= noted:
                noted = block.level if block.columns else 4
                self._set_with(self._fine if block.columns else self._usual)
            if isinstance(block, Heading) and block.level <= 2:
                key = self._key(block, blocks[index + 1 :])
            elif key and not aside:
                seat.place = replace(seat.place, groups=(key,))
            high = 0.0
            if block is paired_with:
                continue
            following = blocks[index + 1] if index + 1 < len(blocks) else None
            both = self._in_pair(block, following, seat.place)
            if both:
                paired_with = following
            if seat.hung:
                assert isinstance(block, Heading)
                bands, high = self._hung(block, seat.place)
            elif both:
                bands = both
            else:
                bands = self._block(block, seat.place, found, before)
            if not bands:
                continue
            seat.take(bands)
            if not isinstance(block, PageBreak):
                _come_from(bands, block.origin)
            if isinstance(block, Paragraph) and block.role == "aside" and before is not None:
                bands = self._aside(block, before, seat.place, bands)
            self._space(bands[0], before, block)
            if seat.hung and isinstance(block, Heading):
                side.hang(bands[-1], high)
                side.main += key.above(False) if key and block.level == 2 else 0.0
            elif place.side:
                side.beside(bands, seat.place.x < place.side, seat.held)
            if new_page:
                bands[0].new_page = True
                new_page = False
            elif found and isinstance(block, Heading):
                _hold(found[-1], block, blocks[:index])
            elif isinstance(before, ItemList) and isinstance(block, Paragraph):
                ends = following is None or isinstance(following, Heading)
                if ends and len(bands) <= _ALONE_LINES:
                    _bind(found[-1:], _ALONE)
            if not seat.held:
                _lead_to(bands[-1], block, blocks[index + 1 : index + 2], in_step=place.depth > 0)
                if _opens_list(blocks, index) and len(bands) <= _FEW_LINES:
                    _bind(bands, _TIED)
            if isinstance(block, Heading) and block.level == 2:
                bands[0].fresh = _opens_work(block, blocks, index)
                sections.append(len(found))
            found += bands
            before = block
        for start, stop in pairwise([*sections, len(found)]):
            _settle(found[start : stop - 1], self._theme.body.leading * _BEGUN_LINES)
        return found

    def _seats(self, blocks: Blocks, place: Place) -> list["_Seat"]:
        """Where each of ``blocks`` stands: across ``place``, in its columns, or beside another."""
        if place.side:
            wide = wide_ones(blocks, place.main.width, self._setting)
            seats = [_Seat(replace(place, side=0.0) if each else place.main) for each in wide]
            for index in range(len(blocks)):
                if is_beside_contents(blocks, index, place.main.width, self._setting):
                    seats[index] = _Seat(replace(place.main, bounded=True))
        else:
            seats = [_Seat(place) for _ in blocks]
        if place.groups:
            return seats
        gap = self._theme.column_gap
        for index in range(len(blocks) - 1):
            here = seats[index].place
            other = blocks[index + 1]
            if place.side and isinstance(other, Table):
                continue  # it takes the whole width
            first = beside(blocks[index], other, here.width, self._setting)
            if first and not seats[index].lanes:
                lanes = Lanes((0.0, first + gap))
                seats[index] = _Seat(replace(here, width=first), lanes, held=True)
                rest = replace(here, width=here.width - first - gap)
                seats[index + 1] = _Seat(rest, lanes, held=True)
        if self._theme.columns > 1:
            self._in_columns(blocks, seats)
        if place.side:
            for index, block in enumerate(blocks):
                if isinstance(block, Heading) and not seats[index].lanes and not wide[index]:
                    steps = block.level > 2 or self._opens_steps(blocks[index + 1 : index + 3])
                    seats[index] = self._hanging(block, place, seats[index], steps)
        return seats

    def _in_columns(self, blocks: Blocks, seats: list["_Seat"]) -> None:
        """Give ``blocks`` that may stand in columns their seats there."""
        gap, count = self._theme.column_gap, self._theme.columns
        lanes_of: dict[tuple[float, int], Lanes] = {}
        close = close_ones(blocks) if count > 1 else [False] * len(blocks)
        counts = [count + each for each in close]

        def lane(seat: _Seat, count: int) -> Place:
            wide = (seat.place.width + gap) / count - gap
            return replace(seat.place, width=wide, hang=0.0)

        could = [
            may and not seat.lanes and suits(block, lane(seat, count).width, self._setting)
            for may, block, seat, count in zip(allowed(blocks), blocks, seats, counts, strict=True)
        ]
        for index, stays in enumerate(narrow(blocks, could)):
            if stays:
                place = lane(seats[index], counts[index])
                step = place.width + gap
                lefts = tuple(step * number for number in range(counts[index]))
                lanes = lanes_of.setdefault((place.width, len(lefts)), Lanes(lefts))
                seats[index] = _Seat(place, lanes)

    def _opens_steps(self, following: Blocks) -> bool:
        """Whether steps stand beside the title of their section, with no key of sizes above."""
        steps = [block for block in following if not isinstance(block, Heading)]
        return (
            len(self._document.sizes) < 2
            and bool(steps)
            and isinstance(steps[0], ItemList)
            and steps[0].ordered
        )

    def _hanging(self, block: Heading, place: Place, seat: "_Seat", steps: bool) -> "_Seat":
        """The seat of a heading in the side column, if its words have room there, left of the
        numbers of ``steps``."""
        numbers = self._theme.step.size * _NUMBER_EMS if steps else 0.0
        column = replace(place, width=place.side - self._theme.column_gap - numbers, side=0.0)
        style = self._theme.headings[block.level - 1]
        if block.level > 3 or narrowest(words(self._runs(block.children, style))) > column.width:
            return seat
        return _Seat(column, hung=True)

    def _hung(self, block: Heading, place: Place) -> tuple[list[Band], float]:
        """A heading in the side column as a band without height, and how high it is."""
        rule = self._theme.under_heading[1] if block.level == 2 else 0.0
        parts = self._heading(block, place)
        if not parts:
            return [], 0.0
        high = sum(part.height for part in parts)

        def paint(writer: Writer, left: float, top: float) -> None:
            if rule:
                writer.artifact()
                right = left + place.x + self._frame.width
                writer.line(left + place.x, top, right, top, self._theme.colours.ink, 0.6)
            y = top - rule
            for part in parts:
                part.paint(writer, left, y)
                y -= part.height

        first = parts[0]
        band = Band(rule, paint, first.before, NEVER, place.groups, "heading", first.name)
        if not self._waiting:
            return [band], high
        self._waiting = False
        lowered = rule + high + self._theme.block_gap
        blocks = self._document.blocks
        held = contents_band(blocks, self._page_of, place, self._setting, lowered)
        if held is None:
            return [band], high
        contents, more = held
        contents.before, band.before = band.before, 0.0
        return [contents, band], high + self._theme.block_gap + more

    def _aside(
        self, block: Paragraph, before: Block, place: Place, bands: list[Band]
    ) -> list[Band]:
        """``bands`` of an aside, on the line of the heading ``before`` it if there is room; else
        nothing parts it from what it speaks of."""
        if not isinstance(before, Heading) or before.level < 3:
            return bands
        bands[-1].keep = NEVER
        if self._theme.columns < 2:
            return bands
        style = self._theme.headings[before.level - 1]
        title = widest(words(self._runs(before.children, style)))
        own = widest(words(self._runs(block.children, self._theme.body)))
        if title + self._theme.column_gap + own > place.width:
            return bands
        (band,) = bands
        lift = style.leading + baseline(style, 0.0) - baseline(self._theme.body, 0.0)
        return [replace(_on_one_line(band, lift, place.width - own), keep=NEVER)]

    def _space(self, first: Band, before: Block | None, block: Block) -> None:
        """Less white space under a heading than above it; as much below a figure as above it."""
        if isinstance(before, Heading) and not isinstance(block, Heading):
            gap = self._theme.under_heading[before.level - 1]
            if isinstance(block, Callout):  # its frame needs air
                gap += self._theme.pad * 0.4
            first.before = min(first.before, gap)
        elif isinstance(before, Table | Figure | Callout | Cover):
            first.before = max(first.before, self._theme.block_gap)

    def _block(
        self, block: Block, place: Place, above: Sequence[Band], before: Block | None
    ) -> list[Band]:
        match block:
            case Heading():
                return self._heading(block, place)
            case Paragraph():
                return self._paragraph(block, place)
            case ItemList(close=True):
                return self._close_list(block, place)
            case ItemList():
                return self._item_list(block, place)
            case DefinitionList(filling=True):
                return stop_bands(block, place, self._setting, _since_page(above), self._section)
            case DefinitionList():
                fine = replace(self._setting, theme=self._fine)
                found = definition_bands(block, place, fine)
                if isinstance(before, Figure):  # the key of a chart
                    _bind(found[:-1], _TIED)
                return found
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

    def _set_with(self, theme: Theme) -> None:
        self._theme, self._setting = theme, replace(self._setting, theme=theme)

    def _key(self, title: Heading, following: Blocks) -> SizeKey | None:
        """The key of sizes for the pages of a section of steps that has figures of several.

        A section in columns is told in running words, which need none.
        """
        sizes = self._document.sizes
        section = takewhile(lambda b: not isinstance(b, Heading) or b.level > 2, following)
        if len(sizes) < 2 or title.level < 2 or title.columns or not differs(tuple(section)):
            return None
        name = plain(title.children)
        return size_key(sizes, name, self._theme, self._frame.width, self._lanes)

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
        found = [
            Band(
                style.leading,
                line_painter(line, style, tag, place.x),
                keep=IN_TEXT,
                groups=place.groups,
                what=what,
            )
            for line in lines(words(text), width, balance, rule)
        ]
        if found:
            for band in (found[0], *found[-2:-1]):
                band.keep = NEVER
            found[0].before = style.before
            found[-1].keep = 0.0
        return found

    def _lane_row(self, row: Row, part: Shown, tag: Tag) -> LaneRow | None:
        assert self._lanes
        end = part.end if row is part.rows[-1] else ""
        return lane_row(row, end, self._lanes, tag, self._theme)

    def _heading(self, node: Heading, place: Place) -> list[Band]:
        level = min(node.level, self._level + 1)  # tags may not skip a level
        if node.level == 2:
            self._section = plain(node.children)
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
            colour = self._theme.colours
            if node.level == 2 and place.width == self._frame.width:
                bands[0] = self._ruled(bands[0], place, colour.ink, 0.6)
            elif node.level > 2 and node.wide:
                bands[0] = self._ruled(bands[0], place, colour.rule, 0.4)
        return bands

    def _ruled(self, band: Band, place: Place, colour: str, wide: float) -> Band:
        """A heading under a line ``wide``, of that ``colour``, that opens its section."""
        gap = self._theme.under_heading[1]
        inner = band.paint

        def paint(writer: Writer, left: float, top: float) -> None:
            writer.artifact()
            writer.line(left + place.x, top, left + place.x + place.width, top, colour, wide)
            inner(writer, left, top - gap)

        band.paint = paint
        band.height += gap
        band.before -= gap
        return band

    def _paragraph(self, node: Paragraph, place: Place) -> list[Band]:
        body = self._theme.body
        styles = {
            "body": body,
            "aside": body,
            "lead": self._theme.lead,
            "small": self._theme.small,
        }
        style = styles[node.role]
        tag = place.tag.add("P", language=node.language)
        return self._said(node.children, style, place, tag)

    def _said(self, inlines: Inlines, style: TextStyle, place: Place, tag: Tag) -> list[Band]:
        """Words, in a step with the figures that end its sentences in the lanes of their sizes."""
        if not (self._lanes and place.depth == 1 and abs(place.x - self._theme.side) < 0.01):
            return self._text(self._runs(inlines, style), style, place, tag)
        found: list[Band] = []
        parts = displayed(inlines)
        for at, part in enumerate(parts):
            if not isinstance(part, Shown):
                more = at + 1 < len(parts)
                bands = self._text(
                    self._runs(_led(part) if more else part, style), style, place, tag
                )
                if found:
                    bands[0].before = self._theme.figure.before
            else:
                rows = [self._lane_row(row, part, tag) for row in part.rows]
                bands = [figures_band(row, place.groups) for row in rows if row]
                if not found or len(bands) < len(rows):  # no words before them, or no room
                    return self._text(self._runs(inlines, style), style, place, tag)
                bands[0].before = self._theme.figure.before
                _bind([*found, *bands[:-1]], NEVER)
            found += bands
        return found

    def _caption(self, place: Place) -> Callable[[Inlines, Tag, str], list[Band]]:
        def set_caption(inlines: Inlines, tag: Tag, id: str) -> list[Band]:
            style = self._theme.caption
            what = "caption" if place.x >= self._theme.side else "wide caption"
            bands = self._text(self._runs(inlines, style), style, place, tag, what)
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
        style = theme.step if node.ordered else theme.label
        cut = [lines(words([TextRun(label, style.look)]), 1e6)[0] for label in labels]
        hung = node.ordered and place.hang > 0
        widest_label = max(line.width for line in cut)
        gutter = 0.0 if hung else max(theme.gutter, widest_label + theme.body.size * 0.6)
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
            x = place.x + at
            bands[0].dress(partial(labelled, label=label, style=style, tag=entry_label, x=x))
            bands[0].before = theme.step.before if hung else theme.item.before
            if before and isinstance(before.blocks[-1], Table | Figure | Callout):
                bands[0].before = theme.block_gap
            bands[-1].keep = IN_LIST
            found += bands
            before = item
        if found:
            found[0].before = theme.body.before if place.depth == 0 else theme.item.before
            if len(node.items) > 2 and len(bands) <= _ALONE_LINES:
                _bind(found[-len(bands) - 1 : -len(bands)], _ALONE)
            found[0].keep = max(found[0].keep, IN_TEXT)
            found[-1].keep = 0.0
        return found

    def _close_list(self, node: ItemList, place: Place) -> list[Band]:
        """Entries one close under another."""
        before = self._theme
        self._set_with(self._usual.of_close_lists)
        bands = self._item_list(node, place)
        self._set_with(before)
        return bands

    def _item(self, item: ListItem, place: Place) -> list[Band]:
        if len(item.blocks) == 1 and isinstance(item.blocks[0], Paragraph):
            style = self._theme.body
            place.tag.language = item.blocks[0].language
            return self._said(item.blocks[0].children, style, place, place.tag)
        bands = self._blocks(item.blocks, place)
        _bind(bands[:-1], _IN_STEP if place.depth == 1 else IN_TEXT)
        if isinstance(item.blocks[-1], Paragraph):
            _bind(bands[-2:-1], _LAST_LINE)  # of a paragraph, or what stands above its only one
        return bands

    def _table(self, node: Table, place: Place) -> list[Band]:
        """In columns, or where none fit as a list of its rows.

        In a list a table may reach out to the left rather than be parted. One without rows has
        nothing to show and no valid structure: it gives no bands.
        """
        if not node.rows:
            return []
        theme, frame = self._theme, self._frame
        if theme.side and not place.bounded and place.x + place.width > frame.width - 0.01:
            whole = Room(0.0, frame.width, frame.height, theme.side)
            few = len(self._document.sizes) < LEAST_SIZES and _has_sizes(node)
            both = self._in_halves(node, place) if few else []
            if both:
                return both
            piece = in_lanes(node, whole, self._document.sizes, theme, self._runs)
            if piece:
                main = replace(place, x=theme.side, width=frame.width - theme.side)
                return table_bands(
                    [piece], whole, theme, place.tag, self._runs, self._caption(main), place.groups
                )
            both = self._in_halves(node, place)
            if both:
                return both
        if theme.side and place.x == 0.0 and _has_sizes(node) and place.width == frame.width:
            place = replace(place, x=theme.side, width=place.width - theme.side)
        room = Room(place.x, place.width, frame.height)
        pieces = fitted(node, room, theme, self._runs)
        if place.depth and not place.bounded and self._is_cramped(pieces):
            hang = theme.table.size * TICK_AT if node.tick else 0.0
            wide = Room(hang, place.x + place.width - hang, frame.height)
            close = replace(theme, cell_gap=theme.cell_gap * TIGHT)
            for others in (fitted(node, wide, each, self._runs) for each in (theme, close)):
                if others and (pieces is None or self._spares(others, pieces)):
                    room, pieces = wide, others
        if pieces and room.x == theme.side > 0 and not place.bounded and not node.beside:
            wide = Room(0.0, frame.width, frame.height, theme.side)
            piece = (
                hung_names(node, wide, theme, self._runs) if has_broken_cells(pieces[0]) else None
            )
            if piece:
                room, pieces = wide, [piece]
        if pieces is not None:
            left = room.x + room.side
            caption = self._caption(replace(place, x=left, width=room.width - room.side))
            bands = table_bands(pieces, room, theme, place.tag, self._runs, caption, place.groups)
            if node.beside and theme.side and place.depth == 1 and room.x == theme.side:
                return self._with_beside(node.beside, bands, place)
            return bands
        bands = self._blocks(row_blocks(node), place)
        bands[0].before = theme.block_gap
        if node.caption:
            bands[0].keep = NEVER
        if node.id:
            bands[0].paint = announced(bands[0].paint, node.id)
        return bands

    def _is_cramped(self, pieces: Sequence[Grid] | None) -> bool:
        """Whether a table has to be parted, or its words broken where no column is at its left."""
        if pieces is None or len(pieces) > 1:
            return True
        return not self._theme.side and has_broken_cells(pieces[0])

    def _spares(self, others: Sequence[Grid], pieces: Sequence[Grid]) -> bool:
        """Whether a table in other columns has fewer parts or, where no column is at its left, as
        many and fewer lines."""
        if self._theme.side:
            return len(others) < len(pieces)
        return parts_and_lines(others) < parts_and_lines(pieces)

    def _in_halves(self, node: Table, place: Place) -> list[Band]:
        """A table in two halves side by side; nothing if it has no use or no room for that."""
        theme, frame = self._theme, self._frame
        if node.beside:  # the place at the left is taken by a figure
            return []
        left = frame.width - theme.side if place.x == 0.0 and _has_sizes(node) else place.width
        main = Room(frame.width - left, left, frame.height)
        whole = Room(0.0, frame.width, frame.height)
        for room in (main, whole):
            both = halved(node, room, theme, self._runs)
            if both is None:
                continue
            piece, half = both
            step = (room.width + theme.column_gap) / 2
            setter = self._caption(replace(place, x=room.x, width=room.width))
            return halved_bands(
                piece, half, step, theme, place.tag, self._runs, setter, place.groups
            )
        return []

    def _in_pair(self, first: Block, second: Block | None, place: Place) -> list[Band]:
        """Two tables of one kind side by side across the frame; nothing if they have no room."""
        theme, frame = self._theme, self._frame
        if not (theme.side and isinstance(first, Table) and isinstance(second, Table)):
            return []
        if place.bounded or place.x + place.width < frame.width - 0.01:
            return []
        whole = Room(0.0, frame.width, frame.height)
        pair = paired(first, second, whole, theme, self._runs)
        if pair is None:
            return []
        one, other, half = pair
        step = (frame.width + theme.column_gap) / 2

        def caption(left: float, words: Inlines, tag: Tag, id: str) -> list[Band]:
            setter = self._caption(replace(place, x=left, width=step - theme.column_gap))
            return setter(words, tag, id)

        return paired_bands(
            (one, other), half, step, theme, place.tag, self._runs, caption, place.groups
        )

    def _with_beside(self, node: Beside, table: list[Band], place: Place) -> list[Band]:
        """A table with a figure in the side column."""
        theme = self._theme
        holder = Tag("Div")
        tags = (holder, holder.add("Figure", alt=node.figure.alt, language=node.figure.language))
        room = theme.side - theme.table.size * _BESIDE_EMS
        side = replace(place, x=0.0, width=room, hang=0.0)
        said = self._caption(side)(node.figure.caption, holder.add("Caption"), "")
        height, grey = self._frame.height, self._setting.grey
        for band in table:
            band.give = 0.0  # lines lead to its rows
        return set_beside(node, table, said, side, theme, height, tags, grey)

    # ------------------------------------------------------------ notes

    def _callout(self, node: Callout, place: Place) -> list[Band]:
        theme = self._theme
        width = place.measure(self._theme)
        kinds = {"safety": theme.words.safety, "note": theme.words.note, "tip": theme.words.tip}
        more = f"{kinds[node.kind]}, {theme.words.continued}"
        said = lines(words([TextRun(more, theme.small.look)]), width)[0]
        frame = NoteFrame(theme, node.kind == "safety", place.x, width, said)
        tag = place.tag.add("Div")
        inner = Place(
            place.x + frame.inset,
            width - frame.inset,
            tag,
            (*place.groups, frame),
            bounded=True,
        )
        word = kinds[node.kind]
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
        heading = replace(inner, x=inner.x + frame.sign, width=inner.width - frame.sign)
        bands = self._text(self._runs(shown, style), style, heading, tag.add("P"), measure=False)
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
        least = max(_LEAST_LETTERS, theme.least_label)
        found = [picture.band(place.x, place.groups, least) for picture in pictures]
        for band in found:
            band.before = theme.block_gap
        if node.id:
            found[0].dress(partial(announced, id=node.id))
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
        if node.landscape and side is not None:
            way = Fit(inside(natural(node.picture), side), turned=True)
        if way.turned or way.strips or way.scale * node.picture.height * MM > tied.height + 0.01:
            _untie(_tail(above, _TIED))
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

    def _title_style(self, title: str, width: float) -> TextStyle:
        """The largest style in which a title has no more than three lines, else the smallest."""
        usual = self._theme.title
        for share in _TITLES:
            style = replace(usual, size=usual.size * share, leading=usual.leading * share)
            if len(lines(words([TextRun(title, style.look)]), width)) <= _TITLE_LINES:
                break
        return style

    def _cover(self, node: Cover, place: Place) -> list[Band]:
        theme = self._theme
        self._level = 1
        style = self._title_style(node.title, place.width)
        title = self._text(
            [TextRun(node.title, style.look)],
            style,
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
        fine = replace(self._setting, theme=self._fine)
        bands = self._bled_cover(node, place, title, lead, byline) if theme.cover_bleeds else []
        if not bands:
            bands = title + byline + lead
            height = self._frame.height - sum(band.height + band.before for band in bands)
            body = cover_body(node, place, height - theme.block_gap * 2, fine)
            bands += body
            if sum(band.height + band.before for band in body) <= height:
                _bind(bands[:-1], NEVER)
        self._waiting = theme.side > 0 and node.art is not None
        if not self._waiting:
            bands += contents_bands(self._document.blocks, self._page_of, place, self._setting)
        return bands

    def _bled_cover(
        self, node: Cover, place: Place, title: list[Band], lead: list[Band], byline: list[Band]
    ) -> list[Band]:
        """A cover whose art runs off the paper above its words; nothing if it has none for that."""
        if node.art is None:
            return []
        holder = Tag("Div")
        caption_tag = Tag("Caption", language=node.art.language)
        caption = self._caption(place)(node.art.caption, caption_tag, "")
        wide = [
            widest(words(self._runs(said, style)))
            for said, style in (
                (node.byline, self._theme.byline),
                (node.art.caption, self._theme.caption),
            )
        ]
        if len(caption) == len(byline) == 1 and sum(wide) < place.width - self._theme.column_gap:
            caption = [_on_one_line(caption[0], byline[0].height, place.width - wide[1])]
        facts = Tag("L", numbering="None")
        fine = replace(self._setting, theme=self._fine)
        band = fact_band(node.facts, place, facts, fine)
        known = [band] if band else []
        below = [*title, *lead, *known, *byline, *caption]
        title[0].before = self._theme.block_gap * 1.5
        high = sum(each.height + each.before for each in below)
        art = bled_art(node.art, place, high, holder, self._setting)
        if art is None:
            return []
        if node.art.caption:
            holder.adopt(caption_tag)
        place.tag.adopt(holder)
        if band:
            place.tag.adopt(facts)
        read = (title, byline, lead, [art], caption, known)
        for turn, parts in enumerate(read, start=-len(read)):
            for each in parts:
                each.reading = turn
        _bind([art, *below[:-1]], NEVER)
        return [art, *below]


# ---------------------------------------------------------------- small parts


def _come_from(bands: Sequence[Band], origin: Origin | None) -> None:
    """The origin of bands whose own node has none: the innermost that is known."""
    for band in bands:
        if band.origin is None:
            band.origin = origin


def _on_one_line(band: Band, lift: float, step: float) -> Band:
    """``band`` on the right of the one before it, ``step`` from its left edge: ``lift`` higher than
    it would be below that, where it takes no height."""
    inner: Painter = band.paint

    def paint(writer: Writer, left: float, top: float) -> None:
        inner(writer, left + step, top + lift)

    return replace(band, paint=paint, height=0.0, before=0.0)


def _tail(bands: Sequence[Band], cost: float) -> list[Band]:
    """The bands at the end that cannot be parted from what follows for less than ``cost``."""
    start = len(bands)
    while start and bands[start - 1].keep >= cost:
        start -= 1
    return list(bands[start:])


def _led(words: Inlines) -> Inlines:
    """Words that end in a colon before the figures that follow below, unless a sentence ends."""
    last = words[-1]
    if isinstance(last, Text):
        words = (*words[:-1], replace(last, text=last.text.rstrip()))
    return words if plain(words)[-1:] in ":.!?" else (*words, Text(":"))


def _since_page(bands: Sequence[Band]) -> float:
    """How high the bands are since the last that must begin a page."""
    start = max((at for at, band in enumerate(bands) if band.new_page), default=0)
    return sum(band.height + band.before for band in bands[start:])


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
        if above[-2].wide:  # it says what is under it all
            last.keep = NEVER
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


def _lead_to(last: Band, block: Block, following: Blocks, in_step: bool) -> None:
    """Keep words with what they announce, a step with its table or note, a picture with its key or
    its words."""
    kinds = {type(each) for each in following}
    of_step = in_step and not isinstance(block, Table) and kinds & {Table, Callout}
    tall = of_step and any(isinstance(each, Table) and _is_tall(each) for each in following)
    if _announces(block, following) or (of_step and not tall):
        last.keep = NEVER
    elif tall:
        last.keep = max(last.keep, _TALL)
    elif isinstance(block, Figure) and kinds & {DefinitionList, ItemList, Paragraph}:
        last.keep = max(last.keep, _TIED)


def _is_tall(table: Table) -> bool:
    """Whether it is ticked off over so many rows that it is whole on a page only by itself."""
    return table.tick and len(table.rows) > _TALL_ROWS


def _opens_list(blocks: Blocks, index: int) -> bool:
    """Whether the block is of the paragraphs, two at most, between a heading and its list."""
    opening = 0
    while opening < 2 and index - opening >= 0 and isinstance(blocks[index - opening], Paragraph):
        opening += 1
    title = blocks[index - opening]
    near = blocks[index + 1 : index + 3]
    following = next((each for each in near if not isinstance(each, Paragraph)), None)
    return (
        opening > 0
        and isinstance(title, Heading)
        and title.level > 2
        and isinstance(following, ItemList)
    )


def _opens_work(title: Heading, blocks: Blocks, index: int) -> bool:
    """Whether steps or charts stand under ``title``, which would rather begin a page."""
    section = takewhile(lambda b: not isinstance(b, Heading) or b.level > 2, blocks[index + 1 :])
    return not title.columns and any(
        (isinstance(b, ItemList) and b.ordered) or (title.wide and isinstance(b, Figure))
        for b in section
    )


def _has_sizes(node: Table) -> bool:
    return any(column.size is not None for column in node.columns)


def _announces(block: Block, following: Blocks) -> bool:
    """Whether a paragraph ends in a colon and is followed by what it announces."""
    return (
        isinstance(block, Paragraph)
        and plain(block.children).rstrip().endswith(":")
        and bool(following)
        and isinstance(following[0], ItemList | DefinitionList | Table | Figure)
    )
