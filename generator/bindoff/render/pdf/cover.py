"""A cover's art and its facts: below its words, or art that runs off the paper above them."""

from collections.abc import Sequence

from bindoff.document.tree import Cover, DefinitionList, Figure
from bindoff.records import Record
from bindoff.render.pdf.drawing import open_photo, paint_drawing, photo_size
from bindoff.render.pdf.figures import Box, inside, natural
from bindoff.render.pdf.galley import IN_LIST, Band
from bindoff.render.pdf.parts import (
    Picture,
    Place,
    Setting,
    balanced,
    band_of,
    columns_band,
    picture_of,
)
from bindoff.render.pdf.tagging import Tag, Writer
from bindoff.render.pdf.terms import Fact, facts
from bindoff.render.pdf.text import Line, baseline, lines, narrowest, paint_line, words
from bindoff.render.pdf.theme import MM, TextStyle

_ART_SHARE = 0.45  # of what the cover's words leave: the least its art gets
_ACROSS = 0.7  # of the width: art that can be this wide stands above the facts
_TRIES = 3  # narrower facts are higher, and leave less for the art
_SIDE = 0.38  # of the width: facts beside art
_BLED = 0.45  # of the frame's height: art that runs off the paper is at least so high,
_KEPT = 0.7  # ... and so much of it is seen
_BLED_PPI = 130  # of a photograph: a coarser one is not enlarged to the paper's edges
_FACT_COLUMNS = (2, 3, 4)


def cover_body(node: Cover, place: Place, height: float, setting: Setting) -> list[Band]:
    """Art across the page above facts in two columns, or facts beside art.

    Facts too many for the page's rest follow the art one under another. Art and facts get the
    ``height`` that the cover's words leave.
    """
    list_tag = Tag("L", numbering="None")
    under = _two_columns(node.facts, place, place.width, list_tag, setting)
    if node.art is None:
        return _in_order(place, under, list_tag)
    figure = node.art
    art_tag = Tag("Div")
    most = height * setting.theme.cover_art

    def across(room: float) -> _Art:
        return _art(figure, Box(place.width, min(room, most)), art_tag, setting)

    if height - _high(under) < height * _ART_SHARE:
        column = facts(node.facts, place.width, list_tag, setting)
        under = [fact.band(place.x, place.groups) for fact in column]
        for band in under:
            band.keep = IN_LIST
        under[0].before = setting.theme.block_gap
        picture = across(height)
    else:
        picture = across(height - _high(under))
        if under and picture.width < place.width * _ACROSS:
            return [_beside(node.facts, figure, place, most, setting)]
        for _ in range(_TRIES):  # the facts end where the art ends
            under = _two_columns(node.facts, place, picture.width, list_tag, setting)
            picture = across(height - _high(under))
    art = band_of(picture, place.x, place.groups, "figure")
    art.before = setting.theme.block_gap * 1.6
    return _in_order(place, [art, *under], art_tag, list_tag)


def bled_art(figure: Figure, place: Place, words: float, tag: Tag, setting: Setting) -> Band | None:
    """Art over the paper's whole width and upper edge, above words that are so high.

    Where it is too high for its room, a drawing loses its upper part and a photograph as much above
    as below. None for art that would be too low, lose too much or be coarse.
    """
    theme = setting.theme
    wide = theme.left + place.width + theme.right
    size = natural(figure.picture, cover=True)
    scale = wide / size.width
    high = size.height * scale
    shown = min(high, setting.frame.height + theme.top - words)
    if shown < max(_BLED * setting.frame.height, _KEPT * high):
        return None
    if isinstance(figure.picture, bytes) and photo_size(figure.picture)[0] < wide / 72 * _BLED_PPI:
        return None
    figure_tag = tag.add("Figure", alt=figure.alt, language=figure.language)
    figure_tag.photo_width = wide if isinstance(figure.picture, bytes) else 0.0

    def paint(writer: Writer, left: float, top: float) -> None:
        x, upper = left - theme.left, top + theme.top
        lower = upper - shown
        figure_tag.box = (x, lower, x + wide, upper)
        writer.tag(figure_tag)
        with writer.clipped(x, lower, wide, shown):
            if isinstance(figure.picture, bytes):
                photo = open_photo(figure.picture, wide, setting.grey)
                writer.photo(photo, x, lower - (high - shown) / 2, wide, high)
            else:
                grown = wide / (figure.picture.width * MM)
                paint_drawing(writer, figure.picture, x, lower + high, grown)

    return Band(shown - theme.top, paint, groups=place.groups, what="figure")


