"""What proof-readers get: words side by side, marked pages, an old text in place of a source."""

import json
from pathlib import Path

import pikepdf
import pypdf
import pytest
from click.testing import CliRunner, Result

from bindoff.cli import main
from bindoff.commands.wordsbeside import Words, side_by_side, words_that_differ
from bindoff.document.tree import Blocks, Document, Heading, Paragraph, Text
from bindoff.editions import Wanted
from bindoff.files import SOURCE_NAME, MemoryFiles
from bindoff.pipeline import build_pattern
from bindoff.render.pdf import PdfOptions
from bindoff.render.pdf.marked import render_marked
from tests.small_patterns import CAP, WAVES, changed

NEW = changed(
    CAP,
    ('version: "1.0"', 'version: "1.1"'),
    ("band of waves", "band of ripples"),
    ("rounds: 8", "rounds: 9"),
)


def write(folder: Path, name: str, text: str) -> Path:
    source = folder / name
    source.mkdir(parents=True)
    (source / SOURCE_NAME).write_text(text, "utf-8")
    (source / "waves.grid").write_text(WAVES, "utf-8")
    return source


@pytest.fixture
def both(tmp_path: Path) -> tuple[Path, Path]:
    return write(tmp_path / "old", "cap", CAP), write(tmp_path / "new", "cap", NEW)


def compare(*arguments: object) -> Result:
    return CliRunner().invoke(main, ["compare", *map(str, arguments)])


def test_words_that_differ_stand_side_by_side(both: tuple[Path, Path]) -> None:
    done = compare(*both, "--words")
    assert done.exit_code == 0, done.output
    old, new = "A plain cap with a band of waves.", "A plain cap with a band of ripples."
    assert f"{old:<48} | {new}" in done.output
    assert "Section 6" in done.output
    assert "8 rounds" in done.output or "Work 8" in done.output
    assert all(len(line) <= 100 for line in done.output.splitlines()[2:])  # two name the folders
    data = json.loads(compare(*both, "--words", "--json").output)["result"]
    opening = data[0]
    assert opening["under"] == ""
    assert opening["old"][-1] == "A plain cap with a band of waves."
    assert opening["new"][-1] == "A plain cap with a band of ripples."


def text_edition(size: str = "") -> str:
    files = MemoryFiles({SOURCE_NAME: CAP, "waves.grid": WAVES})
    made = build_pattern(files, SOURCE_NAME, "cap", wanted=Wanted(sizes=(size,) if size else ()))
    return made.files[f"cap{f'-{size}' if size else ''}.txt"].decode()


@pytest.mark.parametrize("size", ["", "M"])
def test_an_old_text_edition_will_do(both: tuple[Path, Path], tmp_path: Path, size: str) -> None:
    """All that it says is what the two sources say; of one size, that size is compared."""
    old = tmp_path / "cap.txt"
    old.write_text(text_edition(size), "utf-8")
    done = compare(old, both[1])
    assert done.exit_code == 0, done.output
    assert "ripples" in done.output
    if not size:
        assert done.output.splitlines()[2:] == compare(*both, "--words").output.splitlines()[2:]
    assert "No word differs" in compare(old, both[0]).output


def test_what_can_not_be_compared_is_told(both: tuple[Path, Path], tmp_path: Path) -> None:
    old = tmp_path / "cap.txt"
    assert "no folder or file" in compare(old, both[1]).output
    old.write_text(text_edition(), "utf-8")
    assert compare(old, both[1], "--marked", tmp_path / "a.pdf").exit_code == 2
    assert compare(both[0], "--words", "--gauge", "20 x 28 / 10 cm").exit_code == 2
    (both[1] / SOURCE_NAME).write_text("title: Cap\n", "utf-8")
    done = compare(both[0], both[1], "--words")
    assert done.exit_code == 1
    assert "error" in done.output


def test_marked_pages_are_written_once(both: tuple[Path, Path], tmp_path: Path) -> None:
    target = tmp_path / "marked.pdf"
    assert compare(*both, "--marked", target).exit_code == 0
    first = target.read_bytes()
    assert "there already" in compare(*both, "--marked", target).output
    assert compare(*both, "--marked", target, "--force").exit_code == 0
    assert target.read_bytes() == first
    words = "\n".join(page.extract_text() for page in pypdf.PdfReader(target).pages)
    assert "Changes since version 1.0" in " ".join(words.split()), "who can't see bars is told too"
    with pikepdf.open(target) as pdf:
        assert pdf.Root.MarkInfo.Marked
        assert pdf.check_pdf_syntax() == []


def document(*paragraphs: str) -> Document:
    told = tuple(Paragraph((Text(each),)) for each in paragraphs)
    blocks: Blocks = (Heading(1, (Text("Cap"),)), *told)
    return Document("Cap", "Nobody", "en-US", "1", "2026-11-02", "A cap.", ("S",), blocks)


def strokes(data: bytes, tmp_path: Path) -> list[tuple[float, float]]:
    """Bottom and top of each upright stroke in the margin."""
    path = tmp_path / "marked.pdf"
    path.write_bytes(data)
    found = []
    with pikepdf.open(path) as pdf:
        for page in pdf.pages:
            place: list[tuple[float, float]] = []
            for each in pikepdf.parse_content_stream(page):
                assert isinstance(each, pikepdf.ContentStreamInstruction)
                operands, operator = each.operands, each.operator
                if str(operator) in ("m", "l"):
                    place.append((float(operands[0]), float(operands[1])))
                elif str(operator) == "S" and len(place) == 2:
                    (x, low), (again, high) = place
                    if x == again:
                        found.append((low, high))
                    place = []
                elif str(operator) == "S":
                    place = []
    return found


LINES = ("Knit one round.", "Purl one round.", "Bind off.")


@pytest.mark.parametrize(
    ("new", "bars"),
    [
        (LINES, 0),
        (("Knit one round.", "Purl two rounds.", "Bind off."), 1),
        (("Knit 1 round.", "Purl one round.", "Bind off all."), 2),
        (("Knit one round.", "Bind off."), 1),
        ((*LINES, "Weave in ends."), 1),
    ],
)
def test_there_is_a_bar_for_each_place_that_changed(
    new: tuple[str, ...], bars: int, tmp_path: Path
) -> None:
    made = render_marked(document(*LINES), document(*new), PdfOptions())
    assert len(strokes(made, tmp_path)) == bars


def test_a_line_that_only_moved_to_another_page_is_no_change(tmp_path: Path) -> None:
    many = [f"Row {number}." for number in range(1, 60)]
    made = render_marked(document(*many), document("First of all, swatch.", *many), PdfOptions())
    assert len(strokes(made, tmp_path)) == 1


def test_lines_are_paired_with_those_most_like_them() -> None:
    old = ["Section 1: Cap", "Knit 8 rounds.", "Bind off loosely.", "Gone."]
    new = ["Section 1: Cap", "Knit 9 rounds.", "Weave in the ends.", "Bind off loosely at once."]
    (found,) = words_that_differ(old, new)
    assert found == Words("Section 1: Cap", tuple(old[1:]), tuple(new[1:]))
    shown = list(side_by_side([found], 60))
    assert [line for line in shown if "|" in line][2:] == [
        "Knit 8 rounds.               | Knit 9 rounds.",
        "                             | Weave in the ends.",
        "Bind off loosely.            | Bind off loosely at once.",
        "Gone.                        |",
    ]
