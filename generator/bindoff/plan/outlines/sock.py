"""The outline of a sock lying on its side, worked from the leg down or from the toe up."""

from collections.abc import Iterator, Sequence
from itertools import takewhile

from bindoff.plan.levels import Level
from bindoff.plan.outlines.profile import paced
from bindoff.plan.outlines.runs import Run
from bindoff.plan.outlines.shapes import (
    Band,
    Line,
    Measured,
    Outline,
    Part,
    Point,
    Side,
    quarter,
    smoothed,
)
from bindoff.records import Record, replace

_SHORT = 0.8  # of the stitches: a row over fewer is one of the heel
_HEEL_ROWS = 8
_PART = 0.6  # of the stitches: a row over fewer moves the start of the round
_SLIGHT = 3.0  # mm: the first rounds of a toe are no corner
_TOE_ENDS = 0.75  # of the foot: below it the toe has begun


class Sock(Record):
    """Lengths of a sock in mm: around ``leg`` and ``foot``, and how high and long its parts are.

    ``parts`` are those of the leg under headings of their own, if there are several; ``toe`` are
    the widths of the lying toe from its start to its end. ``from_toe`` says that it begins there.
    """

    leg: float
    foot: float
    parts: tuple[tuple[str, float], ...]
    high: float
    flap: float
    long: float
    toe: tuple[tuple[float, float], ...]
    toe_long: float
    ribbed: float
    from_toe: bool = False


def sock_of(run: Run) -> Sock | None:
    """The sock that a run is, if it has a heel: rows to and fro over part of a round."""
    levels = list(run.levels)
    short = [level.worked < _SHORT * level.stitches for level in levels]
    first = next((i for i in range(len(levels)) if all(short[i : i + _HEEL_ROWS])), None)
    if run.flat or first is None or len(levels) < first + _HEEL_ROWS:
        return None
    last = first
    while last < len(levels) and short[last] and levels[last].stitches <= levels[first].stitches:
        last += 1  # until stitches are picked up beside it
    if last == len(levels):
        return None
    up = levels[0].stitches > run.begun  # it grows from a toe
    leg, heel, foot = levels[:first], levels[first:last], levels[last:]
    if up:
        leg, foot = foot[::-1], leg[::-1]
    found = _sock(run, leg, heel, foot)
    return replace(found, from_toe=up) if found else None


