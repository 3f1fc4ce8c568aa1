"""Where things stand on the pages: nothing cut, nothing orphaned, nothing over the edge."""

import io
import re
from bisect import bisect_right
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from itertools import groupby, pairwise
from typing import Literal

import pikepdf
import pypdf
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bindoff.diagnostics import PatternError
from bindoff.document.drawing import Drawing, Label, Lines, Path, Rect
from bindoff.document.tree import (
    Block,
    Blocks,
    Callout,
    Column,
    Cover,
    Definition,
    DefinitionList,
    Figure,
    Heading,
    ItemList,
    ListItem,
    PageBreak,
    Paragraph,
    SizeValues,
    Table,
    TableRow,
    Text,
)
from bindoff.render.pdf import PdfOptions, ThemeName, render_pdf
from bindoff.render.pdf.figures import Box, fit, strips
from bindoff.render.pdf.galley import CHEAPEST, NEVER, Band, Fragment, Lanes
from bindoff.render.pdf.pages import Layout, lay_out
from bindoff.render.pdf.paging import paginate
from bindoff.render.pdf.tagging import Writer
from bindoff.render.pdf.theme import MM
from tests.accessibility.tag_tree import elements
from tests.render.pdf import sample

ALL = ["a4", "letter", "large"]


def pieces(page: pypdf.PageObject) -> list[tuple[str, float, float, float]]:
    """Each piece of text that an independent reader finds, where it begins, and its size."""
    found: list[tuple[str, float, float, float]] = []

    def note(text: str, _: object, matrix: list[float], __: object, size: float) -> None:
        if text.strip():
            found.append((text, matrix[4], matrix[5], size))

    page.extract_text(visitor_text=note)
    return found


def nothing(writer: Writer, left: float, top: float) -> None:
    """A band that paints nothing."""


class Box20:
    """A group that takes 20 points above its bands and 10 below."""

    below = 10.0
    once = False

    def above(self, again: bool) -> float:
        return 20.0

    def paint(self, writer: Writer, left: float, fragment: Fragment) -> None:
        """Nothing."""


class Head20(Box20):
    """The same, needed once on a page."""

    below = 0.0
    once = True


# ---------------------------------------------------------------- cutting into pages

heights = st.lists(st.floats(1, 60), min_size=1, max_size=60)


@given(heights, st.data())
def test_pages_hold_every_band_once_in_order_and_inside(
    sizes: list[float], data: st.DataObject
) -> None:
    """Each lane of a page runs down without overlap, also where lanes begin and end anywhere. What
    goes on under a head of the page, after bands without it, stands below them all."""
    group, head, lanes = Box20(), Head20(), [Lanes((0.0, 50.0)), Lanes((0.0, 30.0, 70.0))]
    bands = [
        Band(
            height,
            nothing,
            before=data.draw(st.floats(0, 20)),
            keep=data.draw(st.sampled_from([0.0, 3.0, NEVER])),
            groups=data.draw(st.sampled_from([(), (group,), (head,)])),
            lanes=data.draw(st.sampled_from([None, None, None, *lanes])),
        )
        for height in sizes
    ]
    pages = paginate(bands, 100, 100)
    assert [each.band for page in pages for each in page.placed] == bands
    headed = [index for index, band in enumerate(bands) if head in band.groups]
    resumed = [after for before, after in pairwise(headed) if after > before + 1]
    stretch_of = {id(band): bisect_right(resumed, index) for index, band in enumerate(bands)}
    for page in pages:
        floor = 0.0  # what is above all lanes
        for (lane, _), together in groupby(
            page.placed, key=lambda each: (each.band.lanes, stretch_of[id(each.band)])
        ):
            lefts = lane.lefts if lane else (0.0,)
            stretch = list(together)
            assert [each.x for each in stretch] == sorted(each.x for each in stretch)
            bottoms = []
            for left, run in groupby(stretch, key=lambda each: each.x):
                assert left in lefts
                y = floor
                for each in run:
                    assert each.top >= y - 0.01
                    y = each.top + each.band.height
                bottoms.append(y)
            floor = max(bottoms)
            assert floor <= 100.02
        for fragment in page.fragments:
            assert fragment.bottom <= 100.02
            assert fragment.bands


