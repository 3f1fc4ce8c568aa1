"""The galley: a long column of bands, which ``paging`` cuts into pages.

A band is a strip of the column that is never cut: a line of text, a table row, a figure. What may
be parted is said by the bands themselves: ``keep`` is the cost of ending a page or lane after one.
"""

from collections.abc import Callable
from typing import Protocol

from bindoff.document.tree import Origin
from bindoff.records import Changing, Record, field
from bindoff.render.pdf.tagging import Writer

NEVER = float("inf")
"""The cost of a break that must not be."""

CHEAPEST = -2.0
"""The least that a break costs."""

IN_TEXT = 3.0
"""The cost of ending a page inside a paragraph."""

IN_LIST = 1.0
"""The cost of ending a page between two entries of a list."""

_EMPTY = 100.0

Painter = Callable[[Writer, float, float], None]


def emptiness(filled: float, height: float) -> float:
    """The cost of leaving a page or lane empty below ``filled``; it grows with the square."""
    return _EMPTY * (1 - filled / height) ** 2


class Group(Protocol):
    """What frames neighbouring bands on each page they are on: a note's frame, a table's head."""

    @property
    def once(self) -> bool:
        """Whether a page needs it once only, though other things stand between what it frames."""

    @property
    def below(self) -> float:
        """The room it takes below its last band on a page."""

    def above(self, again: bool) -> float:
        """The room it takes above its first band on a page, ``again`` if it is continued there."""

    def paint(self, writer: Writer, left: float, fragment: "Fragment") -> None:
        """Draw it around ``fragment``, before the bands in it."""


class Lanes(Record, eq=False):
    """Narrow columns side by side, by the left edge of each."""

    lefts: tuple[float, ...]


class Band(Changing):
    """A strip of the column. ``paint`` gets the left edge of the frame and the strip's top.

    ``before`` is white space above, dropped at the top of a page or lane. ``turned`` bands stand on
    pages that lie on their side. A ``fresh`` band would rather begin a page. ``what`` names the
    kind for messages and tests; ``name`` is that of a heading that links lead to; ``origin`` is
    that of the node it is part of. ``reading`` is its turn where the bands of its page are read in
    another order than they stand in; the lowest are painted first. ``remind`` makes it say again
    what heads its page, which makes it higher. On a page that is set close it gives way by up to
    ``give`` of its height, and ``closer`` paints it lower by so much; there it keeps up to
    ``clear`` more white space above, to stand clear of what hangs beside the bands above it.
    """

    height: float
    paint: Painter
    before: float = 0.0
    keep: float = 0.0
    groups: tuple[Group, ...] = ()
    what: str = "text"
    name: str = ""
    new_page: bool = False
    fresh: bool = False
    turned: bool = False
    lanes: Lanes | None = None
    origin: Origin | None = None
    remind: Callable[[], None] | None = None
    reading: int = 0
    give: float = 0.0
    clear: float = 0.0
    closer: Callable[[float], Painter] | None = None

    def dress(self, wrap: Callable[[Painter], Painter]) -> None:
        """Let ``wrap`` paint around what it paints, also where it gives way."""
        self.paint = wrap(self.paint)
        closer = self.closer
        if closer is not None:
            self.closer = lambda less: wrap(closer(less))


class Placed(Record, eq=False):
    """A band with its place: right of the frame's left edge, and its top below the frame's."""

    band: Band
    x: float
    top: float


class Fragment(Changing):
    """The part of a group that is in one lane of a page; ``x``, ``top`` and ``bottom`` as in
    ``Placed``."""

    group: Group
    x: float
    top: float
    first: bool
    bottom: float = 0.0
    last: bool = False
    bands: list[tuple[Band, float]] = field(default_factory=list)


class Page(Changing):
    """What stands on a page."""

    placed: list[Placed]
    fragments: list[Fragment]
    turned: bool
