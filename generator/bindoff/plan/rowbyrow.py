"""Rows that are worked one after the other, in every size, each over what the one before left."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from functools import partial

from bindoff.diagnostics import Diagnostic, Span, fail
from bindoff.plan.bench import MOST_LIVE, MOST_MARKERS, Bench, State, States, Worked
from bindoff.plan.established import Knitter
from bindoff.plan.groups import stretches, with_held
from bindoff.plan.levels import Level, level_of
from bindoff.plan.parts import NO_GAPS, Gaps, across, gaps_after, told
from bindoff.plan.rowcount import Counted, Known, LiveStitches, RowMismatch, after_row, count_on
from bindoff.plan.shortrows import missed_after
from bindoff.plan.shown import UNKNOWN, shown_after
from bindoff.plan.statedcounts import miscounted
from bindoff.plan.suspects import the_row_before
from bindoff.plan.worked import Loops
from bindoff.records import Record, replace
from bindoff.source.rowlang.syntax import Base, Group, Hooked, IntoOne, Repeat, Row, Way
from bindoff.source.rowlang.uses import bases_of, numbers_used, patterns_used

MOST_ZONES = 24
"""Stretches of stitch patterns on the needles at the most."""


class _UnworkableError(Exception):
    """A row fits the stitches and can't be worked all the same; ``finding`` says why."""

    def __init__(self, finding: Diagnostic) -> None:
        super().__init__(finding.message)
        self.finding = finding


class _Task(Record):
    """What is the same for all rows of a step in one size, whose named ``numbers`` they use.

    ``step`` is the place of the step; ``known`` are parts of rows that were counted before, in
    other sizes too. ``patterned``: some row is worked in a stitch pattern; ``slips``: charts slip
    stitches.
    """

    bench: Bench
    index: int
    step: Span
    yarn: str
    size: int
    numbers: Mapping[str, int]
    known: Known
    patterned: bool
    slips: bool

    def place(self, row: Row) -> Span:
        """Where the row is written, or the step that works it."""
        return row.span or self.step


def work_rows(
    bench: Bench, index: int, yarn: str, states: States, plans: Sequence[Sequence[Row]]
) -> tuple[States, Worked]:
    """Every size's rows, of ``plans``, worked from where it stands in ``states``.

    Raises:
        PatternError: ``row.…`` with the first row of each size that does not fit; ``piece.parts``
            where a flat row works across a gap; ``piece.rounds`` for more rounds than anyone
            works, ``piece.markers`` for more markers, ``piece.patterns`` for more stretches of
            stitch patterns, ``piece.stitches`` for more stitches, ``piece.group-held`` where
            stitches of one name are held twice.
    """
    bench.refuse_endless(index, states, [len(rows) for rows in plans])
    distinct = {id(row): row for rows in plans for row in rows}.values()
    _refuse_spaces(distinct)
    patterned, slips = any(map(patterns_used, distinct)), bench.slips
    alike = not patterned and not any(map(_hangs_on_size, distinct))
    known: Known = {}
    step = bench.span(index)
    after: list[State] = []
    worked: list[tuple[Loops, ...]] = []
    found: list[tuple[int, Diagnostic]] = []
    for size, (state, rows) in enumerate(zip(states, plans, strict=True)):
        before = range(size) if alike and not found else ()
        same = next((at for at in before if states[at] == state and plans[at] == rows), None)
        if same is not None:
            after.append(after[same])
            worked.append(worked[same])
            continue
        numbers = bench.measures.numbers(size)
        task = _Task(bench, index, step, yarn, size, numbers, known, patterned, slips)
        state, loops, wrong = _in_one_size(task, state, rows)
        after.append(state)
        worked.append(loops)
        found += ((size, each) for each in wrong)
    bench.refuse(found)
    return tuple(after), tuple(worked)


def _hangs_on_size(row: Row) -> bool:
    """Whether what a row comes to from where it begins is not the same in every size."""
    stated = row.reading is not None and row.reading.stated
    return bool(numbers_used(row) or stated)


