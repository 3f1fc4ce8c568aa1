"""A list that fills its page: terms as large as the page allows, and what is cut is named."""

import io

import pypdf
import pytest

from bindoff.document.drawing import Drawing, Rect
from bindoff.document.tree import (
    Block,
    Definition,
    DefinitionList,
    Document,
    Heading,
    PageBreak,
)
from bindoff.render.pdf import PdfOptions, render_pdf
from bindoff.render.pdf.pages import Layout, lay_out
from tests.render.pdf import sample

BOX = Drawing(7, 7, (Rect(0, 0, 7, 7),))


def document(*counts: int) -> Document:
    """A section of so many entries a page."""
    blocks: list[Block] = []
    for number, count in enumerate(counts):
        entries = tuple(
            Definition(sample.t(str(at * 7)), sample.t("Cut Slate, join Foam."), BOX, end=BOX)
            for at in range(count)
        )
        blocks += [PageBreak()] * bool(number)
        blocks += [
            Heading(2, sample.t(f"Hat {number}")),
            DefinitionList(entries, filling=True),
            sample.p("For version 1.0."),
        ]
    return sample.document(*blocks)


def laid_out(*counts: int) -> Layout:
    return lay_out(document(*counts), PdfOptions(theme="card"))


def heights(layout: Layout, page: int) -> list[float]:
    return [each.band.height for each in layout.pages[page].placed if each.band.what == "entry"]


@pytest.mark.parametrize("count", [2, 7, 11, 17])
def test_a_list_that_can_stands_on_one_page(count: int) -> None:
    layout = laid_out(count)

    assert len(layout.pages) == 1
    assert len(heights(layout, 0)) == count


def test_fewer_entries_are_larger_and_never_smaller_than_the_words_beside_them() -> None:
    layout = laid_out(3, 9, 13, 17)
    rows = [heights(layout, page)[0] for page in range(4)]

    assert rows == sorted(rows, reverse=True)
    assert rows[0] > rows[-1] >= 26


def test_a_list_that_goes_on_says_of_what() -> None:
    data = render_pdf(document(40), PdfOptions(theme="card"))
    pages = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages]

    assert len(pages) > 1
    assert all("Hat 0, continued" in page for page in pages[1:])
    assert sum(page.count("Cut Slate") for page in pages) == 40


def test_the_words_below_stand_on_the_page_of_the_last_entry() -> None:
    layout = laid_out(40)

    assert heights(layout, len(layout.pages) - 1)
