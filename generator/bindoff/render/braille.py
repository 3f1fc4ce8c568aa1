"""Braille from a text edition: a file for embossers and displays (BRF), and one in XML (PEF).

The words are put into Unified English Braille by liblouis, which is found where it is installed.
Pages have 40 cells and 25 lines, as embossers do; headings are centered or begin in cell 5, steps
and entries in cell 1 with runovers in cell 3, other paragraphs in cell 3 with runovers in cell 1,
and the page number ends the last line. (Common practice of braille transcribers, from memory: of
the braille authorities' guidelines for knitting patterns only the titles were at hand: BANA,
Guidelines for Transcribing Knit and Crochet Patterns, 2014; RNIB, Braillists' Manual, section 52.)
"""

import shutil
import subprocess
import xml.etree.ElementTree as ET
from collections.abc import Iterator, Sequence
from hashlib import sha256
from typing import Literal

from bindoff import regex as re
from bindoff.diagnostics import fail
from bindoff.records import Record

CELLS, LINES = 40, 25
_TRANSLATOR = "lou_translate"
_SECONDS = 60.0
_LONGEST = 800  # characters that are given to the translator at once

Grade = Literal["contracted", "uncontracted"]
_TABLES: dict[Grade, str] = {"contracted": "en-ueb-g2.ctb", "uncontracted": "en-ueb-g1.ctb"}

ASCII_BRAILLE = " A1B'K2L@CIF/MSP\"E3H9O6R^DJG>NTQ,*5<-U8V.%[$+X!&;:4\\0Z7(_?W]#Y)="
"""The character for each of the 64 cells, in the order of Unicode's braille patterns (North
American Braille Computer Code; from memory, and held against liblouis by a test)."""

_UPPER = str.maketrans("{|}~`", "[\\]^@")
_PATTERNS = str.maketrans({sign: chr(0x2800 + at) for at, sign in enumerate(ASCII_BRAILLE)})
_NUMBERS = str.maketrans("1234567890", "ABCDEFGHIJ")

_CHAPTER = re.compile(r"Section \d+: ")
_SECTION = re.compile(r"Section \d+\.[\d.]+: ")
_HANGING = re.compile(r"(Step|Sizes?|Round|Row|Rounds|Rows|Section) \d|Sizes? [^.]+:|All sizes:")

Page = tuple[str, ...]
"""The lines of a page in ASCII braille, the last with its number."""


class _Line(Record):
    """A line of the text in braille: where its first and its other lines begin, in cells."""

    words: tuple[str, ...]
    first: int
    rest: int
    kind: Literal["text", "heading", "title"] = "text"


def braille_pages(text: str, grade: Grade = "contracted") -> tuple[Page, ...]:
    """A text edition on pages of braille.

    Raises ``PatternError``: ``braille.missing`` where liblouis is not installed, ``braille.failed``
    where it can't do its work.
    """
    lines = text.splitlines()
    return _paged(_set(lines, _translated(lines, grade)))


def brf(pages: Sequence[Page]) -> bytes:
    """Pages as a file in ASCII braille, with a form feed between them."""
    return "\f".join("".join(f"{line}\r\n" for line in page) for page in pages).encode("ascii")


def pef(pages: Sequence[Page], title: str, author: str, language: str, date: str) -> bytes:
    """Pages as a file in the Portable Embosser Format.

    Source: PEF 1.0, Public Draft 2008; its elements from memory.
    """
    ns, dc = "http://www.daisy.org/ns/2008/pef", "http://purl.org/dc/elements/1.1/"
    root = ET.Element("pef", {"version": "2008-1", "xmlns": ns})
    meta = ET.SubElement(ET.SubElement(root, "head"), "meta", {"xmlns:dc": dc})
    told = "\n".join("\n".join(page) for page in pages)
    about = {
        "format": "application/x-pef+xml",
        "identifier": f"sha256:{sha256(told.encode()).hexdigest()}",
        "title": title,
        "creator": author,
        "language": language,
        "date": date,
    }
    for name, value in about.items():
        if value:
            ET.SubElement(meta, f"dc:{name}").text = value
    size = {"cols": str(CELLS), "rows": str(LINES), "rowgap": "0", "duplex": "false"}
    section = ET.SubElement(ET.SubElement(ET.SubElement(root, "body"), "volume", size), "section")
    for page in pages:
        sheet = ET.SubElement(section, "page")
        for line in page:
            ET.SubElement(sheet, "row").text = line.translate(_PATTERNS)
    return f'<?xml version="1.0" encoding="utf-8"?>\n{ET.tostring(root, "unicode")}\n'.encode()


