"""Knit columns that rows of cables cross, against the one row that purls in them."""

from collections.abc import Iterator, Sequence

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.sentencesof import Sentence, quoted, sentences
from bindoff.checks.texts.told.numbers import number_of
from bindoff.checks.texts.told.truths import phrase
from bindoff.checks.walk import At, note_of, parts_of, sizes_said, steps_of
from bindoff.diagnostics import Severity, Span
from bindoff.english import how_many
from bindoff.plan.fabrics import Seen, seen_rows
from bindoff.source.rowlang.syntax import Fill, Row, Work
from bindoff.source.steps.work import WorkStep

_CROSS = re.compile(r"(\d{1,2})/(\d{1,2}) [RL]C")  # of knits alone
_FEWEST = 4


@check(
    id="cable.purled",
    title="A rope is knit in every row between its crossings",
    looks_at="steps of four rows and more that cross knits over knits, the rows as seen from the "
    "right side: columns that are crossed and knit in all rows but one, which purls in half of "
    "them at the most",
    why="one purl amid a rope shows as a bump in every repeat, and comes of a row miscounted by a "
    "stitch",
    severity=Severity.WARNING,
    remedy="Count the row's knits and purls against the row with the crossing",
)
def purled_ropes(context: Context) -> Iterator[Finding]:
    """One finding for each step, at its row."""
    for at in steps_of(context):
        rows = at.step.rows
        if at.step.answers.in_turn and len(rows) >= _FEWEST:
            odd = _odd_row(seen_rows(at.plan, at.step, context.source)[: len(rows)])
            if odd is not None:
                yield Finding(
                    "this row purls where all others have the knit stitches of a rope",
                    _place(at, odd % len(rows)),
                )


def _place(at: At, row: int) -> Span:
    return at.step.rows[row].span or at.step.span


def _odd_row(seen: Sequence[Seen]) -> int | None:
    """The one row that purls in crossed columns, from 0; ``None`` where there is no such row."""
    lines = [_columns(row) for row in seen]
    if len(lines) < _FEWEST or any(line is None for line in lines):
        return None
    # A crossing counts as one stitch where rows are laid out, so that such rows come out too long.
    wide = min(len(line) for line in lines if line is not None)
    fabric = [line[:wide] for line in lines if line is not None]
    crossed = [c for c in range(len(fabric[0])) if any(line[c] == "x" for line in fabric)]
    purls = [(row, c) for row, line in enumerate(fabric) for c in crossed if line[c] == "p"]
    rows = {row for row, _ in purls}
    if len(rows) == 1 and 2 * len(purls) <= len(crossed):
        return rows.pop()
    return None


def _columns(row: Seen) -> str | None:
    """``k``, ``p``, and ``x`` for each stitch of a crossing of knits; ``None`` for other rows."""
    found = []
    for stitch in row:
        cross = _CROSS.fullmatch(stitch)
        if cross:
            found.append("x" * (int(cross[1]) + int(cross[2])))
        elif stitch in ("k", "p"):
            found.append(stitch)
        else:
            return None
    return "".join(found)


@check(
    id="cable.part",
    title="Rows with crossings end with a whole repeat",
    looks_at="steps whose rows cross stitches: their rounds or rows against the number of rows in "
    "the list, where no note says where it stops",
    why="a rope that stops between two crossings ends unlike it began, and panels don't meet",
    severity=Severity.NOTE,
    remedy="Work a multiple of the rows in the list, or say in the step's note where it stops",
)
def part_of_a_rope(context: Context) -> Iterator[Finding]:
    """One finding for each step."""
    for at in steps_of(context):
        rows, step = at.step.rows, at.step.step
        if not isinstance(step, WorkStep) or step.rounds is None or step.repeat_last is not None:
            continue
        crosses = any("/" in each for row in rows for each in _stitches(row))
        parts = [size for size, count in enumerate(at.step.rounds) if count % len(rows)]
        if crosses and parts and not note_of(at):
            what = how_many(at.step.rounds[parts[0]], "row" if at.flat else "round")
            yield Finding(
                f"the step works {what} in {sizes_said(context, parts)}, no multiple of the "
                f"{len(rows)} that it lists",
                step.place.of("rounds").span,
            )


