"""Every edition of every demo is PDF/UA-1 (ISO 14289-1:2014), and spoilt ones are caught.

Three independent checkers judge the same files. One misses what another finds, so none is left out:
the reference rules are the strictest and give clause and test; ``page-validation`` and ``outloud``
are engines of their own. Each fault below is put into one of our own files and must be found, or a
clean result would mean nothing.
"""

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import outloud
import page
import pikepdf
import pytest
from pikepdf import Array, Dictionary, Name

from bindoff.document.tree import Heading, Link, Paragraph, Text
from bindoff.render.pdf import render_pdf
from tests.accessibility import builds, machine, reference_rules
from tests.accessibility.tag_tree import elements, read

each_edition = pytest.mark.parametrize(("demo", "edition"), builds.EDITIONS)
needs_java = machine.needs("java")

# What a file must at least hold for a clean result to say something.
ASSERTIONS = 20_000
ASSERTIONS_OF_A_CARD = 1_500


def first_engine(path: Path) -> list[str]:
    """The failures ``page-validation`` finds."""
    report = page.validate_pdf(str(path), profile=page.ValidationProfile.PDF_UA_1)
    return [str(failure) for failure in report.failures]


def second_engine(path: Path) -> list[tuple[str, str]]:
    """The severity and rule of what ``outloud`` finds."""
    result = outloud.check(str(path))
    assert result.error is None
    return [
        (one.severity, one.rule)
        for one in result.findings
        if not _small_table(one)
        and not _told_apart(one, path)
        and not _of_each_card(one, path)
        and not _of_each_sheet(one, path)
        and not _heads_again(one, path)
    ]


def _told_apart(finding: Any, path: Path) -> bool:
    """Whether a finding of ``TBL-013`` is for tables that follow each other, each with a caption.

    The rule takes two tables without a text between them for one that was split. It does not look
    into a table, where its caption is tagged, as the standard has it (ISO 32000-1, table 337). The
    rule is heard where any table has none.
    """
    if finding.rule != "TBL-013":
        return False
    with pikepdf.open(path) as pdf:
        return all(any(of.get("/S") == Name.Caption for of in t.K) for t in of_role(pdf, "Table"))


def _of_each_card(finding: Any, path: Path) -> bool:
    """Whether a finding of ``PAG-001`` is for the first lines of cards: each size has a page of its
    own, which says the needles and the gauge again because it is used alone."""
    return finding.rule == "PAG-001" and path.stem.endswith("card")


def _of_each_sheet(finding: Any, path: Path) -> bool:
    """Whether a finding of ``PAG-001`` is for the titles of three or more sheets of charts.

    Each sheet begins with its title, within its picture, as it may lie on the table alone. Charts
    of a picture seen from the front and from the back have the same first line.
    """
    if finding.rule != "PAG-001" or finding.count != 1:
        return False
    line = re.sub(r",? \d+ of \d+$", "", finding.evidence.removesuffix("…"))
    with pikepdf.open(path) as pdf:
        alts = [str(each.get("/Alt", "")) for each in of_role(pdf, "Figure")]
    sheets = [alt for alt in alts if re.search(r"\bPart \d+ of \d+: ", alt)]
    return sum(f"Chart {line}" in alt for alt in sheets) >= 3


def _heads_again(finding: Any, path: Path) -> bool:
    """Whether a finding of ``TAG-002`` is for the column heads of a table that goes on overleaf.

    They are said once, where the table begins, and are an artifact where they are painted again
    (ISO 32000-1, 14.8.2.2: artifacts are not the author's original content). The rule lets lines
    pass that recur on three pages, and heads of a table that is parted once stand on two. It is
    heard for any line that is not the heads of a tagged table, word for word.
    """
    if finding.rule != "TAG-002" or finding.count != 1:
        return False
    with pikepdf.open(path) as pdf:
        rows = (row for head in read(path, pdf).find("THead") for row in head.find("TR"))
        heads = {" ".join(" ".join(cell.text() for cell in row.find("TH")).split()) for row in rows}
    return finding.evidence in heads


