"""What sentences say of a chart: its rows, their sides, and rows of it in words."""

from collections.abc import Iterator, Sequence

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.sentencesof import Sentence
from bindoff.checks.texts.told.counts import Statement
from bindoff.checks.texts.told.numbers import NUMBER, in_figures, number_of
from bindoff.checks.texts.told.scene import Scene
from bindoff.checks.texts.told.truths import all_steps, known, phrase
from bindoff.diagnostics import PatternError
from bindoff.plan.worked import ChartRows, StepPlan
from bindoff.source.grid import Grid
from bindoff.source.model import TextUse
from bindoff.source.rowlang.read import read_row
from bindoff.source.rowlang.stitches import Terms
from bindoff.source.rowlang.syntax import Fill, Part, Repeat, Row, Work

_REPEATS = phrase(
    r"\brepeats? (?:over|of|is) (\d+) (?:stitches|sts) (?:and|by|x) (\d+) (?:row|round|rnd)s\b"
)
_NO_LIST = phrase(r"\b(?:these|list|written) rows?\b")
_CHART = phrase(r"\bcharts?\b")
_NOT_OF = r"\b(?! of the (?:piece|rib|edge|body))"
# A list of figures for the sizes is a figure after many spaces; sizes have a chart in common.
_ROW = phrase(
    rf"\b(?:in|on|at|after|until|is|from|with) (?:row|round|rnd)\s{{1,8}}({NUMBER}){_NOT_OF}"
    rf"|^(?:row|round|rnd)\s{{1,8}}({NUMBER}){_NOT_OF}"
)
_ROWS = phrase(
    rf"\b(?:rows|rounds|rnds) ({NUMBER})(?: ?(?:to|and|–|-|through) ?)({NUMBER}){_NOT_OF}"
)
_HAS = phrase(
    rf"\bchart (?:has|is|of|covers|shows|with|repeats over|is worked over|takes|counts)(?: "
    rf"[\w ,]{{1,30}}?(?:and|of|over))? ({NUMBER}) (stitch(?:es)?|sts?|rows?|rounds?|rnds?)\b"
    rf"|\b({NUMBER}) (stitch(?:es)?|sts?|rows?|rounds?|rnds?)(?: \w+)? (?:of|in) (?:the|this) "
    rf"(?:[\w'’-]+ )?chart\b"
    rf"|\b({NUMBER})-(stitch|row|round) (?:chart|repeat of the chart)"
)
_SIDED = phrase(
    r"\b(?:row|round) (\d+)(?: of (?:the|each|every) (?:chart|repeat))?(?:, which| between them"
    r"| [a-z]+ the [a-z]+)? is (?:worked )?"
    r"(?:on )?(?:an? |the )?(right"
    r"|wrong)[- ]side\b"
    r"|\b(odd|even)(?:-numbered)? (?:chart )?rows(?: of the chart)? are (?:all )?(?:worked )?"
    r"(?:on )?(?:the )?(right|wrong)[- ]side\b"
    r"|\b(right|wrong)[- ]side rows(?: of the chart)? are(?: the)? (odd|even)\b"
)
_WORDS = phrase(
    r"\b(?:row|round|rnd) (\d+)(?: \((?:RS|WS|right side|wrong side)\))?(?: of (?:the|this) "
    r"chart)?(?:,? in words)?(?:,? (?:reads|is))? ?: (.+)$"
    r"|\b(?:row|round|rnd) (\d+)\b(?![^:;]*\b(?:row|round|rnd)s? \d)[^:;]{1,70}?"
    r"\b(?:reads?|goes|is worked|runs?) ?: (.+)$"
)
_WORDS_OF_SOME = phrase(
    r"\b(?:rows|rounds|rnds) (\d+(?:, ?\d+)*,? and \d+)(?:,? in words)? ?: (.+)$"
)
_LISTED_ROW = phrase(
    r"\b(?:row|round|rnd) (\d+)(?: \((?:RS|WS)\))?[,:] ((?:[^;.:,]+, )+[^;.:,]+?(?:; ?(?:repeat"
    r"|rep) from \*"
    r"(?: to (?:the )?end)?)?)(?= ?[;.]|$)"
)
_SHORT = re.compile(r"[a-z]{1,6}\d?")
_OTHERS = phrase(
    r"\b(?:in|on) (?:all|every|each)(?: the)? (?:(right|wrong)[- ]side) rows?,? (.+)$"
    r"|\b(?:all|every|each) (?:(right|wrong)[- ]side) rows?(?: (?:is|are))?: ?(.+)$"
)


