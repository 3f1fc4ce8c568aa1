"""The files are sound, small and whole: syntax, object streams, fonts.

Fonts: ISO 14289-1:2014, 7.21.4 (embedding), ISO 32000-1:2008, 9.6.4 (subsets).
"""

import io
import re
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pikepdf
import pypdf
import pytest
from fontTools.ttLib import TTFont

from tests.accessibility import builds, machine

each_edition = pytest.mark.parametrize(("demo", "edition"), builds.EDITIONS)

LARGEST = 250_000  # bytes: 12 pages with charts take 159,000, 46,000 of them for fonts
LARGEST_PAGE = 19_000
"""Bytes a page on average, fonts left out; a cover of 4,000 stitches takes 60,000."""
GLYPHS = {"Lato": 2_000, "IBMPlexSerif": 900}  # the whole faces hold at least so many


@machine.needs("qpdf")
@each_edition
def test_syntax_is_clean(demo: str, edition: str, saved: Callable[[str, str], Path]) -> None:
    """``qpdf --check`` reads every object and stream and has nothing to say against any."""
    done = subprocess.run(
        ["qpdf", "--check", str(saved(demo, edition))], capture_output=True, text=True
    )
    assert done.returncode == 0, done.stdout + done.stderr
    assert "WARNING" not in done.stdout + done.stderr
    assert "No syntax or stream encoding errors found" in done.stdout


@each_edition
def test_file_is_small(
    demo: str,
    edition: str,
    opened: Callable[[str, str], pikepdf.Pdf],
    record_property: Callable[[str, object], None],
) -> None:
    """A knitter may load it on a telephone; the figures go into the test report."""
    file = opened(demo, edition)
    size, pages = len(builds.pdf(demo, edition)), len(file.pages)
    fonts = {one.objgen: one for page in file.pages for one in page.Resources.Font.values()}
    fonts_size = sum(len(one.FontDescriptor.FontFile2.read_raw_bytes()) for one in fonts.values())
    record_property("bytes", size)
    record_property("pages", pages)
    print(f"{demo} {edition}: {size:,} bytes, {pages} pages, {size / pages:,.0f} a page")
    assert size < LARGEST
    assert (size - fonts_size) / pages < LARGEST_PAGE


@each_edition
def test_objects_are_packed(
    demo: str, edition: str, opened: Callable[[str, str], pikepdf.Pdf]
) -> None:
    """Tags are thousands of small objects: nearly all objects lie in compressed object streams."""
    data = builds.pdf(demo, edition)
    assert data.startswith(b"%PDF-1.7")
    loose = len(re.findall(rb"^\d+ 0 obj\b", data, re.MULTILINE))
    every = len(opened(demo, edition).objects)
    assert every > 100
    assert loose < every / 5
    assert b"/StructElem" not in data
    for one in opened(demo, edition).objects:
        if isinstance(one, pikepdf.Stream) and one.get("/Type") not in ("/Metadata", "/XRef"):
            packed = len(one.read_raw_bytes()) < 100 or "/Filter" in one
            assert packed, one.get("/Type")


@each_edition
def test_fonts_are_embedded_subsets(
    demo: str, edition: str, opened: Callable[[str, str], pikepdf.Pdf]
) -> None:
    """No face is left to the reader's machine, and none comes with glyphs that are not used."""
    fonts = {
        font.objgen: font
        for page in opened(demo, edition).pages
        for font in page.Resources.Font.values()
    }
    assert fonts
    for font in fonts.values():
        name = re.fullmatch(r"/([A-Z]{6})\+(\w+)-(\w+)", str(font.BaseFont))
        assert name
        family = name[2]
        descriptor = font.FontDescriptor
        assert descriptor.FontName == font.BaseFont
        program = TTFont(io.BytesIO(descriptor.FontFile2.read_bytes()))
        codes = int(font.LastChar) - int(font.FirstChar) + 1
        assert codes == len(font.Widths)
        assert program["maxp"].numGlyphs < GLYPHS[family] / 4
        assert "/ToUnicode" in font


@each_edition
def test_another_reader_finds_the_same_fonts(demo: str, edition: str) -> None:
    """pypdf, strict about syntax, walks all pages and their fonts."""
    reader = pypdf.PdfReader(io.BytesIO(builds.pdf(demo, edition)), strict=True)
    for page in reader.pages:
        resources: Any = page["/Resources"]
        for font in resources["/Font"].values():
            held = font.get_object()
            assert held["/FontDescriptor"].get_object()["/FontFile2"].get_object().get_data()
    assert builds.document(demo, edition).title in reader.pages[0].extract_text().replace("\n", " ")


@each_edition
def test_different_subsets_have_different_names(
    demo: str, edition: str, opened: Callable[[str, str], pikepdf.Pdf]
) -> None:
    """ISO 32000-1, 9.6.4: different subsets in one file have different tags."""
    names = {
        font.objgen: str(font.BaseFont)
        for page in opened(demo, edition).pages
        for font in page.Resources.Font.values()
    }
    tags = [name[1:7] for name in names.values()]
    assert len(set(tags)) == len(tags), sorted(names.values())
