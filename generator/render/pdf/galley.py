"""The galley: a long column of bands, and its cutting into pages.

A band is a strip of the column that is never cut: a line of text, a table row, a figure. What may
be parted is said by the bands themselves: ``keep`` is the cost of ending a page after one. A page
ends where the cost and the emptiness it leaves are least, so headings stay with their text, rows
stay whole and short tables move to the next page rather than being cut.

Everything is placed before anything is drawn: the number of pages is known, nothing is drawn twice.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Protocol

from generator.diagnostics import fail
from generator.render.pdf.tagging import Writer

NEVER = float("inf")
"""The cost of a break that must not be."""

IN_TEXT = 3.0
"""The cost of ending a page inside a paragraph."""

IN_LIST = 1.0
"""The cost of ending a page between two entries of a list."""

_EMPTY_PAGE = 100.0  # the cost of leaving a whole page empty; it grows with the square
_RUNT = 14.0  # the cost of a last page with next to nothing on it
_RUNT_SHARE = 0.2  # of the frame's height: what is next to nothing


class Group(Protocol):
    """What frames neighbouring bands on each page they are on: a note's frame, a table's head."""

    @property
    def below(self) -> float:
        """The room it takes below its last band on a page."""

    def above(self, again: bool) -> float:
        """The room it takes above its first band on a page, ``again`` if it is continued there."""

    def paint(self, writer: Writer, left: float, fragment: "Fragment") -> None:
        """Draw it around ``fragment``, before the bands in it."""


@dataclass(slots=True, eq=False)
class Band:
    """A strip of the column. ``paint`` gets the left edge of the frame and the strip's top.

    ``before`` is white space above, dropped at the top of a page. ``turned`` bands stand on pages
    that lie on their side. ``what`` names its kind for messages and tests.
    """

    height: float
    paint: Callable[[Writer, float, float], None]
    before: float = 0.0
    keep: float = 0.0
    groups: tuple[Group, ...] = ()
    what: str = "text"
    new_page: bool = False
    turned: bool = False


@dataclass(slots=True, eq=False)
class Fragment:
    """The part of a group that is on one page; ``top`` and ``bottom`` count down from the frame."""

    group: Group
    top: float
    first: bool
    bottom: float = 0.0
    last: bool = False
    bands: list[tuple[Band, float]] = field(default_factory=list)


@dataclass(slots=True, eq=False)
class Page:
    """Bands with the distance of their tops from the top of the frame."""

    placed: list[tuple[Band, float]]
    fragments: list[Fragment]
    turned: bool


def paginate(bands: Sequence[Band], height: float, turned_height: float) -> list[Page]:
    """Cut ``bands`` into pages whose frames are ``height`` high.

    Raises ``PatternError`` (id ``pdf.layout``) when a band is higher than the frame.
    """
    pages: list[Page] = []
    start = 0
    while start < len(bands):
        turned = bands[start].turned
        page, stop = _fill(bands, start, turned_height if turned else height)
        pages.append(page)
        start = stop
    return pages


def _fill(bands: Sequence[Band], start: int, height: float) -> tuple[Page, int]:
    ends = _ends(bands, start, height)
    if not ends:
        raise fail(
            "pdf.layout",
            f"a {bands[start].what} is higher than the page",
            "make it shorter, cut it in parts, or choose another paper",
        )
    last = ends[-1][0]
    if last == len(bands) or _must_end(bands, start, last):
        stop = last
    else:
        stop = min(ends, key=lambda end: (_cost(bands, end[0], end[1], height), -end[0]))[0]
        if bands[stop - 1].keep == NEVER:  # no break is allowed: take the fullest page
            stop = last
    return _place(bands, start, stop), stop


def _cost(bands: Sequence[Band], stop: int, filled: float, height: float) -> float:
    empty = 1 - filled / height
    left = _left_over(bands, stop, height * _RUNT_SHARE) / (height * _RUNT_SHARE)
    return bands[stop - 1].keep + _EMPTY_PAGE * empty * empty + _RUNT * max(0.0, 1 - left)


def _left_over(bands: Sequence[Band], stop: int, enough: float) -> float:
    """The height of what follows until a page must end, or at least ``enough``."""
    height = 0.0
    for index in range(stop, len(bands)):
        if height >= enough or (index > stop and _must_end(bands, stop, index)):
            break
        height += bands[index].height + bands[index].before
    return height


def _must_end(bands: Sequence[Band], start: int, at: int) -> bool:
    return bands[at].new_page or bands[at].turned != bands[start].turned


def _ends(bands: Sequence[Band], start: int, height: float) -> list[tuple[int, float]]:
    """Where the page that begins with ``start`` may end, with the height it then has."""
    ends: list[tuple[int, float]] = []
    y = 0.0
    for index in range(start, len(bands)):
        if index > start and _must_end(bands, start, index):
            break
        y = _top(bands, start, index, y) + bands[index].height
        total = y + sum(group.below for group in bands[index].groups)
        if total > height + 0.01:
            break
        ends.append((index + 1, total))
    return ends


def _top(bands: Sequence[Band], start: int, index: int, y: float) -> float:
    """The top of band ``index`` when what is above it on the page ends at ``y``."""
    band = bands[index]
    if index > start:
        gone = [group for group in bands[index - 1].groups if group not in band.groups]
        y += sum(group.below for group in gone) + band.before
    return y + sum(group.above(again) for group, again in _opened(bands, start, index))


def _opened(bands: Sequence[Band], start: int, index: int) -> list[tuple[Group, bool]]:
    """The groups that open above band ``index`` on its page, and whether each is continued."""
    before = bands[index - 1].groups if index else ()
    if index > start:
        return [(group, False) for group in bands[index].groups if group not in before]
    return [(group, group in before) for group in bands[index].groups]


def _place(bands: Sequence[Band], start: int, stop: int) -> Page:
    page = Page([], [], bands[start].turned)
    running: list[Fragment] = []
    y = 0.0
    for index in range(start, stop):
        band = bands[index]
        while running and running[-1].group not in band.groups:
            fragment = running.pop()
            y_end = y + fragment.group.below
            fragment.bottom, fragment.last = y_end, True
            y = y_end
        if index > start:
            y += band.before
        for group, again in _opened(bands, start, index):
            fragment = Fragment(group, y, not again)
            page.fragments.append(fragment)
            running.append(fragment)
            y += group.above(again)
        page.placed.append((band, y))
        for fragment in running:
            fragment.bands.append((band, y))
        y += band.height
    following = bands[stop].groups if stop < len(bands) else ()
    while running:
        fragment = running.pop()
        y += fragment.group.below
        fragment.bottom, fragment.last = y, fragment.group not in following
    return page