def fact_band(node: DefinitionList, place: Place, tag: Tag, setting: Setting) -> Band | None:
    """The facts in a few columns across ``place``, as low as that makes them."""
    theme, gap = setting.theme, setting.theme.column_gap
    if not node.entries:
        return None
    longest = max(
        narrowest(words(setting.runs_of(part, style)))
        for entry in node.entries
        for part, style in ((entry.term, theme.label), (entry.meaning, theme.body))
    )
    ways: list[tuple[float, int, float]] = []
    for count in _FACT_COLUMNS:
        wide = (place.width - gap * (count - 1)) / count
        if longest <= wide or not ways:  # no word is cut
            high = balanced(list(facts(node, wide, tag, setting)), count)[1]
            ways.append((high, count, wide))
    _, count, wide = min(ways)
    columns, height = balanced(list(facts(node, wide, tag, setting)), count)
    band = columns_band(columns, height, wide + gap, place.x, place.groups)
    band.before = theme.block_gap
    band.what = "cover"
    return band


class _Art(Record, eq=False):
    """The picture of a cover above its caption."""

    picture: Picture
    caption: Sequence[Line]
    tag: Tag
    style: TextStyle

    @property
    def width(self) -> float:
        return self.picture.width

    @property
    def height(self) -> float:
        return self.picture.height + self._lead + len(self.caption) * self.style.leading

    @property
    def _lead(self) -> float:
        return self.style.before if self.caption else 0.0

    def paint(self, writer: Writer, x: float, top: float) -> None:
        """Draw it with its top left corner at (x, top)."""
        self.picture.paint(writer, x, top)
        y = top - self.picture.height - self._lead
        for line in self.caption:
            paint_line(writer, line, self.tag, x, baseline(self.style, y))
            y -= self.style.leading


def _art(figure: Figure, room: Box, tag: Tag, setting: Setting) -> _Art:
    """The picture as large as ``room`` allows with its caption; ``tag`` gets new children."""
    tag.kids.clear()
    figure_tag = tag.add("Figure", alt=figure.alt, language=figure.language)
    style = setting.theme.caption
    text = words(setting.runs_of(figure.caption, style))
    size = natural(figure.picture, cover=True)
    caption: list[Line] = []
    for _ in range(_TRIES):  # a narrower picture makes a higher caption
        taken = style.before + len(caption) * style.leading if caption else 0.0
        scale = inside(size, Box(room.width, max(room.height - taken, room.height / 2)))
        caption = lines(text, max(size.width * scale, room.width / 3))
    picture = picture_of(figure.picture, size, scale, figure_tag, setting.grey)
    below = tag.add("Caption", language=figure.language) if caption else tag
    return _Art(picture, caption, below, style)


def _in_order(place: Place, bands: list[Band], *tags: Tag) -> list[Band]:
    for tag in tags:
        place.tag.adopt(tag)
    return bands


def _high(bands: Sequence[Band]) -> float:
    return sum(band.height + band.before for band in bands)


def _two_columns(
    node: DefinitionList, place: Place, width: float, tag: Tag, setting: Setting
) -> list[Band]:
    gap = setting.theme.column_gap * 1.3
    column: list[Fact] = facts(node, (width - gap) / 2, tag, setting)
    if not column:
        return []
    columns, height = balanced(column, 2)
    band = columns_band(columns, height, (width + gap) / 2, place.x, place.groups)
    band.before = setting.theme.block_gap * 1.4
    band.what = "cover"
    return [band]


def _beside(
    node: DefinitionList, art: Figure, place: Place, height: float, setting: Setting
) -> Band:
    """Facts in a narrow column and art in a wide one."""
    gap = setting.theme.column_gap * 1.3
    side = place.width * _SIDE
    list_tag = place.tag.add("L", numbering="None")
    art_tag = place.tag.add("Div")
    column = facts(node, side, list_tag, setting)
    picture = _art(art, Box(place.width - side - gap, height), art_tag, setting)

    def paint(writer: Writer, left: float, top: float) -> None:
        y = top
        for fact in column:
            fact.paint(writer, left + place.x, y)
            y -= fact.height
        picture.paint(writer, left + place.x + side + gap, top)

    tall = max(sum(fact.height for fact in column), picture.height)
    return Band(tall, paint, setting.theme.block_gap * 1.6, 0.0, place.groups, "cover")
