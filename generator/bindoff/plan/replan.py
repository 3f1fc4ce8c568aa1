"""A pattern planned at another gauge, and what stands against that gauge."""

from collections.abc import Iterator, Mapping, Sequence

from bindoff.diagnostics import Diagnostic, PatternError, Severity, Span
from bindoff.english import how_many
from bindoff.plan.gauge import Gauge, round_to
from bindoff.plan.measures import Measures, measure_pattern
from bindoff.plan.persize import named, together
from bindoff.plan.picture import piece_gauges
from bindoff.plan.plan import Plan, make_plan
from bindoff.plan.sizing import Sizing, sizings
from bindoff.plan.worked import PiecePlan
from bindoff.records import replace
from bindoff.source.piece import Piece
from bindoff.source.read import Source
from bindoff.source.regauge import gauge_place, regauge
from bindoff.source.statedgauge import StatedGauge

ASPECT_LIMIT = 0.05
"""How much a stitch may change its proportions before a picture looks different, to a tenth of a
percent; common practice, no source."""

NEAREST_PERCENT = 25
"""How far from a gauge that can't be made one is looked for that can."""


def replan(source: Source, stated: Sequence[StatedGauge]) -> tuple[Plan, tuple[Diagnostic, ...]]:
    """The plan at the gauges that are stated, with notes on gauges that stay as written and
    warnings on pictures that come out taller or lower (``regauge.proportions``).

    Raises:
        PatternError: as ``regauge`` and ``make_plan``; with it ``regauge.nearest``, a gauge
            nearby at which the pattern can be made.
    """
    if not stated:
        return make_plan(source), ()
    changed, notes = regauge(source, stated)
    try:
        plan = make_plan(changed)
    except PatternError as error:
        findings = [_with_sizes(changed, finding) for finding in error.findings]
        raise PatternError([*findings, *_nearest(source, stated)]) from None
    return plan, (*notes, *_proportions(sizings(source), plan))


def _with_sizes(source: Source, finding: Diagnostic) -> Diagnostic:
    """A picture that is too high, with the sizes in which it fits."""
    if finding.id != "picture.height":
        return finding
    measures = measure_pattern(source)
    fitting = [
        size
        for piece in source.pattern.pieces.values()
        if piece.picture and finding.span == piece.picture.place.of("chart").span
        for size in _fitting(measures, piece)
    ]
    if not fitting:
        return replace(finding, help=f"{finding.help}; it fits in no size at this gauge")
    return replace(finding, help=f"{finding.help}; at this gauge it fits in {named(fitting)}")


def _fitting(measures: Measures, piece: Piece) -> list[str]:
    """The sizes in which a picture is not too high."""
    seen, needed = _seen(measures, piece), _needed(measures, piece)
    names = measures.source.sizes
    return [name for name, has, takes in zip(names, seen, needed, strict=True) if has >= takes]


def _seen(measures: Measures, piece: Piece) -> list[float]:
    """Rounds of a tube that are seen, per size."""
    written = piece.tube and (piece.tube.visible or piece.tube.length)
    assert written
    gauges = piece_gauges(measures, piece)
    visible = measures.lengths(written)
    return [gauge.rounds_for(mm).rounded for gauge, mm in zip(gauges, visible, strict=True)]


def _needed(measures: Measures, piece: Piece) -> list[int]:
    """Rounds that a picture and what is below it take, per size."""
    assert piece.picture is not None
    grids = measures.source.grids[piece.picture.chart]
    starts = measures.counts(piece.picture.start)
    return [grid.height + start for grid, start in zip(grids, starts, strict=True)]


def _nearest(source: Source, stated: Sequence[StatedGauge]) -> Iterator[Diagnostic]:
    """A gauge that can be made: the first found in steps of a hundredth from the gauge that can't,
    with the same stitches, or else with the same rounds."""
    for what in ("rounds", "stitches"):
        for percent in range(1, NEAREST_PERCENT + 1):
            for factor in (1 + percent / 100, 1 - percent / 100):
                tried = [_scaled(each, what, factor) for each in stated]
                if _can_be_made(source, tried):
                    said = " ".join(f"`--gauge '{_option(each)}'`" for each in tried)
                    yield Diagnostic(
                        "regauge.nearest",
                        f"a gauge near it that can be made has other {what}: {said}",
                        "Try it, or change what does not fit",
                        gauge_place(source, stated[0].of).key_span,
                        Severity.NOTE,
                    )
                    return


def _scaled(stated: StatedGauge, what: str, factor: float) -> StatedGauge:
    """``stated`` with other rounds or stitches, in figures as ``_option`` writes them."""
    stitches, rounds = round(stated.stitches, 2), round(stated.rounds, 2)
    if what == "rounds":
        rounds = round(stated.rounds * factor, 1)
    else:
        stitches = round(stated.stitches * factor, 1)
    return replace(stated, stitches=stitches, rounds=rounds)


def _option(stated: StatedGauge) -> str:
    of = f"{stated.of} = " if stated.of else ""
    return f"{of}{stated.stitches:g} x {stated.rounds:g} / 10 cm"


def _can_be_made(source: Source, stated: Sequence[StatedGauge]) -> bool:
    try:
        make_plan(regauge(source, stated)[0])
    except PatternError:
        return False
    return True


def _proportions(before: Sequence[Sizing], plan: Plan) -> Iterator[Diagnostic]:
    """Charts and pictures whose stitches are no longer as wide for their height."""
    source = plan.source
    for key, piece in source.pattern.pieces.items():
        gauge = piece.gauge or ""
        for chart, place in _charted(piece, plan.piece(key)).items():
            found = [
                (now.name, _changed_aspect(source, chart, was.gauges[gauge], now.gauges[gauge]))
                for was, now in zip(before, plan.measures.sizes, strict=True)
            ]
            same = [size for size, changed in found if changed is None]
            stays = f"; it stays as it was in {named(same)}" if same else ""
            yield from together(
                (
                    (size, _disproportion(changed, stays, place))
                    for size, changed in found
                    if changed is not None
                ),
                source.sizes,
            )


def _charted(piece: Piece, plan: PiecePlan) -> Mapping[str, Span]:
    """The charts of a piece, each with the first place that names it."""
    found: dict[str, Span] = {}
    for chart, place in piece.pictured:
        found.setdefault(chart, place.span)
    for step in plan.steps:
        for worked in step.charts:
            found.setdefault(worked.chart, step.step.place.of("chart").span)
    return found


def _disproportion(changed: tuple[str, str], stays: str, place: Span) -> Diagnostic:
    message, help = changed
    return Diagnostic("regauge.proportions", message, help + stays, place, Severity.WARNING)


def _changed_aspect(source: Source, chart: str, was: Gauge, now: Gauge) -> tuple[str, str] | None:
    """How a chart's proportions change and what would keep them; ``None`` where they hardly do."""
    taller = was.aspect / now.aspect
    change = round(abs(taller - 1), 3)
    if change <= ASPECT_LIMIT:
        return None
    rounds = now.stitches_per() * was.aspect
    height = source.grids[chart][0].height
    redrawn = max(1, round_to(height / taller))
    high = how_many(redrawn, "round")
    redraw = f"; or draw it {high} high instead of {height}" if redrawn != height else ""
    return (
        f"`{chart}` comes out {round(change * 100)} % {'taller' if taller > 1 else 'lower'} for "
        "its width than at the gauge it was drawn for",
        f"With {now.stitches_per():.3g} stitches, {rounds:.3g} rounds over 10 cm keep its "
        f"proportions{redraw}",
    )
