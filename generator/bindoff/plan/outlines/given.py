"""Outlines from stated lengths, for pieces whose rows do not tell them, such as a folded tube."""

from collections.abc import Mapping
from itertools import pairwise
from math import cos, hypot, pi, sin, sqrt

from bindoff.diagnostics import fail
from bindoff.plan.outlines.hand import Hand, hand
from bindoff.plan.outlines.plain import crown_lines, wedges
from bindoff.plan.outlines.profile import Mark, Profile, Station, upright
from bindoff.plan.outlines.shapes import Band, Line, Measured, Outline, Part, Side
from bindoff.source.shape import (
    GivenShape,
    HatShape,
    MittenShape,
    PanelShape,
    RingShape,
    TubeShape,
)

_STEPS = 64  # parts of a round edge
_SLOPE = 64  # parts of a slanting edge
_KNOT, _SHOULDER = 0.07, 0.3  # of the width: half a gathered end; where a tube begins to draw in
_FLARE, _BAND = 0.36, 0.16  # of the width: a tuft; of the tuft: the strip that ties it
_SEEN_FROM_ABOVE = 0.3  # of the width of a ring, its depth as it is seen
_THUMB = 0.4  # of the width of the hand


def given_outline(shape: GivenShape, mm: Mapping[str, float]) -> Outline:
    """The outline of ``shape`` with the lengths ``mm`` by the keys they are written under.

    Raises:
        PatternError: ``schematic.size`` for a length that is not above 0, or a part longer than
            the whole.
    """
    for name, length in mm.items():
        if not length > 0:
            raise fail(
                "schematic.size",
                f"`{name}` is {length:g} mm, so there is nothing to draw",
                "Give it a length above 0",
            )
    match shape:
        case TubeShape():
            _check_part(mm, "brim", "depth")
            return _tube(mm)
        case HatShape():
            _check_part(mm, "brim", "body")
            return _hat(mm)
        case MittenShape():
            _check_part(mm, "to thumb", "hand")
            return _mitten(mm)
        case PanelShape():
            return _panel(mm)
        case RingShape():
            return _ring(mm)


def _check_part(mm: Mapping[str, float], part: str, whole: str) -> None:
    if mm.get(part, 0.0) > mm[whole]:
        raise fail(
            "schematic.size",
            f"`{part}` ({mm[part]:g} mm) is longer than `{whole}` ({mm[whole]:g} mm), of "
            "which it is a part",
            f"Make `{part}` shorter, or `{whole}` longer",
        )


def _even(along: float, wide: float) -> Station:
    return Station(along, -wide / 2, wide / 2)


def _upright(name: str, mm: float, start: float, end: float, across: float) -> Measured:
    side: Side = "right" if across > 0 else "left"
    return Measured(name, mm, upright(start, across), upright(end, across), side)


def _domed(start: float, wide: float, high: float, least: float = 0.0) -> list[Station]:
    """Stations of a round top."""
    found = []
    for step in range(1, _STEPS + 1):
        share = step / _STEPS
        found.append(_even(start + high * share, max(least, wide * sqrt(1 - share**2))))
    return found


def _brim(mm: Mapping[str, float], half: float) -> tuple[tuple[Line, ...], tuple[Band, ...]]:
    """A brim turned up, a little wider than what it covers."""
    if "brim" not in mm:
        return (), ()
    out, high = 1.024 * half, mm["brim"]
    lower = (upright(0.0, -out), upright(0.0, out))
    upper = (upright(high, -out), upright(high, out))
    return ((*lower, *reversed(upper)),), (Band(lower, upper),)


def _tube(mm: Mapping[str, float]) -> Outline:
    """A tube lying flat, gathered at the top, or tied so that a tuft stands above the tie."""
    wide, high = mm["around"] / 2, mm["depth"]
    shoulder = min(_SHOULDER * wide, 0.45 * high)
    top = [_even(0.0, wide), *_domed(high - shoulder, wide, shoulder, 2 * _KNOT * wide)]
    tuft = mm.get("tuft", 0.0)
    above = [
        _even(high + tuft * share, wide * (2 * _KNOT + (_FLARE - 2 * _KNOT) * sqrt(share)))
        for share in (step / _STEPS for step in range(1, _STEPS + 1))
        if tuft
    ]
    profile = Profile((top[0], _even(high - shoulder, wide), *top[1:], *above), (), around=True)
    brim, _ = _brim(mm, wide / 2)  # the machine knits it plain
    folds = tuple(
        (
            upright(high, share * _KNOT * wide),
            upright(high - shoulder * 0.9, share * wide * 0.42),
        )
        for share in (-0.8, -0.45, 0.0, 0.45, 0.8)
    )
    measures = [
        Measured("around", mm["around"], upright(0.0, -wide / 2), upright(0.0, wide / 2), "below"),
        _upright("depth", high, 0.0, high, -wide / 2),
    ]
    if "brim" in mm:
        measures.append(_upright("brim", mm["brim"], 0.0, mm["brim"], wide / 2))
    kind = "a tube lying flat, gathered at the top"
    tie: tuple[Line, ...] = ()
    if tuft:
        measures.append(_upright("tuft", tuft, high, high + tuft, -wide / 2))
        kind = "a tube lying flat, tied at the top, a tuft above the tie"
        neck, half = _KNOT * wide * 1.15, tuft * _BAND / 2
        tie = ((*_level(high - half, neck), *reversed(_level(high + half, neck))),)
    return Outline(kind, (profile.shape(upright), *brim, *tie), tuple(measures), (), folds)


