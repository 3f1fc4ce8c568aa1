"""What a chart shows, as plain data: no drawing, no prose.

Rows run bottom to top and each row left to right, as the fabric looks from the right side. Stitch 1
is the right-most stitch, as the trade counts.
"""

from collections.abc import Iterator
from itertools import groupby
from typing import Literal

from bindoff.diagnostics import fail
from bindoff.document.charts.symbols import SYMBOLS, find_symbol
from bindoff.english import how_many
from bindoff.records import Record

Direction = Literal["right to left", "left to right"]


class ChartKey(Record):
    """One entry of a chart's key.

    ``key`` is the character in the rows, ``symbol`` a name in ``symbols.SYMBOLS``, ``label`` the
    meaning printed in the key. ``colour`` fills the cell (``#rrggbb``); ``ink`` draws the symbol
    and defaults to black or white, whichever stands out more from the fill.

    ``word`` is the short word of the written rows (the label if empty) and ``wrong_side_word`` the
    word on a wrong-side row worked flat (``word`` if empty), such as ``purl`` for ``knit``. ``{n}``
    in a word is where the number of a run goes.
    ``span`` is how many cells one symbol covers: 4 for a cable over four stitches. ``uses`` is how
    many live stitches it is worked over, ``span`` of them if ``None``. ``worked`` is false for
    ``no stitch`` cells, which count for nothing. ``beyond`` is true for stitches that stay on the
    needle where a row turns early: the one that is wrapped there, and those not worked. ``note`` is
    what the key adds.
    """

    key: str
    symbol: str
    label: str
    colour: str | None = None
    ink: str | None = None
    word: str = ""
    wrong_side_word: str = ""
    span: int = 1
    uses: int | None = None
    worked: bool = True
    note: str = ""
    beyond: bool = False

    @property
    def over(self) -> int:
        """The live stitches it is worked over."""
        return self.span if self.uses is None else self.uses

    def said(self, *, wrong_side: bool = False) -> str:
        """The word of a written row on the right side, or on the wrong side."""
        return " ".join(self._word(wrong_side).replace("{n}", "").split())

    def times(self, count: int, *, wrong_side: bool = False) -> str:
        """The words for ``count`` of it in a row: ``knit 3``, ``ssk 2 times``."""
        word = self._word(wrong_side)
        if "{n}" in word:
            return word.replace("{n}", str(count))
        return word if count == 1 else f"{word} {count} times"

    def _word(self, wrong_side: bool) -> str:
        word = self.word or self.label
        return (self.wrong_side_word or word) if wrong_side else word


class RepeatBox(Record):
    """A part of the chart to be repeated, stitches counted from the right and rows from the bottom,
    both from 1 and inclusive; ``label`` such as ``8-stitch repeat``."""

    first_stitch: int
    last_stitch: int
    first_row: int
    last_row: int
    label: str


class Marker(Record):
    """A vertical line with a label: ``after`` that many stitches from the right (0 is the right
    edge; a half, such as 12.5, runs through the middle of stitch 13)."""

    after: float
    label: str


class Tag(Record):
    """A number at the corner of a cell; its row counts from the bottom and its stitch from the
    right, both from 1."""

    row: int
    stitch: int
    text: str