def _small_table(finding: Any) -> bool:
    """Whether a finding of ``TBL-010`` is for a sound table that is only small.

    The rule seeks headings whose wrapped lines were tagged as rows of their own, and takes more
    heads than data for a sign of it. So has every small table, as those for one size are: one head
    over each column and one for each row. Those heads are wanted, so that a reader who moves down
    the figures hears what each is for. The rule is heard in any other case.
    """
    counts = re.fullmatch(
        r"header cells look shredded: (\d+) header cells against (\d+) data cells",
        finding.message,
    )
    if finding.rule != "TBL-010" or counts is None:
        return False
    heads, data = map(int, counts.groups())
    return any((columns - 1) * (heads - columns) == data for columns in range(2, heads))


# ---------------------------------------------------------------- faults


def of_role(pdf: pikepdf.Pdf, *roles: str) -> Iterator[Any]:
    """The elements of these roles."""
    return (one for one in elements(pdf.Root.StructTreeRoot.K) if str(one.S)[1:] in roles)


def instructions(pdf: pikepdf.Pdf, change: Callable[[list[Any]], list[Any]]) -> None:
    """Change the content of the first page."""
    first = pdf.pages[0]
    changed = change(list(pikepdf.parse_content_stream(first)))
    first.Contents = pdf.make_stream(pikepdf.unparse_content_stream(changed))


def operation(operator: str, *operands: Any) -> pikepdf.ContentStreamInstruction:
    """One operator of a content stream."""
    return pikepdf.ContentStreamInstruction(list(operands), pikepdf.Operator(operator))


def shown_lines(content: Sequence[Any]) -> list[Any]:
    """The first text object of a page."""
    start = next(at for at, one in enumerate(content) if str(one.operator) == "BT")
    stop = next(at for at, one in enumerate(content) if str(one.operator) == "ET")
    return list(content[start : stop + 1])


def untagged_line(pdf: pikepdf.Pdf) -> None:
    """A line of text that belongs to nothing."""
    instructions(pdf, lambda content: [*content, *shown_lines(content)])


def artifact_inside_a_tag(pdf: pikepdf.Pdf) -> None:
    """Decoration within a paragraph."""

    def change(content: list[Any]) -> list[Any]:
        at = next(at for at, one in enumerate(content) if str(one.operator) == "BT")
        return [*content[:at], operation("BMC", Name.Artifact), operation("EMC"), *content[at:]]

    instructions(pdf, change)


def lead_as_decoration(pdf: pikepdf.Pdf) -> None:
    """The paragraphs of the first page marked as artifacts."""

    def change(content: list[Any]) -> list[Any]:
        artifact = operation("BMC", Name.Artifact)
        return [
            artifact if str(one.operator) == "BDC" and one.operands[0] == Name.P else one
            for one in content
        ]

    instructions(pdf, change)


def glyph_that_is_not_there(pdf: pikepdf.Pdf) -> None:
    """Text with a code that the font has no glyph for."""

    def change(content: list[Any]) -> list[Any]:
        at = next(at for at, one in enumerate(content) if str(one.operator) in ("Tj", "TJ"))
        return [*content[:at], operation("Tj", pikepdf.String(b"\xfe")), *content[at:]]

    instructions(pdf, change)


def glyphs_for_nothing(pdf: pikepdf.Pdf) -> None:
    """A font whose letters are all the box that stands for a missing one."""
    font = fonts(pdf)[0]
    names = Array([1, *[Name("/.notdef")] * 99])
    font.FontDescriptor.Flags = 32  # not symbolic: an encoding counts
    font.Encoding = Dictionary(BaseEncoding=Name.WinAnsiEncoding, Differences=names)


def no_title(pdf: pikepdf.Pdf) -> None:
    """A file without the title of the pattern."""
    with pdf.open_metadata(set_pikepdf_as_editor=False) as about:
        del about["dc:title"]


def no_identifier(pdf: pikepdf.Pdf) -> None:
    """A file that does not say it is PDF/UA."""
    with pdf.open_metadata(set_pikepdf_as_editor=False) as about:
        del about["pdfuaid:part"]


def fonts(pdf: pikepdf.Pdf) -> list[Any]:
    """The fonts of the first page."""
    return list(pdf.pages[0].Resources.Font.values())


def cell_outside_a_row(pdf: pikepdf.Pdf) -> None:
    """A cell directly in the body of its table."""
    body = next(of_role(pdf, "TBody"))
    cell = next(one for one in elements(body) if one.S == Name.TD)
    row = cell.P
    row.K = Array([kid for kid in row.K if kid.objgen != cell.objgen])
    body.K.append(cell)
    cell.P = body


