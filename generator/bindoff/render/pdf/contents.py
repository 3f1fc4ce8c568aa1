"""The contents of a long document: its sections with the pages they begin on."""

from collections.abc import Mapping, Sequence

from bindoff.document.tree import Blocks, Heading, plain
from bindoff.records import Record, replace
from bindoff.render.pdf.fonts import clean
from bindoff.render.pdf.galley import NEVER, Band
from bindoff.render.pdf.parts import Place, Setting, balanced, band_of, columns_band
from bindoff.render.pdf.tagging import Tag, Writer
from bindoff.render.pdf.text import NBSP, Line, TextRun, baseline, lines, paint_line, words
from bindoff.render.pdf.theme import Theme

_LONG = 8  # sections: a document of fewer needs no contents
_DOT = 0.9  # points: the thickness of a leader's dots
_DOTS_APART = 4.0


def _sections(blocks: Blocks) -> list[Heading]:
    """The headings that contents name; none in a short document."""
    sections = [
        block
        for block in blocks
        if isinstance(block, Heading) and block.level == 2 and clean(plain(block.children)).strip()
    ]
    return sections if len(sections) >= _LONG and all(each.id for each in sections) else []


def contents_band(
    blocks: Blocks,
    page_of: Mapping[str, int],
    place: Place,
    setting: Setting,
    lowered: float,
) -> tuple[Band, float] | None:
    """The contents in the side column, as a band without height that paints them so much lower,
    and how high they are; None for a short document."""
    sections = _sections(blocks)
    if not sections:
        return None
    theme = replace(setting.theme, body=setting.theme.small)
    fine = replace(setting, theme=theme)
    tag = Tag("TOC")
    place.tag.kids.insert(-1, tag)  # before the title, which is painted after it
    style = setting.theme.headings[3]
    title = lines(words([TextRun(theme.words.contents, style.look)]), place.width)[0]
    caption = tag.add("Caption")
    entries = [_entry(section, page_of, place.width, tag, fine, dots=False) for section in sections]

    def paint(writer: Writer, left: float, top: float) -> None:
        y = top - lowered
        paint_line(writer, title, caption, left + place.x, baseline(style, y))
        y -= style.leading
        for entry in entries:
            entry.paint(writer, left + place.x, y)
            y -= entry.height

    high = style.leading + sum(entry.height for entry in entries)
    return Band(0.0, paint, keep=NEVER, what="contents"), high


def contents_bands(
    blocks: Blocks, page_of: Mapping[str, int], place: Place, setting: Setting
) -> list[Band]:
    """The contents as bands, none for a short document.

    ``page_of`` need not be filled before the bands are painted: the names of headings and their
    pages.
    """
    sections = _sections(blocks)
    if not sections:
        return []
    theme = setting.theme
    tag = place.tag.add("TOC")
    columns = theme.columns
    wide = (place.width - theme.column_gap * (columns - 1)) / columns
    title = lines(words([TextRun(theme.words.contents, theme.headings[2].look)]), place.width)[0]
    caption = tag.add("Caption")

    def paint_title(writer: Writer, left: float, top: float) -> None:
        paint_line(writer, title, caption, left + place.x, baseline(theme.headings[2], top))

    head = Band(theme.headings[2].leading + theme.under_heading[2], paint_title)
    head.before = theme.block_gap
    found = [head]
    entries = [_entry(section, page_of, wide, tag, setting) for section in sections]
    if columns > 1:
        stacks, height = balanced(entries, columns)
        found.append(columns_band(stacks, height, wide + theme.column_gap, place.x, place.groups))
    else:
        found += [band_of(entry, place.x, place.groups, "contents") for entry in entries]
    for band in found[:-1]:
        band.keep = 30.0
    return found


def _entry(
    section: Heading,
    page_of: Mapping[str, int],
    width: float,
    tag: Tag,
    setting: Setting,
    dots: bool = True,
) -> "_Entry":
    name = plain(section.children).replace("\n", " ")
    said = [
        run._replace(text=run.text.replace("\n", " "))
        for run in setting.runs_of(section.children, setting.theme.body)
    ]
    reference = tag.add("TOCI").add("Reference")
    link = reference.add("Link", target=f"#{section.id}", language=section.language)
    room = width - setting.theme.body.size * 3
    text = lines(words(said), room)
    return _Entry(name, text, section.id, page_of, width, link, setting.theme, dots)


class _Entry(Record, eq=False):
    """A section's name, dots if there is room for them, and its page."""

    name: str
    text: Sequence[Line]
    id: str
    page_of: Mapping[str, int]
    width: float
    link: Tag
    theme: Theme
    dots: bool

    @property
    def height(self) -> float:
        """In points."""
        above = self.theme.item.before * 0.5 if self.dots else 0.0
        return len(self.text) * self.theme.body.leading + above

    def paint(self, writer: Writer, x: float, top: float) -> None:
        """Draw it with its top left corner at (x, top)."""
        style = self.theme.body
        number = self.page_of[self.id]
        page = lines(words([TextRun(f"{NBSP}{number}", style.look)]), self.width)[0]
        last = baseline(style, top - (len(self.text) - 1) * style.leading)
        right = x + self.width
        start = x + self.text[-1].width + _DOTS_APART
        writer.artifact()
        if self.dots:
            self._dots(writer, start, right - page.width - _DOTS_APART, last, x)
        for index, line in enumerate(self.text):
            paint_line(writer, line, self.link, x, baseline(style, top - index * style.leading))
        self.link.contents = f"{self.name} {number}"
        paint_line(writer, page, self.link, right - page.width, last)
        writer.link(self.link, (x, last - style.size * 0.28, right, top))

    def _dots(self, writer: Writer, start: float, stop: float, y: float, x: float) -> None:
        """Dots at places that all entries of a column share."""
        first = x + -((x - start) // _DOTS_APART) * _DOTS_APART
        if first < stop:
            path = f"{first:.2f} {y:.2f} m {stop:.2f} {y:.2f} l"
            dash = (_DOT, _DOTS_APART - _DOT)
            writer.shape(path, stroke=self.theme.colours.rule, width=_DOT, dash=dash)
