"""Steps that begin need empty needles, steps that close need stitches on them."""

from bindoff.diagnostics import Diagnostic
from bindoff.english import are
from bindoff.plan.bench import Bench, States
from bindoff.plan.groups import group_of
from bindoff.plan.rowcount import LiveStitches
from bindoff.records import replace
from bindoff.source.rowlang.groups import group_name
from bindoff.source.steps.cast_on import CastOnStep


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


def name_of_start(bench: Bench, index: int, states: States) -> str:
    """The name for which open loops that the piece was cast on with still wait; empty for none."""
    begun = [step for step in bench.piece.steps[:index] if isinstance(step, CastOnStep)]
    names = [group_name(step.for_) for step in begun if step.for_]
    found = ((name, group_of(state.groups, name)) for name in names for state in states)
    return next((name for name, group in found if group and group.copies), "")


def how_to_open(bench: Bench, index: int, states: States) -> str:
    """What to write for a start whose loops are open."""
    name = name_of_start(bench, index, states)
    if name:
        return (
            f"Its loops wait under a name, for a step such as `held: {name}`: take `for:` out of "
            "the cast-on"
        )
    return "Cast on with `method: provisional` or `method: waste yarn`, which leave them open"


def emptied(states: States) -> States:
    """Every size with nothing on its needles."""
    return tuple(replace(state, needle=LiveStitches(0)) for state in states)


def stitches_are(count: int) -> str:
    """``1 stitch is``, ``2 stitches are``."""
    return are(count, "stitch")
