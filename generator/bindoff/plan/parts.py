"""Stitches bound off in the middle of a flat row leave two parts, which no later row can join."""

from collections.abc import Sequence

from bindoff import regex as re
from bindoff.diagnostics import Diagnostic, Span
from bindoff.english import how_many
from bindoff.plan.rowcount import Counted, LiveStitches
from bindoff.records import Record, replace
from bindoff.source.steps.say import SayStep
from bindoff.source.steps.step import Step

_OTHER_YARN = re.compile(
    r"\b(second|new|another|separate|other|own|two|join\w*|both)\b.*\b(yarns?|balls?)\b",
    re.I | re.S,
)


class Gaps(Record):
    """Places on the live stitches where the fabric ends, as ``LiveStitches`` has its markers.

    ``live`` is how many stitches there were then; ``row`` and ``step`` are the last row with such
    a binding off, counted from 1, and the index of its step.
    """

    left: tuple[int, ...] = ()
    right: tuple[int, ...] = ()
    live: int = 0
    row: int = 0
    step: int = 0


NO_GAPS = Gaps()


def gaps_after(
    gaps: Gaps, needle: LiveStitches, counted: Counted, row: int, step: int
) -> tuple[Gaps, int | None]:
    """The gaps after the flat row number ``row``, and the stitches before one it works across.

    ``needle`` is where the row began.
    """
    gaps = _moved(gaps, needle)
    new, told = counted.cuts.cuts, counted.cuts.told
    if not (new or gaps.left or gaps.right) or not told:
        return NO_GAPS, None
    crossed = None
    kept, ahead = list[int](), list[int]()
    for place in gaps.left:
        if place >= counted.consumed and counted.unworked:
            ahead.append(place - counted.consumed)
        elif _across(place, needle, counted):
            crossed = place
    after = counted.produced + counted.unworked
    kept = [place for place in new if needle.right + place and place < after]
    worked = needle.right + counted.produced
    behind = [needle.right - place for place in reversed(gaps.right)]
    passed = [needle.right + place for place in kept]
    left = tuple(worked - place for place in reversed(behind + passed))
    if kept:
        gaps = replace(gaps, row=row, step=step)
    found = replace(gaps, left=left, right=tuple(ahead), live=worked + counted.unworked)
    return (found if left or ahead else NO_GAPS), crossed


def _moved(gaps: Gaps, needle: LiveStitches) -> Gaps:
    """The gaps where a step has bound off stitches at the start since, or begun anew."""
    gone = gaps.live - needle.left - needle.right
    if gone == 0:
        return gaps
    if gone < 0 or gaps.right:
        return NO_GAPS
    return replace(gaps, left=tuple(place - gone for place in gaps.left if place > gone))


def _across(place: int, needle: LiveStitches, counted: Counted) -> bool:
    """Whether stitches on both sides of ``place`` are worked, and none cast on between."""
    if place in counted.cuts.bridges:
        return False
    before = needle.right or place > _taken(counted, 0, place)
    behind = counted.consumed - place > _taken(counted, place, counted.consumed)
    return bool(before) and bool(behind)


def _taken(counted: Counted, start: int, end: int) -> int:
    """How many of the stitches from ``start`` to ``end`` were bound off or held."""
    return sum(max(0, min(end, last) - max(start, first)) for first, last in counted.cuts.off)


def told(gaps: Gaps, steps: Sequence[Step], now: int) -> bool:
    """Whether the pattern says, from the binding off to the step ``now``, that a part gets yarn of
    its own."""
    said = []
    for step in steps[gaps.step : now + 1]:
        said += [step.first or "", step.note or "", step.say if isinstance(step, SayStep) else ""]
    return any(_OTHER_YARN.search(words) for words in said)


def across(gaps: Gaps, row: int, before: int, place: Span | None) -> Diagnostic:
    """The finding for a row that works across a gap after ``before`` of its stitches."""
    return Diagnostic(
        "piece.parts",
        f"row {row} works across the stitches bound off in the middle of row {gaps.row}, where the "
        "piece is in two parts",
        f"Work {how_many(before, 'stitch')} and `hold to end`, and put the held ones back with a "
        "step `held:` "
        "when this part is closed; or say in a step before it, `say:`, that a second ball of yarn "
        f"is joined for the other part; or cast on stitches over the gap, after {before}",
        place,
    )