def test_lanes_are_levelled_where_they_end() -> None:
    lanes = Lanes((0.0, 50.0))
    text = [Band(10, nothing, keep=3.0, lanes=lanes) for _ in range(8)]
    (page,) = paginate([*text, Band(10, nothing)], 100, 100)
    assert [(each.x, each.top) for each in page.placed] == [
        *((x, top) for x in (0.0, 50.0) for top in (0.0, 10.0, 20.0, 30.0)),
        (0.0, 40.0),
    ]


def test_lanes_run_on_over_the_page() -> None:
    lanes = Lanes((0.0, 50.0))
    text = [Band(10, nothing, keep=3.0, lanes=lanes) for _ in range(28)]
    first, second = paginate([Band(10, nothing), *text], 100, 100)
    assert [each.x for each in first.placed] == [0.0] * 10 + [50.0] * 9
    assert [each.x for each in second.placed] == [0.0] * 5 + [50.0] * 5


def test_lanes_end_early_where_that_fills_half_of_the_last_page() -> None:
    lanes = Lanes((0.0, 50.0))
    text = [Band(10, nothing, keep=3.0, lanes=lanes) for _ in range(24)]
    pages = paginate([Band(10, nothing), *text], 100, 100)
    low = [max(each.top + each.band.height for each in page.placed) for page in pages]
    assert low == [80.0, 50.0]


def test_lane_ends_before_a_heading_rather_than_after_it() -> None:
    lanes = Lanes((0.0, 50.0))
    part = [Band(10, nothing, keep=NEVER), Band(10, nothing, keep=NEVER), Band(10, nothing)]
    bands = [replace(band, lanes=lanes) for band in part * 4]
    (page,) = paginate(bands, 100, 100)
    assert [each.x for each in page.placed] == [0.0] * 6 + [50.0] * 6


@given(heights)
def test_bands_that_belong_together_are_not_parted_when_a_page_can_hold_them(
    sizes: list[float],
) -> None:
    """Pairs of heading and text: the first of a pair never ends a page."""
    bands = []
    for height in sizes:
        bands += [Band(height / 2, nothing, keep=NEVER), Band(height / 2, nothing)]
    for page in paginate(bands, 130, 130):
        assert page.placed[-1].band.keep != NEVER


def test_white_space_is_dropped_at_the_top_of_a_page() -> None:
    pages = paginate([Band(90, nothing), Band(90, nothing, before=50)], 100, 100)
    assert [page.placed[0].top for page in pages] == [0.0, 0.0]


def test_short_table_moves_on_rather_than_being_cut() -> None:
    rows = [Band(10, nothing, keep=24.0) for _ in range(4)]
    pages = paginate([Band(80, nothing), *rows], 100, 100)
    assert [len(page.placed) for page in pages] == [1, 4]


def test_last_page_gets_company() -> None:
    """One line alone on the last page looks like a mistake."""
    bands = [Band(10, nothing) for _ in range(11)]
    pages = paginate(bands, 100, 100)
    assert len(pages[-1].placed) > 1


galleys = st.lists(
    st.tuples(st.sampled_from([20.0, 25.0, 40.0]), st.sampled_from([0.0, 3.0, 12.0, NEVER])),
    min_size=1,
    max_size=12,
)


def every_cutting(heights: list[float], page: float) -> Iterator[tuple[int, ...]]:
    """Every way to cut ``heights`` into pages, by how many stand on each."""
    if not heights:
        yield ()
    for count in range(1, len(heights) + 1):
        if sum(heights[:count]) <= page:
            for rest in every_cutting(heights[count:], page):
                yield (count, *rest)


def cost_of_cutting(bands: list[Band], counts: tuple[int, ...]) -> float:
    """What pages 100 high cost: each 120, its break, the square of its emptiness, and 15 and more
    where over 14 stay empty; the last one only if there is less than 50 on it."""
    cost, at = 0.0, 0
    for number, count in enumerate(counts, start=1):
        filled = sum(band.height for band in bands[at : at + count])
        at += count
        if number < len(counts):
            empty = 1 - filled / 100
            seen = 15 + 600 * (empty - 0.14) if empty > 0.14 else 0.0
            cost += 120 + bands[at - 1].keep + 100 * empty**2 + seen
        else:
            short = max(0.0, 1 - filled / 50)
            cost += 120 + 300 * short + min(70.0, 600 * short)
    return cost


