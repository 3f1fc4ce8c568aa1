"""Left against right: mirrored pieces, and the two ends of a shaping row."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.walk import parts_of, steps_of
from bindoff.diagnostics import Severity
from bindoff.plan.steps.taper import Tapered
from bindoff.plan.worked import PiecePlan
from bindoff.source.rowlang.stitches import Lean
from bindoff.source.rowlang.syntax import Fill, Part, Row, ToEnd, ToLast, Work

# Decreases and increases that lean against each other (Craft Yarn Council's list, from memory).
_OPPOSITE: Mapping[str, str] = {
    "k2tog": "ssk", "ssk": "k2tog", "skp": "k2tog", "k3tog": "sssk", "sssk": "k3tog",
    "p2tog": "ssp", "ssp": "p2tog", "m1l": "m1r", "m1r": "m1l",
}  # fmt: skip
_SIDE = re.compile(r"\b(left|right)\b", re.IGNORECASE)


@check(
    id="piece.mirror",
    title="Left and right pieces mirror each other",
    looks_at="pieces whose names differ in left and right: their counts, and the rows that are not "
    "the same from both ends",
    why="two left hands, or a jacket with two left fronts",
    severity=Severity.WARNING,
    remedy="Mirror the row: read it from its end, with k2tog for ssk and m1r for m1l",
)
def mirrored_pieces(context: Context) -> Iterator[Finding]:
    """One finding for each pair of pieces, at the first step that is not mirrored."""
    for left, right in _pairs(context):
        one, other = _shaping(left), _shaping(right)
        for index, (row, partner) in enumerate(zip(one, other, strict=False)):
            if partner != row and partner != mirrored(row):
                break
            if partner == row and not _own_mirror(row):
                yield Finding(
                    f"`{right.key}` shapes like `{left.key}` and does not mirror it: both have the "
                    f"same row as number {index + 1} of their shaping",
                    partner.span,
                )
                break
        ends = [[step.after for step in plan.steps if any(step.rounds)] for plan in (left, right)]
        if [e[-1:] for e in ends] != [ends[0][-1:]] * 2:
            yield Finding(
                f"`{left.key}` and `{right.key}` do not end with the same rounds and stitches",
                context.source.span("pieces", right.key, key=True),
            )


def _pairs(context: Context) -> Iterator[tuple[PiecePlan, PiecePlan]]:
    """Pieces called left and right of the same thing."""
    lefts: dict[str, PiecePlan] = {}
    rights: dict[str, PiecePlan] = {}
    for plan in context.plan.pieces:
        name = f"{plan.key.replace('_', ' ')} {context.pattern.pieces[plan.key].title}".lower()
        side = _SIDE.search(name)
        if side:
            group = lefts if side[1] == "left" else rights
            group[_SIDE.sub("", name)] = plan
    yield from ((lefts[name], rights[name]) for name in lefts if name in rights)


def _shaping(plan: PiecePlan) -> list[Row]:
    """The rows of a piece that change its stitches, in order."""
    return [
        row
        for step in plan.steps
        for row in step.rows
        if any(isinstance(part, Work) and part.stitch in _OPPOSITE for part in parts_of(row))
    ]


def mirrored(row: Row) -> Row:
    """The row read from its other end; fills change places with the numbers beside them."""
    return replace(row, parts=_reversed(row.parts))


def _reversed(parts: tuple[Part, ...]) -> tuple[Part, ...]:
    """Parts from the last to the first. ``k to last 3`` stays what it is: the stretch between."""
    found: list[Part] = []
    for part in reversed(parts):
        if isinstance(part, Fill) and isinstance(part.to, ToLast | ToEnd):
            rest = _used(parts[: parts.index(part)])
            found.append(replace(part, to=ToLast(rest) if rest else ToEnd()))
        elif isinstance(part, Work):
            found.append(replace(part, stitch=_OPPOSITE.get(part.stitch, part.stitch)))
        else:
            found.append(part)
    return tuple(found)


def _used(parts: tuple[Part, ...]) -> int:
    """Stitches that plain parts use up: two for a decrease, none for a stitch made."""
    uses = {"k2tog": 2, "ssk": 2, "skp": 2, "p2tog": 2, "ssp": 2, "k3tog": 3, "sssk": 3}
    uses |= {"m1l": 0, "m1r": 0, "m1p": 0, "m1": 0, "yo": 0}
    return sum(
        uses.get(part.stitch, 1) * (part.times if isinstance(part.times, int) else 0)
        for part in parts
        if isinstance(part, Work)
    )


def _own_mirror(row: Row) -> bool:
    return mirrored(row) == row


@check(
    id="shaping.lean",
    title="The two ends of a shaping row lean against each other",
    looks_at="rows of a taper with an even number of leaning decreases or increases: the first "
    "against the last, and so on inward",
    why="decreases that lean the same way on both sides make the piece slant and its two edges "
    "look different",
    severity=Severity.WARNING,
    remedy="Use ssk for k2tog, or m1r for m1l, at one of the ends; silence it for a spiral",
)
def leaning_rows(context: Context) -> Iterator[Finding]:
    """One finding for each taper."""
    for at in steps_of(context):
        if not isinstance(at.step.detail, Tapered):
            continue
        leaning = [
            part
            for part in parts_of(at.step.detail.shaping)
            if isinstance(part, Work) and _lean(context, part) in (Lean.LEFT, Lean.RIGHT)
        ]
        if len(leaning) % 2 or any(part.times != 1 for part in leaning):
            continue
        half = len(leaning) // 2
        for first, last in zip(leaning[:half], leaning[: half - 1 : -1], strict=True):
            if _lean(context, first) is _lean(context, last):
                yield Finding(
                    f"`{first.stitch}` and `{last.stitch}` lean the same way at both ends of the "
                    "row",
                    last.span or at.step.span,
                )
                break


def _lean(context: Context, part: Work) -> Lean | None:
    return context.plan.book[part.stitch].lean


CHECKS = (mirrored_pieces, leaning_rows)
