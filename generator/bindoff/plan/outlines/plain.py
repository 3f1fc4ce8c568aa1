"""Outlines of tubes and of flat pieces: hats, cowls, sleeves, backs, fronts, blankets."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from bindoff.plan.outlines.profile import (
    Mark,
    Place,
    Profile,
    by,
    folded,
    hanging,
    lengths,
    opened,
    ribbing,
    stretches,
    upright,
)
from bindoff.plan.outlines.runs import Run
from bindoff.plan.outlines.shapes import Line, Measured, Outline, Side
from bindoff.records import Record

_WIDER = 1.02
"""So much wider than both ends a piece is before its widest place gets a measure of its own."""


def tube(run: Run, *, down: bool = False) -> Outline:
    """A tube lying flat. It begins at the bottom, or at the top where it is knitted ``down``."""
    profile = folded(run).domed() if run.gathered else folded(run)
    place = hanging if down else upright
    kind = "a tube lying flat"
    if run.gathered:
        crowned = any(stage.crown for stage in run.stages)
        kind = "a hat lying flat" if crowned else "a tube lying flat, gathered at its end"
    side = profile.stations[0].one
    return Outline(
        kind,
        (profile.shape(place),),
        (
            *_begin(profile, place, down=down),
            *_widest(profile, place, down=down),
            *lengths(profile, place, "left", side),
            *_end(profile, place, run, down=down),
        ),
        tuple(ribbing(profile, place)),
        tuple(wedges(profile, place)),
        tuple(crown_lines(profile, place)),
    )


def flat(run: Run, others: Sequence[Run] = ()) -> Outline:
    """A flat piece; ``others`` go on from stitches that it holds, such as a second shoulder."""
    profile = opened(run)
    outer = min(station.one for station in profile.stations)
    return Outline(
        "a flat piece",
        (_whole(profile, _beside(run, profile, others)),),
        (
            *_begin(profile, upright, down=False),
            *_widest(profile, upright, down=False),
            *lengths(profile, upright, "left", outer),
            *_end(profile, upright, run, down=False),
        ),
        tuple(ribbing(profile, upright)),
        tuple(_sections(profile)),
    )


def _sections(profile: Profile) -> Iterator[Line]:
    """Where one part of a flat piece ends and the next begins, each under a heading of its own."""
    for mark in stretches(profile)[:-1]:
        each = profile.at(mark.end)
        yield upright(each.along, each.one), upright(each.along, each.other)


class _Beside(Record):
    """A part that goes on from stitches held at the ``left`` edge, or at the right one: how far
    along it begins, and where that edge is just before and after."""

    part: Profile
    left: bool
    start: float
    before: float
    after: float


def _beside(run: Run, profile: Profile, others: Sequence[Run]) -> _Beside | None:
    """The first run that goes on from stitches held at an edge."""
    for level, (before, after) in zip(run.levels, pairwise(profile.stations), strict=False):
        for other in others:
            if -level.left >= other.begun:
                part = opened(other, before.one / run.wide(1) + other.begun)
                return _Beside(part, True, before.along, before.one, after.one)
            if -level.right >= other.begun:
                part = opened(other, before.other / run.wide(1))
                return _Beside(part, False, before.along, before.other, after.other)
    return None


def _whole(profile: Profile, beside: _Beside | None) -> Line:
    """The outline of a flat piece, with a gap in its middle or a second part beside it."""
    left, right = profile.edge(upright), profile.edge(upright, other=True)
    if beside is not None and beside.left:
        return (*_parted(left, beside), *reversed(right))
    if beside is not None:
        return (*left, *reversed(_parted(right, beside)))
    gapped = [station for station in profile.stations if station.gap]
    notch = [
        tuple(upright(each.along, (each.one + each.other + side * each.gap) / 2) for each in gapped)
        for side in (-1, 1)
    ]
    return (*left, *reversed(notch[0]), *notch[1], *reversed(right))


def _parted(edge: Line, beside: _Beside) -> Line:
    """One edge from below up to where the part beside it begins, around that part, and on."""
    up = by(upright, lambda point: (point[0], point[1] - beside.start))
    outer = beside.part.edge(up, other=not beside.left)
    inner = beside.part.edge(up, other=beside.left)
    low = tuple(point for point in edge if -point[1] < beside.start - 1e-6)
    high = tuple(point for point in edge if -point[1] > beside.start + 1e-6)
    corners = (upright(beside.start, beside.before), upright(beside.start, beside.after))
    return (*low, corners[0], *outer, *reversed(inner), corners[1], *high)


def _begin(profile: Profile, place: Place, *, down: bool) -> Iterator[Measured]:
    first = profile.stations[0]
    name = "around the first edge" if profile.around else "cast-on edge"
    side: Side = "above" if down else "below"
    ends = place(0.0, first.one), place(0.0, first.other)
    yield Measured(name, profile.printed(first), *ends, side)


def _widest(profile: Profile, place: Place, *, down: bool) -> Iterator[Measured]:
    """The widest place, if it is neither end; and widths that the pattern may print."""
    first, last = profile.stations[0], profile.stations[-1]
    widest = max(profile.stations, key=lambda station: station.wide)
    side: Side = "above" if down else "below"
    ends = place(widest.along, widest.one), place(widest.along, widest.other)
    name = "around the widest place" if profile.around else "widest place"
    if widest.wide > _WIDER * max(first.wide, last.wide):
        yield Measured(name, profile.printed(widest), *ends, side)
    for mark in stretches(profile)[:-1]:
        each = profile.at(mark.end)
        at = place(each.along, each.one), place(each.along, each.other)
        yield Measured("width", profile.printed(each), *at, "within", spare=True)


def _end(profile: Profile, place: Place, run: Run, *, down: bool) -> Iterator[Measured]:
    """The last edge, unless it is gathered or as wide as the first."""
    first, last = profile.stations[0], profile.stations[-1]
    if run.gathered or not run.closed or abs(first.wide - last.wide) < 1:
        return
    name = "around the last edge" if profile.around else "bound-off edge"
    side: Side = "below" if down else "above"
    ends = place(last.along, last.one), place(last.along, last.other)
    yield Measured(name, profile.printed(last), *ends, side)


def crown_lines(profile: Profile, place: Place) -> Iterator[Line]:
    """The fold where a crown begins."""
    for mark in _crowns(profile):
        station = profile.at(mark.start)
        yield place(station.along, station.one), place(station.along, station.other)


def wedges(profile: Profile, place: Place) -> Iterator[Line]:
    """Lines of decreases up a crown."""
    for mark in _crowns(profile):
        crown = profile.between(mark.start, profile.length)
        for share in (0.25, 0.5, 0.75):
            yield tuple(place(each.along, each.one + share * each.wide) for each in crown)


def _crowns(profile: Profile) -> list[Mark]:
    return [mark for mark in profile.marks if mark.crown][:1]
