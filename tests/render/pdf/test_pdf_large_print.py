"""Large print: all type has 18 points, whatever stands beside it."""

import io
import re
from functools import cache
from typing import Literal

import pypdf
import pytest

from bindoff.document.build import build_document
from bindoff.document.drawing import Drawing, Label, Rect
from bindoff.document.tree import (
    Column,
    Document,
    Figure,
    ItemList,
    ListItem,
    Table,
    TableRow,
    plain,
)
from bindoff.editions import Wanted
from bindoff.files import SOURCE_NAME, DiskFiles
from bindoff.pipeline import build_pattern, drawn_for, plan_pattern
from bindoff.render.pdf import PdfOptions, render_pdf
from tests.render.pdf import sample
from tests.render.pdf.painted import PATTERNS
from tests.render.pdf.test_pdf_layout import pieces

LEAST = 18.0
"""American Printing House for the Blind: large print begins at 18 pt."""


def least_type(data: bytes) -> float:
    """The smallest type that an independent reader finds."""
    pages = pypdf.PdfReader(io.BytesIO(data)).pages
    return min(size for page in pages for _, _, _, size in pieces(page))


@cache
def of_one_size(name: str, size: str, paper: Literal["a4", "letter"]) -> bytes:
    files = build_pattern(
        DiskFiles(str(PATTERNS / name)),
        SOURCE_NAME,
        name,
        options=PdfOptions(theme="large-print", paper=paper),
        wanted=Wanted(sizes=(size,)),
    ).files
    paged = [data for file, data in files.items() if file.endswith(".pdf") and f"-{size}" in file]
    assert len(paged) == 1
    return paged[0]


@pytest.mark.parametrize(
    ("name", "size", "paper"),
    [("netmender-mittens", "S", "a4"), ("slipway-socks", "Child", "letter")],
)
def test_editions_of_one_size_have_no_smaller_type(
    name: str, size: str, paper: Literal["a4", "letter"]
) -> None:
    """Their tables of measures are narrow enough to stand beside the schematic."""
    assert round(least_type(of_one_size(name, size, paper)), 1) >= LEAST


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_no_piece_of_a_chart_is_parted_from_its_key(paper: Literal["a4", "letter"]) -> None:
    """A sheet higher than the page would be cut into strips, its key on the last of them."""
    made = build_pattern(
        DiskFiles(str(PATTERNS / "harbour-light-hat")),
        SOURCE_NAME,
        "harbour-light-hat",
        options=PdfOptions(theme="large-print", paper=paper),
    ).files
    (data,) = (each for file, each in made.items() if file.endswith(".pdf"))
    pages = [
        [text for text, *_ in pieces(page)] for page in pypdf.PdfReader(io.BytesIO(data)).pages
    ]
    shown = [page for page in pages if any(text.startswith("Part ") for text in page)]
    assert len(shown) >= 4
    for page in shown:
        assert any(re.search(r"\bof \d$", text) for text in page), page  # in its title
        assert any(text.endswith(", embroidered") for text in page), page


def test_a_smaller_piece_is_drawn_smaller() -> None:
    """Its letters are as large; it had the width of the page, and the larger one a page alone."""
    name = "harbour-light-hat"
    files = DiskFiles(str(PATTERNS / name))
    plan = plan_pattern(files, SOURCE_NAME, name)
    document, _ = build_document(plan, files, drawn=drawn_for("large-print"))
    drawn = [
        block.picture
        for block in document.blocks
        if isinstance(block, Figure) and "schematic" in plain(block.caption)
    ]
    hat, flap = (each for each in drawn if isinstance(each, Drawing))
    assert flap.width < hat.width
    assert flap.height < hat.height


def paces(words: str) -> Document:
    """A step with a table of words in the middle and figures at its right."""
    heads = ("Size", "Work the shaping round on", "Rounds in all", "Stitches after")
    columns = tuple(Column(sample.t(head)) for head in heads)
    row = TableRow(tuple(sample.t(each) for each in ("M", words, "92", "48")))
    table = Table(sample.t("Pace"), columns, (row,) * 3)
    return sample.document(ItemList((ListItem((sample.p("Shape."), table)),), ordered=True))


@pytest.mark.parametrize(
    ("words", "reaches"),
    [("every 4th round 4 times, then every 6th round 4 times", True), ("every 4th round", False)],
)
def test_a_table_of_a_step_reaches_out_to_the_left_rather_than_break_its_words(
    words: str, reaches: bool
) -> None:
    data = render_pdf(paces(words), PdfOptions(theme="large-print"))
    found = pieces(pypdf.PdfReader(io.BytesIO(data)).pages[0])
    size, step = (next(each for each in found if each[0].startswith(w)) for w in ("Size", "Shape"))
    assert (size[1] < step[1] - 1) == reaches


def test_half_a_picture_of_26_rounds_is_one_piece() -> None:
    """Its key stands in columns below it, the plan of the pieces beside its title."""
    name = "harbour-light-hat"
    files = DiskFiles(str(PATTERNS / name))
    _, charts = build_document(
        plan_pattern(files, SOURCE_NAME, name), files, drawn=drawn_for("large-print")
    )
    parts = {chart.id: [tile.label for tile in chart.tiles] for chart in charts}
    assert parts["picture-hat"] == ["rounds 1–26, stitches 1–24"]
    assert parts["embroidery-hat"] == [
        "part 1 of 2: rounds 1–26, stitches 1–12",
        "part 2 of 2: rounds 1–26, stitches 13–24",
    ]


def test_a_drawing_is_not_shrunk_below_it_to_stand_beside_its_table() -> None:
    shape = Rect(0, 0, 90, 90, stroke="#000000")
    letter = Label(45, 45, "a", LEAST * 127 / 360, "middle")
    figure = Figure(Drawing(90, 90, (shape, letter)), "A square")
    table = Table(
        sample.t("Measurements"),
        (Column(sample.t("Measure")), Column(sample.t("cm"), "right")),
        (TableRow((sample.t("Width"), sample.t("40"))),) * 4,
    )
    data = render_pdf(sample.document(figure, table), PdfOptions(theme="large-print"))
    assert round(least_type(data), 1) >= LEAST


def test_the_foot_says_the_same_on_every_page() -> None:
    """A page number of two digits takes the version from no page."""
    pages = pypdf.PdfReader(io.BytesIO(of_one_size("netmender-mittens", "S", "a4"))).pages
    feet = set()
    for page in pages:
        lowest = min(y for _, _, y, _ in pieces(page))
        foot = "".join(text for text, _, y, _ in pieces(page) if y == lowest)
        feet.add(foot.partition("page")[0].strip())
    assert len(pages) > 9
    assert len(feet) == 1, feet
