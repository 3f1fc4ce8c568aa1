"""Works every step of a piece in every size, stitch by stitch, and proves that the counts meet."""

from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import assert_never

from generator.diagnostics import Diagnostic, PatternError, Span, fail
from generator.plan.crown import align_crowns
from generator.plan.gauge import Gauge
from generator.plan.measures import Measures
from generator.plan.mismatch import mismatch
from generator.plan.picture import PicturePlan, chart_yarns, piece_gauges
from generator.plan.rowcount import Counted, Needle, RowMismatch, after_row, count_row
from generator.plan.shapedrows import PLAIN, shaped_row, wedge_row
from generator.plan.spacing import flat, in_the_round
from generator.plan.steps import (
    BindOff,
    CastOn,
    ChartRows,
    Crowned,
    Detail,
    Edged,
    Embroidered,
    Even,
    Gather,
    Loops,
    PickUp,
    PiecePlan,
    Progress,
    Rows,
    StepPlan,
    Striped,
    Tapered,
)
from generator.plan.taper import Taper, taper
from generator.plan.values import Kind
from generator.source import models
from generator.source.models import CellMeaning, Piece
from generator.source.rowlang.parse import parse_row
from generator.source.rowlang.stitches import StitchBook
from generator.source.rowlang.syntax import Repeat, Row, ToEnd, Work
from generator.source.yamltree import Path


@dataclass(frozen=True, slots=True)
class State:
    """One size while its piece is worked; ``held`` are stitches waiting off the needles."""

    needle: Needle
    rounds: int = 0
    held: int = 0

    @property
    def live(self) -> int:
        """Stitches on the needles."""
        return self.needle.left + self.needle.right

    @property
    def progress(self) -> Progress:
        """The state as the plan records it."""
        return Progress(self.rounds, self.live)


@dataclass(frozen=True, slots=True)
class Bench:
    """What working the steps of one piece needs to look up."""

    measures: Measures
    key: str
    piece: Piece
    book: StitchBook
    tubes: tuple[PicturePlan, ...]

    @property
    def flat(self) -> bool:
        """Whether rows are turned at their ends."""
        return self.piece.worked == "flat"

    @property
    def gauges(self) -> tuple[Gauge, ...]:
        """The piece's gauge per size."""
        return piece_gauges(self.measures, self.piece)

    def path(self, index: int, *rest: str | int) -> Path:
        """The path of a step, or of something in it."""
        return ("pieces", self.key, "steps", index, *rest)

    def span(self, index: int, *rest: str | int) -> Span:
        """The place of a step, or of something in it."""
        return self.measures.source.span(*self.path(index, *rest))

    def rows(self, index: int, key: str, written: str | tuple[str, ...]) -> tuple[Row, ...]:
        """The rows written under ``key`` of a step, parsed; all their faults at once."""
        path = self.path(index, key)
        paths = [path] if isinstance(written, str) else [(*path, i) for i in range(len(written))]
        return tuple(_gather(self._row, paths))

    def _row(self, path: Path) -> Row:
        tree = self.measures.source.tree
        yarns = self.measures.source.pattern.yarns
        return parse_row(tree.text(path), tree.text_span(path), self.book, tuple(yarns))

    def counts(self, index: int, key: str, least: int = 0) -> tuple[int, ...]:
        """Whole numbers written under ``key`` of a step."""
        return self.measures.counts(*self.path(index, key), least=least)


Outcome = tuple[Detail | None, tuple[State, ...], tuple[tuple[Loops, ...], ...]]


def plan_piece(
    measures: Measures, key: str, book: StitchBook, tubes: tuple[PicturePlan, ...]
) -> PiecePlan:
    """The piece ``key`` worked from its first to its last step in all sizes.

    Raises:
        PatternError: at the first step that can't be worked, with a finding per size: a row that
            doesn't fit (``row.…``), a count that can't be reached, stitches left live at the end.
    """
    piece = measures.source.pattern.pieces[key]
    bench = Bench(measures, key, piece, book, tubes)
    states = (State(Needle(0)),) * len(measures.sizes)
    main = piece.yarn or next(iter(measures.source.pattern.yarns))
    steps = []
    for index, step in enumerate(piece.steps):
        yarn = step.yarn or main
        detail, after, worked = _work(bench, index, step, yarn, states)
        steps.append(
            StepPlan(
                step,
                bench.span(index),
                yarn,
                detail,
                tuple(state.progress for state in states),
                tuple(state.progress for state in after),
                worked,
            )
        )
        states = after
    _nothing_left(bench, states)
    return PiecePlan(key, tuple(steps))