def _stitches(row: Row) -> Iterator[str]:
    return (part.stitch for part in parts_of(row) if isinstance(part, Work | Fill))


_COUNT = r"(\d+|one|two|three|four|five|six)"
_HELD = phrase(
    rf"\b(?:slip|put|place|take|move)\w* (?:the )?(?:next |first )?{_COUNT}? ?"
    r"(?:stitch(?:es)?|sts?)? ?(?:on)?to (?:the|a) cable needle[^.;]{0,30}?"
    r"(?:(?:in|at|to)(?: the)? (front|back)|\b(behind)\b)"
)
_THEN = phrase(rf"\b(?:knit|purl|work)(?: the)? next {_COUNT}\b")
_CROSSES = re.compile(r"(\d{1,2})/(\d{1,2}) ([RL])")


@check(
    id="prose.cable",
    title="A crossing told in words is the one that is worked",
    looks_at="`slip 3 stitches to the cable needle and hold it in front, knit the next 3` in every "
    "text against the crossings of rows and charts: how many are held and worked first, and where "
    "they are held",
    why="held at the other side the rope turns the other way, and the halves no longer mirror",
    severity=Severity.WARNING,
    remedy="Correct the words: held in front it crosses to the left, held at the back to the right",
)
def crossings_told(context: Context) -> Iterator[Finding]:
    """One finding for each crossing in words that is none of the pattern's."""
    told = [s for s in sentences(context) if "cable needle" in s.words.lower()]
    crosses = set(_crosses(context)) if told else set()
    for sentence in told if crosses else ():
        for found in _HELD.finditer(sentence.words):
            then = _THEN.search(sentence.words, found.end())
            hand = "R" if found[3] or (found[2] or "").lower() == "back" else "L"
            held, worked = number_of(found[1] or "0"), number_of(then[1]) if then else 0
            if not any(_fits(cross, held, worked, hand) for cross in crosses):
                cross = min(crosses)
                side = "in front" if cross[2] == "L" else "at the back"
                first, second = cross[:2] if cross[2] == "R" else cross[1::-1]
                yield Finding(
                    f"`{quoted(found)}` stands here, and {cross[0]}/{cross[1]} "
                    f"{cross[2]}C holds {second} {side} and works {first} first",
                    _at(sentence, found, then, any(each[2] == hand for each in crosses)),
                )


def _at(
    sentence: Sentence, found: "re.Match[str]", then: "re.Match[str] | None", held: bool
) -> Span:
    """Where the words are wrong: at what is worked next, if they are held at the right side."""
    start, end = then.span() if then and held else found.span(found.lastindex or 0)
    return sentence.prose.place(sentence.start + start, sentence.start + end)


def _fits(cross: tuple[int, int, str], held: int, worked: int, hand: str) -> bool:
    """Whether words may tell a crossing; of as many over as under either may be meant."""
    counts = {cross[0], cross[1]}
    return cross[2] == hand and held in {0, *counts} and worked in {0, *counts}


def _crosses(context: Context) -> Iterator[tuple[int, int, str]]:
    """The crossings of all rows and charts: over, under, and the hand they cross to."""
    names = {
        each for at in steps_of(context) for row in at.step.all_rows for each in _stitches(row)
    }
    for chart in context.pattern.charts.values():
        names |= {each for each in chart.legend.values() if isinstance(each, str)}
    for name in names:
        found = _CROSSES.match(name)
        if found:
            yield int(found[1]), int(found[2]), found[3]


CHECKS = (purled_ropes, part_of_a_rope, crossings_told)
