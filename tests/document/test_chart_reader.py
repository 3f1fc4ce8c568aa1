"""Written rows against the cells of charts, read from the text edition by an independent reader."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.craft.stitches import standard_book
from bindoff.diagnostics import PatternError
from bindoff.document.build import build_document
from bindoff.document.spokenrows import signs_in_words
from bindoff.plan.plan import make_plan
from bindoff.render.text import render_text
from bindoff.source.read import read_source
from tests.document.patterns import Steps, data, files_of
from tests.document.read_rows import KNOWN, OF, ReadRow, rows_in, worked

EMPTY = "x"
LEGEND = {each.character: each.name for each in KNOWN} | {EMPTY: "no stitch"}


def text_of(
    grid: str, cast_on: int, *, flat: bool = True, wrong: bool = False, **chart: Any
) -> tuple[str, int]:
    """The text edition of a piece that works a chart, and the stitches it has then."""
    used = {c: name for c, name in LEGEND.items() if c in grid}
    begin: Steps = [{"cast on": cast_on}]
    begin += [{"work": "k all", "rounds": 1}] if wrong else []
    steps = [*begin, {"chart": "kelp"}, {"bind off": "all"}]
    chart |= {"first row": "wrong side"} if wrong else {}
    entry = {"title": "Kelp", "grid": "kelp.grid", "legend": used, "alt": "Kelp."} | chart
    source = data(steps, 1, charts={"kelp": entry}, measures={"n": [cast_on]})
    source["pieces"]["cap"]["worked"] = "flat" if flat else "round"
    files = files_of(source, {"kelp.grid": grid})
    plan = make_plan(read_source(files))
    text = render_text(build_document(plan, files)[0], 0, signs_in_words)
    return text, plan.pieces[0].steps[len(begin)].after[0].stitches


def drawn(grid: str) -> list[tuple[str, ...]]:
    """The stitches of each line, bottom first: empty cells left out, a span once."""
    return [tuple(map(stitches, line.split("|"))) for line in reversed(grid.split())]


def stitches(line: str) -> str:
    found = ""
    while line:
        if line[0] != EMPTY:
            found += line[0]
        line = line[OF[line[0]].cells if line[0] != EMPTY else 1 :]
    return found


def seen(rows: list[ReadRow], edged: bool) -> list[tuple[str, ...]]:
    return [row.seen if edged else ("".join(row.seen),) for row in rows]


# ---------------------------------------------------------------- generated charts


CELLS = [each for each in KNOWN if each.name not in ("bind off", "cast on")]


@st.composite
def parts(draw: st.DrawFn, heights: int, first: int) -> list[str]:
    """A part of a chart as lines, bottom first, each of which uses what the one below it makes;
    every row uses and makes at least one stitch."""
    lines: list[list[str]] = []
    uses = first
    for _ in range(heights):
        line: list[str] = []
        left = uses
        while left:
            cell = draw(st.sampled_from([each for each in CELLS if each.uses <= left]))
            line.append(cell.character * cell.cells)
            left -= cell.uses
            if len(line) > 12:
                line += ["."] * left
                left = 0
        uses = sum(OF[cell[0]].makes for cell in line)
        lines.append(line)
    width = max(sum(map(len, line)) for line in lines)
    for line in lines:
        for _ in range(width - sum(map(len, line))):
            line.insert(draw(st.integers(0, len(line))), EMPTY)
    return ["".join(line) for line in lines]


@st.composite
def charts(draw: st.DrawFn) -> tuple[str, int, bool]:
    """A grid with spans, empty cells and often edges, the stitches it is worked over, and whether
    it has edges."""
    height = draw(st.integers(1, 4))
    first, across = draw(st.integers(1, 7)), draw(st.integers(1, 3))
    lines, live = draw(parts(height, first)), first * across
    edged = draw(st.booleans())
    if edged:
        for right in (True, False):
            beside = draw(st.integers(0, 5))
            live += beside
            edge = draw(parts(height, beside)) if beside else [""] * height
            for number, each in enumerate(edge):
                lines[number] = f"{lines[number]}|{each}" if right else f"{each}|{lines[number]}"
    return "\n".join(reversed(lines)) + "\n", live, edged


@settings(deadline=None, max_examples=40)
@given(charts(), st.booleans(), st.booleans())
def test_written_rows_are_the_cells_and_count_as_the_plan_counts(
    chart: tuple[str, int, bool], flat: bool, wrong: bool
) -> None:
    grid, live, edged = chart
    text, after = text_of(grid, live, flat=flat, wrong=wrong and flat)
    rows = list(rows_in(text))

    assert [row.number for row in rows] == list(range(1, len(drawn(grid)) + 1))
    assert seen(rows, edged) == drawn(grid)
    assert worked(rows, live) == after


# ---------------------------------------------------------------- shapes that grow and shrink


def shaped(lines: list[str], live: int, **chart: Any) -> tuple[list[ReadRow], int]:
    """The rows of a grid, bottom line first, read from the text edition, checked against its cells
    and worked; and the stitches that the plan has after them."""
    grid = "\n".join(reversed(lines)) + "\n"
    text, after = text_of(grid, live, **chart)
    rows = list(rows_in(text))
    edged = "|" in grid

    assert seen(rows, edged) == drawn(grid)
    if chart.get("rows", "all") == "all":
        assert worked(rows, live) == after
    return rows, after


def centred(line: str, width: int) -> str:
    beside = (width - len(line)) // 2
    return EMPTY * beside + line + EMPTY * (width - len(line) - beside)


def test_a_triangle_from_the_nape_grows_by_four_in_two_rows() -> None:
    """A yarn over inside each edge and at both sides of the spine in every right-side row: four
    stitches in two rows. Source: a published lesson on shawl shapes (F77 of the project's facts).
    """
    lines, half = [], 1
    for _ in range(8):
        lines.append(f"..o{'.' * half}o.o{'.' * half}o..")
        half += 2
        lines.append("." * (2 * half + 5))
    width = len(lines[-1])
    _, after = shaped([centred(line, width) for line in lines], 7, repeats=False)

    assert after == 7 + 8 * 4


@pytest.mark.parametrize(
    ("right_side", "wrong_side", "growth"),
    [
        # two at each edge in right-side rows and one in wrong-side rows (F78)
        ("oo", "o", 6),
        # another published crescent: six in right-side rows, two in wrong-side rows (F79)
        ("ooo", "o", 8),
    ],
)
def test_a_crescent_grows_at_its_edges_and_begins_again_with_whole_repeats(
    right_side: str, wrong_side: str, growth: int
) -> None:
    """Four pairs of rows add four times as many, which are so many more repeats of ``growth``."""
    lines, edge = [], 2
    for number in range(8):
        new = wrong_side if number % 2 else right_side
        lines.append(f"..{new}{'.' * (edge - 2)}")
        edge += len(new)
    assert edge - 2 == 4 * growth // 2
    lines = [
        f"{line.ljust(edge, EMPTY)}|{'.' * growth}|{line[::-1].rjust(edge, EMPTY)}"
        for line in lines
    ]
    rows, after = shaped(lines, 4 + growth)

    assert after == 4 + growth + 4 * growth
    assert worked(rows, after) == after + 4 * growth  # four repeats more than the first time


def test_a_leaf_grows_and_shrinks_on_its_ground() -> None:
    """One stitch, then 3, 5, 7 by pairs of yarn overs, then 5, 3, 1 by decreases, as leaves of old
    pattern books do; common practice, no source."""
    leaf = ["o.o", "o...o", "o.....o", "<...>", "<.>", "^"]
    wide = ["...", ".....", ".......", ".....", "...", "."]
    lines = []
    for drawn_row, plain in zip(leaf, wide, strict=True):
        lines += [f"--{centred(drawn_row, 7)}--", f"--{centred(plain, 7)}--"]
    lines[0] = "--xxo.oxx--"
    _, after = shaped(lines, 3 * 5, flat=False)

    assert after == 3 * 5


def test_a_crown_of_eight_wedges_closes() -> None:
    """Eight wedges of nine stitches, one gone of each in every other round, down to two: a wheel of
    straight decreases as in hats; common practice, no source."""
    lines = []
    for left in range(9, 2, -1):
        lines += [("." * (left - 2) + ">").ljust(8, EMPTY), ("." * (left - 1)).ljust(8, EMPTY)]
    rows, after = shaped(lines, 72, flat=False)

    assert after == 16
    assert [len(row.seen[1]) for row in rows[:4]] == [8, 8, 7, 7]


def test_a_sawtooth_edging_binds_its_tooth_off_and_begins_again() -> None:
    """Six stitches, a yarn over in four rows, and the four bound off in the eighth; common
    practice, no source. Of the purls after it, one lies on the right needle already."""
    lines, count = [], 6
    for _ in range(4):
        lines.append("." * (count - 2) + "o..")
        count += 1
        lines.append("." * count)
    lines[-1] = "bbbb" + "." * 6
    lines = [line.rjust(10, EMPTY) for line in lines]
    rows, after = shaped(lines, 6, repeats=False)

    assert after == 6
    assert worked([*rows, *rows, *rows], 6) == 6


def test_steps_are_cast_on_at_both_edges() -> None:
    """A step of two at the beginning of each row: right-side rows begin at the right."""
    _, after = shaped(["xx....cc", "cc......", "........"], 4, repeats=False)

    assert after == 8


def test_binding_off_at_the_end_of_a_row_is_refused() -> None:
    with pytest.raises(PatternError) as caught:
        text_of("...x\nb...\n", 8, repeats=False)
    (found,) = caught.value.findings

    assert found.id == "chart.bind-off"
    assert found.span is not None
    assert found.span.line == 2


# ---------------------------------------------------------------- symbols as published

PUBLISHED = (
    # a magazine's symbol list (F42): drawn, on the right side, on the wrong side
    ("k", "knit 4", "purl 4"),
    ("p", "purl 4", "knit 4"),
    ("k tbl", "knit 4 through back loop", "purl 4 through back loop"),
    ("p tbl", "purl 4 through back loop", "knit 4 through back loop"),
    ("yo", "yo", "yo"),
    ("sl", "slip 4 with yarn in back", "slip 4 with yarn in front"),
    ("sl knitwise", "slip 4 knitwise with yarn in back", "slip 4 knitwise with yarn in front"),
    ("sl wyif", "slip 4 with yarn in front", "slip 4 with yarn in back"),
    ("k2tog", "k2tog", "p2tog"),
    ("p2tog", "p2tog", "k2tog"),
    ("p2tog tbl", "p2tog tbl", "k2tog tbl"),
    ("k3tog", "k3tog", "p3tog"),
    ("skp", "skp", "ssp"),
    ("ssk", "ssk", "ssp"),
    # a learn-to-knit book's table (F44)
    ("p3tog", "p3tog", "k3tog"),
    ("m1", "M1", "M1P"),
    ("mb", "MB", "MBW"),
    # rows that several books share, common practice (F35, F50)
    ("kfb", "kfb", "pfb"),
    ("m1l", "M1L", "M1LP"),
    ("m1r", "M1R", "M1RP"),
    ("2/2 RC", "2 over 2 RC", "2 over 2 RCW"),
    ("2/2 LC", "2 over 2 LC", "2 over 2 LCW"),
    ("2/1 RPC", "2 over 1 RPC", "2 over 1 RPCW"),
    ("2/1/2 LPC", "2 over 2 around 1 LPC", "2 over 2 around 1 LPCW"),
    ("kw2", "KW2", "PW2"),
    ("kw3", "KW3", "PW3"),
    ("nupp5", "nupp5", "nupp5"),
    ("k5tog", "k5tog", "p5tog"),
    ("edge stitch", "edge stitch", "edge stitch"),
    ("bind off", "bind off 4", "bind off 4"),
    ("cast on", "cast on 4", "cast on 4"),
)


@pytest.mark.parametrize("wrong_side", [False, True])
@pytest.mark.parametrize(("name", "right", "wrong"), PUBLISHED)
def test_a_published_symbol_is_drawn_worked_and_written_on_both_sides(
    name: str, right: str, wrong: str, wrong_side: bool
) -> None:
    """Between three knits, in a right-side row or in a wrong-side row above a plain one."""
    stitch = standard_book().named(name)
    times = 4 if "4" in right else 1
    live = 6 + stitch.consumes * times
    line = f"...{'S' * stitch.cells * times}..."
    lines = [line, "." * live] if wrong_side else [line]
    width = max(map(len, lines))
    grid = "\n".join(each.rjust(width, EMPTY) for each in lines) + "\n"
    legend = {c: each for c, each in {"S": name, ".": "k", EMPTY: "no stitch"}.items() if c in grid}
    text, after = text_of(grid, live, legend=legend, repeats=False)
    row = [each for each in text.splitlines() if each.startswith("Row ")][-1]
    shown, plain = (wrong, "purl") if wrong_side else (right, "knit")
    assert row.endswith(f": {plain} 3, {shown}, {plain} 3.")
    assert after == 6 + stitch.produces * times
    symbol = stitch.symbol
    assert symbol is not None
    assert symbol.strokes or symbol.fills or name == "k"
