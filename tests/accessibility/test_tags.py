"""The tag tree is what a screen reader needs: levels, lists, tables, pictures, links, order.

Requirements are those of ISO 14289-1:2014 and of ISO 32000-1:2008, 14.8.4 (standard structure
types); checkpoints as the Matterhorn Protocol 1.02 numbers them.
"""

import re
import subprocess
from collections.abc import Callable, Iterator
from itertools import pairwise
from pathlib import Path

import pikepdf
import pytest

from bindoff.document.tree import (
    Block,
    Blocks,
    Callout,
    Cover,
    DefinitionList,
    Document,
    Figure,
    Heading,
    ItemList,
    Paragraph,
    Table,
    in_print,
    plain,
)
from bindoff.render.pdf.tablesizes import merged
from bindoff.render.pdf.theme import theme
from tests.accessibility import builds, spoken, tag_tree
from tests.accessibility.marked_text import marked_text

GOLDEN = "ropewalk-hat"
each_edition = pytest.mark.parametrize(("demo", "edition"), builds.EDITIONS)
each_pattern = pytest.mark.parametrize(("demo", "edition"), builds.PATTERN_EDITIONS)


def test_tags_of_a_demo_are_as_reviewed(
    tree: Callable[[str, str], tag_tree.Node], golden: Callable[[str, str], None]
) -> None:
    """The whole tree of one demo, as a file a person can read and judge."""
    golden("ropewalk-hat.tags.txt", "\n".join(tag_tree.outline(tree(GOLDEN, "a4"))) + "\n")


@pytest.mark.parametrize("demo", [GOLDEN, "slipway-socks"])
def test_two_readers_find_the_same_tree(
    demo: str,
    saved: Callable[[str, str], Path],
    opened: Callable[[str, str], pikepdf.Pdf],
) -> None:
    """PDFium's text by mark, which the other tests read, is what Poppler finds by element."""
    path, file = saved(demo, "a4"), opened(demo, "a4")
    texts = marked_text(path)
    assert texts is not None
    ours, other = tag_tree.by_pdfium(texts, file), tag_tree.by_poppler(path, file)
    assert [(node.role, node.text()) for node in ours.walk()] == [
        (node.role, node.text()) for node in other.walk()
    ]


# ---------------------------------------------------------------- shape

# What may stand directly under what. Text may stand in all but the grouping elements.
UNDER = {
    "Document": {"H1", "H2", "H3", "H4", "P", "L", "Table", "Figure", "Div", "TOC"},
    "TOC": {"Caption", "TOCI"},
    "TOCI": {"Reference"},
    "Reference": {"Link"},
    "Div": {"P", "L", "Table", "Figure", "Caption", "Div"},
    "L": {"LI"},
    "LI": {"Lbl", "LBody"},
    "LBody": {"P", "L", "Table", "Figure", "Div", "Link", "Span"},
    "Table": {"Caption", "THead", "TBody"},
    "THead": {"TR"},
    "TBody": {"TR"},
    "TR": {"TH", "TD"},
    **{role: {"Link"} for role in ("H1", "H2", "H3", "H4", "Lbl", "Caption", "TH", "TD")},
    "P": {"Link", "Span"},
    "Figure": set(),
    "Link": set(),
    "Span": set(),
}
GROUPING = {
    "Document",
    "TOC",
    "TOCI",
    "Reference",
    "Div",
    "L",
    "LI",
    "Table",
    "THead",
    "TBody",
    "TR",
}


@each_edition
def test_nesting_and_roles(
    demo: str, edition: str, tree: Callable[[str, str], tag_tree.Node]
) -> None:
    """Matterhorn 02-001, 09-004 to 09-006: standard types only, each where it belongs."""
    for node in tree(demo, edition).walk():
        assert {kid.role for kid in node.nodes} <= UNDER[node.role], node.text()[:80]
        if node.role in GROUPING:
            assert node.nodes, f"an empty {node.role}"
            assert len(node.nodes) == len(node.kids), f"loose text in {node.role}"
        elif node.role not in ("TD", "Figure"):
            assert node.text().strip(), f"an empty {node.role}"


@each_edition
def test_headings_never_skip_a_level(
    demo: str, edition: str, tree: Callable[[str, str], tag_tree.Node]
) -> None:
    """Matterhorn 14-002, 14-003: H1 comes first and once; each next is at most one deeper."""
    levels = [int(node.role[1]) for node in tree(demo, edition).find("H1", "H2", "H3", "H4")]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


