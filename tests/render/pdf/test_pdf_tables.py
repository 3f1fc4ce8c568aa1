"""Tables in pages too narrow for them: what is parted, what is joined, what stands in rows."""

import io
import re
from collections.abc import Iterable, Sequence
from dataclasses import replace

import pypdf
import pytest

from bindoff.document.tree import (
    Column,
    Heading,
    Inlines,
    ItemList,
    Paragraph,
    Ringed,
    Table,
    TableRow,
    Text,
    plain,
)
from bindoff.render.pdf import PdfOptions, ThemeName, render_pdf
from bindoff.render.pdf.pages import lay_out
from bindoff.render.pdf.rowlists import row_blocks
from bindoff.render.pdf.tablesizes import merged
from bindoff.render.pdf.theme import theme
from tests.render.pdf import sample


def table(
    columns: tuple[Column, ...],
    rows: Iterable[Sequence[str]],
    *,
    groups: tuple[tuple[Inlines, int], ...] = (),
    header_columns: int = 1,
    id: str = "",
) -> Table:
    return Table(
        sample.t("Figures"),
        columns,
        tuple(TableRow(tuple(map(sample.t, row))) for row in rows),
        groups=groups,
        header_columns=header_columns,
        id=id,
    )


def size_columns(*names: str) -> tuple[Column, ...]:
    return tuple(Column(sample.t(name), "right", size) for size, name in enumerate(names))


def pages_of(node: Table, name: ThemeName = "calm") -> list[str]:
    data = render_pdf(sample.document(node), PdfOptions(theme=name))
    return [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages]


LONG = ("Erwachsene XS", "Erwachsene S", "Erwachsene M", "Erwachsene L", "Erwachsene XL")


def test_every_part_of_a_parted_table_has_what_the_sizes_share() -> None:
    sizes = size_columns(*(f"{name} mit langem Namen" for name in LONG))
    columns = (Column(sample.t("Repeat around")), *sizes, Column(sample.t("Plain rounds after")))
    node = table(columns, [(f"K{n}, k2tog", *"12345", f"every{n}") for n in (8, 7, 6)])
    text = " ".join(pages_of(node, "large-print"))

    parts = text.count("Repeat")
    assert parts > 1
    assert text.count("Plain") == parts
    for n in (8, 7, 6):
        assert text.count(f"every{n}") == parts


@pytest.mark.parametrize(("name", "parts"), [("calm", 2), ("large-print", 5)])
def test_long_names_of_sizes_stand_in_lines_before_a_table_has_a_part_for_each(
    name: ThemeName, parts: int
) -> None:
    """Thirteen sizes made thirteen tables of one column."""
    sizes = size_columns(*(f"Kinder {number} Jahre" for number in range(3, 16)))
    columns = (Column(sample.t("Garn")), *sizes)
    node = table(columns, [("Hanf", *(f"{40 + 7 * at}" for at in range(13)))] * 3)
    text = " ".join(pages_of(node, name))

    assert text.count("Garn") <= parts
    assert all(f"{40 + 7 * at}" in text for at in range(13))


def test_names_of_rows_keep_two_words_a_line_beside_figures_in_two_units() -> None:
    """Columns of inches are as wide as inches need, not as wide as centimeters."""
    names = ("Depth at the middle", "Edge along the points", "Neck edge as drawn")
    columns = (
        Column(sample.t("Measurement")),
        *size_columns("S", "M", "L"),
        *size_columns("S", "M", "L"),
    )
    cells = ("141.5", "181.5", "221.5", "55", "71", "87")
    units = ((sample.t(""), 1), (sample.t("cm"), 3), (sample.t("in"), 3))
    rows = tuple(
        TableRow(((Text(f"{name} "), Ringed((letter,))), *map(sample.t, cells)))
        for name, letter in zip(names, "abc", strict=True)
    )
    node = replace(table(columns, (), groups=units), rows=rows)
    text = "\n".join(pages_of(node, "large-print"))

    for name in names:
        first, second, *_ = name.split()
        assert f"{first} {second}" in text


