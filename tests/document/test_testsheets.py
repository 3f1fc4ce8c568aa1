"""Sheets for test knitters: what they ask, and that their fields can be filled in and heard."""

import io
import subprocess
from functools import cache
from pathlib import Path
from typing import Literal

import pikepdf
import pypdf
import pytest

from bindoff.editions import Wanted
from bindoff.files import SOURCE_NAME, MemoryFiles
from bindoff.pipeline import build_pattern
from tests.accessibility.machine import needs
from tests.accessibility.reference_rules import reports
from tests.small_patterns import CAP, WAVES

GOLDEN = Path(__file__).parents[1] / "golden" / "cap-test-sheets.txt"
STEPS = 6
"""Those of the cap: a step for each line of its source, numbered as the pattern numbers them."""


@cache
def built(name: str) -> bytes:
    files = MemoryFiles({SOURCE_NAME: CAP, "waves.grid": WAVES})
    wanted = Wanted(forms=("test sheets",))
    return build_pattern(files, SOURCE_NAME, "cap", wanted=wanted).files[name]


def test_the_text_to_type_into(request: pytest.FixtureRequest) -> None:
    text = built("cap-test-sheets.txt").decode()
    if request.config.getoption("--update"):
        GOLDEN.write_text(text, "utf-8")
    assert text == GOLDEN.read_text("utf-8")
    assert "Circumference.\nExpected:\nSize S: 48 centimeters" in text
    assert "Faults found in version 1.0" in text


def test_there_is_a_field_for_each_question_with_a_name_of_its_own() -> None:
    fields = pypdf.PdfReader(io.BytesIO(built("cap-test-sheets.pdf"))).get_fields() or {}
    steps = [name for name in fields if name.startswith("step-")]
    assert len(steps) == STEPS * 2, "a box for each step and size"
    assert all(fields[name]["/FT"] == "/Btn" for name in steps)
    assert {"measure-1", "gauge-1-stitches-after washing", "yarn-1", "yarn-2"} <= set(fields)
    assert fields["fault-3-page"]["/FT"] == "/Tx"


def test_each_field_is_in_the_tag_tree_and_says_what_it_is() -> None:
    """ISO 14289-1, 7.18.1 and 7.18.4: a ``Form`` element around each widget, and a name to hear."""
    with pikepdf.open(io.BytesIO(built("cap-test-sheets.pdf"))) as pdf:
        widgets = [note for page in pdf.pages for note in page.get("/Annots", [])]
        fields = list(pdf.Root.AcroForm.Fields)
        assert len(widgets) == len(fields) > 20
        tree = dict(zip(*[iter(pdf.Root.StructTreeRoot.ParentTree.Nums)] * 2, strict=True))
        for widget in widgets:
            element = tree[widget.StructParent]
            assert str(element.S) == "/Form"
            assert element.K.Obj.objgen == widget.objgen
            assert len(str(widget.TU)) > 3
            assert "/AP" in widget
            assert "/A" not in widget, "no action"
        assert all(str(page.Tabs) == "/S" for page in pdf.pages)
        assert "/NeedAppearances" not in pdf.Root.AcroForm


@needs("pdfinfo")
def test_what_is_filled_in_can_be_read_again(tmp_path: Path) -> None:
    """By another program than the one that wrote the form."""
    writer = pypdf.PdfWriter(clone_from=io.BytesIO(built("cap-test-sheets.pdf")))
    for page in writer.pages:
        values = {"measure-1": "49 cm", "step-1": "/Yes"}
        writer.update_page_form_field_values(page, values, auto_regenerate=False)
    path = tmp_path / "filled.pdf"
    writer.write(path)
    fields = pypdf.PdfReader(path).get_fields() or {}
    assert fields["measure-1"]["/V"] == "49 cm"
    assert fields["step-1"]["/V"] == "/Yes"
    shown = subprocess.run(
        ["pdftotext", str(path), "-"], capture_output=True, text=True, check=True
    )
    assert "49 cm" in shown.stdout


def test_they_are_the_same_each_time() -> None:
    once = built("cap-test-sheets.pdf")
    built.cache_clear()
    assert built("cap-test-sheets.pdf") == once


@needs("java")
def test_a_form_keeps_to_the_standards_of_every_other_file(tmp_path: Path) -> None:
    """PDF/UA-1 and PDF/A-2a by the reference rules."""
    path = tmp_path / "sheets.pdf"
    path.write_bytes(built("cap-test-sheets.pdf"))
    standards: tuple[Literal["PDFUA_1", "PDFA_2_A"], ...] = ("PDFUA_1", "PDFA_2_A")
    for standard in standards:
        (report,) = reports([path], standard).values()
        assert report["failed"] == []
        assert report["compliant"]
