"""Stitches picked up along edges, with held and new ones between: a row of its own."""

from collections.abc import Iterator

from bindoff.diagnostics import Diagnostic, PatternError, fail
from bindoff.english import how_many, verb
from bindoff.plan.bench import Bench, Outcome, State, States
from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.said import Facts, What
from bindoff.plan.differences.values import per_size
from bindoff.plan.gauge import Gauge
from bindoff.plan.measures import Measures
from bindoff.plan.pickup import Skipped, allotted, along_rows, skipped, stitches_per_row
from bindoff.plan.picture import piece_gauges
from bindoff.plan.rowcount import LiveStitches
from bindoff.plan.steps import nothing
from bindoff.plan.steps.common import needles, yarn_facts
from bindoff.plan.steps.kind import Kind
from bindoff.plan.steps.live import must_be_empty
from bindoff.plan.steps.pick_up import taken_up
from bindoff.plan.worked import Answers, Begun, Hand, PiecePlan, WorkedStep
from bindoff.records import Record, replace
from bindoff.source.rowlang.groups import FromGroup
from bindoff.source.steps.pick_up_along import Edge, PickUpAlongStep


class Along(Record):
    """A part of what is on the needles, per size.

    ``skips`` says which rows are skipped along row ends; ``names`` are those of held stitches, one
    for each time that the piece is made where there are several; ``new`` stitches are cast on.
    ``ratio`` is how many stitches the gauge asks for in a row, per size, 0 where it asks nothing.
    """

    edge: str
    stitches: tuple[int, ...]
    skips: tuple[Skipped, ...] = ()
    names: tuple[str, ...] = ()
    new: bool = False
    ratio: tuple[float, ...] = ()


class PickedUp(Record):
    """What comes on the needles, in order."""

    parts: tuple[Along, ...]

    @property
    def stitches(self) -> tuple[int, ...]:
        """All of them, per size."""
        return tuple(map(sum, zip(*(part.stitches for part in self.parts), strict=True)))


_PickedUp = WorkedStep[PickUpAlongStep, PickedUp]


class _Measured(Record):
    """An edge before stitches are shared out: ``fixed`` ones, or ``rows`` and the ``wanted``."""

    edge: Edge
    fixed: tuple[int, ...] = ()
    rows: tuple[int, ...] = ()
    wanted: tuple[int, ...] = ()
    ratio: tuple[float, ...] = ()
    names: tuple[str, ...] = ()


def _work(
    bench: Bench, index: int, step: PickUpAlongStep, yarn: str, states: States
) -> Outcome[PickedUp]:
    must_be_empty(bench, index, states)
    measured: list[_Measured] = []
    findings: list[Diagnostic] = []
    for each in step.pick_up_along:
        try:
            edges, states = _measured(bench, each, states)
            measured += edges
        except PatternError as error:
            findings += error.findings
    if findings:
        raise PatternError(findings)
    parts = tuple(_along(bench, step, measured, _shared_out(bench, step, measured)))
    detail = PickedUp(parts)
    after = tuple(
        replace(
            state,
            needle=LiveStitches(count),
            rounds=state.rounds + 1,
            begun=state.height,
            wrong_side=state.flat,
        )
        for state, count in zip(states, detail.stitches, strict=True)
    )
    worked = tuple((((yarn, count),),) for count in detail.stitches)
    return detail, after, worked


