"""What stands side by side: notes in columns, a chart and its key, a drawing and its table."""

import io
from dataclasses import replace
from itertools import groupby
from typing import Literal

import pypdf
import pytest

from bindoff.document.drawing import Drawing, Rect
from bindoff.document.tree import (
    Block,
    Column,
    Definition,
    DefinitionList,
    Figure,
    Heading,
    ItemList,
    ListItem,
    Paragraph,
    Table,
    TableRow,
)
from bindoff.render.pdf import PdfOptions, ThemeName, render_pdf
from bindoff.render.pdf.galley import NEVER, Band
from bindoff.render.pdf.halves import parted
from bindoff.render.pdf.pages import Layout, lay_out
from bindoff.render.pdf.side import SideColumn
from bindoff.render.pdf.stacking import CLOSEST, Galley, Stack, shapes_of
from bindoff.render.pdf.theme import MM
from tests.render.pdf import sample

PROSE = "Wash the piece by hand, roll it in a towel and leave it to dry on a flat rail. " * 9


def laid_out(*blocks: Block, theme: ThemeName = "calm") -> Layout:
    return lay_out(sample.document(*blocks), PdfOptions(theme=theme))


def lefts(layout: Layout, what: str) -> list[float]:
    """The lanes, by their left edges, in which bands of that kind stand, in reading order."""
    found = [each.x for page in layout.pages for each in page.placed if each.band.what == what]
    return [x for x, _ in groupby(found)]


def heading(level: Literal[2, 3], columns: bool) -> Heading:
    return Heading(level, sample.t("Care"), "", columns)


def table(columns: int) -> Table:
    return Table(
        sample.t("Figures"),
        tuple(Column(sample.t(f"Column {number}"), "right") for number in range(columns)),
        (TableRow(tuple(sample.t("12") for _ in range(columns))),) * 4,
    )


def drawing(width: float, height: float) -> Figure:
    return Figure(Drawing(width, height, (Rect(0, 0, width, height),)), "A square")


def test_notes_stand_in_columns_only_where_their_heading_allows_it() -> None:
    assert len(lefts(laid_out(heading(2, True), sample.p(PROSE)), "text")) == 2
    assert len(lefts(laid_out(heading(2, False), sample.p(PROSE)), "text")) == 1


def test_large_print_has_one_column() -> None:
    layout = laid_out(heading(2, True), sample.p(PROSE), theme="large-print")
    assert lefts(layout, "text") == [0.0]


def test_a_few_lines_are_not_parted() -> None:
    assert lefts(laid_out(heading(2, True), sample.p("Dry it flat.")), "text") == [0.0]


def test_columns_end_with_the_section() -> None:
    blocks = (heading(2, True), sample.p(PROSE), heading(2, False), sample.p(PROSE))
    *_, last = laid_out(*blocks).pages[-1].placed
    assert last.x == 0.0
    assert last.band.lanes is None


def test_a_wide_table_and_its_heading_stand_across_the_columns() -> None:
    blocks = (heading(2, True), sample.p(PROSE), heading(3, False), table(9), sample.p(PROSE))
    placed = [each for page in laid_out(*blocks).pages for each in page.placed]
    lanes = {each.band.what: each.band.lanes for each in placed}
    assert lanes["table head"] is None
    assert lanes["heading"] is None
    assert lanes["text"] is not None


def test_a_table_alone_is_not_parted() -> None:
    placed = laid_out(heading(2, True), table(2), heading(2, False)).pages[0].placed
    assert not any(each.band.lanes for each in placed)


def test_a_narrow_table_stands_in_a_column() -> None:
    placed = laid_out(heading(2, True), sample.p(PROSE), table(2)).pages[0].placed
    assert all(each.band.lanes for each in placed if each.band.what == "table row")


