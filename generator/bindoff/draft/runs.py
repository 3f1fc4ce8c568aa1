"""Instructions made into steps: rows gathered and counted, the rest one sentence a step."""

from collections.abc import Callable, Iterable, Iterator

from bindoff.draft.sentences import (
    FABRICS,
    Again,
    BindOff,
    CastOn,
    Evenly,
    Gather,
    Goal,
    LikeRow,
    MoreOften,
    NumberedRow,
    Plain,
    Prose,
    RowsInAll,
    Saying,
    UntilLong,
)
from bindoff.records import Record, replace

Figures = tuple[int, ...] | tuple[str, ...]
"""One figure for all sizes, or one for each."""


class Words(Record):
    """Prose of the text, for the source."""

    text: str


Value = str | Words | Figures


class Step(Record):
    """A step of the draft: its keys with their values, and the line of the text it comes from.

    ``rows`` are those it works, where it works any. ``kept``: it seems to work stitches, and
    stands in its own words because it wasn't understood.
    """

    entries: tuple[tuple[str, Value], ...]
    line: int
    rows: tuple[str, ...] = ()
    kept: bool = False


class Sentence(Record):
    """A sentence with what it says, its line, and the yarn in hand where the text named one."""

    text: str
    said: Saying
    line: int
    yarn: str = ""


class _Row(Record):
    number: int | None
    words: str
    line: int
    side: str = ""
    yarn: str = ""

    @property
    def text(self) -> str:
        return f"{self.side}: {self.words}" if self.side else self.words


_MOST_ROWS = 200
_FEW_ROWS = 2
"""Plain rows that go on with the rows above them, so that both can be repeated."""

Readable = Callable[[str], bool]
"""Whether a row can be read."""


def steps(sentences: Iterable[Sentence], in_round: bool, readable: Readable) -> tuple[Step, ...]:
    """The steps of a part of the instructions, in order."""
    done: list[Step] = []
    rows: tuple[_Row, ...] = ()
    fill: _Row | None = None
    for each in sentences:
        more = _rows_of(each, rows, readable)
        if more is not None:
            said = each.said
            if isinstance(said, NumberedRow) and said.fills:
                fill, rows = more[-1], (*rows, *more)
            else:
                rows = (*rows, *more)
            continue
        worked, rows = _filled(rows, fill), ()
        fill = None
        if isinstance(each.said, Again):
            again = _again(worked, each.said, each.line)
            if again is not None:
                done += again
                continue
        done += _as_worked(worked)
        done += _step(each, in_round)
    return (*done, *_as_worked(_filled(rows, fill)))


def _rows_of(
    each: Sentence, above: tuple[_Row, ...], readable: Readable
) -> tuple[_Row, ...] | None:
    """The rows that a sentence is, ``None`` where it is none."""
    match each.said:
        case NumberedRow(first, last, row, side):
            if not readable(row):
                return None
            one = _Row(first, row, each.line, side, each.yarn)
            if first is None or last is None or each.said.fills:
                return (one,)
            if last < first or last - first > _MOST_ROWS:
                return None
            return tuple(replace(one, number=number) for number in range(first, last + 1))
        case LikeRow(number, like):
            same = next((row for row in reversed(above) if row.number == like), None)
            return (replace(same, number=number, line=each.line, side=""),) if same else None
        case Plain(fabric, RowsInAll((count,))) if above and count <= _FEW_ROWS:
            rows = FABRICS[fabric][0]
            one = _Row(None, rows[0], each.line, yarn=each.yarn)
            return (one,) * count if len(rows) == 1 and rows == FABRICS[fabric][1] else None
        case Prose(text, _, names_stitches):
            # A row without a label, as a sentence of its own.
            return (
                (_Row(None, text, each.line, yarn=each.yarn),)
                if names_stitches and readable(text)
                else None
            )
        case _:
            return None


def _filled(rows: tuple[_Row, ...], fill: _Row | None) -> tuple[_Row, ...]:
    """``rows`` with the one that stands for every second row in all its places."""
    if fill is None or fill.number is None:
        return rows
    numbered = {row.number: row for row in rows if row.number is not None and row != fill}
    top = max((*numbered, fill.number))
    if any(row.number is None for row in rows) or top > 400:
        return rows
    parity = fill.number % 2
    even_top = top if top % 2 == parity else top + 1
    return tuple(
        numbered.get(number, replace(fill, number=number))
        for number in range(min((*numbered, fill.number)), even_top + 1)
        if number in numbered or (number % 2 == parity and number >= fill.number)
    )


