"""Pages for the screen show what the PDF shows, in the same places, and where it comes from."""

import io
import re
import subprocess
from base64 import b64encode
from dataclasses import replace
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING, Any
from xml.etree import ElementTree as ET

import pypdf
import pytest
from PIL import Image, ImageChops, ImageFilter

from bindoff.diagnostics import Span
from bindoff.document.drawing import Drawing, Rect
from bindoff.document.drawing import Path as Outline
from bindoff.document.tree import Document, Figure, ItemList, ListItem, Origin
from bindoff.render.pdf import PdfOptions, render_pdf
from bindoff.render.pdf.drawing import colour_numbers
from bindoff.render.pdf.fonts import font_file, web_faces
from bindoff.render.pdf.screen import Screen, draw_pages
from bindoff.render.pdf.svgwriter import SvgWriter
from tests.browser import needs_chromium
from tests.render.pdf.sample import blocks, document, p, photo, t

if TYPE_CHECKING:
    from playwright.sync_api import Browser

SVG = "{http://www.w3.org/2000/svg}"
OPTIONS = [PdfOptions(), PdfOptions("letter", "large-print"), PdfOptions("a4", "print-saver", True)]
IDS = ["calm", "large-print-letter", "print-saver-grey"]


@pytest.fixture(scope="module")
def everything() -> Document:
    return document(*blocks(), Figure(photo(), "A hat."), Figure(photo("JPEG"), "A hat."))


def texts(page: str) -> list[tuple[str, float, float]]:
    """Each text of an SVG page with its place from the bottom left."""
    root = ET.fromstring(page)
    height = float(root.attrib["viewBox"].split()[3])
    found = []
    for each in root.iter(f"{SVG}text"):
        if matrix := each.get("transform"):
            x, y = map(float, re.findall(r"-?[\d.]+", matrix)[-2:])
        else:
            x, y = float(each.attrib["x"]), float(each.attrib["y"])
        found.append(("".join(each.itertext()), x, height - y))
    return found


def shown(page: pypdf.PageObject) -> list[tuple[float, float]]:
    """The place of each text object of a PDF page, in the order of its contents."""
    found: list[tuple[float, float]] = []
    begun = [False]

    def before(operator: bytes, _: Any, matrix: list[float], text_matrix: list[float]) -> None:
        if operator == b"BT":
            begun[0] = True
        elif operator in (b"Tj", b"TJ") and begun[0]:
            begun[0] = False
            found.append((text_matrix[4], text_matrix[5]))

    page.extract_text(visitor_operand_before=before)
    return found


@pytest.mark.parametrize("options", OPTIONS, ids=IDS)
def test_every_text_stands_where_the_pdf_has_it(everything: Document, options: PdfOptions) -> None:
    reader = pypdf.PdfReader(io.BytesIO(render_pdf(everything, options)))
    screen = draw_pages(everything, options)

    assert len(screen.pages) == len(reader.pages)
    for svg, page, size in zip(screen.pages, reader.pages, screen.sizes, strict=True):
        assert size == pytest.approx((page.mediabox.width, page.mediabox.height), abs=0.01)
        ours, theirs = texts(svg), shown(page)
        assert len(ours) == len(theirs)
        for (_, x, y), place in zip(ours, theirs, strict=True):
            assert (x, y) == pytest.approx(place, abs=0.1)
        said = re.sub(r"\s", "", "".join(text for text, _, _ in ours))
        # Rotated words are told by the reader after all others: the same letters, then.
        assert sorted(said) == sorted(re.sub(r"\s", "", page.extract_text()))


def word_boxes(data: bytes, folder: Path) -> list[list[tuple[str, float, float]]]:
    """Per page the words of a PDF and where they begin and end across, as poppler sees them."""
    file = folder / "words.pdf"
    file.write_bytes(data)
    html = subprocess.run(["pdftotext", "-bbox", file, "-"], capture_output=True, check=True).stdout
    return [
        [(str(word.text), float(word.attrib["xMin"]), float(word.attrib["xMax"])) for word in page]
        for page in ET.fromstring(html).iter("{http://www.w3.org/1999/xhtml}page")
    ]