@each_pattern
def test_tables_have_headings_for_every_cell(
    demo: str, edition: str, tree: Callable[[str, str], tag_tree.Node]
) -> None:
    """Matterhorn 15-003: rows are regular; a column's heads and a row's head have their scope."""
    tables = tree(demo, edition).find("Table")
    assert tables
    for table in tables:
        assert [node.role for node in table.nodes] == ["Caption", "THead", "TBody"]
        _, head, body = table.nodes
        rows = [*head.nodes, *body.nodes]
        widths = {sum(int(cell.attribute("/ColSpan", 1)) for cell in row.nodes) for row in rows}
        assert len(widths) == 1, "a row of another width"
        for row in head.nodes:
            for place, cell in enumerate(row.nodes):
                if cell.role == "TD":
                    assert place == 0, "only the corner is no heading"
                    assert not cell.kids
                else:
                    assert cell.attribute("/Scope") == "/Column", cell.text()
        assert all(cell.role == "TH" for cell in head.nodes[-1].nodes)
        for row in body.nodes:
            first, *cells = row.nodes
            assert first.role == "TH"
            assert first.attribute("/Scope") == "/Row"
            assert [cell.attribute("/Scope", "/Row") for cell in cells] == ["/Row"] * len(cells)


@each_pattern
def test_lists_have_labels_and_bodies(
    demo: str, edition: str, tree: Callable[[str, str], tag_tree.Node]
) -> None:
    """Matterhorn 16-003: L holds LI, each with its Lbl and LBody; numbers count up by one."""
    lists = tree(demo, edition).find("L")
    assert {str(node.attribute("/ListNumbering")) for node in lists} == {
        "/None",
        "/Disc",
        "/Decimal",
    }
    for node in lists:
        entries = node.nodes
        assert all([kid.role for kid in entry.nodes] == ["Lbl", "LBody"] for entry in entries)
        labels = [entry.nodes[0].text() for entry in entries]
        match str(node.attribute("/ListNumbering")):
            case "/Decimal":
                assert all(re.fullmatch(r"\d+\.", label) for label in labels)
                numbers = [int(label[:-1]) for label in labels]
                assert numbers == list(range(numbers[0], numbers[0] + len(numbers)))
            case "/Disc":
                assert set(labels) <= {"•", "–"}
            case _:
                assert all(re.search(r"\w", label) for label in labels), "a term says something"


@each_pattern
def test_pictures_have_words_and_a_place(
    demo: str,
    edition: str,
    tree: Callable[[str, str], tag_tree.Node],
    opened: Callable[[str, str], pikepdf.Pdf],
) -> None:
    """Matterhorn 13-004: each Figure has Alt that describes, and a box on its page."""
    figures = tree(demo, edition).find("Figure")
    assert bool(figures) == builds.has_pictures(builds.document(demo, edition))
    for node in figures:
        assert len(node.alt.split()) >= 3, node.alt
        left, bottom, right, top = map(float, node.attribute("/BBox"))
        box = [float(part) for part in node.element.Pg.MediaBox]
        assert box[0] <= left < right <= box[2]
        assert box[1] <= bottom < top <= box[3]
    assert len({node.alt for node in figures}) == len(figures)


# ---------------------------------------------------------------- links


@each_pattern
def test_links_say_where_they_lead(
    demo: str,
    edition: str,
    tree: Callable[[str, str], tag_tree.Node],
    opened: Callable[[str, str], pikepdf.Pdf],
) -> None:
    """Matterhorn 28-011, 28-012: each link has words in Contents and stands in a Link tag."""
    file = opened(demo, edition)
    notes = [note for page in file.pages for note in page.obj.get("/Annots", ())]
    links = tree(demo, edition).find("Link")
    held = [note.objgen for node in links for note in node.notes]
    assert sorted(held) == sorted(note.objgen for note in notes)
    assert links
    pages = {page.obj.objgen for page in file.pages}
    for note in notes:
        assert note.Subtype == "/Link"
        assert str(note.Contents).strip()
        assert note.Dest[0].objgen in pages if "/Dest" in note else str(note.A.URI)
    for node in links:
        assert {str(note.Contents) for note in node.notes} == {node.text().strip()}


