"""Stockinette that a step works with its purl side out, because of the rows before it."""

from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.walk import At, note_of, parts_of, sizes_said, steps_of
from bindoff.diagnostics import Severity
from bindoff.source.rowlang.syntax import Fill, Row, ToEnd, Work

_MEANT = re.compile(r"purl|reverse|ridge|welt")
_PURLS = ("p", "p2tog", "p3tog", "ssp", "pfb")


@check(
    id="row.purl-side-out",
    title="Stockinette shows its knit side where it did before",
    looks_at="lists of a knit row and a purl row in pieces worked flat: the side on which each "
    "size begins them, and the rows before",
    why="after one row too many or too few the purl side is out, with a ridge where it begins",
    severity=Severity.WARNING,
    remedy="Work one row more or less before it, or change the two rows about; if it is meant, say "
    "so in the step's note",
)
def purl_side_out(context: Context) -> Iterator[Finding]:
    """One finding for each step where that is certain; garter, ribs and ridges make it doubtful."""
    before: dict[str, list[At]] = {}
    for at in steps_of(context):
        steps = before.setdefault(at.plan.key, [])
        if at.step.begins is not None:
            steps.clear()  # the yarn is joined anew, with either side facing
        if at.flat and _stockinette(at) and not _MEANT.search(note_of(at)):
            sizes = range(len(context.source.sizes))
            out = [size for size in sizes if at.step.rounds[size] and _purl_side(at, size)]
            right = [size for size in sizes if at.step.rounds[size] and size not in out]
            wrong = [size for size in out if right or _changes(steps, at, size)]
            wrong = [size for size in wrong if not _purled(steps, size)]
            if wrong:
                row = at.step.before[wrong[0]].rounds + 1
                side = "right" if row % 2 else "wrong"
                yield Finding(
                    f"in {sizes_said(context, wrong)} this begins on row {row}, on the {side} "
                    "side: the purl side is the right side from here on",
                    at.step.step.place.of("work").span,
                )
        if any(at.step.rounds):
            steps.append(at)


def _stockinette(at: At) -> bool:
    """Whether a step works a knit row and a purl row in turn."""
    return at.step.answers.in_turn and sorted(map(throughout, at.step.rows)) == ["k", "p"]


def throughout(row: Row) -> str:
    """``k`` or ``p`` for a row of nothing else."""
    match row.parts:
        case (Fill("k" | "p" as stitch, ToEnd(), ()),):
            return stitch
        case _:
            return ""


def _purl_side(at: At, size: int) -> bool:
    """Whether the knit row falls on the wrong side. Odd rows of a flat piece are on the right."""
    right_side_first = at.step.before[size].rounds % 2 == 0
    return right_side_first != (throughout(at.step.rows[0]) == "k")


def _changes(steps: list[At], at: At, size: int) -> bool:
    """Whether the knit side was out before: by the same list, or by the rows just before.

    The two rows the other way about may be meant to show the purl side.
    """
    for each in steps:
        alike = each.step.answers.in_turn and each.step.rows == at.step.rows
        if alike and each.step.rounds[size] and not _purl_side(each, size):
            return True
    last = _last(steps, size)
    if last is None or not last.step.answers.in_turn or _row_before(last, size) is None:
        return False
    garter = all(throughout(row) == "k" for row in last.step.rows)
    return not garter and at.step.before[size].rounds % 2 == 1


def _purled(steps: list[At], size: int) -> bool:
    """Whether the row before shows purls on the right side, or what it shows is not known."""
    last = _last(steps, size)
    row = None if last is None else _row_before(last, size)
    if last is None or row is None:
        return True
    stitches = {part.stitch for part in parts_of(row) if isinstance(part, Work | Fill)}
    purls = stitches & set(_PURLS)
    right_side = last.step.after[size].rounds % 2 == 1
    return bool(purls) if right_side else stitches != purls


def _last(steps: list[At], size: int) -> At | None:
    """The last step before that works rows in this size."""
    return next((each for each in reversed(steps) if each.step.rounds[size]), None)


def _row_before(at: At, size: int) -> Row | None:
    """The last row that a step of rows in turn works in a size."""
    if not at.step.answers.in_turn:
        return None
    return at.step.rows[(at.step.rounds[size] - 1) % len(at.step.rows)]


CHECKS = (purl_side_out,)