def test_a_table_without_sizes_is_not_parted_but_set_row_by_row() -> None:
    names = [f"Heading{n} of a column" for n in range(9)]
    node = table(
        tuple(Column(sample.t(name)) for name in names),
        [[f"row{row}cell{n}andmore" for n in range(9)] for row in range(3)],
        id="figures",
    )
    text = " ".join(pages_of(node, "large-print"))

    found = re.findall(r"row(\d)cell(\d)andmore", text)
    assert found == [(str(row), str(n)) for row in range(3) for n in range(9)]
    assert text.count("Heading0") == 3


def test_a_row_as_lines_says_group_and_heading_before_each_cell() -> None:
    columns = (Column(sample.t("Yarn")), Column(()), Column(sample.t("S")))
    node = table(
        columns, [("Sea", "", "4")], groups=(((), 1), (sample.t("Balls"), 2)), header_columns=1
    )
    title, rows = row_blocks(node)

    assert isinstance(title, Paragraph)
    assert isinstance(rows, ItemList)
    (line,) = rows.items[0].blocks

    assert isinstance(line, Paragraph)
    assert plain(title.children) == "Figures"
    assert plain(line.children) == "Yarn: Sea\nBalls, : ; Balls, S: 4"


@pytest.mark.parametrize(("words", "hung"), [(48, True), (12, False), (90, False)])
def test_names_of_rows_stand_in_the_side_column_where_that_spares_lines(
    words: int, hung: bool
) -> None:
    """Neither where all is on one line as it is, nor where it would be on two all the same."""
    said = ("every 4th round " * 8)[:words].strip()
    heads = ("Size", "Work the shaping round on", "Rounds in all", "Stitches after")
    node = table(tuple(Column(sample.t(each)) for each in heads), [("S", said, "22", "14")] * 3)
    (page,) = lay_out(sample.document(Heading(2, sample.t("Cuff")), node), PdfOptions()).pages
    heights = {each.band.height for each in page.placed if each.band.what == "table row"}
    style = theme("calm")
    (frame,) = (each.group.width for each in page.fragments)  # type: ignore[attr-defined]
    assert (frame == pytest.approx(style.width)) == hung
    if words < 90:
        assert heights == {style.table.leading + 2 * style.cell_pad}


def test_sizes_with_the_same_figures_share_a_column() -> None:
    node = table(
        (Column(sample.t("Stop")), *size_columns("S", "M", "L", "XL")),
        [("Fold", "37", "38", "38", "37"), ("End", "74", "76", "76", "74")],
    )
    joined = merged(node, theme("calm"))

    assert [plain(column.heading) for column in joined.columns] == ["Stop", "S", "M, L", "XL"]
    assert [plain(cell) for cell in joined.rows[1].cells] == ["End", "74", "76", "74"]
    assert joined.columns[2].size == 1


def test_sizes_are_joined_in_all_units_or_in_none() -> None:
    groups = (((), 1), (sample.t("cm"), 3), (sample.t("in"), 3))
    columns = (
        Column(sample.t("To fit")),
        *size_columns("S", "M", "L"),
        *size_columns("S", "M", "L"),
    )
    node = table(columns, [("Hand", "9", "9", "9", "3½", "3½", "3¾")], groups=groups)
    joined = merged(node, theme("calm"))

    assert [plain(column.heading) for column in joined.columns[1:]] == ["S, M", "L"] * 2
    assert [(plain(words), span) for words, span in joined.groups] == [
        ("", 1),
        ("cm", 2),
        ("in", 2),
    ]


def test_sizes_that_all_agree_are_called_so() -> None:
    node = table((Column(sample.t("Brim")), *size_columns("S", "M")), [("Rounds", "4", "4")])

    assert [plain(each.heading) for each in merged(node, theme("calm")).columns] == [
        "Brim",
        "all sizes",
    ]


@pytest.mark.parametrize("sizes", [1, 3])
def test_a_table_that_has_nothing_to_join_stays_itself(sizes: int) -> None:
    figures = [str(n) for n in range(sizes)]
    node = table((Column(sample.t("A")), *size_columns(*LONG[:sizes])), [("a", *figures)])

    assert merged(node, theme("calm")) is node


