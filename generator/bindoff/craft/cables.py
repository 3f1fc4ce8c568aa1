"""Crosses: stitches that change places. Their names say their numbers, so they are made by rule.

Source of the naming: Craft Yarn Council's cable abbreviations, from memory; a W for the form
that is worked on the wrong side: common practice, no source.
"""

from functools import cache

from bindoff import regex as re
from bindoff.craft.entry import Lean, Stitch, Wording
from bindoff.craft.symbols import Command, Commands, Symbol, circle, image, line
from bindoff.records import replace

_CABLE = re.compile(r"([1-9]\d?)/([1-9]\d?) ?([rl])(p?)c(w?)")
_CABLE_OF_THREE = re.compile(r"([1-9]\d?)/([1-9]\d?)/([1-9]\d?) ?([rl])(p?)c(w?)")
_EVEN_CABLE = re.compile(r"c([1-9]\d?)([fb])")
_TWIST = re.compile(r"t([234])([fb])")
_SYMBOL = re.compile(r"(purl )?cable ([1-9]\d?)(?:/([1-9]\d?))?/([1-9]\d?) (right|left)")


@cache
def cable(name: str) -> Stitch | None:
    """The cable cross called ``name``, or ``None`` if that is not how a cross is named.

    ``2/1 rc``: the first number is how many stitches cross in front. ``2/1/2 rpc`` has one more
    group between the two, which stays in the middle, purled where there is a P.
    ``c4f`` and ``c4b`` share their stitches evenly; ``t3f`` and ``t3b`` are crosses of knits over
    purls, two over one (common practice, no source). A W at the end is the form of a wrong-side
    row.
    """
    if found := _CABLE.fullmatch(name):
        over, under, side, purl, behind = found.groups()
        make = _cross_behind if behind else _cross
        return make(int(over), int(under), right=side == "r", purl=bool(purl))
    if found := _CABLE_OF_THREE.fullmatch(name):
        over, between, under, side, purl, behind = found.groups()
        groups = int(over), int(between), int(under)
        return _cross_of_three(*groups, side == "r", purl=bool(purl), wrong_side=bool(behind))
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


def _cross_of_three(
    front: int, middle: int, behind: int, right: bool, *, purl: bool, wrong_side: bool
) -> Stitch:
    """Two groups that change places around a third, which stays in the middle.

    On the wrong side knits change with purls, and what lies in front there is held at the back.
    """
    work = ("knit" if purl else "purl") if wrong_side else ("purl" if purl else "knit")
    outer = "purl" if wrong_side else "knit"
    if right and not wrong_side:
        how = (
            f"Slip {behind + middle} to a cable needle and hold it at the back, knit {front}, put "
            f"the last {middle} from the cable needle back on the left needle and {work} {middle}, "
            f"then knit {behind} from the cable needle."
        )
    elif right is wrong_side:  # the first group lies behind on the side that is worked
        how = (
            f"Slip {front} to a cable needle and hold it at the {'back' if right else 'front'}, "
            f"slip {middle} to a second one and hold it at the {'front' if right else 'back'}, "
            f"{outer} {behind}, {work} {middle} from the second and {outer} {front} from the first."
        )
    else:
        how = (
            f"Slip {behind} to a cable needle and {middle} to a second one, hold both at the "
            f"front, purl {front}, {work} {middle} from the second and purl {behind} from the "
            "first."
        )
    how = f"On the wrong side, {how[0].lower()}{how[1:]}" if wrong_side else how
    return _entry(front, behind, how, middle=middle, right=right, purl=purl, wrong_side=wrong_side)


