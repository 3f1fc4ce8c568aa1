"""The outline of a mitten or a glove lying flat, its thumb to the right."""

from collections.abc import Sequence
from itertools import pairwise
from math import cos, pi, sin

from bindoff.plan.outlines.profile import (
    Place,
    Profile,
    Station,
    by,
    folded,
    lengths,
    ribbing,
    upright,
)
from bindoff.plan.outlines.runs import Run
from bindoff.plan.outlines.shapes import Line, Measured, Outline, Point, simplified
from bindoff.records import Record

_THUMB = 30 * pi / 180
_JUST = 0.01  # mm
_FINGER = "finger"
_FEWEST = 3  # stitches of a thumb
_THUMBS_SHARE = 0.42  # of the stitches of a hand


class Hand(Record):
    """A hand, and its thumb and fingers, in the order in which they are worked.

    ``parting`` is how far above the start the thumb leaves the hand, ``gusset`` where its stitches
    begin to grow. ``roots`` are how far above the start each finger begins.
    """

    hand: Profile
    thumb: Profile | None
    parting: float
    fingers: tuple[Profile, ...]
    names: tuple[str, ...]
    roots: tuple[float, ...]


def hand_of(runs: Sequence[Run], key: str) -> Hand | None:
    """The hand that a piece is, if it ends some of its stitches apart from the others."""
    own = [run for run in runs if run.piece == key]
    if not own or own[0].flat:
        return None
    main = own[0]
    limbs = [run for run in own[1:] if run.held and not run.flat]
    thumbs = [run for run in limbs if _is_thumb(main, run)]
    fingers = [run for run in limbs if run not in thumbs]
    if not thumbs and not any(_FINGER in name for run in fingers for name in _names(run)):
        return None
    parted = _parted(main, thumbs[0]) if thumbs else None
    return Hand(
        Profile(tuple(_stations(main, parted, bool(fingers))), folded(main).marks, around=True),
        _limb(thumbs[0]) if thumbs else None,
        main.above(main.levels[parted]) if parted is not None else 0.0,
        tuple(map(_limb, fingers)),
        tuple(next(iter(_names(run)), _FINGER) for run in fingers),
        tuple(_root(main, run) for run in fingers),
    )


def _is_thumb(main: Run, run: Run) -> bool:
    """By its name; or without one, if it begins with far less than half of the hand, as no heel."""
    if run.groups:
        return any("thumb" in name for name in _names(run))
    return run.begun < _THUMBS_SHARE * max(level.stitches for level in main.levels)


def _limb(run: Run) -> Profile:
    return folded(run).rounded() if run.gathered else folded(run)


def _names(run: Run) -> tuple[str, ...]:
    return tuple(name for names, _ in run.groups for name in names)


def _parted(main: Run, thumb: Run) -> int | None:
    """The row in which the stitches of the thumb are held: that which names them, or the one after
    which the fewest are left of those before, if some are."""
    named = _holding(main, thumb)
    if named is not None:
        return named
    losses = [
        before.stitches - after.stitches if after.stitches else 0
        for before, after in pairwise(main.levels)
    ]
    most = max(losses, default=0)
    return losses.index(most) + 1 if most >= _FEWEST else None


def _holding(main: Run, limb: Run) -> int | None:
    """The row that holds the stitches which a thumb or finger begins with."""
    names, rows = set(_names(limb)), 0
    for stage in main.stages:
        rows += len(stage.levels)
        held = {part.name for division in stage.divisions for part in division if part.held}
        if names & held and stage.levels:
            return rows - 1
    return None


def _stations(run: Run, parted: int | None, fingers: bool) -> list[Station]:
    """The hand's stations, with what the gusset adds all at its right. What the fingers of a glove
    take away goes from its left, where the first of them is."""
    levels = run.levels
    hand = levels[parted].stitches if parted is not None else 0
    first = parted or 0
    while first > 0 and levels[first - 1].stitches > hand:
        first -= 1
    half = run.wide(run.begun) / 4
    found = [Station(0.0, -half, half)]
    for at, level in enumerate(levels):
        if not level.stitches:
            continue
        more = level.stitches - hand if parted is not None and first <= at < parted else 0
        half = run.wide(level.stitches - more) / 4
        right = half + run.wide(more) / 2
        if fingers and parted is not None and at > parted:
            right = run.wide(hand) / 4
        found.append(Station(run.above(level), right - run.wide(level.stitches) / 2, right))
    return found


