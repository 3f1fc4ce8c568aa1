"""What words say of a chart as a picture: how it is read, how large it is, what its ground is."""

from collections import Counter
from collections.abc import Iterator

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding
from bindoff.checks.sentencesof import Sentence, sentences
from bindoff.checks.texts.chartdrawn import chart_described, charts_drawn
from bindoff.checks.texts.chartread import charts_read
from bindoff.checks.texts.told.numbers import in_figures
from bindoff.checks.texts.told.truths import phrase
from bindoff.source.grid import Grid
from bindoff.source.model import TextUse

Cell = tuple[int, int]


def charts_as_told(context: Context) -> Iterator[Finding]:
    """Everything that some sentence says of a chart and that is not so."""
    if not context.pattern.charts:
        return
    for sentence in sentences(context):
        yield from _read_from(sentence)
        yield from charts_read(context, sentence)
        yield from charts_drawn(context, sentence)
    for sentence in sentences(context, TextUse.ALT):
        if sentence.prose.path[:1] == ("charts",):
            yield from _as_large(context, sentence)
            yield from _on_ground(context, sentence)
            yield from chart_described(context, sentence)


# ---------------------------------------------------------------- how it is read

_READ = phrase(
    r"\b(right|wrong|RS|WS|odd|even)(?:[- ]sides?|[- ]numbered)? rows?\b[^.;]{0,40}?"
    r"\bfrom (?:the )?(right|left) to (?:the )?(?:right|left)\b"
)


def _read_from(sentence: Sentence) -> Iterator[Finding]:
    """The way a chart is read: a right-side row from right to left, and one that is worked back
    from left to right. Common practice, no source."""
    for found in sentence.said(_READ):
        first, way = found[1].lower(), found[2].lower()
        between = found[0].lower()
        if first in ("odd", "even") or " and " in between or sentence.supposes:
            continue
        right = first in ("right", "rs")
        if right is not (way == "right"):
            other = ("right", "left") if right else ("left", "right")
            yield Finding(
                f"`{' '.join(found[0].split())}`: such rows are read from {other[0]} to {other[1]}",
                sentence.place(found),
            )


# ---------------------------------------------------------------- how large it is

_WIDE = re.compile(
    r"(?<![\w.])(\d+)[- ](?:stitch(?:es)?|sts?) wide\b|(?<![\w.])(\d+)[- ](?:rows?|rounds?) "
    r"(?:high|tall|deep)\b",
    re.IGNORECASE,
)
_LEAST = 4


def _as_large(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """A width or height in the words for a chart that neither it nor a motif in it has."""
    key = str(sentence.prose.path[1])
    words = in_figures(sentence.words)
    for found in _WIDE.finditer(words):
        across = found[1] is not None
        number = int(found[1] or found[2])
        right: set[int] = set()
        for grid in context.source.grids.get(key, ()):
            right |= _extents(grid, across=across)
        of_parts = words[: found.start()].rstrip().endswith("each")
        if number >= _LEAST and right and number not in right and not of_parts:
            most = max(right)
            start, end = _number_begins(sentence.words, found.start()), found.end()
            yield Finding(
                f"`{' '.join(sentence.words[start:end].split())}` stands here, "
                f"and the chart is {most} {'wide' if across else 'high'}",
                sentence.part(start, end),
            )


def _number_begins(words: str, figure: int) -> int:
    """Where the number begins that ``in_figures`` has at ``figure``: at its end, if in words."""
    while figure > 0 and (words[figure - 1].isalpha() or words[figure - 1] == "-"):
        figure -= 1
    return figure


def _extents(grid: Grid, *, across: bool) -> set[int]:
    """The chart's own extent, that of its repeat, and those of every motif on its ground."""
    found = {grid.width, grid.repeat} if across else {grid.height, grid.rows}
    cells = _drawn(grid)
    if not cells:
        return found
    places = [x if across else y for x, y in cells]
    found.add(max(places) - min(places) + 1)
    for part in _connected(cells):
        some = [x if across else y for x, y in part]
        found.add(max(some) - min(some) + 1)
    return found


def _ground(grid: Grid) -> str:
    """The cell that most of a chart is."""
    return Counter("".join(grid.rounds)).most_common(1)[0][0]


def _drawn(grid: Grid) -> frozenset[Cell]:
    """The cells that are not of its ground, each as column and row."""
    ground = _ground(grid)
    return frozenset(
        (x, y)
        for y, line in enumerate(grid.rounds)
        for x, cell in enumerate(line)
        if cell != ground
    )


def _connected(cells: frozenset[Cell]) -> Iterator[frozenset[Cell]]:
    """The parts of a drawing, of which no cell touches one of another part."""
    left = set(cells)
    while left:
        part, edge = set[Cell](), [left.pop()]
        while edge:
            x, y = edge.pop()
            part.add((x, y))
            near = {(x + i, y + j) for i in (-1, 0, 1) for j in (-1, 0, 1)} & left
            left -= near
            edge += near
        yield frozenset(part)


# ---------------------------------------------------------------- what its ground is

_GROUND = phrase(
    r"\bon an? (?:\w+ )?(knit|knitted|plain|smooth|stockinette|stocking[- ]stitch|purl|purled"
    r"|reverse stockinette|reverse stocking[- ]stitch)(?: stitch)? (?:ground|background|field)\b"
)


def _on_ground(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """A knit ground where most cells are purled, or the other way about."""
    key = str(sentence.prose.path[1])
    legend = context.pattern.charts[key].legend
    stitches = {str(legend.get(_ground(grid))) for grid in context.source.grids.get(key, ())}
    stitches = {"k" if each == "knit" else "p" if each == "purl" else each for each in stitches}
    if not stitches <= {"k", "p"} or len(stitches) != 1:
        return
    for found in sentence.said(_GROUND):
        said = "p" if found[1].lower().startswith(("purl", "reverse")) else "k"
        if stitches != {said}:
            is_ = "knit" if said == "p" else "purl"
            place = context.pattern.charts[key].place.of("legend").span
            yield Finding(
                f"`{' '.join(found[0].split())}` stands here, and most cells of the chart {is_}",
                sentence.place(found),
                beside=(place,),
            )
