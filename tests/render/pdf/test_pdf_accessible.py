"""The file is PDF/UA-1: two independent checkers agree, and both refuse a broken one.

The requirements are those of ISO 14289-1:2014 as listed in the Matterhorn Protocol 1.02.
"""

import io
import shutil
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path

import outloud
import page
import pikepdf
import pytest

from bindoff.document.tree import Callout, Column, Figure, Heading, ItemList, Link, Table, TableRow
from bindoff.render.pdf import PdfOptions, render_pdf
from bindoff.render.pdf.aboutfile import Metadata
from bindoff.render.pdf.drawing import colour_numbers
from bindoff.render.pdf.fonts import face
from bindoff.render.pdf.tagging import PdfWriter, Tag
from tests.render.pdf import sample

ABOUT = Metadata("Title", "Author", "en", "Subject", ("word",), "2024-05-01", "bindoff")


def failures(path: str) -> list[str]:
    """What the first checker finds wrong."""
    report = page.validate_pdf(path, profile=page.ValidationProfile.PDF_UA_1)
    return [str(failure) for failure in report.failures]


def errors(path: str) -> list[str]:
    """What the second checker finds wrong."""
    result = outloud.check(path)
    assert result.error is None
    return [finding.rule for finding in result.findings if finding.severity == "error"]


def one_line(tagged: bool, alt: str = "A square") -> bytes:
    """A page with a heading, a line and a figure; the line may be left untagged."""
    root = Tag("Document")
    writer = PdfWriter(colour_numbers)
    writer.new_page(300, 300)
    font = face("sans").font
    writer.tag(root.add("H1"))
    writer.text(font, 12, "#000000", (50, 250), "A heading for the page")
    if tagged:
        writer.tag(root.add("P"))
    else:
        writer._close()
    writer.text(font, 12, "#000000", (50, 200), "A line of text that must be read aloud")
    figure = root.add("Figure", alt=alt, box=(50, 50, 100, 100))
    writer.tag(figure)
    writer.box(50, 50, 50, 50, fill="#336699")
    return writer.finish(root, ABOUT)


@pytest.mark.parametrize("name", ["a4", "letter", "large", "grey"])
def test_first_checker_finds_nothing(
    name: str, rendered: Callable[[str], bytes], saved: Callable[[bytes], str]
) -> None:
    assert failures(saved(rendered(name))) == []


@pytest.mark.parametrize("name", ["a4", "large"])
def test_second_checker_finds_nothing(
    name: str, rendered: Callable[[str], bytes], saved: Callable[[bytes], str]
) -> None:
    assert errors(saved(rendered(name))) == []


def test_both_checkers_pass_the_control_that_is_right(saved: Callable[[bytes], str]) -> None:
    path = saved(one_line(tagged=True))
    assert failures(path) == []
    assert errors(path) == []


def test_both_checkers_refuse_an_untagged_line(saved: Callable[[bytes], str]) -> None:
    path = saved(one_line(tagged=False))
    assert failures(path)
    assert "TAG-001" in errors(path)


def test_both_checkers_refuse_a_figure_without_words(saved: Callable[[bytes], str]) -> None:
    path = saved(one_line(tagged=True, alt=""))
    assert failures(path)
    assert errors(path)


@pytest.mark.parametrize(
    ("name", "spoil"),
    [
        ("language", lambda pdf: pdf.Root.__delitem__("/Lang")),
        ("title bar", lambda pdf: pdf.Root.__delitem__("/ViewerPreferences")),
        ("tab order", lambda pdf: pdf.pages[1].obj.__delitem__("/Tabs")),
        ("identifier", lambda pdf: pdf.Root.__delitem__("/Metadata")),
        ("mark", lambda pdf: pdf.Root.__delitem__("/MarkInfo")),
    ],
)
def test_each_document_wide_promise_is_needed(
    name: str,
    spoil: Callable[[pikepdf.Pdf], None],
    rendered: Callable[[str], bytes],
    saved: Callable[[bytes], str],
) -> None:
    """Taking one entry away makes the checker speak, so the clean result above means something."""
    out = io.BytesIO()
    with pikepdf.open(io.BytesIO(rendered("a4"))) as pdf:
        spoil(pdf)
        pdf.save(out)
    assert failures(saved(out.getvalue())), name


def test_heading_levels_are_never_skipped(saved: Callable[[bytes], str]) -> None:
    """Matterhorn 14-003: a source that jumps from a title to a fourth level is mended in tags."""
    document = sample.document(
        Heading(2, sample.t("Starts low")),
        sample.p("Text."),
        Heading(4, sample.t("Jumps")),
        sample.p("Text."),
    )
    path = saved(render_pdf(document))
    assert failures(path) == []
    assert errors(path) == []


