"""A list to work from at arm's length: terms as large as its page allows, entries under rules."""

from collections.abc import Sequence

from bindoff.document.drawing import Drawing
from bindoff.document.tree import Definition, DefinitionList
from bindoff.records import Record, replace
from bindoff.render.pdf.drawing import paint_drawing
from bindoff.render.pdf.galley import IN_LIST, NEVER, Band, Fragment
from bindoff.render.pdf.parts import Place, Setting, band_of
from bindoff.render.pdf.tagging import Tag, Writer
from bindoff.render.pdf.text import Line, TextRun, baseline, lines, paint_line, widest, words
from bindoff.render.pdf.theme import MM, TextStyle, Theme

_SIZES = (1.0, 0.9, 0.8, 0.7, 0.6, 0.52, 0.46)  # of the type of terms: the largest that fits
_LEADING = 1.0  # of a term's size
_PADS = (9.0, 6.0, 3.0, 1.5, 1.0)  # points above and below an entry, the widest that fit
_CLOSE = 0.86  # of the leading of words, where the list would not fit otherwise
_APART = 14.0  # points between the parts of an entry


def stop_bands(
    node: DefinitionList, place: Place, setting: Setting, above: float, title: str
) -> list[Band]:
    """The list as bands, on a page of which ``above`` is taken; where it does not fit even so, a
    line with the ``title`` stands above the rest of it. A line of small print has room below."""
    theme = setting.theme
    tag = place.tag.add("L", numbering="None")
    items = [(item.add("Lbl"), item.add("LBody")) for item in (tag.add("LI") for _ in node.entries)]
    room = setting.frame.height - above - _APART - theme.small.leading - theme.small.before
    close = replace(theme.body, leading=theme.body.leading * _CLOSE)
    for look in (setting, replace(setting, theme=replace(theme, body=close))):
        for share in _SIZES:
            for pad in _PADS:
                entries = _entries(node.entries, items, place.width, share, pad, look)
                if sum(entry.height for entry in entries) <= room:
                    return _bands(entries, place)
    more = lines(words([TextRun(f"{title}, {theme.words.continued}", theme.label.look)]), 1e6)[0]
    return _bands(entries, replace(place, groups=(*place.groups, _Again(theme, place.x, more))))


def _bands(entries: Sequence["_Entry"], place: Place) -> list[Band]:
    found = [band_of(entry, place.x, place.groups, "entry") for entry in entries]
    for band in found:
        band.keep = IN_LIST
    found[0].before = _APART
    found[0].keep = found[-2 if len(found) > 1 else -1].keep = NEVER
    found[-1].keep = NEVER  # the words below the list belong to it
    return found


class _Again(Record, eq=False):
    """What a list is called, above the part of it on a further page."""

    theme: Theme
    x: float
    title: Line

    @property
    def once(self) -> bool:
        """It frames each part."""
        return False

    @property
    def below(self) -> float:
        return 0.0

    def above(self, again: bool) -> float:
        return self.theme.label.leading + _APART if again else 0.0

    def paint(self, writer: Writer, left: float, fragment: Fragment) -> None:
        if not fragment.first:
            writer.artifact("Pagination", "Header")
            y = baseline(self.theme.label, fragment.top)
            paint_line(writer, self.title, None, left + self.x, y)


def _entries(
    nodes: Sequence[Definition],
    tags: Sequence[tuple[Tag, Tag]],
    width: float,
    share: float,
    pad: float,
    setting: Setting,
) -> list["_Entry"]:
    """All entries on the same edges: mark, term, meaning and, at the right, what ends them."""
    theme = setting.theme
    style = replace(
        theme.term, size=theme.term.size * share, leading=theme.term.size * share * _LEADING
    )
    terms = [words(setting.runs_of(node.term, style)) for node in nodes]
    term = max(widest(each) for each in terms)
    mark = _room([node.mark for node in nodes])
    end = _room([node.end for node in nodes])
    left = mark + term + _APART
    room = width - left - end
    return [
        _Entry(
            lines(text, term + 0.01),
            lines(words(setting.runs_of(node.meaning, theme.body)), room),
            node.mark,
            node.end,
            *tag,
            style,
            theme,
            (mark, term, left, width),
            pad,
            node is nodes[-1],
        )
        for node, text, tag in zip(nodes, terms, tags, strict=True)
    ]


def _room(drawings: Sequence[Drawing | None]) -> float:
    """The room of a column of drawings, with white space beside it."""
    widths = [each.width * MM for each in drawings if each]
    return max(widths) + _APART if widths else 0.0


class _Entry(Record, eq=False):
    """An entry; ``edges`` are the room of its mark and of its term, the left edge of its meaning
    and the right one of what ends it. All stand on one middle."""

    term: list[Line]
    meaning: list[Line]
    mark: Drawing | None
    end: Drawing | None
    label: Tag
    body: Tag
    style: TextStyle
    theme: Theme
    edges: tuple[float, float, float, float]
    pad: float
    last: bool

    @property
    def height(self) -> float:
        """In points."""
        text = len(self.meaning) * self.theme.body.leading
        drawn = [each.height * MM for each in (self.mark, self.end) if each]
        return max(self.style.leading, text, *drawn) + 2 * self.pad

    def paint(self, writer: Writer, x: float, top: float) -> None:
        """Draw it with its top left corner at (x, top)."""
        mark, term, left, right = self.edges
        middle = top - self.height / 2
        ink = self.theme.colours.ink
        writer.artifact()
        writer.line(x, top, x + right, top, ink, 0.6)
        if self.last:
            writer.line(x, top - self.height, x + right, top - self.height, ink, 0.6)
        for drawing, at in ((self.mark, x), (self.end, x + right)):
            if drawing is not None:
                start = at - drawing.width * MM if drawing is self.end else at
                paint_drawing(writer, drawing, start, middle + drawing.height * MM / 2, 1.0)
        for line in self.term:
            y = baseline(self.style, middle + self.style.leading / 2)
            paint_line(writer, line, self.label, x + mark, y, term, "right")
        y = middle + len(self.meaning) * self.theme.body.leading / 2
        for line in self.meaning:
            paint_line(writer, line, self.body, x + left, baseline(self.theme.body, y))
            y -= self.theme.body.leading
