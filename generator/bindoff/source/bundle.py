"""A pattern source as read: the models, which know their places, the grids and photographs."""

from collections.abc import Mapping

from bindoff.records import Record, field
from bindoff.source.gauge import Gauge
from bindoff.source.grid import Grid
from bindoff.source.pattern import Pattern


class Source(Record):
    """A valid pattern, the grids of its charts, and its photographs.

    ``grids`` has the grid of every size for each chart by its key: the same one for those that
    share it.

    ``name`` is the stem of every file built from it. In a source narrowed to one size,
    ``crown_starts`` has the fewest stitches with which any size of the whole begins a crown, by
    piece and step: the sizes share the pace of their crowns. Where other gauges stand for those of
    the pattern, ``written_gauges`` has its own by their names: a weighed swatch tells of these.
    """

    name: str
    pattern: Pattern
    grids: Mapping[str, tuple[Grid, ...]]
    photos: tuple[bytes, ...]
    crown_starts: Mapping[tuple[str, int], int] = field(default_factory=dict)
    written_gauges: Mapping[str, Gauge] = field(default_factory=dict)

    @property
    def sizes(self) -> tuple[str, ...]:
        """Size names in the pattern's order."""
        return tuple(self.pattern.sizes)

    def drawings(self, chart: str) -> Mapping[Grid, tuple[int, ...]]:
        """The different grids of a chart, each with the places of its sizes in their order."""
        found: dict[Grid, list[int]] = {}
        for size, grid in enumerate(self.grids[chart]):
            found.setdefault(grid, []).append(size)
        return {grid: tuple(sizes) for grid, sizes in found.items()}
