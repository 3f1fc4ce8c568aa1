"""The figures that a step, a section or a piece has, per size: what a number can be held "
"against."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby, pairwise

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.plan.steps.buttonholes import Buttonholes
from bindoff.plan.steps.crown import Crowned
from bindoff.plan.steps.taper import Tapered
from bindoff.plan.steps.together import Together
from bindoff.plan.worked import PiecePlan, StepPlan
from bindoff.records import Record
from bindoff.source.rowlang.syntax import (
    Alter,
    CountChange,
    Fill,
    Group,
    Marker,
    MoreTimes,
    NamedNumber,
    Part,
    Repeat,
    Row,
    ToLast,
    ToMarker,
    Work,
    value_of,
)

Figures = tuple[frozenset[int], ...]
"""The figures that one thing has, per size."""


def phrase(words: str) -> "re.Pattern[str]":
    """A pattern of words in any case, between which any white space may stand."""
    spaced = words.replace("[- ]", r"(?:-|\s+)").replace(" ?", r"\s*").replace(" ", r"\s+")
    return re.compile(spaced, re.IGNORECASE)


WASTE = phrase(r"\b(?:waste|scrap) yarn\b")
"""Its rows are none of the piece."""


class Truth(Record):
    """What a number may be: the first of ``figures`` is the likeliest. ``of`` says what they "
    "are."""

    of: str
    figures: tuple[Figures, ...]

    def sizes_of(self, numbers: Sequence[int]) -> set[int]:
        """The sizes in which one and the same thing has the figure given for each; the most there
        are."""
        fitting = [
            {i for i, (n, some) in enumerate(zip(numbers, each, strict=True)) if n in some}
            for each in self.figures
        ]
        return max(fitting, key=len, default=set())

    def said(self, size: int, number: int = 0) -> str:
        """The figures in a size: the first, and the one nearest to ``number``."""
        every = sorted({each for figures in self.figures for each in figures[size]})
        near = sorted(every, key=lambda each: (abs(each - number), each))[:2]
        return " or ".join(map(str, sorted(near))) or "none"


def known(of: str, figures: Iterable[Figures]) -> Truth | None:
    """A truth, or none where nothing is known in some size."""
    found = tuple(dict.fromkeys(each for each in figures if any(each)))
    if not found or not all(any(each[size] for each in found) for size in range(len(found[0]))):
        return None
    return Truth(of, found)


def plain(counts: Sequence[int]) -> Figures:
    """One figure per size; none where it is 0."""
    return tuple(frozenset({each} - {0}) for each in counts)


def all_steps(context: Context) -> tuple[StepPlan, ...]:
    """The steps of all pieces."""
    return tuple(step for plan in context.plan.pieces for step in plan.steps)


def each_size(context: Context) -> range:
    """The indexes of the sizes."""
    return range(len(context.source.sizes))


def alike(context: Context, *figures: int) -> Figures:
    """The same figures in every size; 0 is none."""
    return tuple(frozenset(figures) - {0} for _ in each_size(context))


# ---------------------------------------------------------------- stitches on the needles


def leaves(step: StepPlan, *, rows: bool) -> Iterator[Figures]:
    """The stitches that a step leaves, and those after each of its ``rows``, if wished; those it
    begins or closes."""
    yield plain([each.stitches for each in step.after])
    begun, closed = step.begins, step.closes
    if begun is not None:
        yield plain([sum(part) for part in zip(*begun.parts, strict=True)])
        yield from map(plain, begun.parts)
    if closed is not None:
        yield plain(closed.stitches)
    if rows and any(step.levels):
        yield tuple(frozenset(level.stitches for level in levels) - {0} for levels in step.levels)


def between_markers(step: StepPlan) -> Iterator[tuple[int, ...]]:
    """The stitches before, between and after the markers of each row, per size."""
    for levels in zip(*step.levels, strict=False):
        places = [(0, *sorted(level.markers), level.stitches) for level in levels]
        if len(places[0]) > 2 and len(set(map(len, places))) == 1:
            yield from zip(*([b - a for a, b in pairwise(each)] for each in places), strict=True)


