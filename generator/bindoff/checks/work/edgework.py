"""What the rows of a flat piece do at its two edges, and whether two pieces answer each other."""

from collections.abc import Iterator, Sequence
from itertools import zip_longest

from bindoff.checks.context import Context
from bindoff.checks.walk import parts_of
from bindoff.diagnostics import Span
from bindoff.plan.steps.taper import Tapered
from bindoff.plan.steps.together import Together
from bindoff.plan.worked import PiecePlan, StepPlan
from bindoff.records import Record
from bindoff.source.rowlang.stitches import Lean
from bindoff.source.rowlang.syntax import (
    Alter,
    Count,
    CountChange,
    Fill,
    Group,
    NamedNumber,
    Part,
    Repeat,
    Row,
    Turn,
    Work,
)

_FLIPPED = {"right": "left", "left": "right"}
_LEANING = (Lean.LEFT, Lean.RIGHT)
_SAID = {CountChange.BIND_OFF: "binds off", CountChange.CAST_ON: "casts on"}


class Shaped(Record):
    """Stitches won or lost at one edge, seen with the right side in front.

    ``row`` counts from the cast-on, odd rows are right-side rows. ``how`` is ``binds off``,
    ``casts on``, ``decreases`` or ``increases``; ``lean`` is that of the stitch that does it.
    """

    row: int
    edge: str
    how: str
    stitches: int
    lean: Lean | None
    span: Span | None

    def __str__(self) -> str:
        return f"{self.how} {self.stitches} at its {self.edge} edge in row {self.row}"

    def answers(self, other: "Shaped") -> bool:
        """Whether it does at its edge what ``other`` does at the opposite one.

        Stitches are bound off where a row begins. So a piece does it on right-side rows and its
        mirror on wrong-side rows, a row sooner or later.
        """
        same = (self.how, self.stitches) == (other.how, other.stitches)
        side_by_side = self.row == other.row
        known = side_by_side and self.lean is not None and other.lean is not None
        leans = not known or self.lean is not other.lean
        across = self.edge == _FLIPPED[other.edge]
        return same and across and leans and abs(self.row - other.row) <= 1


def shaped(context: Context, plan: PiecePlan, size: int) -> tuple[Shaped, ...] | None:
    """All that a flat piece does at its edges; ``None`` where short rows leave that open."""
    found: list[Shaped] = []
    for step in plan.steps:
        if any(isinstance(part, Turn) for row in step.rows for part in parts_of(row)):
            return None
        for number, row in _worked(step, size):
            found += _of_row(context, size, number, row, step.span)
        closed = step.closes
        if closed and closed.by and step.after[size].stitches:
            number = step.before[size].rounds + 1
            count = closed.stitches[size]
            found.append(Shaped(number, _edge(number, True), "binds off", count, None, step.span))
    return tuple(found)


def _worked(step: StepPlan, size: int) -> Iterator[tuple[int, Row]]:
    """The written rows of a step that may shape, with their numbers."""
    first = step.before[size].rounds + 1
    if isinstance(step.detail, Tapered):
        for number in step.detail.tapers[size].shaping_rounds("first"):
            yield first + number - 1, step.detail.shaping
    elif isinstance(step.detail, Together):
        rows = enumerate(step.detail.worked[size])
        yield from ((first + index, row) for index, row in rows if _may_shape(row))
    elif step.answers.in_turn:
        shaping = [_may_shape(row) for row in step.rows]
        for index in range(step.rounds[size] if any(shaping) else 0):
            if shaping[index % len(shaping)]:
                yield first + index, step.rows[index % len(shaping)]


def _may_shape(row: Row) -> bool:
    return any(isinstance(part, Alter) for part in row.parts) or len(row.parts) > 1


def _of_row(context: Context, size: int, number: int, row: Row, place: Span) -> Iterator[Shaped]:
    head, tail = _ends(row.parts)
    for parts, begins in ((head, True), (tail[::-1], False)):
        edge = _edge(number, begins)
        if parts and isinstance(parts[0], Alter):
            act = parts[0]
            count = _count(context, size, act.amount) if _is_count(act.amount) else 0
            if act.change in _SAID and count:
                how = _SAID[act.change]
                yield Shaped(number, edge, how, count, None, act.span or row.span or place)
            continue
        works = [part for part in parts if isinstance(part, Work)]
        change = sum(_change(context, size, part) for part in works)
        if change:
            how = "increases" if change > 0 else "decreases"
            leans = [context.plan.book[part.stitch].lean for part in works]
            lean = next((each for each in leans if each in _LEANING), None)
            yield Shaped(number, edge, how, abs(change), lean, row.span or place)


def _ends(parts: Sequence[Part]) -> tuple[Sequence[Part], Sequence[Part]]:
    """What stands before the first stretch of a row and after its last one."""
    stretches = [i for i, part in enumerate(parts) if isinstance(part, Fill | Repeat | Group)]
    if not stretches:
        return (parts[:1], parts[1:][-1:])
    return parts[: stretches[0]], parts[stretches[-1] + 1 :]


def _edge(row: int, begins: bool) -> str:
    """The edge where a row begins or ends, seen with the right side in front."""
    return "right" if (row % 2 == 1) is begins else "left"


def _change(context: Context, size: int, work: Work) -> int:
    stitch = context.plan.book[work.stitch]
    return (stitch.produces - stitch.consumes) * _count(context, size, work.times)


def _is_count(amount: object) -> bool:
    return isinstance(amount, int | NamedNumber)


def _count(context: Context, size: int, count: Count | object) -> int:
    if isinstance(count, NamedNumber):
        return context.plan.measures.numbers(size).get(count.name, 0)
    return count if isinstance(count, int) else 0


def unanswered(
    one: Sequence[Shaped], other: Sequence[Shaped]
) -> tuple[Shaped | None, Shaped | None] | None:
    """The first of what two pieces do at their edges that the other does not answer."""
    for edge, opposite in _FLIPPED.items():
        mine = [each for each in one if each.edge == edge]
        theirs = [each for each in other if each.edge == opposite]
        for left, right in zip_longest(mine, theirs):
            if left is None or right is None or not right.answers(left):
                return left or _near(one, right), right or _near(other, left)
    return None


def _near(pieces: Sequence[Shaped], to: Shaped | None) -> Shaped | None:
    """What a piece does nearest to the row of ``to``."""
    if to is None:
        return None
    return min(pieces, key=lambda each: abs(each.row - to.row), default=None)