def test_parts_name_the_first_and_the_last_of_their_sizes() -> None:
    names = [name.replace("Erwachsene", "adult") for name in LONG] * 3
    rows = [("Row", *(str(10 + n // 2) for n in range(15)))]
    node = table((Column(sample.t("Name")), *size_columns(*names)), rows)
    text = " ".join(" ".join(pages_of(node, "large-print")).split())

    assert re.search(r"\(sizes adult XS to adult \w+\)", text)


@pytest.mark.parametrize(("whole", "cut"), [(True, False), (False, True)])
def test_a_table_that_is_looked_at_as_a_whole_is_cut_by_no_page(whole: bool, cut: bool) -> None:
    """18 rows below more and more words, on two pages."""
    rows = [(f"Slate {number}", str(number)) for number in range(1, 19)]
    node = replace(table((Column(sample.t("Yarn")), *size_columns("S")), rows), whole=whole)
    with_rows = set()
    for times in (70, 80, 90, 100, 110):
        words = Paragraph(sample.t("Before the table stand these words. " * times))
        data = render_pdf(sample.document(words, node), PdfOptions(theme="calm"))
        pages = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages]
        with_rows.add(sum(bool(re.search(r"Slate \d", page)) for page in pages))

    assert (max(with_rows) > 1) is cut


def test_rows_in_two_units_count_once_where_a_table_is_looked_at_as_a_whole() -> None:
    """24 rows of 12 measures, which are more than 20, on the page after many words."""
    sizes = ("A", "B", "C", "D", "E")
    rows = [(f"Slate {n}, {unit}", *"12345") for n in range(1, 13) for unit in ("cm", "in")]
    node = replace(table((Column(sample.t("Yarn")), *size_columns(*sizes)), rows), whole=True)
    words = Paragraph(sample.t("Before the table stand these words. " * 80))
    document = replace(sample.document(Heading(2, sample.t("Sizes")), words, node), sizes=sizes)
    pages = pypdf.PdfReader(io.BytesIO(render_pdf(document))).pages

    assert sum("Slate" in page.extract_text() for page in pages) == 1


def test_no_page_ends_between_two_units_of_a_measure() -> None:
    """In large print, whose rows have their full names: 24 of them below more and more words."""
    rows = [(f"Slate {n}, {unit}", "1", "2") for n in range(1, 13) for unit in ("cm", "in")]
    node = table((Column(sample.t("Measure")), *size_columns("S", "M")), rows)
    for times in range(1, 15):
        words = Paragraph(sample.t("Before the table stand these words. " * times))
        data = render_pdf(sample.document(words, node), PdfOptions(theme="large-print"))
        pages = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages]

        assert all(len(re.findall(r"Slate \d+, cm", p)) == p.count(", in") for p in pages), times


@pytest.mark.parametrize("name", ["calm", "large-print"])
def test_letters_of_a_drawing_stand_left_of_names_and_are_read_after_them(name: ThemeName) -> None:
    """In a ring, so that the eye finds them; after the name, so that the ear hears what they are
    letters of."""
    columns = (Column(sample.t("Measure")), *size_columns("S", "M"))
    named = (*sample.t("Depth with the brim turned up "), Ringed(("b",)))
    node = table(columns, [("Circumference", "48", "50"), ("", "22", "23")])
    rows = (node.rows[0], TableRow((named, *node.rows[1].cells[1:])))
    data = render_pdf(sample.document(replace(node, rows=rows)), PdfOptions(theme=name))
    found: list[tuple[str, float]] = []
    for page in pypdf.PdfReader(io.BytesIO(data)).pages:
        page.extract_text(
            visitor_text=lambda text, _, place, *__: found.append((text.strip(), place[4]))
        )
    places = dict(found)
    said = [text for text, _ in found]

    (depth,) = (text for text in said if text.startswith("Depth"))
    assert said.index(depth) < said.index("b") < said.index("22")
    assert places["Circumference"] <= places["b"] < places[depth]
