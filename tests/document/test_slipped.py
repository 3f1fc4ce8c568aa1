"""Mosaic and slip-stitch charts, knitted by a reader of the text edition who sees the fabric."""

import re
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.files import SOURCE_NAME
from bindoff.pipeline import check_pattern
from tests.document.patterns import TWO_YARNS, Data, data, fault, files_of, plan_of, text_of

NAMES = {"Slate": "#", "Foam": "."}
STEPS = "########\n.#....#.\n##.#.###\n.#...#..\n"
"""Foam (.) and slate (#): bottom line in foam over slate stitches, then slate, foam and slate."""


def piece(
    grid: str = STEPS, cast_on: int = 16, rounds: int | None = None, flat: bool = True, **chart: Any
) -> tuple[Data, dict[str, str]]:
    legend = {c: yarn for c, yarn in {"#": "slate", ".": "foam"}.items() if c in grid}
    entry = {"title": "Steps", "grid": "steps.grid", "legend": legend, "alt": "Steps."}
    step: Data = {"chart": "steps"} | ({} if rounds is None else {"rounds": rounds})
    source = data(
        [{"cast on": cast_on}, step, {"bind off": "all"}],
        1,
        charts={"steps": entry | {"mode": "mosaic"} | chart},
        measures={"n": [cast_on]},
        **TWO_YARNS,
    )
    source["pieces"]["cap"]["worked"] = "flat" if flat else "round"
    return source, {"steps.grid": grid}


_ROW = re.compile(
    r"(?:Row|Round) (\d+) \(yarn (\w+)(?:, (right|wrong) side)?\): star, (.*); repeat"
)
_PART = re.compile(r"(knit|purl|slip) (\d+)( with yarn in (?:back|front))?")
_BRACKET = re.compile(r"start of repeat, (.*?), end of repeat, work it (\d+) times")


def fabric(text: str, width: int, ground: str) -> list[str]:
    """What is seen after each written row, left to right, where the repeat is worked once: a worked
    stitch takes the yarn of its row, a slipped one keeps its own."""
    seen, found = [ground] * width, []
    for _, yarn, side, words in _ROW.findall(text):
        words = _BRACKET.sub(lambda m: ", ".join([m[1]] * int(m[2])), words)
        acts = [act for act, count, _ in _PART.findall(words) for _ in range(int(count))]
        acts *= width // len(acts)  # what comes again within the repeat is written once
        places = range(width) if side == "wrong" else range(width - 1, -1, -1)
        for place, act in zip(places, acts, strict=True):
            if act != "slip":
                seen[place] = NAMES[yarn]
        found.append("".join(seen))
    return found


def test_the_written_rows_make_the_picture() -> None:
    text, _ = text_of(*piece())

    assert fabric(text, 8, "#") == STEPS.split()[::-1]


def test_each_row_takes_its_yarn_alone_and_nothing_for_slipped_stitches() -> None:
    """Twice eight stitches: six of eight in foam, six in slate, six in foam, eight in slate, and
    each line in two rows."""
    _, plan = text_of(*piece())

    assert [dict(loops) for loops in plan.pieces[0].steps[1].worked[0]] == [
        *({"foam": 12}, {"foam": 12}, {"slate": 12}, {"slate": 12}),
        *({"foam": 12}, {"foam": 12}, {"slate": 16}, {"slate": 16}),
    ]


@pytest.mark.parametrize(
    ("flat", "other", "words"),
    [
        (True, None, "purl the stitches that it knitted, and slip with yarn in front"),
        (True, "knit", "knit the stitches that it knitted, and slip with yarn in front"),
        (False, None, "knit the stitches that it knitted, and slip with yarn in back"),
        (False, "purl", "purl the stitches that it knitted, and slip with yarn in back"),
    ],
)
def test_the_second_row_of_each_line_holds_the_yarn_on_the_wrong_side(
    flat: bool, other: str | None, words: str
) -> None:
    more: Data = {} if other is None else {"other rows": other}
    text, plan = text_of(*piece(flat=flat, **more))
    unit = "row" if flat else "round"

    assert f"In the yarn of the {unit} before, {words} those that it slipped." in text
    assert plan.pieces[0].steps[1].rounds == (8,)


def test_a_slip_stitch_chart_says_the_yarn_side_in_every_row() -> None:
    text, _ = text_of(*piece(mode="slip stitch"))

    assert "Row 1 (yarn Foam, right side): star, knit 2, slip 1 with yarn in back, knit 3" in text
    assert "Row 2 (yarn Slate, wrong side): star, purl 2, slip 1 with yarn in front, purl 1" in text
    assert fabric(text, 8, "#") == STEPS.split()[::-1]


def test_nothing_is_said_of_floats() -> None:
    wide = "########\n#.......\n"
    source, files = piece(wide, rounds=8)
    text, _ = text_of(source, files)
    ids = {each.id for each in check_pattern(files_of(source, files), SOURCE_NAME, "steps")}

    assert not {id for id in ids if id.startswith("float") or id == "chart.three-yarns"}
    assert "with slipped stitches" in text
    assert "Knitting with two yarns" not in text


@pytest.mark.parametrize(
    ("grid", "line", "column", "message"),
    [
        # neither yarn: slate lies below the foam stitch, and foam below a slate one
        ("##.#####\n#.######\n", 1, 3, "line 2 of the chart can't be worked in one yarn"),
        ("#.#.\n.#.#\n", 1, 3, "line 2 of the chart can't be worked in one yarn"),
    ],
)
def test_a_line_that_no_yarn_makes_is_pointed_at(
    grid: str, line: int, column: int, message: str
) -> None:
    found = fault(*piece(grid))

    assert found.id == "chart.slipped"
    assert found.message.startswith(message)
    assert found.span is not None
    assert (found.span.line, found.span.column) == (line, column)


