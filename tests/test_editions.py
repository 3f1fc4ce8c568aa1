"""Editions of one source: their names, their words, their charts, and that they are accessible."""

import io
import re
import subprocess
import sys
from collections.abc import Mapping
from functools import cache
from pathlib import Path

import pikepdf
import pypdf
import pytest
from click.testing import CliRunner, Result

from bindoff.cli import main
from bindoff.document.build import build_document
from bindoff.document.tree import Figure
from bindoff.editions import PATTERN_ALONE, Wanted, editions, file_part
from bindoff.files import SOURCE_NAME, DiskFiles
from bindoff.pipeline import build_pattern, drawn_for, plan_pattern
from bindoff.render.pdf import PdfOptions
from bindoff.render.text import render_text
from bindoff.source.statedgauge import parse_gauge
from tests.small_patterns import CAP, WAVES

ROOT = Path(__file__).parents[1]
HAT = ROOT / "patterns" / "harbour-light-hat"
NAME = HAT.name
PDFS = ("", "-letter", "-large-print", "-print-saver", "-grey", "-card", "-S", "-M", "-L")
PER_SIZE = re.compile(r"\d \([\d.]+[¼½¾⅛⅜⅝⅞]?, ")
"""The trade's way to print a figure for each of several sizes: 80 (88, 96)."""


@cache
def built() -> Mapping[str, bytes]:
    files = DiskFiles(str(HAT))
    return build_pattern(files, SOURCE_NAME, NAME, wanted=Wanted(every=True)).files


def words(data: bytes) -> str:
    reader = pypdf.PdfReader(io.BytesIO(data))
    return "\n".join(page.extract_text() for page in reader.pages)


def test_the_pattern_itself_keeps_its_name() -> None:
    (alone,) = editions(PATTERN_ALONE, PdfOptions(), ("S", "M"), has_card=True)
    assert (alone.suffix, alone.text) == ("", True)


def test_names_that_would_be_the_same_are_told_apart() -> None:
    sizes = ("s", "S", "Letter", "a/b", "a b", "card")
    found = editions(Wanted(every=True), PdfOptions(), sizes, has_card=True)
    suffixes = [each.suffix.casefold() for each in found]
    assert len(set(suffixes)) == len(suffixes)
    assert all(re.fullmatch(r"(-[\w.]+)*", each) for each in suffixes)


@pytest.mark.parametrize(
    ("size", "part"),
    [("Child S", "Child-S"), ("2/4", "2-4"), ("5½", "5-1-2"), ("Größe Ł", "Grosse-L"), ("?", "")],
)
def test_a_size_as_part_of_a_file_name(size: str, part: str) -> None:
    assert file_part(size) == part


def test_all_editions_stand_side_by_side() -> None:
    assert {name for name in built() if name.endswith(".pdf")} == {f"{NAME}{s}.pdf" for s in PDFS}
    texts = {f"{NAME}{suffix}.txt" for suffix in ("", "-card", "-S", "-M", "-L")}
    assert {name for name in built() if name.endswith(".txt")} == texts
    assert {f"{NAME}.html", f"{NAME}.epub"} <= set(built())


def test_the_pattern_itself_is_the_same_with_and_without_editions() -> None:
    alone = build_pattern(DiskFiles(str(HAT)), SOURCE_NAME, NAME).files
    assert {name: built()[name] for name in alone} == alone


@pytest.mark.parametrize("size", ["S", "M", "L"])
def test_one_size_has_no_figures_of_others(size: str) -> None:
    told = built()[f"{NAME}-{size}.txt"].decode()
    printed = words(built()[f"{NAME}-{size}.pdf"])
    assert PER_SIZE.search(words(built()[f"{NAME}.pdf"]))  # the pattern prints so, and is found
    assert not PER_SIZE.search(printed)
    assert not PER_SIZE.search(told)
    assert f"Size: {size}." in told
    assert told.startswith(f"Harbour Light Hat, size {size}\n")
    assert f"Harbour Light Hat, size {size} · version 1.0" in printed, "in the foot of each page"
    assert "How to read the sizes" in words(built()[f"{NAME}.pdf"])
    assert not re.search(r"\b(your|each|every) size\b|\bsizes\b", printed, re.IGNORECASE)


