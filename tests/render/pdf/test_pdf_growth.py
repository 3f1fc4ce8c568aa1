"""Laying out takes work in proportion to the length of a document; calls are counted."""

import sys
from collections.abc import Callable

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

SHORT, LONG = 250, 2_000
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


def calls(blocks: tuple[Block, ...]) -> int:
    """How many functions are called, Python's own among them."""
    document, count = sample.document(*blocks), 0

    def called(_: object, event: str, __: object) -> None:
        nonlocal count
        count += event in ("call", "c_call")

    sys.setprofile(called)
    try:
        lay_out(document, PdfOptions())
    finally:
        sys.setprofile(None)
    return count


@pytest.mark.parametrize("kind", KINDS)
def test_eight_times_as_long_takes_about_eight_times_as_long(kind: str) -> None:
    make = KINDS[kind]
    lay_out(sample.document(*make(50)), PdfOptions())  # what is loaded and remembered once
    assert calls(make(LONG)) <= MOST * LONG / SHORT * calls(make(SHORT))