class ChartSpec(Record):
    """A chart: ``rows[0]`` is the bottom row, each row left to right as seen from the right side.

    ``worked`` in the round reads every row right to left; flat, the first row is a right-side row
    if ``first_right_side``. ``first_row`` is the number printed at the bottom row, and ``every`` is
    2 where the rows between are not drawn. ``first_stitch`` is the number of the right-most stitch;
    all other counts of stitches in this record are from the right edge. ``inside`` says that rows
    go on beyond it. The two cell lengths (mm) are those of one real stitch and row by the gauge:
    only their ratio shows.
    ``twice`` says that each drawn row is worked again in the one after it, which is not drawn.
    ``base`` gives one key per row for the colour band beside the chart, or is empty. ``needs`` says
    what count of stitches a chart with edge stitches fits, as in ``a multiple of 8 stitches, plus
    5``. ``grid`` is the file that its rows are drawn in, cell for cell, and ``repeat`` the stitches
    after which they begin anew, 0 if never.

    Raises:
        PatternError: ``chart.empty``, ``chart.ragged``, ``chart.key``, ``chart.drawing``,
            ``chart.span``, ``chart.mark`` or ``chart.base`` when the parts do not fit together.
    """

    title: str
    rows: tuple[tuple[str, ...], ...]
    keys: tuple[ChartKey, ...]
    worked: Literal["round", "flat"] = "round"
    first_right_side: bool = True
    first_row: int = 1
    every: int = 1
    cell_width_mm: float = 1.0
    cell_height_mm: float = 1.0
    repeats: tuple[RepeatBox, ...] = ()
    markers: tuple[Marker, ...] = ()
    tags: tuple[Tag, ...] = ()
    first_stitch: int = 1
    base: tuple[str, ...] = ()
    base_label: str = "base"
    needs: str = ""
    inside: bool = False
    twice: bool = False
    grid: str = ""
    repeat: int = 0

    def __post_init__(self) -> None:
        _check_rows(self)
        _check_keys(self)
        _check_marks(self)

    @property
    def width(self) -> int:
        """Stitches across."""
        return len(self.rows[0])

    @property
    def height(self) -> int:
        """Rows or rounds."""
        return len(self.rows)

    def place(self, stitch: int) -> int:
        """The number of the stitch that is so many from the right edge."""
        return stitch + self.first_stitch - 1

    @property
    def row_name(self) -> str:
        """``round`` or ``row``, as the chart is worked."""
        return "round" if self.worked == "round" else "row"

    @property
    def key_of(self) -> dict[str, ChartKey]:
        """The keys by their character."""
        return {key.key: key for key in self.keys}

    @property
    def used_keys(self) -> tuple[ChartKey, ...]:
        """The keys that occur in the rows or the base band, in the order of ``keys``."""
        used = set(self.base).union(*self.rows)
        return tuple(key for key in self.keys if key.key in used)

    @property
    def turns(self) -> bool:
        """Whether some row turns before its end."""
        return any(key.beyond for key in self.used_keys)

    def right_side(self, row: int) -> bool:
        """Whether the ``row``-th row from the bottom, from 1, is worked on the right side."""
        return (
            self.worked == "round" or (((row - 1) * self.every) % 2 == 0) == self.first_right_side
        )

    def direction(self, row: int) -> Direction:
        """Which way the ``row``-th row from the bottom, from 1, is worked."""
        return "right to left" if self.right_side(row) else "left to right"

    def number_at(self, row: int, *, right_side: bool) -> int | None:
        """The number printed at one side of the ``row``-th row from the bottom; ``None`` for no
        number: where a right-side row begins it stands at the right, else at the left."""
        if self.right_side(row) == right_side:
            return self.counter(row)
        return self.counter(row) + 1 if self.twice and self.worked == "flat" else None

    def counter(self, row: int) -> int:
        """The number printed at the ``row``-th row from the bottom, from 1."""
        return self.first_row + (row - 1) * self.every


def cells(row: tuple[str, ...], keys: dict[str, ChartKey]) -> Iterator[tuple[int, int, str]]:
    """The symbols of a row as (first column from the left, columns, key): a cable is one."""
    column = 0
    while column < len(row):
        wide = keys[row[column]].span
        yield column, wide, row[column]
        column += wide


def inside_symbols(spec: ChartSpec, row: int) -> set[int]:
    """The lines of the ``row``-th row, as stitches from the right, inside a symbol of several
    cells."""
    keys, line = spec.key_of, spec.rows[row - 1]
    if all(keys[key].span == 1 for key in set(line)):
        return set()
    return {
        spec.width - column - step
        for column, wide, _ in cells(line, keys)
        for step in range(1, wide)
    }


