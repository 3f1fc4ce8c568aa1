"""Motifs placed on a tube: where each lies in every size, and where rounds start so that none is
split.

Places around the tube are counted in stitches from the wearer's left side, as the maker knits: over
the front to the wearer's right side, and over the back home again. Stitches of a round are counted
so from where the round starts.
"""

from collections.abc import Iterator, Sequence
from itertools import combinations

from bindoff.diagnostics import Diagnostic, PatternError, Span
from bindoff.english import how_many
from bindoff.plan.gauge import Gauge
from bindoff.plan.measures import Measures
from bindoff.plan.persize import together
from bindoff.plan.tube import TubePart, TubeRounds, starting_at, usual_starts
from bindoff.plan.zones import rounds_away
from bindoff.records import Record
from bindoff.source.tube import Motif

Cells = tuple[tuple[str | None, ...], ...]
"""A yarn for each stitch, ``None`` for ground; bottom round first, each round left to right."""


class Placed(Record):
    """One motif on one size's tube: from round ``first``, and from stitch ``stitch`` on, its
    right-most one. ``place`` says where that is on the wearer. ``repeats`` of a row all around.
    """

    chart: str
    place: str
    first: int
    stitch: int
    cells: Cells
    written: Motif
    repeats: int = 1

    @property
    def last(self) -> int:
        """Its last round on the tube."""
        return self.first + len(self.cells) - 1

    @property
    def width(self) -> int:
        """Its stitches, those of all repeats together."""
        return len(self.cells[0])

    @property
    def last_stitch(self) -> int:
        """Its left-most stitch."""
        return self.stitch + self.width - 1

    def at(self, needles: int) -> Iterator[tuple[int, int, str]]:
        """Round, place in a round from its left, and yarn of every stitch that is not ground."""
        for round_, row in enumerate(self.cells, start=self.first):
            for column, yarn in enumerate(row):
                if yarn is not None:
                    yield round_, needles - self.last_stitch + column, yarn


def place_motifs(
    measures: Measures,
    motifs: Sequence[Motif],
    tubes: Sequence[TubeRounds],
    gauges: Sequence[Gauge],
    drawn: Sequence[Sequence[Cells]],
    start: str | None,
) -> tuple[tuple[TubeRounds, tuple[Placed, ...]], ...]:
    """Every size's tube, its rounds starting where no motif is split, with its motifs.

    ``drawn`` has the cells of each motif's chart in every size, and ``start`` is where the designer
    wants rounds to start.

    Raises:
        PatternError: ``motif.height`` and ``motif.width`` where one does not fit, ``motif.around``
            where repeats don't fill the round, ``motif.split`` where rounds can't start so that
            none is split, ``motif.overlap`` for two in one place.
    """
    findings: list[tuple[int, Diagnostic]] = []
    found: list[tuple[TubeRounds, tuple[Placed, ...]]] = []
    heights = [_heights(measures, motif, gauges) for motif in motifs]
    for size, (name, tube) in enumerate(zip(measures.source.sizes, tubes, strict=True)):
        loose: list[_Loose] = []
        for motif, grids, away in zip(motifs, drawn, heights, strict=True):
            if motif.sizes and name not in motif.sizes:
                continue
            cells = grids[size]
            fault = _misfit(motif, cells, tube, away[size])
            if fault is None:
                loose += _around(motif, cells, tube, _first(motif, cells, tube, away[size]))
            else:
                findings.append((size, fault))
        turned, fault = _start(loose, tube, start)
        if fault is not None:
            findings.append((size, fault))
        placed = tuple(each.on(turned) for each in loose)
        found.append((turned, placed))
        findings += ((size, each) for each in _overlaps(placed, tube.needles))
    if findings:
        names = measures.source.sizes
        raise PatternError(together(((names[size], each) for size, each in findings), names))
    return tuple(found)


