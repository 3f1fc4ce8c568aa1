"""Works every step of a piece in every size, stitch by stitch, and proves that the counts meet."""

from collections import Counter
from dataclasses import replace
from itertools import accumulate
from typing import assert_never

from bindoff.diagnostics import Diagnostic, fail
from bindoff.plan.bench import Bench, Outcome, State, States, no_rounds
from bindoff.plan.measures import Measures
from bindoff.plan.picture import PicturePlan
from bindoff.plan.rowcount import Needle, RowMismatch
from bindoff.plan.rowsteps import work_chart, work_rows
from bindoff.plan.shaping import work_crown, work_even, work_taper
from bindoff.plan.steps import (
    BindOff,
    CastOn,
    Edged,
    Embroidered,
    Gather,
    Joined,
    Left,
    PickUp,
    PiecePlan,
    StepPlan,
    Striped,
)
from bindoff.source import models
from bindoff.source.rowlang.stitches import StitchBook
from bindoff.source.rowlang.syntax import Row


def plan_piece(
    measures: Measures,
    key: str,
    book: StitchBook,
    tubes: tuple[PicturePlan, ...],
    before: tuple[PiecePlan, ...] = (),
) -> PiecePlan:
    """The piece ``key`` worked from its first to its last step in all sizes.

    ``before`` are the pieces made before it, which it may be joined to.

    Raises:
        PatternError: at the first step that can't be worked, with a finding per size: a row that
            doesn't fit (``row.…``), a count that can't be reached, stitches left live at the end.
    """
    piece = measures.source.pattern.pieces[key]
    bench = Bench(measures, key, piece, book, tubes, before)
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


def _work(bench: Bench, index: int, step: models.AnyStep, yarn: str, states: States) -> Outcome:
    match step:
        case models.SectionStep() | models.SayStep():
            return None, states, no_rounds(states)
        case models.CastOnStep():
            return _cast_on(bench, index, step, states)
        case models.PickUpStep():
            return _pick_up(bench, index, step, states)
        case models.WorkStep():
            return work_rows(bench, index, step, yarn, states)
        case models.ChartStep():
            return work_chart(bench, index, step, yarn, states)
        case models.EvenStep():
            return work_even(bench, index, step, yarn, states)
        case models.TaperStep():
            return work_taper(bench, index, step, yarn, states)
        case models.CrownStep():
            return work_crown(bench, index, step, yarn, states)
        case models.BindOffStep():
            return _bind_off(bench, index, step, states)
        case models.GatherStep():
            return _gather(bench, index, states)
        case models.LeaveStep():
            return _leave(bench, index, states)
        case models.JoinStep():
            return _join(bench, index, step, states)
        case models.StripesStep():
            return _stripes(bench, index, states)
        case models.EmbroiderStep():
            return _embroider(bench, index, states)
        case models.EdgingStep():
            return _edging(bench, index, step, states)
        case _:
            assert_never(step)


# ---------------------------------------------------------------- starting


def _cast_on(bench: Bench, index: int, step: models.CastOnStep, states: States) -> Outcome:
    counts = bench.counts(index, "cast on", least=1)
    _must_be_empty(bench, index, states)
    open_foot = step.method == "waste yarn"
    after = tuple(
        replace(state, needle=Needle(count), start=count if open_foot else 0)
        for state, count in zip(states, counts, strict=True)
    )
    return CastOn(counts), after, no_rounds(states)


def _pick_up(bench: Bench, index: int, step: models.PickUpStep, states: States) -> Outcome:
    _must_be_empty(bench, index, states)
    held = bench.counts(index, "held")
    more = (0,) * len(states)
    if "pick_up" in step.model_fields_set:
        more = bench.counts(index, "pick up")
    bench.refuse(
        (
            size,
            Diagnostic(
                "piece.held",
                f"{count} held stitches are put back, but {state.held} are held"
                if state.held
                else "no stitches are held here to be put back",
                "Make the number the same as in the row that holds them"
                if state.held
                else "Hold them in a row before, as in `hold 9 stitches`",
                bench.span(index, "held"),
            ),
        )
        for size, (state, count) in enumerate(zip(states, held, strict=True))
        if count != state.held or count == 0
    )
    after = tuple(
        replace(state, needle=Needle(count + extra), held=0)
        for state, count, extra in zip(states, held, more, strict=True)
    )
    return PickUp(held, more), after, no_rounds(states)


