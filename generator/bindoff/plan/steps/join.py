"""Live stitches joined to another piece, or to the piece's own start."""

from dataclasses import dataclass, replace

from bindoff.diagnostics import Diagnostic, fail
from bindoff.plan import yarn as method
from bindoff.plan.bench import Bench, Outcome, States, no_rounds
from bindoff.plan.differences.meeting import Keys
from bindoff.plan.differences.said import Facts, What
from bindoff.plan.differences.values import per_size
from bindoff.plan.measures import Measures
from bindoff.plan.rowcount import Needle
from bindoff.plan.steps import nothing
from bindoff.plan.steps.common import HOOK, method_facts, yarn_facts
from bindoff.plan.steps.kind import Kind
from bindoff.plan.steps.live import live_stitches, stitches_are
from bindoff.plan.worked import Answers, Closed, Hand, WorkedStep
from bindoff.source.models import JoinStep


@dataclass(frozen=True, slots=True)
class Joined:
    """Stitches joined to another piece's, or to the piece's own start (``to`` is empty)."""

    stitches: tuple[int, ...]
    to: str
    by: str


_Join = WorkedStep[JoinStep, Joined]


def _work(bench: Bench, index: int, step: JoinStep, yarn: str, states: States) -> Outcome[Joined]:
    """Joins the live stitches loop for loop; both edges need the same number of them."""
    live = live_stitches(bench, index, states)
    place = step.place.of("join").span
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
                f"{stitches_are(state.live)} to be joined to the {count} of {whose}",
                f"Make both edges the same: change one to {count}, or the other to {state.live}",
                place,
            ),
        )
        for size, (state, count) in enumerate(zip(states, other, strict=True))
        if state.live != count
    )
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


def _closes(step: _Join) -> Closed:
    return Closed(step.detail.stitches, _BY[step.detail.by], to=step.detail.to)


_BY = {
    "grafting": method.BindOff.GRAFTED,
    "three-needle bind-off": method.BindOff.ORDINARY,
    "slip stitch": method.BindOff.SLIP_STITCHED,
}


def _tools(step: _Join) -> tuple[str, ...]:
    return (HOOK,) if step.detail.by == "slip stitch" else ()


def _techniques(step: _Join, flat: bool) -> tuple[str, ...]:
    if step.detail.by == "slip stitch":
        return ("slip-stitch-join",)
    if step.detail.by != "grafting":
        return ("three-needle-closing",)
    return ("grafting" if step.detail.to else "join-folded-tube",)


def _facts(measures: Measures, step: _Join, keys: Keys) -> Facts:
    to = step.detail.to
    title = {"": measures.source.pattern.pieces[to].title} if to else {}
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
