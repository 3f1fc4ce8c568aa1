"""What a formula of one size may refer to: its gauges, its body, its helpers."""

from collections.abc import Mapping

from bindoff.craft.bodies import Body, body_names
from bindoff.craft.bodies import body as standard_body
from bindoff.diagnostics import Diagnostic, PatternError, closest, fail, written_as
from bindoff.plan.gauge import Gauge
from bindoff.plan.helpers import helpers
from bindoff.plan.values import Kind
from bindoff.records import Record, replace
from bindoff.source.formula import Function, Quantity
from bindoff.source.gauge import Gauge as WrittenGauge
from bindoff.source.lengths import parse_length
from bindoff.source.read import Source
from bindoff.source.size import Size
from bindoff.source.statedgauge import LARGEST_MM, SMALLEST_MM
from bindoff.source.yamltree import Place


class Sizing(Record):
    """One size: gauges by name ("" is the main one), body in mm, what formulas may name."""

    name: str
    gauges: Mapping[str, Gauge]
    body: Mapping[str, float]
    names: Mapping[str, Quantity]
    helpers: Mapping[str, Function]


def sizings(source: Source) -> tuple[Sizing, ...]:
    """Every size of ``source`` before its measures are evaluated.

    Raises:
        PatternError: with every body or gauge that can't be had.
    """
    made: list[Sizing] = []
    findings: list[Diagnostic] = []
    for name in source.sizes:
        try:
            made.append(_sizing(source, name))
        except PatternError as error:
            findings.extend(error.findings)
    if findings:
        raise PatternError(findings)
    return tuple(made)


def _sizing(source: Source, name: str) -> Sizing:
    pattern = source.pattern
    size = pattern.sizes[name]
    gauges = {"": _gauge(pattern.gauge)}
    if size.gauge:
        own = _gauge(size.gauge)
        told = "state" in size.gauge.model_fields_set
        gauges[""] = own if told else replace(own, state=pattern.gauge.state)
    for key, written in pattern.gauges.items():
        gauges[key] = _gauge(written)
    body = _body(size)
    names = {key.replace(" ", "_"): Quantity(mm, Kind.LENGTH) for key, mm in body.items()}
    needles = pattern.needles(name)
    if needles is not None:
        names["needles"] = Quantity(needles, Kind.STITCHES)
    return Sizing(name, gauges, body, names, helpers(gauges))


def _body(size: Size) -> dict[str, float]:
    """Body measurements in mm: those of the standard body it is like, then the size's own."""
    body: dict[str, float] = {}
    if size.like is not None:
        person = _person(size, size.like)
        body.update({figure.dimension.value: figure.mm for figure in person.figures})
    for key in size.body:
        body[key] = _length(key, size.place_of(key))
    return body


def _person(size: Size, like: str) -> Body:
    try:
        return standard_body(like)
    except ValueError:
        known = ", ".join(f"`{each}`" for each in body_names())
        close = closest(like, body_names())
        raise fail(
            "size.unknown-body",
            f"there is no standard body called `{like}`",
            (f"Write `{close}` if that is what you mean" if close else "Choose another")
            + f"; there are {known}",
            size.place.of("like").span,
            written_as(close),
        ) from None


def stated_gauge(source: Source, key: str) -> Gauge:
    """The gauge of that name as the pattern states it for all sizes, also where another stands for
    it now; empty is the main one."""
    pattern = source.pattern
    written = source.written_gauges or {"": pattern.gauge, **pattern.gauges}
    return _gauge(written[key])


def _gauge(written: WrittenGauge) -> Gauge:
    """The gauge as worked with; its stitches must be of a size that can be knitted."""
    gauge = _stated(written)
    for what, mm in (("wide", gauge.stitch_mm), ("high", gauge.round_mm)):
        if not SMALLEST_MM <= mm <= LARGEST_MM:
            raise fail(
                "gauge.beyond",
                f"with this gauge a stitch is {mm:g} mm {what}, which nobody knits",
                "Check the counts and the length they are counted over",
                written.place.key_span,
            )
    return gauge


def _stated(written: WrittenGauge) -> Gauge:
    if written.swatch is not None:
        swatch = written.swatch
        return Gauge.from_swatch(
            swatch.stitches,
            _length("width", swatch.place.of("width")),
            swatch.rounds,
            _length("height", swatch.place.of("height")),
            written.state,
        )
    assert written.stitches is not None
    assert written.rounds is not None
    given = "over" in written.model_fields_set
    over = _length("over", written.place.of("over")) if given else 100.0
    return Gauge.over(written.stitches, written.rounds, over, written.state)


def _length(name: str, place: Place) -> float:
    """The length written at ``place``, which must be above 0."""
    mm = parse_length(place.text, place.text_span)
    if mm <= 0:
        raise fail(
            "length.none",
            f"`{name}` must be a length above 0",
            "Write what you measured, as in `52 cm`",
            place.text_span,
        )
    return mm
