"""The designer's names are marked as her language wherever the PDF's tags hold them.

ISO 32000-1, 14.9.2: the language of a structure element holds for all under it. Alternative texts
have one language for all their words, and are left out here.
"""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pikepdf
import pytest

from bindoff.files import SOURCE_NAME, DiskFiles
from bindoff.pipeline import build_pattern
from bindoff.render.pdf import PdfOptions, ThemeName
from tests.accessibility import tag_tree
from tests.render.pdf.painted import PATTERNS

NAMES = {"Hemp": "Hanf", "title: Hat\n": "title: Mütze\n", "  Toddler:": "  Kleinkind:"}
MARKED = ("Hanf", "Mütze", "Kleinkind")


def in_german(folder: Path) -> Path:
    """The Ropewalk Hat with names in German: seven sizes, of which one has a long name."""
    shutil.copytree(PATTERNS / "ropewalk-hat", folder)
    source = folder / SOURCE_NAME
    text = source.read_text("utf-8").replace("language: en", "language: de")
    for name, other in NAMES.items():
        assert name in text
        text = text.replace(name, other)
    source.write_text(text, "utf-8")
    return folder


def unmarked(node: tag_tree.Node, language: str = "") -> Iterator[str]:
    """Each text with one of the names that no element says to be in German."""
    language = str(node.element.get("/Lang", "")) or language
    for kid in node.kids:
        if isinstance(kid, tag_tree.Node):
            yield from unmarked(kid, language)
        elif language != "de" and any(name in kid for name in MARKED):
            yield f"{node.role}: {kid}"


@pytest.mark.parametrize("theme", ["calm", "large-print"])
def test_names_are_marked_in_contents_links_tables_and_captions(
    theme: ThemeName, tmp_path: Path
) -> None:
    files = build_pattern(
        DiskFiles(str(in_german(tmp_path / "hat"))),
        SOURCE_NAME,
        "hat",
        options=PdfOptions(theme=theme),
    ).files
    path = tmp_path / "hat.pdf"
    path.write_bytes(next(data for name, data in files.items() if name.endswith(".pdf")))
    with pikepdf.open(path) as file:
        root = tag_tree.read(path, file)
        assert all(name in root.text() for name in MARKED)
        assert list(unmarked(root)) == []
