"""Outlines of shawls that grow from a few stitches: a triangle from the nape, and a crescent."""

from itertools import pairwise
from math import cos, hypot, radians, sin

from bindoff.plan.outlines.runs import Run
from bindoff.plan.outlines.shapes import Line, Measured, Outline

_FEW = 15
_MANY = 6.0
_STEEP = 1.0  # stitches a row at each edge; beyond it the edge curls up to a crescent
_SPINE = 0.3  # of all increases, those away from the edges
_TAB, _TAB_ROWS = 3, 30  # a tab: so many times its stitches after its first few rows
_BEND = 170.0  # degrees: how a crescent is pinned out is the wearer's choice


def is_shawl(run: Run) -> bool:
    """Whether a flat run grows to many times its few stitches, in its middle or fast."""
    if not run.flat or run.begun > _FEW or run.closed < _MANY * run.begun:
        return False
    return _has_spine(run) or _edges(run) > _STEEP * 2 * len(run.levels)


def _edges(run: Run) -> int:
    return sum(level.right + level.left for level in run.levels)


def _has_spine(run: Run) -> bool:
    return sum(level.middle for level in run.levels) > _SPINE * (run.closed - run.begun)


def shawl(run: Run) -> Outline:
    """A shawl as it lies when it is blocked."""
    return _triangle(run) if _has_spine(run) else _crescent(run)


def _depth(run: Run) -> float:
    """From the neck to the last row. A tab that stitches are picked up around lies sideways at the
    neck."""
    levels = run.levels
    turned = [
        after.most
        for before, after in pairwise(levels[:_TAB_ROWS])
        if after.stitches >= _TAB * before.stitches
    ]
    return run.high(levels[-1].most - max(turned, default=run.base))


def _triangle(run: Run) -> Outline:
    """Along the spine as many rows as there are, and at either side half the last stitches."""
    deep, side = _depth(run), run.wide(run.closed) / 2
    half = (max(side, 1.05 * deep) ** 2 - deep**2) ** 0.5
    tip = (0.0, deep)
    outline: Line = ((-half, 0.0), (half, 0.0), tip)
    return Outline(
        "a triangular shawl",
        (outline,),
        (
            Measured("depth along the spine", deep, (half, 0.0), (half, deep), "right", rows=True),
            Measured("one side of the last edge", side, tip, (-half, 0.0), "along"),
            Measured("wingspan", 2 * half, (-half, 0.0), (half, 0.0), "above"),
        ),
        lines=(((0.0, 0.0), tip),),
    )


def _crescent(run: Run) -> Outline:
    """The last edge as the outer bow, and as deep in its middle as there are rows."""
    deep, bow = _depth(run), run.wide(run.closed)
    bend = radians(_BEND)
    radius = bow / bend
    outer = tuple(
        (radius * sin(angle), radius * cos(angle))
        for angle in (bend * (step / 40 - 0.5) for step in range(41))
    )
    end, bottom = outer[-1], radius
    sag = bottom - min(deep, 0.95 * bottom) - end[1]  # how far the inner bow hangs below its ends
    inner = tuple(
        (x, end[1] + sag * (1 - (x / end[0]) ** 2))
        for x in (end[0] * (1 - n / 15) for n in range(31))
    )
    return Outline(
        "a crescent shawl",
        ((*outer, *inner),),
        (
            Measured(
                "depth in the middle",
                deep,
                (0.0, bottom - deep),
                (0.0, bottom),
                "within",
                rows=True,
            ),
            Measured("along the last edge", bow, outer[0], outer[-1], "along", way=outer),
            Measured("wingspan as drawn", 2 * end[0], outer[0], end, "above"),
            Measured("neck edge as drawn", _long(inner), end, inner[-1], "along", way=inner),
        ),
        bend=_BEND,
    )


def _long(line: Line) -> float:
    return sum(hypot(c - a, d - b) for (a, b), (c, d) in pairwise(line))
