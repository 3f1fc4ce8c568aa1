"""Several shapings over the same rows, as a table for each size of what happens in which row."""

from collections.abc import Iterator

from bindoff.document.fullrows import named_in_full
from bindoff.document.phrases import counted, join, joined, of_size, paragraph, running, text
from bindoff.document.stepphrases import changed, headed, stripped, unit_in, with_yarn
from bindoff.document.steps.words import Words, no_tracks
from bindoff.document.tree import Blocks, Column, Inlines, Table, TableRow, Text
from bindoff.document.voice import Voice
from bindoff.english import capital, listed, plural
from bindoff.plan.steps.together import Shaped, Together
from bindoff.plan.worked import PiecePlan, WorkedStep
from bindoff.source.steps.together import TogetherStep

_Step = WorkedStep[TogetherStep, Together]
_PLACES = {
    "start": "at the start",
    "end": "at the end",
    "before marker": "before the marker",
    "after marker": "after the marker",
}


def _tell(voice: Voice, piece: PiecePlan, step: _Step, new_yarn: bool) -> Blocks:
    detail, unit = step.detail, unit_in(step)
    names = listed(dict.fromkeys(each.title for each in detail.shapings))
    warning = running(
        headed("at the same time"),
        f"{capital(names)} are shaped over the same {plural(unit)}. Read the table of your size to "
        "its end before you begin.",
    )
    how = join("work ", counted(detail.rounds, unit), ".")
    rest = f"Work the {plural(unit)} that the table does not name, and what lies beside the shaping"
    between = join(f"{rest}, as ", _plain(voice, detail, unit), ".")
    opening = running(with_yarn(voice, step, new_yarn, how), between, changed(step))
    tables = tuple(_table(voice, step, size, unit) for size in range(len(voice.sizes)))
    return (paragraph(warning), paragraph(opening), *tables)


def _plain(voice: Voice, detail: Together, unit: str) -> Inlines:
    rows = [_amid(stripped(voice.row(row))) for row in detail.plain]
    if len(rows) == 1:
        return join(rows[0], f" in every {unit}")
    if unit == "row":
        return join(rows[0], " on the right side and ", rows[1], " on the wrong side")
    return join(rows[0], " and ", rows[1], " in turn")


def _table(voice: Voice, step: _Step, size: int, unit: str) -> Table:
    """What one size does in each row that shapes."""
    detail = step.detail
    name = voice.sizes[size]
    caption = f"What happens in which {unit}"
    caption = of_size(caption, name) if len(voice.sizes) > 1 else caption
    heads = [
        Column(text(f"{capital(title)}, {_PLACES[at]}"), weight=2.0)
        for title, at in _columns(detail)
    ]
    return Table(
        text(caption),
        (
            Column(text(capital(unit))),
            *heads,
            Column(text("Stitches after"), align="right"),
        ),
        tuple(_rows(voice, step, size)),
    )


def _rows(voice: Voice, step: _Step, size: int) -> Iterator[TableRow]:
    detail = step.detail
    for number, after in enumerate(detail.stitches[size], start=1):
        cells = [_cell(voice, each, size, number) for each in _columns(detail).values()]
        if any(cells):
            yield TableRow(
                (text(str(number)), *(cell or text("–") for cell in cells), text(str(after)))
            )


def _columns(detail: Together) -> dict[tuple[str, str], list[Shaped]]:
    """The shapings by title and place: those that share both follow each other in one column."""
    found: dict[tuple[str, str], list[Shaped]] = {}
    for each in detail.shapings:
        found.setdefault((each.title, each.at), []).append(each)
    return found


def _cell(voice: Voice, shapings: list[Shaped], size: int, number: int) -> Inlines:
    rows = (row for each in shapings if (row := each.in_row(size, number)) is not None)
    return joined(_amid(stripped(voice.row(row, size))) for row in rows)


def _amid(words: Inlines) -> Inlines:
    """``words`` with a small first letter, as amid a sentence."""
    first, *rest = words
    if isinstance(first, Text):
        return (Text(first.text[:1].lower() + first.text[1:]), *rest)
    return words


WORDS = Words(
    TogetherStep, tell=_tell, in_full=named_in_full, leads={}, tells_rounds=True, tracks=no_tracks
)
