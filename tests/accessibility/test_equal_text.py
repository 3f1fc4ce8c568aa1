"""Every word, number, step and note is in both editions: the PDF's tags and the plain text.

For each size apart, what the PDF says under a heading must be what the text edition says there,
token by token and in the same order; tables row by row and cell by cell. ``spoken`` tells how the
two are brought to one form and what is left out: the text edition's words about itself, and in the
PDF what no tag holds (running feet, heads again on a further page) and the lettering inside
drawings, for which their alternative text stands.
"""

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from difflib import SequenceMatcher
from pathlib import Path

import pikepdf
import pytest

from bindoff.document.tree import Cover, DefinitionList, Document, LineBreak, Paragraph, Text
from bindoff.render.pdf import PdfOptions, render_pdf
from bindoff.render.text import render_text
from tests.accessibility import builds, machine, spoken, tag_tree, trial


def differences(
    told: Sequence[spoken.Section[list[str]]],
    printed: Sequence[spoken.Section[spoken.Row]],
    size: str,
) -> list[str]:
    """Where the text edition (``told``) and the PDF (``printed``) part, for a person to read."""
    headings = [" ".join(one.heading) for one in told]
    found = _parted(headings, [" ".join(one.heading) for one in printed], size)
    if found:
        return found
    for one, other in zip(told, printed, strict=True):
        place = f"{size}, {' '.join(one.heading) or 'cover'}"
        one = _listed_as(other, one)
        found += _parted(one.tokens, other.tokens, place)
        for grid, shown in zip(one.tables, other.tables, strict=False):
            name = f"{place}, table {' '.join(grid.caption)!r}"
            found += _parted(grid.caption, shown.caption, name)
            if len(grid.rows) != len(shown.rows):
                found.append(f"{name}: {len(grid.rows)} rows told, {len(shown.rows)} printed")
            found += [
                f"{name}: told {' '.join(row)!r}, printed {printed_row}"
                for row, printed_row in zip(grid.rows, shown.rows, strict=False)
                if not printed_row.is_told(row)
            ]
    return found


def _listed_as(
    printed: spoken.Section[spoken.Row], told: spoken.Section[list[str]]
) -> spoken.Section[list[str]]:
    """``told`` with the tables that found no room on the page in running words, as ``printed``."""
    shown = [tuple(grid.caption) for grid in printed.tables]
    tables = iter(told.tables)
    tokens: list[str] = []
    kept = []
    for token in told.tokens:
        if token != spoken.TABLE or tuple((grid := next(tables)).caption) in shown:
            tokens.append(token)
            kept += [grid] if token == spoken.TABLE else []
        else:
            tokens += [*grid.caption, *(word for row in grid.rows for word in row)]
    return spoken.Section(told.heading, tokens, kept)


def _parted(told: Sequence[str], printed: Sequence[str], place: str) -> list[str]:
    """Where two sequences first part; nothing if they are the same."""
    for kind, a, b, c, d in SequenceMatcher(None, told, printed, autojunk=False).get_opcodes():
        if kind != "equal":
            before = " ".join(told[max(0, a - 5) : a])
            return [f"{place}: after {before!r}: told {told[a:b]}, printed {printed[c:d]}"]
    return []


def all_differences(text: str, tree: tag_tree.Node, document: Document) -> list[str]:
    """The differences between a text edition and a tag tree of ``document`` for every size."""
    figures, print_only = builds.figures(document), builds.print_only(document)
    text = _as_pages(text, document)
    return [
        line
        for index, size in enumerate(document.sizes)
        for line in differences(
            spoken.of_text(text, document.sizes, index),
            spoken.of_tags(tree, document.sizes, index, figures, print_only),
            size,
        )
    ]


def _as_pages(text: str, document: Document) -> str:
    """``text`` without what a document that has no cover opens with, as pages have it elsewhere.

    Its imprint stands in their feet, its summary in the PDF's metadata.
    """
    if any(isinstance(block, Cover) for block in document.blocks):
        return text
    opening, summary, rest = text.split("\n\n", 2)
    date = spoken.in_words(document.date)
    imprint = [f"By {document.author}.", f"Version {document.version}, {date}."]
    assert opening.split("\n") == [document.title, *imprint]
    assert summary == document.summary
    return f"{document.title}\n\n{rest}"


@pytest.mark.parametrize(("demo", "edition"), builds.PATTERN_EDITIONS)
def test_pdf_and_text_edition_say_the_same_to_every_size(
    demo: str, edition: str, tree: Callable[[str, str], tag_tree.Node]
) -> None:
    text, document = builds.text(demo, edition), builds.document(demo, edition)
    assert all_differences(text, tree(demo, edition), document) == []


CARDS = tuple(demo for demo, edition in builds.EDITIONS if edition == "card")


def without_places_to_tick(demo: str) -> str:
    """The text of a card without the line after each entry where to type that it is done."""
    entries = [
        entry
        for block in builds.document(demo, "card").blocks
        if isinstance(block, DefinitionList)
        for entry in block.entries
    ]
    assert all(entry.mark for entry in entries)
    text, count = re.subn(r"^Done:\n", "", builds.text(demo, "card"), flags=re.MULTILINE)
    assert count == len(entries)
    return text


@pytest.mark.parametrize("demo", CARDS)
def test_a_card_says_the_same_as_its_text(
    demo: str, tree: Callable[[str, str], tag_tree.Node]
) -> None:
    """A square to tick in print is a place to type in the text, and the rest is the same."""
    text, document = without_places_to_tick(demo), builds.document(demo, "card")
    assert all_differences(text, tree(demo, "card"), document) == []


