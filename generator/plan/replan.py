"""A pattern planned at another gauge, and what stands against that gauge."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from generator.diagnostics import Diagnostic, PatternError, Severity, Span
from generator.plan.gauge import Gauge, round_to
from generator.plan.measures import Measures, measure_pattern
from generator.plan.persize import named, together
from generator.plan.picture import piece_gauges
from generator.plan.plan import Plan, make_plan
from generator.plan.sizing import Sizing, sizings
from generator.source.models import ChartStep
from generator.source.read import Source
from generator.source.regauge import gauge_path, regauge
from generator.source.statedgauge import StatedGauge

ASPECT_LIMIT = 0.05
"""How much a stitch may change its proportions before a picture looks different; common practice,
no source."""

NEAREST_PERCENT = 25
"""How far from a gauge that can't be made one is looked for that can."""


def replan(source: Source, stated: Sequence[StatedGauge]) -> tuple[Plan, tuple[Diagnostic, ...]]:
    """The plan at the gauges that are stated, with notes on gauges that stay as written and
    warnings on pictures that come out taller or lower (``regauge.proportions``).

    Raises:
        PatternError: as ``regauge`` and ``make_plan``; with it ``regauge.nearest``, the nearest
            gauge at which the pattern can be made.
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
        for key, piece in source.pattern.pieces.items()
        if piece.picture and finding.span == source.span("pieces", key, "picture", "chart")
        for size, rounds, needed in zip(
            source.sizes, _seen(measures, key), _needed(measures, key), strict=True
        )
        if rounds >= needed
    ]
    if not fitting:
        return replace(finding, help=f"{finding.help}; it fits in no size at this gauge")
    return replace(finding, help=f"{finding.help}; at this gauge it fits in {named(fitting)}")


def _seen(measures: Measures, key: str) -> list[float]:
    """Rounds of a tube that are seen, per size."""
    gauges = piece_gauges(measures, measures.source.pattern.pieces[key])
    visible = measures.lengths("pieces", key, "tube", "visible")
    return [gauge.rounds_for(mm).rounded for gauge, mm in zip(gauges, visible, strict=True)]


def _needed(measures: Measures, key: str) -> list[int]:
    """Rounds that a picture and what is below it take, per size."""
    picture = measures.source.pattern.pieces[key].picture
    assert picture is not None
    height = measures.source.grids[picture.chart].height
    if "start" not in picture.model_fields_set:
        return [height] * len(measures.sizes)
    return [height + start for start in measures.counts("pieces", key, "picture", "start")]


def _nearest(source: Source, stated: Sequence[StatedGauge]) -> Iterator[Diagnostic]:
    """The nearest gauge with the same stitches, or else with the same rounds, that can be made."""
    for what in ("rounds", "stitches"):
        for percent in range(1, NEAREST_PERCENT + 1):
            for factor in (1 + percent / 100, 1 - percent / 100):
                tried = [_scaled(each, what, factor) for each in stated]
                if _can_be_made(source, tried):
                    said = " ".join(f"`--gauge '{_option(each)}'`" for each in tried)
                    yield Diagnostic(
                        "regauge.nearest",
                        f"the nearest gauge that can be made has other {what}: {said}",
                        "Try it, or change what does not fit",
                        source.span(*gauge_path(source, stated[0].of), key=True),
                        Severity.NOTE,
                    )
                    return


def _scaled(stated: StatedGauge, what: str, factor: float) -> StatedGauge:
    if what == "rounds":
        return replace(stated, rounds=round(stated.rounds * factor, 1))
    return replace(stated, stitches=round(stated.stitches * factor, 1))


def _option(stated: StatedGauge) -> str:
    of = f"{stated.of} = " if stated.of else ""
    return f"{of}{stated.stitches:.4g} x {stated.rounds:.4g} / 10 cm"


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
        for chart, place in _charted(source, key):
            found = [
                (now.name, _changed_aspect(source, chart, was.gauges[gauge], now.gauges[gauge]))
                for was, now in zip(before, plan.measures.sizes, strict=True)
            ]
            changed = [(size, (message, help)) for size, (message, help) in found if message]
            same = [size for size, (message, _) in found if not message]
            stays = f"; it stays as it was in {named(same)}" if same else ""
            yield from together(
                (
                    (
                        size,
                        Diagnostic(
                            "regauge.proportions", message, help + stays, place, Severity.WARNING
                        ),
                    )
                    for size, (message, help) in changed
                ),
                source.sizes,
            )


def _charted(source: Source, key: str) -> Iterator[tuple[str, Span]]:
    """The charts of a piece, each with the first place that names it."""
    piece = source.pattern.pieces[key]
    seen: set[str] = set()
    if piece.picture:
        seen.add(piece.picture.chart)
        yield piece.picture.chart, source.span("pieces", key, "picture", "chart")
    for index, step in enumerate(piece.steps):
        if isinstance(step, ChartStep) and step.chart not in seen:
            seen.add(step.chart)
            yield step.chart, source.span("pieces", key, "steps", index, "chart")


def _changed_aspect(source: Source, chart: str, was: Gauge, now: Gauge) -> tuple[str, str]:
    """How a chart's proportions change and what would keep them; empty where they hardly do."""
    taller = was.aspect / now.aspect
    if abs(taller - 1) <= ASPECT_LIMIT:
        return "", ""
    percent = round(abs(taller - 1) * 100)
    rounds = now.stitches_per() * was.aspect
    height = source.grids[chart].height
    redrawn = max(1, round_to(height / taller))
    return (
        f"`{chart}` comes out {percent} % {'taller' if taller > 1 else 'lower'} for its width "
        "than at the gauge it was drawn for",
        f"With {now.stitches_per():.3g} stitches, {rounds:.3g} rounds over 10 cm keep its "
        f"proportions; or draw it {redrawn} rounds high instead of {height}",
    )
