"""Which way to work a band of rounds or an area: four techniques priced side by side.

The rule, for a band and for an area alike. Of the techniques with no obstacle take the one with
the fewest extra minutes; of equals the one named first in ``Technique``. Where all meet an
obstacle take duplicate stitch, which can be worked on any plain fabric.

Extra minutes over plain knitting in one colour:

- stripes: each yarn joined;
- stranded: each yarn joined, and each stitch of a round with two colours or more;
- intarsia: each block joined, and each crossing of two yarns within a row;
- duplicate stitch: each stitch that is not of the band's commonest yarn, and that yarn joined.

A yarn counts as joined when the round below does not show it; the cast-on yarn is free. A block of
intarsia is a length of yarn that climbs through touching runs of its colour, one run a row.
"""

from collections import Counter, deque
from collections.abc import Sequence
from enum import StrEnum
from itertools import groupby, pairwise

from bindoff.plan.colour.areas import CellRun, find_areas, runs_of_round
from bindoff.plan.colour.embroidery import Area
from bindoff.plan.colour.floats import longest_floats
from bindoff.plan.colour.grid import ColourGrid
from bindoff.plan.colour.stripe_options import MINUTES_PER_CHANGE, MINUTES_PER_STITCH
from bindoff.records import Record

MINUTES_PER_STRANDED_STITCH = 0.03
"""A stitch with a second yarn carried, over a plain one. Ours; common practice, no source."""

MINUTES_PER_CROSSING = 0.1
"""Two yarns twisted where their colours meet. Ours; common practice, no source."""


class Technique(StrEnum):
    """Ways to work more than one colour, in the order ties are decided."""

    STRIPES = "stripes"
    STRANDED = "stranded"
    INTARSIA = "intarsia"
    DUPLICATE = "duplicate stitch"


class Obstacle(StrEnum):
    """Why a technique does not serve."""

    NOT_WHOLE_ROUNDS = "not whole rounds"
    """Stripes: a round has more than one colour."""
    TOO_MANY_COLOURS = "too many colours"
    """Stranded: a round has more colours than are carried at once."""
    LONG_FLOATS = "long floats"
    """Stranded: a float passes more stitches than the limit, around the start of the round too."""
    TUBE = "tube"
    """Intarsia: its yarns end a round on the wrong side of their block."""
    STIFF = "stiff"
    """Duplicate stitch: an area is larger than the limit; two layers of yarn make it stiff."""
    NOT_AVAILABLE = "not available"
    """The way the piece is made does not allow it."""


class TechniqueRule(Record):
    """Times (minutes) and limits; ``largest_area`` in stitches, ``None`` for no limit."""

    float_limit: int
    minutes_per_stitch: float = MINUTES_PER_STITCH
    minutes_per_change: float = MINUTES_PER_CHANGE
    minutes_per_stranded_stitch: float = MINUTES_PER_STRANDED_STITCH
    minutes_per_crossing: float = MINUTES_PER_CROSSING
    colours_stranded: int = 2
    largest_area: int | None = None
    available: tuple[Technique, ...] = tuple(Technique)


class TechniquePrice(Record):
    """One technique's extra minutes, ``None`` where it cannot show the colours at all."""

    technique: Technique
    minutes: float | None
    obstacles: tuple[Obstacle, ...]


class TechniqueChoice(Record):
    """Rounds ``first`` to ``last``: all four techniques side by side and the one recommended."""

    first: int
    last: int
    yarns: tuple[str, ...]
    prices: tuple[TechniquePrice, ...]
    recommended: Technique


def choose_for_bands(grid: ColourGrid, rule: TechniqueRule) -> tuple[TechniqueChoice, ...]:
    """A choice for each band of consecutive rounds that show the same set of yarns."""
    choices: list[TechniqueChoice] = []
    first = 1
    for yarns, rounds in groupby(frozenset(cells) for cells in grid.rounds):
        last = first + sum(1 for _ in rounds) - 1
        shown = tuple(yarn for yarn in grid.yarns if yarn in yarns)
        inside = grid.rounds[first - 1 : last]
        counts = Counter(yarn for cells in inside for yarn in cells)
        band = _Band(
            rounds=inside,
            below=grid.rounds[first - 2] if first > 1 else (),
            base=max(shown, key=lambda yarn: counts[yarn]),
            wraps=grid.wraps,
        )
        choices.append(_choose(band, first, last, shown, rule))
        first = last + 1
    return tuple(choices)


def choose_for_area(grid: ColourGrid, area: Area, rule: TechniqueRule) -> TechniqueChoice:
    """A choice for one area, seen as a single colour on whatever lies around it."""
    covered = [[_GROUND] * grid.width for _ in range(area.first_round, area.last_round + 1)]
    for round_, stitch in area.cells:
        covered[round_ - area.first_round][grid.width - stitch] = area.yarn
    band = _Band(
        rounds=tuple(tuple(cells) for cells in covered),
        below=(_GROUND,) * grid.width if area.first_round > 1 else (),
        base=_GROUND,
        wraps=grid.wraps,
    )
    return _choose(band, area.first_round, area.last_round, (area.yarn,), rule)


