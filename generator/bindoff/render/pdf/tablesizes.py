"""Which sizes share a column of a table, and what a part of it has that shows some of them."""

from collections.abc import Mapping, Sequence
from math import ceil

from bindoff import regex as re
from bindoff.document.tree import Column, Inlines, Table, TableRow, Text, plain
from bindoff.records import replace
from bindoff.render.pdf.theme import Theme

LEAST_SIZES = 5
"""From so many on, each size has its own place on the page."""


def merged(node: Table, theme: Theme) -> Table:
    """``node`` with one column for neighbouring sizes that have the same figures in every row.

    Under headings over several columns, sizes are joined under all of them or under none.
    """
    owner = [index for index, (_, span) in enumerate(node.groups) for _ in range(span)]
    places: dict[int, list[int]] = {}  # the columns of each size
    for index, column in enumerate(node.columns):
        if column.size is not None:
            places.setdefault(column.size, []).append(index)
    like: list[list[int]] = []  # neighbouring sizes that agree
    for size in sorted(places):
        if like and _agree(node, places[like[-1][0]], places[like[-1][-1]], places[size], owner):
            like[-1].append(size)
        else:
            like.append([size])
    if all(len(sizes) == 1 for sizes in like):
        return node
    joined = {sizes[0]: sizes for sizes in like}
    chosen = [
        index
        for index, column in enumerate(node.columns)
        if column.size is None or column.size in joined
    ]
    all_sizes = len(like) == 1
    return replace(
        node,
        columns=tuple(
            _joined_column(node, index, joined, places, all_sizes, theme) for index in chosen
        ),
        rows=tuple(TableRow(tuple(row.cells[index] for index in chosen)) for row in node.rows),
        groups=_groups_of(node, chosen),
    )


def _agree(
    node: Table, first: list[int], before: list[int], here: list[int], owner: list[int]
) -> bool:
    """Whether the columns ``here`` stand beside those ``before`` and say what ``first`` say."""
    return len(first) == len(here) and all(
        right == left + 1
        and (not owner or owner[left] == owner[right])
        and all(row.cells[at] == row.cells[right] for row in node.rows)
        for at, left, right in zip(first, before, here, strict=True)
    )


def _joined_column(
    node: Table,
    index: int,
    joined: Mapping[int, list[int]],
    places: Mapping[int, list[int]],
    all_sizes: bool,
    theme: Theme,
) -> Column:
    column = node.columns[index]
    sizes = [] if column.size is None else joined[column.size]
    if len(sizes) < 2:
        return column
    if all_sizes:
        return replace(column, heading=(Text(theme.words.all_sizes),))
    headings = [node.columns[places[size][0]].heading for size in sizes]
    parts = [(*heading, Text(", ")) for heading in headings[:-1]]
    return replace(column, heading=(*(each for part in parts for each in part), *headings[-1]))


def parted(node: Table, theme: Theme, count: int) -> list[Table]:
    """The table as ``count``, each with some of the sizes and all that they share."""
    sizes = [index for index, column in enumerate(node.columns) if column.size is not None]
    per_part = ceil(len(sizes) / count)  # parts of like size
    parts = []
    for start in range(0, len(sizes), per_part):
        mine = set(sizes[start : start + per_part])
        chosen = [
            index
            for index, column in enumerate(node.columns)
            if column.size is None or index in mine
        ]
        parts.append(_columns_of(node, chosen, theme, first=start == 0))
    return parts


def _columns_of(node: Table, chosen: list[int], theme: Theme, first: bool) -> Table:
    sizes = [node.columns[index] for index in chosen if node.columns[index].size is not None]
    return replace(
        node,
        caption=(*node.caption, Text(" ("), *_which(sizes, theme), Text(")")),
        columns=tuple(node.columns[index] for index in chosen),
        rows=tuple(TableRow(tuple(row.cells[index] for index in chosen)) for row in node.rows),
        groups=_groups_of(node, chosen),
        id=node.id if first else "",
    )


def _which(sizes: Sequence[Column], theme: Theme) -> Inlines:
    """The sizes of a part; the heading of several sizes begins and ends with their names, which
    may be in a language of their own."""
    first, last = sizes[0].heading[:1], sizes[-1].heading[-1:]
    words = theme.words.size if plain(first) == plain(last) else theme.words.sizes
    names = {"{first}": first, "{last}": last}
    parts = [part for part in re.split(r"(\{\w+\})", words) if part]
    return tuple(node for part in parts for node in names.get(part, (Text(part),)))


def _groups_of(node: Table, chosen: list[int]) -> tuple[tuple[Inlines, int], ...]:
    owner = [index for index, (_, span) in enumerate(node.groups) for _ in range(span)]
    kept = [owner[index] for index in chosen] if owner else []
    return tuple((node.groups[group][0], kept.count(group)) for group in dict.fromkeys(kept))