@given(galleys)
def test_no_other_cutting_costs_less(parts: list[tuple[float, float]]) -> None:
    """Against all cuttings, priced by a rule of their own; a page that could hold the rest does."""
    bands = [Band(height, nothing, keep=keep) for height, keep in parts]
    heights = [height for height, _ in parts]
    priced = {counts: cost_of_cutting(bands, counts) for counts in every_cutting(heights, 100)}
    assume(min(priced.values()) < NEVER)
    counts = tuple(len(page.placed) for page in paginate(bands, 100, 100))
    assert priced[counts] == pytest.approx(min(priced.values()))


def test_white_space_gives_way_where_that_spares_a_page() -> None:
    bands = [Band(17, nothing, before=3, keep=3.0) for _ in range(6)]
    (page,) = paginate(bands, 114.6, 114.6)
    assert [each.top for each in page.placed] == pytest.approx([19.4 * at for at in range(6)])


def test_white_space_stays_where_no_page_is_spared() -> None:
    bands = [Band(17, nothing, before=3, keep=3.0) for _ in range(6)]
    first, second = paginate(bands, 60, 60)
    assert [each.top for page in (first, second) for each in page.placed] == [0, 20, 40] * 2


def test_white_space_grows_a_little_where_a_page_would_stay_short() -> None:
    bands = [Band(17, nothing, before=4, keep=3.0) for _ in range(6)]
    first, second = paginate(bands, 71, 71)
    assert [each.top for each in first.placed] == pytest.approx([0, 22, 44])
    assert [each.top for each in second.placed] == [0, 21, 42]  # the last is as long as it is


def test_more_white_space_parts_nothing_that_must_not_be_parted() -> None:
    """Three bands of one picture fill a page; the third would fill the next one better."""
    picture = [Band(30, nothing, before=5, keep=NEVER) for _ in range(2)]
    bands = [*picture, Band(30, nothing, before=5), *(Band(60, nothing, before=5),) * 2]
    assert [len(page.placed) for page in paginate(bands, 100, 100)] == [3, 1, 1]


def test_band_higher_than_the_page_is_named_not_crashed() -> None:
    with pytest.raises(PatternError) as caught:
        paginate([Band(200, nothing, what="columns")], 100, 100)
    assert caught.value.findings[0].id == "pdf.layout"
    assert "columns" in caught.value.findings[0].message


def test_what_a_page_needs_once_heads_it_again_only_on_the_next_page() -> None:
    """Steps, something between them, and steps: the key of sizes stands above the first."""
    head = Head20()
    steps = [Band(10, nothing, groups=(head,)) for _ in range(2)]
    (page,) = paginate([steps[0], Band(10, nothing), steps[1]], 100, 100)
    assert [each.top for each in page.placed] == [20.0, 30.0, 40.0]
    assert len(page.fragments) == 1

    turn = Band(10, nothing, new_page=True)
    _, second = paginate([steps[0], turn, steps[1]], 100, 100)
    assert [each.top for each in second.placed] == [0.0, 30.0]
    (fragment,) = second.fragments
    assert not fragment.first


def test_a_band_gives_way_where_that_fills_a_page_and_keeps_to_its_height_elsewhere() -> None:
    lower: list[float] = []

    def closer(less: float) -> Callable[[Writer, float, float], None]:
        lower.append(less)
        return nothing

    picture = Band(60, nothing, give=10.0, closer=closer)
    (page,) = paginate([picture, Band(46, nothing)], 100, 100)
    assert lower == [pytest.approx(60 - page.placed[0].band.height)]
    assert 6 <= lower[0] <= 10

    (page,) = paginate([picture, Band(40, nothing)], 100, 100)
    assert page.placed[0].band is picture