def _entry(
    front: int,
    behind: int,
    how_to: str,
    *,
    middle: int = 0,
    right: bool,
    purl: bool,
    wrong_side: bool,
) -> Stitch:
    side, sign, opposite = ("right", "R", "L") if right else ("left", "L", "R")
    numbers, end = (
        "/".join(str(each) for each in (front, middle, behind) if each),
        "PC" if purl else "C",
    )
    kind = "purl cross" if purl else "cross"
    name = f"{front} over {behind} {side} {kind}"
    if middle:
        name = f"{front} over {behind} {side} {kind} around {middle}"
    every = front + middle + behind
    either = (f"{numbers} {sign}{end}", f"{numbers} {sign}{end}W")
    lean = Lean.RIGHT if right else Lean.LEFT  # a cross is a screw: the same from both sides
    written = either[wrong_side]
    full = f"{name} on the wrong side" if wrong_side else name
    wording = Wording(written, full, written, full)
    return Stitch(
        written,
        every,
        every,
        wording,
        wording,
        how_to,
        lean=lean,
        lean_from_wrong_side=lean,
        loops=every,
        mirror=f"{numbers} {opposite}{end}{'W' if wrong_side else ''}",
        on_right_side=either[0],
        on_wrong_side=either[1],
        symbol=cross_symbol(f"{'purl ' if purl else ''}cable {numbers} {side}"),
        family="cables",
    )


# ---------------------------------------------------------------- their symbols


@cache
def cross_symbol(name: str) -> Symbol | None:
    """The symbol called ``name``: ``cable 2/1 right``, ``purl cable 2/1/2 left``; else ``None``."""
    found = _SYMBOL.fullmatch(name)
    if found is None:
        return None
    purl, side = bool(found[1]), found[5]
    over, middle, under = int(found[2]), int(found[3] or 0), int(found[4])
    words = f"crossed strokes, the {over} on top leaning {{}}"
    if middle:
        words += f", {under} below around {middle}" + (" with a dot" if purl else "")
    else:
        words += f", {under} below with a dot" if purl else f", {under} below"
    right = _right_cross(over, middle, under, name, words.format("right"), purl=purl)
    return right if side == "right" else image(right, name, words.format("left"))


def cross_of(symbol: str) -> tuple[int, int, bool] | None:
    """What the symbol of this name crosses: stitches in front, behind, and whether it leans right;
    ``None`` if it is no cross."""
    found = _SYMBOL.fullmatch(symbol)
    if found is None:
        return None
    return int(found[2]), int(found[3] or 0) + int(found[4]), found[5] == "right"


def _right_cross(
    front: int, middle: int, back: int, name: str, picture: str, *, purl: bool
) -> Symbol:
    """``front`` stitches lean right on top, ``back`` stitches pass under them, around the
    ``middle`` ones."""
    wide, inset, low, high = front + middle + back, 0.1, 0.92, 0.08
    inner = 0.45 if middle else inset  # the mark of those in the middle needs room
    over = [(inset, middle + back + inner), (front - inner, wide - inset)]
    under = [(front + middle + inner, inset), (wide - inset, back - inner)]
    strokes: list[Command] = []
    for start, end in over:
        strokes += line((start, low), (end, high))
    for start, end in under:
        meet_low, meet_high = sorted(
            (start - edge) / ((start - end) + (edge_end - edge)) for edge, edge_end in over
        )
        for part in ((0.0, meet_low), (meet_high, 1.0)):
            strokes += line(*((start + t * (end - start), low + t * (high - low)) for t in part))
    fills: Commands = ()
    if middle and purl:
        fills = circle(front + middle / 2, 0.85, 0.09)
    elif purl:
        fills = circle(*_between(front, back, inset, low, high), 0.09)
    return Symbol(picture, tuple(strokes), fills, wide, name=name)


def _between(front: int, back: int, inset: float, low: float, high: float) -> tuple[float, float]:
    """The middle of the room at the foot of the stitches below: as far from both strokes there."""
    up = 0.09  # of the height, from the foot
    left, right = front - inset + up * back, front + back - inset - up * front
    steep, shallow = 1 / back, 1 / front
    return (left * steep + right * shallow) / (steep + shallow), low - up * (low - high)