def charts_told(context: Context, scene: Scene, sentence: Sentence) -> Iterator[Statement]:
    """Everything that a sentence says of charts."""
    worked = _worked(context, scene)
    if not worked:
        yield from _titled(context, sentence)
        return
    yield from _figures(context, scene, sentence, worked)
    yield from _rows_named(context, scene, sentence, worked)
    yield from _sides(context, sentence, worked)


def _worked(context: Context, scene: Scene) -> tuple[ChartRows, ...]:
    """The charts that a text may speak of: those of its section, of its piece, or all."""
    places: Sequence[Sequence[StepPlan]] = (scene.here, scene.section)
    if scene.plan is not None:
        places = (*places, scene.plan.steps)
    for steps in (*places, all_steps(context)):
        charts = tuple(chart for step in steps for chart in step.charts)
        if charts:
            return charts
    return ()


def _figures(
    context: Context, scene: Scene, sentence: Sentence, worked: Sequence[ChartRows]
) -> Iterator[Statement]:
    """How many stitches and rows a chart has."""
    sizes = len(context.source.sizes)
    for found in _HAS.finditer(sentence.words):
        number, unit = [each for each in found.groups() if each][:2]
        figures = []
        for grid in _grids(worked):
            of_stitches = {grid.width, grid.repeat, grid.before, grid.after, grid.centre}
            of_rows = {grid.rows, grid.height, grid.number(grid.height)}
            some = of_stitches if unit.lower().startswith("st") else of_rows
            figures.append(tuple(frozenset(some - {0}) for _ in range(sizes)))
        start = sentence.start
        yield Statement(
            start + found.start(),
            start + found.end(),
            number_of(number),
            known("the chart has", figures),
        )
    yield from _titled(context, sentence)
    every = {(g.repeat, high) for g in _grids(worked) for high in (g.height, g.rows)}
    every |= {(g.width, g.height) for g in _grids(worked)}
    for found in _REPEATS.finditer(sentence.words):
        wide, high = int(found[1]), int(found[2])
        if (wide, high) not in every and (high, wide) in every:
            words = f"the chart repeats over {high} stitches and {wide} rows"
            start = sentence.start
            yield Statement(start + found.start(), start + found.end(), 0, None, words)


_WIDE_HIGH = phrase(
    rf"\bthe ([a-z]+) is ({NUMBER}) stitches wide and ({NUMBER}) (?:rows|rounds) (?:high|tall)\b"
)


def _titled(context: Context, sentence: Sentence) -> Iterator[Statement]:
    """How wide and high a motif is that goes by the title of its chart."""
    for found in _WIDE_HIGH.finditer(sentence.words):
        for key, chart in context.pattern.charts.items():
            if found[1].lower() not in (key.lower(), chart.title.lower()):
                continue
            grids = context.source.grids[key]
            told = (number_of(found[2]), number_of(found[3]))
            if all(told != (grid.width, grid.height) for grid in grids):
                words = f"it is {grids[0].width} wide and {grids[0].height} high"
                at = sentence.start
                yield Statement(at + found.start(), at + found.end(), 0, None, words)


def _grids(worked: Sequence[ChartRows]) -> tuple[Grid, ...]:
    return tuple(dict.fromkeys(chart.grid for chart in worked))


def _rows_named(
    context: Context, scene: Scene, sentence: Sentence, worked: Sequence[ChartRows]
) -> Iterator[Statement]:
    """Rows by their number that a chart does not have."""
    if not scene.prose.has(_CHART) or scene.prose.has(_NO_LIST):
        return
    steps = [step for plan in context.plan.pieces for step in plan.steps if any(step.rounds)]
    lists = [len(step.rows) for step in steps if step.answers.in_turn]
    last = max(max(g.rows, g.height, g.number(g.height)) for g in _grids(worked))
    if max(lists, default=0) > last:
        return
    for found in (*_ROW.finditer(sentence.words), *_ROWS.finditer(sentence.words)):
        number = max(number_of(each) for each in found.groups() if each)
        if number > last:
            at = sentence.start
            words = f"the chart has {last} rows"
            yield Statement(at + found.start(), at + found.end(), 0, None, words)


def _sides(
    context: Context, sentence: Sentence, worked: Sequence[ChartRows]
) -> Iterator[Statement]:
    """Which rows of a flat chart are right-side rows."""
    charts = [context.pattern.charts[each.chart] for each in worked]
    flat = any(step.flat for plan in context.plan.pieces for step in plan.steps if step.charts)
    first = {chart.first_row for chart in charts}
    if not flat or len(first) != 1:
        return
    odd = "right" if first == {"right side"} else "wrong"
    even = "wrong" if odd == "right" else "right"
    at = sentence.start
    for found in _SIDED.finditer(sentence.words):
        number, side, which, side2, side3, which3 = found.groups()
        which = which or which3 or ("odd" if int(number) % 2 else "even")
        is_ = odd if which.lower() == "odd" else even
        if (side or side2 or side3).lower() != is_:
            words = f"{which.lower()} rows are {is_}-side rows"
            yield Statement(at + found.start(), at + found.end(), 0, None, words)