def _in_one_size(
    task: _Task, state: State, rows: Sequence[Row]
) -> tuple[State, tuple[Loops, ...], list[Diagnostic]]:
    """Where the size stands after ``rows``, the loops of each, and what is wrong; the first row
    that can't be worked is the last."""
    first, lives, levels = state.rounds, [state.live], list(state.levels)
    loops: list[Loops] = []
    wrong: list[Diagnostic] = []
    plain: dict[tuple[int, LiveStitches], Counted] = {}  # rounds that are worked again
    state = replace(state, divided=()) if state.divided else state
    for row in rows:
        try:
            counted, knitter = _counted(task, row, state, plain)
            after = _after(task, row, state, counted, knitter)
        except RowMismatch as error:
            done = rows[: len(lives)]
            wrong.append(_misfit(task, error, state, done, lives, first))
            break
        except _UnworkableError as error:
            wrong.append(error.finding)
            break
        if row.reading is not None and row.reading.stated:
            wrong += miscounted(row.reading, counted, state.live, task.size)
        lives.append(after.live)
        loops.append(_named_loops(counted, row.yarn or task.yarn))
        levels.append(_level(counted, after, state.wrong_side))
        state = after
    return _without_ended(replace(state, levels=tuple(levels)), first), tuple(loops), wrong


def _counted(
    task: _Task, row: Row, state: State, plain: dict[tuple[int, LiveStitches], Counted]
) -> tuple[Counted, Knitter | None]:
    """What a row does to the stitches, and who works it in stitch patterns; ``plain`` remembers
    the rows that are worked in none. Raises ``RowMismatch``."""
    knitter = None
    if task.patterned or state.established.zones:
        knitter = task.bench.knitter(row, state)
    if knitter is not None:
        return _over(task, row, state, knitter), knitter
    same = (id(row), state.needle)
    if same not in plain:
        plain[same] = _over(task, row, state, None)
    return plain[same], None


def _over(task: _Task, row: Row, state: State, layer: Knitter | None) -> Counted:
    book, known = task.bench.book, task.known
    return count_on(row, state.needle, task.numbers, book, known, flat=state.flat, layer=layer)


def _after(task: _Task, row: Row, state: State, counted: Counted, knitter: Knitter | None) -> State:
    """``state`` after a row. Raises ``_UnworkableError``."""
    bench, place = task.bench, task.place(row)
    if state.live == 0 and counted.live == 0:
        raise _UnworkableError(bench.nothing_live(task.index))
    _refuse_way(bench, counted.way, state.flat, place)
    _refuse_side(row, state)
    gaps = _gaps(task, state, counted, place)
    needle = after_row(state.needle, counted, flat=state.flat)
    _refuse_crowded(task, needle)
    shown = UNKNOWN
    if task.slips:
        shown = shown_after(row, task.yarn, state.shown, state.needle, counted, bench.book)
    done = _divided(task, state, counted, place) if counted.groups else state
    done = _in_patterns(task, done, counted, knitter) if knitter is not None else done
    return replace(
        done,
        needle=needle,
        rounds=state.rounds + 1,
        held=state.held + counted.held,
        missed=missed_after(state.missed, state.needle, counted, flat=state.flat),
        gaps=gaps,
        shown=shown,
        wrong_side=state.wrong_side != counted.turns_flat(state.flat),
        flat=counted.flat_after(state.flat),
    )


def _gaps(task: _Task, state: State, counted: Counted, place: Span) -> Gaps:
    """The gaps between the parts of flat work after a row."""
    if not state.flat:
        return NO_GAPS
    at, steps = state.rounds + 1, task.bench.piece.steps
    gaps, before = gaps_after(state.gaps, state.needle, counted, at, task.index)
    if before is not None and not told(state.gaps, steps, task.index):
        raise _UnworkableError(across(state.gaps, at, before, place))
    return gaps


def _divided(task: _Task, state: State, counted: Counted, place: Span) -> State:
    """``state`` with the groups that a row holds."""
    groups, twice = with_held(state.groups, counted.groups, task.bench.piece.make, place)
    if twice is not None:
        raise _UnworkableError(twice)
    parts = stretches(counted.groups, counted.consumed)
    return replace(state, groups=groups, divided=(*state.divided, parts))


def _in_patterns(task: _Task, state: State, counted: Counted, knitter: Knitter) -> State:
    """``state`` with the stitch patterns that a row was worked in."""
    established = knitter.after(counted, state.rounds + 1)
    if len(established.zones) > MOST_ZONES:
        raise _UnworkableError(
            Diagnostic(
                "piece.patterns",
                f"there come to be more than {MOST_ZONES} stretches of stitch patterns on the "
                "needles",
                "Write one pattern for several of them, or draw a chart",
                task.step,
            )
        )
    laid = (*state.laid, tuple(knitter.uses(counted)))
    return replace(state, established=established, laid=laid)


# ---------------------------------------------------------------- what can't be worked


def _misfit(
    task: _Task,
    error: RowMismatch,
    state: State,
    rows: Sequence[Row],
    lives: Sequence[int],
    first: int,
) -> Diagnostic:
    """What is wrong with the last of ``rows``, which does not fit; or with an earlier one."""
    row, bench = rows[-1], task.bench
    misfit = bench.misfit(error, task.place(row), task.size, state)
    if row.reading is not None:
        misfit = replace(misfit, help=f"{misfit.help}; the row is read as `{row.reading.text}`")
    leaves = partial(_leaves, task, state)
    return the_row_before(misfit, rows, lives, leaves, bench.row_word, first + 1)


