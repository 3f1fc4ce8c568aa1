"""A small document with what the demos lack and the two editions must still say alike."""

from typing import Literal

from bindoff.document.tree import (
    Blocks,
    Callout,
    Column,
    Cover,
    Definition,
    DefinitionList,
    Document,
    Heading,
    Inlines,
    ItemList,
    Link,
    ListItem,
    Paragraph,
    SizeValues,
    Table,
    TableRow,
    Text,
)

Part = str | tuple[str, ...]
"""Words, or a figure for each of three sizes, of which as many are used as there are sizes."""


def document(sizes: tuple[str, ...]) -> Document:
    """The document for up to three ``sizes``."""

    def words(*parts: Part) -> Inlines:
        return tuple(
            Text(part) if isinstance(part, str) else SizeValues(part[: len(sizes)])
            for part in parts
        )

    def p(*parts: Part) -> Paragraph:
        return Paragraph(words(*parts))

    def numbered(*items: Blocks, start: int = 1) -> ItemList:
        return ItemList(tuple(map(ListItem, items)), ordered=True, start=start)

    def row(name: str, thread: str, *figures: str) -> TableRow:
        cells = (name, thread, *figures[: len(sizes)])
        return TableRow(tuple(words(cell) if cell else () for cell in cells))

    hints = (ListItem((p("One."),)), ListItem((p("Two: ", ("1½", "–", "2¾"), " in."),)))
    steps = numbered(
        (p("Knit ", ("8", "9", "10"), " (not purl) rounds."), ItemList(hints)),
        (p("Work ", ("4", "–", "4"), " sts × 3. Then knit 2–4 cm."),),
        (
            p("Bind off ", ("plainly", "tightly", "loosely"), "."),
            numbered((p("Cut 1 m of yarn."),), (p("Draw it through ", ("8", "–", "–"), " sts."),)),
        ),
        start=4,
    )
    counts = Table(
        words("Counts"),
        (
            Column(words("Row")),
            Column(words("Thread, m")),
            *(Column(words(size), "right", at) for at, size in enumerate(sizes)),
        ),
        (row("1", "1.5", "8", "–", "10"), row("2–3", "", "2", "2", "2")),
    )
    kinds: tuple[tuple[Literal["safety", "note", "tip"], str], ...] = (
        ("safety", "Cords"),
        ("note", ""),
        ("tip", "For all"),
    )
    notes = tuple(
        Callout(
            kind, words(title) if title else (), (p("Mind it."), p("And ", ("1", "2", "–"), "."))
        )
        for kind, title in kinds
    )
    facts = DefinitionList((Definition(words("Yarn"), words("2 (fine), 50 g = 150 m / 165 yd")),))
    end = p(
        "Wash at 30 °C → dry © 2024. A half is ½, a unit 1 cm; leave ",
        ("¾ cm", "1¼ cm", "2 cm"),
        " of −2 in.",
    )
    links = Paragraph(
        (
            *words("See "),
            Link(words("the errata"), "https://example.org/errata"),
            *words(", or write to "),
            Link(words("ida@example.org"), "mailto:ida@example.org"),
            *words("."),
        )
    )
    return Document(
        title="Trial",
        author="Ida Marrow",
        language="en",
        version="1.0",
        date="2024-05-01",
        summary="A trial.",
        sizes=sizes,
        blocks=(
            Cover("Trial", words("Designed by Ida Marrow, version 1.0"), words("A trial."), facts),
            Heading(2, words("Work")),
            steps,
            counts,
            *notes,
            Heading(2, words("End")),
            end,
            links,
        ),
    )