def _work(
    bench: Bench, index: int, step: models.AnyStep, yarn: str, states: tuple[State, ...]
) -> Outcome:
    match step:
        case models.SectionStep() | models.SayStep():
            return None, states, _none(states)
        case models.CastOnStep():
            return _cast_on(bench, index, states)
        case models.PickUpStep():
            return _pick_up(bench, index, step, states)
        case models.WorkStep():
            return _rows(bench, index, step, yarn, states)
        case models.ChartStep():
            return _chart(bench, index, step, yarn, states)
        case models.EvenStep():
            return _even(bench, index, step, yarn, states)
        case models.TaperStep():
            return _taper(bench, index, step, yarn, states)
        case models.CrownStep():
            return _crown(bench, index, step, yarn, states)
        case models.BindOffStep():
            return _bind_off(bench, index, step, states)
        case models.GatherStep():
            return _closed(bench, index, states)
        case models.StripesStep():
            return _stripes(bench, states)
        case models.EmbroiderStep():
            return Embroidered(bench.tubes), states, _none(states)
        case models.EdgingStep():
            return _edging(bench, index, step, states)
        case _:
            assert_never(step)


# ---------------------------------------------------------------- starting and ending


def _cast_on(bench: Bench, index: int, states: tuple[State, ...]) -> Outcome:
    counts = bench.counts(index, "cast on", least=1)
    _must_be_empty(bench, index, states)
    after = tuple(
        replace(state, needle=Needle(count)) for state, count in zip(states, counts, strict=True)
    )
    return CastOn(counts), after, _none(states)


def _pick_up(
    bench: Bench, index: int, step: models.PickUpStep, states: tuple[State, ...]
) -> Outcome:
    _must_be_empty(bench, index, states)
    held = bench.counts(index, "held")
    more = (0,) * len(states)
    if "pick_up" in step.model_fields_set:
        more = bench.counts(index, "pick up")
    findings = [
        Diagnostic(
            "piece.held",
            f"size {size}: {count} stitches are taken from those held, but {state.held} are held",
            "Make the number the same as in the row that holds them",
            bench.span(index, "held"),
        )
        for size, state, count in zip(bench.measures.source.sizes, states, held, strict=True)
        if count != state.held
    ]
    if findings:
        raise PatternError(findings)
    after = tuple(
        replace(state, needle=Needle(count + extra), held=0)
        for state, count, extra in zip(states, held, more, strict=True)
    )
    return PickUp(held, more), after, _none(states)


def _bind_off(
    bench: Bench, index: int, step: models.BindOffStep, states: tuple[State, ...]
) -> Outcome:
    live = tuple(state.live for state in states)
    counts = live if step.bind_off == "all" else bench.counts(index, "bind off", least=1)
    findings = [
        Diagnostic(
            "piece.bind-off",
            f"size {size}: {count} stitches are bound off, but {had} are live",
            "Bind off `all`, or no more than are on the needles",
            bench.span(index, "bind off"),
        )
        for size, count, had in zip(bench.measures.source.sizes, counts, live, strict=True)
        if count > had or had == 0
    ]
    if findings:
        raise PatternError(findings)
    after = tuple(
        replace(state, needle=Needle(state.live - count))
        for state, count in zip(states, counts, strict=True)
    )
    return BindOff(counts), after, _none(states)


def _closed(bench: Bench, index: int, states: tuple[State, ...]) -> Outcome:
    live = tuple(state.live for state in states)
    if 0 in live:
        raise fail(
            "piece.gather",
            "there are no live stitches to gather",
            "Take this step out, or put it where stitches are on the needles",
            bench.span(index),
        )
    after = tuple(replace(state, needle=Needle(0)) for state in states)
    return Gather(live), after, _none(states)


def _must_be_empty(bench: Bench, index: int, states: tuple[State, ...]) -> None:
    for size, state in zip(bench.measures.source.sizes, states, strict=True):
        if state.live:
            raise fail(
                "piece.still-live",
                f"size {size}: {state.live} stitches are still live where new ones are begun",
                "Bind off, gather or hold the stitches first",
                bench.span(index),
            )


