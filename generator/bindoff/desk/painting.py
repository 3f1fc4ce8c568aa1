"""What the painter of the desk needs to know of a pattern's charts.

Grids are painted in the page: it holds their text. From here come what each character of a grid
means and looks like, where the cells of charts are on the pages, which floats of what is being
painted are too long, and what cells pasted from a spreadsheet say.
"""

from collections.abc import Iterator, Mapping, Sequence
from itertools import accumulate, pairwise
from typing import Any

from bindoff import regex as re
from bindoff.craft.book import StitchBook
from bindoff.craft.entry import Stitch
from bindoff.desk.proofs import Proof
from bindoff.diagnostics import PatternError, fail
from bindoff.document.tubemap import TUBE
from bindoff.english import how_many
from bindoff.files import Files
from bindoff.plan.colour.floats import LimitRule, float_limit, float_runs
from bindoff.plan.colour.grid import ColourGrid
from bindoff.plan.gauge import Gauge
from bindoff.plan.picture import cell_meaning, piece_gauges
from bindoff.plan.plan import Plan, stitch_book
from bindoff.plan.sizing import sizings
from bindoff.plan.worked import ChartRows, StepPlan
from bindoff.records import Record, replace
from bindoff.source.bundle import Source
from bindoff.source.chart import NO_STITCH, Chart
from bindoff.source.grid import MARK, MAX_SIDE, MAX_STITCHES, Grid, read_grid
from bindoff.source.imagegrid import colour_distance, nearest_yarn
from bindoff.source.piece import Piece
from bindoff.source.read import read_source
from bindoff.source.sheet import Area, Sheet, SheetCell
from bindoff.source.sheetgrid import Known, SheetChart, by_fill, by_value, way_of

_MOST_FLOATS = 2000
_PASTED = "what was pasted"
_COLOUR = re.compile(r"#[0-9a-f]{6}")


class _Signs(Record):
    """A pattern and its stitches: what the characters of its charts mean."""

    source: Source
    book: StitchBook

    def meaning(self, chart: Chart, sign: str) -> tuple[str | None, str | None]:
        """The yarn and the stitch of a character."""
        return cell_meaning(chart.legend[sign], self.source.pattern.yarns)

    def stitch(self, chart: Chart, sign: str) -> Stitch | None:
        """The stitch that a character names."""
        _, name = self.meaning(chart, sign)
        return self.book.find(name) if name else None


class _Use(Record):
    """How a grid is used: for which chart, and by the first step that works it."""

    known: _Signs
    key: str
    grid: Grid
    gauges: tuple[Gauge, ...]
    flat: bool = False
    once: bool = False
    stranded: bool = False
    yarn: str = ""

    @property
    def chart(self) -> Chart:
        """The chart that it is drawn for."""
        return self.known.source.pattern.charts[self.key]


def painted(proof: Proof) -> dict[str, Any]:
    """What the page keeps of a version: how to paint each grid, and where its cells are shown."""
    prefix = proof.files.display("")
    return {
        "grids": [_grid_data(use, prefix) for use in _uses(proof.plan)],
        "cells": [
            {
                "page": place.page,
                "file": place.cells.file.removeprefix(prefix),
                "left": round(place.left, 2),
                "top": round(place.top, 2),
                "w": round(place.w, 3),
                "h": round(place.h, 3),
                "columns": place.cells.columns,
                "rows": place.cells.rows,
                "line": place.cells.line,
                "stitch": place.cells.stitch,
                "repeat": place.cells.repeat,
            }
            for place in proof.screen.charts
            if not place.cells.file.startswith(TUBE)
        ],
    }


def paintable(files: Files, source_name: str, called: str) -> dict[str, Any]:
    """What is known of the grids of a pattern that can't be built: nothing if it can't be read."""
    try:
        source = read_source(files, source_name, called)
        known = _Signs(source, stitch_book(source))
        usual = tuple(size.gauges[""] for size in sizings(source))
    except PatternError:
        return {}
    prefix = files.display("")
    return {"grids": [_grid_data(use, prefix) for use in _drawn(known, usual)]}


