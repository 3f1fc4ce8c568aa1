"""Tables with a column for every size, in one or several units.

Few sizes leave room for the units side by side; with many, every unit gets a row of its own.
"""

from collections.abc import Sequence

from bindoff.document.phrases import text
from bindoff.document.tree import Column, Inlines, Origin, Ringed, Table, TableRow
from bindoff.document.units import length_in, scales
from bindoff.document.voice import Voice, number
from bindoff.plan.values import Kind, Measure
from bindoff.records import Record, replace

GROUPED_SIZES = 4
"""Up to so many sizes, units or kinds of count stand side by side."""


class Figures(Record):
    """A row: its name, and for every unit of the table one figure a size.

    A row with a single block of figures in a table of several units has no unit. ``letters`` are
    those of what it gives in a drawing.
    """

    name: str
    blocks: tuple[tuple[str, ...], ...]
    origin: Origin | None = None
    letters: tuple[str, ...] = ()


def length_figures(
    voice: Voice, name: str, mm: Sequence[float], letters: tuple[str, ...] = ()
) -> Figures:
    """A row of lengths in the pattern's units."""
    return Figures(
        name,
        tuple(tuple(length_in(each, scale) for each in mm) for scale in scales(voice.units)),
        letters=letters,
    )


def measure_figures(
    voice: Voice, name: str, measure: Measure, letters: tuple[str, ...] = ()
) -> Figures:
    """A row of lengths, or of counts that have no unit."""
    origin = Origin(measure.span) if measure.span else None
    if measure.kind is Kind.LENGTH:
        return replace(length_figures(voice, name, measure.rounded, letters), origin=origin)
    counts = tuple(number(value) for value in measure.rounded)
    return Figures(name, (counts,), origin, letters)


def unit_table(
    sizes: tuple[str, ...],
    caption: str,
    first: str,
    units: tuple[str, ...],
    rows: Sequence[Figures],
) -> Table:
    """``rows`` in every unit: side by side for few sizes, below one another for many.

    ``first`` heads the column of names. Where a length stands in centimeters and in inches, the
    caption says that neither is made of the other.
    """
    if units == scales("both") and any(len(row.blocks) == len(units) for row in rows):
        caption = f"{caption}; each unit is rounded from the exact length"
    side_by_side = len(units) > 1 and len(sizes) <= GROUPED_SIZES
    if side_by_side and all(len(row.blocks) == len(units) for row in rows):
        if len(sizes) == 1:
            return _one_size_table(caption, first, units, rows)
        groups: tuple[tuple[Inlines, int], ...] = (
            ((), 1),
            *((text(unit), len(sizes)) for unit in units),
        )
        columns = (Column(text(first), weight=2.0), *(size_columns(sizes) * len(units)))
        body = [_joined_row(row) for row in rows]
        return Table(text(caption), columns, tuple(body), groups=groups)
    body = [
        _row(row, f", {unit}" if unit else "", block)
        for row in rows
        for unit, block in zip(_units_of(units, row), row.blocks, strict=True)
    ]
    return Table(
        text(caption), (Column(text(first), weight=2.0), *size_columns(sizes)), tuple(body)
    )


def _one_size_table(
    caption: str, first: str, units: tuple[str, ...], rows: Sequence[Figures]
) -> Table:
    """A column for every unit: with one size, nothing else tells the figures apart."""
    columns = (
        Column(text(first), weight=2.0),
        *(Column(text(unit), align="right", size=0) for unit in units),
    )
    return Table(text(caption), columns, tuple(map(_joined_row, rows)))


def size_columns(sizes: tuple[str, ...]) -> tuple[Column, ...]:
    """A column of figures for every size."""
    return tuple(Column(text(size), align="right", size=i) for i, size in enumerate(sizes))


def sizes_joined(
    sizes: Sequence[str], cells: Sequence[tuple[Inlines, ...]]
) -> tuple[TableRow, ...]:
    """A row for every size; sizes in turn whose ``cells`` are equal share one."""
    found: list[tuple[list[str], tuple[Inlines, ...]]] = []
    for size, own in zip(sizes, cells, strict=True):
        if found and found[-1][1] == own:
            found[-1][0].append(size)
        else:
            found.append(([size], own))
    return tuple(TableRow((text(", ".join(names)), *own)) for names, own in found)


def _units_of(units: tuple[str, ...], row: Figures) -> tuple[str, ...]:
    """The units of a row's blocks: the table's, or none for a row of bare counts."""
    return units if len(units) == len(row.blocks) else ("",)


def _joined_row(row: Figures) -> TableRow:
    """The figures of all units in one row."""
    return _row(row, "", [cell for block in row.blocks for cell in block])


def _row(row: Figures, unit: str, cells: Sequence[str]) -> TableRow:
    name = text(row.name + unit)
    if row.letters:
        name = (*text(f"{row.name} "), Ringed(row.letters), *(text(unit) if unit else ()))
    return TableRow((name, *(text(cell) for cell in cells)), row.origin)