FONTS = "".join(
    f"@font-face {{ font-family: '{each.family}'; font-weight: {each.weight}; "
    f"font-style: {'italic' if each.italic else 'normal'}; "
    f"src: url(data:font/ttf;base64,{b64encode(font_file(each.file)).decode()}) }}\n"
    for each in web_faces()
)
STYLE = """text { white-space: pre; font-variant-ligatures: none }
body { margin: 0 } svg { display: block }"""
ENDS = """() => [...document.querySelectorAll('text:not([transform])')].flatMap(text => {
  const words = []
  for (const word of text.textContent.matchAll(/[^\\s\\u00a0]+/g)) {
    const last = word.index + word[0].length - 1
    words.push([word[0], text.getStartPositionOfChar(word.index).x,
      text.getEndPositionOfChar(last).x])
  }
  return words
})"""


@needs_chromium
def test_a_browser_sets_the_words_as_wide_as_the_pdf_and_paints_the_same_page(
    everything: Document, tmp_path: Path, browser: "Browser"
) -> None:
    """Widths by poppler; pixels by poppler too, after a blur that leaves out how edges are drawn.

    2 % leaves room for the hinting of another rasteriser: what is moved or missing shows more.
    """
    screen, data = draw_pages(everything, PdfOptions()), render_pdf(everything)
    boxes = word_boxes(data, tmp_path)
    page = browser.new_page(viewport={"width": 1190, "height": 1684}, device_scale_factor=1)
    for number, svg in enumerate(screen.pages):
        page.set_content(f"<style>{FONTS}{STYLE}</style>{svg}")
        page.evaluate("() => document.fonts.ready")
        ours = sorted(tuple(each) for each in page.evaluate(ENDS))
        theirs = sorted(boxes[number])
        # A word may be parted by us where looks change, and by poppler at a wide kern.
        known = {word: (x, end) for word, x, end in theirs}
        alike = [each for each in ours if [one for one, _, _ in ours].count(each[0]) == 1]
        compared = [(one, known[one[0]]) for one in alike if one[0] in known]
        assert len(compared) > len(alike) * 0.6
        for (word, x, end), place in compared:
            assert x == pytest.approx(place[0], abs=0.1), word
            # The browser moves the space after it closer to some letters, such as an A.
            assert end == pytest.approx(place[1], abs=0.5), word
        wide, high = (round(each * 2) for each in screen.sizes[number])
        page.set_viewport_size({"width": wide, "height": high})
        seen = Image.open(io.BytesIO(page.screenshot())).convert("L")
        assert difference(seen, printed(data, number, seen.size, tmp_path)) < 0.02


def printed(data: bytes, number: int, size: tuple[int, int], folder: Path) -> Image.Image:
    """A page of a PDF as poppler draws it."""
    file = folder / "page.pdf"
    file.write_bytes(data)
    png = subprocess.run(
        [
            *("pdftoppm", "-png", "-f", str(number + 1), "-l", str(number + 1)),
            *("-scale-to-x", str(size[0]), "-scale-to-y", str(size[1]), file),
        ],
        capture_output=True,
        check=True,
    ).stdout
    return Image.open(io.BytesIO(png)).convert("L")


def difference(one: Image.Image, other: Image.Image) -> float:
    """The share of pixels that differ much once fine edges are blurred away."""
    blur = ImageFilter.GaussianBlur(3)
    apart = ImageChops.difference(one.filter(blur), other.filter(blur))
    return sum(apart.histogram()[25:]) / (one.width * one.height)


def test_the_comparison_notices_a_line_that_is_moved() -> None:
    page = Image.new("L", (800, 600), 255)
    one, other = page.copy(), page.copy()
    one.paste(0, (100, 100, 700, 130))
    other.paste(0, (100, 140, 700, 170))

    assert difference(one, other) > 0.02


# ---------------------------------------------------------------- what is drawn


def drawn(*shapes: Any) -> ET.Element:
    screen = draw_pages(document(Figure(Drawing(100, 60, shapes), "A square.")), PdfOptions())
    return ET.fromstring(screen.pages[0])


