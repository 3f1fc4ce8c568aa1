"""The colours that should be seen, one yarn per stitch."""

from bindoff.records import Record


class ColourGrid(Record):
    """Yarn ids by round and stitch, as seen from the right side.

    ``rounds[0]`` is round 1; each round runs left to right, so stitch 1 is its last item.
    ``wraps`` says that the last stitch of a round is the neighbour of stitch 1 (a tube).

    Raises ``ValueError`` when there is no stitch or the rounds differ in width.
    """

    rounds: tuple[tuple[str, ...], ...]
    wraps: bool = True

    def __post_init__(self) -> None:
        widths = {len(cells) for cells in self.rounds}
        if len(widths) != 1 or widths == {0}:
            raise ValueError("a colour grid needs rounds of one width, at least one stitch wide")

    @property
    def width(self) -> int:
        """Stitches in a round."""
        return len(self.rounds[0])

    @property
    def height(self) -> int:
        """Rounds."""
        return len(self.rounds)

    @property
    def yarns(self) -> tuple[str, ...]:
        """The yarns in order of first use: bottom round first, right to left."""
        unlike = dict.fromkeys(self.rounds)
        return tuple(dict.fromkeys(yarn for cells in unlike for yarn in reversed(cells)))

    def at(self, round_: int, stitch: int) -> str:
        """The yarn at a round and stitch, both counted from 1, stitch 1 right-most.

        Raises ``IndexError`` outside the grid.
        """
        if not (1 <= round_ <= self.height and 1 <= stitch <= self.width):
            raise IndexError(f"no stitch {stitch} in round {round_}")
        return self.rounds[round_ - 1][self.width - stitch]