def figures_as_heads(pdf: pikepdf.Pdf) -> None:
    """A table whose rows are heads but for the last."""
    *cells, _ = [one for one in elements(next(of_role(pdf, "Table"))) if one.S == Name.TD]
    for cell in cells:
        cell.S = Name.TH
        cell.A = Dictionary(O=Name.Table, Scope=Name.Column)


def heads_without_scope(pdf: pikepdf.Pdf) -> None:
    """A table whose heads do not say what they head."""
    for one in elements(next(of_role(pdf, "Table"))):
        if "/A" in one and "/Scope" in one.A:
            del one.A["/Scope"]


def entry_without_list(pdf: pikepdf.Pdf) -> None:
    """A list entry that stands in no list."""
    next(of_role(pdf, "L")).S = Name.Div


def note_of_a_link(pdf: pikepdf.Pdf) -> Any:
    """The annotation of the first link."""
    return next(note for one in pdf.pages for note in one.obj.get("/Annots", ()))


def link_outside_its_tag(pdf: pikepdf.Pdf) -> None:
    """A link that no tag holds."""
    next(of_role(pdf, "Link")).S = Name.Span


@dataclass(frozen=True, slots=True)
class Fault:
    """How a file is spoilt, the reference rules that say so, and whether the others see it too."""

    spoil: Callable[[pikepdf.Pdf], object]
    rules: set[str]
    first: bool = True
    second: bool = True


Judge = Callable[[Path], dict[str, Any]]

FAULTS = {
    "an untagged line": Fault(untagged_line, {"7.1-3"}),
    "an artifact inside a tag": Fault(artifact_inside_a_tag, {"7.1-1"}),
    "no title": Fault(no_title, {"7.1-9"}),
    "no title bar": Fault(lambda pdf: pdf.Root.__delitem__("/ViewerPreferences"), {"7.1-10"}),
    "no identifier": Fault(no_identifier, {"5-1"}),
    "no language": Fault(lambda pdf: pdf.Root.__delitem__("/Lang"), {"7.2-34"}),
    "not marked": Fault(lambda pdf: pdf.Root.__delitem__("/MarkInfo"), {"6.2-1"}),
    "no tags": Fault(lambda pdf: pdf.Root.__delitem__("/StructTreeRoot"), {"7.1-11"}),
    "a picture without words": Fault(
        lambda pdf: next(of_role(pdf, "Figure")).__delitem__("/Alt"), {"7.3-1"}
    ),
    "a tag nobody knows": Fault(
        lambda pdf: setattr(next(of_role(pdf, "P")), "S", Name.Verse), {"7.1-5"}
    ),
    "a skipped heading": Fault(
        lambda pdf: setattr(next(of_role(pdf, "H2")), "S", Name.H3), {"7.4.2-1"}
    ),
    "a cell outside a row": Fault(cell_outside_a_row, {"7.2-9", "7.2-37"}),
    "heads without scope": Fault(heads_without_scope, {"7.5-1"}),
    "an entry without a list": Fault(entry_without_list, {"7.2-17"}),
    "a link without words": Fault(
        lambda pdf: note_of_a_link(pdf).__delitem__("/Contents"), {"7.18.5-2"}
    ),
    "a link outside its tag": Fault(link_outside_its_tag, {"7.18.5-1"}),
    "no tab order": Fault(
        lambda pdf: [one.obj.__delitem__("/Tabs") for one in pdf.pages], {"7.18.3-1"}
    ),
    "no Unicode": Fault(
        lambda pdf: [font.__delitem__("/ToUnicode") for font in fonts(pdf)], {"7.21.7-1"}
    ),
    "a font left out": Fault(
        lambda pdf: [font.FontDescriptor.__delitem__("/FontFile2") for font in fonts(pdf)],
        {"7.21.4.1-1"},
    ),
    "a glyph that is not there": Fault(glyph_that_is_not_there, {"7.21.4.1-2"}),
    "a glyph for nothing": Fault(glyphs_for_nothing, {"7.21.8-1"}, second=False),
}
each_fault = pytest.mark.parametrize("fault", FAULTS)


def opening() -> bytes:
    """The opening of a demo and a link: all that is spoilt below on few pages, quickly judged."""
    document = builds.document("ropewalk-hat")
    chapters = [at for at, one in enumerate(document.blocks) if isinstance(one, Heading)]
    link = Paragraph((Link((Text("Back to the heading"),), "#heading"),))
    blocks = (*document.blocks[: chapters[3]], Heading(2, (Text("Link"),), "heading"), link)
    return render_pdf(replace(document, blocks=blocks))


