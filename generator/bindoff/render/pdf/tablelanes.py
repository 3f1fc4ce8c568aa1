"""Tables of sizes alone: names of rows in the side column, and for every size its lane."""

from collections.abc import Sequence

from bindoff.document.tree import Strong, Table, TableRow, Text
from bindoff.records import replace
from bindoff.render.pdf.parts import RunsOf
from bindoff.render.pdf.tablefit import (
    Grid,
    Room,
    Stem,
    measured,
    small_head,
    stems_of,
)
from bindoff.render.pdf.tablesizes import LEAST_SIZES, merged
from bindoff.render.pdf.text import lines, narrowest, widest, words
from bindoff.render.pdf.theme import Theme

_WRAPPED = 0.25  # of the names of rows: more in two lines have no room in the side column
_LANE_AIR = 3.0  # in a lane beside its widest figure
_LEAST_SHARES = 3  # a lane takes no more of the main column than one of three
_BLOCK_GAP = 17.0  # between the lanes of two units


def in_lanes(
    node: Table, room: Room, sizes: tuple[str, ...], theme: Theme, runs_of: RunsOf
) -> "Grid | None":
    """``node`` with the names of its rows in the side column, and what follows in equal lanes.

    A size has the same place in every table, and sizes that share a column share their lanes; under
    headings over several columns, such as units, every heading gets as much. None for a table that
    is not of sizes alone, or has no room.
    """
    node = merged(node, theme)
    first = node.header_columns
    if first != 1 or any(
        (column.size is None) != (at < first) for at, column in enumerate(node.columns)
    ):
        return None
    stems = stems_of(node)
    node = _stressed(node, stems)
    places = _places(node, room, len(sizes))
    if places is None:
        return None
    for body, head in (
        (theme.table, theme.table_head),
        (theme.table_small, small_head(theme)),
    ):
        sheet = measured(node, body, head, runs_of)
        unit = max(
            (widest(words(runs_of((Text(unit),), body))) for _, unit, _ in stems if unit),
            default=0.0,
        )
        name = room.side - theme.cell_gap - (unit + theme.cell_gap / 2 if unit else 0.0)
        names = [
            narrowest(sheet.heads[0]),
            *(narrowest(row[0]) + sheet.hang(at) for at, row in enumerate(sheet.cells)),
        ]
        wide = [place[1] - _LANE_AIR for place in places]
        fits = all(
            max(narrowest(sheet.heads[at]), *(widest(row[at]) for row in sheet.cells)) <= room
            for at, room in enumerate(wide, first)
        )
        lines_of = [len(lines(row[0], name - sheet.hang(at))) for at, row in enumerate(sheet.cells)]
        wrapped = sum(count > 1 for count in lines_of) > len(lines_of) * _WRAPPED
        if (wrapped or node.tick) and len(sizes) < LEAST_SIZES and not node.groups:
            return None  # names of so many words are no names, and boxes need room beside them
        if fits and max(names) <= name:
            lefts = [0.0, *(left for left, _ in places)]
            widths = [name, *(width for _, width in places)]
            tinted = _tinted(node, places) if len(sizes) > 1 else ()
            units = room.side - theme.cell_gap
            return Grid(node, sheet, widths, 0.0, lefts, tinted, stems, units)
    return None


def _stressed(node: Table, stems: Sequence[Stem]) -> Table:
    """The first of several units stands out."""
    rows = tuple(
        TableRow((row.cells[0], *((Strong(cell),) for cell in row.cells[1:])))
        if unit and not again
        else row
        for row, (_, unit, again) in zip(node.rows, stems, strict=True)
    )
    return replace(node, rows=rows)


def _places(node: Table, room: Room, sizes: int) -> list[tuple[float, float]] | None:
    """The left edge and the width of every column after the first."""
    columns = node.columns[1:]
    main = room.width - room.side
    spans = [span for _, span in node.groups[1:]] or [len(columns)]
    if node.groups and (node.groups[0][1] != 1 or sum(spans) != len(columns)):
        return None
    if sizes == 1:
        wide = min(main / len(columns), main / _LEAST_SHARES)
        return [(room.side + wide * at, wide) for at in range(len(columns))]
    block = (main - _BLOCK_GAP * (len(spans) - 1)) / len(spans)
    lane = min(block / sizes, main / _LEAST_SHARES)
    found: list[tuple[float, float]] = []
    at = 0
    for number, span in enumerate(spans):
        start = room.side + (block + _BLOCK_GAP) * number
        own = [column.size or 0 for column in columns[at : at + span]]
        stops = [*own[1:], sizes]
        if not own or sorted(set(own)) != own or own[-1] >= sizes:
            return None
        found += [(start + lane * a, lane * (b - a)) for a, b in zip(own, stops, strict=True)]
        at += span
    return found


def _tinted(node: Table, places: Sequence[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    """Every other column under each heading."""
    spans = [span for _, span in node.groups[1:]] or [len(places)]
    numbers = [number for span in spans for number in range(span)]
    return tuple(place for number, place in zip(numbers, places, strict=True) if number % 2)