def _check_rows(spec: ChartSpec) -> None:
    if not spec.rows or not spec.rows[0]:
        raise fail(
            "chart.empty",
            f"the chart `{spec.title}` has no stitches",
            "Give it at least one line with one character for each stitch",
        )
    for number, row in enumerate(spec.rows, start=1):
        if len(row) != spec.width:
            raise fail(
                "chart.ragged",
                f"row {number} of the chart `{spec.title}` has {how_many(len(row), 'stitch')} "
                "where "
                f"row 1 has {spec.width}",
                "Make all lines of the chart as long as each other",
            )
    if spec.cell_width_mm <= 0 or spec.cell_height_mm <= 0:
        raise fail(
            "chart.empty",
            f"the stitches of the chart `{spec.title}` have no size",
            "Give a gauge with more than 0 stitches and more than 0 rounds",
        )


def _check_keys(spec: ChartSpec) -> None:
    keys = spec.key_of
    for key in spec.keys:
        drawn = find_symbol(key.symbol)
        if drawn is None:
            raise fail(
                "chart.drawing",
                f"there is no chart symbol named `{key.symbol}`",
                f"Use one of: {', '.join(SYMBOLS)}",
            )
        if key.span != drawn.wide:
            raise fail(
                "chart.span",
                f"the symbol `{key.symbol}` covers {how_many(drawn.wide, 'stitch')}, but its "
                f"key `{key.key}` says {key.span}",
                "Give the key and its symbol the same number of stitches",
            )
    wide = {character for character, key in keys.items() if key.span > 1}
    for number, row in enumerate(spec.rows, start=1):
        for unknown in sorted(set(row) - set(keys)):
            raise fail(
                "chart.key",
                f"row {number} of the chart `{spec.title}` uses `{unknown}`, which its key does "
                "not explain",
                f"Add `{unknown}` to the key, or use one of: {', '.join(keys)}",
            )
        for character, run in groupby(row) if wide.intersection(row) else ():
            length = len(tuple(run))
            if length % keys[character].span:
                raise fail(
                    "chart.span",
                    f"row {number} of the chart `{spec.title}` has {how_many(length, 'stitch')} of "
                    f"`{character}`, which stands for {keys[character].span} stitches at a time",
                    f"Write `{character}` once for each of the stitches it works",
                )


def _check_marks(spec: ChartSpec) -> None:
    for box in spec.repeats:
        if not (
            1 <= box.first_stitch <= box.last_stitch <= spec.width
            and 1 <= box.first_row <= box.last_row <= spec.height
        ):
            raise fail(
                "chart.mark",
                f"the box `{box.label}` does not lie within the chart `{spec.title}`",
                f"Keep it within stitches 1 to {spec.width} and rows 1 to {spec.height}",
            )
    for marker in spec.markers:
        if not 0 <= marker.after <= spec.width:
            raise fail(
                "chart.mark",
                f"the line `{marker.label}` does not lie within the chart `{spec.title}`",
                f"Place it after 0 to {spec.width} stitches, counted from the right",
            )
    for tag in spec.tags:
        if not (1 <= tag.stitch <= spec.width and 1 <= tag.row <= spec.height):
            raise fail(
                "chart.mark",
                f"the number `{tag.text}` does not lie within the chart `{spec.title}`",
                f"Place it at stitches 1 to {spec.width} and rows 1 to {spec.height}",
            )
    single = {key.key for key in spec.keys if key.span == 1}
    if spec.base and (len(spec.base) != spec.height or not set(spec.base) <= single):
        raise fail(
            "chart.base",
            f"the base colours of the chart `{spec.title}` do not fit its {spec.height} rows",
            "Give one key of the chart, of a single stitch, for each row",
        )
