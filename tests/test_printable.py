"""Signs that no typeface has and photographs that can't be opened, told with their places."""

import io
import re
import shutil
import subprocess
import unicodedata
from pathlib import Path

import pytest
from PIL import Image

from bindoff.diagnostics import Diagnostic, PatternError, Severity
from bindoff.files import MemoryFiles
from bindoff.pipeline import build_pattern, check_pattern
from bindoff.printable import MOST_NAMED, USUAL
from bindoff.render.pdf.fonts import refuse_missing
from tests.small_patterns import CAP, WAVES, changed


def found(text: str, **files: str | bytes) -> list[Diagnostic]:
    named = {name.replace("__", "/") + ".md": data for name, data in files.items()}
    memory = MemoryFiles({"pattern.yaml": text, "waves.grid": WAVES, **named})
    return list(check_pattern(memory, "pattern.yaml", "cap"))


def lost(text: str, **files: str | bytes) -> list[Diagnostic]:
    return [each for each in found(text, **files) if each.id == "font.glyph"]


def place(finding: Diagnostic) -> tuple[str, int, int]:
    assert finding.span is not None
    return finding.span.file, finding.span.line, finding.span.column


def test_the_usual_signs_are_in_the_typefaces() -> None:
    refuse_missing(USUAL)


@pytest.mark.parametrize(
    "words",
    [
        "Zażółć gęślą jaźń",  # Polish, all letters with marks
        "Příliš žluťoučký kůň úpěl ďábelské ódy",  # Czech
        "Árvíztűrő tükörfúrógép",  # Hungarian
        "Ξεσκεπάζω την ψυχοφθόρα βδελυγμία, ΐ ΰ Ώ",  # Greek
        "Съешь ещё этих мягких французских булок, да выпей чаю",  # Russian
        "Ґанок, її, є, Љубав, ђак, ћурка, ѓ ќ",  # Ukrainian, Serbian, Macedonian
        "Șoseaua țării, Ħaġ, ĳ, ß, ẞ, Þór",
    ],
)
def test_words_of_latin_greek_and_cyrillic_alphabets_can_be_printed(words: str) -> None:
    """Pangrams and letters of the alphabets, from memory."""
    assert lost(changed(CAP, ("A plain cap", f"{words} A plain cap"))) == []


def test_signs_of_one_text_are_told_together_where_the_first_stands() -> None:
    (only,) = lost(changed(CAP, ("title: Quay Cap", "title: Quay 帽子 Cap 帽")))

    assert place(only) == ("pattern/pattern.yaml", 1, 13)
    assert "`帽` (U+5E3D, cjk unified ideograph-5e3d), `子` (U+5B50" in only.message
    assert "in `Quay 帽子 Cap 帽`" in only.message


def test_of_many_signs_some_are_named_and_the_rest_counted() -> None:
    signs = "אבגדהוזחט"
    (only,) = lost(changed(CAP, ("title: Quay Cap", f"title: {signs}")))

    assert sum(sign in only.message.split(" in `")[0] for sign in signs) == MOST_NAMED
    assert f"and {len(signs) - MOST_NAMED} more" in only.message


@pytest.mark.parametrize(
    ("change", "line_of"),
    [
        (("name: Slate", "name: Slate 🧶"), "slate:"),
        (("  M: {", "  雪: {"), "雪:"),
        (("Circumference:", "円周:"), "円周:"),
        (("      - gather: all", "      - gather: all\n        note: Then 結ぶ."), "note:"),
        (("title: Waves", "title: 波"), "title: 波"),
    ],
)
def test_every_text_that_is_printed_is_looked_at(change: tuple[str, str], line_of: str) -> None:
    text = changed(CAP, change)
    numbers = [place(each)[1] for each in lost(text)]

    assert [text.split("\n")[number - 1].strip().startswith(line_of) for number in numbers] == [
        True
    ]


def test_a_sign_on_the_second_line_of_a_text_has_its_line_and_column() -> None:
    text = changed(
        CAP, ("A plain cap with a band of waves.", ">-\n  A plain cap\n  with 波 in it.")
    )
    (only,) = lost(text)

    assert place(only) == ("pattern/pattern.yaml", 7, 8)


def test_a_sign_in_a_template_has_its_place_there() -> None:
    (only,) = lost(CAP, templates__notes__care="# Care\n\nWash it 洗.\n")

    assert place(only) == ("pattern/templates/notes/care.md", 3, 9)


def test_signs_that_are_not_printed_are_no_fault() -> None:
    text = changed(CAP, ('"#": foam', '"波": foam'), ("title: Quay Cap", "title: Quay Cap # 波"))
    memory = {"pattern.yaml": text, "waves.grid": WAVES.replace("#", "波")}

    errors = check_pattern(MemoryFiles(memory), "pattern.yaml", "cap")

    assert [each for each in errors if each.id == "font.glyph"] == []


def test_an_unseen_sign_is_named_and_does_not_reach_the_terminal() -> None:
    (only,) = lost(changed(CAP, ("title: Quay Cap", "title: Qu\U000e0041ay Cap")))

    assert "U+E0041, tag latin capital letter a" in only.message
    assert only.message.isprintable()


