"""``bindoff grid from-sheet``: a chart grid from the cells of a spreadsheet."""

import os
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bindoff.commands.gridshared import (
    characters_of,
    chart_entry,
    colours_of,
    folder_of,
    force_option,
    pattern_option,
    read_file,
    reported,
    stem,
    unread_pattern,
    write_file,
    yarns_option,
)
from bindoff.commands.shared import say
from bindoff.diagnostics import fail

if TYPE_CHECKING:
    from bindoff.source.read import Source
    from bindoff.source.sheet import Area
    from bindoff.source.sheetgrid import By


def _area(context: click.Context, parameter: click.Parameter, text: str | None) -> "Area | None":
    from bindoff.source.sheet import parse_area

    if text is None:
        return None
    try:
        return parse_area(text)
    except ValueError as error:
        raise click.BadParameter(f"{error}.") from None


@click.command(name="from-sheet")
@click.argument("sheet", type=click.Path())
@yarns_option
@pattern_option
@click.option("--sheet", "title", metavar="NAME", help="The sheet of a workbook that has several.")
@click.option(
    "--range",
    "area",
    callback=_area,
    metavar="B2:M19",
    help="The cells of the chart alone; by default all from the first to the last that is filled.",
)
@click.option(
    "--by",
    type=click.Choice(["value", "fill"]),
    help="Read what is written in the cells, or the color they are filled with.",
)
@click.option("--empty", metavar="MEANING", help="What an empty cell stands for, such as k.")
@click.option("--out", help="The grid file; by default in the pattern, or beside the spreadsheet.")
@force_option
def from_sheet(
    sheet: str,
    yarns: Mapping[str, str | None] | None,
    folder: str | None,
    title: str | None,
    area: "Area | None",
    by: "By | None",
    empty: str | None,
    out: str | None,
    force: bool,
) -> None:
    """Turn a SHEET, an XLSX or CSV file with a cell for each stitch, into a grid.

    A cell holds a yarn, a stitch such as k2tog, or one character; or it is filled with a color,
    which becomes the nearest of the yarns. The last row is on top. A cell that can't be read is
    named, and nothing is written. Prints the chart for pattern.yaml.
    """
    from bindoff.source.sheet import SHEET_LIMIT, read_sheet
    from bindoff.source.sheetgrid import Known, by_fill, by_value, way_of

    with reported():
        source = unread_pattern(folder) if folder is not None else None
        colours = colours_of(source, yarns) if source or yarns is not None else {}
        shown = os.path.basename(sheet)
        cells = read_sheet(read_file(sheet, SHEET_LIMIT), shown, title=title, area=area)
        known = Known(
            _yarn_names(source, colours),
            _stitch_of(source),
            characters_of(source) if source else {},
        )
        if (by or way_of(cells, shown)) == "value":
            chart = by_value(cells, shown, known, empty)
        else:
            from bindoff.source.imagegrid import colour_distance, nearest_yarn

            if not colours:
                raise click.UsageError(
                    "The cells are colored: give the yarns, --yarns slate=#3d4a57,foam=#e8eef0, or "
                    "--pattern."
                )
            if empty is not None and empty not in known.yarns:
                raise fail(
                    "sheet.fill",
                    f"`--empty {empty}` is not one of the yarns",
                    f"Choose one of them: {', '.join(colours)}",
                )
            yarn_of = nearest_yarn(colours)
            chart = by_fill(cells, shown, yarn_of, colour_distance, known, empty)
        target = Path(out or Path(folder_of(folder) or Path(sheet).parent, stem(shown) + ".grid"))
        write_file(target, "".join(f"{line}\n" for line in chart.lines).encode(), force)
        where = f"{cells.title}, {cells.area}" if cells.title else str(cells.area)
        remarks = (
            f"{target}: {len(chart.lines[0])} stitches by {len(chart.lines)} rounds",
            f"from {where} of {shown}",
        )
        say(chart_entry(target, chart.legend, remarks).rstrip("\n"))


def _yarn_names(source: "Source | None", colours: Mapping[str, str]) -> Mapping[str, str]:
    """The id of every yarn by its id and by its name."""
    named = source.pattern.yarns if source else {}
    names = {yarn.name: key for key, yarn in named.items() if key in colours}
    return names | {key: key for key in colours}


def _stitch_of(source: "Source | None") -> "Callable[[str], tuple[str, int] | None]":
    """The stitch that a value names, as it is written in a legend, and the cells it covers."""
    from bindoff.source.chart import NO_STITCH
    from bindoff.source.rowlang.stitches import Terms, standard_book

    book = standard_book(Terms(source.pattern.terms) if source else Terms("US"))
    own = source.pattern.stitches if source else {}

    def stitch_of(value: str) -> tuple[str, int] | None:
        if value in own:
            return value, 1
        found = book.find(value.lower())
        if found is None:
            return None
        return (NO_STITCH if found.id == NO_STITCH else value), found.cells

    return stitch_of
