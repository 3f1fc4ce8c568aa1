"""The outline of a garment with a yoke: body and yoke as they lie, and one sleeve at its line.

The yoke is worked first, from the neck, and divided; or last, over the stitches of body and
sleeves. Along its line the front and the half of the sleeve that shows are one fabric, so the
sleeve leaves the body at the angle that its own stitches give.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import atan2, cos, inf, sin

from bindoff.plan.outlines.profile import (
    Place,
    Profile,
    by,
    folded,
    hanging,
    lengths,
    paced,
    ribbing,
)
from bindoff.plan.outlines.runs import Run, Stage
from bindoff.plan.outlines.shapes import Band, Line, Measured, Outline, Part, Point, quarter
from bindoff.records import Record, replace

_SLEEVE = "sleeve"
_CLEAR = 45.0  # mm
_BAND_LEAN = 0.6  # radians: how far a neckband leans inwards at the shoulder
_BACK_DIP = 0.86  # of its height: as high as its upper edge lies in the middle of the back


class Row(Record):
    """The yoke so far below the neck: the widths of the front and of a sleeve, in mm."""

    down: float
    front: float
    sleeve: float


class Yoke(Record):
    """A yoke from the neck down, in mm. ``rise`` is how much higher the back is than the front, and
    ``underarm`` the stitches added there. ``neck`` is the way around."""

    rows: tuple[Row, ...]
    rise: float
    underarm: float
    neck: float
    lined: bool


class Garment(Record):
    """A yoke with the body below it and a sleeve, both from the underarm down; ``band`` is how high
    the neckband is that is picked up along its neck, and ``ribbed`` whether it is in rib."""

    yoke: Yoke
    body: Profile
    sleeve: Profile
    band: float = 0.0
    ribbed: bool = False


def garment_of(runs: Sequence[Run], key: str) -> Garment | None:
    """The garment of which the piece ``key`` has the body, if it has a yoke."""
    found = _from_the_top(runs, key) or _from_below(runs, key)
    band = next((run for run in runs if _is_band(run, key)), None)
    if found is None or band is None:
        return found
    ribbed = any(stage.ribbed for stage in band.stages)
    return replace(found, band=band.above(band.levels[-1]), ribbed=ribbed)


def _is_band(run: Run, key: str) -> bool:
    """Whether a run is worked around the only opening of a garment that is not bound off: its
    neck."""
    return run.along == (key,) and not run.flat and bool(run.levels)


# ---------------------------------------------------------------- from the rows


def _from_the_top(runs: Sequence[Run], key: str) -> Garment | None:
    """A yoke that is divided into body and sleeves."""
    for run in runs:
        at = next((i for i, stage in enumerate(run.stages) if _divides(stage)), None)
        if run.piece != key or run.flat or at is None:
            continue
        held = {
            part.name for division in run.stages[at].divisions for part in division if part.held
        }
        sleeve = next((r for r in runs if r is not run and _names(r) & held), None)
        if sleeve is None:
            continue
        yoke = _yoke(run, run.stages[: at + 1], sleeve.groups[0][1])
        below = [stage for stage in run.stages[at + 1 :] if stage.levels]
        if yoke and below:
            return Garment(yoke, folded(run, below), folded(sleeve))
    return None


def _divides(stage: Stage) -> bool:
    return any(sum(part.held for part in division) > 1 for division in stage.divisions)


def _names(run: Run) -> set[str]:
    return {name for names, _ in run.groups for name in names}


def _yoke(run: Run, stages: Sequence[Stage], sleeve: int) -> Yoke | None:
    """The yoke down to the row that divides; ``sleeve`` stitches are held for one."""
    levels = [level for stage in stages for level in stage.levels][:-1]
    if not levels:
        return None
    last = levels[-1]
    marked = [level for level in levels if len(level.markers) == len(last.markers) and last.markers]
    index = _index(last.markers, last.stitches, sleeve)
    first = levels[0].fewest - 1
    rows = []
    if marked and index is not None:
        for level in marked:
            bounds = (0, *level.markers, level.stitches)
            widths = [b - a for a, b in pairwise(bounds)]
            front = widths[index + 1] if index + 1 < len(widths) else widths[index - 1]
            rows.append(_row(run, level.fewest - first, front, widths[index]))
    else:
        half = (last.stitches - 2 * sleeve) / 2
        for level in levels:
            share = level.stitches / last.stitches
            rows.append(_row(run, level.fewest - first, half * share, sleeve * share))
    after = stages[-1].levels[-1].stitches
    rows.insert(0, Row(0.0, rows[0].front, rows[0].sleeve))
    underarm = (after - last.stitches + 2 * sleeve) / 2
    return Yoke(
        tuple(rows),
        run.high(last.most - last.fewest),
        run.wide(underarm),
        run.wide(run.begun),
        lined=bool(marked),
    )


def _index(markers: tuple[int, ...], stitches: int, sleeve: int) -> int | None:
    """Which stretch between markers is the first sleeve."""
    bounds = (0, *markers, stitches)
    widths = [b - a for a, b in pairwise(bounds)]
    return widths.index(sleeve) if sleeve in widths else None


def _row(run: Run, down: int, front: float, sleeve: float) -> Row:
    return Row(run.high(down), run.wide(front), run.wide(sleeve))


def _from_below(runs: Sequence[Run], key: str) -> Garment | None:
    """A yoke over the held stitches of a body and two sleeves."""
    for run in runs:
        if run.flat or len(run.groups) < 3:
            continue
        sleeves = [(names, n) for names, n in run.groups if any(_SLEEVE in name for name in names)]
        body = next((r for r in runs if r.piece == key and r is not run and not r.flat), None)
        arm = next(
            (
                r
                for r in runs
                if r is not run and r is not body and not r.flat and _SLEEVE in r.piece
            ),
            None,
        )
        if len(sleeves) < 2 or body is None or arm is None:
            continue
        each = sleeves[0][1]
        front = (run.begun - 2 * each) / 2
        levels = list(run.levels)
        top, low = levels[-1], levels[0].fewest - 1
        whole = [(low, run.begun), *((level.fewest, level.stitches) for level in levels)]
        rows = tuple(
            _row(run, top.fewest - at, front * live / run.begun, each * live / run.begun)
            for at, live in reversed(whole)
        )
        body_below, arm_below = _from_its_top(body), _from_its_top(arm)
        underarm = max(0.0, arm_below.printed(arm_below.stations[0]) - run.wide(each))
        rise = run.high(top.most - top.fewest)
        yoke = Yoke(rows, rise, underarm, run.wide(top.stitches), lined=False)
        return Garment(yoke, body_below, arm_below)
    return None


def _from_its_top(run: Run) -> Profile:
    """A run from below, from the row before its stitches are held down to its start."""
    levels = run.levels
    held = len(levels) > 1 and levels[-1].stitches < levels[-2].stitches
    stages = list(run.stages)
    if held:
        last = max(i for i, stage in enumerate(stages) if stage.levels)
        rest = stages[last].levels[:-1]
        stages[last] = Stage(stages[last].title, rest, stages[last].ribbed)
    return folded(run, stages, run.begun).backwards()


# ---------------------------------------------------------------- as it lies


def yoked(garment: Garment) -> Outline:
    """The garment flat on a table, with one of its sleeves."""
    yoke, body, sleeve = garment.yoke, garment.body, garment.sleeve
    top, last = yoke.rows[0], yoke.rows[-1]
    deep, rise = last.down - top.down, yoke.rise
    shoulder = (top.front / 2, -rise)
    line = _line(yoke)
    under = (body.stations[0].other, deep)
    arm, across = _sleeve_place(yoke, line, sleeve)
    folds, lower = sleeve.edge(arm, other=True), sleeve.edge(arm)
    half = top.sleeve / 2
    fold_top = (shoulder[0] - across[0] * half, shoulder[1] - across[1] * half)
    down = by(hanging, lambda point: (point[0], point[1] + deep))
    left = [(-x, y) for x, y in line]
    measured_at = _straight(sleeve)
    neck = _neck(shoulder, rise)
    front: Line = (
        *((-x, y) for x, y in reversed(neck)),
        *neck,
        *line,
        *body.edge(down, other=True),
        *reversed(body.edge(down)),
        *reversed(left),
    )
    arm_shape: Line = (
        *(*line, under),
        *lower,
        *reversed(folds),
        fold_top,
    )
    widest = sleeve.stations[0]
    cuff, hem = sleeve.stations[-1], body.stations[-1]
    beside = body.stations[0].one
    measures = (
        Measured("neck edge", yoke.neck, (-shoulder[0], -rise), shoulder, "above"),
        Measured(
            "yoke at the back",
            deep + rise,
            (beside, -rise),
            (beside, deep),
            "left",
            rows=True,
        ),
        Measured(
            "yoke at the front", deep, (0.0, 0.0), (0.0, deep), "within", spare=True, rows=True
        ),
        Measured(
            "around the body at the underarms",
            body.printed(body.stations[0]),
            down(hem.along, hem.one),
            down(hem.along, hem.other),
            "below",
        ),
        *lengths(body, down, "left", beside),
        Measured(
            "from the back of the neck to the lower edge",
            deep + rise + body.length,
            (beside, -rise),
            down(hem.along, beside),
            "left",
            spare=True,
            rows=True,
        ),
        Measured(
            "around the sleeve at the underarm",
            sleeve.printed(widest),
            arm(measured_at, widest.other),
            arm(measured_at, widest.one),
            "within",
        ),
        *lengths(sleeve, _from_body(arm, widest.one, under), "along", widest.one),
        Measured(
            "around the cuff",
            sleeve.printed(cuff),
            arm(cuff.along, cuff.other),
            arm(cuff.along, cuff.one),
            "along",
        ),
        *_band_measures(fold_top, garment.band),
    )
    band = tuple(_neckband(fold_top, neck, garment.band))
    return Outline(
        "a garment with a yoke lying flat, with one of its sleeves",
        (arm_shape, *((*each.one, *reversed(each.other)) for each in band), front),
        measures,
        (
            *ribbing(body, down),
            *ribbing(sleeve, arm),
            *(Band(each.one, each.other) for each in band if garment.ribbed),
        ),
        (_back_neck(fold_top),),
        parts=band,
    )


def _from_body(arm: Place, across: float, under: Point) -> Place:
    """The sleeve as far as it shows: it begins where it leaves the body, beside the underarm."""
    (a, b), (c, d) = arm(0.0, across), arm(1.0, across)
    hidden = max((under[0] - a) * (c - a) + (under[1] - b) * (d - b), 0.0)
    return lambda along, side: arm(max(along, hidden), side)


def _band_measures(top: Point, high: float) -> Iterator[Measured]:
    if high:
        (x, y), (a, b) = _band_end(top, high), top
        yield Measured("neckband", high, (-x, y), (-a, b), "along", rows=True)


def _band_end(top: Point, high: float) -> Point:
    """Where the upper edge of a neckband ends that stands on the top of a sleeve."""
    return top[0] - high * sin(_BAND_LEAN), top[1] - high * cos(_BAND_LEAN)


def _neckband(top: Point, neck: Line, high: float) -> Iterator[Part]:
    """The neckband as it stands over the edge of the neck, up to the ``top`` of the sleeves: what
    shows of it at the back, and the front. Each is told by its first row and its last one."""
    if not high:
        return
    front = (*neck[1:], top)
    end = _band_end(top, high)
    for name, first, middle in (
        ("back neckband", _back_neck(top), top[1] + (end[1] - top[1]) * _BACK_DIP),
        ("front neckband", (*((-a, b) for a, b in reversed(front)), neck[0], *front), -high),
    ):
        parts = len(first) - 1
        last = tuple(
            (end[0] * side, middle + (end[1] - middle) * _rise(side))
            for side in (2 * at / parts - 1 for at in range(parts + 1))
        )
        yield Part(name, first, last)


def _rise(side: float) -> float:
    """How far up a neck has come at ``side`` of its half width."""
    return side * side


def _sleeve_place(yoke: Yoke, line: Line, sleeve: Profile) -> tuple[Place, Point]:
    """Where the sleeve lies, and the direction from its fold to its underarm.

    Its own line turned onto that of the front gives the angle: what the front gains down the line
    and what half a sleeve gains.
    """
    top, last, corner = yoke.rows[0], yoke.rows[-1], line[-1]
    deep = last.down - top.down
    angle = sum(
        atan2((after - before) / 2, deep)
        for before, after in ((top.front, last.front), (top.sleeve, last.sleeve))
    )
    down, across = (sin(angle), cos(angle)), (-cos(angle), sin(angle))
    middle = yoke.underarm / 2 - sleeve.stations[0].wide / 2

    def place(along: float, side: float) -> Point:
        x, y = (corner[i] + across[i] * (middle - side) + down[i] * along for i in (0, 1))
        return x, y

    return place, across


def _line(yoke: Yoke) -> Line:
    """The edge of the front from the shoulder to the underarm. What is gained while the neck is
    raised by short rows is gained on the way down from its shoulder."""
    top = yoke.rows[0]
    shoulder = (top.front / 2, -yoke.rise)
    rows = [row for row in yoke.rows if not yoke.rise or row.front > top.front]
    pace = {} if yoke.lined else {"pace": inf}  # the rows of a round yoke lie far apart
    edge = paced([(row.down, row.front / 2) for row in rows], **pace)
    return (shoulder, *((x, y) for y, x in edge))


def _straight(sleeve: Profile) -> float:
    """How far down the sleeve its full width is measured, clear of the body."""
    first = sleeve.stations[0].wide
    wide = [station.along for station in sleeve.stations if station.wide > 0.99 * first]
    return min(max(wide), _CLEAR)


def _neck(shoulder: Point, rise: float) -> Line:
    """The front neck from its middle to the shoulder."""
    if rise <= 0:
        return ((0.0, 0.0), shoulder)
    side = (shoulder[0], 0.0)
    return ((0.0, 0.0), *quarter((0.0, 0.0), side, shoulder), shoulder)


def _back_neck(top: Point) -> Line:
    """The back neck, a little lower in its middle, as it shows behind the front; ``top`` is the
    top of a sleeve."""
    x, y = top
    return ((-x, y), *quarter((-x, y), (0.0, y * 0.6), (x, y)), (x, y))
