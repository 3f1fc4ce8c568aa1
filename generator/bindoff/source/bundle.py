"""A pattern source as read: the models, the grids and photographs, and the place of every value."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from bindoff.diagnostics import Span
from bindoff.source.grid import Grid
from bindoff.source.models import Pattern
from bindoff.source.yamltree import YamlTree


@dataclass(frozen=True, slots=True)
class Source:
    """A valid pattern, its grids and photographs by key, and the places of all values.

    ``name`` is the stem of every file built from it. In a source narrowed to one size,
    ``crown_starts`` has the fewest stitches with which any size of the whole begins a crown, by
    piece and step: the sizes share the pace of their crowns.
    """

    name: str
    pattern: Pattern
    tree: YamlTree
    grids: Mapping[str, Grid]
    photos: tuple[bytes, ...]
    crown_starts: Mapping[tuple[str, int], int] = field(default_factory=dict)

    def span(self, *path: str | int, key: bool = False) -> Span:
        """The place of the value at ``path``, or of its key."""
        return self.tree.span(path, key)

    @property
    def sizes(self) -> tuple[str, ...]:
        """Size names in the pattern's order."""
        return tuple(self.pattern.sizes)
