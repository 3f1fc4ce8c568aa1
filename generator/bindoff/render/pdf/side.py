"""The side column: titles hang in it, each beside what it opens.

A title that hangs takes no room of the main column. Where it is higher than what it opens, white
space follows, so that the next title, or a block as wide as the page, stands clear of it, also on
a page that is set close.
"""

from collections.abc import Sequence
from itertools import takewhile

from bindoff.document.drawing import Drawing
from bindoff.document.tree import Block, Cover, Figure, Heading, Paragraph, Table
from bindoff.records import Changing
from bindoff.render.pdf.galley import NEVER, Band, Painter
from bindoff.render.pdf.parts import Setting
from bindoff.render.pdf.stacking import CLOSEST
from bindoff.render.pdf.tablefit import table_width
from bindoff.render.pdf.tagging import Writer
from bindoff.render.pdf.theme import MM

_BETWEEN = 3.5  # between a title and one that hangs under it
_BELOW = 10.5  # between a title and what stands clear of it
_OVERHANG = 7.0  # a title may reach so much lower than what ends a page beside it


def wide_ones(blocks: Sequence[Block], main: float, setting: Setting) -> list[bool]:
    """For each block whether it takes the side column too.

    The headings of sections do that say so, with all that is under them but the words and notes
    that open such a section beside its heading, tables of sizes, the names of whose rows stand in
    the side column, and what the ``main`` column has no room for.
    """
    found: list[bool] = []
    wide = True  # before the first heading: the cover
    opening = False
    noted = False  # notes stand beside the heading too
    apart = False  # under a heading of a part that is wide by itself
    for index, block in enumerate(blocks):
        following = blocks[index + 1] if index + 1 < len(blocks) else None
        if isinstance(block, Heading) and block.level == 3 and (block.wide or apart):
            wide = apart = block.wide
            found.append(wide)
        elif isinstance(block, Heading) and block.level <= 2:
            wide, apart = block.wide, False
            opening = isinstance(following, Paragraph) and not block.columns
            noted = _opens_with_words(blocks[index + 1 :])
            found.append(wide and not opening)
        else:
            opening = opening and (isinstance(block, Paragraph) or (noted and _is_note(block)))
            found.append((wide and not opening) or _is_wide(block, main, setting))
    return found


def is_beside_contents(blocks: Sequence[Block], index: int, main: float, setting: Setting) -> bool:
    """Whether a block is a table that opens the first section, where the contents fill the side
    column: it keeps to the ``main`` one if it has room there."""
    match blocks[max(0, index - 2) : index + 1]:
        case [Cover(), Heading(), Table() as table]:
            return table_width(table, setting.theme, setting.runs_of) <= main
        case _:
            return False


def _opens_with_words(section: Sequence[Block]) -> bool:
    """Whether nothing but paragraphs stands in the notes that open a section."""
    opening = takewhile(lambda b: _is_note(b) or not isinstance(b, Heading), section)
    return all(isinstance(block, Heading | Paragraph) for block in opening)


def _is_note(block: Block) -> bool:
    return isinstance(block, Heading) and block.columns and block.level == 3


def _is_wide(block: Block, main: float, setting: Setting) -> bool:
    match block:
        case Table(columns=columns) if any(column.size is not None for column in columns):
            return True
        case Table():
            return table_width(block, setting.theme, setting.runs_of, small=True) > main
        case Figure(picture=Drawing() as drawing):
            return drawing.width * MM > main
        case _:
            return False


class SideColumn(Changing):
    """How far the side column and the main one are filled since a title was last hung."""

    used: float = 0.0
    main: float = 0.0
    gives: float = 0.0  # so much does what fills the main one give way on the closest page
    first: float = 0.0  # of two blocks side by side, so high is the first

    def hang(self, band: Band, height: float) -> None:
        """Hang a title so high, the ``band`` that paints it and takes no height for it."""
        if self.used and not self.main:  # under the one before
            _lower(band, self.used + _BETWEEN)
            self.used += _BETWEEN + height
            band.height = band.before = 0.0
            return
        self._stand_clear(band, band.before)
        self.used = height

    def beside(self, bands: Sequence[Band], clear: bool, held: bool = False) -> None:
        """Set ``bands`` beside what hangs, or ``clear`` of it; ``held`` in a lane of their own."""
        if clear:
            lines = takewhile(lambda band: band.what == "caption", bands)  # of a table, beside it
            self.main += sum(band.height for band in lines)
            self._stand_clear(bands[0], _BELOW)
            self.used = 0.0
            return
        lanes = bands[0].lanes
        count = len(lanes.lefts) if lanes else 1
        for band in bands:
            ends_lane = band.lanes is not None and band is bands[-1]
            share = 1 if held else count
            self.main += (band.height + band.before) / share
            self.gives += (band.give + band.before * (1 - CLOSEST)) / share
            if self.main + _OVERHANG < self.used and not ends_lane:
                band.keep = NEVER
        if held:
            high = sum(band.height + band.before for band in bands)
            self.main -= min(high, self.first)  # they overlap
            self.first = 0.0 if self.first else high

    def _stand_clear(self, band: Band, below: float) -> None:
        """White space above ``band``, which begins both columns anew: as much as it wants, and at
        least ``below`` under what hangs in the side column."""
        if self.used:
            lack = self.used - self.main
            band.before = max(band.before, lack + below)
            closest = lack + self.gives + _BELOW * CLOSEST
            band.clear = max(0.0, closest - band.before * CLOSEST)
        self.main = self.gives = 0.0


def _lower(band: Band, by: float) -> None:
    inner: Painter = band.paint

    def paint(writer: Writer, left: float, top: float) -> None:
        inner(writer, left, top - by)

    band.paint = paint
