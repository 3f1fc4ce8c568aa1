"""Rows that are said in full words, without abbreviations."""

from bindoff.plan.worked import StepPlan
from bindoff.source.rowlang.syntax import Fill, InPattern, Repeat, Row, ToEnd, Work

_VERBS = {"k": "knit", "p": "purl"}


def stitch_throughout(row: Row) -> str:
    """``knit`` or ``purl`` for a row of nothing else, or nothing."""
    if row.yarn is not None or len(row.parts) != 1:
        return ""
    match row.parts[0]:
        case Fill(stitch, ToEnd(), (), None):
            return _VERBS.get(stitch, "")
        case Repeat((Work(stitch, _, (), None),), ToEnd()):
            return _VERBS.get(stitch, "")
        case _:
            return ""


def in_pattern_throughout(row: Row) -> bool:
    """Whether a row is worked in a stitch pattern from end to end."""
    match row.parts:
        case (InPattern(_, ToEnd(), False),):
            return row.yarn is None
        case _:
            return False


def named_in_full(_: StepPlan, row: Row) -> bool:
    """Whether the house style says the row of a step as ``Knit.``"""
    match row.parts:
        case (Fill(stitch, ToEnd(), ()),):
            return stitch in _VERBS
        case _:
            return False
