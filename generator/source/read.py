"""Reads a pattern folder: the YAML, the grids it names, the photographs; checks that names meet."""

from generator.diagnostics import PatternError, Span
from generator.files import GRID_LIMIT, SOURCE_NAME, Files
from generator.source.bundle import Source as Source
from generator.source.grid import Grid, read_grid
from generator.source.meeting import unmet
from generator.source.models import Chart
from generator.source.validation import validate
from generator.source.yamltree import read_yaml

PHOTO_LIMIT = 20_000_000


def read_source(files: Files, name: str = SOURCE_NAME, called: str = "pattern") -> Source:
    """The pattern whose source is the file ``name``; ``called`` is what its outputs are called.

    Raises:
        PatternError: with every fault found at the first stage that finds any: unreadable files,
            YAML, models, then names that don't meet (a yarn, chart or size that isn't there).
    """
    tree = read_yaml(files.read_text(name), files.display(name))
    pattern = validate(tree)
    grids = {
        key: _read_grid(files, chart, tree.span(("charts", key, "grid")))
        for key, chart in pattern.charts.items()
    }
    photos = tuple(
        files.read_bytes(
            photo.file, limit=PHOTO_LIMIT, named_at=tree.span(("photos", index, "file"))
        )
        for index, photo in enumerate(pattern.photos)
    )
    source = Source(called, pattern, tree, grids, photos)
    findings = list(unmet(source))
    if findings:
        raise PatternError(findings)
    return source


def _read_grid(files: Files, chart: Chart, named_at: Span) -> Grid:
    text = files.read_text(chart.grid, limit=GRID_LIMIT, named_at=named_at)
    return read_grid(text, files.display(chart.grid))
