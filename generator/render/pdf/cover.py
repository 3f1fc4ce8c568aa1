"""The lower part of a cover: its art and its facts."""

from collections.abc import Sequence

from generator.document.tree import Cover, DefinitionList, Figure
from generator.render.pdf.figures import Box, inside, natural
from generator.render.pdf.galley import IN_LIST, Band
from generator.render.pdf.parts import Picture, Place, Setting, balanced, columns_band, picture_of
from generator.render.pdf.tagging import Tag, Writer
from generator.render.pdf.terms import Fact, facts

_ART_SHARE = 0.45  # of what the cover's words leave: the least its art gets
_ACROSS = 0.7  # of the width: art that can be this wide stands above the facts
_TRIES = 3  # narrower facts are higher, and leave less for the art
_SIDE = 0.38  # of the width: facts beside art


def cover_body(node: Cover, place: Place, height: float, setting: Setting) -> list[Band]:
    """Art across the page above facts in two columns, or facts beside art.

    Facts too many for the page's rest follow the art one under another. Art and facts get the
    ``height`` that the cover's words leave.
    """
    list_tag = Tag("L", numbering="None")
    under = _two_columns(node.facts, place, place.width, list_tag, setting)
    if node.art is None:
        return _in_order(place, under, list_tag)
    art_tag = Tag("Figure", alt=node.art.alt)
    size = natural(node.art.picture, cover=True)
    most = height * setting.theme.cover_art

    def across(room: float) -> Picture:
        scale = inside(size, Box(place.width, min(room, most)))
        return picture_of(node.art.picture, size, scale, art_tag, setting.grey)  # type: ignore[union-attr]

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
            return [_beside(node.facts, node.art, place, most, setting)]
        for _ in range(_TRIES):  # the facts end where the art ends
            under = _two_columns(node.facts, place, picture.width, list_tag, setting)
            picture = across(height - _high(under))
    art = picture.band(place.x, place.groups)
    art.before = setting.theme.block_gap * 1.6
    return _in_order(place, [art, *under], art_tag, list_tag)


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
    art_tag = place.tag.add("Figure", alt=art.alt)
    column = facts(node, side, list_tag, setting)
    size = natural(art.picture, cover=True)
    scale = inside(size, Box(place.width - side - gap, height))
    picture = picture_of(art.picture, size, scale, art_tag, setting.grey)

    def paint(writer: Writer, left: float, top: float) -> None:
        y = top
        for fact in column:
            fact.paint(writer, left + place.x, y)
            y -= fact.height
        picture.paint(writer, left + place.x + side + gap, top)

    tall = max(sum(fact.height for fact in column), picture.height)
    return Band(tall, paint, setting.theme.block_gap * 1.6, 0.0, place.groups, "cover")