def _root(main: Run, finger: Run) -> float:
    """How far above the start the stitches of a finger are held."""
    at = _holding(main, finger)
    return main.above(main.levels[-1 if at is None else at])


def hand(found: Hand) -> Outline:
    """A hand with its cuff down."""
    base = found.hand
    shapes: list[Line] = []
    measures: list[Measured] = []
    first = base.stations[0]
    side = min(station.one for station in base.stations)
    measures.append(
        Measured(
            "around the cuff",
            base.printed(first),
            upright(0.0, first.one),
            upright(0.0, first.other),
            "below",
        )
    )
    palm = base.at(found.parting) if found.thumb else max(base.stations, key=lambda s: s.wide)
    measures += lengths(base, upright, "left", side)
    measures.append(
        Measured(
            "around the hand",
            base.printed(palm),
            upright(palm.along, palm.one),
            upright(palm.along, palm.other),
            "within",
        )
    )
    shapes.append(base.shape(upright))
    lines: list[Line] = []
    if found.thumb is not None:
        place = _thumb_place(found, base.at(found.parting - _JUST))
        shapes.append((*found.thumb.shape(place), *_web(found, palm, place)))
        edge = max(station.other for station in base.stations)
        thumb = found.thumb.stations[0]
        measures += [
            Measured(
                "up to the thumb",
                found.parting,
                upright(0.0, edge),
                upright(found.parting, edge),
                "right",
                rows=True,
            ),
            Measured(
                "thumb",
                found.thumb.length,
                place(0.0, thumb.other),
                place(found.thumb.length, thumb.other),
                "along",
                rows=True,
            ),
        ]
    for shape, some in _fingers(found):
        shapes.append(shape)
        measures += some
    if found.fingers:
        top = base.stations[-1]
        lines.append((upright(top.along, top.one), upright(top.along, top.other)))
    kind = "a glove lying flat" if found.fingers else "a mitten lying flat"
    bands = tuple(ribbing(base, upright))
    return Outline(kind, tuple(shapes), tuple(measures), bands, tuple(lines))


def _thumb_place(found: Hand, gusset: Station) -> Place:
    """The thumb on the outer edge of its gusset, from where it parts, leaning outwards."""
    assert found.thumb is not None
    root: Point = upright(gusset.along, gusset.other)
    outer = found.thumb.stations[0].other

    def lean(point: Point) -> Point:
        x, y = point[0] - outer, point[1]
        return (
            root[0] + x * cos(_THUMB) - y * sin(_THUMB),
            root[1] + x * sin(_THUMB) + y * cos(_THUMB),
        )

    return by(upright, lean)


def _web(found: Hand, palm: Station, place: Place) -> Line:
    """The corner between hand and thumb, where the gusset ends; none without a gusset."""
    assert found.thumb is not None
    corner = upright(found.parting, palm.other)
    inner = place(0.0, found.thumb.stations[0].one)
    outer = place(0.0, found.thumb.stations[0].other)
    return (corner,) if outer[0] - corner[0] > _JUST and corner[1] - inner[1] > _JUST else ()


def _fingers(found: Hand) -> list[tuple[Line, list[Measured]]]:
    """Fingers side by side over the hand, from its left edge, as wide as their share of it."""
    if not found.fingers:
        return []
    top = found.hand.at(min(found.roots) - 0.01)
    share = top.wide / sum(finger.stations[0].wide for finger in found.fingers)
    drawn, left = [], top.one
    for finger, name, root in zip(found.fingers, found.names, found.roots, strict=True):
        wide = finger.stations[0].wide * share
        middle = left + wide / 2
        root = min(root, found.hand.length)  # the row that holds the last of them is its own

        def place(along: float, across: float, middle: float = middle, root: float = root) -> Point:
            return upright(root + along, middle + across * share * 0.94)

        tip = finger.length
        title = _plain(name)
        measures = [
            Measured(title, tip, place(0.0, 0.0), place(tip, 0.0), "within", rows=True),
            Measured(
                f"around the {title}",
                finger.printed(finger.stations[0]),
                place(0.0, finger.stations[0].one),
                place(0.0, finger.stations[0].other),
                "within",
                spare=True,
            ),
        ]
        drawn.append((simplified(finger.shape(place)), measures))
        left += wide
    return drawn


def _plain(name: str) -> str:
    """``back of the index finger`` and ``index finger at the back`` are the index finger."""
    return name.rsplit(" of the ", 1)[-1].rsplit(" of ", 1)[-1].split(" at ", 1)[0]
