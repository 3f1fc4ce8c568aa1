"""The file: same bytes, embedded fonts, paper, metadata, links, outline, photographs, greys."""

import io
import re
import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pikepdf
import pypdf
import pytest
from PIL import Image, ImageCms

from bindoff.diagnostics import PatternError
from bindoff.document.drawing import Drawing, Label
from bindoff.document.tree import Figure, Link, in_print
from bindoff.render.pdf import PdfOptions, render_pdf
from bindoff.render.pdf.drawing import colour_numbers, grey_numbers
from tests.render.pdf import sample

ROOT = Path(__file__).parents[3]


def test_bytes_are_the_same_for_every_hash_seed_and_time_zone() -> None:
    """Two processes with other hash seeds, clocks and paths give one file."""
    program = (
        "import sys, hashlib; sys.path.insert(0, sys.argv[1]);"
        "from tests.render.pdf import sample;"
        "from bindoff.render.pdf import render_pdf;"
        "print(hashlib.sha256(render_pdf(sample.document())).hexdigest())"
    )
    sums = {
        subprocess.run(
            [sys.executable, "-c", program, str(ROOT)],
            env={"PYTHONHASHSEED": seed, "TZ": zone, "PATH": ""},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed, zone in (("0", "UTC"), ("4711", "Asia/Tokyo"))
    }
    assert len(sums) == 1


def test_bytes_are_the_same_when_built_again(rendered: Callable[[str], bytes]) -> None:
    assert render_pdf(sample.document()) == rendered("a4")


@pytest.mark.parametrize(
    ("name", "width", "height"),
    [("a4", 595.276, 841.890), ("letter", 612.0, 792.0)],  # ISO 216; US Letter 8.5 × 11 in
)
def test_paper(name: str, width: float, height: float, rendered: Callable[[str], bytes]) -> None:
    for page in pypdf.PdfReader(io.BytesIO(rendered(name))).pages:
        box = page.mediabox
        assert sorted(map(float, (box.width, box.height))) == pytest.approx(
            [width, height], abs=0.01
        )


def test_metadata_comes_from_the_document(rendered: Callable[[str], bytes]) -> None:
    reader = pypdf.PdfReader(io.BytesIO(rendered("a4")))
    about = reader.metadata
    xmp = reader.xmp_metadata
    assert about is not None
    assert xmp is not None
    assert about.title == "Breakwater Hat"
    assert about.author == "Ida Marrow"
    assert str(about["/CreationDate"]) == "D:20240501000000Z"
    assert xmp.dc_title == {"x-default": "Breakwater Hat"}
    assert xmp.dc_creator == ["Ida Marrow"]
    assert xmp.dc_language == ["en"]


def test_metadata_is_escaped() -> None:
    data = render_pdf(sample.document(sample.p("x"), title="Knit & purl <two>"))
    xmp = pypdf.PdfReader(io.BytesIO(data)).xmp_metadata
    assert xmp is not None
    assert xmp.dc_title == {"x-default": "Knit & purl <two>"}


def test_document_without_a_day_has_no_dates() -> None:
    """A date is never made up: neither from the clock nor from half a date."""
    document = replace(sample.document(sample.p("x")), date="2024")
    reader = pypdf.PdfReader(io.BytesIO(render_pdf(document)))
    assert reader.metadata is not None
    assert reader.xmp_metadata is not None
    assert "/CreationDate" not in reader.metadata
    assert reader.xmp_metadata.xmp_create_date is None


def test_naming_the_render_does_not_load_the_typesetter() -> None:
    """The command line stays quick: ReportLab and pikepdf load with the first page."""
    program = (
        "import sys; sys.path.insert(0, sys.argv[1]); import bindoff.render.pdf;"
        "print({'reportlab', 'pikepdf', 'uharfbuzz', 'PIL'} & set(sys.modules))"
    )
    run = subprocess.run(
        [sys.executable, "-c", program, str(ROOT)], capture_output=True, text=True, check=True
    )
    assert run.stdout.strip() == "set()"


@pytest.mark.parametrize("name", ["a4", "large"])
def test_every_font_is_embedded_and_maps_to_unicode(
    name: str, rendered: Callable[[str], bytes]
) -> None:
    """No unembedded Helvetica; no code maps to U+0000 (ISO 14289-1, 7.21)."""
    with pikepdf.open(io.BytesIO(rendered(name))) as pdf:
        fonts = {
            str(font.BaseFont): font
            for page in pdf.pages
            for font in page.obj.Resources.Font.values()
        }
        assert fonts
        for base, font in fonts.items():
            assert re.match(r"/[A-Z]{6}\+(Lato|IBMPlexSerif)-", base)
            assert "/FontFile2" in font.FontDescriptor
            cmap = font.ToUnicode.read_bytes().decode()
            assert "<0000>" not in cmap
            sections = re.findall(r"(\d+) beginbfchar\n(.*?)endbfchar", cmap, re.DOTALL)
            for count, lines in sections:
                assert int(count) == lines.count("\n") <= 100  # ISO 32000-1, 9.10.3


def test_text_comes_back_as_written(rendered: Callable[[str], bytes]) -> None:
    """The characters survive kerning, subsets and line breaks."""
    pages = pypdf.PdfReader(io.BytesIO(rendered("a4"))).pages
    text = re.sub(r"\s+", " ", " ".join(page.extract_text() for page in pages))
    for wanted in (
        "A folded, double-layered hat whose waves are planned",
        "72 (76, 84, 90, 94, 98, 102, 106) sts.",
        "20 sts × 28 rounds = 10 cm, washed",
        "15¾ 17 18 19¾ 20½ 21¼ 22 23¼",
        "−10%",
        "Wash at 30 °C",
        "Stripes of the tube, continued",
        f"page 3 of {len(pages)}",
    ):
        assert wanted in text


def test_link_inside_leads_to_its_place_and_link_outside_to_its_address(
    rendered: Callable[[str], bytes],
) -> None:
    reader = pypdf.PdfReader(io.BytesIO(rendered("a4")))
    notes = [note.get_object() for page in reader.pages for note in page.get("/Annots", ()) or ()]
    titles = {node.title for node in flat(reader.outline)}
    inside = [
        note
        for note in notes
        if "/Dest" in note and re.sub(r" \d+$", "", note["/Contents"]) not in titles
    ]
    outside = [note for note in notes if "/A" in note]
    assert {note["/Contents"] for note in inside} == {"the finished measures", "stripes"}
    assert {note["/A"]["/URI"] for note in outside} == {"https://example.org/ebbstow/breakwater"}
    target = next(note for note in inside if note["/Contents"] == "stripes")["/Dest"][0]
    page = next(p for p in reader.pages if p.indirect_reference == target.indirect_reference)
    assert "Stripes of the tube, from the brim up" in page.extract_text()


def flat(nodes: list[Any]) -> Iterator[pypdf.generic.Destination]:
    """The entries of an outline, flat."""
    for node in nodes:
        yield from flat(node) if isinstance(node, list) else [node]


def test_link_to_nowhere_is_refused() -> None:
    with pytest.raises(PatternError) as caught:
        render_pdf(sample.document(sample.p(Link(sample.t("there"), "#nowhere"))))
    assert [finding.id for finding in caught.value.findings] == ["pdf.link"]


def test_outline_follows_the_headings(rendered: Callable[[str], bytes]) -> None:
    reader = pypdf.PdfReader(io.BytesIO(rendered("a4")))

    def titles(nodes: list[Any]) -> list[Any]:
        return [titles(node) if isinstance(node, list) else node.title for node in nodes]

    assert titles(reader.outline) == [
        "Breakwater Hat",
        [
            "Before you begin",
            ["Materials", "Abbreviations"],
            "The hat",
            ["Brim"],
            "Chart",
            "Finishing",
            ["Closing the crown", ["Blocking"]],
        ],
    ]


def test_missing_characters_are_all_named_before_anything_is_drawn() -> None:
    with pytest.raises(PatternError) as caught:
        render_pdf(sample.document(sample.p("knit 火 and purl 水"), sample.p("火 again")))
    findings = caught.value.findings
    assert [finding.id for finding in findings] == ["font.glyph", "font.glyph"]
    assert "`水` (U+6C34" in findings[0].message + findings[1].message
    assert "knit 火 and purl" in findings[0].message + findings[1].message


def test_missing_character_in_a_drawing_is_named_too() -> None:
    drawing = Drawing(20, 10, (Label(1, 5, "結"),))
    with pytest.raises(PatternError, match="U\\+7D50"):
        render_pdf(sample.document(Figure(drawing, "x")))


def test_character_of_the_other_family_stands_in() -> None:
    """Lato has no check mark; IBM Plex Serif has."""
    text = pypdf.PdfReader(io.BytesIO(render_pdf(sample.document(sample.p("done ✓ now"))))).pages
    assert "done ✓ now" in text[0].extract_text()


def test_photograph_that_is_none_is_refused() -> None:
    with pytest.raises(PatternError) as caught:
        render_pdf(sample.document(Figure(b"GIF89a no", "x")))
    assert caught.value.findings[0].id == "pdf.photo"


def test_jpeg_goes_into_the_file_untouched() -> None:
    data = sample.photo("JPEG")
    with pikepdf.open(io.BytesIO(render_pdf(sample.document(Figure(data, "x"))))) as pdf:
        image = pdf.pages[0].obj.Resources.XObject["/Photo0"]
        assert image.Filter == "/DCTDecode"
        assert image.read_raw_bytes() == data


def printed_photo(data: bytes) -> tuple[str, Image.Image]:
    with pikepdf.open(io.BytesIO(render_pdf(sample.document(Figure(data, "x"))))) as pdf:
        found = pdf.pages[0].obj.Resources.XObject["/Photo0"]
        assert isinstance(found, pikepdf.Stream)
        how = "masked" if "/SMask" in found else str(found.get("/Filter"))
        return how, pikepdf.PdfImage(found).as_pil_image()


def swapped_profile() -> bytes:
    """A colour profile whose red is sRGB's green and whose green is its red."""
    made = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    made = made.replace(b"rXYZ", b"....").replace(b"gXYZ", b"rXYZ").replace(b"....", b"gXYZ")
    return made.replace("sRGB".encode("utf-16-be"), "wide".encode("utf-16-be"))


@pytest.mark.parametrize("kind", ["PNG", "JPEG"])
def test_photograph_of_another_colour_profile_is_brought_to_srgb(kind: str) -> None:
    out = io.BytesIO()
    Image.new("RGB", (40, 30), "#e02010").save(out, kind, icc_profile=swapped_profile())
    _, seen = printed_photo(out.getvalue())
    red, green, blue = seen.convert("RGB").crop((20, 15, 21, 16)).tobytes()

    assert green > 180
    assert red < 80
    assert blue < 80


def test_a_profile_that_is_none_is_passed_over() -> None:
    out = io.BytesIO()
    Image.new("RGB", (40, 30), "#e02010").save(out, "PNG", icc_profile=b"not a profile at all")
    _, seen = printed_photo(out.getvalue())

    assert seen.convert("RGB").getpixel((20, 15)) == (224, 32, 16)


def test_png_photograph_becomes_a_jpeg_without_a_mask() -> None:
    """Lossless, one page of it is larger than all the rest of a pattern."""
    level = Image.linear_gradient("L")
    image = Image.merge("RGBA", (level, level.rotate(90), Image.radial_gradient("L"), level))
    out = io.BytesIO()
    image.save(out, "PNG")
    how, _ = printed_photo(out.getvalue())

    assert how == "/DCTDecode"


def test_picture_of_few_colours_stays_exact_and_its_clear_parts_show_paper() -> None:
    image = Image.new("RGBA", (40, 30), (0, 0, 0, 0))
    image.paste((20, 90, 160, 255), (0, 0, 20, 30))
    out = io.BytesIO()
    image.save(out, "PNG")
    how, seen = printed_photo(out.getvalue())

    assert how == "/FlateDecode"
    assert seen.convert("RGB").getpixel((5, 5)) == (20, 90, 160)
    assert seen.convert("RGB").getpixel((35, 5)) == (255, 255, 255)


def test_large_photograph_is_brought_down_to_300_ppi() -> None:
    """Print needs 300 ppi; more only makes the file bigger."""
    data = sample.photo("PNG", (2600, 400))
    out = render_pdf(sample.document(Figure(data, "x")))
    with pikepdf.open(io.BytesIO(out)) as pdf:
        image = pdf.pages[0].obj.Resources.XObject["/Photo0"]
        frame_inches = (210 - 20 - 20) / 25.4
        assert int(image.Width) == pytest.approx(frame_inches * 300, abs=2)


def test_grey_file_has_no_colour() -> None:
    """Every colour operator sets a single grey, and the photograph has one component."""
    out = render_pdf(sample.document(), PdfOptions(grey=True))
    with pikepdf.open(io.BytesIO(out)) as pdf:
        for page in pdf.pages:
            used = {str(step.operator) for step in pikepdf.parse_content_stream(page)}
            assert used & {"g", "G"}
            assert not used & {"rg", "RG", "k", "K", "sc", "SC", "scn", "SCN"}
            for image in page.obj.Resources.get("/XObject", {}).values():
                assert image.ColorSpace == "/DeviceGray"


@pytest.mark.parametrize(
    ("colour", "luminance"),
    [("#ff0000", 0.2126), ("#00ff00", 0.7152), ("#0000ff", 0.0722), ("#767676", 0.1812)],
)
def test_grey_keeps_the_luminance(colour: str, luminance: float) -> None:
    """WCAG 2.2 relative luminance: the weights, and #767676 whose contrast on white is 4.54."""
    (grey,) = grey_numbers(colour)
    linear = grey / 12.92 if grey <= 0.04045 else ((grey + 0.055) / 1.055) ** 2.4
    assert linear == pytest.approx(luminance, abs=5e-4)


def test_neutral_colours_are_written_as_grey() -> None:
    assert colour_numbers("#000000") == (0.0,)
    assert len(colour_numbers("#010000")) == 3


def test_size_values_print_as_the_trade_prints_them(rendered: Callable[[str], bytes]) -> None:
    values = ("72", "76", "84", "90", "94", "98", "102", "106")
    text = pypdf.PdfReader(io.BytesIO(rendered("a4"))).pages[1].extract_text()
    assert in_print(values) in re.sub(r"\s+", " ", text)


def test_file_is_small(rendered: Callable[[str], bytes]) -> None:
    """8 pages, 5 font subsets and a chart of 1,440 cells; object streams keep it under 120 kB."""
    assert len(rendered("a4")) < 120_000
