"""A crocheted edge along a length of the piece."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import accumulate

from bindoff.craft.fabric import EDGE_TIMES
from bindoff.diagnostics import Diagnostic, fail
from bindoff.english import how_many
from bindoff.plan.bench import Bench, Outcome, State, States, no_rounds
from bindoff.plan.differences.matching import Keys
from bindoff.plan.differences.rowfacts import count_facts, row_facts
from bindoff.plan.differences.said import Facts, What
from bindoff.plan.differences.values import fine, per_size
from bindoff.plan.measures import Measures
from bindoff.plan.rowcount import Counted, LiveStitches, RowMismatch
from bindoff.plan.steps import nothing
from bindoff.plan.steps.common import HOOK, yarn_facts
from bindoff.plan.steps.kind import Kind
from bindoff.plan.values import Kind as Unit
from bindoff.plan.worked import Answers, Hand, WorkedStep
from bindoff.plan.yarn import Purpose, edging_yarn
from bindoff.records import Record, replace
from bindoff.source.formula import Quantity
from bindoff.source.rowlang.syntax import (
    Base,
    Group,
    Hooked,
    InCorner,
    IntoOne,
    Repeat,
    Row,
    Work,
    value_of,
)
from bindoff.source.rowlang.syntax import Part as RowPart
from bindoff.source.rowlang.uses import bases_of, ids_used
from bindoff.source.steps.edging import EdgingStep


class Edged(Record):
    """A crocheted edge: its rows and the length along it, in mm, per size.

    ``sides`` has the stitches of each side per size and ``counts`` the stitches after each row per
    size; both are empty where the sides are not given. ``around`` says that the last side meets the
    first.
    """

    rows: tuple[Row, ...]
    along: tuple[float, ...]
    sides: tuple[tuple[int, ...], ...] = ()
    counts: tuple[tuple[int, ...], ...] = ()
    around: bool = False


_Edging = WorkedStep[EdgingStep, Edged]


def _work(bench: Bench, index: int, step: EdgingStep, yarn: str, states: States) -> Outcome[Edged]:
    rows = bench.rows(step.place.of("edging"))
    along = bench.measures.lengths(step.along)
    sides = tuple(bench.measures.counts(side, least=1) for side in step.sides)
    if step.around and not sides:
        raise fail(
            "edging.sides",
            "an edge all around has its corners between its sides, and none are given",
            "Write the stitches of each side under `sides:`, or take `around:` out",
            step.place.of("around").key_span,
        )
    counts = _edge_counts(bench, rows, sides, step.around)
    return Edged(rows, along, sides, counts, step.around), states, no_rounds(states)


def _edge_counts(
    bench: Bench, rows: tuple[Row, ...], sides: tuple[tuple[int, ...], ...], around: bool
) -> tuple[tuple[int, ...], ...]:
    """Stitches after each row of an edging, per size; corners lie between neighbouring sides, and
    all ``around`` between the last and the first one too."""
    counted: list[tuple[int, ...]] = []
    found: list[tuple[int, Diagnostic]] = []
    for size, lengths in enumerate(zip(*sides, strict=True)):
        corners = tuple(accumulate(lengths))
        markers = corners if around else corners[:-1]
        state = State(LiveStitches(corners[-1], left_markers=markers))
        numbers = bench.measures.numbers(size)
        live: list[int] = []
        spaces: int | None = None
        for row in rows:
            bases = bases_of(row.parts)
            if Base.SPACE in bases and len(bases) > 1:
                found.append((size, _mixed(row)))
                break
            if spaces is not None and Base.SPACE in bases:
                if spaces == 0:
                    found.append((size, _no_spaces(row)))
                    break
                state = replace(state, needle=LiveStitches(spaces))
            if around and _begins_in_corner(row.parts):
                state = replace(state, needle=_from_corner(state.needle))
            try:
                done = bench.count(row, state, numbers)
            except RowMismatch as error:
                misfit = bench.misfit(error, row.span, size, state)
                found.append((size, _of_corners(misfit, len(sides), around)))
                break
            needle = LiveStitches(done.live, left_markers=done.markers[: len(markers)])
            state = replace(state, needle=needle, rounds=state.rounds + 1)
            live.append(done.live)
            spaces = chain_spaces(row, done, numbers)
        counted.append(tuple(live))
    bench.refuse(found)
    return tuple(zip(*counted, strict=True))


def _begins_in_corner(parts: Sequence[RowPart]) -> bool:
    """Whether what is worked first stands in a corner; a chain before it turns the work."""
    match parts:
        case (Work(stitch="ch"), *rest):
            return _begins_in_corner(rest)
        case (Group() | Repeat() as several, *_):
            return _begins_in_corner(several.parts)
        case (Hooked(where=InCorner()), *_):
            return True
        case _:
            return False


def _from_corner(needle: LiveStitches) -> LiveStitches:
    """The same where a row begins in the corner at its end, which it meets there once more."""
    markers = needle.left_markers
    if markers[-1:] != (needle.left,):
        return needle
    return LiveStitches(needle.left, left_markers=(0, *markers))


def _of_corners(found: Diagnostic, sides: int, around: bool) -> Diagnostic:
    """What is found about a marker, said of the corners that markers stand for here."""
    if not found.id.endswith("-marker"):
        return found
    said = found.message.replace("marker", "corner")
    help_ = "Check the stitches of each side under `sides:`, or the row"
    if found.id == "row.no-marker":
        there = f"An edge {'all around' if around else 'along'} {how_many(sides, 'side')} has "
        there += how_many(sides if around else sides - 1, "corner")
        out = "take this one out of the row"
        closed = f"write `around: true` if it ends in the corner where it began, or {out}"
        help_ = f"{there}: {out if around else closed}"
    return replace(found, message=said, help=help_)


def _no_spaces(row: Row) -> Diagnostic:
    return Diagnostic(
        "row.chain-space",
        "the row works into chain spaces, and the row before it makes none",
        "Put chains between the stitches of the row before, or work into its stitches",
        row.span,
    )


def _mixed(row: Row) -> Diagnostic:
    return Diagnostic(
        "row.chain-space",
        "the row works into chain spaces and into other places, which can't be counted together",
        "Work a row into chain spaces only, or declare what is worked as a stitch of your own",
        row.span,
    )


def chain_spaces(row: Row, done: Counted, numbers: Mapping[str, int]) -> int:
    """How many chains a row makes between its stitches, each with a space under it."""
    repeats = iter(done.repeats)
    found = 0
    for place, part in enumerate(row.parts):
        if isinstance(part, Repeat):
            found += next(repeats) * _chains(part.parts, numbers)
        elif place:  # a chain at the start turns the work
            found += _chains((part,), numbers)
    return found


def _chains(parts: Iterable[RowPart], numbers: Mapping[str, int]) -> int:
    found = 0
    for part in parts:
        if isinstance(part, Work) and part.stitch == "ch":
            found += 1
        elif isinstance(part, IntoOne):
            found += _chains(part.parts, numbers)
        elif isinstance(part, Group):
            times = part.times if isinstance(part.times, int) else value_of(part.times, numbers)
            found += (times or 0) * _chains(part.parts, numbers)
    return found


def _rows(step: _Edging) -> tuple[Row, ...]:
    return step.detail.rows


def _thread(step: _Edging, yarn: str, size: int) -> Mapping[Purpose, float]:
    if step.yarn != yarn:
        return {}
    tallest = [_tallest(row) for row in step.detail.rows]
    return {Purpose.EDGING: edging_yarn(step.detail.along[size], tallest)}


def _tallest(row: Row) -> str:
    """The crochet stitch of a row that takes most yarn; single crochet where none is named."""
    known = [stitch for stitch in _hooked(row.parts) if stitch in EDGE_TIMES]
    return max(known, key=EDGE_TIMES.__getitem__, default="sc")


def _hooked(parts: Iterable[RowPart]) -> Iterator[str]:
    for part in parts:
        if isinstance(part, Hooked):
            yield part.stitch
        elif isinstance(part, Group | Repeat):
            yield from _hooked(part.parts)


def _tools(step: _Edging) -> tuple[str, ...]:
    return (HOOK,)


def _techniques(step: _Edging, flat: bool) -> tuple[str, ...]:
    slipped = ids_used(step.detail.rows) == {"sl st"}
    return ("slip-stitch-edging" if slipped else "crochet-edging",)


def _facts(measures: Measures, step: _Edging, keys: Keys) -> Facts:
    lengths = [Quantity(fine(mm), Unit.LENGTH) for mm in step.detail.along]
    return {
        **yarn_facts(measures, step, keys),
        **row_facts(measures, What.ROW, step.detail.rows),
        (What.ALONG, ""): per_size(measures, lengths),
        **count_facts(measures, What.SIDE, step.detail.sides),
        **count_facts(measures, What.EDGED, step.detail.counts),
    }


KIND = Kind(
    EdgingStep,
    _work,
    Answers(
        rows=_rows,
        in_turn=False,
        charts=nothing.charts,
        tubes=nothing.tubes,
        pictures=nothing.pictures,
        begins=nothing.stitches,
        closes=nothing.stitches,
        thread=_thread,
        tools=_tools,
        techniques=_techniques,
        facts=_facts,
        stops=nothing.stops,
        heading=nothing.heading,
        idle=True,
        hand=Hand.ANY,
    ),
)