def _must_be_empty(bench: Bench, index: int, states: States) -> None:
    bench.refuse(
        (
            size,
            Diagnostic(
                "piece.still-live",
                f"{_stitches(state.live)} still live where new ones are begun",
                "Bind off, gather or hold the stitches first",
                bench.span(index),
            ),
        )
        for size, state in enumerate(states)
        if state.live
    )


# ---------------------------------------------------------------- ending


def _bind_off(bench: Bench, index: int, step: models.BindOffStep, states: States) -> Outcome:
    live = tuple(state.live for state in states)
    _must_be_live(bench, index, states)
    counts = live if step.bind_off == "all" else bench.counts(index, "bind off", least=1)
    bench.refuse(
        (
            size,
            Diagnostic(
                "piece.bind-off",
                f"{_stitches(count)} to be bound off, but only {_stitches(had)} live",
                "Write `all`, or a smaller number",
                bench.span(index, "bind off"),
            ),
        )
        for size, (count, had) in enumerate(zip(counts, live, strict=True))
        if count > had
    )
    after = tuple(
        replace(state, needle=Needle(state.live - count))
        for state, count in zip(states, counts, strict=True)
    )
    return BindOff(counts), after, no_rounds(states)


def _gather(bench: Bench, index: int, states: States) -> Outcome:
    _must_be_live(bench, index, states)
    after = tuple(replace(state, needle=Needle(0)) for state in states)
    return Gather(tuple(state.live for state in states)), after, no_rounds(states)


def _leave(bench: Bench, index: int, states: States) -> Outcome:
    _must_be_live(bench, index, states)
    after = tuple(replace(state, needle=Needle(0)) for state in states)
    return Left(tuple(state.live for state in states)), after, no_rounds(states)


def _join(bench: Bench, index: int, step: models.JoinStep, states: States) -> Outcome:
    """Joins the live stitches loop for loop; both edges need the same number of them."""
    _must_be_live(bench, index, states)
    place = bench.span(index, "join")
    if step.join == "start":
        other, whose = tuple(state.start for state in states), "the piece's start"
    else:
        plan = next((each for each in bench.before if each.key == step.join), None)
        other, whose = (plan.left if plan else ()), f"the piece `{step.join}`"
    if not any(other):
        raise fail("piece.join", *_no_edge(bench, step.join), place)
    bench.refuse(
        (
            size,
            Diagnostic(
                "piece.join-count",
                f"{_stitches(state.live)} to be joined to the {count} of {whose}",
                f"Make both edges the same: change one to {count}, or the other to {state.live}",
                place,
            ),
        )
        for size, (state, count) in enumerate(zip(states, other, strict=True))
        if state.live != count
    )
    live = tuple(state.live for state in states)
    after = tuple(replace(state, needle=Needle(0), start=0) for state in states)
    to = "" if step.join == "start" else step.join
    return Joined(live, to, step.by), after, no_rounds(states)


def _no_edge(bench: Bench, to: str) -> tuple[str, str]:
    """What is wrong with a join that has nothing to be joined to, and what to do."""
    if to == "start":
        return (
            "the piece's start has no open loops to join to",
            "Cast on with `method: waste yarn`, which leaves them open",
        )
    if to in bench.measures.source.pattern.pieces:
        return (
            f"the piece `{to}` leaves no stitches live before this one",
            "End it with the step `- leave: live`, and put it before this piece",
        )
    return (
        f"there is no piece called `{to}`",
        "Write the name of a piece that is made before this one, or `start`",
    )


def _must_be_live(bench: Bench, index: int, states: States) -> None:
    bench.refuse(
        (
            size,
            Diagnostic(
                "piece.none-live",
                "there are no live stitches to close",
                "Take this step out, or put it where stitches are on the needles",
                bench.span(index),
            ),
        )
        for size, state in enumerate(states)
        if not state.live
    )


