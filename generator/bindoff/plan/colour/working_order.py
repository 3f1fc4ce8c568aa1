"""The order in which the stitches of an area are embroidered.

From the bottom up, the first round right to left, then each round from the end nearest to the
thread. In each round the stitches that the thread can reach one from another make a group, worked
in one go. From a group the thread goes on to the nearest group of the next round within reach;
where there is none it begins again at the lowest, right-most group left.
"""

from collections.abc import Sequence
from itertools import groupby, pairwise

from bindoff.plan.colour.areas import CellRun
from bindoff.records import Record

Place = tuple[int, int]
"""Round and stitch, both from 1."""


class Fabric(Record):
    """What distance means on a piece: its width in stitches, tube or flat, longest jump."""

    width: int
    wraps: bool
    jump_limit: int

    def nearness(self, here: Place, there: Place) -> tuple[int, int]:
        """Stitches or rounds between two places, whichever is more; then the stitches across."""
        across = abs(here[1] - there[1])
        if self.wraps:
            across = min(across, self.width - across)
        return max(across, abs(here[0] - there[0]), 1) - 1, across

    def passed(self, here: Place, there: Place) -> int:
        """Stitches or rounds between two places, whichever is more; 0 when they touch."""
        return self.nearness(here, there)[0]

    def reaches(self, here: Place, there: Place) -> bool:
        """Whether the thread may go from ``here`` to ``there`` without being cut."""
        return self.passed(here, there) <= self.jump_limit


def working_order(runs: Sequence[CellRun], fabric: Fabric, at: Place | None) -> list[Place]:
    """Every place of an area (its runs bottom to top) in working order.

    ``at`` is where the thread is from the area before, ``None`` for the first of a yarn.
    """
    left = {
        round_: _groups(list(row), fabric)
        for round_, row in groupby(runs, key=lambda run: run.round_)
    }
    order: list[Place] = []
    while left:
        above = left.get(order[-1][0] + 1, []) if order else []
        group = _nearest(above, fabric, at) or left[min(left)][0]
        left[group.round_].remove(group)
        if not left[group.round_]:
            del left[group.round_]
        order.extend(_entered(group, fabric, at))
        at = order[-1]
    return order


class _Group(Record):
    """Stitches of one round worked in one go, right to left; ``closed`` if they ring the tube."""

    round_: int
    stitches: tuple[int, ...]
    closed: bool


def _groups(runs: Sequence[CellRun], fabric: Fabric) -> list[_Group]:
    """The runs of one round of an area, joined over gaps within reach, by their first stitch."""
    gaps = [
        (after.first - run.first - run.length) % fabric.width
        for run, after in pairwise([*runs, runs[0]])
    ]
    if not fabric.wraps:
        gaps[-1] = fabric.jump_limit + 1
    cuts = [at for at, gap in enumerate(gaps, start=1) if gap > fabric.jump_limit]
    if not cuts:
        return [_group(runs, fabric, closed=True)]
    groups: list[_Group] = []
    together: list[CellRun] = []
    after_last_cut = [*range(cuts[-1], len(runs)), *range(cuts[-1])]
    for at in after_last_cut:
        together.append(runs[at])
        if gaps[at] > fabric.jump_limit:
            groups.append(_group(together, fabric, closed=False))
            together = []
    return sorted(groups, key=lambda group: group.stitches[0])


def _group(runs: Sequence[CellRun], fabric: Fabric, closed: bool) -> _Group:
    stitches = tuple(stitch for run in runs for stitch in run.stitches(fabric.width))
    return _Group(runs[0].round_, stitches, closed)


def _nearest(groups: Sequence[_Group], fabric: Fabric, at: Place | None) -> _Group | None:
    """The group whose nearest end is nearest to the thread, if that is within reach."""
    if at is None or not groups:
        return None
    ends = [_entered(group, fabric, at)[0] for group in groups]
    nearest = min(range(len(groups)), key=lambda index: fabric.nearness(at, ends[index]))
    return groups[nearest] if fabric.reaches(at, ends[nearest]) else None


def _entered(group: _Group, fabric: Fabric, at: Place | None) -> list[Place]:
    """A group's places from the end nearest to the thread; right to left when out of reach."""
    places = [(group.round_, stitch) for stitch in group.stitches]
    if at is None:
        return places
    turns = range(len(places)) if group.closed else (0, len(places) - 1)
    nearest = min(turns, key=lambda index: fabric.nearness(at, places[index]))
    if not fabric.reaches(at, places[nearest]):
        return places
    return places[nearest:] + places[:nearest] if group.closed else places[:: -1 if nearest else 1]