def test_continued_group_takes_its_room_again() -> None:
    group = Box20()
    pages = paginate([Band(30, nothing, groups=(group,)) for _ in range(4)], 100, 100)
    assert [page.placed[0].top for page in pages] == [20.0, 20.0]
    assert [(f.first, f.last) for page in pages for f in page.fragments] == [
        (True, False),
        (False, True),
    ]


# ---------------------------------------------------------------- the sample's pages


@pytest.mark.parametrize("name", ALL)
def test_no_page_ends_with_a_heading_a_caption_or_a_table_head(
    name: str, laid_out: Callable[[str], Layout]
) -> None:
    for page in laid_out(name).pages:
        band = page.placed[-1].band
        assert band.what not in ("heading", "table head")
        assert band.keep != NEVER


@pytest.mark.parametrize("name", ALL)
def test_nothing_stands_below_the_frame(name: str, laid_out: Callable[[str], Layout]) -> None:
    layout = laid_out(name)
    for page in layout.pages:
        height = (layout.turned if page.turned else layout.frame).height
        assert all(each.top + each.band.height <= height + 0.02 for each in page.placed)


@pytest.mark.parametrize("name", ALL)
def test_all_text_is_inside_the_margins(
    name: str, rendered: Callable[[str], bytes], laid_out: Callable[[str], Layout]
) -> None:
    """Positions as an independent reader finds them."""
    layout = laid_out(name)
    for page in pypdf.PdfReader(io.BytesIO(rendered(name))).pages:
        width, height = float(page.mediabox.width), float(page.mediabox.height)
        places = [(x, y) for _, x, y, _ in pieces(page)]
        assert places
        assert min(x for x, _ in places) >= layout.theme.left - 1
        assert max(x for x, _ in places) <= width - layout.theme.right
        assert min(y for _, y in places) >= layout.theme.foot - 1
        assert max(y for _, y in places) <= height - layout.theme.top


def test_long_table_repeats_its_head_on_each_page(rendered: Callable[[str], bytes]) -> None:
    pages = [p.extract_text() for p in pypdf.PdfReader(io.BytesIO(rendered("a4"))).pages]
    with_rows = [text for text in pages if re.search(r"\d+–\d+ ?\s*(slate|foam|rust)", text)]
    assert len(with_rows) >= 3
    assert all("Rounds" in text and "What to do" in text for text in with_rows)
    assert sum("continued" in text for text in with_rows) == len(with_rows) - 1


def test_every_row_of_the_long_table_is_printed_once(rendered: Callable[[str], bytes]) -> None:
    text = "\n".join(
        page.extract_text() for page in pypdf.PdfReader(io.BytesIO(rendered("a4"))).pages
    )
    for n in range(64):
        assert len(re.findall(rf"(?<!\d){3 * n + 1}–{3 * n + 3}(?!\d)", text)) == 1


def test_key_of_a_chart_stands_on_the_page_of_the_chart(laid_out: Callable[[str], Layout]) -> None:
    for page in laid_out("a4").pages:
        kinds = [each.band.what for each in page.placed]
        if "figure" in kinds and "columns" in kinds:
            return
    pytest.fail("the key and the chart are on different pages")


def test_large_print_has_no_lettering_below_18_points() -> None:
    """American Printing House for the Blind: large print begins at 18 pt."""
    blocks = [block for block in sample.blocks() if not isinstance(block, Figure | Cover)]
    data = render_pdf(sample.document(*blocks[:20]), PdfOptions(theme="large-print"))
    sizes: set[float] = set()
    for page in pypdf.PdfReader(io.BytesIO(data)).pages:
        sizes |= {size for _, _, _, size in pieces(page)}
    assert min(sizes) >= 18
    assert max(sizes) > 25


# ---------------------------------------------------------------- tables


def wide_table(columns: int) -> Table:
    return Table(
        sample.t("Wide"),
        (
            Column(sample.t("What to knit before the crown begins")),
            *(Column(sample.t(f"No. {n}"), "right", n) for n in range(columns)),
        ),
        tuple(
            TableRow(
                (
                    sample.t(f"Row {r} of the garment"),
                    *(sample.t(str(4000 + n)) for n in range(columns)),
                )
            )
            for r in range(3)
        ),
    )


