"""Areas: stitches of one yarn that touch each other.

Stitches touch by a side or by a corner. A corner counts because the thread goes on from one
duplicate stitch to the next one up and across without passing behind any stitch. If it did not
count, every slanting line would be cut into single stitches, each with two ends to weave in. In a
tube, stitches also touch across the start of the round.
"""

from bisect import bisect_left, bisect_right
from collections import deque
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
        end = self.first + self.length
        return [*range(self.first, min(end, width + 1)), *range(1, end - width)]


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


def runs_by_yarn(cells: Cells, wraps: bool) -> dict[str, list[CellRun]]:
    """The runs of every yarn, bottom to top; yarns in order of first use."""
    found: dict[str, list[CellRun]] = {}
    for round_, row in enumerate(cells, start=1):
        for run in runs_of_round(row, round_, wraps):
            found.setdefault(run.yarn, []).append(run)
    return found


def find_areas(cells: Cells, wraps: bool) -> list[list[CellRun]]:
    """The runs of every area, bottom to top; areas by their lowest round, then from stitch 1 on."""
    width = len(cells[0]) if cells else 0
    found = [
        area for runs in runs_by_yarn(cells, wraps).values() for area in linked(runs, width, wraps)
    ]
    return sorted(found, key=lambda area: (area[0].round_, area[0].first))


def linked(runs: Sequence[CellRun], width: int, wraps: bool, reach: int = 1) -> list[list[CellRun]]:
    """Runs of one yarn, bottom to top, by groups: each is within ``reach`` of others of its group,
    across and up. Groups by their lowest round, then from stitch 1 on, and so are their runs."""
    joined_to = list(range(len(runs)))
    below: deque[_Row] = deque()
    for round_, row in groupby(range(len(runs)), key=lambda index: runs[index].round_):
        here = _Row.of(runs, [*row], width)
        while below and below[0].round_ < round_ - reach:
            below.popleft()
        below.append(here)
        if len(below) == len(here.indices) == 1:
            continue
        for index, first, last in zip(here.indices, here.firsts, here.lasts, strict=True):
            around = [(first - reach, last + reach)]
            if wraps and first <= reach:
                around.append((first - reach + width, last + reach + width))
            if wraps and last + reach > width:
                around.append((first - reach - width, last + reach - width))
            for under in below:
                for begin, end in around:
                    for other in under.between(begin, end):
                        one, two = _lowest(joined_to, other), _lowest(joined_to, index)
                        joined_to[max(one, two)] = min(one, two)
    groups: dict[int, list[CellRun]] = {}
    for index, run in enumerate(runs):
        groups.setdefault(_lowest(joined_to, index), []).append(run)
    return list(groups.values())


class _Row(Record):
    """The runs of one yarn in one round: their places among all runs, first and last stitches.

    A run that crosses the start of the round stands at both ends.
    """

    round_: int
    indices: Sequence[int]
    firsts: Sequence[int]
    lasts: Sequence[int]

    @classmethod
    def of(cls, runs: Sequence[CellRun], indices: Sequence[int], width: int) -> "_Row":
        """The runs at ``indices``, which are not none."""
        firsts = [runs[index].first for index in indices]
        lasts = [runs[index].first + runs[index].length - 1 for index in indices]
        if lasts[-1] > width:
            indices = [indices[-1], *indices]
            firsts = [firsts[-1] - width, *firsts]
            lasts = [lasts[-1] - width, *lasts]
        return cls(runs[indices[-1]].round_, indices, firsts, lasts)

    def between(self, first: int, last: int) -> Sequence[int]:
        """Those that have a stitch from ``first`` to ``last``."""
        return self.indices[bisect_left(self.lasts, first) : bisect_right(self.firsts, last)]


def _lowest(joined_to: list[int], index: int) -> int:
    """The first run of the group a run belongs to; shortens the way there for the next time."""
    while joined_to[index] != index:
        joined_to[index] = joined_to[joined_to[index]]
        index = joined_to[index]
    return index