# ---------------------------------------------------------------- words into braille


def _translated(lines: Sequence[str], grade: Grade) -> list[tuple[str, ...]]:
    """The words of every line in ASCII braille."""
    parts = [_parted(line) for line in lines]
    flat = [part for each in parts for part in each]
    done = iter(_asked("\n".join(flat) + "\n", _TABLES[grade], len(flat)))
    return [tuple(word for _ in each for word in next(done).split()) for each in parts]


def _parted(line: str) -> list[str]:
    """``line`` in parts that the translator takes, parted between words."""
    parts = [""]
    for word in line.split(" "):
        if parts[-1] and len(parts[-1]) + len(word) > _LONGEST:
            parts.append(word)
        else:
            parts[-1] = f"{parts[-1]} {word}".lstrip()
    return parts


def _asked(text: str, table: str, count: int) -> list[str]:
    program = shutil.which(_TRANSLATOR)
    if program is None:
        raise fail(
            "braille.missing",
            "braille is written by liblouis, which is not installed here",
            "Install it: `apt install liblouis-bin` on Debian and Ubuntu, `brew install liblouis` "
            "on a Mac",
        )
    try:
        done = subprocess.run(
            [program, table], input=text.encode(), capture_output=True, timeout=_SECONDS, check=True
        )
        found = done.stdout.decode("ascii").upper().translate(_UPPER).split("\n")
    except (OSError, ValueError, subprocess.SubprocessError) as error:
        raise fail(
            "braille.failed",
            f"liblouis could not put the text into braille: {error}",
            f"Try `{_TRANSLATOR} {table}` by hand; Debian has its tables in `liblouis-data`",
        ) from None
    if len(found) != count + 1 or set("".join(found)) - set(ASCII_BRAILLE):
        raise fail(
            "braille.failed",
            "liblouis gave back other lines or signs than were asked for",
            "Use a newer liblouis",
        )
    return found[:-1]


# ---------------------------------------------------------------- lines and pages


def _set(lines: Sequence[str], words: Sequence[tuple[str, ...]]) -> Iterator[_Line]:
    for number, (line, each) in enumerate(zip(lines, words, strict=True)):
        if not each:
            continue
        entry = line.endswith(".")  # as those of the contents do
        if not number or (_CHAPTER.match(line) and not entry):
            yield _Line(each, 0, 0, "title")
        elif _SECTION.match(line) and not entry:
            yield _Line(each, 4, 4, "heading")
        elif _HANGING.match(line):
            yield _Line(each, 0, 2)
        else:
            yield _Line(each, 2, 0)


def _rows(line: _Line) -> list[str]:
    """The rows of a line on paper; a longer word than a row is parted where the row ends."""
    rows = [" " * line.first]
    for word in line.words:
        joint = "" if rows[-1].strip() == "" else " "
        if len(rows[-1]) + len(joint) + len(word) <= CELLS:
            rows[-1] += joint + word
            continue
        if rows[-1].strip():
            rows.append(" " * line.rest)
        while len(rows[-1]) + len(word) > CELLS:
            room = CELLS - len(rows[-1])
            rows[-1] += word[:room]
            word = word[room:]
            rows.append(" " * line.rest)
        rows[-1] += word
    if line.kind == "title":
        return [row.strip().center(CELLS).rstrip() for row in rows]
    return rows


def _paged(lines: Iterator[_Line]) -> tuple[Page, ...]:
    """Rows on pages; a heading has an empty row above it and two rows of text below."""
    pages: list[list[str]] = [[]]
    waiting: list[str] = []
    for line in lines:
        rows = _rows(line)
        if line.kind != "text":
            waiting += ["", *rows] if not waiting else rows
            continue
        block, waiting = [*waiting, *rows[:2]], []
        if len(pages[-1]) + len(block) > LINES - 1:
            pages.append([])
        if not pages[-1] and block[0] == "":
            block = block[1:]
        pages[-1] += block
        for row in rows[2:]:
            if len(pages[-1]) == LINES - 1:
                pages.append([])
            pages[-1].append(row)
    pages[-1] += waiting
    return tuple(_numbered(page, number) for number, page in enumerate(pages, 1))


def _numbered(rows: Sequence[str], number: int) -> Page:
    folio = f"#{str(number).translate(_NUMBERS)}"
    return (*rows, *[""] * (LINES - 1 - len(rows)), folio.rjust(CELLS))