@pytest.mark.parametrize("columns", [8, 12, 16, 25])
@pytest.mark.parametrize("large", [False, True])
def test_wide_table_stays_inside_and_prints_every_column(columns: int, large: bool) -> None:
    """Set smaller, or parted by columns, but never over the paper's edge."""
    options = PdfOptions(theme="large-print" if large else "calm")
    document = sample.document(wide_table(columns))
    reader = pypdf.PdfReader(io.BytesIO(render_pdf(document, options)))
    layout = lay_out(document, options)
    text = ""
    for page in reader.pages:
        text += page.extract_text()
        assert (
            max(x for _, x, _, _ in pieces(page)) < float(page.mediabox.width) - layout.theme.right
        )
    for n in range(columns):
        assert re.search(rf"No\.\s+{n}(?!\d)", text)  # a narrow column has the figure below
        assert text.count(str(4000 + n)) == 3


def test_cell_higher_than_the_page_is_carried_over() -> None:
    """A row may be cut between lines only when no page could hold it."""
    words = " ".join(f"word{n}" for n in range(1600))
    table = Table(
        sample.t("Tall"),
        (Column(sample.t("A")), Column(sample.t("B"))),
        (TableRow((sample.t("name"), sample.t(words))),),
    )
    reader = pypdf.PdfReader(io.BytesIO(render_pdf(sample.document(table))))
    assert len(reader.pages) > 2
    text = " ".join(page.extract_text() for page in reader.pages)
    assert all(re.search(rf"\bword{n}\b", text) for n in range(1600))


def test_columns_of_sizes_under_one_heading_are_equally_wide() -> None:
    document = sample.document(sample.measures())
    page = pypdf.PdfReader(io.BytesIO(render_pdf(document))).pages[0]
    ends: dict[str, float] = {}
    for text, x, _, _ in pieces(page):
        # two-digit figures of one width: equal steps between their left ends
        if re.fullmatch(r"\s*\d\d\s*", text):
            ends.setdefault(text.strip(), x)
    for values in (("40", "43", "46", "50", "52"), ("54", "56", "59")):
        steps = [ends[other] - ends[one] for one, other in pairwise(values)]
        assert max(steps) - min(steps) < 0.1


# ---------------------------------------------------------------- figures


def test_drawing_is_never_enlarged_and_shrunk_only_when_it_must() -> None:
    small = Drawing(50, 40, (Label(1, 5, "x"),))
    room = Box(400, 600)
    assert fit(small, room, room, None, 0.0, 5.0).scale == 1.0
    wide = Drawing(200, 40, (Label(1, 5, "x"),))
    assert fit(wide, room, room, None, 0.0, 5.0).scale == pytest.approx(400 / (200 * MM))


def test_drawing_that_would_be_unreadable_goes_on_a_turned_page() -> None:
    wide = Drawing(240, 100, (Label(1, 5, "x", 2.5),))
    way = fit(wide, Box(450, 650), Box(450, 650), Box(690, 420), 0.0, 5.0)
    assert way.turned
    assert way.scale * 2.5 * MM >= 5.0


def test_turned_page_is_landscape_and_the_rest_is_not() -> None:
    wide = Drawing(280, 100, (Rect(0, 0, 280, 100, fill="#eeeeee"), Label(1, 5, "x", 2.0)))
    document = sample.document(
        sample.p("Before"),
        Heading(2, sample.t("Wide")),
        Figure(wide, "Wide", sample.t("Caption")),
        sample.p("After"),
    )
    pages = pypdf.PdfReader(io.BytesIO(render_pdf(document))).pages
    shapes = [float(p.mediabox.width) > float(p.mediabox.height) for p in pages]
    assert shapes == [False, True, False]
    assert "Wide" in pages[1].extract_text()
    assert "Caption" in pages[1].extract_text()


def grid(rows: int) -> Drawing:
    """Rows of 4 mm with a rule under each and a number in each."""
    rules = tuple((0.0, 4.0 * r, 100.0, 4.0 * r) for r in range(rows + 1))
    cells = tuple(Rect(0, 4.0 * r, 100, 4, fill="#eeeeee") for r in range(rows))
    names = tuple(Label(101, 4.0 * r + 3, str(rows - r), 2.5) for r in range(rows))
    return Drawing(110, 4.0 * rows, (*cells, Lines(rules), *names))