def _measured(bench: Bench, edge: Edge, states: States) -> tuple[list[_Measured], States]:
    """What one entry puts on the needles in every size, and the states without what it takes up.

    Raises:
        PatternError: ``pickup.edge`` where it doesn't say one thing; ``pickup.piece`` where the
            piece it names isn't made before or has no such edge; and what the amounts raise.
    """
    kinds = [key for key in ("rows", "stitches", "held", "cast_on") if getattr(edge, key)]
    whole = not kinds and edge.of is not None
    if len(kinds) != 1 and not whole:
        raise fail(
            "pickup.edge",
            "an edge says one thing: its rows, its stitches, what is held, or what is cast on"
            if len(kinds) > 1
            else "this edge does not say how long it is",
            "Write `rows:` for an edge along row ends, or `stitches:` for one along stitches; "
            "stitches from a holder and new ones are entries of their own",
            edge.place.span,
        )
    if edge.held is not None:
        return _held(bench, edge, states)
    count = bench.measures.counts
    if edge.cast_on is not None:
        return [_Measured(edge, fixed=count(edge.cast_on))], states
    _named(edge)
    piece = _piece(bench, edge)
    if edge.stitches is not None:
        stitches = count(edge.stitches)
        return [_Measured(edge, fixed=count(edge.pick_up) if edge.pick_up else stitches)], states
    rows = count(edge.rows) if edge.rows is not None else piece.height if piece else ()
    if piece is not None:
        _rows_there(bench, edge, rows, piece)
    gauges = zip(piece_gauges(bench.measures, bench.piece), _gauges(bench, piece), strict=True)
    ratio = tuple(stitches_per_row(band, own) for band, own in gauges)
    asked = tuple(map(along_rows, rows, ratio))
    wanted = count(edge.pick_up) if edge.pick_up else asked
    fixed = wanted if edge.pick_up else ()
    return [_Measured(edge, fixed=fixed, rows=rows, wanted=wanted, ratio=ratio)], states


def _held(bench: Bench, edge: Edge, states: States) -> tuple[list[_Measured], States]:
    """The groups that an entry names, in its order."""
    assert edge.held is not None
    entries = [each for each in edge.held.entries if isinstance(each, FromGroup)]
    if not entries or len(entries) != len(edge.held.entries):
        raise fail(
            "pickup.held",
            "held stitches are named here by what they are held for",
            "Write names with commas, as in `held: back neck`; new stitches are an entry of "
            "their own, `cast on:`",
            edge.held.span,
        )
    found: list[_Measured] = []
    for entry in entries:
        counts: list[int] = []
        after: list[State] = []
        faults: list[tuple[int, Diagnostic]] = []
        for size, state in enumerate(states):
            try:
                groups, count = taken_up(state.groups, entry, bench.piece.make, edge.held.span)
            except PatternError as error:
                faults += [(size, each) for each in error.findings]
            else:
                counts.append(count)
                after.append(replace(state, groups=groups))
        bench.refuse(faults)
        states = tuple(after)
        found.append(_Measured(edge, fixed=tuple(counts), names=entry.names))
    return found, states


def _named(edge: Edge) -> None:
    if not edge.edge.strip():
        raise fail(
            "pickup.edge",
            "the edge has no name that tells the knitter which one it is",
            "Add `edge:` with words, as in `edge: the left front edge`",
            edge.place.span,
        )


def _piece(bench: Bench, edge: Edge) -> PiecePlan | None:
    """The piece that an edge belongs to, ``None`` where none is named."""
    if edge.of is None:
        return None
    found = next((plan for plan in bench.before if plan.key == edge.of), None)
    if found is None:
        known = ", ".join(f"`{plan.key}`" for plan in bench.before)
        raise fail(
            "pickup.piece",
            f"no piece called `{edge.of}` is made before this one",
            f"Name one of these: {known}" if known else "Move the other piece before this one",
            edge.place.of("of").span,
        )
    return found


def _rows_there(bench: Bench, edge: Edge, rows: tuple[int, ...], piece: PiecePlan) -> None:
    bench.refuse(
        (
            size,
            Diagnostic(
                "pickup.piece",
                f"the edge has {how_many(count, 'row')}, and `{piece.key}` has {has}",
                "Check the number of rows of the edge against the piece",
                edge.rows.span if edge.rows else edge.place.span,
            ),
        )
        for size, (count, has) in enumerate(zip(rows, piece.rounds, strict=True))
        if count > has
    )


def _gauges(bench: Bench, piece: PiecePlan | None) -> tuple[Gauge, ...]:
    pieces = bench.measures.source.pattern.pieces
    return piece_gauges(bench.measures, pieces[piece.key] if piece else bench.piece)


