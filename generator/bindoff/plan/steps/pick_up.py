"""Held stitches put back on the needles, with more picked up beside them."""

from bindoff.diagnostics import Diagnostic, PatternError, Span, fail
from bindoff.english import how_many, times, verb
from bindoff.plan.bench import Bench, Outcome, State, States, no_rounds
from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.said import Facts, What
from bindoff.plan.differences.values import per_size
from bindoff.plan.groups import Groups, Waiting, group_of, not_waiting, too_few, without
from bindoff.plan.measures import Measures
from bindoff.plan.rowcount import LiveStitches
from bindoff.plan.steps import nothing
from bindoff.plan.steps.common import yarn_facts
from bindoff.plan.steps.kind import Kind
from bindoff.plan.steps.live import must_be_empty
from bindoff.plan.worked import Answers, Begun, Hand, WorkedStep
from bindoff.records import Record, replace
from bindoff.source.rowlang.groups import Between, Entry, FromGroup
from bindoff.source.rowlang.syntax import CountChange
from bindoff.source.steps.pick_up import PickUpStep


class Back(Record):
    """A part of what comes on the needles, per size.

    ``names`` are those of held stitches, one for each time that the piece is made where there are
    several; stitches that are ``new`` have none.
    """

    stitches: tuple[int, ...]
    names: tuple[str, ...] = ()
    new: CountChange | None = None


class PickUp(Record):
    """Held stitches put back on the needles and stitches picked up beside them, per size.

    ``parts`` are those with names, and what is new between them, in order; none without names.
    ``held`` counts them all.
    """

    held: tuple[int, ...]
    picked_up: tuple[int, ...]
    parts: tuple[Back, ...] = ()


_PickUp = WorkedStep[PickUpStep, PickUp]


def _work(bench: Bench, index: int, step: PickUpStep, yarn: str, states: States) -> Outcome[PickUp]:
    must_be_empty(bench, index, states)
    entries = _named(bench, step, states)
    if entries:
        return _from_groups(bench, step, entries, states)
    held = bench.measures.counts(step.held)
    written = _in_a_row(step.held.place.text)
    more = bench.measures.counts(step.pick_up)
    bench.refuse(
        (
            size,
            Diagnostic(
                "piece.held",
                f"{how_many(count, 'held stitch')} {verb(count, 'is', 'are')} put back, but "
                f"{state.held} {verb(state.held, 'is', 'are')} held"
                if state.held
                else "no stitches are held here to be put back",
                "Make the number the same as in the row that holds them"
                if state.held
                else f"Hold them in a row before, as in `hold {written} stitches`",
                step.held.span,
            ),
        )
        for size, (state, count) in enumerate(zip(states, held, strict=True))
        if count != state.held or count == 0
    )
    after = tuple(
        replace(state, needle=LiveStitches(count + extra), held=0, begun=state.height)
        for state, count, extra in zip(states, held, more, strict=True)
    )
    return PickUp(held, more), after, no_rounds(states)


def _named(bench: Bench, step: PickUpStep, states: States) -> tuple[Entry, ...]:
    """The names that the step writes; none where it writes how many.

    A single word is a name where stitches are or were held for it, or where no measure has it.
    """
    entries = step.held.entries
    if not step.held.formulas:
        return entries
    known = any(group_of(state.groups, str(step.held.written).lower()) for state in states)
    measure = any(str(step.held.written) in size.names for size in bench.measures.sizes)
    return entries if known or not measure else ()


