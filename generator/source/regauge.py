"""Another gauge in the place of the written one, as if the source had said it."""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from generator.diagnostics import Diagnostic, PatternError, Severity
from generator.source import models
from generator.source.lengths import parse_figure, parse_length
from generator.source.read import Source
from generator.source.yamltree import Path

SMALLEST_MM = 0.2
LARGEST_MM = 200.0
"""Limits of one stitch's width and one round's height: far beyond what anybody knits."""

FORM = "STITCHES x ROUNDS / LENGTH, as in 22.5 x 30 / 10 cm"

_TIMES = re.compile(r"[x×]", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class StatedGauge:
    """Stitches and rounds over 10 cm.

    ``of`` is the size or the gauge of ``gauges:`` that it belongs to, empty for the main gauge.
    """

    stitches: float
    rounds: float
    of: str = ""


def parse_gauge(text: str) -> StatedGauge:
    """``22 x 30 / 10 cm``, or ``S = 22 x 30 / 10 cm`` for one size or named gauge.

    Raises ``ValueError``, saying what is wrong, for anything else.
    """
    of, equals, body = text.rpartition("=")
    if equals and not of.strip():
        raise ValueError(f"`{text.strip()}` names no size before `=`")
    counts, slash, over = body.rpartition("/")
    figures = _TIMES.split(counts)
    if not slash or len(figures) != 2 or not all(figure.strip() for figure in figures):
        raise ValueError(f"`{text.strip()}` is not a gauge; write {FORM}")
    length_mm = _length(over)
    stitches, rounds = (_count(figure, length_mm) for figure in figures)
    return StatedGauge(stitches, rounds, of.strip())


def parse_gauges(texts: Iterable[str]) -> tuple[StatedGauge, ...]:
    """All of ``texts``; raises ``ValueError`` as ``parse_gauge``, and if two are of the same."""
    found: dict[str, StatedGauge] = {}
    for text in texts:
        stated = parse_gauge(text)
        if stated.of in found:
            what = f"`{stated.of}`" if stated.of else "the whole pattern"
            raise ValueError(f"two gauges are given for {what}")
        found[stated.of] = stated
    return tuple(found.values())


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
    main = by_name.get("")
    sizes = {
        name: size.model_copy(update={"gauge": _gauge(by_name[name], size.gauge or pattern.gauge)})
        if name in by_name
        else size
        for name, size in pattern.sizes.items()
    }
    gauges = {
        name: _gauge(by_name[name], gauge) if name in by_name and name not in sizes else gauge
        for name, gauge in pattern.gauges.items()
    }
    update: Mapping[str, object] = {
        "gauge": _gauge(main, pattern.gauge) if main else pattern.gauge,
        "sizes": sizes,
        "gauges": gauges,
    }
    again = replace(source, pattern=pattern.model_copy(update=update))
    return again, tuple(_notes(source, by_name))


def gauge_path(source: Source, of: str) -> Path:
    """Where the gauge of a size, a named gauge, or the main one (``""``) is written."""
    if not of:
        return ("gauge",)
    return ("sizes", of, "gauge") if of in source.pattern.sizes else ("gauges", of)


def _length(text: str) -> float:
    try:
        length_mm = parse_length(text)
    except PatternError as error:
        finding = error.findings[0]
        raise ValueError(f"{finding.message}; {_lowered(finding.help)}") from None
    if length_mm <= 0:
        raise ValueError(f"a gauge is counted over a length above 0, not {text.strip()}")
    return length_mm


def _count(text: str, length_mm: float) -> float:
    figure = parse_figure(text.strip())
    if figure is None:
        raise ValueError(f"`{text.strip()}` is not a number of stitches or rounds; write {FORM}")
    if figure == 0 or not SMALLEST_MM <= length_mm / float(figure) <= LARGEST_MM:
        raise ValueError(
            f"nobody knits {text.strip()} stitches or rounds over {length_mm / 10:g} cm"
        )
    return float(figure * 100) / length_mm


def _lowered(words: str) -> str:
    return words[:1].lower() + words[1:]


def _gauge(stated: StatedGauge, written: models.Gauge) -> models.Gauge:
    return models.Gauge(
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
        source.span("sizes", key=True),
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
                source.span(*gauge_path(source, name), key=True),
                Severity.NOTE,
            )
    for name in by_name:
        size = pattern.sizes.get(name)
        written = (size.gauge if size else pattern.gauges.get(name)) or pattern.gauge
        if written.tool:
            path = gauge_path(source, name)
            yield Diagnostic(
                "regauge.tool",
                f"`{written.tool}` is still named as the tool, and belongs to the gauge as written",
                "Find out with a swatch which tool gives the other gauge, and name it here",
                source.span(*path, "tool"),
                Severity.NOTE,
            )
