"""Steps that begin need empty needles, steps that close need stitches on them."""

from bindoff.diagnostics import Diagnostic
from bindoff.english import are
from bindoff.plan.bench import Bench, States
from bindoff.plan.rowcount import LiveStitches
from bindoff.records import replace


def must_be_empty(bench: Bench, index: int, states: States) -> None:
    """Raises a ``PatternError`` (``piece.still-live``) if any size has live stitches."""
    bench.refuse(
        (
            size,
            Diagnostic(
                "piece.still-live",
                f"{stitches_are(state.live)} still live where new ones are begun",
                "Bind off, gather or hold the stitches first",
                bench.span(index),
            ),
        )
        for size, state in enumerate(states)
        if state.live
    )


def live_stitches(bench: Bench, index: int, states: States) -> tuple[int, ...]:
    """The live stitches of every size; raises a ``PatternError`` (``piece.none-live``) for 0."""
    bench.refuse(
        (
            size,
            Diagnostic(
                "piece.none-live",
                "there are no live stitches to close",
                "Take this step out, or put it where stitches are on the needles",
                bench.span(index),
            ),
        )
        for size, state in enumerate(states)
        if not state.live
    )
    return tuple(state.live for state in states)


def emptied(states: States) -> States:
    """Every size with nothing on its needles."""
    return tuple(replace(state, needle=LiveStitches(0)) for state in states)


def stitches_are(count: int) -> str:
    """``1 stitch is``, ``2 stitches are``."""
    return are(count, "stitch")
