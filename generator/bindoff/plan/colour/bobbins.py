"""Intarsia: how many areas of each yarn there are, and how many bobbins are in use at once."""

from collections import Counter

from bindoff.plan.colour.areas import Cells, find_areas, runs_of_round
from bindoff.records import Record


class Bobbins(Record):
    """A yarn in intarsia: its ``areas`` each have a length of yarn with two ends; ``at_once`` is
    how many of these hang at the needles in the row that has most."""

    yarn: str
    areas: int
    at_once: int


def bobbins_of(cells: Cells) -> tuple[Bobbins, ...]:
    """The yarns of flat rows, in the order they are met."""
    areas = Counter(area[0].yarn for area in find_areas(cells, wraps=False))
    most = Counter[str]()
    for number, row in enumerate(cells, start=1):
        most |= Counter(run.yarn for run in runs_of_round(row, number, wraps=False))
    return tuple(Bobbins(yarn, count, most[yarn]) for yarn, count in areas.items())
