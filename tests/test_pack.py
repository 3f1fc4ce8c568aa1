"""The shop folder: what is in it, that it is the same each time, and one reader's copy."""

import io
import zipfile
from functools import cache
from pathlib import Path
from typing import get_args

import pikepdf
import pypdf
import pytest
from click.testing import CliRunner, Result
from PIL import Image

from bindoff.cli import main
from bindoff.commands.pack import LONGEST
from bindoff.editions import CHOICES
from bindoff.files import SOURCE_NAME, MemoryFiles
from bindoff.packing import pack_pattern
from bindoff.pipeline import Outputs, plan_pattern
from bindoff.source.pattern import EditionName
from tests.small_patterns import CAP, WAVES, changed

CHOSEN = changed(
    CAP,
    (
        "wearer: [adult]\n",
        "wearer: [adult]\nkeywords: [waves, harbour]\neditions: [large print, html, card]\n"
        "changes: [{version: '1.0', date: 2026-11-02, note: The brim is longer.}]\n",
    ),
)


def files(text: str = CHOSEN, **more: bytes) -> MemoryFiles:
    photos = {f"{name}.jpg": data for name, data in more.items()}
    return MemoryFiles({SOURCE_NAME: text, "waves.grid": WAVES, **photos})


@cache
def packed(copy_for: str = "") -> Outputs:
    return pack_pattern(files(), SOURCE_NAME, "cap", copy_for=copy_for)


def test_the_folder_holds_what_a_shop_asks_for() -> None:
    bought = {
        "cap-large-print.pdf",
        "cap.html",
        "cap.pdf",
        "cap.txt",
        "charts/waves-key.svg",
        "charts/waves.svg",
    }
    shown = {"pictures/cover-square.png", "pictures/cover-portrait.png", "pictures/pages.png"}
    assert set(packed().files) == {
        *(f"for-buyers/{name}" for name in bought),
        *shown,
        "cap.zip",
        "listing.txt",
        "what-changed.txt",
    }
    with zipfile.ZipFile(io.BytesIO(packed().files["cap.zip"])) as archive:
        assert archive.testzip() is None
        for name in archive.namelist():
            folder, _, inner = name.partition("/")
            assert folder == "cap"
            assert archive.read(name) == packed().files[f"for-buyers/{inner}"]
        assert len(archive.namelist()) == len(bought)


def test_the_same_source_packs_to_the_same_bytes() -> None:
    once = dict(packed().files)
    packed.cache_clear()
    assert dict(packed().files) == once


def test_a_source_can_choose_each_edition_there_is() -> None:
    assert set(get_args(EditionName)) == set(CHOICES)


@pytest.mark.parametrize(
    ("name", "shape"), [("cover-square", (2000, 2000)), ("cover-portrait", (2000, 2500))]
)
def test_covers_have_the_shapes_that_shops_show(name: str, shape: tuple[int, int]) -> None:
    """1:1 and 4:5, 2,000 pixels across (common practice, no source)."""
    with Image.open(io.BytesIO(packed().files[f"pictures/{name}.png"])) as cover:
        assert cover.size == shape
        assert len(cover.convert("RGB").resize((50, 50)).getcolors(9999) or []) > 20


