"""Whatever the tree holds, the file is valid, complete and in order."""

import io
import re

import page
import pypdf
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bindoff.document.tree import (
    Block,
    Callout,
    Column,
    Definition,
    DefinitionList,
    Figure,
    Heading,
    Inlines,
    ItemList,
    ListItem,
    PageBreak,
    Paragraph,
    Strong,
    Table,
    TableRow,
    Text,
)
from bindoff.render.pdf import Paper, PdfOptions, ThemeName, render_pdf
from bindoff.render.pdf.widths import Need, share
from tests.render.pdf import sample

# Every word of a document is told from all others by its number, so order and loss show.
phrases = st.lists(st.sampled_from(["knit", "purl", "slip", "turn"]), min_size=1, max_size=30)


@st.composite
def inlines(draw: st.DrawFn) -> Inlines:
    return (Text(" ".join(draw(phrases))), Strong((Text(" " + " ".join(draw(phrases))),)))


def items(blocks: st.SearchStrategy[Block]) -> st.SearchStrategy[list[ListItem]]:
    return st.lists(st.lists(blocks, min_size=1, max_size=2).map(tuple).map(ListItem), max_size=3)


@st.composite
def tables(draw: st.DrawFn) -> Table:
    count = draw(st.integers(1, 11))
    columns = tuple(
        Column(
            draw(inlines()) if n == 0 else sample.t(f"size {n}"),
            draw(st.sampled_from(["left", "right", "centre"])),
            n if n and draw(st.booleans()) else None,
            draw(st.floats(0.5, 3)),
        )
        for n in range(count)
    )
    rows = tuple(
        TableRow(tuple(draw(inlines()) if n == 0 else sample.t(str(n)) for n in range(count)))
        for _ in range(draw(st.integers(1, 5)))
    )
    return Table(draw(inlines()), columns, rows, header_columns=draw(st.integers(0, 1)))


marks = st.none() | st.just(sample.mark("#b5562f"))


@st.composite
def definitions(draw: st.DrawFn) -> DefinitionList:
    entries = tuple(
        Definition(
            draw(inlines()), draw(inlines()), draw(st.none() | st.just(sample.mark("#b5562f")))
        )
        for _ in range(draw(st.integers(1, 5)))
    )
    return DefinitionList(entries, draw(st.sampled_from([1, 2, 3])))


leaves = st.one_of(
    st.builds(Paragraph, inlines(), st.sampled_from(["body", "lead", "small"])),
    tables(),
    definitions(),
    st.builds(Figure, st.just(sample.hat_picture()), st.just("A hat"), inlines()),
    st.builds(
        Figure,
        st.builds(sample.chart, st.integers(5, 60), st.integers(5, 90)),
        st.just("A chart"),
    ),
)
nested = st.recursive(
    leaves,
    lambda inner: st.one_of(
        st.builds(ItemList, items(inner).map(tuple), st.booleans(), st.integers(1, 99)),
        st.builds(
            Callout,
            st.sampled_from(["safety", "note", "tip"]),
            inlines(),
            st.lists(inner, max_size=3).map(tuple),
        ),
    ),
    max_leaves=4,
)
top = st.one_of(
    nested,
    st.builds(Heading, st.sampled_from([2, 3, 4]), inlines(), st.just(""), st.booleans()),
    st.just(PageBreak()),
)


def numbered(block: object, count: list[int]) -> object:
    """``block`` with a number after each of its words."""
    if isinstance(block, Text):

        def mark(found: re.Match[str]) -> str:
            count[0] += 1
            return f"{found[0]}{count[0]}"

        return Text(re.sub(r"knit|purl|slip|turn", mark, block.text))
    if isinstance(block, tuple):
        return tuple(numbered(part, count) for part in block)
    if hasattr(block, "__dataclass_fields__") and not isinstance(block, Figure):
        return type(block)(
            *(numbered(getattr(block, name), count) for name in block.__dataclass_fields__)
        )
    return block


@settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    st.lists(top, min_size=1, max_size=5),
    st.sampled_from(["calm", "print-saver", "large-print"]),
    st.sampled_from(["a4", "letter"]),
)
def test_any_document_is_valid_and_loses_no_word(
    blocks: list[Block], theme: ThemeName, paper: Paper
) -> None:
    """Table captions and heads may come again where a table is parted; nothing else may."""
    count = [0]
    story: list[Block] = [Heading(1, sample.t("Title"))]
    story += [numbered(block, count) for block in blocks]  # type: ignore[misc]
    data = render_pdf(sample.document(*story), PdfOptions(paper, theme))
    report = page.validate_pdf_bytes(data, profile=page.ValidationProfile.PDF_UA_1)
    assert [str(failure) for failure in report.failures] == []
    text = " ".join(p.extract_text() for p in pypdf.PdfReader(io.BytesIO(data)).pages)
    found = [int(number) for number in re.findall(r"(?:knit|purl|slip|turn)(\d+)", text)]
    assert set(found) == set(range(1, count[0] + 1))


needs = st.lists(
    st.tuples(st.floats(1, 80), st.floats(0, 200), st.booleans(), st.floats(0.1, 5)).map(
        lambda parts: Need(parts[0], parts[0] + parts[1], parts[2], parts[3])
    ),
    min_size=1,
    max_size=12,
)


@given(needs, st.floats(50, 600))
def test_columns_fill_no_more_than_the_width_and_none_is_too_narrow(
    columns: list[Need], width: float
) -> None:
    widths = share(columns, width, 70.0)
    even = max((need.most for need in columns if need.size), default=0.0)
    least = sum(even if need.size else need.least for need in columns)
    if widths is None:
        assert least > width
        return
    assert sum(widths) <= width + 0.01
    for need, wide in zip(columns, widths, strict=True):
        assert wide >= (even if need.size else need.least) - 0.01
    sizes = [wide for need, wide in zip(columns, widths, strict=True) if need.size]
    assert not sizes or max(sizes) - min(sizes) < 0.01
