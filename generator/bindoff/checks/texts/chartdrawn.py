"""What texts say of the drawing of a chart: its yarns, where each comes in, which way it crosses.

A yarn of a chart is known by its name alone, so that a text that calls it the dark one is left
alone.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding
from bindoff.checks.sentencesof import Sentence, quoted
from bindoff.checks.texts.told.numbers import in_figures
from bindoff.checks.texts.told.truths import phrase
from bindoff.checks.walk import charts_worked, step_told
from bindoff.diagnostics import Span
from bindoff.plan.picture import chart_yarns
from bindoff.plan.worked import ChartRows
from bindoff.source.grid import Grid
from bindoff.source.model import TextUse


def charts_drawn(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """Everything that a sentence says of what is drawn in charts."""
    words = sentence.words.lower()
    if "more than" in words or "at most" in words or "never" in words:
        yield from _most_yarns(context, sentence)
    if sentence.prose.kind is TextUse.STEP and ("round" in words or "row" in words):
        yield from _joined(context, sentence)
    if "cross" in words and "chart" in words:
        yield from _crossed_in(context, sentence)


def chart_described(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """Everything that the alternative text of a chart says of what is drawn in it."""
    yield from _crossed(context, sentence)
    yield from _one_over_other(context, sentence)


# ---------------------------------------------------------------- how many yarns in a round

_COLOURS = r"(?:yarns?|colou?rs?|shades?)"
_MOST = phrase(
    rf"\bno (?:rounds?|rows?|rnds?)(?: of (?:the|any|either|these|both) charts?)? [a-z]+"
    rf"(?: [a-z]+)? more than (\d+) {_COLOURS}\b"
    rf"|\bnever (?:[a-z]+ )?more than (\d+) {_COLOURS}(?: [a-z]+)? (?:in|at|per)(?: \w+){{0,2}} "
    rf"(?:rounds?|rows?|time)\b"
    rf"|\bat most (\d+) {_COLOURS}(?: [a-z]+)? (?:in|per) (?:a|any|each|every|one|the same) "
    rf"(?:round|row)\b"
)


def _most_yarns(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """A round of a chart with more yarns than any is said to have. One such round alone is told
    where it is drawn, at the yarn that has the fewest stitches of it."""
    for found in _MOST.finditer(in_figures(sentence.words)):
        most = int(next(filter(None, found.groups())))
        more = [
            (worked, line)
            for worked in _drawn(context)
            for line, cells in enumerate(worked.grid.rounds, 1)
            if len(_yarns(context, worked, cells)) > most
        ]
        place, said = sentence.place(found), sentence.part(*found.span())
        if len(more) == 1:
            worked, line = more[0]
            number = worked.grid.number(line)
            there = len(_yarns(context, worked, worked.grid.rounds[line - 1]))
            yield Finding(
                f"round {number} of the chart has {there} yarns, and the text says that none has "
                f"more than {most}",
                _rarest(context, worked, line),
                beside=(said,),
            )
        elif more:
            yield Finding(
                f"`{' '.join(sentence.words[found.start() : found.end()].split())}` stands here, "
                f"and {len(more)} rounds of the charts have more",
                place,
            )


def _drawn(context: Context) -> Iterator[ChartRows]:
    """Each grid that is worked, once."""
    seen = set[tuple[str, Grid]]()
    for _, worked in charts_worked(context):
        if worked.drawing not in seen:
            seen.add(worked.drawing)
            yield worked


def _yarns(context: Context, worked: ChartRows, cells: str) -> Counter[str]:
    """How many cells of each yarn a round has."""
    of = _legend(context, worked.chart)
    return Counter(yarn for cell in cells if (yarn := of.get(cell)) is not None)


def _legend(context: Context, chart: str) -> Mapping[str, str]:
    """The characters of a chart that stand for a yarn."""
    known = context.pattern.yarns
    yarns = chart_yarns(context.pattern.charts[chart]).items()
    return {cell: yarn for cell, yarn in yarns if yarn in known}


def _rarest(context: Context, worked: ChartRows, line: int) -> Span:
    """The place of the yarn that has the fewest stitches of a round."""
    cells, of = worked.grid.rounds[line - 1], _legend(context, worked.chart)
    yarn = _yarns(context, worked, cells).most_common()[-1][0]
    column = next(at for at, cell in enumerate(cells) if of.get(cell) == yarn)
    return worked.grid.span(line, len(cells) - column)


# ---------------------------------------------------------------- where a yarn comes in and goes

_AT_ROUND = (
    r"(?: again| back| in| anew)* (?:in|on|at|before|with) (?:the )?(?:round|row|rnd) (\d+)\b"
    r"(?! (?:stitch|st|cm)| of the (?!charts?))"
)
_AFTER_ROUND = r" after (?:the )?(?:round|row|rnd) (\d+)\b(?! of the (?!charts?))"
_JOINS = re.compile(r"\b(?:join|rejoin|bring|pick up|add)\b", re.IGNORECASE)
_CUTS = re.compile(r"\b(?:cut|break)\b", re.IGNORECASE)


def _joined(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """A yarn joined in a round that does not begin it, or cut after one that does not end it, at
    the step that works its chart once."""
    joins, cuts = _JOINS.search(sentence.words), _CUTS.search(sentence.words)
    if not (joins or cuts) or sentence.supposes:
        return
    worked = _once_worked(context, sentence)
    if worked is None:
        return
    names = {yarn.name: key for key, yarn in context.pattern.yarns.items()}
    name = "|".join(re.escape(each) for each in sorted(names, key=len, reverse=True))
    lines = [frozenset(_yarns(context, worked, cells)) for cells in worked.grid.rounds]
    for wanted, rest in ((joins, _AT_ROUND), (cuts, _AFTER_ROUND)):
        pattern = phrase(rf"(?<![\w-])(?-i:({name})){rest}")
        for found in pattern.finditer(sentence.words, wanted.end()) if wanted else ():
            wrong = _misplaced(lines, names[found[1]], int(found[2]), joined=rest is _AT_ROUND)
            if wrong:
                yield Finding(
                    f"`{quoted(found)}` stands here, and {wrong}",
                    sentence.place(found),
                    beside=(context.pattern.charts[worked.chart].place.of("grid").span,),
                )


def _once_worked(context: Context, sentence: Sentence) -> ChartRows | None:
    """The chart that the step of a sentence works in all its rounds, once in every size."""
    at = step_told(context, sentence.prose)
    if at is None or len(at.step.charts) != 1:
        return None
    worked = at.step.charts[0]
    once = worked.grid.first == worked.grid.every == 1
    return worked if once and set(worked.rounds) == {worked.grid.height} else None


def _misplaced(lines: Sequence[frozenset[str]], yarn: str, number: int, *, joined: bool) -> str:
    """What is wrong with a yarn that is joined in a round, or cut after it; empty where nothing
    is. It may be cut later than it could, and be joined for its second stretch."""
    own = [line for line, yarns in enumerate(lines, 1) if yarn in yarns]
    if number > len(lines):
        return f"the chart has {len(lines)} rounds"
    if not own:
        return ""
    if joined:
        begins = [line for line in own if line - 1 not in own]
        return "" if number in begins else f"the chart has it from round {_either(begins)}"
    return f"the chart has it in round {number + 1}" if number + 1 in own else ""


def _either(numbers: Sequence[int]) -> str:
    return " and from round ".join(map(str, numbers))


# ---------------------------------------------------------------- which way it crosses

_CROSSES = phrase(
    r"\b(?:cross(?:es|ed|ing)?|twist(?:s|ed|ing)?|lean(?:s|ing)?|turn(?:s|ed|ing)?)"
    r"(?: over)?(?: [a-z]+)? to the (left|right)\b"
)
_SIDE = re.compile(r"\b(left|right)\b", re.IGNORECASE)
_WAYS: Mapping[str, str] = {"RC": "right", "LC": "left", "RPC": "right", "LPC": "left"}


def _crossed(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """Crossings that the words for a chart have lean to one side, and its legend to the other
    alone. Where the title names the side as well, it is the legend that is wrong."""
    key = str(sentence.prose.path[1])
    chart = context.pattern.charts[key]
    said = {found[1].lower(): found for found in sentence.said(_CROSSES)}
    drawn = {"".join(grid.rounds) for grid in context.source.grids.get(key, ())}
    used = {cell for cells in drawn for cell in cells}
    leans = {
        way
        for cell, meaning in chart.legend.items()
        if cell in used and "/" in str(meaning)
        for way in [_WAYS.get(str(meaning).split()[-1].upper())]
        if way
    }
    if len(said) != 1 or len(leans) != 1 or set(said) == leans:
        return
    (side, found), (lean,) = *said.items(), leans
    titled = {each.lower() for each in _SIDE.findall(chart.title)} == {side}
    legend = chart.place.of("legend").span
    yield Finding(
        f"`{quoted(found)}` stands here, and the legend has crossings to the {lean} alone"
        if not titled
        else f"the legend has crossings to the {lean} alone, and the title and the words for the "
        f"chart have the {side}",
        legend if titled else sentence.place(found),
        beside=(sentence.place(found) if titled else legend,),
    )


_CROSSED_IN = phrase(
    r"\bcross(?:es|ed)? (?:first |for the first time )?(?:in|on) (?:round|row) (\d+) of "
    r"(?:its|the|each|their) charts?\b"
)


def _crossed_in(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """A row of a chart that is said to cross stitches, where no chart crosses any in it."""
    there = {
        worked.grid.number(line)
        for worked in _drawn(context)
        for line, cells in enumerate(worked.grid.rounds, 1)
        if any("/" in str(context.pattern.charts[worked.chart].legend.get(each)) for each in cells)
    }
    for found in sentence.said(_CROSSED_IN) if there and not sentence.supposes else ():
        if int(found[1]) not in there:
            rows = " and ".join(map(str, sorted(there)))
            yield Finding(
                f"`{quoted(found)}` stands here, and stitches are crossed in {rows}",
                sentence.place(found),
            )


# ---------------------------------------------------------------- what stands above and below

_OVER = r"(?: [a-z]+)? (below|beneath|underneath|above|on top of|over) (?:it|them)\b"


def _one_over_other(context: Context, sentence: Sentence) -> Iterator[Finding]:
    """A yarn that is said to stand below the rest of a motif, and is drawn above it."""
    key = str(sentence.prose.path[1])
    if not re.search(r"\b(?:it|them)\b", sentence.words):
        return
    of = _legend(context, key)
    for cell, yarn in of.items():
        name = context.pattern.yarns[yarn].name
        pattern = phrase(rf"\b{re.escape(name)}{_OVER}")
        for found in sentence.said(pattern) if name else ():
            for grid in context.source.grids.get(key, ()):
                yield from _stands(context, key, (grid, cell), sentence, found)


def _stands(
    context: Context,
    key: str,
    drawn: tuple[Grid, str],
    sentence: Sentence,
    found: "re.Match[str]",
) -> Iterator[Finding]:
    """Whether the cells of one character stand on the side of the others that a text tells."""
    grid, cell = drawn
    ground = Counter("".join(grid.rounds)).most_common(1)[0][0]
    own = [line for line, cells in enumerate(grid.rounds) for each in cells if each == cell]
    rest = [
        line
        for line, cells in enumerate(grid.rounds)
        for each in cells
        if each not in (cell, ground)
    ]
    if cell == ground or not own or not rest:
        return
    below = found[1].lower() in ("below", "beneath", "underneath")
    name = context.pattern.yarns[_legend(context, key)[cell]].name
    if (min(own) > max(rest)) if below else (max(own) < min(rest)):
        yield Finding(
            f"`{quoted(found)}` stands here, and the chart has {name} "
            f"{'above' if below else 'below'} the rest",
            sentence.place(found),
        )
        return
    apart = [line for line in own if (line >= min(rest) if below else line <= max(rest))]
    if len(apart) == 1 < len(own):
        column = grid.rounds[apart[0]].index(cell)
        yield Finding(
            f"a stitch of {name} stands among the rest, and the words for the chart have it "
            f"{found[1].lower()} them",
            grid.span(apart[0] + 1, grid.width - column),
            beside=(sentence.place(found),),
        )