def _shared_out(
    bench: Bench, step: PickUpAlongStep, measured: list[_Measured]
) -> list[tuple[int, ...]]:
    """The stitches of each part, per size: at the ratio, or shared out to come to ``to``."""
    if step.to is None:
        return [each.fixed or each.wanted for each in measured]
    totals = bench.measures.counts(step.to, least=1)
    free = [each for each in measured if not each.fixed]
    shares: list[tuple[int, ...]] = []
    faults: list[tuple[int, Diagnostic]] = []
    for size, total in enumerate(totals):
        fixed = sum(each.fixed[size] for each in measured if each.fixed)
        left = total - fixed
        if left < 0 or (left and not free):
            faults.append((size, _wrong_total(step, total, fixed)))
        shares.append(allotted(max(left, 0), tuple(each.rows[size] for each in free)))
    bench.refuse(faults)
    by_edge = iter(zip(*shares, strict=True))
    return [each.fixed or next(by_edge) for each in measured]


def _wrong_total(step: PickUpAlongStep, total: int, fixed: int) -> Diagnostic:
    assert step.to is not None
    return Diagnostic(
        "pickup.total",
        f"the edges give {how_many(fixed, 'stitch')}, and {total} {verb(total, 'is', 'are')} asked "
        "for",
        "Change `to:`, or leave it out; stitches are spread to fit along rows only",
        step.to.span,
    )


def _along(
    bench: Bench,
    step: PickUpAlongStep,
    measured: list[_Measured],
    shares: list[tuple[int, ...]],
) -> Iterator[Along]:
    """Every part with its stitches, and the rows that are skipped.

    Raises:
        PatternError: ``pickup.rows`` where a row would have two stitches, or two together none.
    """
    faults: list[tuple[int, Diagnostic]] = []
    found: list[Along] = []
    for each, stitches in zip(measured, shares, strict=True):
        skips: list[Skipped] = []
        for size, (rows, count) in enumerate(zip(each.rows, stitches, strict=False)):
            try:
                skips.append(skipped(rows, count))
            except ValueError:
                faults.append((size, _uneven(step, each, size, count)))
        new = each.edge.cast_on is not None
        words = each.edge.edge
        found.append(Along(words, stitches, tuple(skips), each.names, new, each.ratio))
    bench.refuse(faults)
    yield from found


def _uneven(step: PickUpAlongStep, measured: _Measured, size: int, count: int) -> Diagnostic:
    """Told at the number that was written: of the edge itself, or of all edges together."""
    edge, rows = measured.edge, measured.rows[size]
    written = edge.pick_up or step.to or edge.rows
    asked = along_rows(rows, measured.ratio[size])
    return Diagnostic(
        "pickup.rows",
        f"{how_many(count, 'stitch')} {verb(count, 'does', 'do')} not lie evenly along "
        f"{how_many(rows, 'row')}, for which the gauge asks for {asked}",
        "Pick up no more than one in each row and increase in the next row"
        if count > rows
        else "Pick up more, at least one in every second row: two rows skipped leave a hole. If "
        "fewer are wanted, decrease in the next row",
        written.span if written else edge.place.span,
    )


def _begins(step: _PickedUp) -> Begun:
    return Begun(tuple(part.stitches for part in step.detail.parts), None)


def _techniques(step: _PickedUp, flat: bool) -> tuple[str, ...]:
    picked = any(not part.new and not part.names for part in step.detail.parts)
    return ("picking-up",) if picked else ()


def _facts(measures: Measures, step: _PickedUp, keys: Keys) -> Facts:
    return {
        **yarn_facts(measures, step, keys),
        **{
            (What.PICKED_UP, part.edge or ", ".join(part.names)): per_size(measures, part.stitches)
            for part in step.detail.parts
        },
    }


KIND = Kind(
    PickUpAlongStep,
    _work,
    Answers(
        rows=nothing.rows,
        in_turn=False,
        charts=nothing.charts,
        tubes=nothing.tubes,
        pictures=nothing.pictures,
        begins=_begins,
        closes=nothing.stitches,
        thread=nothing.thread,
        tools=needles,
        techniques=_techniques,
        facts=_facts,
        stops=nothing.stops,
        heading=nothing.heading,
        idle=True,
        hand=Hand.OWN,
    ),
)