def test_a_chart_that_begins_again_stands_on_its_last_line() -> None:
    """Slate is slipped in the first line, and the last one is all foam."""
    grid = "........\n.#....#.\n"
    assert plan_of(*piece(grid)).pieces[0].steps[1].rounds == (4,)
    found = fault(*piece(grid, rounds=8))

    assert found.id == "chart.slipped"
    assert "where the chart begins again" in found.message


def above(*steps: Data, grid: str = STEPS, **chart: Any) -> tuple[Data, dict[str, str]]:
    """The chart, whose first line is in foam over slate stitches, above such steps."""
    source, files = piece(grid, **chart)
    works = source["pieces"]["cap"]["steps"]
    works[1:1] = steps
    return source, files


SLATE_ROWS: Data = {"work": "k all", "rounds": 2, "yarn": "slate"}
FOAM_ROWS: Data = {"work": "k all", "rounds": 2, "yarn": "foam"}


@pytest.mark.parametrize(
    "steps",
    [
        (),
        (FOAM_ROWS, SLATE_ROWS),
        # a slipped edge stitch shows what it showed: slate since the row before
        (SLATE_ROWS, {"work": "sl1, k to end", "rounds": 2, "yarn": "slate"}),
        # the edge stitch is foam for one row more
        (FOAM_ROWS, {"work": "sl1, k to end", "rounds": 2, "yarn": "slate"}, SLATE_ROWS),
    ],
)
def test_what_the_first_line_slips_lies_on_rows_of_its_yarn(steps: tuple[Data, ...]) -> None:
    """A mosaic is set up by a row in the yarn that its first line slips; common practice, no
    source."""
    text, _ = text_of(*above(*steps))

    assert fabric(text[text.index("Written rows") :], 8, "#") == STEPS.split()[::-1]


@pytest.mark.parametrize(
    ("steps", "words"),
    [
        ((FOAM_ROWS,), "slips stitches that show `slate`, and the row below it shows `foam` there"),
        (
            (FOAM_ROWS, {"work": "sl1, k to end", "rounds": 2, "yarn": "slate"}),
            "nothing proves which yarn the row below it shows there",
        ),
        (
            ({"work": "k4 in foam, k to end", "rounds": 2, "yarn": "slate"},),
            "nothing proves which yarn the row below it shows there",
        ),
    ],
)
def test_a_first_line_over_another_yarn_is_refused(steps: tuple[Data, ...], words: str) -> None:
    found = fault(*above(*steps))

    assert found.id == "chart.ground"
    assert words in found.message
    assert found.help is not None
    assert "`slate`" in found.help
    assert found.span is not None
    assert (found.span.line, found.span.column) == (4, 6)


def test_a_chart_stands_on_the_stitches_that_another_shows() -> None:
    """The first line slips just what the chart below it shows in slate: cell by cell."""
    source, files = piece()
    below = {"title": "Base", "grid": "base.grid", "legend": {"#": "slate", ".": "foam"}}
    source["charts"]["base"] = below | {"alt": "Base."}
    source["pieces"]["cap"]["steps"].insert(1, {"chart": "base", "rounds": 2})
    first = STEPS.split()[-1]
    files["base.grid"] = f"{first}\n########\n"
    assert plan_of(source, files).pieces[0].steps[2].rounds == (8,)

    files["base.grid"] = f"{first.replace('#', '.', 1)}\n########\n"
    found = fault(source, files)

    assert found.id == "chart.ground"
    assert "shows `foam` there" in found.message


def test_every_character_is_a_yarn() -> None:
    source, files = piece()
    source["charts"]["steps"]["legend"]["."] = "p"

    assert "is no yarn" in fault(source, files).message


@pytest.mark.parametrize(
    "more", [{"rows": "right side"}, {"first row": "wrong side"}, {"other rows": "k2, p to end"}]
)
def test_lines_of_a_mosaic_are_pairs_of_plain_rows(more: dict[str, Any]) -> None:
    assert "mosaic" in fault(*piece(**more)).message


@st.composite
def mosaics(draw: st.DrawFn) -> str:
    """Charts as the trade draws them: lines in turn in foam and slate over slate stitches, each of
    which keeps some stitches of the line below."""
    width, lines = draw(st.integers(2, 12)), list[str]()
    below = "#" * width
    for number in range(draw(st.integers(1, 8))):
        yarn = ".#"[number % 2]
        kept = draw(st.lists(st.booleans(), min_size=width - 1, max_size=width - 1))
        # the right edge is worked in every line, so that it shows the yarn
        line = "".join(
            old if keep else yarn for old, keep in zip(below, [*kept, False], strict=True)
        )
        lines.append(line)
        below = line
    return "\n".join(reversed(lines)) + "\n"


@settings(deadline=None, max_examples=25)
@given(mosaics(), st.sampled_from(["mosaic", "slip stitch"]), st.booleans())
def test_any_mosaic_is_knitted_as_it_is_drawn(grid: str, mode: str, flat: bool) -> None:
    width = grid.index("\n")
    text, _ = text_of(*piece(grid, 2 * width, mode=mode, flat=flat))

    assert fabric(text, width, "#") == grid.split()[::-1]
