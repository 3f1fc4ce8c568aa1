"""The gauges of a pattern as fields: what is written, and another one written in its place."""

from collections.abc import Iterator
from typing import Any

from bindoff.desk.edits import Edit
from bindoff.diagnostics import Span
from bindoff.records import Record
from bindoff.source.bundle import Source
from bindoff.source.gauge import Gauge
from bindoff.source.lengths import parse_length
from bindoff.source.statedgauge import StatedGauge
from bindoff.source.yamltree import Place

_TEN_CM = 100.0


class Written(Record):
    """A gauge of the source: ``of`` is the size or named gauge that has it, empty for the main one.

    Stitches and rounds are counted over ``over``; of a measured swatch they are over 10 cm.
    """

    of: str
    stitches: str
    rounds: str
    over: str
    place: Place


def written(source: Source) -> Iterator[Written]:
    """Every gauge that the pattern states, the main one first."""
    pattern = source.pattern
    yield _written("", pattern.gauge)
    for name, gauge in pattern.gauges.items():
        yield _written(name, gauge)
    for name, size in pattern.sizes.items():
        if size.gauge is not None:
            yield _written(name, size.gauge)


def _written(of: str, gauge: Gauge) -> Written:
    if gauge.stitches is not None and gauge.rounds is not None:
        figures = (f"{gauge.stitches:.6g}", f"{gauge.rounds:.6g}", gauge.over)
    else:
        assert gauge.swatch is not None
        swatch = gauge.swatch
        stitches = swatch.stitches * _TEN_CM / parse_length(swatch.width)
        rounds = swatch.rounds * _TEN_CM / parse_length(swatch.height)
        figures = (f"{stitches:.3g}", f"{rounds:.3g}", "10 cm")
    return Written(of, *figures, gauge.place)


def gauge_data(source: Source) -> list[dict[str, Any]]:
    """The gauges as the page shows them."""
    return [
        {"of": each.of, "stitches": each.stitches, "rounds": each.rounds, "over": each.over}
        for each in written(source)
    ]


def written_in(source: Source, stated: tuple[StatedGauge, ...]) -> Iterator[Edit]:
    """The changes that write other gauges where the pattern has its own.

    A measured swatch is replaced: what nobody counted is no swatch. Raises ``PatternError`` with
    a length that can't be read.
    """
    by_name = {each.of: each for each in stated}
    for known in written(source):
        if known.of in by_name:
            yield from _edits(known, by_name[known.of])


def _edits(known: Written, stated: StatedGauge) -> Iterator[Edit]:
    share = parse_length(known.over) / _TEN_CM
    figures = {
        "stitches": f"{stated.stitches * share:.6g}",
        "rounds": f"{stated.rounds * share:.6g}",
    }
    children = known.place.node.children
    if "swatch" not in children:
        for key, figure in figures.items():
            if key in children and getattr(known, key) != figure:
                yield Edit(known.place.of(key).span, figure)
        return
    swatch = known.place.of("swatch")
    begin, whole = swatch.key_span, swatch.span
    flow = known.place.text.startswith("{")
    between = ", " if flow else "\n" + " " * (begin.column - 1)
    text = between.join(f"{name}: {figure}" for name, figure in figures.items())
    yield Edit(Span(begin.file, begin.line, begin.column, whole.end_line, whole.end_column), text)