# ---------------------------------------------------------------- how grids are used


def _uses(plan: Plan) -> Iterator[_Use]:
    """Every grid file once, as it is worked first; those that no step works too."""
    known = _Signs(plan.source, plan.book)
    found: dict[str, _Use] = {}
    for piece in plan.pieces:
        written = plan.source.pattern.pieces[piece.key]
        gauges = piece_gauges(plan.measures, written)
        for step in piece.steps:
            for rows in step.charts:
                found.setdefault(rows.grid.file, _worked(known, step, rows, gauges))
        for key, once in _pictured(written):
            for grid in plan.source.grids[key]:
                found.setdefault(grid.file, _Use(known, key, grid, gauges, once=once))
    usual = tuple(size.gauges[""] for size in plan.measures.sizes)
    for use in _drawn(known, usual):
        found.setdefault(use.grid.file, use)
    yield from found.values()


def _drawn(known: "_Signs", gauges: tuple[Gauge, ...]) -> Iterator[_Use]:
    """The grids of all charts, whether any step works them or not."""
    for key, grids in known.source.grids.items():
        yield from (_Use(known, key, grid, gauges) for grid in grids)


def _pictured(piece: Piece) -> Iterator[tuple[str, bool]]:
    """The charts on a tube, and whether each lies there by itself or beside its mirror image."""
    if piece.picture is not None:
        yield piece.picture.chart, piece.picture.mirror
    for motif in piece.motifs:
        yield motif.chart, motif.mirror or not motif.around


def _worked(known: "_Signs", step: StepPlan, rows: ChartRows, gauges: tuple[Gauge, ...]) -> _Use:
    chart = known.source.pattern.charts[rows.chart]
    several = len({known.meaning(chart, sign)[0] for sign in chart.legend}) > 1
    stranded = rows.stranded and several
    return _Use(known, rows.chart, rows.grid, gauges, step.flat, rows.once, stranded, step.yarn)


def _use_of(proof: Proof, file: str) -> _Use | None:
    shown = proof.files.display(file)
    return next((use for use in _uses(proof.plan) if use.grid.file == shown), None)


def _grid_data(use: _Use, prefix: str) -> dict[str, Any]:
    gauge, chart, grid = use.gauges[0], use.chart, use.grid
    twice = 2 if chart.mode == "mosaic" else 1
    return {
        "file": grid.file.removeprefix(prefix),
        "title": chart.title,
        "unit": "row" if use.flat else "round",
        "first": grid.first,
        "every": grid.every,
        "columns": _ends(grid)[1:-1] if chart.columns else None,
        "repeats": chart.repeats and not use.once,
        "cell": [round(gauge.stitch_mm, 3), round(gauge.round_mm * twice, 3)],
        "limit": _limit(use) if use.stranded else 0,
        "legend": [_entry(use.known, chart, sign) for sign in chart.legend],
    }


def _ends(grid: Grid) -> list[int]:
    """Where the parts of a grid end, from the left: edge, repeat, edge, or two repeats and a
    centre."""
    parts = (grid.after, grid.twin, grid.centre) if grid.twin else (grid.after,)
    return list(accumulate((*parts, grid.repeat, grid.before), initial=0))


def _limit(use: _Use) -> int:
    """The most stitches a float may pass in every size, as the check for long floats has it."""
    return min(float_limit(gauge.stitches_per(), LimitRule.ROUND) for gauge in use.gauges)