def _nothing_left(bench: Bench, states: tuple[State, ...]) -> None:
    for size, state in zip(bench.measures.source.sizes, states, strict=True):
        for count, where in ((state.live, "live"), (state.held, "held")):
            if count:
                raise fail(
                    "piece.unfinished",
                    f"size {size}: the piece ends with {count} stitches still {where}",
                    "Add a step that binds off or gathers them",
                    bench.measures.source.span("pieces", bench.key, key=True),
                )


# ---------------------------------------------------------------- rows


def _rows(
    bench: Bench, index: int, step: models.WorkStep, yarn: str, states: tuple[State, ...]
) -> Outcome:
    rows = bench.rows(index, "work", step.work)
    if step.rounds is not None and step.times is not None:
        raise fail(
            "step.rounds-and-times",
            "`rounds` and `times` are both given",
            "Keep one: `rounds` counts rounds in all, `times` counts how often the list is worked",
            bench.span(index),
        )
    if step.rounds is not None:
        rounds = bench.counts(index, "rounds")
    elif step.times is not None:
        rounds = tuple(times * len(rows) for times in bench.counts(index, "times"))
    else:
        rounds = (len(rows),) * len(states)
    plans = [[rows[i % len(rows)] for i in range(count)] for count in rounds]
    after, worked = _work_rows(bench, index, yarn, states, plans)
    return Rows(rows, rounds), after, worked


def _work_rows(
    bench: Bench,
    index: int,
    yarn: str,
    states: tuple[State, ...],
    plans: Iterable[list[Row]],
) -> tuple[tuple[State, ...], tuple[tuple[Loops, ...], ...]]:
    """Every size's rows, one after the other; the first misfit of each size is reported."""
    after, worked, findings = [], [], []
    for size, (state, rows) in enumerate(zip(states, plans, strict=True)):
        numbers = bench.measures.numbers(size)
        loops = []
        for row in rows:
            try:
                counted = count_row(
                    row, state.needle.left, numbers, state.needle.left_markers, bench.book
                )
            except RowMismatch as error:
                name = bench.measures.source.sizes[size]
                findings.append(
                    mismatch(error.figures, name, state.rounds + 1, row.span or bench.span(index))
                )
                break
            state = _after(bench, state, counted)
            loops.append(_named_loops(counted, row.yarn or yarn))
        after.append(state)
        worked.append(tuple(loops))
    if findings:
        raise PatternError(findings)
    return tuple(after), tuple(worked)


def _after(bench: Bench, state: State, counted: Counted) -> State:
    needle = after_row(state.needle, counted, flat=bench.flat)
    return State(needle, state.rounds + 1, state.held + counted.held)


def _named_loops(counted: Counted, yarn: str) -> Loops:
    total: Counter[str] = Counter()
    for name, loops in counted.loops:
        total[name or yarn] += loops
    return tuple(total.items())


# ---------------------------------------------------------------- charts


