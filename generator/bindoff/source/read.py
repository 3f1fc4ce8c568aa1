"""Reads a pattern folder: the YAML, the grids it names, the photographs; checks that names meet."""

from collections.abc import Iterator, Mapping

from bindoff import regex as re
from bindoff.diagnostics import Diagnostic, PatternError, Span, fail, gathered
from bindoff.files import GRID_LIMIT, SOURCE_NAME, Files
from bindoff.records import replace
from bindoff.source.amount import refuse_count, refuse_names
from bindoff.source.bundle import Source as Source
from bindoff.source.chart import Chart
from bindoff.source.grid import MARK, Grid, read_grid
from bindoff.source.mirrorpieces import with_mirrors
from bindoff.source.placing import placed
from bindoff.source.references import unmet
from bindoff.source.validation import validate
from bindoff.source.yamltree import YamlTree, read_yaml
from bindoff.source.yamlvalues import Located

PHOTO_LIMIT = 20_000_000
MOST_CHARTS = 200
MOST_STITCHES = 80_000
"""Stitches of all charts together, a third more than the largest chart has: to build so many takes
about five seconds."""

MOST_TEXT = 60_000
"""Characters of all texts and values together: some twenty printed pages, built in seconds."""

MOST_LOOPING = 40
"""Texts with loops, each of which may grow to the length of the longest text."""

_LOOP = re.compile(r"\{%[-+]?\s*for\b")


def read_source(files: Files, name: str = SOURCE_NAME, called: str = "pattern") -> Source:
    """The pattern whose source is the file ``name``; ``called`` is what its outputs are called.

    Raises:
        PatternError: with every fault found at the first stage that finds any: unreadable files,
            YAML, models, then names that don't meet (a yarn, chart or size that isn't there).
    """
    tree = read_yaml(files.read_text(name), files.display(name))
    pattern, faults = placed(validate(tree), tree.at(()))
    pattern, unlike = with_mirrors(pattern)
    grids = dict[str, tuple[Grid, ...]]()
    for key, chart in pattern.charts.items():
        grids[key] = _read_grids(files, chart, tuple(pattern.sizes))
        _refuse_large(grids, chart.place.key_span)
    photos = tuple(
        files.read_bytes(photo.file, limit=PHOTO_LIMIT, named_at=photo.place.of("file").span)
        for photo in pattern.photos
    )
    source = Source(called, pattern, grids, photos)
    findings = (*_too_long(tree), *gathered([*unmet(source), *faults, *unlike]))
    if findings:
        raise PatternError(findings)
    return source


def _too_long(tree: YamlTree) -> Iterator[Diagnostic]:
    """A finding where all that is written in the source is more than a pattern can be."""
    texts = list(_texts(tree.root))
    characters = sum(len(each.text or "") for each in texts)
    looping = [each for each in texts if _LOOP.search(each.text or "")]
    if characters > MOST_TEXT:
        yield Diagnostic(
            "source.long",
            f"all texts and values come to {characters:,} characters, and a pattern has at most "
            f"{MOST_TEXT:,}",
            "Say it in fewer words, or part it into several patterns",
            tree.root.span,
        )
    if len(looping) > MOST_LOOPING:
        yield Diagnostic(
            "source.long",
            f"{len(looping)} texts have loops, and a pattern has at most {MOST_LOOPING} of these",
            "Write such texts into the `templates` of the pattern, or without `{% for %}`",
            looping[MOST_LOOPING].span,
        )


def _texts(node: Located) -> Iterator[Located]:
    """Every text and value."""
    if node.text is not None:
        yield node
    for child in node.children.values():
        yield from _texts(child)


