"""A table as a list of its rows, for a place too narrow for columns."""

from collections.abc import Sequence

from bindoff.document.tree import (
    Blocks,
    Inlines,
    ItemList,
    LineBreak,
    ListItem,
    Paragraph,
    Strong,
    Table,
    Text,
    plain,
)


def row_blocks(node: Table) -> Blocks:
    """``node`` without columns, for a place too narrow for them: its caption, and for every row a
    list entry that names the row, and below that says each cell after the heading of its column."""
    owner = [heading for heading, span in node.groups for _ in range(span)]
    labels = [
        (*owner[index], Text(", "), *column.heading) if owner and owner[index] else column.heading
        for index, column in enumerate(node.columns)
    ]
    items = []
    for row in node.rows:
        said = [_labelled(*pair) for pair in zip(labels, row.cells, strict=True)]
        names = _listed(said[: node.header_columns])
        cells = _listed(said[node.header_columns :])
        line = (LineBreak(),) if names and cells else ()
        items.append(ListItem((Paragraph((*names, *line, *cells)),)))
    title = (Paragraph(node.caption, "small"),) if node.caption else ()
    return (*title, ItemList(tuple(items)))


def _labelled(label: Inlines, cell: Inlines) -> Inlines:
    return (*((Strong((*label, Text(": "))),) if plain(label) else ()), *cell)


def _listed(said: Sequence[Inlines]) -> Inlines:
    """What is said, with semicolons between."""
    found = [each for each in said if each]
    parts = [(*each, Text("; ")) for each in found[:-1]]
    return (*(each for part in parts for each in part), *(found[-1] if found else ()))