def _from_groups(
    bench: Bench, step: PickUpStep, entries: tuple[Entry, ...], states: States
) -> Outcome[PickUp]:
    """Puts named groups on the needles in order, with what is new between them."""
    place, made = step.held.span, bench.piece.make
    more = bench.measures.counts(step.pick_up)
    found: list[tuple[int, Diagnostic]] = []
    counts: list[list[int]] = []
    after: list[State] = []
    for size, state in enumerate(states):
        groups, own = state.groups, list[int]()
        for entry in entries:
            try:
                if isinstance(entry, Between):
                    own.append(_new(bench, entry, size, place))
                else:
                    groups, count = taken_up(groups, entry, made, place)
                    own.append(count)
            except PatternError as error:
                found += [(size, each) for each in error.findings]
        counts.append(own)
        needle = LiveStitches(sum(own) + more[size])
        after.append(replace(state, needle=needle, groups=groups, begun=state.height))
    bench.refuse(found)
    parts = tuple(
        Back(stitches, new=entry.change)
        if isinstance(entry, Between)
        else Back(stitches, names=entry.names)
        for entry, stitches in zip(entries, zip(*counts, strict=True), strict=True)
    )
    held = tuple(map(sum, counts))
    return PickUp(held, more, parts), tuple(after), no_rounds(states)


def _new(bench: Bench, entry: Between, size: int, place: Span) -> int:
    """How many stitches are new in a size."""
    if isinstance(entry.count, int):
        return entry.count
    number = bench.measures.numbers(size).get(entry.count.name)
    if number is None or number < 0:
        raise fail(
            "row.unknown-number",
            f"there is no count called `{entry.count.name}`",
            f"Add `{entry.count.name}:` under `measures:`, a count and not a length",
            place,
        )
    return number


def taken_up(groups: Groups, entry: FromGroup, made: int, place: Span) -> tuple[Groups, int]:
    """``groups`` without what a piece ``made`` so often takes up, and how many stitches that is."""
    if len(entry.names) not in (1, made):
        raise fail(
            "piece.group-copies",
            f"the piece is made {times(made)}, and {len(entry.names)} groups are named for it",
            f"Name one for each time that it is made, or write `make: {len(entry.names)}`",
            place,
        )
    copies = made // len(entry.names)
    taken: list[Waiting] = []
    for name in entry.names:
        group = group_of(groups, name)
        if group is None or not group.copies:
            raise PatternError([not_waiting(groups, name, place)])
        if group.copies < copies:
            raise PatternError([too_few(group, copies, made, place)])
        taken.append(group)
        groups = without(groups, name, copies, place)
    unlike = next((each for each in taken if each.stitches != taken[0].stitches), None)
    if unlike is not None:
        first = taken[0]
        raise fail(
            "piece.group-unlike",
            f"{how_many(first.stitches, 'stitch')} {verb(first.stitches, 'waits', 'wait')} for "
            f"`{first.name}`, held in line {first.held.line}, and {unlike.stitches} for "
            f"`{unlike.name}`, held in line {unlike.held.line}",
            "Hold as many for each, or make two pieces of it",
            place,
        )
    return groups, taken[0].stitches


def _in_a_row(written: str) -> str:
    """How a row says the number that a step writes: a name in braces, a formula as a gap."""
    if written.isdigit() and int(written):
        return written
    return f"{{{written}}}" if written.isidentifier() else "…"


def _begins(step: _PickUp) -> Begun:
    detail = step.detail
    between = (part.stitches for part in detail.parts if part.new)
    new = tuple(map(sum, zip(detail.picked_up, *between, strict=True)))
    return Begun((detail.held, detail.picked_up), None, new)


def _techniques(step: _PickUp, flat: bool) -> tuple[str, ...]:
    names = [name for part in step.detail.parts for name in part.names]
    hand = any(word in name for name in names for word in ("thumb", "finger"))
    return ("held-thumb",) if hand or not names else ()


def _facts(measures: Measures, step: _PickUp, keys: Keys) -> Facts:
    return {
        **yarn_facts(measures, step, keys),
        (What.HELD, ""): per_size(measures, step.detail.held),
        (What.GROUPS, ""): {"": str(step.step.held.written)} if step.detail.parts else {},
        (What.PICKED_UP, ""): per_size(measures, step.detail.picked_up),
    }


KIND = Kind(
    PickUpStep,
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
        tools=nothing.tools,
        techniques=_techniques,
        facts=_facts,
        stops=nothing.stops,
        heading=nothing.heading,
        idle=True,
        hand=Hand.OWN,
    ),
)