@pytest.mark.parametrize("width", [30, 45, 60])
def test_key_stands_beside_its_chart_where_there_is_room(width: int) -> None:
    entry = Definition(sample.t("Foam"), sample.t("cross"))
    layout = laid_out(heading(3, False), drawing(width, 60), DefinitionList((entry,) * 4))
    (page,) = layout.pages
    chart = next(each for each in page.placed if each.band.what == "figure")
    key = next(each for each in page.placed if each.band.what == "entry")
    assert chart.x == 0.0
    assert key.x >= width * MM
    assert chart.top <= key.top < chart.top + chart.band.height


@pytest.mark.parametrize(("width", "fits"), [(60, True), (72, True), (100, False)])
def test_key_stands_beside_its_chart_in_large_print_if_its_lines_have_some_words(
    width: int, fits: bool
) -> None:
    entry = Definition(sample.t("Foam"), sample.t("cross, as on the first page of the charts"))
    layout = laid_out(
        heading(3, False), drawing(width, 60), DefinitionList((entry,) * 2), theme="large-print"
    )
    (page,) = layout.pages
    chart = next(each for each in page.placed if each.band.what == "figure")
    key = next(each for each in page.placed if each.band.what == "entry")
    assert (key.x >= width * MM) == fits
    assert (key.top < chart.top + chart.band.height) == fits


def test_key_with_wide_marks_stands_below_its_chart_in_large_print() -> None:
    """The sign of a cable is as wide as its stitches: beside it words would stand one a line."""
    cable = Drawing(26.0, 6.0, (Rect(0, 0, 26.0, 6.0, "#ffffff"),))
    entry = Definition(sample.t("2 over 2 right cross"), sample.t("crossed strokes"), cable)
    layout = laid_out(
        heading(3, False), drawing(72, 60), DefinitionList((entry,) * 2), theme="large-print"
    )
    key = next(each for each in layout.pages[0].placed if each.band.what == "entry")
    assert key.x == 0.0


@pytest.mark.parametrize(("entries", "stands_beside"), [(4, True), (18, False)])
def test_a_long_key_of_a_low_chart_stands_below_it(entries: int, stands_beside: bool) -> None:
    """Beside it the key would run down the page in one column, most of the page left empty."""
    meaning = "stroke leaning left with a leg and a bar on top; purled on the wrong side"
    entry = Definition(sample.t("centred decrease"), sample.t(meaning))
    layout = laid_out(drawing(110, 40), DefinitionList((entry,) * entries, columns=3))
    chart, key, *_ = layout.pages[0].placed
    assert (chart.band.lanes is not None) == stands_beside
    assert (key.top < chart.top + chart.band.height) == stands_beside


def test_key_of_a_wide_chart_stands_below_it() -> None:
    entry = Definition(sample.t("Foam"), sample.t("cross"))
    (page,) = laid_out(drawing(150, 60), DefinitionList((entry,) * 4)).pages
    chart = next(each for each in page.placed if each.band.what == "figure")
    key = next(each for each in page.placed if each.band.what == "entry")
    assert key.x == 0.0
    assert key.top >= chart.top + chart.band.height


def test_drawing_and_table_side_by_side_are_read_in_their_order() -> None:
    """Lanes change places on the page, never the order of tags."""
    blocks = (drawing(70, 60), table(3), sample.p("After both."))
    text = pypdf.PdfReader(io.BytesIO(render_pdf(sample.document(*blocks)))).pages[0].extract_text()
    assert text.index("Figures") < text.index("Column 0") < text.index("After both.")


def test_what_stands_beside_a_drawing_moves_with_it() -> None:
    """A pair that the rest of the page cannot hold goes to the next one whole."""
    lines = ItemList(tuple(ListItem((sample.p("A line."),)) for _ in range(36)))
    first, second = laid_out(lines, drawing(70, 90), table(3)).pages
    assert {each.band.what for each in first.placed} == {"text"}
    assert {each.band.what for each in second.placed} >= {"figure", "table row"}


# ---------------------------------------------------------------- headings and what opens them


