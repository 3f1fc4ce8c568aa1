"""Live stitches joined to another piece, or to the piece's own start."""

from bindoff.diagnostics import Diagnostic, Span, fail
from bindoff.plan import yarn as method
from bindoff.plan.bench import Bench, Outcome, State, States, no_rounds
from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.said import Facts, What
from bindoff.plan.differences.values import per_size
from bindoff.plan.groups import Waiting, group_of, not_waiting, too_few, without
from bindoff.plan.measures import Measures
from bindoff.plan.steps import nothing
from bindoff.plan.steps.common import HOOK, NEEDLES, method_facts, yarn_facts
from bindoff.plan.steps.kind import Kind
from bindoff.plan.steps.live import (
    emptied,
    how_to_open,
    live_stitches,
    name_of_start,
    stitches_are,
)
from bindoff.plan.worked import Answers, Closed, Hand, WorkedStep
from bindoff.records import Record, replace
from bindoff.source.rowlang.groups import group_name
from bindoff.source.steps.join import JoinStep


class Joined(Record):
    """Stitches joined, those of one edge: to another piece's, to the piece's own start (``to`` is
    empty), to held ones of the name ``group``, or one half of them to the other (``halved``), which
    may be the open loops ``at_start`` of the piece."""

    stitches: tuple[int, ...]
    to: str
    by: str
    group: str = ""
    halved: bool = False
    at_start: bool = False


_Join = WorkedStep[JoinStep, Joined]


def _work(bench: Bench, index: int, step: JoinStep, yarn: str, states: States) -> Outcome[Joined]:
    """Joins the live stitches loop for loop; both edges need the same number of them."""
    place = step.place.of("join").span
    if step.edge == "start":
        return _start_halves(bench, index, step, states)
    live = live_stitches(bench, index, states)
    if step.join == "itself":
        return _halves(bench, step, live, states)
    own = name_of_start(bench, index, states) if step.join == "start" else ""
    group = own or group_name(step.join)
    if any(group_of(state.groups, group) for state in states):
        return _to_group(bench, step, group, live, states)
    if step.join == "start":
        other, whose = tuple(state.start for state in states), "the piece's start"
    else:
        plan = next((each for each in bench.before if each.key == step.join), None)
        other, whose = (plan.left if plan else ()), f"the piece `{step.join}`"
    if not any(other):
        raise fail("piece.join", *_no_edge(bench, index, step.join, states), place)
    bench.refuse(
        (
            size,
            Diagnostic(
                "piece.join-count",
                f"{stitches_are(state.live)} to be joined to the {count} of {whose}",
                f"Make both edges the same: change one to {count}, or the other to {state.live}",
                place,
            ),
        )
        for size, (state, count) in enumerate(zip(states, other, strict=True))
        if state.live != count
    )
    to = "" if step.join == "start" else step.join
    after = emptied(states)
    if not to:
        after = tuple(replace(state, start=0) for state in after)
    return Joined(live, to, step.by), after, no_rounds(states)


def _halves(bench: Bench, step: JoinStep, live: tuple[int, ...], states: States) -> Outcome[Joined]:
    """One half of the live stitches joined to the other, as at a toe."""
    half = _half(bench, step, live)
    return Joined(half, "", step.by, halved=True), emptied(states), no_rounds(states)


def _start_halves(bench: Bench, index: int, step: JoinStep, states: States) -> Outcome[Joined]:
    """One half of the open loops that the piece starts with joined to the other."""
    place = step.place.of("join").span
    if step.join != "itself":
        help_ = "Write `join: itself` to close the start, or take `edge` out"
        raise fail("piece.join", "`edge: start` joins the start to itself alone", help_, place)
    loops = tuple(state.start for state in states)
    if not any(loops):
        raise fail("piece.join", *_no_edge(bench, index, "start", states), place)
    half = _half(bench, step, loops)
    after = tuple(replace(state, start=0) for state in states)
    return Joined(half, "", step.by, halved=True, at_start=True), after, no_rounds(states)