def test_a_shape_keeps_its_corners() -> None:
    corner = (("M", 10.0, 10.0), ("L", 40.0, 10.0), ("C", 50, 10, 50, 20, 40, 20), ("Z",))
    paths = [each.attrib["d"] for each in drawn(Outline(corner, fill="#123456")).iter(f"{SVG}path")]

    assert any(re.fullmatch(r"M[\d. ]+L[\d. ]+C[\d. ]+z", each) for each in paths)


def test_words_of_a_pattern_stay_words(everything: Document) -> None:
    """What looks like mark-up in a text is shown, not obeyed."""
    screen = draw_pages(document(p("<script>alert('x')</script> & <b>")), PdfOptions())
    page = ET.fromstring(screen.pages[0])

    assert not list(page.iter(f"{SVG}script"))
    assert "<script>alert('x')</script> & <b>" in "".join(
        each for each, *_ in texts(screen.pages[0])
    )


def test_a_photograph_has_the_address_it_is_given() -> None:
    screen = draw_pages(document(Figure(photo(), "A hat.")), PdfOptions(), lambda each: "photo/7")
    (image,) = ET.fromstring(screen.pages[0]).iter(f"{SVG}image")

    assert image.attrib["href"] == "photo/7"


def test_grey_pages_have_no_colour() -> None:
    red = Drawing(100, 60, (Rect(0, 0, 100, 60, "#aa2211"),))
    screen = draw_pages(document(Figure(red, "Red.")), PdfOptions(grey=True))

    colours = re.findall(r'(?:fill|stroke)="#(..)(..)(..)"', screen.pages[0])
    assert colours
    assert all(red == green == blue for red, green, blue in colours)


def test_same_document_same_pages(everything: Document) -> None:
    assert draw_pages(everything, PdfOptions()) == draw_pages(everything, PdfOptions())


# ---------------------------------------------------------------- where it comes from


def steps(count: int) -> Screen:
    items = tuple(
        ListItem(
            (p(f"Work {number} rounds. " * 12),), Origin(Span("hat.yaml", number, 1, number, 9))
        )
        for number in range(1, count + 1)
    )
    return draw_pages(document(ItemList(items, ordered=True)), PdfOptions())


def test_every_step_has_its_strip_of_a_page_and_no_two_share_one() -> None:
    screen = steps(40)

    assert {each.span.line for each in screen.regions} == set(range(1, 41))
    assert len(screen.pages) > 1
    for above, below in pairwise(screen.regions):
        assert above.page < below.page or above.bottom <= below.top + 0.01
    for each in screen.regions:
        wide, high = screen.sizes[each.page]
        assert 0 < each.left < each.right < wide
        assert 0 < each.top < each.bottom < high


def test_an_origin_is_no_part_of_what_a_document_says() -> None:
    one = ListItem((p("Knit."),), Origin(Span("a.yaml", 1, 1, 1, 2)))

    assert one == replace(one, origin=None) == replace(one, origin=Origin(Span("b", 9, 1, 9, 2)))
    assert hash(one) == hash(replace(one, origin=None))
    assert t("a") == t("a")


def test_a_shape_at_many_places_is_on_a_page_once_by_a_name_that_says_what_it_is() -> None:
    """Two pages beside each other never show one's shape at the other's places."""

    def page(colour: str) -> str:
        writer = SvgWriter(colour_numbers)
        writer.new_page(100, 100)
        writer.stamp("0 0 m 5 0 l 5 5 l h", 5, [(at, 10.0) for at in range(20)], fill=colour)
        (found,) = writer.pages()
        return found

    red, again, blue = page("#ff0000"), page("#ff0000"), page("#0000ff")
    names = [re.findall(r'<marker id="([^"]+)"', each) for each in (red, blue)]

    assert red == again
    assert len(names[0]) == len(names[1]) == 1
    assert names[0] != names[1]
    (spots,) = (each for each in ET.fromstring(red) if each.get("marker-mid"))
    corners = spots.attrib["d"].removeprefix("M").split()
    assert [*map(float, corners)] == [each for at in range(20) for each in (at, 90.0)]
    for where in ("start", "mid", "end"):
        assert spots.attrib[f"marker-{where}"] == f"url(#{names[0][0]})"
    assert red.count("<path") == 3, "the paper, the outline and the spots"