FEW = 6


def few(step: StepPlan) -> bool:
    """Whether so few rows change the count that each may be spoken of; of many, only the last."""
    counts = max((len({level.stitches for level in levels}) for levels in step.levels), default=0)
    return counts <= FEW


def between_last_markers(step: StepPlan) -> Iterator[Figures]:
    """The stitches before, between and after the markers of the last row."""
    last = [levels[-1] for levels in step.levels if levels]
    places = [(0, *sorted(level.markers), level.stitches) for level in last]
    if len(places) == len(step.levels) and len({*map(len, places)}) == 1:
        yield from map(plain, zip(*([b - a for a, b in pairwise(p)] for p in places), strict=True))


def shared(figures: Iterable[Figures], parts: Iterable[Figures]) -> Iterator[Figures]:
    """What falls to each of so many parts."""
    every = tuple(parts)
    for each in figures:
        for some in every:
            yield tuple(
                frozenset(n // k for n in a for k in b if k and n % k == 0) - {0}
                for a, b in zip(each, some, strict=True)
            )


def drawn(context: Context, steps: Iterable[StepPlan], *, across: bool) -> Iterator[Figures]:
    """How wide or how high the pictures are that the pattern has and no step works by rows."""
    if any(step.tubes or step.pictures for step in steps):
        for grids in context.source.grids.values():
            yield plain([grid.width if across else grid.height for grid in grids])


def finds(step: StepPlan) -> Figures:
    """The stitches that a step finds."""
    return plain([each.stitches for each in step.before])


def changes(step: StepPlan) -> Iterator[Figures]:
    """By how many stitches a step changes the count: in all, and in each of its rows."""
    pairs = list(zip(step.before, step.after, strict=True))
    yield plain([abs(after.stitches - before.stitches) for before, after in pairs])
    if step.levels:
        yield each_row(step)


def changed_since(behind: Iterable[StepPlan], step: StepPlan) -> Iterator[Figures]:
    """By how many stitches the count has changed from each step before up to the end of one."""
    for each in behind:
        pairs = zip(each.before, step.after, strict=True)
        yield plain([abs(after.stitches - before.stitches) for before, after in pairs])


def each_row(step: StepPlan) -> Figures:
    """By how many stitches each row of a step changes the count."""
    return tuple(
        frozenset(abs(b - a) for a, b in pairwise(_lives(step, size))) - {0}
        for size, _ in enumerate(step.before)
    )


def _lives(step: StepPlan, size: int) -> list[int]:
    """The stitches on the needles before a step and after each of its rows."""
    levels = step.levels[size] if step.levels else ()
    return [step.before[size].stitches, *(level.stitches for level in levels)]


def shaped_rows(step: StepPlan, size: int) -> list[int]:
    """Which rows of a step, from 0, change the count."""
    return [row for row, (a, b) in enumerate(pairwise(_lives(step, size))) if a != b]


def shaping_rows(steps: Iterable[StepPlan]) -> Figures:
    """How many rows of all the steps change the count."""
    found: dict[int, int] = {}
    for step in steps:
        for size, _ in enumerate(step.levels):
            found[size] = found.get(size, 0) + len(shaped_rows(step, size))
    return plain([found[size] for size in sorted(found)])


def colour_runs(plan: PiecePlan, size: int) -> tuple[str, ...]:
    """The yarn of each stripe of a piece, from the first row to the last."""
    found: list[str] = []
    for step in plan.steps:
        for loops in step.worked[size]:
            for yarn, _ in loops[:1]:
                if found[-1:] != [yarn]:
                    found.append(yarn)
    return tuple(found)


def runs_of(steps: Iterable[StepPlan], size: int) -> list[tuple[str, int]]:
    """Each stripe of some steps that are worked one after another: its yarn and its rows."""
    found: list[tuple[str, int]] = []
    for step in steps:
        for loops in step.worked[size]:
            for yarn, _ in loops[:1]:
                rows = found.pop()[1] if found and found[-1][0] == yarn else 0
                found.append((yarn, rows + 1))
    return found


_ROWS_OF = re.compile(r"\s(?:of|with)\s(?:an?\s)?[a-z]{3,}")
_STRIPED = phrase(r"\b(?:stripes?|bands?|lines?|between)\b")


def rows_of_a_sort(
    context: Context, steps: Sequence[StepPlan], words: str, right: str
) -> Iterator[Figures]:
    """Rows of one sort, of which each list of rows may have one, as `24 rounds of holes`; those of
    a stripe, where the words speak of some."""
    if _ROWS_OF.match(right):
        yield from (figures for step in steps for figures in times_of_step(step))
    if _STRIPED.search(words):
        yield from stripe_heights(context, steps)


def main_of(plan: PiecePlan, size: int) -> str:
    """The yarn that most rows of a piece are in."""
    rows: dict[str, int] = {}
    for yarn, number in runs_of(plan.steps, size):
        rows[yarn] = rows.get(yarn, 0) + number
    return max(rows, key=lambda yarn: rows[yarn], default="")


def stripe_heights(context: Context, steps: Sequence[StepPlan]) -> Iterator[Figures]:
    """The rows of each stripe of a piece that has some, and from a stripe to a picture."""
    for plan in context.plan.pieces:
        if not any(step in steps for step in plan.steps):
            continue
        runs = [runs_of(plan.steps, size) for size in each_size(context)]
        if len({len(each) for each in runs}) == 1:
            yield from (plain([each[at][1] for each in runs]) for at in range(len(runs[0])))
        elif all(len(each) > 1 for each in runs):
            yield tuple(frozenset(rows for _, rows in each) for each in runs)
        yield from _up_to_pictures(plan)


def _up_to_pictures(plan: PiecePlan) -> Iterator[Figures]:
    """The rounds between the picture of a tube and the stripes before and after it."""
    tubes = [step.tubes for step in plan.steps if step.tubes]
    for each in tubes[:1]:
        before, after = [], []
        for tube in each:
            bases = tube.stripes.bases
            first, last = tube.first - 1, tube.last
            ends = [at for at in range(1, first) if bases[at - 1] != bases[at]]
            starts = [at for at in range(last + 1, len(bases)) if bases[at - 1] != bases[at]]
            before.append(first - ends[-1] if ends else 0)
            after.append(starts[0] - last if starts else 0)
        yield from (plain(before), plain(after))


def crossings(context: Context, step: StepPlan) -> Iterator[int]:
    """How many ropes stand side by side in a chart, or in what a row repeats."""
    for chart in step.charts:
        legend = context.pattern.charts[chart.chart].legend
        columns = {
            at
            for line in chart.grid.rounds
            for at, cell in enumerate(line)
            if "/" in str(legend.get(cell))
        }
        if columns:
            yield sum(at - 1 not in columns for at in columns)
    for row in all_rows(step):
        for part in row.parts:
            inner = part.parts if isinstance(part, Group | Repeat) else (part,)
            if crossed := sum("/" in each.stitch for each in inner if isinstance(each, Work)):
                yield crossed


def changes_of_list(step: StepPlan) -> Iterator[Figures]:
    """By how many stitches the rows of a step, worked once, change the count."""
    rows = len(step.rows)
    if step.answers.in_turn and rows > 1 and all(len(levels) >= rows for levels in step.levels):
        yield plain(
            [
                abs(levels[rows - 1].stitches - before.stitches)
                for levels, before in zip(step.levels, step.before, strict=True)
            ]
        )


def numbers_in(context: Context, step: StepPlan) -> Iterator[Figures]:
    """The numbers of stitches that the rows of a step name, and those of its buttonholes."""
    if isinstance(step.detail, Buttonholes):
        holes = step.detail.holes
        yield plain([each.over for each in holes])
        yield tuple(frozenset(each.gaps) for each in holes)
    for row in all_rows(step):
        for part in flat(row.parts):
            if isinstance(part, Work):
                yield plain([value(context, part.times, size) for size in each_size(context)])
            elif isinstance(part, Alter) and isinstance(part.amount, int | NamedNumber):
                yield plain([value(context, part.amount, size) for size in each_size(context)])


def halves(figures: Iterable[Figures]) -> Iterator[Figures]:
    """What falls to each of two sides, beside a stitch in the middle where the count is odd."""
    for each in figures:
        yield tuple(frozenset(n // 2 for n in some) - {0} for some in each)


# ---------------------------------------------------------------- stitches of a row


def altered(context: Context, steps: Iterable[StepPlan], *kinds: CountChange) -> Iterator[Figures]:
    """The stitches that rows cast on, bind off, pick up or hold."""
    for step in steps:
        for row in all_rows(step):
            for part in flat(row.parts):
                if isinstance(part, Alter) and part.change in kinds:
                    amount = part.amount
                    if isinstance(amount, int | NamedNumber):
                        yield plain([value(context, amount, s) for s in each_size(context)])


def edge_counts(context: Context, steps: Iterable[StepPlan]) -> Iterator[Figures]:
    """The stitches at the two ends of rows: each stretch that begins or ends one, and what a row
    leaves unworked of its pattern."""
    for step in steps:
        for chart in step.charts:
            grid = chart.grid
            yield alike(context, grid.before, grid.after)
            for row in (*chart.first, *chart.last):
                yield plain([_used_by(context, row.parts, s) for s in each_size(context)])
        rows = all_rows(step)
        for row in rows:
            yield tuple(frozenset(_ends(context, row, s)) - {0} for s in each_size(context))


def _ends(context: Context, row: Row, size: int) -> Iterator[int]:
    for parts in (row.parts, row.parts[::-1]):
        total = 0
        for part in parts:
            if isinstance(part, Fill | Repeat):
                to = part.to if isinstance(part, Fill) else part.until
                if isinstance(to, ToLast):
                    yield value(context, to.count, size)
                elif isinstance(to, ToMarker):
                    yield value(context, to.before, size)
                break
            if isinstance(part, Alter):
                if isinstance(part.amount, int | NamedNumber):
                    yield value(context, part.amount, size)
                continue
            total += used(context, part, size)
            yield total
            if isinstance(part, Work):
                yield value(context, part.times, size)


def used(context: Context, part: Part, size: int) -> int:
    """The stitches that a part of known length uses."""
    match part:
        case Work(stitch, times):
            return context.plan.book[stitch].consumes * value(context, times, size)
        case Group(parts, times):
            return sum(used(context, each, size) for each in parts) * value(context, times, size)
        case _:
            return 0


def _used_by(context: Context, parts: Iterable[Part], size: int) -> int:
    return sum(used(context, part, size) for part in parts)


def between_edges(context: Context, step: StepPlan) -> Iterator[Figures]:
    """The stitches that a row's one repeat covers, between those that it works once."""
    live = [each.stitches for each in step.before]
    for row in all_rows(step) if step.answers.in_turn else ():
        over = [part for part in row.parts if isinstance(part, Repeat | Fill)]
        if len(over) == 1:
            yield plain(
                [max(live[s] - _used_by(context, row.parts, s), 0) for s in each_size(context)]
            )


def repeat_counts(context: Context, steps: Iterable[StepPlan]) -> Iterator[Figures]:
    """The stitches of what rows and charts repeat across."""
    for step in steps:
        for chart in step.charts:
            yield alike(context, chart.grid.repeat, chart.grid.width)
        for row in all_rows(step) if step.answers.in_turn else ():
            for part in row.parts:
                if isinstance(part, Repeat) and not isinstance(part.until, MoreTimes):
                    yield plain([_used_by(context, part.parts, s) for s in each_size(context)])


def all_rows(step: StepPlan) -> tuple[Row, ...]:
    """The rows of a step, those between the rows of its charts too."""
    between = [chart.between for chart in step.charts if chart.between is not None]
    rows = (*step.all_rows, *between)
    if isinstance(step.detail, Together):
        rows += tuple(row for each in step.detail.shapings for row in each.works)
    return rows


def flat(parts: Iterable[Part]) -> Iterator[Part]:
    """All parts of a row, those inside others too."""
    for part in parts:
        yield part
        if isinstance(part, Group | Repeat):
            yield from flat(part.parts)


def value(context: Context, count: int | NamedNumber, size: int) -> int:
    """A count of a row in a size; 0 where it has none."""
    if isinstance(count, int):
        return count
    return value_of(count, context.plan.measures.numbers(size)) or 0


def has_markers(step: StepPlan) -> bool:
    """Whether rows of a step place or pass markers."""
    return any(isinstance(part, Marker) for row in all_rows(step) for part in flat(row.parts))


# ---------------------------------------------------------------- rows and times


def rounds_of(steps: Sequence[StepPlan]) -> Iterator[Figures]:
    """The rows or rounds of each step, of its list, and of runs of steps from the first on."""
    total: list[int] = []
    for step in steps:
        yield plain(step.rounds)
        total = [a + b for a, b in zip(total or [0] * len(step.rounds), step.rounds, strict=True)]
        yield plain(total)
    for step in steps:
        if step.answers.in_turn and len(step.rows) > 1:
            yield plain([len(step.rows)] * len(step.rounds))
        for chart in step.charts:
            yield plain([chart.grid.rows] * len(step.rounds))
            yield plain([chart.grid.height] * len(step.rounds))
        yield from _stripes(step)
        for each in step.patterns.stitch:
            yield plain([len(each.rows.rows)] * len(step.rounds))


def times_of_step(step: StepPlan) -> Iterator[Figures]:
    """How often the list, the chart or the shaping of a step is worked."""
    if step.answers.in_turn and len(step.rows) > 1:
        yield _times(step.rounds, len(step.rows))
    for chart in step.charts:
        if chart.grid.rows > 1:
            yield _times(chart.rounds, chart.grid.rows)
    for each in shapings(step):
        yield plain(each)


def _stripes(step: StepPlan) -> Iterator[Figures]:
    """The rounds of each stripe of a tube, and of each of its zones, where all sizes have them."""
    runs = [[len(tuple(run)) for _, run in groupby(tube.stripes.bases)] for tube in step.tubes]
    zones = [[each.last - each.first + 1 for each in tube.tube.segments] for tube in step.tubes]
    for kind in (runs, zones):
        if len(set(map(len, kind))) == 1:
            yield from map(plain, zip(*kind, strict=True))


def shapings(step: StepPlan) -> Iterator[tuple[int, ...]]:
    """How often a step shapes, per size."""
    detail = step.detail
    if isinstance(detail, Tapered):
        yield tuple(each.changes for each in detail.tapers)
        yield tuple(abs(each.changes * detail.change) for each in detail.tapers)
    elif isinstance(detail, Together):
        for each in detail.shapings:
            yield tuple(map(len, each.rows))
    elif isinstance(detail, Crowned):
        yield tuple(map(sum, zip(*(each.worked for each in detail.crown.rounds), strict=True)))
    elif step.answers.in_turn and step.levels:
        counts = tuple(len(shaped_rows(step, size)) for size, _ in enumerate(step.levels))
        if any(counts):
            yield counts


def shapings_since(behind: Sequence[StepPlan], step: StepPlan) -> Iterator[tuple[int, ...]]:
    """How often steps have shaped from each before up to the end of one, per size."""
    total = next(shapings(step), ())
    for each in reversed(behind) if total else ():
        for times in shapings(each):
            total = tuple(a + b for a, b in zip(total, times, strict=True))
            yield total


def _times(rounds: Sequence[int], rows: int) -> Figures:
    """Whole times; the one begun and not finished counts or does not."""
    return tuple(frozenset({each // rows, -(-each // rows)}) - {0} for each in rounds)


def less_one(figures: Iterable[Figures]) -> Iterator[Figures]:
    """The times after the first."""
    for each in figures:
        yield tuple(frozenset(n - 1 for n in some) - {0} for some in each)


def repeated(context: Context, step: StepPlan) -> Iterator[Figures]:
    """How often rows of a step work what they repeat."""
    for number, row in enumerate(all_rows(step)):
        for part in flat(row.parts):
            if isinstance(part, Group):
                yield plain([value(context, part.times, size) for size in each_size(context)])
            elif isinstance(part, Repeat) and isinstance(part.until, MoreTimes):
                times = [value(context, part.until.count, size) for size in each_size(context)]
                yield plain([each + 1 for each in times])
            elif isinstance(part, Repeat) and step.answers.in_turn:
                yield tuple(
                    frozenset(_to_end(context, step, row, part, size, number)) - {0}
                    for size in each_size(context)
                )


def _to_end(
    context: Context, step: StepPlan, row: Row, repeat: Repeat, size: int, number: int
) -> Iterator[int]:
    """How often a row that repeats to its end does so, each time that it is worked."""
    over = _used_by(context, repeat.parts, size)
    beside = _used_by(context, (part for part in row.parts if part is not repeat), size)
    beside += value(context, repeat.until.count, size) if isinstance(repeat.until, ToLast) else 0
    for live in _lives(step, size)[number :: len(step.rows)] if over and step.levels else ():
        if (live - beside) % over == 0:
            yield (live - beside) // over


def crossed(context: Context, steps: Iterable[StepPlan]) -> Iterator[Figures]:
    """The stitches that crossings of rows and charts are worked over, and those of each part."""
    for step in steps:
        names = {
            part.stitch
            for row in all_rows(step)
            for part in flat(row.parts)
            if isinstance(part, Work)
        }
        for chart in step.charts:
            names |= {str(name) for name in context.pattern.charts[chart.chart].legend.values()}
        for name in names:
            if "/" in name:
                parts = [int(each) for each in re.findall(r"\d+", name)]
                yield alike(context, *parts, sum(parts))


def across_of(step: StepPlan) -> Iterator[Figures]:
    """How often a chart or a repeat is worked side by side."""
    for chart in step.charts:
        yield plain(chart.across)
        for passes in zip(*chart.passes, strict=False) if chart.passes else ():
            yield plain(passes)


def ridges_of(context: Context, steps: Sequence[StepPlan]) -> Iterator[Figures]:
    """The ridges of steps in garter stitch: one for two rows knit flat."""
    total = [0] * len(context.source.sizes)
    for step in steps:
        if any(step.rounds):
            total = [a + b for a, b in zip(total, step.rounds, strict=True)]
            yield tuple(frozenset({each // 2, -(-each // 2)}) - {0} for each in step.rounds)
            yield tuple(frozenset({each // 2, -(-each // 2)}) - {0} for each in total)


def intervals_of(step: StepPlan) -> Iterator[Figures]:
    """After how many rows a step shapes again."""
    detail = step.detail
    if isinstance(detail, Tapered):
        yield tuple(frozenset(each.intervals) for each in detail.tapers)
    elif isinstance(detail, Together):
        for shaping in detail.shapings:
            yield tuple(frozenset(b - a for a, b in pairwise(rows)) for rows in shaping.rows)
    elif step.answers.in_turn and any(step.levels):
        yield tuple(
            frozenset(b - a for a, b in pairwise(shaped_rows(step, size)))
            for size, _ in enumerate(step.levels)
        )


def crossing_intervals(context: Context, step: StepPlan) -> Iterator[Figures]:
    """After how many rows of a chart or a list something crosses again."""
    for chart in step.charts:
        legend, grid = context.pattern.charts[chart.chart].legend, chart.grid
        drawn = enumerate(grid.rounds, 1)
        at = [
            grid.number(line)
            for line, cells in drawn
            if any("/" in str(legend.get(cell)) for cell in cells)
        ]
        if at:
            yield alike(context, *(b - a for a, b in pairwise((*at, at[0] + grid.rows))), grid.rows)
    if step.answers.in_turn:
        rows = step.rows
        at = [
            number
            for number, row in enumerate(rows)
            if any(isinstance(part, Work) and "/" in part.stitch for part in flat(row.parts))
        ]
        if at:
            yield alike(context, *(b - a for a, b in pairwise((*at, at[0] + len(rows)))))
