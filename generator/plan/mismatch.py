"""A row that does not fit its stitches, as a diagnostic that names row, size and counts."""

from generator.diagnostics import Diagnostic, Span
from generator.plan.rowcount import Mismatch, Trouble


def mismatch(figures: Mismatch, size: str, round_: int, span: Span) -> Diagnostic:
    """The diagnostic for a row that does not fit in ``size`` at round or row ``round_``."""
    part = figures.part.span if figures.part is not None else None
    return Diagnostic(
        f"row.{figures.trouble.replace(' ', '-')}",
        f"size {size}, round {round_}: {_what(figures)}",
        _remedy(figures),
        part or span,
    )


def _what(figures: Mismatch) -> str:
    live, used = _stitches(figures.live), _stitches(figures.used)
    match figures.trouble:
        case Trouble.LEFT_OVER:
            return (
                f"a repeat of {figures.unit} does not divide what it has to fill: "
                f"{live} are live, {used} are used, {figures.left_over} left over"
            )
        case Trouble.NO_ROOM:
            return f"there is no room for the repeat even once: {live} are live"
        case Trouble.TOO_MANY:
            return f"the row uses {used}, but {live} are live"
        case Trouble.TOO_FEW:
            return (
                f"the row uses {used} of {figures.live}, and the last {figures.left_over} "
                "are not worked"
            )
        case Trouble.NO_MARKER:
            return "a marker is named, but there is none at or ahead of this place"
        case Trouble.PAST_MARKER:
            return "the marker is nearer than the row supposes"
        case Trouble.ACROSS_MARKER:
            return "a stitch would be worked over both sides of a marker"
        case Trouble.ENDLESS:
            return "what is repeated uses no stitches, so it would never end"
        case Trouble.UNKNOWN_NUMBER:
            return f"there is no whole number called `{figures.number}`"
        case Trouble.NEGATIVE_NUMBER:
            return f"`{figures.number}` is below nought here"


def _remedy(figures: Mismatch) -> str:
    if figures.nearest:
        fitting = " or ".join(str(count) for count in figures.nearest)
        return f"The row fits {fitting} stitches; change the count before it, or the row"
    match figures.trouble:
        case Trouble.UNKNOWN_NUMBER:
            return f"Add `{figures.number}:` under `measures:`, a count and not a length"
        case Trouble.NEGATIVE_NUMBER:
            return "Check the measure this number comes from"
        case Trouble.NO_MARKER:
            return "Place the marker with `pm` in an earlier row, or take it out of this one"
        case _:
            return "Check the counts of this row against the rows before it"


def _stitches(count: int) -> str:
    return f"{count} stitch" if count == 1 else f"{count} stitches"
