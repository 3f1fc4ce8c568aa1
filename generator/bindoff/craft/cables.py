"""Crosses: stitches that change places. Their names say their numbers, so they are made by rule.

Source of the naming: Craft Yarn Council's cable abbreviations, from memory; a W for the form
that is worked on the wrong side: common practice, no source.
"""

import re
from dataclasses import replace
from functools import cache

from bindoff.craft.entry import Lean, Stitch, Wording
from bindoff.craft.symbols import Command, Symbol, circle, image, line

_CABLE = re.compile(r"([1-9]\d?)/([1-9]\d?) ?([rl])(p?)c(w?)")
_EVEN_CABLE = re.compile(r"c([1-9]\d?)([fb])")
_TWIST = re.compile(r"t([234])([fb])")
_SYMBOL = re.compile(r"(purl )?cable ([1-9]\d?)/([1-9]\d?) (right|left)")


@cache
def cable(name: str) -> Stitch | None:
    """The cable cross called ``name``, or ``None`` if that is not how a cross is named.

    ``2/1 rc``: the first number is how many stitches cross in front. ``c4f`` and ``c4b`` share
    their stitches evenly; ``t3f`` and ``t3b`` are crosses of knits over purls, two over one (common
    practice, no source). A W at the end is the form of a wrong-side row.
    """
    if found := _CABLE.fullmatch(name):
        over, under, side, purl, behind = found.groups()
        make = _cross_behind if behind else _cross
        return make(int(over), int(under), right=side == "r", purl=bool(purl))
    found = _EVEN_CABLE.fullmatch(name)
    if found and int(found[1]) % 2 == 0:
        half = int(found[1]) // 2
        return _cross(half, half, right=found[2] == "b", purl=False)
    if found := _TWIST.fullmatch(name):
        every = int(found[1])
        over = (every + 1) // 2
        cross = _cross(over, every - over, right=found[2] == "b", purl=True)
        return replace(cross, loose=(name,))
    return None


def _cross(front: int, behind: int, *, right: bool, purl: bool) -> Stitch:
    behind_work = "purl" if purl else "knit"
    if right:
        how = (
            f"Slip {behind} to a cable needle and hold it at the back, knit {front}, "
            f"then {behind_work} {behind} from the cable needle."
        )
    else:
        how = (
            f"Slip {front} to a cable needle and hold it at the front, {behind_work} {behind}, "
            f"then knit {front} from the cable needle."
        )
    return _entry(front, behind, how, right=right, purl=purl, wrong_side=False)


def _cross_behind(front: int, behind: int, *, right: bool, purl: bool) -> Stitch:
    """What a wrong-side row works to show that cross on the right side.

    What is held at the back is held at the back here too, and knits change with purls. The other
    stitches come first from this side, so the other number is held.
    """
    behind_work = "knit" if purl else "purl"
    if right:
        how = (
            f"On the wrong side, slip {front} to a cable needle and hold it at the back, "
            f"{behind_work} {behind}, then purl {front} from the cable needle."
        )
    else:
        how = (
            f"On the wrong side, slip {behind} to a cable needle and hold it at the front, "
            f"purl {front}, then {behind_work} {behind} from the cable needle."
        )
    return _entry(front, behind, how, right=right, purl=purl, wrong_side=True)


def _entry(
    front: int, behind: int, how_to: str, *, right: bool, purl: bool, wrong_side: bool
) -> Stitch:
    side, sign, opposite = ("right", "R", "L") if right else ("left", "L", "R")
    numbers, end = f"{front}/{behind}", "PC" if purl else "C"
    kind = "purl cross" if purl else "cross"
    name = f"{front} over {behind} {side} {kind}"
    either = (f"{numbers} {sign}{end}", f"{numbers} {sign}{end}W")
    lean = Lean.RIGHT if right else Lean.LEFT  # a cross is a screw: the same from both sides
    written = either[wrong_side]
    full = f"{name} on the wrong side" if wrong_side else name
    wording = Wording(written, full, written, full)
    return Stitch(
        written,
        front + behind,
        front + behind,
        wording,
        wording,
        how_to,
        lean=lean,
        lean_from_wrong_side=lean,
        loops=front + behind,
        mirror=f"{numbers} {opposite}{end}{'W' if wrong_side else ''}",
        on_right_side=either[0],
        on_wrong_side=either[1],
        symbol=cross_symbol(f"{'purl ' if purl else ''}cable {numbers} {side}"),
        family="cables",
    )


# ---------------------------------------------------------------- their symbols


@cache
def cross_symbol(name: str) -> Symbol | None:
    """The symbol called ``name``: ``cable 2/1 right``, ``purl cable 2/2 left``; else ``None``."""
    found = _SYMBOL.fullmatch(name)
    if found is None:
        return None
    purl, over, under, side = bool(found[1]), int(found[2]), int(found[3]), found[4]
    words = f"crossed strokes, the {over} on top leaning {{}}" + (
        f", {under} below with a dot" if purl else f", {under} below"
    )
    right = _right_cross(over, under, name, words.format("right"), purl=purl)
    return right if side == "right" else image(right, name, words.format("left"))


def cross_of(symbol: str) -> tuple[int, int, bool] | None:
    """What the symbol of this name crosses: stitches in front, behind, and whether it leans right;
    ``None`` if it is no cross."""
    found = _SYMBOL.fullmatch(symbol)
    return (int(found[2]), int(found[3]), found[4] == "right") if found else None


def _right_cross(front: int, back: int, name: str, picture: str, *, purl: bool) -> Symbol:
    """``front`` stitches lean right on top, ``back`` stitches pass under them."""
    wide, inset, low, high = front + back, 0.1, 0.92, 0.08
    over = [(inset, back + inset), (front - inset, wide - inset)]
    under = [(front + inset, inset), (wide - inset, back - inset)]
    strokes: list[Command] = []
    for start, end in over:
        strokes += line((start, low), (end, high))
    for start, end in under:
        meet_low, meet_high = sorted(
            (start - edge) / ((start - end) + (edge_end - edge)) for edge, edge_end in over
        )
        for part in ((0.0, meet_low), (meet_high, 1.0)):
            strokes += line(*((start + t * (end - start), low + t * (high - low)) for t in part))
    fills = circle(*_between(front, back, inset, low, high), 0.09) if purl else ()
    return Symbol(picture, tuple(strokes), fills, wide, name=name)


def _between(front: int, back: int, inset: float, low: float, high: float) -> tuple[float, float]:
    """The middle of the room at the foot of the stitches below: as far from both strokes there."""
    up = 0.09  # of the height, from the foot
    left, right = front - inset + up * back, front + back - inset - up * front
    steep, shallow = 1 / back, 1 / front
    return (left * steep + right * shallow) / (steep + shallow), low - up * (low - high)
