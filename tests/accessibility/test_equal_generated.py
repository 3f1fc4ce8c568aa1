"""Other patterns than the demos say the same in print and as text: all kinds, and made-up ones.

The sound patterns of ``tests/faults`` have what the demos lack: bags, shawls worked flat, vests,
gauges in inches, UK terms, one size only. Made-up ones vary the numbers of a small one.
"""

import random
import re
from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path

import pikepdf
import pytest

from bindoff.diagnostics import PatternError
from bindoff.document.tree import Document, ItemList
from bindoff.editions import Wanted
from bindoff.files import SOURCE_NAME, DiskFiles, Files, MemoryFiles
from bindoff.pipeline import plan_pattern
from bindoff.render.pdf import PdfOptions, render_pdf
from bindoff.render.text import render_text
from tests.accessibility import builds, machine, tag_tree
from tests.accessibility.test_equal_text import all_differences
from tests.small_patterns import CAP, FLAP, TUBE, WAVES, changed

BASES = Path(__file__).parents[1] / "faults" / "bases"
SMALL = {"cap": CAP, "tube": TUBE, "flap": FLAP}
PATTERNS = (*sorted(folder.name for folder in BASES.iterdir()), *(f"small {one}" for one in SMALL))
pytestmark = machine.needs("pdfinfo")


def files_of(pattern: str) -> Files:
    """The folder of a pattern."""
    if pattern.startswith("small "):
        return in_memory(SMALL[pattern.removeprefix("small ")])
    return DiskFiles(str(BASES / pattern))


def in_memory(text: str) -> Files:
    """A folder with the pattern in ``text``."""
    return MemoryFiles({SOURCE_NAME: text, "waves.grid": WAVES})


@cache
def made(pattern: str) -> Mapping[str, builds.Made]:
    """A pattern itself, its last size alone, and of every third its large print too."""
    large = ("large print",) if pattern in PATTERNS[::3] else ()
    return editions(files_of(pattern), large)


def editions(files: Files, chosen: tuple[str, ...]) -> Mapping[str, builds.Made]:
    """The pattern in a folder, its last size alone, and the editions that are chosen."""
    plan = plan_pattern(files, SOURCE_NAME, "pattern")
    return builds.editions_of(plan, files, Wanted(sizes=plan.source.sizes[-1:], chosen=chosen))


def of_edition(document: Document, options: PdfOptions, path: Path, text: str = "") -> list[str]:
    """The differences between a document's PDF, put at ``path``, and its text."""
    path.write_bytes(render_pdf(document, options))
    with pikepdf.open(path) as file:
        tree = tag_tree.read(path, file)
        return all_differences(text or render_text(document), tree, document)


@pytest.mark.parametrize("pattern", PATTERNS)
def test_a_pattern_of_another_kind_says_the_same_in_both(pattern: str, tmp_path: Path) -> None:
    for name, one in made(pattern).items():
        path = tmp_path / f"{name}.pdf"
        assert of_edition(one.printed, one.edition.pdf, path) == [], name


@cache
def made_up(number: int) -> str:
    """A cap with figures of its own; those that can't be built are passed over."""
    for attempt in range(20):
        chance = random.Random(f"{number} {attempt}")
        sizes = ["Baby", "Child S", "M", "L", "XXL", "2/4"][: chance.randint(1, 6)]
        heads = sorted(chance.sample(range(40, 66), len(sizes)))
        listed = "\n".join(f"  {a}: {{head: {b} cm}}" for a, b in zip(sizes, heads, strict=True))
        depths = [f"{18 + at * chance.choice((0.5, 1))} cm" for at in range(len(sizes))]
        text = changed(
            CAP,
            ("  S: {head: 52 cm}\n  M: {head: 56 cm}", listed),
            ("[20 cm, 21 cm]", f"[{', '.join(depths)}]"),
            ("stitches: 20", f"stitches: {chance.randint(16, 28)}"),
            ("*k2, p2; repeat from * to end", chance.choice(RIBS)),
            ("rounds: 8", f"rounds: {chance.randint(1, 12)}"),
            ("summary:", f"terms: {chance.choice(('US', 'UK'))}\nsummary:"),
        )
        try:
            plan_pattern(in_memory(text), SOURCE_NAME, "pattern")
        except PatternError:
            continue
        return text
    raise AssertionError("no such cap can be built")


RIBS = (
    "*k2, p2; repeat from * to end",
    "*k1, p1; repeat from * to end",
    "*k2tog, yo; repeat from * to end",
    "*[k1, p1] twice, k4; repeat from * to end",
    "*k2, ssk, yo, p4; repeat from * to end",
    "k all",
)


@pytest.mark.parametrize("number", range(8))
def test_a_made_up_pattern_says_the_same_in_both(number: int, tmp_path: Path) -> None:
    found = editions(in_memory(made_up(number)), ("letter", "large print"))
    name, one = sorted(found.items())[number % len(found)]
    assert of_edition(one.printed, one.edition.pdf, tmp_path / "made-up.pdf") == [], name


@pytest.mark.parametrize("pattern", PATTERNS[::5])  # the comparison is one and the same
def test_a_fault_in_either_is_found(pattern: str, tmp_path: Path) -> None:
    """What a clean result is worth: a number changed in the text, a block that the PDF lacks."""
    document = made(pattern)["a4"].printed
    text = render_text(document)
    link = r"\(Section [\d.]+\)"  # which a page has no words for
    place = re.search(rf"^Step \d+ of \d+:(?:{link}|(?!{link})\D)*", text, re.MULTILINE)
    assert place
    digit = text[place.end()]
    faulty = f"{text[: place.end()]}{int(digit) % 9 + 1}{text[place.end() + 1 :]}"
    assert of_edition(document, PdfOptions(), tmp_path / "told.pdf", faulty)
    steps = [at for at, block in enumerate(document.blocks) if isinstance(block, ItemList)]
    less = (*document.blocks[: steps[0]], *document.blocks[steps[0] + 1 :])
    shorter = replace(document, blocks=less)
    assert of_edition(shorter, PdfOptions(), tmp_path / "printed.pdf", text)