@pytest.mark.parametrize("kind", ["PNG", "JPEG"])
@pytest.mark.parametrize("mode", ["RGB", "L"])
def test_photographs_are_figures(kind: str, mode: str, saved: Callable[[bytes], str]) -> None:
    document = sample.document(
        Heading(1, sample.t("Photograph")),
        Figure(sample.photo(kind, mode=mode), "A gradient", sample.t("Caption")),
    )
    assert failures(saved(render_pdf(document))) == []


def test_clear_photograph_in_grey_is_valid(saved: Callable[[bytes], str]) -> None:
    document = sample.document(
        Heading(1, sample.t("Photograph")), Figure(sample.photo(mode="RGBA"), "A gradient")
    )
    assert failures(saved(render_pdf(document, PdfOptions(grey=True)))) == []


def structure(data: bytes, tmp_path: Path) -> list[str]:
    """The tag tree as an independent reader sees it, one stripped line per element."""
    path = tmp_path / "tree.pdf"
    path.write_bytes(data)
    shown = subprocess.run(
        ["pdfinfo", "-struct-text", str(path)], capture_output=True, text=True, check=True
    )
    return [line.strip() for line in shown.stdout.splitlines() if "Object" not in line]


@pytest.mark.skipif(shutil.which("pdfinfo") is None, reason="poppler's pdfinfo is not installed")
def test_tag_tree_reads_in_story_order(tmp_path: Path) -> None:
    document = sample.document(
        Heading(1, sample.t("Hat")),
        sample.p("See ", Link(sample.t("the table"), "#t"), " first."),
        ItemList((sample.item("one"), sample.item("two")), ordered=True),
        Table(
            sample.t("Sizes"),
            (Column(sample.t("")), Column(sample.t("S"), "right", 0)),
            (TableRow((sample.t("Stitches"), sample.t("80"))),),
            id="t",
        ),
        Callout("safety", sample.t("Cords"), (sample.p("None."),)),
    )
    lines = [line.split(" (")[0].rstrip(":") for line in structure(render_pdf(document), tmp_path)]
    assert lines == [
        "Document",
        "H1",
        '"Hat"',
        "P",
        '"See "',
        "Link",
        '"the table"',
        '" first."',
        "L",
        "/ListNumbering /Decimal",
        "LI",
        "Lbl",
        '"1."',
        "LBody",
        '"one"',
        "LI",
        "Lbl",
        '"2."',
        "LBody",
        '"two"',
        "Table",
        "Caption",
        '"Sizes"',
        "THead",
        "TR",
        "TD",
        "TH",
        "/Scope /Column",
        '"S"',
        "TBody",
        "TR",
        "TH",
        "/Scope /Row",
        '"Stitches"',
        "TD",
        '"80"',
        "Div",
        "P",
        '"Safety: Cords"',
        "P",
        '"None."',
    ]


@pytest.mark.skipif(shutil.which("pdfinfo") is None, reason="poppler's pdfinfo is not installed")
def test_wrapped_lines_keep_their_space_and_split_paragraphs_stay_one(tmp_path: Path) -> None:
    """A screen reader must not hear "isworked" at a line end, nor two paragraphs at a page end."""
    words = " ".join(f"word{n}" for n in range(2500))
    document = sample.document(Heading(1, sample.t("Long")), sample.p(words))
    lines = structure(render_pdf(document), tmp_path)
    assert [line.split(" (")[0] for line in lines[:4]] == ["Document", "H1", '"Long"', "P"]
    assert "".join(line[1:-1] for line in lines[4:]) == words
    with pikepdf.open(io.BytesIO(render_pdf(document))) as pdf:
        assert len(pdf.pages) > 1


def test_repeated_table_heads_are_not_read_twice(rendered: Callable[[str], bytes]) -> None:
    """Continued heads are pagination artifacts: each is tagged once however many pages it is on."""
    with pikepdf.open(io.BytesIO(rendered("a4"))) as pdf:
        heads = [
            element
            for element in elements(pdf.Root.StructTreeRoot.K)
            if element.get("/S") == "/THead"
        ]
    assert len(heads) == len([b for b in sample.blocks() if isinstance(b, Table)])


def elements(kids: pikepdf.Object) -> Iterator[pikepdf.Object]:
    """Every structure element under ``kids``."""
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            yield kid
            if "/K" in kid:
                yield from elements(kid.K)