@settings(max_examples=30)
@given(st.integers(10, 300), st.floats(30, 250))
def test_strips_are_cut_between_rows_and_lose_none(rows: int, height: float) -> None:
    parts = list(strips(grid(rows), height))
    assert all(part.height <= height + 1e-6 for part in parts)
    assert sum(part.height for part in parts) == pytest.approx(4.0 * rows)
    names = [s.text for part in parts for s in part.shapes if isinstance(s, Label)]
    assert names == [str(rows - r) for r in range(rows)]
    for part in parts[:-1]:
        assert part.height / 4 == pytest.approx(round(part.height / 4))


def test_symbols_drawn_as_one_path_go_to_the_strip_they_are_in() -> None:
    """Charts draw all cells with one symbol as a single path; its outlines are told apart."""
    outlines = [
        ((("M", 5.0, y)), ("L", 8.0, y), ("L", 8.0, y + 3), ("Z",)) for y in range(1, 99, 4)
    ]
    path = Path(tuple(command for outline in outlines for command in outline), fill="#000000")
    drawing = replace(grid(25), shapes=(*grid(25).shapes, path))
    parts = list(strips(drawing, 40))
    counts = [
        sum(
            command[0] == "M"
            for shape in part.shapes
            if isinstance(shape, Path)
            for command in shape.commands
        )
        for part in parts
    ]
    assert sum(counts) == len(outlines)
    for part, count in zip(parts, counts, strict=True):
        assert count == round(part.height / 4)
        assert all(
            0 <= float(command[2]) <= part.height
            for shape in part.shapes
            if isinstance(shape, Path)
            for command in shape.commands
            if len(command) > 1
        )


def test_chart_longer_than_pages_is_printed_whole() -> None:
    document = sample.document(Heading(1, sample.t("Chart")), Figure(grid(200), "Long", id="c"))
    pages = pypdf.PdfReader(io.BytesIO(render_pdf(document))).pages
    assert len(pages) >= 3
    text = "\n".join(page.extract_text() for page in pages)
    assert all(re.search(rf"(?<!\d){n}(?!\d)", text) for n in range(1, 201))


def _page_of(pages: Sequence[str], words: str) -> int:
    (found,) = (number for number, page in enumerate(pages) if words in page)
    return found


def _pages(*blocks: Block) -> list[str]:
    data = render_pdf(sample.document(*blocks), PdfOptions(theme="calm"))
    return [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages]


def test_only_steps_and_charts_would_rather_begin_a_page() -> None:
    """Not the lists and pictures of other sections."""
    items = (ListItem((sample.p("Knit."),)),)
    chart = Figure(sample.chart(24, 30), "A chart")
    sections: dict[str, tuple[Block, ...]] = {
        "Brim": (ItemList(items, ordered=True),),
        "Tools": (ItemList(items),),
        "Sizes": (chart,),
        "Waves": (sample.p("Read from right to left."), chart),
    }
    blocks: list[Block] = []
    for title, under in sections.items():
        blocks += [Heading(2, sample.t(title), wide=title == "Waves"), *under]
    placed = [
        each
        for page in lay_out(sample.document(*blocks), PdfOptions()).pages
        for each in page.placed
    ]
    heads = [each.band for each in placed if each.band.what == "heading"]

    assert [head.fresh for head in heads] == [True, False, False, True]


@pytest.mark.parametrize(
    ("above", "fresh", "on_first"), [(42, True, 42), (42, False, 50), (20, True, 50)]
)
def test_what_would_rather_begin_a_page_does_not_begin_near_the_foot_of_one(
    above: int, fresh: bool, on_first: int
) -> None:
    """80 lines of 50 to a page: below 42 of them it begins overleaf, below 20 where it stands."""
    bands = [Band(2, nothing, keep=3.0) for _ in range(80)]
    bands[above - 1].keep = CHEAPEST
    bands[above].fresh = fresh
    first, _ = paginate(bands, 100, 100)

    assert len(first.placed) == on_first