class _Loose(Record):
    """A motif before it is known where rounds start: ``left`` is its first stitch, counted from the
    wearer's left side; ``None`` where it is counted from the start of the round."""

    written: Motif
    place: str
    first: int
    cells: Cells
    left: int | None
    stitch: int = 1
    repeats: int = 1

    def stitch_on(self, tube: TubeRounds) -> int:
        """Its first stitch in a round of the tube."""
        if self.left is None:
            return self.stitch
        return (self.left - tube.start) % tube.needles + 1

    def splits(self, tube: TubeRounds) -> bool:
        """Whether the start of the round runs through it."""
        return self.stitch_on(tube) + len(self.cells[0]) - 1 > tube.needles

    def on(self, tube: TubeRounds) -> Placed:
        """Where it lies on the tube."""
        return Placed(
            self.written.chart,
            self.place,
            self.first,
            self.stitch_on(tube),
            self.cells,
            self.written,
            self.repeats,
        )


# ---------------------------------------------------------------- up and down


def _heights(measures: Measures, motif: Motif, gauges: Sequence[Gauge]) -> tuple[int, ...]:
    """How many rounds lie between the motif and the edge that it is measured from, per size."""
    key, written = "above rim", motif.above_rim
    if motif.below_top is not None:
        key, written = "below top", motif.below_top
    if written is None:
        return (0,) * len(gauges)
    return rounds_away(measures, str(written), key, motif.place.of(key), gauges, bare=True)


_PARTS = {"body": TubePart.OUTER, "brim": TubePart.LINING_BRIM}


def _first(motif: Motif, cells: Cells, tube: TubeRounds, away: int) -> int:
    segment = tube.segment(_PARTS[motif.on])
    assert segment is not None
    if motif.below_top is not None:
        return segment.last - away - len(cells) + 1
    return segment.first + away


def _misfit(motif: Motif, cells: Cells, tube: TubeRounds, away: int) -> Diagnostic | None:
    """Why a motif does not fit a tube, if it does not."""
    segment = tube.segment(_PARTS[motif.on])
    room = 0 if segment is None else segment.last - segment.first + 1
    high, wide, place = len(cells), len(cells[0]), motif.place.of("chart").span
    if not room:
        return Diagnostic(
            "motif.height",
            "the motif lies on the brim, and the tube has no brim",
            "Say in `tube:` how deep the brim is, or take `on: brim` out",
            motif.place.of("on").span,
        )
    if high + away > room:
        where = "what is seen of the tube" if motif.on == "body" else "the brim"
        return Diagnostic(
            "motif.height",
            f"the motif takes {how_many(high, 'round')} after {away}, and {where} has "
            f"{how_many(room, 'round')}",
            "Move it nearer to the edge, draw it lower, or make the tube longer",
            place,
        )
    if wide > tube.needles:
        return Diagnostic(
            "motif.width",
            f"the motif is {how_many(wide, 'stitch')} wide, and the tube has {tube.needles}",
            "Draw it narrower, or give this size a chart of its own with `sizes:`",
            place,
        )
    unit = 2 * wide if motif.mirror else wide
    if motif.around and tube.needles % unit:
        what = "the motif and its mirror image are" if motif.mirror else "the motif is"
        return Diagnostic(
            "motif.around",
            f"{what} {how_many(unit, 'stitch')} wide, and {tube.needles} needles are no multiple "
            "of that",
            "Draw it in another width, or give this size a chart of its own with `sizes:`",
            place,
        )
    if isinstance(motif.at_, int) and not 1 <= motif.at_ <= tube.needles:
        return Diagnostic(
            "motif.stitch",
            f"there is no stitch {motif.at_} in a round of {tube.needles}",
            f"Write a stitch from 1 to {tube.needles}",
            motif.place.of("at").span,
        )
    return None


# ---------------------------------------------------------------- around