def _entry(known: _Signs, chart: Chart, sign: str) -> dict[str, Any]:
    """What a character stands for, in words, and how a cell of it looks."""
    yarn, name = known.meaning(chart, sign)
    stitch = known.stitch(chart, sign)
    symbol = stitch.symbol if stitch else None
    thread = known.source.pattern.yarns[yarn] if yarn else None
    words = [_spoken(known.book, stitch, name)] if name else []
    words += [thread.name] if thread else []
    return {
        "sign": sign,
        "name": " in ".join(words),
        "yarn": yarn or "",
        "colour": thread.colour if thread else None,
        "worked": name != NO_STITCH,
        "wide": symbol.wide if symbol else 1,
        "shade": symbol.shade if symbol else None,
        "mirror": _mirror(known, chart, sign),
        "strokes": symbol.strokes if symbol else (),
        "fills": symbol.fills if symbol else (),
    }


def _mirror(known: _Signs, chart: Chart, sign: str) -> str | None:
    """The character of the stitch that leans the other way: its own where it leans neither,
    ``None`` where the legend has none."""
    stitch = known.stitch(chart, sign)
    if stitch is None or not stitch.mirror:
        return sign
    yarn, _ = known.meaning(chart, sign)
    for other in chart.legend:
        partner = known.stitch(chart, other)
        same = known.meaning(chart, other)[0] == yarn
        if same and partner is not None and partner.id == stitch.mirror:
            return other
    return None


def _spoken(book: StitchBook, stitch: Stitch | None, name: str) -> str:
    if stitch is None or name == NO_STITCH:
        return name
    return stitch.wording(book.terms).name


# ---------------------------------------------------------------- floats of what is painted


def floats(proof: Proof, file: str, rows: Sequence[str]) -> list[dict[str, Any]]:
    """Floats over the limit in ``rows``, the lines of a grid's file.

    Each with its line from below, its yarn, its length, and the stitches that it passes, from the
    right, as ``float_runs`` finds them in what the check for long floats looks at: around the seam,
    or over two repeats where it is worked flat or has edges.
    """
    use = _use_of(proof, file)
    grid = _painted_grid(use, rows) if use is not None and use.stranded else None
    if use is None or grid is None:
        return []
    yarns, limit = _yarns(use), _limit(use)
    found: list[dict[str, Any]] = []
    for number, row in enumerate(grid.rounds, start=1):
        for yarn, passed in dict.fromkeys(_passed(use, grid, row, yarns, limit)):
            named = proof.plan.source.pattern.yarns[yarn].name
            found.append({"line": number, "yarn": named, "length": len(passed), "stitches": passed})
        if len(found) >= _MOST_FLOATS:
            break
    return found[:_MOST_FLOATS]


def _painted_grid(use: _Use, rows: Sequence[str]) -> Grid | None:
    """The grid that is being painted, in the parts that its marks or the chart's columns say."""
    try:
        grid = read_grid("\n".join(rows), use.grid.file, marked=MARK not in use.chart.legend)
    except PatternError:
        return None
    return replace(use.grid, rounds=grid.rounds) if grid.width == use.grid.width else grid


def _yarns(use: _Use) -> Mapping[str, str | None]:
    """The yarn of each character, ``None`` for what is no stitch."""
    return {
        sign: None if name == NO_STITCH else yarn or use.yarn
        for sign in use.chart.legend
        for yarn, name in [use.known.meaning(use.chart, sign)]
    }


def _passed(
    use: _Use, grid: Grid, row: str, yarns: Mapping[str, str | None], limit: int
) -> Iterator[tuple[str, tuple[int, ...]]]:
    """The yarn of each float over the limit and the stitches of the row that it passes."""
    columns = range(grid.width)
    parts = [columns[start:end] for start, end in pairwise(_ends(grid))]
    across = 2 if (use.flat or grid.edged) and not use.once else 1
    seen = [
        at for number, part in enumerate(parts) for at in [*part] * (across if number % 2 else 1)
    ]
    worked = [at for at in reversed(seen) if yarns.get(row[at], use.yarn) is not None]
    cells = tuple(yarns.get(row[at]) or use.yarn for at in reversed(worked))
    if not cells:
        return
    for run in float_runs(ColourGrid((cells,), wraps=not use.flat)):
        if run.length > limit:
            passed = range(run.first - 1, run.first - 1 + run.length)
            yield run.yarn, tuple(grid.width - worked[each % len(worked)] for each in passed)