def _chart(
    bench: Bench, index: int, step: models.ChartStep, yarn: str, states: tuple[State, ...]
) -> Outcome:
    source = bench.measures.source
    grid = source.grids[step.chart]
    rows = chart_rows(bench, step.chart, grid.rounds, states[0].rounds)
    rounds = (grid.height,) * len(states)
    if step.rounds is not None:
        rounds = bench.counts(index, "rounds")
    across = []
    for size, state in zip(source.sizes, states, strict=True):
        if state.live == 0 or state.live % grid.width:
            near = state.live // grid.width * grid.width
            raise fail(
                "chart.width",
                f"size {size}: the chart is {grid.width} stitches wide, and the {state.live} live "
                "stitches are not a multiple of it",
                f"The nearest counts that fit are {near} and {near + grid.width}; use "
                f"`stitches(…, multiple = {grid.width})` where the count is made",
                bench.span(index, "chart"),
            )
        across.append(state.live // grid.width)
    plans = [[rows[i % len(rows)] for i in range(count)] for count in rounds]
    after, worked = _work_rows(bench, index, yarn, states, plans)
    return ChartRows(step.chart, rounds, tuple(across)), after, worked


def chart_rows(
    bench: Bench, key: str, rounds: tuple[str, ...], rows_before: int
) -> tuple[Row, ...]:
    """The rounds of a chart as rows, each repeated around; read in working direction."""
    chart = bench.measures.source.pattern.charts[key]
    yarns = chart_yarns(chart)
    yarn_ids = bench.measures.source.pattern.yarns
    rows = []
    for number, line in enumerate(rounds):
        wrong_side = bench.flat and (rows_before + number) % 2 == 1
        cells = line if wrong_side else line[::-1]
        parts = []
        for character in cells:
            meaning = chart.legend[character]
            yarn = yarns[character]
            stitch = meaning.stitch if isinstance(meaning, CellMeaning) else None
            if yarn not in yarn_ids and stitch is None:
                stitch, yarn = yarn, None
            parts.append(_cell(bench, key, character, stitch or "k", yarn, wrong_side))
        rows.append(Row((Repeat(tuple(parts), ToEnd()),)))
    return tuple(rows)


def _cell(
    bench: Bench, key: str, character: str, stitch: str, yarn: str | None, wrong_side: bool
) -> Work:
    found = bench.book.find(stitch)
    if found is None:
        raise fail(
            "chart.stitch",
            f"`{character}` stands for `{stitch}`, which is neither a yarn nor a known stitch",
            "Write a yarn declared under `yarns:`, or a stitch such as k, p or k2tog",
            bench.measures.source.span("charts", key, "legend", character),
        )
    turned = {"k": "p", "p": "k"}.get(found.id, found.id) if wrong_side else found.id
    return Work(turned, yarn=yarn)


# ---------------------------------------------------------------- shaping


def _even(
    bench: Bench, index: int, step: models.EvenStep, yarn: str, states: tuple[State, ...]
) -> Outcome:
    targets = bench.counts(index, "to", least=1)
    rows = tuple(
        _even_row(bench, index, step, size, state.live, target)
        for size, state, target in zip(bench.measures.source.sizes, states, targets, strict=True)
    )
    plans = [[] if row is None else [row] for row in rows]
    after, worked = _work_rows(bench, index, yarn, states, plans)
    return Even(rows), after, worked


def _even_row(
    bench: Bench, index: int, step: models.EvenStep, size: str, live: int, target: int
) -> Row | None:
    change = target - live if step.even == "increase" else live - target
    if change < 0:
        raise fail(
            "even.direction",
            f"size {size}: an {step.even} from {live} to {target} stitches goes the wrong way",
            f"Check the count in `to:`, or write `even: "
            f"{'decrease' if step.even == 'increase' else 'increase'}`",
            bench.span(index, "to"),
        )
    if change == 0:
        return None
    try:
        spacing = (flat if bench.flat else in_the_round)(live, change)
        if step.even == "decrease":
            return shaped_row(spacing.decrease_row())
        return shaped_row(spacing.increase_row("kfb" if step.with_ == "kfb" else "m1"))
    except ValueError as error:
        raise fail(
            "even.room", f"size {size}: {error}", "Shape over two rounds", bench.span(index)
        ) from None


def _taper(
    bench: Bench, index: int, step: models.TaperStep, yarn: str, states: tuple[State, ...]
) -> Outcome:
    (shaping,) = bench.rows(index, "taper", step.taper)
    written = "plain" in step.model_fields_set
    plain = bench.rows(index, "plain", step.plain) if written else (PLAIN,)
    targets = bench.counts(index, "to")
    over = bench.counts(index, "over")
    changes = {_change_of(bench, index, shaping, size, state) for size, state in enumerate(states)}
    change = changes.pop()
    if changes or change == 0:
        raise fail(
            "taper.change",
            "the shaping row does not change the number of stitches by the same amount each time",
            "Give a row with decreases or increases of a fixed number",
            bench.span(index, "taper"),
        )
    tapers = tuple(
        _taper_of(bench, index, step, size, state.live, target, rounds, change)
        for size, state, target, rounds in zip(
            bench.measures.source.sizes, states, targets, over, strict=True
        )
    )
    plans = [_taper_rows(bench, each, shaping, plain) for each in tapers]
    after, worked = _work_rows(bench, index, yarn, states, plans)
    return Tapered(shaping, plain, tapers, change), after, worked


def _change_of(bench: Bench, index: int, row: Row, size: int, state: State) -> int:
    numbers = bench.measures.numbers(size)
    needle = state.needle
    try:
        return count_row(row, needle.left, numbers, needle.left_markers, bench.book).live - (
            needle.left
        )
    except RowMismatch as error:
        name = bench.measures.source.sizes[size]
        place = row.span or bench.span(index)
        raise PatternError([mismatch(error.figures, name, state.rounds + 1, place)]) from None


def _taper_of(
    bench: Bench,
    index: int,
    step: models.TaperStep,
    size: str,
    live: int,
    target: int,
    rounds: int,
    change: int,
) -> Taper:
    times, rest = divmod(target - live, change)
    if rest or times < 0:
        raise fail(
            "taper.count",
            f"size {size}: {live} stitches do not come to {target} in steps of {change:+d}",
            f"The nearest counts that can be reached are {live + times * change} and "
            f"{live + (times + 1) * change}",
            bench.span(index, "to"),
        )
    try:
        return taper(rounds, times, step.every)
    except ValueError as error:
        raise fail(
            "taper.room",
            f"size {size}: {error}",
            "Give more rounds in `over:`, or fewer stitches to shape",
            bench.span(index, "over"),
        ) from None


def _taper_rows(bench: Bench, plan: Taper, shaping: Row, plain: tuple[Row, ...]) -> list[Row]:
    """Every row of a taper. Flat, the first row of an interval is shaped (a right-side row);
    in the round, the last."""
    shaped = set(plan.shaping_rounds("first" if bench.flat else "last"))
    return [
        shaping if number in shaped else plain[(number - 1) % len(plain)]
        for number in range(1, plan.rounds + 1)
    ]


def _crown(
    bench: Bench, index: int, step: models.CrownStep, yarn: str, states: tuple[State, ...]
) -> Outcome:
    wedges = bench.counts(index, "crown", least=1)
    targets = bench.counts(index, "to", least=1)
    if len(set(wedges)) > 1 or len(set(targets)) > 1:
        raise fail(
            "crown.sizes",
            "a crown needs the same wedges and the same count at the top in all sizes",
            "Write one number for `crown:` and one for `to:`",
            bench.span(index),
        )
    try:
        aligned = align_crowns([s.live for s in states], wedges[0], targets[0], step.pace)
    except ValueError as error:
        raise fail(
            "crown.wedges",
            str(error),
            f"Make the count before the crown a multiple of {wedges[0]}, with "
            f"`stitches(…, multiple = {wedges[0]})`",
            bench.span(index, "crown"),
        ) from None
    rows = tuple(wedge_row(round_.work, step.with_) for round_ in aligned.rounds)
    plans = [
        [
            each
            for round_, row in zip(aligned.rounds, rows, strict=True)
            if round_.worked[size]
            for each in (row, *(PLAIN,) * round_.plain_after)
        ]
        for size in range(len(states))
    ]
    after, worked = _work_rows(bench, index, yarn, states, plans)
    return Crowned(aligned, rows), after, worked


# ---------------------------------------------------------------- tubes and edges


def _stripes(bench: Bench, states: tuple[State, ...]) -> Outcome:
    worked = tuple(
        tuple(((base, plan.tube.needles),) for base in plan.stripes.bases) for plan in bench.tubes
    )
    after = tuple(
        State(Needle(plan.tube.needles), state.rounds + plan.tube.total_rounds, state.held)
        for state, plan in zip(states, bench.tubes, strict=True)
    )
    return Striped(bench.tubes), after, worked


def _edging(
    bench: Bench, index: int, step: models.EdgingStep, states: tuple[State, ...]
) -> Outcome:
    rows = bench.rows(index, "edging", step.edging)
    along = bench.measures.amount(*bench.path(index, "along"))
    if along.kind is not Kind.LENGTH:
        raise fail(
            "edging.length",
            "`along:` is a length, not a count",
            "Write the length of the edge, such as 40 cm or `width(…)`",
            bench.span(index, "along"),
        )
    return Edged(rows, along.rounded), states, _none(states)


def _none(states: tuple[State, ...]) -> tuple[tuple[Loops, ...], ...]:
    """No rounds worked, in any size."""
    return ((),) * len(states)


def _gather(make: Callable[[Path], Row], paths: list[Path]) -> list[Row]:
    """``make`` of every path; all faults together."""
    made: list[Row] = []
    findings: list[Diagnostic] = []
    for path in paths:
        try:
            made.append(make(path))
        except PatternError as error:
            findings.extend(error.findings)
    if findings:
        raise PatternError(findings)
    return made