def _around(motif: Motif, cells: Cells, tube: TubeRounds, first: int) -> Iterator[_Loose]:
    """The motif at each place where it is wanted; of two, ``mirror`` turns the second."""
    turned = tuple(row[::-1] for row in cells)
    alone = turned if motif.mirror else cells
    if motif.around:
        unit = tuple(b + a for a, b in zip(cells, turned, strict=True)) if motif.mirror else cells
        times = tube.needles // len(unit[0])
        row = tuple(each * times for each in unit)
        yield _Loose(motif, "all around", first, row, None, repeats=tube.needles // len(cells[0]))
        return
    if isinstance(motif.at_, int):
        yield _Loose(motif, f"stitch {motif.at_}", first, alone, None, motif.at_)
        return
    wide, quarter = len(cells[0]), tube.needles / 4
    middles = {
        "front": (("front", quarter),),
        "back": (("back", 3 * quarter),),
        "left": (("left side", 0.0),),
        "right": (("right side", 2 * quarter),),
        "sides": (("left side", 0.0), ("right side", 2 * quarter)),
        "front and back": (("front", quarter), ("back", 3 * quarter)),
    }
    assert motif.at_ is not None
    wanted = middles[motif.at_]
    for number, (place, middle) in enumerate(wanted):
        shown = alone if number or len(wanted) == 1 else cells
        left = middle - wide / 2
        # A pair that can't stand at both sides to the stitch stands as far from the front's middle.
        exact = _half_down(left) if not number or motif.at_ != "sides" else -_half_down(-left)
        yield _Loose(motif, place, first, shown, exact % tube.needles)


def _half_down(number: float) -> int:
    """The nearest whole number; of two that are as near, the lower."""
    return -int(-(number - 0.5) // 1)


def _start(
    loose: Sequence[_Loose], tube: TubeRounds, wanted: str | None
) -> tuple[TubeRounds, Diagnostic | None]:
    """The tube with rounds starting as wanted; else on the wearer's left, at the middle of the
    back, on the right, or wherever else no motif is split, as far back as may be."""
    needles = tube.needles
    usual = usual_starts(tube)
    back = usual["back"]
    starts = [usual[wanted]] if wanted else list(usual.values())
    counted = any(each.left is None and each.repeats == 1 for each in loose)
    if not wanted and not counted:
        far = sorted(range(needles), key=lambda at: (abs(at - back), at))
        starts += [at for at in far if at not in starts]
    if counted and not wanted:
        starts = [0]
    for start in starts:
        turned = starting_at(tube, start)
        if not any(each.splits(turned) for each in loose):
            return turned, None
    turned = starting_at(tube, starts[0])
    split = next(each for each in loose if each.splits(turned))
    return turned, Diagnostic(
        "motif.split",
        f"the start of the round runs through the motif at the {split.place}"
        if split.left is not None
        else f"the motif begins at {split.place} and runs past the end of the round of "
        f"{needles} stitches",
        "Take `start of round:` out of the tube, which then starts where no motif is split, or "
        "place the motif elsewhere"
        if wanted
        else "Place a motif elsewhere, or draw it narrower",
        split.written.place.of("at").span,
    )


def _overlaps(placed: Sequence[Placed], needles: int) -> Iterator[Diagnostic]:
    """Two motifs of which one lies where the other does."""
    for one, other in combinations(placed, 2):
        rounds = range(max(one.first, other.first), min(one.last, other.last) + 1)
        stitches = range(max(one.stitch, other.stitch), min(one.last_stitch, other.last_stitch) + 1)
        if rounds and stitches:
            (first, where), (second, _) = sorted(
                ((each.written.place.of("chart").span, each) for each in (one, other)),
                key=lambda pair: _order(pair[0]),
            )
            yield Diagnostic(
                "motif.overlap",
                f"the motif lies where `{where.chart}` of line {first.line}, at the {where.place}, "
                f"does: both have stitch {stitches[0]} of round {rounds[0]}",
                "Move one of them, up or down or around the tube",
                second,
            )


def _order(span: Span | None) -> tuple[int, int]:
    return (span.line, span.column) if span else (0, 0)