# ---------------------------------------------------------------- cells of a spreadsheet


def pasted(
    proof: Proof, file: str, cells: Sequence[Sequence[tuple[str, str]]], empty: str
) -> list[str]:
    """Lines of a grid for cells of a spreadsheet, each with its value and its ``#rrggbb`` or "".

    ``empty`` is the character of the grid for a cell that has neither.

    Raises ``PatternError`` where a cell says what the legend of the grid doesn't have: nothing is
    pasted by halves.
    """
    use = _use_of(proof, file)
    if use is None:
        raise fail(
            "sheet.cell",
            f"`{file}` is the grid of no chart",
            "Name it as the `grid:` of a chart, so that it is known what its characters stand for",
        )
    wide = max((len(row) for row in cells), default=0)
    if not wide or max(wide, len(cells)) > MAX_SIDE or wide * len(cells) > MAX_STITCHES:
        raise fail(
            "sheet.too-large" if wide else "sheet.empty",
            f"{_PASTED} has {how_many(len(cells), 'row')} of {how_many(wide, 'cell')}",
            f"Copy the cells of the chart: at most {MAX_SIDE} each way, one for each stitch",
        )
    legend = use.chart.legend
    if all(value in legend for row in cells for value, _ in row) and len(set(map(len, cells))) == 1:
        return ["".join(value for value, _ in row) for row in cells]
    rows = tuple(
        tuple(_sheet_cell(*row[x]) if x < len(row) else SheetCell() for x in range(wide))
        for row in cells
    )
    sheet = Sheet("", Area(1, 1, wide, len(rows)), rows)
    chart = _read(use, sheet, empty)
    odd = [(sign, meant) for sign, meant in chart.legend.items() if sign not in legend]
    if odd:
        said = odd[0][1] or odd[0][0]
        raise fail(
            "sheet.cell",
            f"a cell says `{said}`, which the legend of `{use.key}` does not have",
            "Add it to the legend of the chart first",
        )
    return list(chart.lines)


def _sheet_cell(value: str, fill: str) -> SheetCell:
    return SheetCell(value.strip()[:100], fill if _COLOUR.fullmatch(fill) else None)


def _read(use: _Use, sheet: Sheet, empty: str) -> SheetChart:
    meanings = {sign: use.known.meaning(use.chart, sign) for sign in use.chart.legend}
    signs = {(name or yarn or ""): sign for sign, (yarn, name) in meanings.items()}
    keys = {yarn for yarn, name in meanings.values() if yarn and not name}
    yarns, book = use.known.source.pattern.yarns, use.known.book
    names = {yarns[key].name: key for key in keys} | {key: key for key in keys}

    written = {stitch.id: name for name in signs if (stitch := book.find(name))}

    def stitch_of(value: str) -> tuple[str, int] | None:
        found = book.find(value)
        return (written.get(found.id, value), found.cells) if found else None

    known = Known(names, stitch_of, signs)
    yarn, name = meanings.get(empty, (None, None))
    if way_of(sheet, _PASTED) == "value":
        return by_value(sheet, _PASTED, known, name or yarn)
    if not keys:
        raise fail(
            "sheet.fill",
            f"the cells of {_PASTED} are coloured, and `{use.key}` has no yarns in its legend",
            "Write a stitch or a character of the legend into each cell",
        )
    yarn_of = nearest_yarn({key: yarns[key].colour for key in keys})
    return by_fill(sheet, _PASTED, yarn_of, colour_distance, known, yarn)


def faults(error: PatternError) -> list[str]:
    """Findings as sentences; what to do about them is another thing here than at a terminal."""
    return [f"{each.message[0].upper()}{each.message[1:]}." for each in error.findings]
