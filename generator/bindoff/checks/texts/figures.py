"""Figures typed into prose against those that are computed."""

from collections.abc import Collection, Iterable, Iterator, Mapping

from bindoff import regex as re
from bindoff.checks.context import Context
from bindoff.checks.engine import Finding, check
from bindoff.checks.prose import Prose
from bindoff.checks.texts.chartwords import charts_as_told
from bindoff.checks.texts.derived import follows
from bindoff.checks.texts.nearly import nearly_told
from bindoff.checks.texts.told.judged import Judged, judged
from bindoff.checks.texts.told.numbers import ONES, TENS, number_of
from bindoff.checks.texts.told.truths import across_of, between_markers, times_of_step, value
from bindoff.checks.walk import parts_of, steps_of, told_in_words
from bindoff.diagnostics import Severity
from bindoff.english import how_many
from bindoff.plan.steps.buttonholes import Buttonholes
from bindoff.plan.values import Kind as Measured
from bindoff.plan.values import Measure
from bindoff.plan.worked import StepPlan
from bindoff.records import Record
from bindoff.source.model import TextUse
from bindoff.source.rowlang.syntax import Alter, NamedNumber, Work

_NEEDLES = re.compile(r"(?<![\w.,/–-])(\d{2,}) needles\b")
_ALT_WIDE = re.compile(rf"\b(\d+|(?i:{'|'.join(ONES)}|{'|'.join(TENS)})) (?:stitches|sts) wide\b")
_TUPLE = re.compile(r"(?<!\d)(\d+(?:\.\d+)?) \((\d+(?:\.\d+)?(?:, ?\d+(?:\.\d+)?)+)\)")
_PAIR = re.compile(
    r"(?<![\d.,(/–-])(?<!\d )(\d+(?:\.\d+)?) \((\d+(?:\.\d+)?)\)"
    r"(?=\s+(?:(?:(?!times|cm|in\b)\w+ )?(?:stitch(?:es)?|sts?|rounds?|rnds?|rows?)|cm|in"
    r"|inch(?:es)?)(?![\w²]))"
)
"""Figures for two sizes; before other words the second may be another unit's."""
_COMPARED = re.compile(
    r"\s{1,3}(?:cm|in|inch(?:es)?|mm)?\s{0,3}(?:\([^()]{1,40}\)\s{1,3})?(?:longer|shorter|wider|narrower"
    r"|larger|smaller|deeper|higher|lower|more|less|fewer)\b",
    re.IGNORECASE,
)
"""Behind figures by which something differs from another thing that nothing measures."""
_TWO = 2
_PART_LIST = re.compile(
    r"(?<![\d.] )\b(\d+) \((\d+)\)(?= (?:stitch(?:es)?|sts?|rounds?|rnds?|rows?)\b)"
)

_ROUNDED = 0.25  # cm: as lengths are told
PerSize = tuple[float, ...]


@check(
    id="prose.count",
    title="Figures in the text are those of the plan",
    looks_at="numbers, in figures or words, of stitches, rows, ridges, repeats, decreases, "
    "sections, stripes, cables, crochet, pieces, yarns, balls, markers and sizes, shares and sums "
    "of them, rows of a side, and the way that stitches lean, in every "
    "sentence against what is true at its step, in its section, of its piece or of the pattern",
    why="a figure typed by hand stays as it was when the pattern changes, and is right for one "
    "size at most",
    severity=Severity.WARNING,
    remedy="Print the figure from its measure, as {{ name }} in double braces",
)
def typed_counts(context: Context) -> Iterator[Finding]:
    """One finding for each figure."""
    needles = {context.pattern.needles(size) or 0 for size in context.source.sizes} - {0}
    for prose, told in judged(context):
        for each in told:
            if each.wrong and not each.of_chart:
                yield _contradicted(prose, each)
        yield from nearly_told(context, prose, told)
        for found, place in prose.found(_NEEDLES) if needles else ():
            if int(found[1]) not in needles:
                yield Finding(f"no machine of the pattern has {found[0]}", place)


