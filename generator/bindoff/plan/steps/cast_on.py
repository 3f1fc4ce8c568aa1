"""Casting on: a piece begins with new stitches."""

from bindoff.diagnostics import Diagnostic, fail
from bindoff.english import how_many
from bindoff.plan import yarn as method
from bindoff.plan.bench import Bench, Outcome, State, States, no_rounds
from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.said import Facts
from bindoff.plan.groups import with_held
from bindoff.plan.measures import Measures
from bindoff.plan.rowcount import LiveStitches, Taken
from bindoff.plan.steps import nothing
from bindoff.plan.steps.common import HOOK, MACHINE, WAITING, method_facts, yarn_facts
from bindoff.plan.steps.kind import Kind
from bindoff.plan.steps.live import must_be_empty
from bindoff.plan.worked import Answers, Begun, Hand, WorkedStep
from bindoff.records import Record, replace
from bindoff.source.rowlang.groups import group_name
from bindoff.source.steps.cast_on import CastOnStep


class CastOn(Record):
    """Stitches cast on per size, and how; ``needles`` are those of a machine, per size, and
    ``group`` the name for which open loops wait."""

    stitches: tuple[int, ...]
    method: method.CastOnKind
    needles: tuple[int, ...] = ()
    group: str = ""


_CastOn = WorkedStep[CastOnStep, CastOn]


def _work(bench: Bench, index: int, step: CastOnStep, yarn: str, states: States) -> Outcome[CastOn]:
    counts = bench.measures.counts(step.cast_on, least=1)
    must_be_empty(bench, index, states)
    how = _method(bench, step)
    needles = _needles(bench, step, counts) if bench.machine else ()
    open_foot = how in OPEN and not step.for_
    after = tuple(
        replace(state, needle=LiveStitches(count), start=count if open_foot else 0)
        for state, count in zip(states, counts, strict=True)
    )
    group = _group(step, how)
    if group:
        after = _with_open_loops(bench, step, group, after)
    return CastOn(counts, how, needles, group), after, no_rounds(states)


OPEN = (method.CastOnKind.WASTE_YARN, method.CastOnKind.PROVISIONAL)
"""Cast-ons whose loops are open: the pattern's yarn begins with the first row above them."""

RINGS = (method.CastOnKind.TURKISH,)
"""Cast-ons around two needles, which close a toe and leave no gap to join; common practice, no
source."""


def _group(step: CastOnStep, how: method.CastOnKind) -> str:
    """The name for which the open loops wait; empty for none."""
    if step.for_ is None:
        return ""
    if how not in OPEN:
        raise fail(
            "piece.open-loops",
            f"the method `{how.value}` leaves no open loops that can be taken up later",
            "Write `method: provisional`, or take `for:` out",
            step.place.of("for").key_span,
        )
    return group_name(step.for_)


def _with_open_loops(bench: Bench, step: CastOnStep, group: str, states: States) -> States:
    """``states`` in which the loops at the foot wait under a name."""
    place = step.place.of("for").span
    found: list[tuple[int, Diagnostic]] = []
    after: list[State] = []
    for size, state in enumerate(states):
        loops = (Taken(group, 0, state.live, place),)
        groups, twice = with_held(state.groups, loops, bench.piece.make, place)
        if twice is not None:
            found.append((size, twice))
        after.append(replace(state, groups=groups))
    bench.refuse(found)
    return tuple(after)


def _method(bench: Bench, step: CastOnStep) -> method.CastOnKind:
    """As written, else what is usual by hand or on a machine."""
    usual = method.CastOnKind.WOUND if bench.machine else method.CastOnKind.LONG_TAIL
    how = method.CastOnKind(step.method) if step.method else usual
    wound = how is method.CastOnKind.WOUND
    if how is not method.CastOnKind.WASTE_YARN and wound is not bench.machine:
        where = "on a machine" if bench.machine else "by hand"
        raise fail(
            "machine.cast-on",
            f"the method `{step.method}` is not for a piece made {where}",
            f"Write `method: {usual.value}` or `method: waste yarn`",
            step.place.of("method").span,
        )
    if how in RINGS and bench.flat:
        raise fail(
            "piece.ring",
            f"the method `{how.value}` makes a ring, and the piece is worked flat",
            "Write `method: provisional` for open loops or `method: long-tail` for an edge, or "
            "take out `worked: flat`",
            step.place.of("method").span,
        )
    return how


def _needles(bench: Bench, step: CastOnStep, counts: tuple[int, ...]) -> tuple[int, ...]:
    """The machine's needles; raises where stitches need more, where a panel leaves none empty, or
    a tube has not one on each."""
    pattern = bench.measures.source.pattern
    needles = tuple(pattern.needles(size) or 0 for size in bench.sizes)
    bench.refuse(
        (size, _misfit(step, count, has, bench.flat))
        for size, (count, has) in enumerate(zip(counts, needles, strict=True))
        if (count > has - _EMPTY if bench.flat else count != has)
    )
    return needles


_EMPTY = 1
"""Needles between the two edges of a panel at the least: the yarn turns back there, and over a
closed ring of stitches it can't (common practice, no source)."""


def _misfit(step: CastOnStep, count: int, needles: int, flat: bool) -> Diagnostic:
    if flat and count == needles:
        what = f"has {needles} needles: a panel on all of them has no edge to turn back at"
        help = (
            f"Cast on {needles - _EMPTY} at most, so that a needle is left empty between the two "
            "edges, or take out `worked: flat` for a tube"
        )
    elif flat:
        what = f"has {needles} needles"
        help = f"Cast on {needles - _EMPTY} at most, or make two pieces"
    else:
        what = f"knits a tube on all its {needles} needles"
        help = "Write `cast on: needles`, or make the piece `worked: flat`"
    return Diagnostic(
        "machine.needles",
        f"{how_many(count, 'stitch')} to be cast on, and the machine {what}",
        help,
        step.cast_on.span,
    )


def _begins(step: _CastOn) -> Begun:
    return Begun((step.detail.stitches,), step.detail.method)


def _tools(step: _CastOn) -> tuple[str, ...]:
    machine = (MACHINE,) if step.detail.needles else ()
    if step.detail.method is method.CastOnKind.CROCHET:
        return (*machine, HOOK)
    return (*machine, WAITING) if step.detail.method in OPEN else machine


def _techniques(step: _CastOn, flat: bool) -> tuple[str, ...]:
    how = step.detail.method
    in_its_words = how in (method.CastOnKind.WASTE_YARN, method.CastOnKind.WOUND)
    return () if in_its_words else (f"{how.value.replace(' ', '-')}-cast-on",)


def _facts(measures: Measures, step: _CastOn, keys: Keys) -> Facts:
    return {**yarn_facts(measures, step, keys), **method_facts(step.detail.method.value)}


KIND = Kind(
    CastOnStep,
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
        tools=_tools,
        techniques=_techniques,
        facts=_facts,
        stops=nothing.stops,
        heading=nothing.heading,
        idle=True,
        hand=Hand.OWN,
    ),
)
