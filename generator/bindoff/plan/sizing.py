"""What a formula of one size may refer to: its gauges, its body, its helpers."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from difflib import get_close_matches

from bindoff.craft.bodies import Body, body_names
from bindoff.craft.bodies import body as standard_body
from bindoff.diagnostics import Diagnostic, PatternError, fail
from bindoff.plan.gauge import Gauge
from bindoff.plan.helpers import helpers
from bindoff.plan.values import Kind
from bindoff.source import models
from bindoff.source.formula import Function, Quantity
from bindoff.source.lengths import parse_length
from bindoff.source.read import Source
from bindoff.source.statedgauge import LARGEST_MM, SMALLEST_MM
from bindoff.source.yamltree import Path


@dataclass(frozen=True, slots=True)
class Sizing:
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
    gauges = {"": _gauge(source, ("gauge",), pattern.gauge)}
    if size.gauge:
        own = _gauge(source, ("sizes", name, "gauge"), size.gauge)
        told = "state" in size.gauge.model_fields_set
        gauges[""] = own if told else replace(own, state=pattern.gauge.state)
    for key, written in pattern.gauges.items():
        gauges[key] = _gauge(source, ("gauges", key), written)
    body = _body(source, name, size)
    names = {key.replace(" ", "_"): Quantity(mm, Kind.LENGTH) for key, mm in body.items()}
    if pattern.made.needles is not None:
        names["needles"] = Quantity(pattern.made.needles, Kind.STITCHES)
    return Sizing(name, gauges, body, names, helpers(gauges))


def _body(source: Source, name: str, size: models.Size) -> dict[str, float]:
    """Body measurements in mm: those of the standard body it is like, then the size's own."""
    body: dict[str, float] = {}
    if size.like is not None:
        person = _person(source, name, size.like)
        body.update({figure.dimension.value: figure.mm for figure in person.figures})
    for key in size.body:
        body[key] = _length(source, ("sizes", name, key))
    return body


def _person(source: Source, name: str, like: str) -> Body:
    try:
        return standard_body(like)
    except ValueError:
        known = ", ".join(f"`{each}`" for each in body_names())
        close = get_close_matches(like, body_names(), n=1)
        raise fail(
            "size.unknown-body",
            f"there is no standard body called `{like}`",
            (f"Write `{close[0]}` if that is what you mean" if close else "Choose another")
            + f"; there are {known}",
            source.span("sizes", name, "like"),
        ) from None


def stated_gauge(source: Source, key: str) -> Gauge:
    """The gauge of that name as the pattern states it for all sizes; empty is the main one."""
    pattern = source.pattern
    path: Path = ("gauges", key) if key else ("gauge",)
    return _gauge(source, path, pattern.gauges[key] if key else pattern.gauge)


def _gauge(source: Source, path: Path, written: models.Gauge) -> Gauge:
    """The gauge written at ``path``; its stitches must be of a size that can be knitted."""
    gauge = _stated(source, path, written)
    for what, mm in (("wide", gauge.stitch_mm), ("high", gauge.round_mm)):
        if not SMALLEST_MM <= mm <= LARGEST_MM:
            raise fail(
                "gauge.beyond",
                f"with this gauge a stitch is {mm:g} mm {what}, which nobody knits",
                "Check the counts and the length they are counted over",
                source.span(*path, key=True),
            )
    return gauge


def _stated(source: Source, path: Path, written: models.Gauge) -> Gauge:
    if written.swatch is not None:
        swatch = written.swatch
        return Gauge.from_swatch(
            swatch.stitches,
            _length(source, (*path, "swatch", "width")),
            swatch.rounds,
            _length(source, (*path, "swatch", "height")),
            written.state,
        )
    assert written.stitches is not None
    assert written.rounds is not None
    over = _length(source, (*path, "over")) if "over" in written.model_fields_set else 100.0
    return Gauge.over(written.stitches, written.rounds, over, written.state)


def _length(source: Source, path: Path) -> float:
    """The length written at ``path``, which must be above 0."""
    place = source.tree.text_span(path)
    mm = parse_length(source.tree.text(path), place)
    if mm <= 0:
        raise fail(
            "length.none",
            f"`{path[-1]}` must be a length above 0",
            "Write what you measured, as in `52 cm`",
            place,
        )
    return mm