# ---------------------------------------------------------------- rows of a chart in words


def rows_in_words(context: Context, scene: Scene) -> Iterator[Statement]:
    """Rows of a chart that a text tells in words, and what it says of the rows between."""
    prose = scene.prose
    if prose.kind not in (TextUse.STEP, TextUse.TEXT):
        return
    worked = _worked(context, scene)
    named = prose.has(_CHART) or any(
        re.search(rf"\b{re.escape(context.pattern.charts[c.chart].title)}\b", prose.text, re.I)
        for c in worked
    )
    if not worked or (not named and not any(c.between for c in worked)):
        return
    charted = named
    yield from _likened(context, worked, prose.text)
    for start, text in _told(in_figures(prose.text)):
        listed = tuple(_LISTED_ROW.finditer(text)) if charted else ()
        for found in listed if len(listed) > 1 else ():
            wrong = _misread(context, worked, int(found[1]), found[2]) or _unknown(
                context, found[2]
            )
            if wrong:
                yield Statement(start + found.start(), start + found.end(), 0, None, wrong)
        for found in _WORDS.finditer(text) if len(listed) < 2 and charted else ():
            number, told = int(found[1] or found[3]), found[2] or found[4]
            wrong = _misread(context, worked, number, told)
            if wrong:
                yield Statement(start + found.start(), start + found.end(), 0, None, wrong)
        for found in _WORDS_OF_SOME.finditer(text) if charted else ():
            numbers = [int(each) for each in re.findall(r"\d+", found[1])]
            wrong = _misread_between(context, worked, numbers, found[2])
            if wrong:
                yield Statement(start + found.start(), start + found.end(), 0, None, wrong)
        for found in _OTHERS.finditer(text):
            side = (found[1] or found[3]).lower()
            row = read_in_words(context, found[2] or found[4])
            wrong = "" if row is None else _wrong_side(context, worked, side, row)
            if wrong:
                end = start + found.end(1 if found[1] else 3)
                yield Statement(start + found.start(), end, 0, None, wrong)


def is_row_of_chart(context: Context, scene: Scene, number: int, row: Row) -> bool | None:
    """Whether a row in words is that row of a chart near it; ``None`` where that is open."""
    said, told, answer = _stitches(row), _filled(row), None
    for chart in _worked(context, scene):
        cells = _cells(context, chart, number)
        if cells is None:
            between = chart.between
            if between is not None and told and number % 2 == 0:
                answer = answer or _filled(between) == told
            continue
        before, after = _beside(chart, number)
        beside = (before + cells[0], cells[1], cells[2] + after)
        alone = {stitch for some in cells for stitch in some} == {told}
        once = ((*cells[0], *cells[1], *cells[2]), (), ())
        answer = answer or alone or said in (cells, beside, once)
    return answer


def _misread_between(
    context: Context, worked: Sequence[ChartRows], numbers: Sequence[int], words: str
) -> str:
    """What is wrong with the rows that a chart leaves out, told together in words."""
    odd = [number for number in numbers if number % 2]
    even = [number for number in numbers if not number % 2]
    if min(len(odd), len(even)) == 1 and len(numbers) > len("ab"):
        lone = (odd if len(odd) == 1 else even)[0]
        return f"row {lone} is on the other side than the rest of these"
    row, between = read_in_words(context, words), [chart.between for chart in worked]
    if (
        row is None
        or None in between
        or any(context.pattern.charts[c.chart].rows == "all" for c in worked)
    ):
        return ""
    told = _filled(row)
    drawn = {_filled(each) for each in between if each is not None}
    if told and drawn and "" not in drawn and told not in drawn:
        return f"the rows between those of the chart are worked {' or '.join(sorted(drawn))}"
    return ""


def _filled(row: Row) -> str:
    """The stitch that fills a row between its edges; empty where several do."""
    kinds = {part.stitch for part in row.parts if isinstance(part, Fill)}
    return kinds.pop() if len(kinds) == 1 else ""