def _nothing_left(bench: Bench, states: States) -> None:
    """Raises unless all stitches are closed and the whole picture is there."""
    place = bench.measures.source.span("pieces", bench.key, key=True)
    bench.refuse(
        (
            size,
            Diagnostic(
                "piece.unfinished",
                f"at the end of the piece {_stitches(state.live)} still live"
                if state.live
                else f"at the end of the piece {_stitches(state.held)} still held",
                "End it with a step that closes them, such as `- bind off: all`"
                if state.live
                else "Add a step such as `- held: 9` that puts them back, and close them then",
                place,
            ),
        )
        for size, state in enumerate(states)
        if state.live or state.held
    )
    if any(isinstance(step, models.EmbroiderStep) for step in bench.piece.steps):
        return
    bench.refuse(
        (
            size,
            Diagnostic(
                "piece.no-embroidery",
                f"the stripes leave {left} stitches of the picture to embroider, and no step does",
                "Add the step `- embroider: from plan` after the stripes",
                bench.measures.source.span("pieces", bench.key, "picture", key=True),
            ),
        )
        for size, plan in enumerate(bench.tubes)
        if (left := sum(yarn is not None for round_ in plan.overlay for yarn in round_))
    )


def _stitches(count: int) -> str:
    return "1 stitch is" if count == 1 else f"{count} stitches are"


# ---------------------------------------------------------------- tubes and edges


def _stripes(bench: Bench, index: int, states: States) -> Outcome:
    _must_be_empty(bench, index, states)
    worked = tuple(
        tuple(tuple(Counter(stitches).items()) for stitches in plan.knitted) for plan in bench.tubes
    )
    after = tuple(
        replace(
            state,
            needle=Needle(plan.tube.needles),
            rounds=state.rounds + plan.tube.total_rounds,
            start=plan.tube.needles,
        )
        for state, plan in zip(states, bench.tubes, strict=True)
    )
    return Striped(bench.tubes), after, worked


def _embroider(bench: Bench, index: int, states: States) -> Outcome:
    if not any(isinstance(step, models.StripesStep) for step in bench.piece.steps[:index]):
        raise fail(
            "piece.embroider-first",
            "the tube is embroidered before it is knitted",
            "Put this step after `- stripes: from plan`",
            bench.span(index),
        )
    return Embroidered(bench.tubes), states, no_rounds(states)


def _edging(bench: Bench, index: int, step: models.EdgingStep, states: States) -> Outcome:
    rows = bench.rows(index, "edging", step.edging)
    along = bench.measures.lengths(*bench.path(index, "along"))
    sides = tuple(
        bench.measures.counts(*bench.path(index, "sides", number), least=1)
        for number in range(len(step.sides))
    )
    counts = _edge_counts(bench, rows, sides)
    return Edged(rows, along, sides, counts), states, no_rounds(states)


def _edge_counts(
    bench: Bench, rows: tuple[Row, ...], sides: tuple[tuple[int, ...], ...]
) -> tuple[tuple[int, ...], ...]:
    """Stitches after each row of an edging, per size; corners lie between neighbouring sides."""
    counted: list[tuple[int, ...]] = []
    found: list[tuple[int, Diagnostic]] = []
    for size, lengths in enumerate(zip(*sides, strict=True)):
        corners = tuple(accumulate(lengths))
        state = State(Needle(corners[-1], left_markers=corners[:-1]))
        numbers = bench.measures.numbers(size)
        live: list[int] = []
        for row in rows:
            try:
                done = bench.count(row, state, numbers)
            except RowMismatch as error:
                found.append((size, bench.misfit(error, row.span, size, state)))
                break
            needle = Needle(done.live, left_markers=done.markers)
            state = replace(state, needle=needle, rounds=state.rounds + 1)
            live.append(done.live)
        counted.append(tuple(live))
    bench.refuse(found)
    return tuple(zip(*counted, strict=True))