@pytest.mark.parametrize("size", ["S", "M", "L"])
def test_one_size_needs_fewer_pages_than_all(size: str) -> None:
    whole, one = (pypdf.PdfReader(io.BytesIO(built()[f"{NAME}{s}.pdf"])) for s in ("", f"-{size}"))
    assert len(one.pages) < len(whole.pages)


@pytest.mark.parametrize("size", ["S", "M", "L"])
def test_one_size_is_told_its_stripes_in_a_sentence(size: str) -> None:
    told = built()[f"{NAME}-{size}.txt"].decode()
    last = {"S": 74, "M": 76, "L": 76}[size]
    assert re.search(
        rf"Stripes and their rounds: Night, 1 to \d+; .*; Night, \d+ to {last}\.", told
    )


@pytest.mark.parametrize("size", ["S", "M", "L"])
def test_one_size_names_its_own_text(size: str) -> None:
    """The page names the text beside it; a text says nothing of itself."""
    printed, told = (words(built()[f"{NAME}-{size}.pdf"]), built()[f"{NAME}-{size}.txt"].decode())
    assert set(re.findall(rf"{NAME}\S*\.txt", printed)) == {f"{NAME}-{size}.txt"}
    assert ".txt" not in told


@pytest.mark.parametrize(("suffix", "width"), [("", 595), ("-letter", 612), ("-large-print", 595)])
def test_paper(suffix: str, width: int) -> None:
    """ISO 216 A4 is 210 mm wide, US Letter 8.5 in."""
    reader = pypdf.PdfReader(io.BytesIO(built()[f"{NAME}{suffix}.pdf"]))
    assert {round(float(page.mediabox.width)) for page in reader.pages} == {width}


LARGE = drawn_for("large-print")


def test_charts_of_large_print_have_cells_of_7_mm_and_a_half() -> None:
    """The longer side, nearly twice that of the usual print; a fifth less where a chart is only
    looked at; common practice, no source."""
    files = DiskFiles(str(HAT))
    document, charts = build_document(plan_pattern(files, SOURCE_NAME, NAME), files, drawn=LARGE)
    assert charts
    for page in charts:
        for tile in page.tiles:
            stitches = tile.core.last_stitch - tile.core.first_stitch + 1
            rows = tile.core.last_row - tile.core.first_row + 1
            aspect = page.spec.cell_height_mm / page.spec.cell_width_mm
            cell = 7.5 if page.worked else 6
            widest = cell if aspect <= 1 else cell / aspect
            assert tile.drawing.width >= stitches * widest
            assert tile.drawing.height >= rows * min(cell, cell * aspect)
            assert tile.drawing.width <= LARGE.width
    assert any(isinstance(block, Figure) for block in document.blocks)


def test_large_cells_change_no_word_but_how_the_pieces_join() -> None:
    files = DiskFiles(str(HAT))
    plan = plan_pattern(files, SOURCE_NAME, NAME)
    large = render_text(build_document(plan, files, drawn=LARGE)[0]).splitlines()
    usual = render_text(build_document(plan, files, drawn=drawn_for("calm"))[0]).splitlines()
    known = set(usual)
    added = [line for line in large if line not in known]
    apart = r"[Pp]art \d|Map of the chart|How they join|[Ff]olded"  # views beside the map, too
    assert all(re.search(apart, line) for line in added)


def test_a_gauge_for_another_size_does_not_hinder_the_edition_of_one() -> None:
    gauges = (parse_gauge("S = 10 x 13.8 / 10 cm"),)
    files = DiskFiles(str(HAT))
    made = build_pattern(files, SOURCE_NAME, NAME, gauges=gauges, wanted=Wanted(sizes=("M",))).files
    assert f"{NAME}-M.pdf" in made