def test_letters_in_pieces_are_found_where_they_stand() -> None:
    """A letter and its mark that are one sign in the document (NFC) and two in the file."""
    syllable = unicodedata.normalize("NFD", "각")
    (only,) = lost(changed(CAP, ("title: Quay Cap", f"title: Quay {syllable}")))

    assert place(only) == ("pattern/pattern.yaml", 1, 13)
    assert "U+AC01" in only.message


def test_a_build_tells_all_signs_with_their_places_too() -> None:
    text = changed(CAP, ("title: Quay Cap", "title: 帽"), ("name: Foam", "name: 泡"))
    memory = MemoryFiles({"pattern.yaml": text, "waves.grid": WAVES})
    with pytest.raises(PatternError) as raised:
        build_pattern(memory, "pattern.yaml", "cap")

    signs = [each for each in raised.value.findings if each.id == "font.glyph"]
    assert [place(each)[1] for each in signs] == [1, 12]


def test_a_broken_photograph_is_named_with_its_place() -> None:
    text = CAP + "photos:\n  - {file: quay.png, alt: A grey cap on the quay wall.}\n"
    memory = MemoryFiles(
        {"pattern.yaml": text, "waves.grid": WAVES, "quay.png": b"\x89PNG\r\n\x1a\nhalf"}
    )
    errors = check_pattern(memory, "pattern.yaml", "cap")
    (only,) = [each for each in errors if each.id == "pdf.photo"]

    assert "`quay.png`" in only.message
    assert place(only)[1] == text.count("\n")


Pixels = tuple[int, int]
PLACEMENTS: dict[str, list[Pixels]] = {
    "off the paper": [(1400, 900)],
    "over the measure": [(900, 450)],
    "beside the facts": [(700, 1000)],
    "sharp off the paper, soft in the main column": [(1700, 1000), (900, 450)],
    "in columns": [(1400, 900), (900, 450), (700, 1000), (400, 300)],
    "high": [(1500, 1100), (500, 900)],
}


def photographed(sizes: list[Pixels]) -> tuple[str, MemoryFiles]:
    """The cap with photographs of so many pixels, a line for each at the end of its source."""
    text, files = f"{CAP}photos:\n", dict[str, bytes]()
    for number, size in enumerate(sizes):
        picture = io.BytesIO()
        Image.linear_gradient("L").resize(size).save(picture, "JPEG")
        files[f"{number}.jpg"] = picture.getvalue()
        text += f"  - {{file: {number}.jpg, alt: A grey cap on the quay wall.}}\n"
    return text, MemoryFiles({"pattern.yaml": text, "waves.grid": WAVES, **files})


def ppi_on_pages(pdf: bytes, tmp_path: Path) -> list[int]:
    """Pixels to the inch of each picture of a file, as poppler measures them."""
    file = tmp_path / "cap.pdf"
    file.write_bytes(pdf)
    told = subprocess.run(["pdfimages", "-list", file], capture_output=True, text=True, check=True)
    head, _, *rows = told.stdout.splitlines()
    column = head.split().index("x-ppi")
    return [int(row.split()[column]) for row in rows]


@pytest.mark.skipif(shutil.which("pdfimages") is None, reason="poppler is not installed")
@pytest.mark.parametrize("placed", PLACEMENTS)
def test_a_photograph_too_small_for_its_printed_size_is_noted(placed: str, tmp_path: Path) -> None:
    """Under 200 pixels to the inch; common practice, no source."""
    text, memory = photographed(PLACEMENTS[placed])
    built = build_pattern(memory, "pattern.yaml", "cap")
    notes = [each for each in built.findings if each.id == "pdf.photo-soft"]
    printed = ppi_on_pages(built.files["cap.pdf"], tmp_path)
    soft = [(number, ppi) for number, ppi in enumerate(printed) if ppi < 200]

    assert len(printed) == len(PLACEMENTS[placed])
    assert notes == [
        each for each in check_pattern(memory, "pattern.yaml", "cap") if "photo" in each.id
    ]
    assert [
        (re.findall(r"`(\d)\.jpg`.*: (\d+) pixels to the inch", each.message), each.severity)
        for each in notes
    ] == [([(str(number), str(ppi))], Severity.NOTE) for number, ppi in soft]
    first = text.count("\n") - len(printed) + 1
    assert [place(each)[1] for each in notes] == [first + number for number, _ in soft]


def test_the_note_on_a_soft_photograph_tells_its_pixels_and_its_printed_size() -> None:
    """1,400 pixels over an A4 page of 210 mm (ISO 216), and 900 of 1,400 as high."""
    found = check_pattern(photographed([(1400, 900)])[1], "pattern.yaml", "cap")
    (note,) = [each for each in found if each.id == "pdf.photo-soft"]

    assert "has 1400 × 900 pixels and is printed 21 cm / 8¼ in wide and 13.5 cm" in note.message
    assert f": {1400 / (210 / 25.4):.0f} pixels to the inch" in note.message
    assert "1,700 pixels across" in note.help
    assert 1700 / (210 / 25.4) > 200
