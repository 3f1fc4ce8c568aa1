"""What a chart shows, as plain data: no drawing, no prose.

Rows run bottom to top and each row left to right, as the fabric looks from the right side. Stitch 1
is the right-most stitch, as the trade counts.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from generator.diagnostics import fail
from generator.document.charts.symbols import SYMBOLS

Direction = Literal["right to left", "left to right"]


@dataclass(frozen=True, slots=True)
class ChartKey:
    """One entry of a chart's key.

    ``key`` is the character in the rows, ``symbol`` a name in ``symbols.SYMBOLS``, ``label`` the
    meaning printed in the key. ``colour`` fills the cell (``#rrggbb``); ``ink`` draws the symbol
    and defaults to black or white, whichever stands out more from the fill.

    ``word`` is the short word of the written rows (the label if empty) and ``wrong_side_word`` the
    word on a wrong-side row worked flat (``word`` if empty), such as ``purl`` for ``knit``.
    ``span`` is how many cells one symbol covers: 4 for a cable over four stitches. ``worked`` is
    false for ``no stitch`` cells, which count for nothing.
    """

    key: str
    symbol: str
    label: str
    colour: str | None = None
    ink: str | None = None
    word: str = ""
    wrong_side_word: str = ""
    span: int = 1
    worked: bool = True

    def said(self, *, wrong_side: bool = False) -> str:
        """The word of a written row on the right side, or on the wrong side."""
        word = self.word or self.label
        return (self.wrong_side_word or word) if wrong_side else word


@dataclass(frozen=True, slots=True)
class RepeatBox:
    """A part of the chart to be repeated, stitches counted from the right and rows from the bottom,
    both from 1 and inclusive; ``label`` such as ``8-stitch repeat``."""

    first_stitch: int
    last_stitch: int
    first_row: int
    last_row: int
    label: str


@dataclass(frozen=True, slots=True)
class Marker:
    """A vertical line with a label: ``after`` that many stitches from the right (0 is the right
    edge; a half, such as 12.5, runs through the middle of stitch 13)."""

    after: float
    label: str


@dataclass(frozen=True, slots=True)
class ChartSpec:
    """A chart: ``rows[0]`` is the bottom row, each row left to right as seen from the right side.

    ``worked`` in the round reads every row right to left; flat, the first row is a right-side row
    if ``first_right_side``. ``first_row`` is the number printed at the bottom row. The two cell
    lengths (mm) are those of one real stitch and row by the gauge: only their ratio shows.
    ``base`` gives one key per row for the colour band beside the chart, or is empty.

    Raises:
        PatternError: ``chart-empty``, ``chart-ragged``, ``chart-key``, ``chart-symbol``,
            ``chart-span``, ``chart-mark`` or ``chart-base`` when the parts do not fit together.
    """

    title: str
    rows: tuple[tuple[str, ...], ...]
    keys: tuple[ChartKey, ...]
    worked: Literal["round", "flat"] = "round"
    first_right_side: bool = True
    first_row: int = 1
    cell_width_mm: float = 1.0
    cell_height_mm: float = 1.0
    repeats: tuple[RepeatBox, ...] = ()
    markers: tuple[Marker, ...] = ()
    base: tuple[str, ...] = ()
    base_label: str = "base"

    @property
    def width(self) -> int:
        """Stitches across."""
        return len(self.rows[0])

    @property
    def height(self) -> int:
        """Rows or rounds."""
        return len(self.rows)