def _sock(
    run: Run, leg: Sequence[Level], heel: Sequence[Level], foot: Sequence[Level]
) -> Sock | None:
    rounds = [level for level in foot if level.worked > _PART * level.stitches]
    if not leg or not rounds:
        return None
    flap = 0
    while flap < len(heel) and heel[flap].stitches == heel[0].stitches and _square(heel, flap):
        flap += 1
    flap = flap if flap < len(heel) else 0
    around = max(min(level.stitches for level in rounds[: len(rounds) * 2 // 3] or rounds), 1)
    start = len(rounds)
    while start and rounds[start - 1].stitches < around:
        start -= 1
    begun = next((s.levels for s in run.stages if rounds[start:] and rounds[start] in s.levels), ())
    start -= sum(level.stitches == around for level in begun)  # plain rounds before the first
    toe = rounds[start:]
    long = len(heel) - flap + len(rounds)
    parts = _parts(run, len(leg))
    ribbed = sum(rows for _, rows, in_rib in takewhile(lambda part: part[2], parts))
    return Sock(
        leg=run.wide(leg[0].stitches),
        foot=run.wide(around),
        parts=_headed(run, parts),
        high=run.high(len(leg)),
        flap=run.high(flap),
        long=run.high(long),
        toe=smoothed(
            (
                (0.0, run.wide(around) / 2),
                *paced([(run.high(i + 1), run.wide(e.stitches) / 2) for i, e in enumerate(toe)]),
            ),
            _SLIGHT,
        ),
        toe_long=run.high(len(toe)),
        ribbed=run.high(min(ribbed, len(leg))),
    )


def _parts(run: Run, rows: int) -> list[tuple[str, int, bool]]:
    """The steps of the leg: their heading, their rows, and whether they are ribbed."""
    found: list[tuple[str, int, bool]] = []
    for stage in run.stages:
        if stage.levels and rows > 0:
            found.append((stage.title, min(rows, len(stage.levels)), stage.ribbed))
            rows -= len(stage.levels)
    return found


def _headed(run: Run, parts: Sequence[tuple[str, int, bool]]) -> tuple[tuple[str, float], ...]:
    high: dict[str, int] = {}
    for title, rows, _ in parts:
        high[title] = high.get(title, 0) + rows
    return tuple((title, run.high(rows)) for title, rows in high.items()) if len(high) > 1 else ()


def _square(heel: Sequence[Level], at: int) -> bool:
    """Whether a row of the heel goes as far as its first: the flap does, a turned heel does not."""
    return heel[at].worked == heel[0].worked


def sock(found: Sock) -> Outline:
    """A sock with its leg up and its toe to the right."""
    leg, foot = found.leg / 2, found.foot / 2
    bottom = found.high + max(found.flap, 0.55 * foot)
    top = bottom - foot
    bend = 0.45 * min(leg, foot)
    heel = 0.4 * foot
    toe_at = found.long - found.toe_long
    upper = [(toe_at + along, top + (foot - wide) / 2) for along, wide in found.toe]
    lower = [(toe_at + along, bottom - (foot - wide) / 2) for along, wide in found.toe]
    instep: Point = (leg, top)
    outline: Line = (
        *((0.0, 0.0), (leg, 0.0), (leg, top - bend)),
        *quarter((leg, top - bend), instep, (leg + bend, top)),
        *((leg + bend, top), (toe_at, top), *upper, *reversed(lower), (toe_at, bottom)),
        (heel, bottom),
        *quarter((heel, bottom), (0.0, bottom), (0.0, bottom - heel)),
        (0.0, bottom - heel),
    )
    flap: Line = ((0.0, found.high), (0.5 * leg, found.high), (0.65 * leg, bottom))
    measures = [Measured("around the leg", found.leg, (0.0, 0.0), (leg, 0.0), "above")]
    done = 0.0
    for title, high in found.parts:
        measures.append(_rows(title, high, (0.0, done), (0.0, done + high), "left"))
        done += high
    measures += [
        Measured(
            "leg above the heel", found.high, (0.0, 0.0), (0.0, found.high), "left", rows=True
        ),
    ]
    if found.flap:
        ends = (0.0, found.high), (0.0, bottom)
        measures.append(_rows("heel flap", found.flap, *ends, "left"))
    tip = (found.long, (top + bottom) / 2)
    measures += [
        Measured("around the foot", found.foot, (found.long, top), (found.long, bottom), "right"),
        Measured(
            "foot, heel to toe", found.long, (0.0, bottom), (found.long, bottom), "below", rows=True
        ),
        Measured("toe", found.toe_long, (toe_at, bottom), (tip[0], bottom), "below", rows=True),
    ]
    ribs = ((0.0, 0.0), (leg, 0.0)), ((0.0, found.ribbed), (leg, found.ribbed))
    bands = (Band(*ribs),) if found.ribbed else ()
    lines: list[Line] = [((toe_at, top), (toe_at, bottom))]
    if found.flap:
        lines.append(flap)
    parts = tuple(_parts_of(found, bottom, (leg + bend, toe_at), tuple(upper), tuple(lower)))
    return Outline(
        "a sock lying on its side",
        (outline,),
        tuple(measures),
        bands,
        tuple(lines),
        parts=parts[::-1] if found.from_toe else parts,
    )


def _parts_of(
    found: Sock, bottom: float, foot: tuple[float, float], upper: Line, lower: Line
) -> Iterator[Part]:
    """Leg, heel flap, sole, instep and toe, from the leg to the toe. The back half of the leg goes
    on as the flap, its front half bends into the instep, and the sole begins at the flap; ``foot``
    is where its straight part begins and ends. Each lies over what is listed before it."""
    leg, high = found.leg / 2, found.high
    top = bottom - found.foot / 2
    start, toe_at = foot
    bend, middle = top - (start - leg), (top + bottom) / 2
    heel = 0.4 * (bottom - top)
    corner = quarter((heel, bottom), (0.0, bottom), (0.0, bottom - heel))
    back = (0.0, bottom - heel)
    yield Part("leg", ((0.0, 0.0), (0.0, high)), ((leg, 0.0), (leg, high)))
    sole_from = (0.65 * leg, bottom) if found.flap else (heel, bottom)
    if found.flap:
        along = ((0.0, high), back, *reversed(corner), (heel, bottom), sole_from)
        yield Part("heel flap", along, ((0.5 * leg, high), sole_from))
        low: Line = (sole_from,)
    else:
        low = ((0.0, high), back, *reversed(corner), (heel, bottom))
    inner = (0.5 * leg, bend)
    seam = (inner, *quarter(inner, (0.5 * leg, middle), (start, middle)), (start, middle))
    ankle = [point for point in seam if point[1] >= high - 1e-6 or point[0] > 0.55 * leg]
    from_flap = ((0.5 * leg, high), *ankle) if found.flap else tuple(ankle)
    yield Part("sole", (*low, (toe_at, bottom)), (*from_flap, (toe_at, middle)))
    front = ((leg, bend), *quarter((leg, bend), (leg, top), (start, top)), (start, top))
    yield Part("instep", (*seam, (toe_at, middle)), (*front, (toe_at, top)))
    yield Part("toe", ((toe_at, bottom), *lower), ((toe_at, top), *upper))


def _rows(name: str, mm: float, start: Point, end: Point, side: Side) -> Measured:
    """A length that follows from rows."""
    return Measured(name, mm, start, end, side, rows=True)
