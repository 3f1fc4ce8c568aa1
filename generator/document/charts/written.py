"""The chart in words: rows by run lengths in the direction they are worked, nothing lost."""

from dataclasses import dataclass

from generator.document.charts.spec import ChartSpec, Direction
from generator.document.tree import Inlines


@dataclass(frozen=True, slots=True)
class Run:
    """``count`` neighbouring cells of one ``key``."""

    key: str
    count: int


@dataclass(frozen=True, slots=True)
class Part:
    """Some runs, worked ``times`` times over."""

    runs: tuple[Run, ...]
    times: int = 1


@dataclass(frozen=True, slots=True)
class WrittenRow:
    """One row, or consecutive rows ``first`` to ``last`` (printed numbers) that are worked alike.

    ``direction`` is that of the first of them.
    """

    first: int
    last: int
    direction: Direction
    right_side: bool
    parts: tuple[Part, ...]


def written_rows(spec: ChartSpec) -> tuple[WrittenRow, ...]:
    """All rows of the chart, bottom first."""
    raise NotImplementedError


def expand(rows: tuple[WrittenRow, ...]) -> tuple[tuple[str, ...], ...]:
    """The grid back from its written rows: left to right as seen, bottom row first."""
    raise NotImplementedError


def introduction(spec: ChartSpec) -> str:
    """How to read the chart: where to start and in which direction."""
    raise NotImplementedError


def row_words(row: WrittenRow, spec: ChartSpec, *, count: bool = False) -> Inlines:
    """``Round 5 (reading right to left): 3 tar, 2 foam, 3 tar.``; ``count`` adds the stitches."""
    raise NotImplementedError


def alt_text(spec: ChartSpec, where: str = "") -> str:
    """What the chart shows, its size, and where its written rows are."""
    raise NotImplementedError
