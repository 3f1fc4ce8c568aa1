"""The order in which the stitches of an area are embroidered.

From the bottom up, the first round right to left, then each round from the end nearest to the
thread. In each round the stitches that the thread can reach one from another make a group, worked
in one go. From a group the thread goes on to the nearest group of the next round within reach;
where there is none it begins again at the lowest, right-most group left.
"""

from collections.abc import Sequence
from functools import lru_cache
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
        across, up = abs(here[1] - there[1]), abs(here[0] - there[0])
        if self.wraps and 2 * across > self.width:
            across = self.width - across
        most = across if across > up else up
        return most - 1 if most else 0, across

    def passed(self, here: Place, there: Place) -> int:
        """Stitches or rounds between two places, whichever is more; 0 when they touch."""
        return self.nearness(here, there)[0]

    def reaches(self, here: Place, there: Place) -> bool:
        """Whether the thread may go from ``here`` to ``there`` without being cut."""
        return self.passed(here, there) <= self.jump_limit


class Passage(Record):
    """Places in working order, and what the thread passes on its way to each: ``None`` for the
    first of a yarn."""

    places: list[Place]
    passed: list[int | None]


def working_order(runs: Sequence[CellRun], fabric: Fabric, at: Place | None) -> Passage:
    """Every place of an area (its runs bottom to top) in working order.

    ``at`` is where the thread is from the area before, ``None`` for the first of a yarn.
    """
    left = {
        round_: [*_groups(tuple(row), fabric)]
        for round_, row in groupby(runs, key=lambda run: run.round_)
    }
    places: list[Place] = []
    passed: list[int | None] = []
    while left:
        above = left.get(places[-1][0] + 1, []) if places else []
        group = _nearest(above, fabric, at) or left[min(left)][0]
        left[group.round_].remove(group)
        if not left[group.round_]:
            del left[group.round_]
        entered, between = _entered(group, fabric, at)
        passed.append(None if at is None else fabric.passed(at, entered[0]))
        places += entered
        passed += between
        at = places[-1]
    return Passage(places, passed)


class _Group(Record, eq=False):
    """Stitches of one round worked in one go, right to left; ``closed`` if they ring the tube.

    ``passed``: stitches between each place and the one before it; of the first, which has one
    before it in a ring only, those between the last and it.
    """

    round_: int
    places: list[Place]
    passed: list[int]
    closed: bool


@lru_cache(maxsize=2048)  # the rounds of a picture, which a search for stripes asks for again
def _groups(runs: tuple[CellRun, ...], fabric: Fabric) -> tuple[_Group, ...]:
    """The runs of one round of an area, joined over gaps within reach, by their first stitch."""
    if len(runs) == 1:  # most rounds of most areas
        gap = fabric.width - runs[0].length
        return (_group(runs, [gap], fabric, closed=fabric.wraps and gap <= fabric.jump_limit),)
    gaps = [
        (after.first - run.first - run.length) % fabric.width
        for run, after in pairwise([*runs, runs[0]])
    ]
    if not fabric.wraps:
        gaps[-1] = fabric.jump_limit + 1
    cuts = [at for at, gap in enumerate(gaps, start=1) if gap > fabric.jump_limit]
    if not cuts:
        return (_group(runs, gaps, fabric, closed=True),)
    together = pairwise([cuts[-1] - len(runs), *cuts])  # the first may begin before stitch 1
    groups = [
        _group(
            [runs[at] for at in range(begin, end)],
            [gaps[at] for at in range(begin, end)],
            fabric,
            closed=False,
        )
        for begin, end in together
    ]
    return tuple(sorted(groups, key=lambda group: group.places[0]))


def _group(runs: Sequence[CellRun], gaps: Sequence[int], fabric: Fabric, closed: bool) -> _Group:
    """``gaps``: stitches between each run and the next one round the tube."""
    round_ = runs[0].round_
    places: list[Place] = []
    passed: list[int] = []
    for run, gap in zip(runs, (gaps[-1], *gaps), strict=False):
        shorter = min(gap, fabric.width - gap - 2) if fabric.wraps else gap
        places += [(round_, stitch) for stitch in run.stitches(fabric.width)]
        passed += [shorter, *[0] * (run.length - 1)]
    return _Group(round_, places, passed, closed)


def _nearest(groups: Sequence[_Group], fabric: Fabric, at: Place | None) -> _Group | None:
    """The group whose nearest end is nearest to the thread, if that is within reach."""
    if at is None or not groups:
        return None
    nearest = {
        index: fabric.nearness(at, group.places[_end(group, fabric, at)])
        for index, group in enumerate(groups)
    }
    best = min(nearest, key=nearest.__getitem__)
    return groups[best] if nearest[best][0] <= fabric.jump_limit else None


def _end(group: _Group, fabric: Fabric, at: Place) -> int:
    """Which place of a group the thread comes to first: the nearest end, or of a ring any."""
    places = group.places
    if group.closed:
        return min(range(len(places)), key=lambda index: fabric.nearness(at, places[index]))
    first, last = fabric.nearness(at, places[0]), fabric.nearness(at, places[-1])
    return 0 if first <= last else len(places) - 1


def _entered(group: _Group, fabric: Fabric, at: Place | None) -> tuple[list[Place], list[int]]:
    """A group's places from the end nearest to the thread, right to left when out of reach; and
    what is passed between them."""
    places, passed = group.places, group.passed
    nearest = 0 if at is None else _end(group, fabric, at)
    if not nearest or at is None or not fabric.reaches(at, places[nearest]):
        return places, passed[1:]
    if group.closed:
        return places[nearest:] + places[:nearest], passed[nearest + 1 :] + passed[:nearest]
    return places[::-1], passed[:0:-1]