def spoilt(spoil: Callable[[pikepdf.Pdf], object], source: Path, path: Path) -> Path:
    """``source`` spoilt, in a file at ``path``."""
    with pikepdf.open(source) as pdf:
        spoil(pdf)
        pdf.save(path)
    return path


@pytest.fixture(scope="session")
def faulty(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """A file for each fault, and one only saved again."""
    folder = tmp_path_factory.mktemp("faults")
    source = folder / "opening.pdf"
    source.write_bytes(opening())
    files = {
        name: spoilt(fault.spoil, source, folder / f"{name.replace(' ', '-')}.pdf")
        for name, fault in FAULTS.items()
    }
    return files | {"": spoilt(lambda pdf: None, source, folder / "saved-again.pdf")}


@pytest.fixture(scope="session")
def reference(saved: Callable[[str, str], Path], faulty: dict[str, Path]) -> Judge:
    """What the reference rules say of a file; all files are judged in one go."""
    good = [saved(demo, edition) for demo, edition in builds.EDITIONS]
    reports = reference_rules.reports([*good, *faulty.values()], "PDFUA_1")
    return lambda path: reports[path.name]


# ---------------------------------------------------------------- every edition


@needs_java
@each_edition
def test_reference_rules_find_nothing(
    demo: str,
    edition: str,
    saved: Callable[[str, str], Path],
    reference: Judge,
) -> None:
    """All 106 machine-checkable rules, some tens of thousands of assertions a file."""
    report = reference(saved(demo, edition))
    assert report["failed"] == []
    assert report["compliant"]
    assert report["rules"] == 106
    assert report["assertions"] > (ASSERTIONS_OF_A_CARD if edition == "card" else ASSERTIONS)


@each_edition
def test_first_engine_finds_nothing(
    demo: str, edition: str, saved: Callable[[str, str], Path]
) -> None:
    assert first_engine(saved(demo, edition)) == []


@each_edition
def test_second_engine_finds_nothing(
    demo: str, edition: str, saved: Callable[[str, str], Path]
) -> None:
    assert second_engine(saved(demo, edition)) == []


# ---------------------------------------------------------------- controls


@needs_java
def test_saving_again_spoils_nothing(faulty: dict[str, Path], reference: Judge) -> None:
    """The controls fail by their faults, not by the way they are made."""
    assert reference(faulty[""])["failed"] == []
    assert first_engine(faulty[""]) == []
    assert [one for one in second_engine(faulty[""]) if one[0] == "error"] == []


@needs_java
@each_fault
def test_reference_rules_find_the_fault(
    fault: str, faulty: dict[str, Path], reference: Judge
) -> None:
    report = reference(faulty[fault])
    assert not report["compliant"]
    assert FAULTS[fault].rules <= {one["rule"] for one in report["failed"]}, report["failed"][:3]


@each_fault
def test_other_engines_find_the_fault(fault: str, faulty: dict[str, Path]) -> None:
    """Where one of them is known to miss a fault the table says so."""
    seen = first_engine(faulty[fault]), second_engine(faulty[fault])
    assert bool(seen[0]) == FAULTS[fault].first, seen[0]
    assert ("error" in {one[0] for one in seen[1]}) == FAULTS[fault].second, seen[1]


def test_second_engine_still_finds_heads_that_are_none(
    saved: Callable[[str, str], Path], tmp_path: Path
) -> None:
    """What is let pass for small tables lets no other finding of that rule pass."""
    demo, edition = builds.EDITIONS[0]
    path = spoilt(figures_as_heads, saved(demo, edition), tmp_path / "heads.pdf")
    assert ("error", "TBL-010") in second_engine(path)


def test_second_engine_still_finds_prose_that_nobody_reads(
    saved: Callable[[str, str], Path], tmp_path: Path
) -> None:
    """What is let pass for heads said again lets no other line pass."""
    path = spoilt(lead_as_decoration, saved("netmender-mittens", "a4"), tmp_path / "lead.pdf")
    found = [one for one in outloud.check(str(path)).findings if one.rule == "TAG-002"]
    assert [_heads_again(one, path) for one in found].count(False) == 1
    assert ("error", "TAG-002") in second_engine(path)
