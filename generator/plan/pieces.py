"""Works every step of a piece in every size, stitch by stitch, and proves that the counts meet."""

from dataclasses import replace
from typing import assert_never

from generator.diagnostics import Diagnostic, fail
from generator.plan.bench import Bench, Outcome, State, States, no_rounds
from generator.plan.measures import Measures
from generator.plan.picture import PicturePlan
from generator.plan.rowcount import Needle
from generator.plan.rowsteps import work_chart, work_rows
from generator.plan.shaping import work_crown, work_even, work_taper
from generator.plan.steps import (
    BindOff,
    CastOn,
    Edged,
    Embroidered,
    Gather,
    PickUp,
    PiecePlan,
    StepPlan,
    Striped,
)
from generator.source import models
from generator.source.rowlang.stitches import StitchBook


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


def _work(bench: Bench, index: int, step: models.AnyStep, yarn: str, states: States) -> Outcome:
    match step:
        case models.SectionStep() | models.SayStep():
            return None, states, no_rounds(states)
        case models.CastOnStep():
            return _cast_on(bench, index, states)
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
        case models.StripesStep():
            return _stripes(bench, index, states)
        case models.EmbroiderStep():
            return _embroider(bench, index, states)
        case models.EdgingStep():
            return _edging(bench, index, step, states)
        case _:
            assert_never(step)


# ---------------------------------------------------------------- starting


def _cast_on(bench: Bench, index: int, states: States) -> Outcome:
    counts = bench.counts(index, "cast on", least=1)
    _must_be_empty(bench, index, states)
    after = tuple(
        replace(state, needle=Needle(count)) for state, count in zip(states, counts, strict=True)
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
                f"{count} stitches are to be bound off, but only {_stitches(had)} live",
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
        tuple(((base, plan.tube.needles),) for base in plan.stripes.bases) for plan in bench.tubes
    )
    after = tuple(
        State(Needle(plan.tube.needles), state.rounds + plan.tube.total_rounds, state.held)
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
    return Edged(rows, along), states, no_rounds(states)