@pytest.mark.parametrize(("said", "one_line"), [("For Hat, step 7.", True), ("so " * 60, False)])
def test_what_a_heading_belongs_to_stands_on_its_line_where_there_is_room(
    said: str, one_line: bool
) -> None:
    aside = Paragraph(sample.t(said), role="aside")
    (page,) = laid_out(heading(3, False), aside, drawing(170, 60)).pages
    title, line = (each.top for each in page.placed[:2])
    assert (line + page.placed[1].band.height <= title + page.placed[0].band.height) == one_line
    above = [each.band for each in page.placed if each.band.what != "figure"]
    assert above[-1].keep == NEVER, "what it speaks of stands below it, in its column too"


def test_words_that_open_a_wide_section_stand_beside_its_title_and_with_its_first_chart() -> None:
    """A title and what it says of all charts are not left alone at the foot of a page."""
    title = replace(heading(2, False), wide=True)
    lines = ItemList(tuple(ListItem((sample.p("A line."),)) for _ in range(33)))
    chart = (heading(3, False), drawing(170, 200))
    first, second = laid_out(lines, title, sample.p("Of every chart."), *chart).pages
    assert {each.band.what for each in first.placed} == {"text"}
    hung, words = second.placed[:2]
    assert hung.band.what == "heading"
    assert words.top - hung.top <= hung.band.height + words.band.before


# ---------------------------------------------------------------- halves


def areas(rows: int, long: int) -> Table:
    """A table to tick off, of figures; so many of its rows have a list of them."""
    few, many = ("7", "12"), ("5, 9, 13, 17, 21, 25 and 29", "12")
    cells = [few] * (rows - long) + [many] * long
    return Table(
        sample.t("Areas"),
        (Column(sample.t("Area"), "right"), Column(sample.t("First")), Column(sample.t("Count"))),
        tuple(
            TableRow((sample.t(str(number)), *map(sample.t, cell)))
            for number, cell in enumerate(cells, start=1)
        ),
        tick=True,
    )


@pytest.mark.parametrize(("rows", "long", "halves"), [(24, 4, True), (24, 9, False), (8, 0, False)])
def test_a_long_table_of_figures_to_tick_off_stands_in_two_halves(
    rows: int, long: int, halves: bool
) -> None:
    (page,) = laid_out(areas(rows, long)).pages
    assert (sum(each.band.what == "table row" for each in page.placed) == 1) == halves


def stripes(rows: int, sizes: int) -> Table:
    """Figures of so many sizes."""
    columns = [Column(sample.t(f"Size {at}"), "right", size=at) for at in range(sizes)]
    cells = (sample.t("Foam"), *(sample.t(f"{at}–9") for at in range(sizes)))
    return Table(
        sample.t("Stripes"), (Column(sample.t("Yarn")), *columns), (TableRow(cells),) * rows
    )


@pytest.mark.parametrize(("rows", "halves"), [(4, True), (3, False)])
def test_a_table_of_few_sizes_stands_in_two_halves_if_it_is_not_short(
    rows: int, halves: bool
) -> None:
    names = tuple(f"Size {at}" for at in range(3))
    document = replace(sample.document(stripes(rows, 3)), sizes=names)
    (page,) = lay_out(document, PdfOptions()).pages
    assert (sum(each.band.what == "table row" for each in page.placed) == 1) == halves


@pytest.mark.parametrize(("rows", "halves"), [(14, True), (13, False)])
def test_a_long_table_of_figures_without_sizes_stands_in_two_halves(
    rows: int, halves: bool
) -> None:
    columns = (Column(sample.t("Yarn")), Column(sample.t("Rounds"), "right"))
    table = Table(
        sample.t("Stripes"),
        columns,
        tuple(TableRow((sample.t("Foam"), sample.t(f"{at}–99"))) for at in range(rows)),
    )
    (page,) = laid_out(table).pages
    assert (sum(each.band.what == "table row" for each in page.placed) == 1) == halves


