"""Braille: the words are those of the text edition, on pages that embossers take."""

import re
import subprocess
import xml.etree.ElementTree as ET
from functools import cache
from pathlib import Path

import pytest

from bindoff.diagnostics import PatternError
from bindoff.editions import Wanted
from bindoff.files import SOURCE_NAME, MemoryFiles
from bindoff.pipeline import build_pattern
from bindoff.render.braille import ASCII_BRAILLE, CELLS, LINES, braille_pages, brf, pef
from tests.accessibility.machine import needs
from tests.small_patterns import CAP, WAVES

needs_liblouis = needs("lou_translate")
GOLDEN = Path(__file__).parents[1] / "golden" / "cap-braille.txt"
PEF = "{http://www.daisy.org/ns/2008/pef}"


@cache
def built() -> dict[str, bytes]:
    files = MemoryFiles({SOURCE_NAME: CAP, "waves.grid": WAVES})
    wanted = Wanted(sizes=("S",), forms=("braille", "uncontracted braille"))
    return dict(build_pattern(files, SOURCE_NAME, "cap", wanted=wanted).files)


def louis(table: str, text: str, *options: str) -> str:
    """What liblouis makes of ``text``."""
    order = ["lou_translate", *options, table]
    return subprocess.run(order, input=text, capture_output=True, text=True, check=True).stdout


def pages(name: str) -> list[list[str]]:
    """The rows of each page of a BRF."""
    return [page.split("\r\n")[:-1] for page in built()[name].decode("ascii").split("\f")]


@needs_liblouis
def test_each_cell_has_the_character_that_liblouis_gives_it() -> None:
    """By its display tables, wherever a text uses the cell."""
    text = (
        built()["cap.txt"].decode()
        + "“Quite” (a–b) @ # & * / \\ ^ _ ~ $5 50% <x> {y} [z] ¾ é ñ ü\n"
    )
    signs = louis("en-ueb-g2.ctb", text).upper().translate(str.maketrans("{|}~`", "[\\]^@"))
    dots = louis("unicode.dis,en-ueb-g2.ctb", text)
    seen = {sign: cell for sign, cell in zip(signs, dots, strict=True) if sign != "\n"}
    assert len(seen) > 50
    assert {sign: ord(cell) - 0x2800 for sign, cell in seen.items()} == {
        sign: ASCII_BRAILLE.index(sign) for sign in seen
    }
    assert len(set(ASCII_BRAILLE)) == 64


@needs_liblouis
def test_the_pages_of_a_small_pattern_are_those_that_are_held(
    request: pytest.FixtureRequest,
) -> None:
    """Uncontracted, because contractions may change with the tables of liblouis."""
    told = "".join(
        f"==== page {number}\n" + "".join(f"{row}\n" for row in page)
        for number, page in enumerate(pages("cap-uncontracted.brf"), 1)
    )
    if request.config.getoption("--update"):
        GOLDEN.write_text(told, "utf-8")
    assert told == GOLDEN.read_text("utf-8")


@needs_liblouis
@pytest.mark.parametrize("name", ["cap", "cap-S", "cap-uncontracted"])
def test_pages_have_the_size_that_embossers_take(name: str) -> None:
    for number, page in enumerate(pages(f"{name}.brf"), 1):
        assert len(page) == LINES
        assert all(len(row) <= CELLS and row == row.rstrip() for row in page)
        assert set("".join(page)) <= set(ASCII_BRAILLE)
        assert page[-1].strip() == "#" + str(number).translate(
            str.maketrans("1234567890", "ABCDEFGHIJ")
        )


@needs_liblouis
def test_read_back_it_says_what_the_text_edition_says() -> None:
    """By liblouis, the other way about; capitals and the shape of quotation marks don't count."""
    rows = [row for page in pages("cap-uncontracted.brf") for row in page[:-1]]
    braille = " ".join(word for row in rows for word in row.split()).lower()
    words = braille.split()
    lines = "\n".join(" ".join(words[at : at + 40]) for at in range(0, len(words), 40))
    back = louis("en-ueb-g1.ctb", f"{lines}\n", "--backward")
    told = built()["cap.txt"].decode()
    assert plain(back) == plain(told)


def plain(text: str) -> list[str]:
    return re.findall(r"\w+", text.casefold().replace("’", "'"))


@needs_liblouis
def test_pef_has_the_same_cells() -> None:
    root = ET.fromstring(built()["cap.pef"])
    assert root.tag == f"{PEF}pef"
    assert root.get("version") == "2008-1"
    (volume,) = root.iter(f"{PEF}volume")
    assert (volume.get("cols"), volume.get("rows")) == ("40", "25")
    shown = [[row.text or "" for row in page] for page in root.iter(f"{PEF}page")]
    cells = {chr(0x2800 + at): sign for at, sign in enumerate(ASCII_BRAILLE)}
    assert [["".join(map(cells.__getitem__, row)) for row in page] for page in shown] == pages(
        "cap.brf"
    )


@needs_liblouis
def test_headings_stand_apart_and_are_not_left_alone() -> None:
    text = "Cap\nBy nobody.\n\n" + "\n".join(f"Line {n} of a paragraph." for n in range(21))
    text += "\n\nSection 1: Sizes\n\nOne size.\nAnother line.\n"
    first, second = braille_pages(text)
    assert first[0].strip() == louis("en-ueb-g2.ctb", "Cap\n").strip().upper()
    assert first[0].startswith(" " * 15)
    assert second[0].strip() == louis("en-ueb-g2.ctb", "Section 1: Sizes\n").strip().upper()
    assert braille_pages("Cap\n" + "k" * 90 + "\n", "uncontracted")[0][1:4] == (
        "  " + "K" * 38,
        "K" * 40,
        "K" * 12,
    )


def test_without_liblouis_the_way_to_it_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", "/nowhere")
    with pytest.raises(PatternError) as caught:
        braille_pages("Cap\n")
    (finding,) = caught.value.findings
    assert finding.id == "braille.missing"
    assert "apt install liblouis-bin" in finding.help


def test_files_are_the_same_each_time() -> None:
    page = ("A", *[""] * 23, "#A".rjust(40))
    assert brf([page, page]).count(b"\f") == 1
    assert pef([page], "Cap", "", "en-US", "") == pef([page], "Cap", "", "en-US", "")