@each_pattern
def test_contents_name_every_section_and_its_page(
    demo: str,
    edition: str,
    tree: Callable[[str, str], tag_tree.Node],
    opened: Callable[[str, str], pikepdf.Pdf],
) -> None:
    """ISO 32000-1, 14.8.4.3.3: TOC holds TOCI, each a Reference that leads to its section."""
    numbers = {page.obj.objgen: at for at, page in enumerate(opened(demo, edition).pages, 1)}
    entries = tree(demo, edition).find("TOCI")
    sections = tree(demo, edition).find("H2")
    assert len(entries) == len(sections)
    for entry, section in zip(entries, sections, strict=True):
        page = numbers[section.element.Pg.objgen]
        assert entry.text() == f"{section.text()} {page}"
        (link,) = entry.find("Link")
        (note,) = link.notes
        assert numbers[note.Dest[0].objgen] == page


# ---------------------------------------------------------------- order


def strings(blocks: Blocks) -> Iterator[str]:
    """The words of a document in its order; those of a picture are its alternative text."""
    for block in blocks:
        yield from _strings(block)


def _strings(block: Block) -> Iterator[str]:
    match block:
        case Heading(_, children) | Paragraph(children):
            yield plain(children)
        case ItemList(items):
            for item in items:
                yield from strings(item.blocks)
        case DefinitionList(entries):
            for entry in entries:
                yield from (plain(entry.term), plain(entry.meaning))
        case Table():
            beside = block.beside
            block = merged(block, theme("calm"))  # sizes that agree share a column
            caption, columns, rows, groups = block.caption, block.columns, block.rows, block.groups
            yield plain(caption)
            yield from (plain(heading) for heading, _ in groups)
            yield from (plain(column.heading) for column in columns)
            yield from (plain(cell) for row in rows for cell in row.cells)
            if beside is not None:
                yield from strings((beside.figure,))
        case Figure(_, alt, caption):
            yield from (alt, plain(caption))
        case Callout(_, title, inner):
            yield plain(title)
            yield from strings(inner)
        case Cover():
            yield from (block.title, plain(block.byline), plain(block.lead))
            art = (block.art,) if block.art else ()
            yield from strings((*art, block.facts))


def read_aloud(root: tag_tree.Node) -> Iterator[str]:
    """The words under the tags in their order, without the labels of lists that only count."""
    contents = {id(node) for toc in root.find("TOC") for node in toc.walk()}
    for node in root.walk():
        if id(node) in contents:
            continue  # the sections again, with their pages
        if node.role == "Figure":
            yield node.alt
        elif node.role == "Lbl" and re.fullmatch(r"\d+\.|[•–]", node.text()):
            continue
        elif any(isinstance(kid, str) for kid in node.kids) and node.role not in ("Link", "Span"):
            yield node.said()


def _listed(said: Iterator[str], document: Document) -> Iterator[str]:
    """``said`` with figures in the lanes of their sizes as lists of figures: ``80 (88, 96)``."""
    lanes = {
        spoken.in_lanes(one, document.sizes): in_print(one) for one in builds.figures(document)
    }
    longest_first = sorted(map(re.escape, lanes), key=len, reverse=True)
    shown = re.compile("|".join(longest_first) or "$^")
    for one in said:
        yield shown.sub(lambda found: lanes[found[0]], one)


def _bare(said: Iterator[str]) -> list[str]:
    """``said`` without empty strings and colons, one of which leads to figures in lanes; spaces
    made plain, the kind of a note left out."""
    plainly = (re.sub(r"\s+", " ", one).strip() for one in said)
    bare = [re.sub(r"^(?:Safety|Note|Tip)(?:: |$)", "", one) for one in plainly if one]
    return [one.replace(":", "") for one in bare]


@pytest.mark.parametrize(
    ("demo", "edition"), [one for one in builds.PATTERN_EDITIONS if one[1] != "large-print"]
)
def test_tags_are_in_the_order_of_the_document(
    demo: str, edition: str, tree: Callable[[str, str], tag_tree.Node]
) -> None:
    """Matterhorn 09-001: what is read is the document, string by string in its own order.

    On a cover the facts may come before the picture. The large-print edition, whose tables may be
    parted by columns, is held against the text edition instead.
    """
    document = builds.document(demo, edition)
    wanted = _bare(strings(document.blocks))
    found = _bare(_listed(read_aloud(tree(demo, edition)), document))
    end = wanted.index(_first_heading(document).replace(":", ""))
    assert sorted(found[:end]) == sorted(wanted[:end])
    art = _art(document).replace(":", "")
    assert [one for one in found[:end] if one != art] == [one for one in wanted[:end] if one != art]
    assert found[end:] == wanted[end:]