def _half(bench: Bench, step: JoinStep, stitches: tuple[int, ...]) -> tuple[int, ...]:
    """Half of the stitches of each size, which must be an even number of them."""
    bench.refuse(
        (
            size,
            Diagnostic(
                "piece.join-count",
                f"{stitches_are(count)} to be joined half to half, which is no even number",
                "Make the number even in the rows before",
                step.place.of("join").span,
            ),
        )
        for size, count in enumerate(stitches)
        if count % 2
    )
    return tuple(count // 2 for count in stitches)


def _to_group(
    bench: Bench, step: JoinStep, group: str, live: tuple[int, ...], states: States
) -> Outcome[Joined]:
    """The live stitches joined to held ones."""
    place, made = step.place.of("join").span, bench.piece.make
    found: list[tuple[int, Diagnostic]] = []
    after: list[State] = []
    for size, (state, count) in enumerate(zip(states, live, strict=True)):
        waiting = group_of(state.groups, group)
        if waiting is None or not waiting.copies:
            found.append((size, not_waiting(state.groups, group, place)))
        elif waiting.copies < made:
            found.append((size, too_few(waiting, made, made, place)))
        elif waiting.stitches != count:
            found.append((size, _unlike(count, waiting, place)))
        after.append(replace(state, groups=without(state.groups, group, made, place)))
    bench.refuse(found)
    return Joined(live, "", step.by, group=group), emptied(tuple(after)), no_rounds(states)


def _unlike(count: int, group: Waiting, place: Span) -> Diagnostic:
    return Diagnostic(
        "piece.join-count",
        f"{stitches_are(count)} to be joined to the {group.stitches} held for `{group.name}` in "
        f"line {group.held.line}",
        f"Make both edges the same: change one to {group.stitches}, or the other to {count}",
        place,
    )


def _no_edge(bench: Bench, index: int, to: str, states: States) -> tuple[str, str]:
    """What is wrong with a join that has nothing to be joined to, and what to do."""
    if to == "start":
        return (
            "the piece's start has no open loops to join to",
            how_to_open(bench, index, states),
        )
    if to in bench.measures.source.pattern.pieces:
        return (
            f"the piece `{to}` leaves no stitches live before this one",
            "End it with the step `- leave: live`, and put it before this piece",
        )
    return (
        f"there is no piece called `{to}`",
        "Write the name of a piece that is made before this one, a name for which stitches are "
        "held, `start`, or `itself`",
    )


def _closes(step: _Join) -> Closed:
    alone = step.detail.halved or step.detail.group
    to = None if alone else step.detail.to
    return Closed(
        step.detail.stitches,
        _BY[step.detail.by],
        to=to,
        halved=step.detail.halved,
        start=step.detail.at_start,
    )


_BY = {
    "grafting": method.BindOffKind.GRAFTED,
    "three-needle bind-off": method.BindOffKind.ORDINARY,
    "slip stitch": method.BindOffKind.SLIP_STITCHED,
    "sewing": method.BindOffKind.SEWN_TOGETHER,
}


def _tools(step: _Join) -> tuple[str, ...]:
    return _TOOLS[step.detail.by]


_TOOLS = {
    "grafting": (),
    "three-needle bind-off": (NEEDLES,),
    "slip stitch": (HOOK,),
    "sewing": (),
}
"""A blunt needle is listed for the ends anyway."""


def _techniques(step: _Join, flat: bool) -> tuple[str, ...]:
    edges = step.detail.to or step.detail.group or step.detail.halved or flat
    return (_EXPLAINED.get(step.detail.by) or ("grafting" if edges else "join-folded-tube"),)


_EXPLAINED = {
    "three-needle bind-off": "three-needle-closing",
    "slip stitch": "slip-stitch-join",
    "sewing": "sewing-open-edges",
}
"""The texts on ways of joining that are the same for all edges."""


def _facts(measures: Measures, step: _Join, keys: Keys) -> Facts:
    to = step.detail.to
    title = {"": measures.source.pattern.pieces[to].title} if to else {}
    if step.detail.halved or step.detail.group:
        title = {"": "start" if step.detail.at_start else step.detail.group or "itself"}
    return {
        **yarn_facts(measures, step, keys),
        (What.CLOSED, ""): per_size(measures, step.detail.stitches),
        (What.JOINED_TO, ""): title,
        **method_facts(step.step.by),
    }


KIND = Kind(
    JoinStep,
    _work,
    Answers(
        rows=nothing.rows,
        in_turn=False,
        charts=nothing.charts,
        tubes=nothing.tubes,
        pictures=nothing.pictures,
        begins=nothing.stitches,
        closes=_closes,
        thread=nothing.thread,
        tools=_tools,
        techniques=_techniques,
        facts=_facts,
        stops=nothing.stops,
        heading=nothing.heading,
        idle=True,
        hand=Hand.WORKED,
    ),
)
