"""Another gauge in the place of the written one, as if the source had said it."""

from collections.abc import Iterable, Iterator, Mapping

from bindoff.diagnostics import Diagnostic, PatternError, Severity
from bindoff.records import replace
from bindoff.source.gauge import Gauge
from bindoff.source.read import Source
from bindoff.source.statedgauge import StatedGauge
from bindoff.source.yamltree import Place


def regauge(source: Source, stated: Iterable[StatedGauge]) -> tuple[Source, tuple[Diagnostic, ...]]:
    """``source`` with the gauges that are stated, and notes on those that stay as written.

    The main gauge stands for every size and piece that has none of its own, just as in the source;
    how it was worked, its state and its tool stay.

    Raises:
        PatternError: ``regauge.unknown`` for a gauge of what is no size and no named gauge.
    """
    changed = tuple(stated)
    findings = [_unknown(source, each) for each in changed if not _known(source, each)]
    if findings:
        raise PatternError(findings)
    pattern = source.pattern
    by_name = {each.of: each for each in changed}

    def gauge(of: str, written: Gauge) -> Gauge:
        return _gauge(by_name[of], written).at(gauge_place(source, of))

    sizes = {
        name: size.with_values({"gauge": gauge(name, size.gauge or pattern.gauge)})
        if name in by_name
        else size
        for name, size in pattern.sizes.items()
    }
    gauges = {
        name: gauge(name, written) if name in by_name and name not in sizes else written
        for name, written in pattern.gauges.items()
    }
    update: Mapping[str, object] = {
        "gauge": gauge("", pattern.gauge) if "" in by_name else pattern.gauge,
        "sizes": sizes,
        "gauges": gauges,
    }
    written = source.written_gauges or {"": pattern.gauge, **pattern.gauges}
    again = replace(source, pattern=pattern.with_values(update), written_gauges=written)
    return again, tuple(_notes(source, by_name))


def gauge_place(source: Source, of: str) -> Place:
    """Where the gauge of a size, a named gauge, or the main one (``""``) is written."""
    pattern = source.pattern
    if of in pattern.sizes:
        return pattern.sizes[of].place.of("gauge")
    return (pattern.gauges[of] if of else pattern.gauge).place


def _gauge(stated: StatedGauge, written: Gauge) -> Gauge:
    return Gauge(
        stitches=stated.stitches,
        rounds=stated.rounds,
        state=written.state,
        worked=written.worked,
        tool=written.tool,
    )


def _known(source: Source, stated: StatedGauge) -> bool:
    return stated.of in ("", *source.pattern.sizes, *source.pattern.gauges)


def _unknown(source: Source, stated: StatedGauge) -> Diagnostic:
    names = ", ".join(f"`{name}`" for name in (*source.pattern.sizes, *source.pattern.gauges))
    return Diagnostic(
        "regauge.unknown",
        f"a gauge is given for `{stated.of}`, which is no size and no gauge of this pattern",
        f"Write one of these before the `=`: {names}",
        source.pattern.place.of("sizes").key_span,
    )


def _notes(source: Source, by_name: Mapping[str, StatedGauge]) -> Iterator[Diagnostic]:
    """What a new main gauge leaves as it is, and the tools that belonged to the old gauges."""
    pattern = source.pattern
    if "" in by_name:
        own = [name for name, size in pattern.sizes.items() if size.gauge and name not in by_name]
        used = {piece.gauge for piece in pattern.pieces.values()}
        named = [name for name in pattern.gauges if name in used and name not in by_name]
        for name in (*own, *named):
            what = "size" if name in pattern.sizes else "gauge"
            yield Diagnostic(
                "regauge.kept",
                f"the {what} `{name}` keeps the gauge that is written for it",
                f"Give it one with `--gauge '{name} = …'` if it changes too",
                gauge_place(source, name).key_span,
                Severity.NOTE,
            )
    for name in by_name:
        size = pattern.sizes.get(name)
        written = (size.gauge if size else pattern.gauges.get(name)) or pattern.gauge
        if written.tool:
            yield Diagnostic(
                "regauge.tool",
                f"`{written.tool}` is still named as the tool, and belongs to the gauge as written",
                "Find out with a swatch which tool gives the other gauge, and name it here",
                gauge_place(source, name).of("tool").span,
                Severity.NOTE,
            )