def _first_heading(document: Document) -> str:
    return next(plain(block.children) for block in document.blocks if isinstance(block, Heading))


def _art(document: Document) -> str:
    (cover,) = (block for block in document.blocks if isinstance(block, Cover))
    return cover.art.alt if cover.art else ""


@each_edition
def test_pages_are_drawn_in_the_order_they_are_read(
    demo: str, edition: str, opened: Callable[[str, str], pikepdf.Pdf]
) -> None:
    """Programs that reflow a page, or that know no tags, follow its content: same order there."""
    file = opened(demo, edition)
    order = list(tag_tree.marks(file, file.Root.StructTreeRoot.K))
    assert len(set(order)) == len(order)
    assert order == sorted(order)


# ---------------------------------------------------------------- artifacts


def kept(file: pikepdf.Pdf, artifacts: bool) -> pikepdf.Pdf:
    """``file`` with the text of its artifacts only, or of all else only."""
    for page in file.pages:
        shown, inside = [], False
        for instruction in pikepdf.parse_content_stream(page):
            operands, operator = instruction.operands, str(instruction.operator)
            if operator in ("BDC", "BMC"):
                inside = operands[0] == "/Artifact"
            elif operator == "EMC":
                inside = False
            elif operator in ("Tj", "TJ", "'", '"') and inside is not artifacts:
                continue
            shown.append(instruction)
        page.Contents = file.make_stream(pikepdf.unparse_content_stream(shown))
    return file


def words_of(file: pikepdf.Pdf, tmp_path: Path) -> list[str]:
    """The lines of each page's text, as ``pdftotext`` finds them."""
    path = tmp_path / "kept.pdf"
    file.save(path)
    done = subprocess.run(
        ["pdftotext", "-enc", "UTF-8", "-layout", str(path), "-"],
        capture_output=True,
        encoding="utf-8",
        check=True,
    )
    return done.stdout.split("\f")[:-1]


@each_edition
def test_artifacts_hold_only_what_pages_need(
    demo: str,
    edition: str,
    saved: Callable[[str, str], Path],
    tree: Callable[[str, str], tag_tree.Node],
    tmp_path: Path,
) -> None:
    """Matterhorn 18-001: running feet and heads again over the page; nothing to read is lost."""
    document = builds.document(demo, edition)
    heads = {
        word
        for cell in tree(demo, edition).find("THead")
        for word in re.findall(r"\S+", " ".join(one.text() for one in cell.find("TH")))
    }
    heads |= {
        "Sizes",
        *re.findall(r"\S+", f"{in_print(document.sizes)} {' '.join(document.sizes)}"),
    }
    pieces = [node.text().split() for node in tree(demo, edition).find("H2")]
    heads |= {word for title in pieces for word in title}  # above the steps of a piece
    captions = [node.text() for node in tree(demo, edition).find("Caption")]
    captions += ["Safety", "Note", "Tip"]
    with pikepdf.open(saved(demo, edition)) as file:
        pages = words_of(kept(file, artifacts=True), tmp_path)
        for number, page in enumerate(pages, 1):
            *lines, foot = [line for line in page.splitlines() if line.strip()]
            folio = f"page {number} of {len(pages)}"
            assert foot.rstrip().endswith(folio)
            title = foot.strip().removesuffix(folio).strip()
            parts = [document.title, f"version {document.version}", document.author]
            assert title in {" · ".join(parts[:count]) for count in (1, 2, 3)}
            for line in lines:
                words = line.split()
                start, continued, _ = line.strip().partition(", continued")
                assert set(words) <= heads or (
                    continued and any(one.startswith(start.rstrip("…")) for one in captions)
                ), line


@each_edition
def test_all_else_on_the_pages_is_under_a_tag(
    demo: str,
    edition: str,
    saved: Callable[[str, str], Path],
    tree: Callable[[str, str], tag_tree.Node],
    tmp_path: Path,
) -> None:
    """What ``pdftotext`` finds outside artifacts, word by word, is what the tags hold."""
    with pikepdf.open(saved(demo, edition)) as file:
        seen = " ".join(words_of(kept(file, artifacts=False), tmp_path))
    told = " ".join(
        "".join(kid for kid in node.kids if isinstance(kid, str))
        for node in tree(demo, edition).walk()
        if any(isinstance(kid, str) for kid in node.kids)
    )
    said, shown = (sorted(re.sub(r"[\s\u00ad]", "", text)) for text in (told, seen))
    assert shown == said
