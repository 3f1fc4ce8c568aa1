"""Pages with a bar in the margin beside each line whose words are new or have changed.

Both documents are laid out; what is drawn as text is compared word by word, so that a line that
only moved to another page is no change. Bars are decoration to a screen reader: whoever makes such
pages tells the changes in words too.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from difflib import SequenceMatcher
from typing import Literal, NamedTuple

from bindoff.document.drawing import Cells
from bindoff.document.tree import Document
from bindoff.render.pdf.pages import Bar, Options, draw, lay_out, to_file
from bindoff.render.pdf.tagging import Colour, Photo, Tag, Writer
from bindoff.render.pdf.typefiles import Font

_GAP = 10.0  # points from a bar to the text beside it, at the least
_JOINED = 1.2  # of the type size: bars that are no further apart are one


class _Word(NamedTuple):
    """A word as it is drawn, in points from the bottom left of its page."""

    text: str
    page: int
    x: float
    y: float
    size: float


class _Listener(Writer):
    """Remembers the words that are drawn: no decoration, and no lettering of drawings."""

    def __init__(self) -> None:
        self.words: list[_Word] = []
        self._page = -1
        self._heard = False

    def new_page(self, width: float, height: float) -> None:
        """Count the page."""
        self._page += 1
        self._heard = False

    def tag(self, tag: Tag) -> None:
        """What follows is heard, unless it belongs to a drawing."""
        self._heard = tag.role != "Figure"

    def artifact(self, kind: Literal["Layout", "Pagination"] = "Layout", subtype: str = "") -> None:
        """What follows is decoration."""
        self._heard = False

    def text(
        self,
        font: Font,
        size: float,
        colour: Colour,
        at: tuple[float, float],
        text: str,
        kerns: tuple[int, ...] | None = None,
        turn: tuple[float, float] | None = None,
    ) -> None:
        """Remember the words of ``text``."""
        if self._heard:
            self.words += [_Word(word, self._page, *at, size) for word in text.split()]

    def shape(
        self,
        path: str,
        fill: Colour | None = None,
        stroke: Colour | None = None,
        width: float = 0.0,
        dash: tuple[float, ...] = (),
    ) -> None:
        """Nothing."""

    def stamp(
        self,
        path: str,
        reach: float,
        spots: Sequence[tuple[float, float]],
        fill: Colour | None = None,
        stroke: Colour | None = None,
        width: float = 0.0,
    ) -> None:
        """Nothing."""

    @contextmanager
    def clipped(self, x: float, y: float, w: float, h: float) -> Iterator[None]:
        """Nothing."""
        yield

    def photo(self, photo: Photo, x: float, y: float, w: float, h: float) -> None:
        """Nothing."""

    def link(self, tag: Tag, box: tuple[float, float, float, float]) -> None:
        """Nothing."""

    def field(self, tag: Tag, box: tuple[float, float, float, float]) -> None:
        """Nothing."""

    def place(self, name: str, top: float) -> None:
        """Nothing."""

    def cells(self, cells: Cells, x: float, top: float, unit: float) -> None:
        """Nothing."""

    def outline(self, level: int, title: str, top: float) -> None:
        """Nothing."""


def render_marked(old: Document, new: Document, options: Options) -> bytes:
    """The PDF of ``new`` with a bar beside each line that ``old`` has not.

    Where words are gone, the line that follows them has the bar. Raises ``PatternError`` as
    ``render_pdf`` does.
    """
    before, after = _words(old, options), _words(new, options)
    layout = lay_out(new, options)
    left, right = layout.theme.left - _GAP, layout.paper[0] - layout.theme.right + _GAP
    bars = _bars(_changed(before, after), left, right, layout.paper[0] / 2)
    return to_file(new, options, layout, bars)


def _words(document: Document, options: Options) -> list[_Word]:
    listener = _Listener()
    draw(listener, lay_out(document, options), document)
    return listener.words


def _changed(before: Sequence[_Word], after: Sequence[_Word]) -> Iterator[_Word]:
    texts = [word.text for word in before], [word.text for word in after]
    for kind, _, _, start, stop in SequenceMatcher(None, *texts, autojunk=False).get_opcodes():
        if kind == "delete":
            yield from after[start : start + 1]
        elif kind != "equal":
            yield from after[start:stop]


def _bars(
    changed: Iterator[_Word], left: float, right: float, middle: float
) -> Mapping[int, tuple[Bar, ...]]:
    """The bars of each page, those of neighbouring lines joined; a word in the right half of the
    page has its bar at the right."""
    heights: dict[tuple[int, bool], list[tuple[float, float, float]]] = defaultdict(list)
    for word in changed:
        low, high = word.y - word.size * 0.25, word.y + word.size * 0.8
        heights[word.page, word.x >= middle].append((low, high, word.size))
    found: dict[int, list[Bar]] = defaultdict(list)
    for (page, at_right), strips in sorted(heights.items()):
        x = right if at_right else left
        low, high, _ = min(strips)
        for start, stop, size in sorted(strips)[1:]:
            if start - high > size * _JOINED:
                found[page].append(Bar(x, low, high))
                low = start
            high = max(high, stop)
        found[page].append(Bar(x, low, high))
    return {page: tuple(bars) for page, bars in found.items()}