def of_document(document: Document, large: bool, path: Path) -> list[str]:
    """The differences between both editions of ``document``; the PDF goes to ``path``."""
    path.write_bytes(render_pdf(document, PdfOptions(theme="large-print" if large else "calm")))
    with pikepdf.open(path) as file:
        return all_differences(render_text(document), tag_tree.read(path, file), document)


@machine.needs("pdfinfo")
@pytest.mark.parametrize("sizes", [("S",), ("S", "M"), ("Child S", "S", "M")])
@pytest.mark.parametrize("large", [False, True])
def test_what_no_demo_has_is_the_same_too(
    sizes: tuple[str, ...], large: bool, tmp_path: Path
) -> None:
    """Lists in lists, notes of all kinds, figures that some sizes lack, one size only, two."""
    assert of_document(trial.document(sizes), large, tmp_path / "trial.pdf") == []


@machine.needs("pdfinfo")
def test_words_around_a_forced_line_end_stay_apart(tmp_path: Path) -> None:
    document = trial.document(("S",))
    verse = Paragraph((Text("The first line"), LineBreak(), Text("and the second.")))
    longer = replace(document, blocks=(*document.blocks, verse))
    assert of_document(longer, False, tmp_path / "verse.pdf") == []


@pytest.mark.parametrize(("demo", "edition"), builds.PATTERN_EDITIONS)
def test_every_number_of_the_text_edition_is_compared(demo: str, edition: str) -> None:
    """None escapes because a line was taken for one of the words about the text edition itself."""
    sizes, text = builds.document(demo, edition).sizes, builds.text(demo, edition)
    seen: set[str] = set()
    for index in range(len(sizes)):
        for section in spoken.of_text(text, sizes, index):
            seen |= {*section.heading, *section.tokens}
            seen |= {word for grid in section.tables for row in grid.rows for word in row}
            seen |= {word for grid in section.tables for word in grid.caption}
    counts = r"(?:Step|Stage) \d+ of \d+:|Table with \d+ rows?|Section [\d.]+(?::|\))"
    words = spoken.tokens(re.sub(counts, "", text))
    assert {word for word in words if re.search(r"\d", word)} <= seen


# What a slip in either render could do, as a pattern found in the text edition and its replacement.
FAULTS = {
    "another number in a step": (r"^(Step \d+ of \d+: [^\d(]*)\d+", r"\g<1>47"),
    "another unit": (r"^(Size \w+: \d+) centimeters", r"\1 millimeters"),
    "another fraction": (r"one half inches", "one quarter inches"),
    "another decimal": (r"^(Size \w+: \d+\.)\d", r"\g<1>0"),
    "figures of two sizes exchanged": (r"^(Size \w+: )(.*)\n(Size \w+: )(.*)$", r"\1\4\n\3\2"),
    "figures of two columns exchanged": (
        r"Stitches: ([\d.]+)\. Rounds: ([\d.]+)\.",
        r"Stitches: \2. Rounds: \1.",
    ),
    "a size left out": (r"^Size \w+: .*\n", ""),
    "a size said twice": (r"^(Size \w+: .*\n)", r"\1\1"),
    "a row's name changed": (r"^(Table with .*\n)", r"\1Not "),
    "a table elsewhere": (r"^(Table with (?:.*\n)*?End of table\.\n\n)((?!Table).+\n)", r"\2\n\1"),
    "a step left out": (r"^Step 2 of \d+: [^\n]*(?:\n[^\n]+)*\n\n", ""),
    "two steps exchanged": (r"^Step 3 of (\d+):((?:.*\n)*?)Step 4 of", r"Step 4 of \1:\2Step 3 of"),
    "two words exchanged": (r"^(Step \d+ of \d+: \w+) (\w+) (\w+)", r"\1 \3 \2"),
    "a sentence of a safety note left out": (r"^(Safety: .*\n.*\n).*\n", r"\1"),
    "a sentence added": (r"^(Step .*\n)", r"\1Hurry.\n"),
    "a heading left out": (r"^Section \d+\.2: .*\n", ""),
    "a description left out": (r"^Picture: .*\n", ""),
    "a caption left out": (r"^Caption: .*\n", ""),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_fault_in_one_edition_is_found(
    fault: str, tree: Callable[[str, str], tag_tree.Node]
) -> None:
    """What the comparison is worth: each of these, once in the text edition, is found and named."""
    demo = "harbour-light-hat"
    pattern, replacement = FAULTS[fault]
    faulty, count = re.subn(pattern, replacement, builds.text(demo), count=1, flags=re.MULTILINE)
    assert count, "the demo has no place for this fault any more: find another pattern"
    found = all_differences(faulty, tree(demo, "a4"), builds.document(demo))
    assert found
    assert len(found) < 60, "and little else is blamed"


FAULTS_OF_A_CARD = {
    "another number of the counter": (r"^\d+(?=: Cut )", "99"),
    "a line left out": (r"^\d+: Cut .*\n", ""),
    "a size's page called another": (r"^(Section \d+: \w+), size M$", r"\1, size S"),
    "pages exchanged": (
        r"^(Section 1: .*[^.\n])\n((?:.*\n)*?)(Section 2: .*[^.\n])\n",
        r"\3\n\2\1\n",
    ),
}


@pytest.mark.parametrize("fault", FAULTS_OF_A_CARD)
@pytest.mark.parametrize("demo", CARDS)
def test_fault_in_a_card_is_found(
    demo: str, fault: str, tree: Callable[[str, str], tag_tree.Node]
) -> None:
    pattern, replacement = FAULTS_OF_A_CARD[fault]
    faulty, count = re.subn(
        pattern, replacement, without_places_to_tick(demo), count=1, flags=re.MULTILINE
    )
    assert count
    assert all_differences(faulty, tree(demo, "card"), builds.document(demo, "card"))