_GROUND = ""
"""Stands for all that lies around an area; no yarn has an empty name."""


class _Band(Record):
    """Rounds to be priced, the round below them (empty below round 1), and the yarn to cover."""

    rounds: tuple[tuple[str, ...], ...]
    below: tuple[str, ...]
    base: str
    wraps: bool


def _choose(
    band: _Band, first: int, last: int, yarns: tuple[str, ...], rule: TechniqueRule
) -> TechniqueChoice:
    prices = tuple(
        TechniquePrice(
            price.technique,
            price.minutes,
            price.obstacles
            + (() if price.technique in rule.available else (Obstacle.NOT_AVAILABLE,)),
        )
        for price in (
            _stripes(band, rule),
            _stranded(band, rule),
            _intarsia(band, rule),
            _duplicate(band, rule),
        )
    )
    free = [
        (price.minutes, place)
        for place, price in enumerate(prices)
        if price.minutes is not None and not price.obstacles
    ]
    recommended = prices[min(free)[1]].technique if free else Technique.DUPLICATE
    return TechniqueChoice(first, last, yarns, prices, recommended)


def _stripes(band: _Band, rule: TechniqueRule) -> TechniquePrice:
    if any(len(set(cells)) > 1 for cells in band.rounds):
        return TechniquePrice(Technique.STRIPES, None, (Obstacle.NOT_WHOLE_ROUNDS,))
    return TechniquePrice(Technique.STRIPES, _joins(band) * rule.minutes_per_change, ())


def _stranded(band: _Band, rule: TechniqueRule) -> TechniquePrice:
    rounds = [cells for cells in band.rounds if len(set(cells)) > 1]
    minutes = (
        _joins(band) * rule.minutes_per_change
        + sum(len(cells) for cells in rounds) * rule.minutes_per_stranded_stitch
    )
    obstacles = []
    if any(len(set(cells)) > rule.colours_stranded for cells in rounds):
        obstacles.append(Obstacle.TOO_MANY_COLOURS)
    floats = (
        passed for cells in rounds for passed, _ in longest_floats(cells, band.wraps).values()
    )
    if max(floats, default=0) > rule.float_limit:
        obstacles.append(Obstacle.LONG_FLOATS)
    return TechniquePrice(Technique.STRANDED, minutes, tuple(obstacles))


def _intarsia(band: _Band, rule: TechniqueRule) -> TechniquePrice:
    under = runs_of_round(band.below, 0, wraps=False)
    blocks = 0 if under else -1
    crossings = 0
    for cells in band.rounds:
        runs = runs_of_round(cells, 0, wraps=False)
        blocks += len(runs) - _carried_up(under, runs)
        crossings += len(runs) - 1
        under = runs
    minutes = blocks * rule.minutes_per_change + crossings * rule.minutes_per_crossing
    return TechniquePrice(Technique.INTARSIA, minutes, (Obstacle.TUBE,) if band.wraps else ())


def _duplicate(band: _Band, rule: TechniqueRule) -> TechniquePrice:
    cells = [yarn for row in band.rounds for yarn in row]
    joined = bool(band.below) and band.base not in band.below
    minutes = (
        len(cells) - cells.count(band.base)
    ) * rule.minutes_per_stitch + joined * rule.minutes_per_change
    covered = [[None if yarn == band.base else yarn for yarn in row] for row in band.rounds]
    largest = max(
        (sum(run.length for run in area) for area in find_areas(covered, band.wraps)), default=0
    )
    stiff = rule.largest_area is not None and largest > rule.largest_area
    return TechniquePrice(Technique.DUPLICATE, minutes, (Obstacle.STIFF,) if stiff else ())


def _joins(band: _Band) -> int:
    """Yarns that a round of the band shows and the round below it does not, but the cast-on's."""
    shown = [set(cells) for cells in (band.below, *band.rounds)]
    joins = sum(len(here - under) for under, here in pairwise(shown))
    return joins if band.below else joins - 1


def _carried_up(under: Sequence[CellRun], runs: Sequence[CellRun]) -> int:
    """How many runs go on with the yarn of a run below that they touch, one for one.

    Each takes the first free one from the right. Nothing does better: the runs of a colour lie in
    order, and each touches neighbours only.
    """
    waiting: dict[str, deque[CellRun]] = {}
    for run in under:
        waiting.setdefault(run.yarn, deque()).append(run)
    carried = 0
    for run in runs:
        below = waiting.get(run.yarn)
        while below and below[0].first + below[0].length < run.first:
            below.popleft()
        if below and below[0].first <= run.first + run.length:
            below.popleft()
            carried += 1
    return carried
