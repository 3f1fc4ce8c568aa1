"""What a page costs in ink, and that text is printed with black alone."""

import io
import shutil
import subprocess
from pathlib import Path

import pikepdf
import pypdf
import pytest

from bindoff.document.tree import Cover, DefinitionList, Figure
from bindoff.render.pdf import render_pdf
from tests.render.pdf import sample
from tests.render.pdf.painted import DEMOS, OPTIONS, demo, fills
from tests.render.pdf.test_pdf_layout import pieces

LEAST_SAVED = 0.30
"""Of the ink of the standard edition: the most that a print saver may use."""


def without_figures(edition: str) -> bytes:
    """The sample's words and tables; lettering of drawings has its own inks."""
    blocks = [
        block for block in sample.blocks() if not isinstance(block, Figure | Cover | DefinitionList)
    ]
    return render_pdf(sample.document(*blocks), OPTIONS[edition])


@pytest.mark.parametrize("edition", OPTIONS)
def test_text_is_black_alone(edition: str) -> None:
    """A blue-grey is printed in four inks by a press, and as dots by a laser."""
    body = 11.5 if edition == "calm" else 1000.0  # headings of sections are larger and may differ
    inks = {ink for type_, size, ink in fills(without_figures(edition)) if type_ and size <= body}
    safety = set() if edition != "calm" else {ink for ink in inks if len(ink) == 3}
    assert inks - safety == {(0.0,)}
    assert len(safety) <= 1  # the head of a safety note


@pytest.mark.parametrize("name", DEMOS)
@pytest.mark.parametrize("edition", ["grey", "print-saver", "large-print"])
def test_words_and_figures_of_a_demo_are_black_or_white_alone(name: str, edition: str) -> None:
    """White stands on the black flags of a tube's map only."""
    inks = {ink for type_, _, ink in fills(demo(name, edition)) if type_}
    assert {(0.0,)} <= inks <= {(0.0,), (1.0,)}


@pytest.mark.parametrize("name", DEMOS)
def test_print_saver_fills_nothing_but_symbols(name: str) -> None:
    """White or black, without a tint: cells of charts, swatches, schematics and notes."""
    inks = {ink for _, _, ink in fills(demo(name, "print-saver"))}
    assert inks <= {(0.0,), (1.0,)}


@pytest.mark.skipif(not shutil.which("gs"), reason="needs Ghostscript")
@pytest.mark.parametrize("name", DEMOS)
def test_print_saver_saves_ink(name: str, tmp_path: Path) -> None:
    """The share of the paper that each of the four inks covers, summed over all pages."""

    def ink(edition: str) -> float:
        path = tmp_path / f"{edition}.pdf"
        path.write_bytes(demo(name, edition))
        command = ["gs", "-q", "-o", "-", "-r50", "-sDEVICE=inkcov", str(path)]
        told = subprocess.run(command, capture_output=True, text=True, check=True).stdout
        return sum(float(part) for line in told.splitlines() for part in line.split()[:4])

    assert ink("print-saver") <= LEAST_SAVED * ink("calm")


def rules(data: bytes) -> set[float]:
    """The widths in points of lines that are no part of a drawing: of artifacts, in tags' terms."""
    found = set()
    with pikepdf.open(io.BytesIO(data)) as file:
        for page in file.pages:
            width, kind = 1.0, ""
            for step in pikepdf.parse_content_stream(page):
                match str(step.operator):
                    case "BDC" | "BMC":
                        kind = str(step.operands[0])
                    case "w":
                        width = float(step.operands[0])
                    case "S" if kind == "/Artifact":
                        found.add(width)
    return found


@pytest.mark.parametrize("name", DEMOS)
def test_print_saver_draws_thin_lines(name: str) -> None:
    """A quarter of a point is the thinnest that prints reliably; common practice, no source."""
    usual, saving = (rules(demo(name, edition)) for edition in ("calm", "print-saver"))
    of_tables = {0.4, 0.6, 1.2}
    assert of_tables <= usual
    assert not of_tables & saving
    assert min(saving) >= 0.25


@pytest.mark.parametrize("name", DEMOS)
@pytest.mark.parametrize("edition", ["calm", "grey", "print-saver"])
def test_no_type_is_smaller_than_8_points(name: str, edition: str) -> None:
    """Common practice, no source: small type on home printers begins to fill in below that."""
    pages = pypdf.PdfReader(io.BytesIO(demo(name, edition))).pages
    assert min(size for page in pages for *_, size in pieces(page)) >= 7.99