@check(
    id="prose.chart",
    title="What the text says of a chart is so",
    looks_at="how many stitches and rows a chart is said to have, rows by their number, which rows "
    "are right-side rows, from which side they are read, its ground, how large its alternative "
    "text calls it, and rows of it told in words",
    why="who works from the words makes another fabric than who works from the chart",
    severity=Severity.WARNING,
    remedy="Correct the sentence, or the chart",
)
def charts_in_words(context: Context) -> Iterator[Finding]:
    """One finding for each statement."""
    for prose, told in judged(context):
        for each in told:
            if each.wrong and each.of_chart:
                yield _contradicted(prose, each)
    yield from charts_as_told(context)


def _contradicted(prose: Prose, each: Judged) -> Finding:
    """The finding of a statement that is wrong, with its words as they are written."""
    said = " ".join(prose.text[each.start : each.end].split())
    return Finding(f"`{said}` stands here, and {each.wrong}", prose.place(each.start, each.end))


def _among(found: "re.Match[str]", resolved: Iterable[Judged]) -> bool:
    """Whether a number has been resolved to what it speaks of."""
    return any(each.start < found.end() and found.start() < each.end for each in resolved)


@check(
    id="prose.small-count",
    title="An alternative text tells no more stitches than a chart has",
    looks_at="a width in stitches in alternative text over that of the widest chart",
    why="who can't see the chart imagines another one",
    severity=Severity.WARNING,
    remedy="Correct the figure, or print it from its measure, as {{ name }} in double braces",
)
def small_counts(context: Context) -> Iterator[Finding]:
    """One finding for each figure that no chart has."""
    widest = max((g.width for grids in context.source.grids.values() for g in grids), default=0)
    for prose in context.prose:
        for found, place in prose.found(_ALT_WIDE) if prose.kind is TextUse.ALT and widest else ():
            if number_of(found[1]) > widest:
                yield Finding(
                    f"`{found[0]}` stands here, and no chart is wider than {widest}", place
                )


@check(
    id="prose.sizes",
    title="Lists of figures in the text have one for each size",
    looks_at="figures typed as 80 (88, 96) in every text of the designer's",
    why="with a figure too few, every size after the gap reads its neighbour's",
    severity=Severity.WARNING,
    remedy="Print the figures from their measure, as {{ name }} in double braces",
)
def typed_lists(context: Context) -> Iterator[Finding]:
    """One finding for each list."""
    figured = known_figures(context)
    known, marked = figured.all_rows(), set(figured.rows["marked"])
    sizes = len(context.source.sizes)
    in_words = told_in_words(context)
    for prose, resolved in judged(context):
        for found, place in prose.found(_PAIR if sizes == _TWO else _TUPLE):
            figures = tuple(float(n) for n in (found[1], *found[2].split(",")))
            if len(figures) != sizes:
                yield Finding(
                    f"{len(figures)} figures stand here for {how_many(sizes, 'size')}", place
                )
                continue
            if _COMPARED.match(prose.text, found.end()):
                continue
            if (
                figures not in known
                and prose.piece not in in_words
                and _nearly(figures, known)
                and figures != _names(context)
                and not _among(found, resolved)
                and not follows(context, figures, prose.text[found.end() :])
                and figures not in _written_lists(context, prose)
                and not (figures in marked and re.search(r"\bmarkers?\b", prose.text))
            ):
                yield Finding("no computed measure has these figures", place)
        for _, place in prose.found(_PART_LIST) if sizes > 2 else ():
            yield Finding(f"2 figures stand here for {how_many(sizes, 'size')}", place)


def _nearly(figures: PerSize, known: Collection[PerSize]) -> bool:
    """Whether figures are those of something known but for a slip: some sizes are right, a length
    as it is rounded, or the figures of two changed places. Others may count what only the text
    knows."""
    return any(
        any(abs(one - other) <= _ROUNDED for one, other in zip(figures, each, strict=False))
        or sorted(figures) == sorted(each)
        for each in known
    )


def _names(context: Context) -> PerSize:
    """The numbers that the sizes go by, as 3, 6 and 12 months; none where some have none."""
    found = [re.search(r"\d+(?:\.\d+)?", name) for name in context.source.sizes]
    return tuple(float(each[0]) for each in found if each)


class _Known(Record):
    """Computed figures per size, by what they count."""

    rows: Mapping[str, tuple[PerSize, ...]]

    def all_rows(self) -> set[PerSize]:
        return {row for of, rows in self.rows.items() if of != "marked" for row in rows}