def _level(along: float, half: float) -> Line:
    """A line across, so far from the middle to both sides."""
    return upright(along, -half), upright(along, half)


def _hat(mm: Mapping[str, float]) -> Outline:
    """A hat lying flat: a straight body, brim included, and a domed crown above it."""
    wide, body, crown = mm["around"] / 2, mm["body"], mm["crown"]
    stations = (_even(0.0, wide), _even(body, wide), *_domed(body, wide, crown))
    profile = Profile(stations, (Mark("", body, body + crown, crown=True),), around=True)
    brim, ribs = _brim(mm, wide / 2)
    measures = [
        Measured("around", mm["around"], upright(0.0, -wide / 2), upright(0.0, wide / 2), "below"),
        _upright("body", body, 0.0, body, -wide / 2),
        _upright("crown", crown, body, body + crown, -wide / 2),
    ]
    if "brim" in mm:
        measures.append(_upright("brim", mm["brim"], 0.0, mm["brim"], wide / 2))
    return Outline(
        "a hat lying flat",
        (profile.shape(upright), *brim),
        tuple(measures),
        ribs,
        tuple(wedges(profile, upright)),
        tuple(crown_lines(profile, upright)),
    )


def _mitten(mm: Mapping[str, float]) -> Outline:
    """A mitten lying flat; ``hand`` runs from the cuff to the tip, ``to thumb`` to the parting."""
    wide, cuff, tip, parting = mm["around"] / 2, mm["cuff"], mm["hand"], mm["to thumb"]
    dome, thumb_wide = min(0.5 * wide, 0.6 * tip), _THUMB * wide
    stations = (
        _even(0.0, wide),
        _even(cuff, wide),
        _even(cuff + parting, wide),
        _even(cuff + tip - dome, wide),
        *_domed(cuff + tip - dome, wide, dome),
    )
    straight = max(mm["thumb"] - thumb_wide / 2, 0.4 * mm["thumb"])
    thumb = (
        _even(0.0, thumb_wide),
        _even(straight, thumb_wide),
        *_domed(straight, thumb_wide, mm["thumb"] - straight),
    )
    marks = (Mark("cuff", 0.0, cuff, ribbed=True), Mark("hand", cuff, cuff + tip))
    shaped = Hand(
        Profile(stations, marks, around=True),
        Profile(thumb, (), around=True),
        cuff + parting,
        (),
        (),
        (),
    )
    half = wide / 2
    outline = hand(shaped)
    drawn = {each.name: each for each in outline.measures}
    measures = (
        Measured("around", mm["around"], upright(0.0, -half), upright(0.0, half), "below"),
        _upright("cuff", cuff, 0.0, cuff, -half),
        _upright("to thumb", parting, cuff, cuff + parting, half),
        _upright("hand", tip, cuff, cuff + tip, -half),
        Measured("thumb", mm["thumb"], drawn["thumb"].start, drawn["thumb"].end, "along"),
    )
    return Outline(outline.kind, outline.shapes, measures, outline.bands, outline.lines)


def _panel(mm: Mapping[str, float]) -> Outline:
    """A flat piece: a rectangle, or a trapezoid with its middle kept where the top differs."""
    low, high = mm["lower edge"], mm["height"]
    top = mm.get("upper edge", low)
    # Its shaping is spread over all of its height: in shares too small to be drawn as a step.
    shares = [step / _SLOPE for step in range(_SLOPE + 1)]
    profile = Profile(tuple(_even(high * share, low + (top - low) * share) for share in shares), ())
    measures = [
        Measured("lower edge", low, upright(0.0, -low / 2), upright(0.0, low / 2), "below"),
        _upright("height", high, 0.0, high, -max(low, top) / 2),
    ]
    if "upper edge" in mm:
        ends = upright(high, -top / 2), upright(high, top / 2)
        measures.append(Measured("upper edge", top, *ends, "above"))
    return Outline("a flat piece", (profile.shape(upright),), tuple(measures))


def _ring(mm: Mapping[str, float]) -> Outline:
    """A ring on its edge, seen from a little above: its front half as long as it is, and behind it
    the inside of the other half."""
    turns = [pi * step / _STEPS for step in range(_STEPS + 1)]
    unit = [(-cos(turn), _SEEN_FROM_ABOVE * sin(turn)) for turn in turns]
    long = sum(hypot(c - a, d - b) for (a, b), (c, d) in pairwise(unit))
    size, high = mm["length"] / 2 / long, mm["width"]
    low = tuple((x * size, y * size) for x, y in unit)  # the lower edge of the front, left to right
    front = tuple((x, y - high) for x, y in low)
    back = tuple((x, -y - high) for x, y in reversed(low))  # from right to left
    measures = (
        Measured("length", mm["length"], low[0], low[-1], "along", way=low),
        _upright("width", high, 0.0, high, low[0][0]),
    )
    behind = tuple((x, y + high) for x, y in back)
    return Outline(
        "a ring standing on its edge",
        ((*front, *back[1:-1]), (*front, *reversed(low))),
        measures,
        parts=(Part("back", back, behind), Part("front", front, low)),
    )
