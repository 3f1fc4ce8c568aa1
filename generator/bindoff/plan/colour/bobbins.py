"""Intarsia: how many areas of each yarn there are, in how many lengths of it they are worked, and
how many bobbins are in use at once."""

from collections import Counter
from collections.abc import Iterator, Sequence

from bindoff.plan.colour.areas import CellRun, Cells, find_areas, runs_by_yarn, runs_of_round
from bindoff.records import Record


class Bobbins(Record):
    """A yarn in intarsia: its ``areas`` are worked with so many ``lengths`` of yarn, each with two
    ends, for one that parts around another takes a second; ``at_once`` is how many of these hang at
    the needles in the row that has most."""

    yarn: str
    areas: int
    lengths: int
    at_once: int


def bobbins_of(cells: Cells) -> tuple[Bobbins, ...]:
    """The yarns of flat rows, in the order they are met."""
    areas = Counter(area[0].yarn for area in find_areas(cells, wraps=False))
    most = Counter[str]()
    for number, row in enumerate(cells, start=1):
        most |= Counter(run.yarn for run in runs_of_round(row, number, wraps=False))
    lengths = {yarn: sum(_begun(runs)) for yarn, runs in runs_by_yarn(cells, wraps=False).items()}
    return tuple(Bobbins(yarn, count, lengths[yarn], most[yarn]) for yarn, count in areas.items())


def _begun(runs: Sequence[CellRun]) -> Iterator[bool]:
    """Whether each run of one yarn, bottom to top, needs a length of its own: all others go on with
    that of a run they touch in the row below, which no other run has taken."""
    rows: dict[int, list[CellRun]] = {}
    for run in runs:
        rows.setdefault(run.round_, []).append(run)
    for number, row in rows.items():
        below, at = rows.get(number - 1, []), 0
        for run in row:
            while at < len(below) and below[at].first + below[at].length < run.first:
                at += 1
            touches = at < len(below) and below[at].first <= run.first + run.length
            at += touches
            yield not touches
