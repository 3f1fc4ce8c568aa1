"""Rows that a text tells in words, held against the rows and the charts of the steps near it."""

from collections.abc import Iterator, Sequence

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.queries.sentence import Doubt, Told, Written
from bindoff.checks.texts.told.charted import is_row_of_chart, read_in_words
from bindoff.checks.texts.told.scene import Scene
from bindoff.checks.texts.told.truths import phrase
from bindoff.plan.rowcount import RowMismatch, count_row
from bindoff.plan.worked import StepPlan
from bindoff.source.rowlang.syntax import Row
from bindoff.source.rowlang.uses import numbers_used

_LABEL = phrase(
    r"\b(?:rows?|rounds?|rnds?) (\d+(?:(?:,| to|,? and) \d+)*)"
    r"(?: \((?:RS|WS|right side|wrong side)\))?(?: of the chart)?(?:,? in words)?[:,] "
)
_REPEATED = phrase(r"(?:\b(?:[kp]\d+|[a-z]{1,5}),? ){0,12}\*[^.*:]*?\brep(?:eat)? from \*[^.:;]*")
_END = re.compile(r"[.:](?=\s|$)")


def rows_written(context: Context, scene: Scene) -> tuple[Written, ...]:
    """Every row in words of a text that can be read, and that something near can confirm."""
    text, found = scene.prose.text, list[Written]()
    labels = list(_LABEL.finditer(text))
    for label, nxt in zip(labels, (*labels[1:], None), strict=False):
        end = _END.search(text, label.end(), nxt.start() if nxt else len(text))
        last = end.start() if end else nxt.start() if nxt else len(text)
        words = text[label.end() : last].rstrip(" \t\n;,")
        row = read_in_words(context, words)
        numbers = [int(each) for each in re.findall(r"\d+", label[1])]
        wrong = None if row is None else _against(context, scene, numbers, row)
        if wrong is not None:
            found.append(Written(label.start(), label.end() + len(words), wrong))
    for each in _REPEATED.finditer(text):
        row = read_in_words(context, each[0])
        inside = any(one.start <= each.start() < one.end for one in found)
        if row is not None and not inside:
            found.append(Written(*each.span(), _unlike(context, scene, row)))
    return tuple(found)


def misread(told: Told) -> Iterator[Doubt]:
    """Each row in words that is none of those near, at the sentence where it begins."""
    at = told.sentence.start
    for each in told.written:
        if each.wrong and at <= each.start < at + len(told.words):
            yield Doubt(each.start - at, min(each.end - at, len(told.words)), each.wrong)


def _against(context: Context, scene: Scene, numbers: Sequence[int], row: Row) -> str | None:
    """What speaks against a row that is told by its number; ``None`` where no list has it."""
    answers = [is_row_of_chart(context, scene, number, row) for number in numbers]
    for step in _near(context, scene):
        if step.answers.in_turn and len(step.rows) >= max(numbers):
            answers.append(all(step.rows[number - 1].parts == row.parts for number in numbers))
    known = [each for each in answers if each is not None]
    if not known:
        return None
    return "" if any(known) else f"row {numbers[0]} here is worked otherwise"


def _unlike(context: Context, scene: Scene, row: Row) -> str:
    """What speaks against a row in words: none is like it, or it fits no count of stitches."""
    steps = _near(context, scene)
    if any(each.parts == row.parts for step in steps for each in step.all_rows):
        return ""
    counts = {each.stitches for step in steps for each in (*step.before, *step.after)} - {0}
    if counts and not numbers_used(row) and not any(_fits(context, row, count) for count in counts):
        return "it fits no count of stitches here"
    return "no row here is worked so"


def _fits(context: Context, row: Row, live: int) -> bool:
    try:
        count_row(row, live, {}, (), context.plan.book)
    except RowMismatch:
        return False
    return True


def _near(context: Context, scene: Scene) -> Sequence[StepPlan]:
    if scene.plan is None:
        return [step for plan in context.plan.pieces for step in plan.steps]
    return (*scene.here, *scene.section)