def _refuse_large(grids: Mapping[str, tuple[Grid, ...]], place: Span) -> None:
    """Raises ``PatternError`` when all charts together are larger than can be printed."""
    each = [grid for of_sizes in grids.values() for grid in dict.fromkeys(of_sizes)]
    stitches = sum(grid.width * grid.height for grid in each)
    if stitches > MOST_STITCHES or len(each) > MOST_CHARTS:
        raise fail(
            "grid.too-large",
            f"the charts up to this one are {len(each)}, with {stitches:,} stitches in all",
            f"Keep within {MOST_CHARTS} charts and {MOST_STITCHES:,} stitches: leave out charts "
            "that no step works, or part the pattern",
            place,
        )


def _read_grids(files: Files, chart: Chart, sizes: tuple[str, ...]) -> tuple[Grid, ...]:
    """The grid of every size; a file that sizes share is read once."""
    place = chart.place.of("grid")
    match chart.grid:
        case str() as name:
            return (_read_grid(files, chart, name, place.span),) * len(sizes)
        case dict():
            refuse_names(chart.grid, place, sizes)
            named = {chart.grid[size]: place.of(size).span for size in reversed(sizes)}
            names = [chart.grid[size] for size in sizes]
        case _:
            refuse_count(len(chart.grid), place, sizes)
            named = {each: place.of(at).span for at, each in reversed([*enumerate(chart.grid)])}
            names = list(chart.grid)
    read = {name: _read_grid(files, chart, name, named[name]) for name in dict.fromkeys(names)}
    return tuple(read[name] for name in names)


def _read_grid(files: Files, chart: Chart, name: str, named_at: Span) -> Grid:
    _refuse_kind(files, name, named_at)
    text = files.read_text(name, limit=GRID_LIMIT, named_at=named_at)
    grid = read_grid(text, files.display(name), marked=MARK not in chart.legend)
    drawn = _edged(grid, chart)
    if chart.rows == "all" and chart.mode != "mosaic":
        return drawn
    return replace(drawn, every=2, first=2 if chart.first_row == "wrong side" else 1)


_CONVERTED = {
    "from-sheet": ("a spreadsheet", (".csv", ".tsv", ".xlsx", ".xlsm", ".xls", ".ods")),
    "from-image": (
        "a picture",
        (".png", ".jpg", ".jpeg", ".webp", ".gif", ".tif", ".tiff", ".bmp"),
    ),
}
"""What makes a grid of files that are none: the command, what such a file is, and its endings."""


def _refuse_kind(files: Files, name: str, named_at: Span) -> None:
    """Raises ``PatternError`` where a spreadsheet or a picture is named as a grid."""
    for command, (what, endings) in _CONVERTED.items():
        if name.lower().endswith(endings):
            folder = files.display("").rstrip("/") or "."
            made = name.rpartition(".")[0] + ".grid"
            raise fail(
                "grid.kind",
                f"`{name}` is {what}, and a grid is a text file with one character for each stitch",
                f"Make one of it with `bindoff grid {command} {files.display(name)} --pattern "
                f"{folder}`, and write `grid: {made}`",
                named_at,
            )


def _edged(grid: Grid, chart: Chart) -> Grid:
    """The grid with the edge stitches that ``columns:`` says."""
    columns = chart.columns
    if columns is None:
        return grid
    place = chart.place.of("columns").span
    if sum(columns.sections) != grid.width:
        raise fail(
            "grid.columns",
            f"`columns:` makes {' + '.join(map(str, columns.sections))} = {sum(columns.sections)} "
            f"cells, but the grid is {grid.width} wide",
            "Correct the numbers, or the grid",
            place,
        )
    centre, twin = (0, 0) if columns.centre is None else (columns.centre, columns.repeat)
    if grid.marks and (grid.before, grid.after, grid.centre) != (
        columns.before,
        columns.after,
        centre,
    ):
        raise fail(
            "grid.columns",
            f"the marks in the grid say {grid.before} before and {grid.after} after the repeat, "
            f"and `columns:` says {columns.before} and {columns.after}",
            "Take out one of the two",
            place,
        )
    return replace(grid, before=columns.before, after=columns.after, centre=centre, twin=twin)
