"""Which blocks stand in narrow columns side by side: those under a heading that allows it, if no
table or picture of theirs would suffer."""

from collections.abc import Sequence
from itertools import groupby

from bindoff.document.drawing import Drawing
from bindoff.document.tree import (
    Block,
    Blocks,
    Callout,
    Cover,
    DefinitionList,
    Figure,
    Heading,
    ItemList,
    PageBreak,
    Paragraph,
    Table,
    plain,
)
from bindoff.records import replace
from bindoff.render.pdf.drawing import least_label
from bindoff.render.pdf.parts import Setting
from bindoff.render.pdf.tablefit import table_width
from bindoff.render.pdf.terms import height_within
from bindoff.render.pdf.text import narrowest, widest, words
from bindoff.render.pdf.theme import MM, Theme

_SHRUNK = 0.82  # of its natural size: a drawing may be this small in a column,
_SHRUNK_MOST = 0.76  # ... and this small beside its table
_SHORT = 500  # characters
_KEY_EMS = 10  # a chart's key beside it is at least this wide
_CAPTION_EMS = 9  # a caption beside a table is at least this wide
_WIDE_EMS = 1.5  # a mark of the key that is wider stands for more than one cell


def narrow(blocks: Blocks, could: Sequence[bool]) -> list[bool]:
    """For each block whether it stands in columns; ``could`` says which are allowed to and suit.

    A heading stands above what it heads: across the page if that does.
    """
    found = list(could)
    at = 0
    for stays, run in groupby(could):
        stop = at + len(list(run))
        if stays and _short(blocks[at:stop]):
            found[at:stop] = [False] * (stop - at)
        at = stop
    for index in range(len(blocks) - 2, -1, -1):
        if isinstance(blocks[index], Heading) and not found[index + 1]:
            found[index] = False
    return found


def _short(blocks: Blocks) -> bool:
    """Whether ``blocks`` are a few lines of text, or one thing, not worth parting."""
    if len(blocks) == 1 and isinstance(blocks[0], Table | Figure | Callout):
        return True
    words = blocks[1:] if isinstance(blocks[0], Heading) else blocks
    length = sum(len(plain(block.children)) for block in words if isinstance(block, Paragraph))
    return length < _SHORT and all(isinstance(block, Paragraph) for block in words)


def allowed(blocks: Blocks) -> list[bool]:
    """Whether each block may stand in columns. The heading of a section stands across them."""
    found = []
    level = 0  # of the heading whose columns are open
    for block in blocks:
        if isinstance(block, Heading) and (not level or block.level <= level):
            level = block.level if block.columns else 0
            found.append(level > 2)
        else:
            found.append(level > 0)
    return found


def close_ones(blocks: Blocks) -> list[bool]:
    """Whether each block stands under a heading with a close list, which has room in a column more
    than others."""
    found: list[bool] = []
    for block in blocks:
        inside = bool(found) and not isinstance(block, Heading) and found[-1]
        if isinstance(block, ItemList) and block.close and not inside:
            start = len(found)
            while start and not isinstance(blocks[start - 1], Heading):
                start -= 1
            found[start:] = [True] * (len(found) - start)
            inside = True
            heading = blocks[start - 1] if start else None
            if isinstance(heading, Heading) and heading.level > 2:
                found[start - 1] = True
        found.append(inside)
    return found


def beside(figure: Block, other: Block, width: float, setting: Setting) -> float:
    """The width of ``figure`` with ``other`` on its right, 0 if they don't go side by side.

    A list stands there if both then take no more height than one below the other.
    """
    if not isinstance(figure, Figure) or not isinstance(figure.picture, Drawing):
        return 0.0
    theme = setting.theme
    natural = figure.picture.width * MM
    room = width - theme.column_gap
    least = max(_SHRUNK_MOST, _legible(figure.picture, theme))
    match other:
        case Table():
            caption = _caption_needs(figure, setting)
            for tight in (False, True):
                most = room - table_width(other, theme, setting.runs_of, tight)
                if most >= max(natural * least, caption):
                    return max(caption, min(most, natural * max(_SHRUNK, least)))
        case Figure(picture=Drawing() as drawing) if theme.columns > 1:
            other_natural = drawing.width * MM
            shrunk = min(1.0, room / (natural + other_natural))
            if shrunk >= max(least, _legible(drawing, theme)):
                return natural * shrunk
        case DefinitionList(entries):
            high, width_beside = figure.picture.height * MM, room - natural
            marks = max((each.mark.width * MM for each in entries if each.mark), default=0.0)
            # Wide marks leave words little room where the type is large.
            beyond = marks if theme.columns == 1 and marks > _WIDE_EMS * theme.body.size else 0.0
            if width_beside < theme.body.size * _KEY_EMS + beyond:
                return 0.0
            fine = replace(setting, theme=theme.of_notes)  # as the key of a chart is set
            below = high + height_within(other, width, fine)
            if max(high, height_within(other, width_beside, fine)) <= below:
                return natural
    return 0.0


def _caption_needs(figure: Figure, setting: Setting) -> float:
    """The width that a caption takes at least, of a few words a line; 0 for none."""
    style = setting.theme.caption
    said = words(setting.runs_of(figure.caption, style))
    if not said:
        return 0.0
    return max(narrowest(said), min(widest(said), style.size * _CAPTION_EMS))


def _legible(drawing: Drawing, theme: Theme) -> float:
    """The share of its natural size at which a drawing's lettering is as small as may be."""
    label = least_label(drawing)
    return min(1.0, theme.least_label / label) if label else 0.0


def suits(block: Block, width: float, setting: Setting) -> bool:
    """Whether ``block`` can be set ``width`` wide without harm."""
    match block:
        case Table():
            return table_width(block, setting.theme, setting.runs_of) <= width
        case Figure(picture=Drawing() as drawing):
            return drawing.width * MM * max(_SHRUNK, _legible(drawing, setting.theme)) <= width
        case Cover() | PageBreak():
            return False
        case ItemList(items):
            inner = width - setting.theme.gutter
            return all(suits(each, inner, setting) for item in items for each in item.blocks)
        case Callout(blocks=inside):
            inner = width - setting.theme.pad * 3
            return all(suits(each, inner, setting) for each in inside)
        case _:
            return True
