"""Works every step of a piece in every size, stitch by stitch, and proves that the counts meet."""

from collections.abc import Sequence

from bindoff.diagnostics import Diagnostic, PatternError, fail
from bindoff.english import how_many
from bindoff.plan import yarn as method
from bindoff.plan.bench import Bench, State, States
from bindoff.plan.carryon import Faults, supposed
from bindoff.plan.inpattern import worked_in
from bindoff.plan.measures import Measures
from bindoff.plan.picture import PicturePlan
from bindoff.plan.rowcount import LiveStitches
from bindoff.plan.shown import UNKNOWN
from bindoff.plan.steps.cast_on import OPEN
from bindoff.plan.steps.common import HOOK
from bindoff.plan.steps.live import stitches_are
from bindoff.plan.steps.registry import kind_of
from bindoff.plan.stitchpatterns import Patterns
from bindoff.plan.worked import PiecePlan, StepPlan, WorkedStep
from bindoff.records import replace
from bindoff.source.rowlang.stitches import StitchBook
from bindoff.source.rowlang.syntax import Fill, Row, ToEnd
from bindoff.source.steps.cast_on import CastOnStep
from bindoff.source.steps.say import SayStep
from bindoff.source.steps.section import SectionStep
from bindoff.source.steps.step import Step
from bindoff.source.steps.work import WorkStep


def plan_piece(
    measures: Measures,
    key: str,
    book: StitchBook,
    tubes: tuple[PicturePlan, ...],
    patterns: Patterns,
    before: tuple[PiecePlan, ...] = (),
) -> PiecePlan:
    """The piece ``key`` worked from its first to its last step in all sizes.

    ``before`` are the pieces made before it, which it may be joined to.

    Raises:
        PatternError: with every fault of its steps: a row that doesn't fit (``row.…``), a count
            that can't be reached, stitches left live at the end. What may only follow from a
            fault before it is laid beneath that one.
    """
    piece = measures.source.pattern.pieces[key]
    bench = Bench(measures, key, piece, book, tubes, patterns, before)
    waiting = before[-1].groups if before else ((),) * len(measures.sizes)
    flat = piece.worked == "flat"
    column = piece.counted_at.stitch if piece.counted_at else ""
    states = tuple(
        State(LiveStitches(0), groups=groups, flat=flat, column=column) for groups in waiting
    )
    main = piece.yarn or next(iter(measures.source.pattern.yarns))
    steps = []
    faults = Faults()
    for index, step in enumerate(piece.steps):
        yarn = _yarn(piece.steps, index) or main
        states = tuple(replace(state, laid=()) if state.laid else state for state in states)
        bench = replace(bench, flat=states[0].flat)
        states = tuple(replace(state, levels=()) if state.levels else state for state in states)
        kind = kind_of(step)
        try:
            states = _without_markers(step, states)
            detail, after, worked = kind.work(bench, index, step, yarn, states)
            _one_way(bench, index, after)
        except PatternError as error:
            faults.add(error)
            states = supposed(bench, index, step, states)
            continue
        faults.passed(step)
        steps.append(
            WorkedStep(
                step,
                bench.span(index),
                yarn,
                detail,
                kind.answers,
                tuple(state.progress for state in states),
                tuple(state.progress for state in after),
                worked,
                worked_in([state.laid for state in after], bench.flat),
                tuple(state.levels for state in after),
            )
        )
        states = after
        if bench.slips:
            states = _shown(steps[-1], states)
    faults.refuse()
    groups = tuple(state.groups for state in states)
    plan = PiecePlan(key, tuple(steps), groups, cranked=bench.machine and not tubes)
    _only_cranked(bench, plan)
    _nothing_left(bench, plan, states)
    return plan


def _without_markers(step: Step, states: States) -> States:
    """The states where a step begins that takes all markers off, if it is one.

    Raises:
        PatternError: ``piece.no-markers`` where no size has a marker.
    """
    if not step.remove_markers:
        return states
    if not any(state.progress.markers for state in states):
        raise fail(
            "piece.no-markers",
            "no marker is on the needles here that could come off",
            "Take it out, or place the markers with `pm` in a row before this step",
            step.place.of("remove markers").key_span,
        )
    return tuple(
        replace(state, needle=replace(state.needle, left_markers=(), right_markers=()))
        for state in states
    )


