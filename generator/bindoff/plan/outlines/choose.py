"""Which outline a piece has, by what its rows do."""

from collections.abc import Sequence

from bindoff.diagnostics import PatternError, fail
from bindoff.plan.measures import Measures
from bindoff.plan.outlines.given import given_outline
from bindoff.plan.outlines.hand import hand, hand_of
from bindoff.plan.outlines.plain import flat, tube
from bindoff.plan.outlines.runs import Run, runs_of
from bindoff.plan.outlines.shapes import Measured, Outline, flipped
from bindoff.plan.outlines.shawl import is_shawl, shawl
from bindoff.plan.outlines.sock import sock, sock_of
from bindoff.plan.outlines.yoke import garment_of, yoked
from bindoff.plan.picture import piece_gauges
from bindoff.plan.tube import above_the_tie
from bindoff.plan.worked import PiecePlan
from bindoff.records import Record, replace
from bindoff.remembered import once_each
from bindoff.source.shape import GivenShape, RowsShape


class Dimension(Record):
    """A measure of an outline in every size: its name, lengths in mm, and where it is drawn.

    ``key`` and ``written`` are those of the source, where it states the length.
    """

    name: str
    mm: tuple[float, ...]
    drawn: Measured
    key: str = ""
    written: str = ""


Found = tuple[Outline, tuple[Dimension, ...]]
"""The outline of the middle size, and what is measured on it in all."""


@once_each
def outline_of(measures: Measures, pieces: Sequence[PiecePlan], key: str) -> Found:
    """The outline of a piece, as its ``schematic`` asks for it.

    Raises:
        PatternError: ``schematic.rows`` where the piece has no rows that it could follow from;
            ``schematic.size`` for stated lengths that no piece has.
    """
    shape = measures.source.pattern.pieces[key].schematic
    assert shape is not None
    try:
        if isinstance(shape, RowsShape):
            return _from_rows(measures, pieces, key)
        return _as_given(measures, shape, _tufts(measures, pieces, key))
    except PatternError as error:
        place = shape.place.span
        raise PatternError(replace(each, span=place) for each in error.findings) from None


def _tufts(measures: Measures, pieces: Sequence[PiecePlan], key: str) -> tuple[float, ...]:
    """How far the ends of a piece's tubes stand above a tie, in whole rounds; empty without one."""
    plan = next((each for each in pieces if each.key == key), None)
    tubes = next((step.tubes for step in plan.steps if step.tubes), ()) if plan else ()
    gauges = piece_gauges(measures, measures.source.pattern.pieces[key])[: len(tubes)]
    tufts = (above_the_tie(each.tube, gauge) for each, gauge in zip(tubes, gauges, strict=True))
    found = tuple(tufts)
    return found if any(found) else ()


def _as_given(measures: Measures, shape: GivenShape, tufts: tuple[float, ...]) -> Found:
    stated = {key: measures.amount(amount).rounded for key, amount in shape.dimensions.items()}
    if "tuft" in stated and tufts:
        stated["tuft"] = tufts
    middle = len(measures.sizes) // 2
    outline = given_outline(shape, {key: mm[middle] for key, mm in stated.items()})
    written = {key: str(amount.written) for key, amount in shape.dimensions.items()}
    return outline, tuple(
        Dimension(each.name, stated[each.name], each, each.name, written[each.name])
        for each in outline.measures
    )


def _from_rows(measures: Measures, pieces: Sequence[PiecePlan], key: str) -> Found:
    mirrored = measures.source.pattern.pieces[key].mirror_of is not None
    by_piece = [runs_of(measures, piece) for piece in pieces]
    found = [
        _outline([run for runs in by_piece for run in runs[size]], key, mirrored)
        for size in range(len(measures.sizes))
    ]
    outlines = [outline for outline in found if outline is not None]
    if len(outlines) < len(found):
        raise fail(
            "schematic.rows",
            f"`{key}` has no rows from which an outline could follow",
            "Give its lengths: `schematic: {shape: tube, around: …, depth: …}`",
        )
    middle = outlines[len(outlines) // 2]
    dimensions = []
    for at, measured in enumerate(middle.measures):
        same = [_same(outline, middle, at) for outline in outlines]
        mm = [each.mm for each in same if each is not None]
        if len(mm) == len(outlines) and min(mm) > 0:
            dimensions.append(Dimension(measured.name, tuple(mm), measured))
    return middle, tuple(dimensions)


def _same(outline: Outline, middle: Outline, at: int) -> Measured | None:
    """The measure in another size: of the same name, and as often named before."""
    name = middle.measures[at].name
    number = sum(each.name == name for each in middle.measures[:at])
    named = [each for each in outline.measures if each.name == name]
    return named[number] if number < len(named) else None


def _outline(runs: Sequence[Run], key: str, mirrored: bool) -> Outline | None:
    """The outline that the ``runs`` of all pieces give to one. Flat pieces are mirrored by their
    rows; of a ``mirrored`` hand these don't show it."""
    own = [run for run in runs if run.piece == key]
    if not own:
        return None
    found = hand_of(runs, key)
    if found is not None:
        return flipped(hand(found)) if mirrored else hand(found)
    garment = garment_of(runs, key)
    if garment is not None:
        return yoked(garment)
    first = own[0]
    heeled = sock_of(first)
    if heeled is not None:
        return sock(heeled)
    if is_shawl(first):
        return shawl(first)
    return flat(first, own[1:]) if first.flat else tube(first, down=first.held)