def photo(wide: int) -> bytes:
    file = io.BytesIO()
    image = Image.new("RGB", (wide, wide // 2), "#20a060")
    image.save(file, "JPEG")
    return file.getvalue()


def test_a_photograph_fills_the_cover_and_a_small_one_is_noted() -> None:
    text = changed(
        CAP,
        (
            "wearer: [adult]\n",
            "wearer: [adult]\nphotos: [{file: cap.jpg, alt: A cap on a bollard.}]\n",
        ),
    )
    found = pack_pattern(files(text, cap=photo(900)), SOURCE_NAME, "cap")
    assert [each.id for each in found.findings if each.id.startswith("pack.")] == [
        "pack.photo-small"
    ]
    with Image.open(io.BytesIO(found.files["pictures/cover-portrait.png"])) as cover:
        assert {cover.getpixel(at) for at in ((5, 5), (1990, 2490), (1000, 2400))} == {
            cover.getpixel((1000, 1200))
        }
    large = pack_pattern(files(text, cap=photo(2400)), SOURCE_NAME, "cap")
    assert not [each for each in large.findings if each.id.startswith("pack.")]


def test_the_listing_tells_what_a_buyer_asks() -> None:
    told = packed().files["listing.txt"].decode()
    for heading in ("SIZES AND MEASUREMENTS", "MATERIALS", "GAUGE", "SKILLS", "ACCESSIBILITY"):
        assert f"\n{heading}\n" in told
    assert "- Circumference, cm: 48 (52)" in told or "- Circumference: 48 (52) cm" in told
    assert "knitting pattern, waves, harbour" in told
    assert "large-print PDF" in told
    assert "EPUB" not in told, "it was not chosen"
    assert "card for the machine" not in told, "there is no machine"
    assert packed().files["what-changed.txt"].decode().splitlines()[2:] == [
        "1.0, 2026-11-02: The brim is longer."
    ]


def test_what_differs_from_a_version_at_hand_is_told() -> None:
    earlier = plan_pattern(files(changed(CAP, ("rounds: 8", "rounds: 6"))), SOURCE_NAME, "cap")
    told = pack_pattern(files(CAP), SOURCE_NAME, "cap", earlier).files["what-changed.txt"].decode()
    assert "8" in told
    assert "6" in told


def test_one_readers_copy_says_so_on_every_page_and_is_not_locked() -> None:
    made = packed("order 118").files
    assert set(made) == {name for name in packed().files if name.startswith("for-")} | {"cap.zip"}
    for name in ("cap.pdf", "cap-large-print.pdf"):
        data = made[f"for-buyers/{name}"]
        reader = pypdf.PdfReader(io.BytesIO(data))
        assert not reader.is_encrypted
        assert all("Copy for order 118" in page.extract_text() for page in reader.pages)
        with pikepdf.open(io.BytesIO(data)) as pdf, pdf.open_metadata() as about:
            assert "Copy for order 118" in about["dc:rights"]
            assert "/JavaScript" not in pdf.Root.get("/Names", pikepdf.Dictionary())
    assert "Copy for order 118." in made["for-buyers/cap.txt"].decode().splitlines()
    assert "Copy for order 118" in made["for-buyers/cap.html"].decode()


def test_files_name_keywords_rights_and_version() -> None:
    with pikepdf.open(io.BytesIO(packed().files["for-buyers/cap.pdf"])) as pdf:
        assert str(pdf.docinfo.Keywords) == "knitting pattern, waves, harbour"
        assert str(pdf.docinfo.Author) == "The Ebbstow Knitting Room"
        assert str(pdf.docinfo.Subject) == "A plain cap with a band of waves."
        with pdf.open_metadata() as about:
            assert about["dc:rights"] == "© 2026 The Ebbstow Knitting Room"
            assert about["xmpMM:VersionID"] == "1.0"


def run(folder: Path, *options: str) -> Result:
    source = folder / "cap"
    source.mkdir(exist_ok=True)
    (source / SOURCE_NAME).write_text(CHOSEN, "utf-8")
    (source / "waves.grid").write_text(WAVES, "utf-8")
    return CliRunner().invoke(main, ["pack", str(source), "--out", str(folder / "out"), *options])


def test_a_readers_copy_has_a_folder_of_its_own(tmp_path: Path) -> None:
    assert run(tmp_path).exit_code == 0
    whole = {path.name for path in (tmp_path / "out" / "cap").iterdir()}
    assert run(tmp_path, "--for", "Order 118 / Ł").exit_code == 0
    names = {path.name for path in (tmp_path / "out").iterdir()}
    assert names == {".bindoff", "cap", "cap-for-Order-118-L"}
    assert {path.name for path in (tmp_path / "out" / "cap").iterdir()} == whole


@pytest.mark.parametrize("reader", ["", "–", "x" * (LONGEST + 1), "a\u202eb"])
def test_a_reader_that_no_foot_can_print_is_refused(reader: str, tmp_path: Path) -> None:
    done = run(tmp_path, "--for", reader)
    assert done.exit_code == 2
    assert "reader" in done.output
    assert not (tmp_path / "out").exists()


def test_a_pattern_with_an_error_packs_nothing(tmp_path: Path) -> None:
    (tmp_path / "cap").mkdir()
    (tmp_path / "cap" / SOURCE_NAME).write_text("title: Cap\n", "utf-8")
    done = CliRunner().invoke(main, ["pack", str(tmp_path / "cap"), "--out", str(tmp_path / "out")])
    assert done.exit_code == 1
    assert not (tmp_path / "out").exists()