def _yarn(steps: Sequence[Step], index: int) -> str:
    """The yarn that a step is worked in; empty for the main one. Loops that are cast on open are
    those of the first rows, as nothing else of the pattern's yarn is in them."""
    step = steps[index]
    if _named(step) or not (isinstance(step, CastOnStep) and step.method in OPEN):
        return _named(step)
    worked = (each for each in steps[index + 1 :] if not isinstance(each, (SayStep, SectionStep)))
    return next(map(_named, worked), "")


def _named(step: Step) -> str:
    """The yarn that a step names, its first stripe's where it is worked in stripes."""
    if isinstance(step, WorkStep) and step.in_stripes and not step.yarn:
        return step.in_stripes[0].yarn
    return step.yarn or ""


def _shown(step: StepPlan, states: States) -> States:
    """The states after a step that works no row: new stitches show its yarn, and of those taken up
    from elsewhere nobody knows what they show."""
    found = []
    for before, after, state in zip(step.before, step.after, states, strict=True):
        if step.begins is not None and not before.stitches:
            state = replace(state, shown=(step.yarn,))
        elif before.rounds == after.rounds and after.stitches > before.stitches:
            state = replace(state, shown=UNKNOWN)
        found.append(state)
    return tuple(found)


def _only_cranked(bench: Bench, plan: PiecePlan) -> None:
    """Raises where a step of a piece from the machine asks for more than turns of its crank: it
    knits every stitch from the same side (common practice, no source)."""
    if not bench.machine:
        return
    findings = [
        Diagnostic(
            "machine.row",
            "the machine knits every stitch of every row, and this step asks for other stitches",
            "Write `work: k all`, or make this part by hand as a piece of its own",
            step.span,
        )
        for step in plan.steps
        if _by_hand(step)
    ]
    if findings:
        raise PatternError(findings)


def could_be_cranked(plan: PiecePlan) -> bool:
    """Whether a machine could knit all rounds or rows of a piece, and there are some."""
    begun = [step.begins.by for step in plan.steps if step.begins]
    cast_on = (method.CastOnKind.LONG_TAIL, method.CastOnKind.WASTE_YARN)  # the first is the usual
    rounds = any(any(step.rounds) for step in plan.steps)
    return rounds and all(by in cast_on for by in begun) and not any(map(_by_hand, plan.steps))


def _by_hand(step: StepPlan) -> bool:
    """Whether a step asks for stitches that no turn of the crank makes."""
    return HOOK not in step.tools and (
        bool(step.charts)
        or any(not knit_throughout(row) for row in step.rows)
        or (not step.tubes and not step.begins and not step.closes and _shapes(step))
    )


def _shapes(step: StepPlan) -> bool:
    """Whether a step changes the number of stitches in some size."""
    return any(
        before.stitches != after.stitches
        for before, after in zip(step.before, step.after, strict=True)
    )


def knit_throughout(row: Row) -> bool:
    """Whether a row is ``k all``, in whatever yarn."""
    match row.parts:
        case (Fill("k", ToEnd(), (), None),):
            return True
        case _:
            return False


def _one_way(bench: Bench, index: int, states: States) -> None:
    """Raises where some sizes go on flat and others in the round."""
    if len({state.flat for state in states}) > 1:
        raise fail(
            "piece.ways",
            "after this step some sizes are worked flat and others in the round",
            "Change between the two in a row that every size works",
            bench.span(index),
        )


def _nothing_left(bench: Bench, plan: PiecePlan, states: States) -> None:
    """Raises unless all stitches are closed and the whole picture is there."""
    piece = bench.piece
    bench.refuse(
        (
            size,
            Diagnostic(
                "piece.unfinished",
                f"at the end of the piece {stitches_are(state.live)} still live"
                if state.live
                else f"at the end of the piece {stitches_are(state.held)} still held",
                "End it with a step that closes them, such as `- bind off: all`"
                if state.live
                else "Add a step `- held: …` that puts as many back, and close them then",
                piece.place.key_span,
            ),
        )
        for size, state in enumerate(states)
        if state.live or state.held
    )
    if any(step.pictures for step in plan.steps):
        return
    bench.refuse(
        (
            size,
            Diagnostic(
                "piece.no-embroidery",
                f"the stripes leave {how_many(left, 'stitch')} of the picture to embroider, and no "
                "step does",
                "Add the step `- embroider: from plan` after the stripes",
                piece.place.of("picture").key_span,
            ),
        )
        for size, tube in enumerate(bench.tubes)
        if (left := sum(yarn is not None for round_ in tube.overlay for yarn in round_))
    )
