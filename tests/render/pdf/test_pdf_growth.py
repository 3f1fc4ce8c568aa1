"""Laying out takes time in proportion to the length of a document."""

from collections.abc import Callable
from time import process_time

import pytest

from bindoff.document.tree import (
    Block,
    Column,
    Heading,
    ItemList,
    ListItem,
    Table,
    TableRow,
)
from bindoff.render.pdf import PdfOptions
from bindoff.render.pdf.pages import lay_out
from tests.render.pdf import sample

SHORT, LONG = 1_000, 8_000
MOST = 2.0
"""Times its share that the long one may take; growing with the square, it would take 8 times."""


def steps(count: int, columns: bool) -> tuple[Block, ...]:
    title = Heading(2, sample.t("Rounds"), columns=columns)
    items = tuple(
        ListItem((sample.p(f"Knit {number % 90} stitches, purl 2, and turn the work."),))
        for number in range(count)
    )
    return (title, ItemList(items, ordered=True))


def table(count: int) -> tuple[Block, ...]:
    columns = (Column(sample.t("Area"), "right"), Column(sample.t("Yarn")))
    rows = tuple(TableRow((sample.t(str(n)), sample.t("Foam"))) for n in range(count))
    return (Table(sample.t("Areas"), columns, rows),)


def halves(count: int) -> tuple[Block, ...]:
    columns = (Column(sample.t("Area"), "right"), Column(sample.t("Stitch"), "right"))
    rows = tuple(TableRow((sample.t(str(n)), sample.t(str(n % 48)))) for n in range(count))
    return (Table(sample.t("Areas"), columns, rows, tick=True),)


KINDS: dict[str, Callable[[int], tuple[Block, ...]]] = {
    "steps": lambda count: steps(count, columns=False),
    "columns": lambda count: steps(count, columns=True),
    "table": table,
    "halves": halves,
}


def seconds(blocks: tuple[Block, ...]) -> float:
    document = sample.document(*blocks)
    start = process_time()
    lay_out(document, PdfOptions())
    return process_time() - start


@pytest.mark.parametrize("kind", KINDS)
def test_eight_times_as_long_takes_about_eight_times_as_long(kind: str) -> None:
    make = KINDS[kind]
    seconds(make(50))  # what is loaded and remembered once
    ratio = min(seconds(make(LONG)) / max(seconds(make(SHORT)), 0.01) for _ in range(2))
    assert ratio <= MOST * LONG / SHORT