def known_figures(context: Context) -> _Known:
    """What the plan counts: of the steps, charts, gauges and measures."""
    stitches: list[PerSize] = []
    rounds: list[PerSize] = []
    for at in steps_of(context):
        stitches.append(tuple(progress.stitches for progress in at.step.after))
        rounds.append(tuple(at.step.rounds))
        rounds.append(tuple(progress.rounds for progress in at.step.after))
        rounds.append((len(at.step.rows),) * len(at.step.rounds))
        begun = at.step.begins
        stitches += begun.parts if begun else ()
        if isinstance(at.step.detail, Buttonholes):
            stitches.append(tuple(holes.over for holes in at.step.detail.holes))
    every = range(len(context.source.sizes))
    for grids in context.source.grids.values():
        stitches.append(tuple(grid.width for grid in grids))
        stitches.append(tuple(grid.repeat for grid in grids))
        rounds.append(tuple(grid.height for grid in grids))
    for size in context.plan.measures.sizes:
        for gauge in size.gauges.values():
            stitches.append((round(gauge.stitches_per()),) * len(every))
            rounds.append((round(gauge.rounds_per()),) * len(every))
    stitches += [(count,) * len(every) for count in set(_written_counts(context))]
    numbers: list[PerSize] = []
    lengths: list[PerSize] = []
    for at in steps_of(context):
        for each in (*across_of(at.step), *times_of_step(at.step)):
            if all(len(some) == 1 for some in each):
                numbers.append(tuple(next(iter(some)) for some in each))
    for measure in context.plan.measures.named.values():
        kinds = {Measured.STITCHES: stitches, Measured.ROUNDS: rounds, Measured.NUMBER: numbers}
        if measure.kind is Measured.LENGTH:
            lengths.append(tuple(round(mm / 10, 1) for mm in measure.rounded))
        else:
            kinds[measure.kind].append(measure.rounded)
    lengths += [tuple(round(mm / 10, 1) for mm in m.rounded) for m in _finished(context)]
    return _Known(
        {
            "stitches": tuple(stitches),
            "marked": tuple(dict.fromkeys(_between_markers(context))),
            "rounds": tuple(rounds),
            "balls": _balls(context),
            "needles": (tuple(context.pattern.needles(s) or 0 for s in context.source.sizes),),
            "sizes": ((len(every),) * len(every),),
            "numbers": tuple(numbers),
            "lengths": tuple(lengths),
        }
    )


def _written_counts(context: Context) -> Iterator[int]:
    """Numbers of stitches as rows have them."""
    for at in steps_of(context):
        for count in _counts(at.step):
            if isinstance(count, int):
                yield count


def _written_lists(context: Context, prose: Prose) -> set[PerSize]:
    """Numbers of stitches for each size as the rows of a step and of those beside it have them:
    what stays of a heel is told where the next row knits across it."""
    if prose.kind is not TextUse.STEP or len(prose.path) < 4 or prose.path[2] != "steps":
        return set()
    index, sizes = int(prose.path[3]), range(len(context.source.sizes))
    near = [at.step for at in steps_of(context) if at.plan.key == prose.piece]
    with_rows = [i for i, step in enumerate(near) if step.rows]
    after = [i for i in with_rows if i > index][:1]
    return {
        tuple(value(context, count, size) for size in sizes)
        for step in (near[i] for i in (index, *after) if i < len(near))
        for count in _counts(step)
        if isinstance(count, NamedNumber)
    }


def _counts(step: StepPlan) -> Iterator[object]:
    for row in step.rows:
        for part in parts_of(row):
            if isinstance(part, Work):
                yield part.times
            elif isinstance(part, Alter):
                yield part.amount


def _between_markers(context: Context) -> Iterator[PerSize]:
    for at in steps_of(context):
        yield from between_markers(at.step)


def _finished(context: Context) -> list[Measure]:
    return [m for m in context.plan.measures.finished.values() if m.kind is Measured.LENGTH]


def _balls(context: Context) -> tuple[PerSize, ...]:
    """Balls of each yarn and of all together."""
    each = [tuple(need.balls for need in total.needs) for total in context.plan.yarn]
    return (*each, tuple(sum(balls) for balls in zip(*each, strict=True)))


CHECKS = (typed_counts, charts_in_words, small_counts, typed_lists)