def test_neither_the_end_of_a_list_nor_what_is_said_after_it_stands_alone_overleaf() -> None:
    """An item before and the one sentence after: both with the last item, whatever stands above."""
    items = tuple(ListItem((sample.p(f"Stage {n} of the work."),)) for n in range(1, 5))
    title = Heading(3, sample.t("Weaving in ends"))
    for above in range(30, 50):
        lines = (sample.p("A line above."),) * above
        steps = (title, ItemList(items, ordered=True), sample.p("Trim the end."))
        pages = _pages(*lines, *steps, Heading(2, sample.t("Care")), *lines)
        last = _page_of(pages, "Stage 4")

        assert _page_of(pages, "Stage 3") == last == _page_of(pages, "Trim the end"), above


def test_a_note_begins_on_the_page_of_its_step() -> None:
    """Whatever stands above, and though a page must end in the step: not between its last words
    and the head of its note."""
    words = sample.p(f"{'These words are of the step. ' * 130} Then look at the note.")
    parts = (words, Callout("note", sample.t("Why"), (sample.p("Short."),)))
    for above in range(1, 14):
        lines = (sample.p("A line above."),) * above
        step = ItemList((ListItem(parts),), ordered=True)
        pages = _pages(*lines, step, sample.p("After. " * 500))

        assert _page_of(pages, "Then look at") == _page_of(pages, "Why"), above


# ---------------------------------------------------------------- other blocks


def test_page_break_begins_a_page_but_never_an_empty_one() -> None:
    document = sample.document(
        PageBreak(), sample.p("one"), PageBreak(), PageBreak(), sample.p("two"), PageBreak()
    )
    assert len(lay_out(document, PdfOptions()).pages) == 2


def test_note_longer_than_a_page_goes_on_in_its_frame() -> None:
    parts = tuple(sample.p(f"Paragraph {n} of the note. " * 6) for n in range(40))
    document = sample.document(Callout("safety", sample.t("Long"), parts))
    pages = lay_out(document, PdfOptions()).pages
    assert len(pages) > 1
    assert all(len(page.fragments) == 1 for page in pages)


@pytest.mark.parametrize("columns", [1, 2, 3])
def test_long_list_of_terms_is_parted_over_pages(columns: Literal[1, 2, 3]) -> None:
    entries = tuple(
        Definition(sample.t(f"t{n}"), sample.t(f"meaning number {n}")) for n in range(110)
    )
    document = sample.document(DefinitionList(entries, columns))
    text = "\n".join(
        page.extract_text() for page in pypdf.PdfReader(io.BytesIO(render_pdf(document))).pages
    )
    assert all(re.search(rf"meaning number {n}(?!\d)", text) for n in range(110))


def test_a_list_of_a_few_yarns_stands_on_one_page() -> None:
    """Three yarns with their swatches, below more and more words, where a page that ends between
    them would be fuller."""
    names = ("Reed", "Mist", "Rust")
    yarns = DefinitionList(
        tuple(
            Definition(sample.t(each), sample.t("50 g"), sample.mark("#46566b")) for each in names
        )
    )
    after = (sample.measures(), Figure(sample.chart(24, 30), "A chart"))
    for lines in range(23, 30):
        words = (sample.p("Before and after the yarns stand these words."),) * lines
        parts: Blocks = (*words, Heading(2, sample.t("Materials")), yarns, *after, *words[:20])
        data = render_pdf(sample.document(*parts), PdfOptions(theme="calm"))
        pages = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages]

        assert sum(any(each in page for each in names) for page in pages) == 1, lines


def test_callout_says_its_kind_once() -> None:
    document = sample.document(
        Callout("safety", sample.t("Safety"), (sample.p("x"),)),
        Callout("tip", sample.t(""), (sample.p("x"),)),
        Callout("note", sample.t("Gauge"), (sample.p("x"),)),
    )
    text = pypdf.PdfReader(io.BytesIO(render_pdf(document))).pages[0].extract_text()
    assert text.count("Safety") == 1
    assert "Tip" in text
    assert "Note: Gauge" in text


