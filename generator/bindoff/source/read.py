"""Reads a pattern folder: the YAML, the grids it names, the photographs; checks that names meet."""

from collections.abc import Mapping

from bindoff.diagnostics import PatternError, Span, fail
from bindoff.files import GRID_LIMIT, SOURCE_NAME, Files
from bindoff.source.bundle import Source as Source
from bindoff.source.chart import Chart
from bindoff.source.grid import Grid, read_grid
from bindoff.source.meeting import unmet
from bindoff.source.placing import placed
from bindoff.source.validation import validate
from bindoff.source.yamltree import read_yaml

PHOTO_LIMIT = 20_000_000
MOST_CHARTS = 200
MOST_STITCHES = 200_000
"""Stitches of all charts together: they keep the longest build within a minute or so."""


def read_source(files: Files, name: str = SOURCE_NAME, called: str = "pattern") -> Source:
    """The pattern whose source is the file ``name``; ``called`` is what its outputs are called.

    Raises:
        PatternError: with every fault found at the first stage that finds any: unreadable files,
            YAML, models, then names that don't meet (a yarn, chart or size that isn't there).
    """
    tree = read_yaml(files.read_text(name), files.display(name))
    pattern, faults = placed(validate(tree), tree.at(()))
    grids = dict[str, Grid]()
    for key, chart in pattern.charts.items():
        grids[key] = _read_grid(files, chart)
        _refuse_large(grids, chart.place.key_span)
    photos = tuple(
        files.read_bytes(photo.file, limit=PHOTO_LIMIT, named_at=photo.place.of("file").span)
        for photo in pattern.photos
    )
    source = Source(called, pattern, grids, photos)
    findings = [*unmet(source), *faults]
    if findings:
        raise PatternError(findings)
    return source


def _refuse_large(grids: Mapping[str, Grid], place: Span) -> None:
    """Raises ``PatternError`` when all charts together are larger than can be printed."""
    stitches = sum(grid.width * grid.height for grid in grids.values())
    if stitches > MOST_STITCHES or len(grids) > MOST_CHARTS:
        raise fail(
            "grid.too-large",
            f"the charts up to this one are {len(grids)}, with {stitches:,} stitches in all",
            f"Keep within {MOST_CHARTS} charts and {MOST_STITCHES:,} stitches: leave out charts "
            "that no step works, or part the pattern",
            place,
        )


def _read_grid(files: Files, chart: Chart) -> Grid:
    text = files.read_text(chart.grid, limit=GRID_LIMIT, named_at=chart.place.of("grid").span)
    return read_grid(text, files.display(chart.grid))
