"""A source narrowed to one size, as if its designer had written that size alone.

Every value keeps its place in the file, so what is found in it still points at the line.
"""

from collections.abc import Mapping
from types import MappingProxyType

from bindoff.diagnostics import fail
from bindoff.records import replace
from bindoff.source.bundle import Source
from bindoff.source.placing import with_amounts


def one_size(
    source: Source, size: str, crown_starts: Mapping[tuple[str, int], int] = MappingProxyType({})
) -> Source:
    """``source`` with nothing but ``size``: lists and mappings of amounts become its own value.

    ``crown_starts`` are those of the whole pattern, as ``Source`` has them.

    Raises:
        PatternError: ``command.no-size`` when the pattern has no such size.
    """
    if size not in source.sizes:
        raise fail(
            "command.no-size",
            f"the pattern has no size `{size}`",
            "Choose one of these: " + ", ".join(f"`{each}`" for each in source.sizes),
            source.pattern.place.of("sizes").key_span,
        )
    index, pattern = source.sizes.index(size), source.pattern
    narrowed = with_amounts(pattern, lambda amount: amount.for_size(index, size))
    charts = {key: chart.for_size(index, size) for key, chart in pattern.charts.items()}
    narrowed = narrowed.with_values({"sizes": {size: pattern.sizes[size]}, "charts": charts})
    grids = {key: (each[index],) for key, each in source.grids.items()}
    return replace(source, pattern=narrowed, grids=grids, crown_starts=crown_starts)
