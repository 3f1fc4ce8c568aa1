"""How each piece is made: by hand, or cranked on the machine of the head."""

from collections.abc import Iterator

from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.diagnostics import Severity
from bindoff.plan.pieces import could_be_cranked
from bindoff.plan.worked import PiecePlan


@check(
    id="piece.made",
    title="A piece says whether it comes from the machine, where it could",
    looks_at="pieces that do not say how they are made, of a pattern made by machine: those of "
    "plain rows alone, or all of them where none is made by machine",
    why="the piece is told as knitted by hand; back and forth by hand, the same rows are garter "
    "stitch",
    severity=Severity.WARNING,
    remedy="Write `made: machine` in the piece, or `made: hand` where it is knitted by hand",
)
def made(context: Context) -> Iterator[Finding]:
    """One finding for each piece that either could make; else one if the machine makes none."""
    pattern = context.pattern
    if pattern.made.by != "machine":
        return
    doubtful = [*_doubtful(context)]
    yield from doubtful
    cranked = any(piece.tube or piece.made == "machine" for piece in pattern.pieces.values())
    if not cranked and not doubtful:
        yield Finding(
            "the head says by machine, and no piece is made on it",
            pattern.place.of("made").span,
            "Write `made: machine` in the pieces that are cranked, with rows that a machine can "
            "knit, or `by: hand` here",
        )


def _doubtful(context: Context) -> Iterator[Finding]:
    """The pieces that either could make, and that do not say which does."""
    pattern = context.pattern
    for plan in context.plan.pieces:
        piece = pattern.pieces[plan.key]
        if piece.tube or "made" in piece.model_fields_set or not could_be_cranked(plan):
            continue
        if _fits(context, plan):
            yield Finding(
                f"`{plan.key}` does not say how it is made, and the head says by machine",
                piece.place.key_span,
            )


def _fits(context: Context, plan: PiecePlan) -> bool:
    """Whether the stitches of a piece have room on the needles, in every size."""
    needles = [context.pattern.needles(size) or 0 for size in context.source.sizes]
    return all(
        after.stitches < has if after.flat else after.stitches in (0, has)
        for step in plan.steps
        for after, has in zip(step.after, needles, strict=True)
    )


CHECKS = (made,)