@pytest.mark.parametrize("suffix", ["-card", "-M", "-large-print"])
def test_editions_are_tagged_and_whole(suffix: str) -> None:
    """ISO 14289-1:2014: 7.1 tagged content and title, 7.2 language, 7.21 fonts; file syntax."""
    with pikepdf.open(io.BytesIO(built()[f"{NAME}{suffix}.pdf"])) as pdf:
        assert pdf.Root.MarkInfo.Marked
        assert str(pdf.Root.Lang) == "en-US"
        assert pdf.Root.ViewerPreferences.DisplayDocTitle
        assert "/StructTreeRoot" in pdf.Root
        with pdf.open_metadata() as metadata:
            assert metadata["pdfuaid:part"] == "1"
        assert pdf.check_pdf_syntax() == []


def test_the_card_fits_a_page_a_size() -> None:
    reader = pypdf.PdfReader(io.BytesIO(built()[f"{NAME}-card.pdf"]))
    assert len(reader.pages) == 3
    for page, size in zip(reader.pages, "SML", strict=True):
        assert f"Hat, size {size}" in page.extract_text()


def test_many_stripes_fit_a_card_on_letter_and_their_tables_a_large_page(tmp_path: Path) -> None:
    """The Breakwater Cowl has 16 lines on its card and 15 rows in each table of its stripes."""
    cowl = ROOT / "patterns" / "breakwater-cowl"
    for options in (["--card", "--paper", "letter"], ["--large-print"]):
        command = [sys.executable, "-m", "bindoff", "build", str(cowl), "--out", str(tmp_path)]
        command += options
        subprocess.run(command, cwd=ROOT, capture_output=True, check=True)
    made = {path.name: pypdf.PdfReader(path) for path in tmp_path.rglob("*.pdf")}

    assert len(made["breakwater-cowl-card-letter.pdf"].pages) == 3
    (large,) = (made[name] for name in made if "large-print" in name)
    words = [page.extract_text() for page in large.pages]
    assert sum("Counter table: after which round to stop" in page for page in words) == 1
    assert not any("part 1 of" in page for page in words)
    assert not any(re.search(r"(Counter|Stripes)\b[^\n]*continued", page) for page in words)


def build(tmp_path: Path, *options: str) -> str:
    """What the command says of the hat, built below ``tmp_path``."""
    done = subprocess.run(
        [sys.executable, "-m", "bindoff", "build", str(HAT), "--out", str(tmp_path), *options],
        cwd=ROOT,
        capture_output=True,
        text=True,
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_text_is_wrapped_and_explains_abbreviations_unless_it_should_not(
    tmp_path: Path,
) -> None:
    """By the command, in every text edition and in no PDF; the record tells such builds apart."""
    options = ["--text-width", "40", "--size", "M"]
    assert "built" in build(tmp_path, *options)
    assert "unchanged" in build(tmp_path, *options)
    folder = tmp_path / NAME
    for name in (f"{NAME}.txt", f"{NAME}-M.txt"):
        text, usual = (folder / name).read_text("utf-8"), built()[name].decode()
        assert all(len(line) <= 40 or " " not in line for line in text.splitlines())
        explained = " ".join(text.split())
        assert "K1 (knit 1), k2tog (knit 2 together), k to last 3 stitches" in explained
        assert explained.count("(knit 2 together)") == 1
        assert explained == " ".join(usual.split())
        assert max(map(len, usual.splitlines())) > 100
        pdf = name.replace(".txt", ".pdf")
        assert (folder / pdf).read_bytes() == built()[pdf]
    assert "unchanged" not in build(tmp_path, "--plain-abbreviations")
    plain = (folder / f"{NAME}.txt").read_text("utf-8")
    explanations = r" \((knit 1|knit 2 together|slip, slip, knit|single crochet)\)"
    assert plain == re.sub(explanations, "", built()[f"{NAME}.txt"].decode()) != usual
    assert "unchanged" not in build(tmp_path, "--explain-abbreviations")


def test_the_narrowest_text_is_that_of_the_shortest_display() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "bindoff", "build", str(HAT), "--text-width", "5"],
        cwd=ROOT,
        capture_output=True,
        text=True,
    )
    assert done.returncode == 2
    assert "12" in done.stderr


