"""A row that does not fit its stitches, as a diagnostic with its row and counts."""

from bindoff.diagnostics import Diagnostic, Span
from bindoff.english import how_many, verb
from bindoff.plan.rowcount import Mismatch, Trouble
from bindoff.source.formula import Kind, Quantity


def mismatch(figures: Mismatch, where: str, span: Span | None, turned: bool = False) -> Diagnostic:
    """The diagnostic for a row that does not fit; ``where`` is ``round 12`` or ``row 12``.

    ``turned`` says that it begins amid the stitches, where the row before turned early. The
    diagnostic points at the part of the row that can't be worked, or else at ``span``.
    """
    return Diagnostic(
        f"row.{figures.trouble.replace(' ', '-')}",
        _what(figures, f"in {where}", turned),
        _remedy(figures),
        _place(figures) or span,
    )


def not_whole(figures: Mismatch, found: Quantity) -> Diagnostic:
    """The diagnostic for a number in a row whose name stands for no whole number."""
    length = found.kind is Kind.LENGTH
    what = "is a length" if length else f"comes to {found.value:g}"
    helper = "stitches" if length else "nearest"
    return Diagnostic(
        "row.not-whole",
        f"`{figures.number}` {what}, and a row needs a whole number",
        f"Make a count of it under `measures:`, as in `{helper}({figures.number})`, and name that",
        _place(figures),
    )


def _place(figures: Mismatch) -> Span | None:
    """Where the part that can't be worked is written; ``None`` where it is the whole row."""
    return figures.part.span if figures.part is not None else None


def _what(figures: Mismatch, there: str, turned: bool) -> str:
    live = how_many(figures.live, "stitch" if turned else "live stitch")
    live += " ahead of the turn" if turned else ""
    match figures.trouble:
        case Trouble.LEFT_OVER:
            few = figures.left_over == 1
            left = (
                "1 is left over, which does"
                if few
                else f"{figures.left_over} are left over, which do"
            )
            return (
                f"{there} the row works {figures.used} of {live}, and {left} not fill a repeat of "
                f"{figures.unit}"
            )
        case Trouble.NO_ROOM:
            return f"{there} none of {live} is left for the repeat"
        case Trouble.TOO_MANY:
            return (
                f"{there} the row needs {how_many(figures.used, 'stitch')}, and there "
                f"{verb(figures.live, 'is', 'are')} {live}"
            )
        case Trouble.TOO_FEW:
            return (
                f"{there} the row works {figures.used} of {live} and leaves {figures.left_over} "
                "unworked"
            )
        case Trouble.NO_MARKER:
            return f"{there} a marker is named, but there is none at or ahead of this place"
        case Trouble.PAST_MARKER:
            return f"{there} the marker is nearer than the row supposes"
        case Trouble.ACROSS_MARKER:
            return f"{there} a stitch would be worked over both sides of a marker"
        case Trouble.NO_GAP:
            return f"{there} the gap of a turn is named, but none lies ahead"
        case Trouble.PAST_GAP:
            return f"{there} the gap of the last turn is nearer than the row supposes"
        case Trouble.NOT_ESTABLISHED if not figures.told[0]:
            return f"{there} no stitch pattern is established here"
        case (
            Trouble.NOT_ESTABLISHED
            | Trouble.PATTERN_CUT
            | Trouble.PATTERN_FIT
            | Trouble.PATTERN_SIDE
        ):
            return f"{there} {figures.told[0]}"
        case Trouble.TWICE_DOUBLE:
            return f"{there} the double stitch is made already, at the turn of the row before"
        case Trouble.ENDLESS:
            return "what is repeated uses no stitches, so it would never end"
        case Trouble.UNKNOWN_NUMBER:
            return f"there is no measure called `{figures.number}`"
        case Trouble.NEGATIVE_NUMBER:
            return f"`{figures.number}` is below 0"


def _remedy(figures: Mismatch) -> str:
    if figures.nearest:
        fitting = " or ".join(str(count) for count in figures.nearest)
        return f"It fits {fitting} stitches: change the count before it, or the row"
    if figures.told[1]:
        return figures.told[1]
    match figures.trouble:
        case Trouble.UNKNOWN_NUMBER:
            return f"Add `{figures.number}:` under `measures:`, a count and not a length"
        case Trouble.NEGATIVE_NUMBER:
            return "Check the measure this number comes from"
        case Trouble.NO_MARKER:
            return "Place the marker with `pm` in an earlier row, or take it out of this one"
        case Trouble.NO_GAP:
            return "End an earlier row with `turn` before its last stitch, or write `to end`"
        case Trouble.PAST_GAP:
            return "Check how far the row goes before the gap, and where the last rows were turned"
        case Trouble.TWICE_DOUBLE:
            return "Write `ds` at the end of the row that turns, or at the start of the next"
        case Trouble.ENDLESS:
            return "Put a stitch that is worked into the repeat"
        case Trouble.PAST_MARKER:
            return "Check how far the row goes before the marker, and the row that places it"
        case Trouble.ACROSS_MARKER:
            return (
                "Remove the marker in an earlier row, write `remove markers: true` on this step, "
                "or end the stitch before it"
            )
        case _:
            return "Check the counts of this row against the rows before it"