@pytest.mark.parametrize("ratio", [(80, 30), (80, 70), (40, 90)])
def test_cover_fits_one_page_whatever_its_art(ratio: tuple[float, float]) -> None:
    document = sample.document(sample.cover(sample.hat_picture(*ratio)))
    assert len(lay_out(document, PdfOptions()).pages) == 1


@pytest.mark.parametrize("theme", ["calm", "print-saver", "large-print"])
@pytest.mark.parametrize("ratio", [(80, 30), (80, 70), (40, 90)])
def test_cover_prints_the_caption_of_its_art(ratio: tuple[float, float], theme: ThemeName) -> None:
    cover = sample.cover(sample.hat_picture(*ratio))
    assert cover.art is not None
    told = replace(cover, art=replace(cover.art, caption=sample.t("Photograph by Ida Marrow")))
    data = render_pdf(sample.document(told), PdfOptions(theme=theme))
    page = pypdf.PdfReader(io.BytesIO(data)).pages[0]
    assert "Photograph by Ida Marrow" in re.sub(r"\s+", " ", page.extract_text())


def test_a_long_title_has_three_lines_and_its_beginning_stays_in_the_foot() -> None:
    title = "A Hat for Those Who Wait on the Quay " * 4
    document = sample.document(
        replace(sample.cover(sample.hat_picture(80, 66)), title=title.strip()), sample.p("Words.")
    )
    page = lay_out(document, PdfOptions()).pages[0]
    assert sum(each.band.what == "heading" for each in page.placed) == 3
    said = pypdf.PdfReader(io.BytesIO(render_pdf(replace(document, title=title.strip())))).pages[0]
    foot = [text for text, _, y, _ in pieces(said) if y < 50]
    assert "A Hat for Those Who Wait" in " ".join(foot)


@pytest.mark.parametrize("ratio", [(80, 66), (80, 90)])
def test_art_of_a_cover_runs_off_the_paper_and_no_word_lies_on_it(
    ratio: tuple[float, float],
) -> None:
    """From edge to edge of A4, 595 by 842 points, and down to the title."""
    data = render_pdf(sample.document(sample.cover(sample.hat_picture(*ratio))))
    with pikepdf.open(io.BytesIO(data)) as pdf:
        (box,) = (
            [float(each) for each in one.A.BBox]
            for one in elements(pdf.Root.StructTreeRoot.K)
            if one.S == "/Figure"
        )
    assert (box[0], box[2], box[3]) == pytest.approx((0, 595.28, 841.89), abs=0.1)
    page = pypdf.PdfReader(io.BytesIO(data)).pages[0]
    assert max(y for _, _, y, _ in pieces(page)) < box[1]


@pytest.mark.parametrize("ratio", [(80, 20), (40, 90)])
def test_art_that_would_lose_too_much_stays_within_the_margins(ratio: tuple[float, float]) -> None:
    data = render_pdf(sample.document(sample.cover(sample.hat_picture(*ratio))))
    with pikepdf.open(io.BytesIO(data)) as pdf:
        boxes = [one.A.BBox for one in elements(pdf.Root.StructTreeRoot.K) if one.S == "/Figure"]
    assert all(float(box[0]) > 50 for box in boxes)


def test_every_figure_in_a_lane_has_the_names_of_the_sizes_within_ten_centimeters() -> None:
    sizes = ("XS", "S", "M", "L", "XL", "2XL")
    step = ListItem(
        (
            Paragraph((Text("Knit "), SizeValues(("101", "102", "103", "104", "105", "106")))),
            Paragraph((Text("Mark the end of the round. " * 8),)),
        )
    )
    blocks = (Heading(2, (Text("Hat"),), "hat"), ItemList((step,) * 30, ordered=True))
    data = render_pdf(replace(sample.document(*blocks), sizes=sizes))
    seen = 0
    for page in pypdf.PdfReader(io.BytesIO(data)).pages:
        found = [(text.strip(), y, size) for text, _, y, size in pieces(page)]
        names = [y for text, y, _ in found if "2XL" in text]
        for y in (y for text, y, _ in found if "106" in text):
            assert min(name - y for name in names if name >= y - 1) <= 100 * MM + 12
            seen += 1
        assert all(size >= 8 for _, _, size in found)
    assert seen == 30