def test_two_tables_to_tick_off_under_equal_heads_stand_side_by_side() -> None:
    steps = ItemList((ListItem((sample.p("Embroider."), areas(6, 0), areas(5, 0))),), ordered=True)
    (page,) = laid_out(steps).pages
    assert [each.band.what for each in page.placed] == ["text", "table row"]
    text = pypdf.PdfReader(io.BytesIO(render_pdf(sample.document(steps)))).pages[0].extract_text()
    assert text.count("Areas") == text.count("First") == 2
    assert text.count("12") == 11


def test_tables_under_other_heads_stand_one_below_the_other() -> None:
    other = replace(areas(5, 0), columns=(Column(sample.t("Yarn")), *areas(5, 0).columns[1:]))
    steps = ItemList((ListItem((sample.p("Embroider."), areas(6, 0), other)),), ordered=True)
    (page,) = laid_out(steps).pages
    assert sum(each.band.what == "table row" for each in page.placed) == 11


# ---------------------------------------------------------------- lists of terms


def abbreviations(count: int) -> DefinitionList:
    entry = Definition(sample.t("k2tog"), sample.t("knit 2 together as if they were one. " * 3))
    return DefinitionList((entry,) * count, columns=2)


def test_terms_stand_in_columns_of_like_height() -> None:
    (page,) = laid_out(abbreviations(6)).pages
    tops = [(each.x, each.top) for each in page.placed]
    left, right = ([top for at, top in tops if at == x] for x in sorted({x for x, _ in tops}))
    assert left == right


def test_columns_of_terms_go_on_overleaf() -> None:
    first, second = laid_out(abbreviations(40)).pages
    assert len({each.x for each in first.placed}) == len({each.x for each in second.placed}) == 2


def test_the_last_term_does_not_stand_alone_overleaf() -> None:
    """Of 5 terms 4 would fill both columns at the foot of a page."""
    line = Paragraph(sample.t("A line."))
    for lines in range(27, 33):
        title = Heading(2, sample.t("Abbreviations"))
        after = (Heading(2, sample.t("Hat")), *(line,) * 70)
        pages = laid_out(*(line,) * lines, title, abbreviations(5), *after).pages
        counts = [sum(each.band.what == "entry" for each in page.placed) for page in pages]

        assert 1 not in counts, lines


def test_one_term_takes_the_whole_width() -> None:
    (page,) = laid_out(abbreviations(1)).pages
    (entry,) = page.placed
    assert entry.band.height < laid_out(abbreviations(2)).pages[0].placed[0].band.height


def test_halves_are_of_like_height_where_rows_are_not() -> None:
    assert parted([14, 14, 14, 14, 28, 28], 0, 500.0) == (4, 6)
    assert parted([28, 28, 14, 14, 14, 14], 0, 500.0) == (2, 6)
    assert parted([10] * 30, 0, 100.0) == (10, 20)
    assert parted([200], 0, 100.0) == (1, 1)


@pytest.mark.parametrize("spacing", [1.0, 0.9, 0.8, CLOSEST])
@pytest.mark.parametrize("caption", [0.0, 12.0])
@pytest.mark.parametrize("given", [0.0, 40.0, 90.0])
def test_what_is_wide_stands_clear_of_what_hangs_on_close_pages_too(
    spacing: float, caption: float, given: float
) -> None:
    """Contents 200 points high beside a drawing that gives way and its caption, then a table, whose
    own caption may stand beside their last line."""

    def band(height: float, before: float = 10.0, give: float = 0.0, what: str = "text") -> Band:
        return Band(height, lambda writer, left, top: None, before, give=give, what=what)

    title, shown = band(0.0), [band(150.0, give=given), band(14.0)]
    wide = [band(caption, what="caption"), band(20.0, 3.0)] if caption else [band(20.0)]
    side = SideColumn()
    side.hang(title, 200.0)
    side.beside(shown, clear=False)
    side.beside(wide, clear=True)
    stack = Stack(Galley(shapes_of([title, *shown, *wide])), spacing)
    start = stack.origins[-1]  # of the table's head
    assert start - stack.origins[0] > 200.0
    assert start - stack.origins[0] < 200.0 + given + 14.0