def _leaves(task: _Task, state: State, row: Row, live: int) -> int | None:
    """The stitches that a row leaves of ``live`` without markers; ``None`` if it misfits."""
    try:
        counted = count_on(row, LiveStitches(live), task.numbers, task.bench.book, flat=state.flat)
    except RowMismatch:
        return None
    return counted.live


def _refuse_spaces(rows: Iterable[Row]) -> None:
    """Raises a ``PatternError`` where a row works into chain spaces outside an edging."""
    for row in rows:
        if _hooked(row) and Base.SPACE in bases_of(row.parts):
            raise fail(
                "row.chain-space",
                "chain spaces are counted in a crocheted edge only",
                "Work the row in a step `edging:`",
                row.span,
            )


def _hooked(row: Row) -> bool:
    return any(isinstance(part, Hooked | IntoOne | Repeat | Group) for part in row.parts)


def _refuse_crowded(task: _Task, needle: LiveStitches) -> None:
    """Raises ``_UnworkableError`` for more stitches or markers than anyone has on the needles."""
    place = task.step
    if needle.left + needle.right > MOST_LIVE:
        raise _UnworkableError(
            Diagnostic(
                "piece.stitches",
                f"there come to be more than {MOST_LIVE:,} live stitches",
                "Check whether the row or chart increases in every round, and how often it is "
                "worked",
                place,
            )
        )
    if len(needle.left_markers) + len(needle.right_markers) > MOST_MARKERS:
        raise _UnworkableError(
            Diagnostic(
                "piece.markers",
                f"there come to be more than {MOST_MARKERS:,} markers on the needles",
                "Place markers in a step of its own, worked once, or remove them in the same row",
                place,
            )
        )


def _refuse_side(row: Row, state: State) -> None:
    """Raises ``_UnworkableError`` where the label of a row says the other side."""
    said = row.reading.side if row.reading else None
    if said is None or said.wrong_side == state.wrong_side:
        return
    sides = ("right", "wrong")
    what, here = sides[said.wrong_side], sides[state.wrong_side]
    turned = state.flat or state.wrong_side or state.needle.right
    unit = "row" if turned else "round"
    raise _UnworkableError(
        Diagnostic(
            "row.side",
            f"`{said.text}` says {what} side, and {unit} {state.rounds + 1} of the piece, which it "
            f"is here, is one of the {here} side",
            f"Write `{'WS' if state.wrong_side else 'RS'}`, or work one row more or less before it"
            if turned
            else "Rounds are worked on the right side: take the side out",
            said.span or row.span,
        )
    )


def _refuse_way(bench: Bench, way: Way | None, flat: bool, place: Span) -> None:
    """Raises ``_UnworkableError`` where a row says that the work goes on as it does already."""
    if way is None or flat is (way is Way.JOIN):
        return
    if flat:
        instead = "Take it out, or write `join in the round` at the end of a row before it"
    elif bench.piece.worked == "flat":
        instead = "Take it out, or write `turn to work flat` at the end of a round before it"
    else:
        instead = (
            "Write `worked: flat` on the piece if it begins in rows, as an edge that is open does, "
            "or `turn to work flat` at the end of a round before it; else take it out"
        )
    raise _UnworkableError(
        Diagnostic(
            "row.way",
            f"`{way}` stands in a row that is worked flat"
            if flat
            else f"`{way}` stands in a round: the work is in the round already",
            instead,
            place,
        )
    )


# ---------------------------------------------------------------- what a row leaves


def _without_ended(state: State, rounds: int) -> State:
    """``state`` without the patterns that no row was worked in after so many ``rounds``."""
    zones = tuple(zone for zone in state.established.zones if zone.at > rounds)
    if zones == state.established.zones:
        return state
    return replace(state, established=replace(state.established, zones=zones))


def _level(counted: Counted, state: State, turned: bool) -> Level:
    """The level after a row, where ``state`` stands; ``turned`` work has its wrong side facing."""
    rows, missed, needle = state.rounds, state.missed, state.needle
    markers = () if needle.right else needle.left_markers
    height = (rows - missed.most, rows - missed.fewest)
    return level_of(counted, state.live, height, markers, turned, state.flat)


def _named_loops(counted: Counted, yarn: str) -> Loops:
    total: Counter[str] = Counter()
    for name, loops in counted.loops:
        total[name or yarn] += loops
    return tuple(total.items())