def _unknown(context: Context, words: str) -> str:
    """A stitch among those of a row in words that nobody knows."""
    parts = [part.strip() for part in words.split(",")]
    odd = [
        part for part in parts if _SHORT.fullmatch(part) and read_in_words(context, part) is None
    ]
    if len(odd) == 1 and len(parts) > len(odd) + 1:
        return f"no stitch is called {odd[0]}"
    return ""


def _told(text: str) -> Iterator[tuple[int, str]]:
    """The sentences of a text up to a full stop: a row in words may hold semicolons."""
    start = 0
    for found in re.finditer(r"\.(?=\s+[A-Z]|\s*$)", text):
        yield (
            start + len(text[start:]) - len(text[start:].lstrip()),
            text[start : found.start()].strip(),
        )
        start = found.end()
    if text[start:].strip():
        yield start + len(text[start:]) - len(text[start:].lstrip()), text[start:].strip()


def read_in_words(context: Context, words: str) -> Row | None:
    """A row in words, where it can be read."""
    words = _in_short(context, " ".join(words.split()))
    try:
        return read_row(words, context.pattern.place.span, context.plan.book)
    except PatternError:
        return None


def _in_short(context: Context, words: str) -> str:
    """``words`` with the names of stitches, as lists explain them, as their abbreviations."""
    book = context.plan.book
    for stitch in book.stitches:
        for terms in Terms:
            name = stitch.wording(terms).name
            if " " in name and name in words.lower():
                words = re.sub(
                    rf"\b{re.escape(name)}\b(?! \d)", stitch.id, words, flags=re.IGNORECASE
                )
    return words


def _misread(context: Context, worked: Sequence[ChartRows], number: int, words: str) -> str:
    """What is wrong with a row of the chart in words; empty where nothing is, or is known."""
    row = read_in_words(context, words)
    said = None if row is None else _stitches(row)
    if said is None:
        return _unlike(context, worked, number, row) or _strange(context, words)
    wrong = ""
    for chart in worked:
        cells = _cells(context, chart, number)
        if cells is None or said == cells or (said[0] == sum(cells, ()) and not said[1]):
            return ""
        if not said[1] and not cells[0] and not cells[2]:
            if said[0] == cells[1]:
                return ""
            wrong = wrong or _difference(cells, ((), said[0], ()))
            continue
        before, after = _beside(chart, number)
        if before or after:
            cells = (before + cells[0], cells[1], cells[2] + after)
            if said == cells or _inside(said, cells):
                return ""
        wrong = wrong or _difference(cells, said)
    return wrong


def _inside(said: Sequence[Sequence[str]], cells: Sequence[Sequence[str]]) -> bool:
    """Whether a row is told without its outermost stitches, as between two markers."""
    first = cells[0][len(cells[0]) - len(said[0]) :] if said[0] else ()
    return (
        (*first,) == (*said[0],)
        and said[1] == cells[1]
        and ((*cells[2][: len(said[2])],) == (*said[2],))
    )


