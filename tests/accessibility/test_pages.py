"""What each page of each edition owes its reader: the key of sizes, shared columns, company."""

import re
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path

import pikepdf
import pytest

from bindoff.document.tree import (
    Blocks,
    Callout,
    Document,
    Heading,
    ItemList,
    Table,
    in_print,
    interrupting,
    plain,
)
from bindoff.render.pdf.flow import Flow
from bindoff.render.pdf.pages import lay_out
from bindoff.render.pdf.tablefit import Room, fitted
from tests.accessibility import builds, machine, tag_tree
from tests.accessibility.test_tags import kept, words_of

SEVERAL = tuple(
    (demo, edition)
    for demo, edition in builds.PATTERN_EDITIONS
    if len(builds.document(demo, edition).sizes) > 1
)
TENTH, HALF = 0.1, 0.48


def step_pages(tree: tag_tree.Node, file: pikepdf.Pdf, document: Document) -> Iterator[int]:
    """The pages, from 0, of steps under a heading whose steps have figures of several sizes.

    A section in columns is told in running words, which need no key. Nor do the techniques that
    stand among the steps: they are notes for every size, and a page of nothing else has no steps.
    """
    section: list[tag_tree.Node] = []
    explains = interrupting(document.blocks)
    techniques = {
        plain(each.children)
        for each, inside in zip(document.blocks, explains, strict=True)
        if isinstance(each, Heading) and each.level == 3 and inside
    }
    in_technique = False
    running = {
        plain(each.children)
        for each in document.blocks
        if isinstance(each, Heading) and each.columns
    }
    for node in [*tree.nodes, tag_tree.Node("H2")]:
        if node.role in ("H2", "H3"):
            in_technique = node.role == "H3" and node.text() in techniques
        if node.role != "H2":
            section += [] if in_technique else [node]
            continue
        if section and section[0].role == "H2" and section[0].text() in running:
            section = [node]
            continue
        steps = [
            each
            for each in section
            if each.role == "L" and str(each.attribute("/ListNumbering")) == "/Decimal"
        ]
        said = " ".join(each.said() for each in steps).replace("\xa0", " ")
        listed = any(in_print(one) in said for one in builds.figures(document))
        heads = {head.text() for each in steps for head in each.find("TH")}
        if listed or heads & set(document.sizes) or any(each.find("Span") for each in steps):
            for each in steps:
                yield from (
                    page for page, _ in tag_tree.marks(file, each.element.K, each.element.Pg)
                )
        section = [node]


@pytest.mark.parametrize(("demo", "edition"), SEVERAL)
def test_every_page_of_steps_has_the_key_of_its_sizes(
    demo: str,
    edition: str,
    tree: Callable[[str, str], tag_tree.Node],
    opened: Callable[[str, str], pikepdf.Pdf],
    tmp_path_factory: pytest.TempPathFactory,
) -> None:
    """The names of the sizes in their order, over lanes or as the lists of figures have them."""
    document, file = builds.document(demo, edition), opened(demo, edition)
    pages = set(step_pages(tree(demo, edition), file, document))
    assert pages
    file.save(path := tmp_path_factory.mktemp("key") / "all.pdf")
    with pikepdf.open(path) as copy:
        heads = words_of(kept(copy, artifacts=True), path.parent)
    lanes = " ".join(document.sizes)
    listed = f"Sizes {in_print(document.sizes)}"
    for page in pages:
        shown = " ".join(heads[page].split())
        assert lanes in shown or listed in shown, f"page {page + 1}: {shown}"


@pytest.mark.parametrize(("demo", "edition"), builds.EDITIONS)
def test_no_page_is_nearly_empty(demo: str, edition: str) -> None:
    """None that ends in the first tenth of its frame, as no demo wishes for such a page, and a last
    page is half full, less two lines of type."""
    layout = lay_out(builds.document(demo, edition), builds.made(demo)[edition].edition.pdf)
    for number, page in enumerate(layout.pages, start=1):
        frame = layout.turned if page.turned else layout.frame
        low = max(each.top + each.band.height for each in page.placed)
        assert low >= TENTH * frame.height, f"page {number}"
    assert edition == "card" or low >= HALF * frame.height, "the last page"


PLACED = re.compile(r'xMin="(.+?)" yMin="(.+?)" xMax="(.+?)" yMax="(.+?)">(.+?)</word>')


@machine.needs("pdfinfo")
@pytest.mark.parametrize(("demo", "edition"), builds.EDITIONS)
def test_no_words_lie_over_each_other(
    demo: str, edition: str, saved: Callable[[str, str], Path]
) -> None:
    """Boxes of two words, as poppler sees them, share less than a quarter of the lower one's
    height; those of the numbers beside a chart are higher than its rows, but not the figures."""
    command = ["pdftotext", "-bbox", str(saved(demo, edition)), "-"]
    shown = subprocess.run(command, capture_output=True, text=True, check=True).stdout
    for number, page in enumerate(shown.split("<page ")[1:], start=1):
        boxes = [(*map(float, word[:4]), word[4]) for word in PLACED.findall(page)]
        boxes.sort(key=lambda box: box[1])
        for index, (left, top, right, low, word) in enumerate(boxes):
            for other in boxes[index + 1 :]:
                shared = min(low, other[3]) - other[1]
                if shared <= 0:
                    break
                over = min(right, other[2]) - max(left, other[0]) > 1
                deep = shared > min(low - top, other[3] - other[1]) / 4
                figures = word.isdigit() and other[4].isdigit()
                assert figures or not (over and deep), f"page {number}: {word}, {other[4]}"


def tables_in(blocks: Blocks) -> Iterator[Table]:
    for block in blocks:
        match block:
            case Table():
                yield block
            case ItemList(items):
                for item in items:
                    yield from tables_in(item.blocks)
            case Callout(blocks=inner):
                yield from tables_in(inner)
            case _:
                pass


@pytest.mark.parametrize(("demo", "edition"), SEVERAL)
def test_no_table_is_parted_without_the_columns_that_its_sizes_share(
    demo: str, edition: str
) -> None:
    """As wide as the page, and in less of it, where tables of many sizes have to be parted."""
    document, options = builds.document(demo, edition), builds.made(demo)[edition].edition.pdf
    layout = lay_out(document, options)
    flow = Flow(document, layout.theme, layout.frame, layout.turned, options.grey, {})
    for table in tables_in(document.blocks):
        shared = [plain(column.heading) for column in table.columns if column.size is None]
        for share in (1.0, 0.6):
            room = Room(0.0, layout.frame.width * share, layout.frame.height)
            for part in fitted(table, room, layout.theme, flow._runs) or ():
                kept_ones = [plain(each.heading) for each in part.node.columns if each.size is None]
                assert kept_ones == shared