@pytest.mark.parametrize(
    ("options", "code", "said"),
    [
        (["--size", "XXL"], 1, "`S`, `M`, `L`"),
        (["--all-editions", "--grey"], 2, "leave --paper"),
    ],
)
def test_what_cannot_be_built_is_told(
    options: list[str], code: int, said: str, tmp_path: Path
) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "bindoff", "build", str(HAT), "--out", str(tmp_path), *options],
        cwd=ROOT,
        capture_output=True,
        text=True,
    )
    assert done.returncode == code
    assert said in " ".join(done.stderr.split())
    assert list(tmp_path.iterdir()) == []


OPTIONS = [
    PdfOptions(paper=paper, theme=theme, grey=grey)
    for paper in ("a4", "letter")
    for theme in ("calm", "large-print", "print-saver")
    for grey in (False, True)
]
ODD_SIZES = ("s", "S", "Letter", "a/b", "a b", "card", "5½", "Средний", "Большой", "grey-letter")


def test_no_two_editions_have_the_same_name_whenever_they_are_built() -> None:
    """Each in ASCII, and one of its own even where case is not told apart."""
    named: dict[str, set[tuple[PdfOptions, str, str]]] = {}
    for pdf in OPTIONS:
        asked = [Wanted(card=True), *(Wanted(sizes=(size,)) for size in ODD_SIZES)]
        for wanted in (*asked, Wanted(every=True)) if pdf == PdfOptions() else asked:
            for each in editions(wanted, pdf, ODD_SIZES, has_card=True):
                printed = (
                    PdfOptions(pdf.paper, "calm", pdf.grey) if each.what == "card" else each.pdf
                )
                key = each.suffix.casefold()
                named.setdefault(key, set()).add((printed, each.size, each.what))
    assert all(len(same) == 1 for same in named.values()), named
    assert all(name.isascii() for name in named)
    cards = 4  # on two papers, in colour and in grey; always in large print
    assert len(named) == len(OPTIONS) * (1 + len(ODD_SIZES)) + cards


def test_editions_add_up(tmp_path: Path) -> None:
    """One that is built removes no other; stale ones are told, and removed on demand alone."""
    source = tmp_path / "cap"
    source.mkdir()
    (source / "pattern.yaml").write_text(CAP, "utf-8")
    (source / "waves.grid").write_text(WAVES, "utf-8")

    out = tmp_path / "out"

    def run(*options: str) -> Result:
        return CliRunner().invoke(main, ["build", str(source), "--out", str(out), *options])

    def names() -> set[str]:
        return {path.name for path in (out / "cap").iterdir()}

    usual = {"cap.pdf", "cap.txt", "numbers.json", "charts"}
    assert run().exit_code == 0
    first = (out / "cap" / "cap.pdf").read_bytes()
    assert names() == usual, "nothing of the program's own lies in the folder that is zipped"
    assert run("--large-print").exit_code == 0
    assert run("--print-saver", "--grey").exit_code == 0
    assert run("--size", "S").exit_code == 0
    more = {"cap-large-print.pdf", "cap-print-saver-grey.pdf", "cap-S.pdf", "cap-S.txt"}
    assert names() == usual | more
    assert (out / "cap" / "cap.pdf").read_bytes() == first
    for options in ((), ("--large-print",), ("--print-saver", "--grey"), ("--size", "S")):
        assert "cap: unchanged" in run(*options).stdout

    (source / "pattern.yaml").write_text(CAP.replace("rounds: 8", "rounds: 9"), "utf-8")
    changed = run()
    assert "note[output.stale]" in changed.stderr
    assert "`cap-S.pdf`" in changed.stderr
    assert names() == usual | more
    assert "note[output.stale]" in run().stderr, "told as long as it is so"
    cleaned = run("--clean")
    assert names() == usual
    assert "output.stale" not in cleaned.stderr
    assert "output.stale" not in run().stderr


def test_all_editions_may_be_asked_for_with_the_card(tmp_path: Path) -> None:
    done = CliRunner().invoke(
        main, ["build", str(HAT), "--out", str(tmp_path), "--all-editions", "--card"]
    )
    assert done.exit_code == 0
    assert (tmp_path / NAME / f"{NAME}-card.pdf").exists()
