"""A figure in the side column beside a table: its rows stay together and no height is lost."""

from collections.abc import Callable
from pathlib import Path

import pikepdf
import pytest

from bindoff.document.drawing import Drawing, Rect
from bindoff.document.tree import (
    Beside,
    Column,
    Document,
    Figure,
    Heading,
    ItemList,
    ListItem,
    Table,
    TableRow,
)
from bindoff.render.pdf import PdfOptions, ThemeName, render_pdf
from bindoff.render.pdf.drawing import colour_numbers
from bindoff.render.pdf.galley import NEVER, Band, Painter
from bindoff.render.pdf.pages import Layout, lay_out
from bindoff.render.pdf.svgwriter import SvgWriter
from bindoff.render.pdf.tagging import Writer
from tests.accessibility import tag_tree
from tests.render.pdf import sample


def table(rows: int, high: float | None) -> Table:
    beside = None
    if high:
        figure = Figure(Drawing(25, high, (Rect(0, 0, 25, high),)), "A strip", sample.t("Strip"))
        beside = Beside(figure, tuple(high * (at + 1) / rows for at in range(rows)))
    columns = (Column(sample.t("What to do")), Column(sample.t("Round"), "right"))
    done = tuple(TableRow((sample.t(f"Stop {at}"), sample.t(str(at)))) for at in range(rows))
    return Table(sample.t("Counter"), columns, done, tick=True, beside=beside)


def document(node: Table, lines: int = 1) -> Document:
    words = tuple(sample.p(f"Line {at}.") for at in range(lines))
    steps = ItemList((ListItem((*words, node, sample.p("Go on."))),), ordered=True)
    return sample.document(Heading(2, sample.t("Hat")), steps)


def laid_out(node: Table, theme: ThemeName = "calm", lines: int = 1) -> Layout:
    return lay_out(document(node, lines), PdfOptions(theme=theme))


def tops(layout: Layout) -> list[float]:
    return [
        each.top
        for page in layout.pages
        for each in page.placed
        if each.band.what in ("table row", "text")
    ]


def test_a_figure_lower_than_its_table_takes_no_height() -> None:
    assert tops(laid_out(table(6, 20.0))) == tops(laid_out(table(6, None)))


def test_what_follows_stands_below_a_higher_figure() -> None:
    with_it, without = tops(laid_out(table(2, 90.0))), tops(laid_out(table(2, None)))

    assert with_it[:-1] == without[:-1]
    assert with_it[-1] > without[-1]


@pytest.mark.parametrize("lines", range(20, 44, 4))
def test_no_page_ends_in_a_table_with_a_figure_beside_it(lines: int) -> None:
    layout = laid_out(table(7, 50.0), lines=lines)
    rows = [
        [each for each in page.placed if each.band.what == "table row"] for page in layout.pages
    ]

    assert sorted(len(each) for each in rows if each) == [7]


def test_a_table_as_high_as_a_page_has_none() -> None:
    layout = laid_out(table(50, 200.0))
    bands = [each.band for page in layout.pages for each in page.placed]

    assert any(band.keep < NEVER for band in bands if band.what == "table row")


def test_what_is_painted_around_a_band_stays_where_it_gives_way() -> None:
    """As the figure beside a table does, which its last row paints, on a page that is set close."""
    painted: list[str] = []

    def of(name: str) -> Painter:
        return lambda writer, left, top: painted.append(name)

    def beside(inner: Painter) -> Painter:
        def paint(writer: Writer, left: float, top: float) -> None:
            inner(writer, left, top)
            painted.append("figure")

        return paint

    band = Band(10.0, of("row"), give=2.0, closer=lambda less: of(f"row {less} lower"))
    band.dress(beside)
    assert band.closer is not None
    writer = SvgWriter(colour_numbers)
    band.paint(writer, 0.0, 0.0)
    band.closer(1.5)(writer, 0.0, 0.0)

    assert painted == ["row", "figure", "row 1.5 lower", "figure"]


@pytest.mark.parametrize(("theme", "shown"), [("calm", 1), ("print-saver", 1), ("large-print", 0)])
def test_it_is_tagged_where_there_is_a_side_column(
    theme: ThemeName, shown: int, saved: Callable[[bytes], str]
) -> None:
    data = render_pdf(document(table(6, 40.0)), PdfOptions(theme=theme))
    path = Path(saved(data))
    with pikepdf.open(path) as file:
        figures = tag_tree.read(path, file).find("Figure")

    assert [each.alt for each in figures] == ["A strip"] * shown


def test_a_table_that_would_stand_in_two_halves_keeps_its_figure(
    saved: Callable[[bytes], str],
) -> None:
    path = Path(saved(render_pdf(document(table(16, 90.0)))))
    with pikepdf.open(path) as file:
        figures = tag_tree.read(path, file).find("Figure")

    assert [each.alt for each in figures] == ["A strip"]
