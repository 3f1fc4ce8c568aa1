"""Chart grids: one character a stitch, one line a round."""

from dataclasses import dataclass

from generator.diagnostics import Span


@dataclass(frozen=True, slots=True)
class Grid:
    """A chart as typed, seen from the right side.

    ``rounds[0]`` is round 1 (the bottom line of the file). Each string runs left to right, so
    stitch 1 is its last character. ``first_line`` is the file line of the top (last) round.
    """

    name: str
    rounds: tuple[str, ...]
    file: str
    first_line: int = 1

    @property
    def width(self) -> int:
        """Stitches in a round."""
        return len(self.rounds[0])

    @property
    def height(self) -> int:
        """Rounds."""
        return len(self.rounds)

    def at(self, round_: int, stitch: int) -> str:
        """The character of a stitch; both count from 1. Raises ``IndexError`` outside."""
        raise NotImplementedError

    def span(self, round_: int, stitch: int) -> Span:
        """The place of a stitch in the grid file."""
        raise NotImplementedError


def read_grid(text: str, file: str) -> Grid:
    """Read a grid file; raises ``PatternError`` with every bad line."""
    raise NotImplementedError