def _as_worked(rows: tuple[_Row, ...]) -> tuple[Step, ...]:
    """Rows worked once each, those alike and beside each other in one step with their number."""
    if not rows:
        return ()
    texts = tuple(row.text for row in rows)
    if len(set(texts)) == 1:
        count = (("rounds", (len(texts),)),) if len(texts) > 1 else ()
        return (Step((("work", texts[0]), *count, *_in(rows[0].yarn)), rows[0].line, texts[:1]),)
    return (Step((("work", texts), *_in(rows[0].yarn)), rows[0].line, texts),)


def _in(yarn: str) -> tuple[tuple[str, Value], ...]:
    return (("yarn", yarn),) if yarn else ()


def _again(rows: tuple[_Row, ...], said: Again, line: int) -> tuple[Step, ...] | None:
    """The rows above with those that are worked again, ``None`` where they are not the last."""
    many = said.many
    if said.first is not None:
        numbers = [row.number for row in rows]
        wanted = list(range(said.first, (said.last or said.first) + 1))
        many = len(wanted) if numbers[-len(wanted) :] == wanted else None
    elif many is None:
        many = len(rows)
    if not many or many > len(rows):
        return None
    before, last = rows[:-many], rows[-many:]
    texts = tuple(row.text for row in last)
    same = len(set(texts)) == 1
    work: Value = texts[0] if same else texts
    goal = _goal(said.goal, times_key="rounds" if same and many == 1 else "times")
    if same and many > 1:
        work = texts
    return (*_as_worked(before), Step((("work", work), *goal, *_in(last[0].yarn)), line, texts))


def _goal(goal: Goal, times_key: str = "times") -> tuple[tuple[str, Value], ...]:
    match goal:
        case UntilLong(values, from_start):
            here: tuple[tuple[str, Value], ...] = () if from_start else (("from", "here"),)
            return (("until", values), *here)
        case RowsInAll(values):
            return (("rounds", values),)
        case MoreOften(values):
            return ((times_key, tuple(value + 1 for value in values)),)


def _step(each: Sentence, in_round: bool) -> tuple[Step, ...]:
    """The step that a sentence is which works no rows in words."""
    line, yarn = each.line, _in(each.yarn)
    match each.said:
        case CastOn(values, method, rest):
            entries: list[tuple[str, Value]] = [("cast on", values)]
            entries += [("method", method)] if method else []
            entries += yarn
            entries += [("note", Words(f"{rest[:1].upper()}{rest[1:]}."))] if rest else []
            return (Step(tuple(entries), line),)
        case Plain(fabric, goal):
            rows = FABRICS[fabric][0 if in_round else 1]
            work: Value = rows if len(rows) > 1 else rows[0]
            return (Step((("work", work), *_goal(goal), *yarn), line, rows),)
        case Evenly(way, values):
            return (Step((("even", way), ("to", values), *yarn), line),)
        case BindOff(how):
            return (
                Step((("bind off", "all"), *((("how", Words(how)),) if how else ()), *yarn), line),
            )
        case Gather():
            return (Step((("gather", "all"),), line),)
        case Prose(text, works, _):
            return (Step((("say", Words(text)),), line, kept=works),)
        case NumberedRow() | LikeRow() | Again():
            return (Step((("say", Words(each.text)),), line, kept=True),)


def joined(steps: Iterable[Step]) -> Iterator[Step]:
    """Steps with neighbouring prose in one paragraph, as the text has it."""
    held: Step | None = None
    for step in steps:
        if held is not None:
            if _is_prose(held) and _is_prose(step) and not (held.kept or step.kept):
                held = Step((("say", Words(f"{_said(held)} {_said(step)}")),), held.line)
                continue
            yield held
        held = step
    if held is not None:
        yield held


def _is_prose(step: Step) -> bool:
    return len(step.entries) == 1 and step.entries[0][0] == "say"


def _said(step: Step) -> str:
    value = step.entries[0][1]
    assert isinstance(value, Words)
    return value.text
