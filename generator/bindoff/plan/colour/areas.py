"""Areas: stitches of one yarn that touch each other.

Stitches touch by a side or by a corner. A corner counts because the thread goes on from one
duplicate stitch to the next one up and across without passing behind any stitch. If it did not
count, every slanting line would be cut into single stitches, each with two ends to weave in. In a
tube, stitches also touch across the start of the round.
"""

from collections.abc import Sequence
from itertools import groupby

from bindoff.records import Record

Cells = Sequence[Sequence[str | None]]
"""A yarn or nothing per round and stitch, shaped and ordered like ``ColourGrid.rounds``."""


class CellRun(Record):
    """Neighbouring stitches of one yarn in one round: ``length`` of them from ``first`` on."""

    yarn: str
    round_: int
    first: int
    length: int

    def stitches(self, width: int) -> list[int]:
        """Its stitches, right to left; they may cross the start of a round ``width`` wide."""
        return [(self.first - 1 + step) % width + 1 for step in range(self.length)]


def runs_of_round(cells: Sequence[str | None], round_: int, wraps: bool) -> list[CellRun]:
    """The runs of a round from stitch 1 on; the one that crosses its start comes last."""
    runs: list[tuple[str | None, int, int]] = []
    first = 1
    for yarn, group in groupby(reversed(cells)):
        length = sum(1 for _ in group)
        runs.append((yarn, first, length))
        first += length
    if wraps and len(runs) > 1 and runs[0][0] == runs[-1][0]:
        yarn, first, length = runs.pop()
        runs.append((yarn, first, length + runs.pop(0)[2]))
    return [
        CellRun(yarn, round_, first, length) for yarn, first, length in runs if yarn is not None
    ]


def find_areas(cells: Cells, wraps: bool) -> list[list[CellRun]]:
    """The runs of every area, bottom to top; areas by their lowest round, then from stitch 1 on."""
    runs: list[CellRun] = []
    joined_to: list[int] = []
    below: dict[int, int] = {}
    for round_, row in enumerate(cells, start=1):
        here: dict[int, int] = {}
        for run in runs_of_round(row, round_, wraps):
            index = len(runs)
            runs.append(run)
            joined_to.append(index)
            here.update(dict.fromkeys(run.stitches(len(row)), index))
            for under in _touched(run, below, len(row), wraps):
                if runs[under].yarn == run.yarn:
                    lower, upper = sorted((_lowest(joined_to, under), _lowest(joined_to, index)))
                    joined_to[upper] = lower
        below = here
    areas: dict[int, list[CellRun]] = {}
    for index, run in enumerate(runs):
        areas.setdefault(_lowest(joined_to, index), []).append(run)
    return list(areas.values())


def _touched(run: CellRun, below: dict[int, int], width: int, wraps: bool) -> list[int]:
    """The runs of the round below that a run touches."""
    reach = range(run.first - 1, run.first + run.length + 1)
    around = ((stitch - 1) % width + 1 if wraps else stitch for stitch in reach)
    return list(dict.fromkeys(below[stitch] for stitch in around if stitch in below))


def _lowest(joined_to: list[int], index: int) -> int:
    """The first run of the area a run belongs to; shortens the way there for the next time."""
    while joined_to[index] != index:
        joined_to[index] = joined_to[joined_to[index]]
        index = joined_to[index]
    return index
