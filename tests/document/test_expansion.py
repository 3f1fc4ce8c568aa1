"""Abbreviations are explained where they are first used, once, as whole words."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bindoff.document.expansion import expanded
from bindoff.document.tree import (
    Block,
    Column,
    Definition,
    DefinitionList,
    Document,
    Emphasis,
    Heading,
    Inline,
    ItemList,
    Link,
    ListItem,
    Paragraph,
    SizeValues,
    Table,
    TableRow,
    Text,
    plain,
)

NAMES = {
    "k{n}": "knit {n}",
    "p{n}": "purl {n}",
    "k2tog": "knit 2 together",
    "M1L": "make 1 left",
    "M1": "make 1",
    "ch": "chain",
    "w&t": "wrap and turn",
    "ssk": "slip, slip, knit",
}


def of_blocks(*blocks: Block) -> tuple[Block, ...]:
    document = Document("Hat", "Ada Quay", "en", "1", "2026-11-02", "A hat.", ("S", "M"), blocks)
    return expanded(document, NAMES).blocks


def of(*parts: str | Inline) -> str:
    """A paragraph in print form."""
    inlines = tuple(Text(part) if isinstance(part, str) else part for part in parts)
    (block,) = of_blocks(Paragraph(inlines))
    assert isinstance(block, Paragraph)
    return plain(block.children)


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("Ssk, ssk.", "Ssk (slip, slip, knit), ssk."),
        ("*K2, p2; repeat.", "*K2 (knit 2), p2 (purl 2); repeat."),
        ("K to end, k2tog, k1.", "K (knit) to end, k2tog (knit 2 together), k1."),
        ("k12, k2tog", "k12 (knit 12), k2tog (knit 2 together)"),
        ("M1, M1L, m1", "M1 (make 1), M1L (make 1 left), m1"),
        ("Ch 3, w&t", "Ch (chain) 3, w&t (wrap and turn)"),
        ("[p1] twice", "[p1 (purl 1)] twice"),
    ],
)
def test_the_first_use_of_each_is_explained(written: str, said: str) -> None:
    assert of(written) == said


@pytest.mark.parametrize(
    "words",
    ["K: brim", "letter k, p or P", "back2 packs", "M1LX", "M12", "touch, chart", "k-p", "SSK"],
)
def test_parts_of_words_and_lone_letters_are_left(words: str) -> None:
    assert of(words) == words


def test_a_figure_for_each_size_is_part_of_the_name() -> None:
    figures = SizeValues(("8", "9"))
    assert of("Next: k", figures, ", p", figures, ", k", figures) == (
        "Next: k8 (9) (knit 8 (9)), p8 (9) (purl 8 (9)), k8 (9)"
    )
    assert of("back", figures) == "back8 (9)"


def test_stress_counts_and_links_do_not() -> None:
    link = Link((Text("k2tog"),), "#k2tog")
    assert of(link, " ", Emphasis((Text("k2tog"),))) == "k2tog k2tog (knit 2 together)"


def test_where_it_counts_as_used() -> None:
    """In the order of reading: not in the list itself, nor in headings, terms and column heads."""
    ssk = (Text("ssk"),)
    listed = DefinitionList((Definition(ssk, (Text("slip, slip, knit; ssk leans left"),)),))
    table = Table(ssk, (Column(ssk), Column(ssk)), (TableRow((ssk, ssk)),))
    blocks = (
        Heading(2, (Text("Abbreviations"),), "abbreviations"),
        listed,
        Heading(2, ssk, "ssk"),
        DefinitionList((Definition(ssk, ()),)),
    )
    assert of_blocks(*blocks) == blocks
    *same, last = of_blocks(*blocks, ItemList((ListItem((Paragraph(ssk), table)),)))
    assert tuple(same) == blocks
    (item,) = last.items  # type: ignore[union-attr]
    assert plain(item.blocks[0].children) == "ssk (slip, slip, knit)"  # type: ignore[union-attr]
    assert item.blocks[1] == table
    (alone,) = of_blocks(table)
    assert plain(alone.caption) == "ssk (slip, slip, knit)"  # type: ignore[union-attr]
    assert alone.columns == table.columns  # type: ignore[union-attr]


WORDS = st.lists(
    st.sampled_from(["k2", "K", "k2tog", "ssk", "M1", "purl", "to end", "p3", ", ", ". ", " "])
)


@given(st.lists(WORDS.map("".join), max_size=4))
def test_nothing_is_lost_and_nothing_told_twice(texts: list[str]) -> None:
    blocks = of_blocks(*(Paragraph((Text(text),)) for text in texts))
    said = [plain(block.children) for block in blocks if isinstance(block, Paragraph)]
    told = re.findall(r" \((.*?)\)", " ".join(said))
    things = [re.fullmatch(r"(?:(knit|purl)(?: \d)?|(.*))", name) for name in told]
    assert len({match.groups() for match in things if match}) == len(told)
    bare = said
    for number in ("", " 2", " 3"):
        for name in NAMES.values():
            bare = [text.replace(f" ({name.replace(' {n}', number)})", "") for text in bare]
    assert bare == texts


def test_no_names_no_change() -> None:
    document = Document("Hat", "Ada", "en", "1", "", "", ("S",), (Paragraph((Text("k2"),)),))
    assert expanded(document, {}) == document


def test_what_only_print_shows_explains_nothing() -> None:
    """A key of a chart, which nobody hears, must not use up what the rows after it need."""
    key = DefinitionList((Definition((Text("/"),), (Text("k2tog in the rows"),), print_only=True),))
    seen = Paragraph((Text("Look for ssk."),), print_only=True)
    *_, rows = of_blocks(key, seen, Paragraph((Text("Ssk, k2tog."),)))

    assert isinstance(rows, Paragraph)
    assert plain(rows.children) == "Ssk (slip, slip, knit), k2tog (knit 2 together)."