def _beside(chart: ChartRows, number: int) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The stitches worked before and after a row of the chart that is drawn from the right side."""
    ends = []
    for rows in (chart.first, chart.last):
        row = rows[(number + 1) % 2 % len(rows)] if rows else None
        ends.append((row and _singly(row.parts)) or ())
    return ends[0], ends[1]


def _unlike(context: Context, worked: Sequence[ChartRows], number: int, row: Row | None) -> str:
    """How a row that is one stitch throughout differs from one of the chart that is another."""
    told = "" if row is None or len(row.parts) > 1 else _filled(row)
    for chart in worked if told else ():
        cells = _cells(context, chart, number)
        kinds = {stitch for some in cells or () for stitch in some}
        if len(kinds) == 1 and told not in kinds:
            return f"row {number} of the chart is {kinds.pop()} throughout"
    return ""


def _strange(context: Context, words: str) -> str:
    """A stitch of a row in words that nobody knows, where all others are known."""
    parts = re.findall(r"(?<![\w-])[a-z]{1,6}\d?[a-z]{0,3}(?![\w-])", words.split(";")[0])
    odd = [part for part in parts if read_in_words(context, part) is None]
    return f"no stitch is called {odd[0]}" if len(odd) == 1 and len(parts) > _PARTS else ""


_PARTS = 3
_Stitches = tuple[tuple[str, ...], tuple[str, ...], tuple[str, ...]]


def _cells(context: Context, worked: ChartRows, number: int) -> _Stitches | None:
    """The stitches of a row before its repeat, in it, and after it, in the order they are worked.

    ``None`` for a row that is not drawn, or is worked on the other side than it is drawn from.
    """
    grid, chart = worked.grid, context.pattern.charts[worked.chart]
    line = next((n for n in range(1, grid.height + 1) if grid.number(n) == number), 0)
    turned = (number % 2 == 0) is (chart.first_row == "right side")
    turned = turned and not _in_the_round(context, worked.chart)
    if not line or turned or grid.centre or grid.twin:
        return None
    before, repeat, _, _, after = grid.parted(grid.rounds[line - 1])
    found: list[tuple[str, ...]] = []
    for cells in (before, repeat, after):
        names = [chart.legend[cell] for cell in reversed(cells)]
        known = [context.plan.book.find(name) for name in names if isinstance(name, str)]
        ids = tuple(each.id for each in known if each is not None)
        if len(ids) != len(cells):
            return None
        found.append(ids)
    return found[0], found[1], found[2]


def _in_the_round(context: Context, key: str) -> bool:
    """Whether all steps that work a chart are worked in the round, and read it from one side."""
    steps = [step for step in all_steps(context) if any(c.chart == key for c in step.charts)]
    return bool(steps) and not any(step.flat for step in steps)


_LIKE_ROW = phrase(
    r"\b(?:rows?|rounds?|rnds?) (\d+) ?:? ?(?:is |are )?(?:work(?:ed)? |knit(?:ted)? )?(?:like"
    r"|as|the same as|as for)"
    r" (?:row|round|rnd) (\d+)\b(?! (?:to|and|of the rib))"
)


def _likened(context: Context, worked: Sequence[ChartRows], text: str) -> Iterator[Statement]:
    """Rows of a chart that are said to be like others of it, and are not."""
    for found in _LIKE_ROW.finditer(text):
        one, other = int(found[1]), int(found[2])
        pairs = [(_cells(context, chart, one), _cells(context, chart, other)) for chart in worked]
        if pairs and all(a is not None and b is not None and a != b for a, b in pairs):
            words = f"rows {one} and {other} of the chart differ"
            yield Statement(found.start(), found.end(), 0, None, words)


def _stitches(row: Row) -> _Stitches | None:
    """A row as stitches before its repeat, in it and after it; ``None`` where that is open."""
    parts: list[tuple[str, ...] | None] = [_singly(row.parts)]
    repeats = [part for part in row.parts if isinstance(part, Repeat)]
    if len(repeats) == 1:
        at = row.parts.index(repeats[0])
        parts = [_singly(row.parts[:at]), _singly(repeats[0].parts), _singly(row.parts[at + 1 :])]
    if not repeats:
        parts = [*parts, (), ()]
    if len(parts) != _PARTS:
        return None
    before, repeat, after = parts
    if before is None or repeat is None or after is None:
        return None
    return before, repeat, after


def _singly(parts: Sequence[Part]) -> tuple[str, ...] | None:
    """Stitches one by one, where all are told so."""
    found: list[str] = []
    for part in parts:
        if not isinstance(part, Work) or not isinstance(part.times, int) or part.how:
            return None
        found += [part.stitch] * part.times
    return tuple(found)


def _difference(cells: _Stitches, said: _Stitches) -> str:
    """How a row in words differs from its line of the chart, at the first difference."""
    for name, one, other in zip(("before", "in", "after"), cells, said, strict=True):
        if len(one) != len(other):
            return f"the chart has {len(one)} cells {name} its repeat, and the words {len(other)}"
        for index, (cell, stitch) in enumerate(zip(one, other, strict=True), start=1):
            if cell != stitch:
                return f"cell {index} {name} the repeat of the chart is {cell}, and not {stitch}"
    return ""


def _wrong_side(context: Context, worked: Sequence[ChartRows], side: str, row: Row) -> str:
    """What is wrong with the side of rows in words, by those that the chart draws or leaves out."""
    for chart in worked:
        source = context.pattern.charts[chart.chart]
        if source.rows != "all" and chart.between is not None:
            drawn = "right" if source.first_row == "right side" else "wrong"
            if side == drawn and row.parts == chart.between.parts:
                return f"the chart draws the {drawn}-side rows, and these are those between"
        elif source.rows == "all":
            kinds = {_kind(part) for part in row.parts} - {""}
            if kinds != {"k", "p"} or not any(
                isinstance(p, Fill) and p.stitch == "p" for p in row.parts
            ):
                continue
            legend = source.legend
            lines = [
                line
                for number, line in enumerate(chart.grid.rounds, start=1)
                if (chart.grid.number(number) % 2 == 1) == (side == "right")
            ]
            if any(legend.get(cell) == "yo" for line in lines for cell in line):
                return f"the {side}-side rows of the chart have other stitches"
    return ""


def _kind(part: object) -> str:
    stitch = getattr(part, "stitch", "")
    return stitch if stitch in ("k", "p") else ""
