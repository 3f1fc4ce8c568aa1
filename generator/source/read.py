"""Reads a pattern folder: the YAML, the grids it names, the photographs; checks that names meet."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from difflib import get_close_matches

from generator.diagnostics import Diagnostic, PatternError, Span
from generator.files import GRID_LIMIT, SOURCE_NAME, Files
from generator.source.grid import Grid, read_grid
from generator.source.models import CellMeaning, Chart, Pattern, Piece, Step
from generator.source.validation import validate
from generator.source.yamltree import Path, YamlTree, read_yaml

PHOTO_LIMIT = 20_000_000


@dataclass(frozen=True, slots=True)
class Source:
    """A valid pattern, its grids and photographs by key, and the places of all values.

    ``name`` is the stem of every file built from it.
    """

    name: str
    pattern: Pattern
    tree: YamlTree
    grids: Mapping[str, Grid]
    photos: tuple[bytes, ...]

    def span(self, *path: str | int, key: bool = False) -> Span:
        """The place of the value at ``path``, or of its key."""
        return self.tree.span(path, key)

    @property
    def sizes(self) -> tuple[str, ...]:
        """Size names in the pattern's order."""
        return tuple(self.pattern.sizes)


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
    findings = [*_names(source), *_legends(source), *_bodies(source)]
    if findings:
        raise PatternError(findings)
    return source


def _read_grid(files: Files, chart: Chart, named_at: Span) -> Grid:
    text = files.read_text(chart.grid, limit=GRID_LIMIT, named_at=named_at)
    return read_grid(text, files.display(chart.grid))


def _names(source: Source) -> Iterator[Diagnostic]:
    """Yarns, charts and gauges that a piece or step names and nobody declared."""
    pattern = source.pattern
    for key, piece in pattern.pieces.items():
        path: Path = ("pieces", key)
        yield from _known(source, (*path, "yarn"), piece.yarn, pattern.yarns, "yarn", "yarns")
        yield from _known(source, (*path, "gauge"), piece.gauge, pattern.gauges, "gauge", "gauges")
        if piece.picture:
            inner = (*path, "picture")
            yield from _known(
                source, (*inner, "chart"), piece.picture.chart, pattern.charts, "chart", "charts"
            )
            for name in ("ground", "above"):
                yarn = getattr(piece.picture, name)
                yield from _known(source, (*inner, name), yarn, pattern.yarns, "yarn", "yarns")
        for index, yarn in enumerate(piece.colour_plan.never_base):
            place = (*path, "colour plan", "never base", index)
            yield from _known(source, place, yarn, pattern.yarns, "yarn", "yarns")
        yield from _step_names(source, key, piece)


def _step_names(source: Source, key: str, piece: Piece) -> Iterator[Diagnostic]:
    pattern = source.pattern
    for index, step in enumerate(piece.steps):
        path: Path = ("pieces", key, "steps", index)
        yield from _known(source, (*path, "yarn"), step.yarn, pattern.yarns, "yarn", "yarns")
        chart = getattr(step, "chart", None)
        yield from _known(source, (*path, "chart"), chart, pattern.charts, "chart", "charts")
        if _needs_tube(step) and not (piece.tube and piece.picture):
            yield Diagnostic(
                "source.no-picture",
                "this step follows the colour plan, but the piece has no tube with a picture",
                f"Add `tube:` and `picture:` to the piece `{key}`, or take the step out",
                source.span(*path),
            )


def _needs_tube(step: Step) -> bool:
    return hasattr(step, "stripes") or hasattr(step, "embroider")


def _known(
    source: Source,
    path: Path,
    name: str | None,
    declared: Mapping[str, object],
    what: str,
    where: str,
) -> Iterator[Diagnostic]:
    if name is None or name in declared:
        return
    close = get_close_matches(name, declared, n=1)
    known = ", ".join(f"`{key}`" for key in declared) or "none"
    hint = f"Write `{close[0]}`, or add" if close else "Add"
    yield Diagnostic(
        f"source.unknown-{what}",
        f"there is no {what} called `{name}`",
        f"{hint} `{name}:` under `{where}:`; declared there: {known}",
        source.span(*path),
    )


def _legends(source: Source) -> Iterator[Diagnostic]:
    """Grid characters without a meaning, meanings without a yarn, legend keys of two letters."""
    yarns = source.pattern.yarns
    for key, chart in source.pattern.charts.items():
        path: Path = ("charts", key, "legend")
        for character, meaning in chart.legend.items():
            if len(character) != 1:
                yield Diagnostic(
                    "source.legend-key",
                    f"the legend key `{character}` is not a single character",
                    "Use one character, the one that stands in the grid",
                    source.span(*path, character, key=True),
                )
            if isinstance(meaning, CellMeaning):
                place = (*path, character, "yarn")
                yield from _known(source, place, meaning.yarn, yarns, "yarn", "yarns")
        yield from _unexplained(source, key, chart)


def _unexplained(source: Source, key: str, chart: Chart) -> Iterator[Diagnostic]:
    grid = source.grids[key]
    seen = set(chart.legend)
    for number, line in enumerate(grid.rounds, start=1):
        for index, character in enumerate(line):
            if character not in seen:
                seen.add(character)
                yield Diagnostic(
                    "source.grid-character",
                    f"`{character}` in round {number} of the grid has no meaning in the legend",
                    f"Add `{character!r}` to the legend of the chart `{key}`, or correct the grid",
                    grid.span(number, grid.width - index),
                )


def _bodies(source: Source) -> Iterator[Diagnostic]:
    """Sizes that lack a body measurement which the others have, or are in no mapping they name."""
    sizes = source.pattern.sizes
    if any(size.like for size in sizes.values()):
        return  # the plan merges the standard bodies first
    for name, size in sizes.items():
        for measure in dict.fromkeys(key for other in sizes.values() for key in other.body):
            if measure not in size.body:
                yield Diagnostic(
                    "source.size-measurement",
                    f"the size `{name}` has no `{measure}`, which other sizes have",
                    f"Add `{measure}: …` with its unit to the size `{name}`",
                    source.span("sizes", name, key=True),
                )
