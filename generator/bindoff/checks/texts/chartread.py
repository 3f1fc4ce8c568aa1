"""How texts have a chart read: which way, on which side of the work, and around which repeat."""

from collections import Counter
from collections.abc import Iterator, Sequence

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding
from bindoff.checks.sentencesof import Sentence, quoted
from bindoff.checks.texts.told.numbers import in_figures
from bindoff.checks.texts.told.truths import phrase
from bindoff.checks.walk import charts_worked
from bindoff.plan.worked import ChartRows
from bindoff.records import Record
from bindoff.remembered import once_each

_OTHER_HAND = re.compile(r"\bleft[- ]hand|\bmirror|\blefties\b", re.IGNORECASE)


class _Worked(Record):
    """The charts of a pattern, whether each is worked ``flat``, and the first row of each that
    is."""

    charts: tuple[ChartRows, ...]
    flat: frozenset[bool]
    first: frozenset[str]


@once_each
def _worked(context: Context) -> _Worked:
    found = [(each, at.flat) for at, each in charts_worked(context)]
    charts = context.pattern.charts
    return _Worked(
        tuple(each for each, _ in found),
        frozenset(flat for _, flat in found),
        frozenset(charts[each.chart].first_row for each, flat in found if flat),
    )


def charts_read(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """Everything that a sentence says of reading the charts that are worked."""
    words = sentence.words
    if "left" in words:
        yield from _to_and_fro(context, sentence)
    if "side" in words:
        yield from _sided(context, sentence)
        yield from _blank(context, sentence)
    if "repeat" in words:
        yield from _beside(context, sentence)


# ---------------------------------------------------------------- which way

_NUMBERED = re.compile(r"\b(?:odd|even|other|alternate)\b", re.IGNORECASE)
_ROWS = r"(?:all )?(?:the |its |their )?(odd|even|other|alternate)(?:[- ]numbered)?"
_OF_ROWS = phrase(
    rf"\b{_ROWS} (?:rows?|rounds?|rnds?|ones)\b(?:(?!\b(?:odd|even)\b)[^.;]){{0,50}}?"
    rf"\bfrom (?:the )?(left|right) to (?:the )?(?:left|right)\b"
)
_WAY_IN = phrase(
    rf"\bfrom (?:the )?(left|right) to (?:the )?(?:left|right),? (?:in|on|for|across|along) "
    rf"(?:every |each )?{_ROWS}\b"
)


def _to_and_fro(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """Rows by their numbers that are read the other way: in the round all are read from right to
    left, and flat those whose right side faces. Common practice, no source."""
    if not _NUMBERED.search(sentence.words):
        return
    if not re.search(r"\bcharts?\b|\bread\b", sentence.prose.text, re.IGNORECASE):
        return
    worked = _worked(context)
    if len(worked.flat) != 1 or _OTHER_HAND.search(sentence.words) or sentence.supposes:
        return
    turned = list(sentence.said(_WAY_IN))
    claims = [(found, found[2], found[1]) for found in turned]
    claims += [(found, found[1], found[2]) for found in sentence.said(_OF_ROWS) if not turned]
    for found, rows, way in claims:
        if True not in worked.flat:
            if way.lower() == "left":
                yield Finding(
                    f"`{quoted(found)}` stands here, and the chart is worked in the round: every "
                    f"round is read from right to left",
                    sentence.place(found),
                )
                return
        elif rows.lower() in ("odd", "even") and len(worked.first) == 1:
            facing = (rows.lower() == "odd") is ("right side" in worked.first)
            if facing is not (way.lower() == "right"):
                right = "right to left" if facing else "left to right"
                yield Finding(
                    f"`{quoted(found)}` stands here, and {rows.lower()} rows are "
                    f"{'right' if facing else 'wrong'}-side rows, read from {right}",
                    sentence.place(found),
                )
                return


# ---------------------------------------------------------------- on which side

_SIDED = phrase(
    r"\b(odd|even)(?:-numbered)? rows, (?:which|that) are (?:all )?(?:the )?(right|wrong)[- ]side\b"
)
_BLANK = phrase(
    r"\b(?:blank|empty|white|plain|unmarked|open|clear)\b[^.;:]{0,40}?"
    r"\b(?:is|are) (?:worked )?(?:as (?:a )?)?(knit|knitted|purl|purled)\b"
)
_ON_ONE = phrase(r"\b(?:on|in) (?:the |all |every )?(right|wrong)[- ]sides?\b")


def _sided(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """Odd or even rows of a flat chart that are said by the way to be those of the other side."""
    worked = _worked(context)
    if worked.flat != {True} or len(worked.first) != 1 or sentence.supposes:
        return
    for found in sentence.said(_SIDED):
        facing = (found[1].lower() == "odd") is ("right side" in worked.first)
        if facing is not (found[2].lower() == "right"):
            side = "right" if facing else "wrong"
            yield Finding(
                f"`{quoted(found)}` stands here, and {found[1].lower()} rows of the chart are "
                f"{side}-side rows",
                sentence.place(found),
            )


def _blank(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """What is worked on one side where the chart is empty: a knit cell is one that knits on the
    right side, and so is purled on the wrong one."""
    worked = _worked(context)
    if worked.flat != {True}:
        return
    sides = {found[1].lower() for found in sentence.said(_ON_ONE)}
    ground = {_ground(context, chart) for chart in worked.charts}
    if len(sides) != 1 or not ground <= {"k", "p"} or len(ground) != 1:
        return
    purled = ("p" in ground) is ("right" in sides)
    for found in sentence.said(_BLANK):
        if purled is not found[1].lower().startswith("purl"):
            yield Finding(
                f"`{quoted(found)}` stands here, and on the {sides.pop()} side an empty cell of "
                f"the chart is {'purled' if purled else 'knitted'}",
                sentence.place(found),
            )
            return


def _ground(context: Context, chart: ChartRows) -> str:
    """The stitch that most cells of a chart stand for, if it is knit or purl; empty else."""
    cell = Counter("".join(chart.grid.rounds)).most_common(1)[0][0]
    meaning = context.pattern.charts[chart.chart].legend.get(cell)
    return {"k": "k", "knit": "k", "p": "p", "purl": "p"}.get(str(meaning), "")


# ---------------------------------------------------------------- around which repeat

_EDGES = phrase(r"(?<![\w.])(\d+) (?:stitch(?:es)?|sts?) (?:after|before) (?:it\b|the repeat\b)")


def _beside(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """Cells beside the repeat of a chart, where no chart has so many at either edge: which of the
    two comes after the repeat hangs on the side that faces."""
    if "chart" not in sentence.prose.text or sentence.supposes:
        return
    grids = [chart.grid for chart in _worked(context).charts]
    words = in_figures(sentence.words)
    for found in _EDGES.finditer(words) if any(grid.edged for grid in grids) else ():
        right = _numbers([edge for g in grids for edge in (g.before, g.after) if edge])
        if int(found[1]) not in right:
            said = " ".join(sentence.words[found.start() : found.end()].split())
            yield Finding(
                f"`{said}` stands here, and the chart has {' or '.join(map(str, right))} "
                f"beside its repeat",
                sentence.place(found),
            )


def _numbers(some: Sequence[int]) -> list[int]:
    return sorted(set(some))
