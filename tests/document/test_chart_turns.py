"""Charts whose rows turn early, worked by a reader of the text edition who sees each column."""

import re
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bindoff.document.charts.legend import legend
from bindoff.document.charts.spec import ChartSpec
from bindoff.document.charts.symbols import symbol_of
from bindoff.document.tree import DefinitionList, plain
from tests.document.patterns import Data, data, fault, text_of
from tests.document.test_chartpages import pages

LEGEND = {".": "k", "-": "p", "W": "w&t", "/": "not worked", "x": "no stitch", "d": "ds"}
HEEL = """\
........
........
///.....
//W.....
//////..
/////W..
"""
"""Two wedges of short rows, each wrapped, and two whole rows."""


def piece(
    grid: str, cast_on: int, flat: bool = True, before: int = 0, **chart: Any
) -> tuple[Data, dict[str, str]]:
    legend = {c: name for c, name in LEGEND.items() if c in grid}
    entry = {"title": "Heel", "grid": "heel.grid", "legend": legend, "alt": "Heel."} | chart
    plain_rows: list[Data] = [{"work": "k all", "rounds": before}] if before else []
    steps: list[Data] = [{"cast on": cast_on}, *plain_rows, {"chart": "heel"}, {"bind off": "all"}]
    source = data(steps, 1, charts={"heel": entry}, measures={"n": [cast_on]})
    source["pieces"]["cap"]["worked"] = "flat" if flat else "round"
    return source, {"heel.grid": grid}


# ---------------------------------------------------------------- a knitter of rows that turn

_ROW = re.compile(r"Rows? (\d+)(?: to (\d+))? ?(?:\((right|wrong) side\))?: (.*)\.")
_STAR = re.compile(
    r"(?:(.*?), )?star, (.*?); repeat from star to (?:end|last (?:(\d+) )?stitch(?:es)?)(?:, (.*))?"
)


def columns(text: str, live: int) -> list[tuple[int, int]]:
    """For each row the first and the last stitch that it works, from the right edge and from 1, as
    a knitter finds them: every row begins where the one before it ended or turned.

    All stitches are knit or purl, so that they stay in their columns. Raises ``AssertionError``
    where a row that does not say that it turns leaves stitches, or one works more than there are.
    """
    found = []
    at, ahead = 0, live  # stitches behind and before the needle's tip, in working direction
    for _, _, side, words in _ROW.findall(text):
        turned = bool(re.search(r"(?:turn|w&t)$", words))
        words = re.sub(r",? ?(?:w&t|turn)$", "", words)
        count = _worked(words, ahead)
        assert count <= ahead
        assert turned or count == ahead, words
        first, last = at + 1, at + count
        found.append((first, last) if side == "right" else (live + 1 - last, live + 1 - first))
        # the next row goes back over what was worked, and over what lay behind that
        at, ahead = live - last, last
    return found


def _worked(words: str, ahead: int) -> int:
    star = _STAR.fullmatch(words)
    if star is None:
        return _count(words)
    before, body, left, after = star.groups()
    stop = int(left) if left else int("last stitch" in words)
    done = _count(before or "")
    while ahead - done > stop:
        done += _count(body)
    assert ahead - done == stop
    return done + _count(after or "")


def _count(words: str) -> int:
    return sum(int(number) for number in re.findall(r"(?:knit|purl) (\d+)", words)) + len(
        re.findall(r"\bds\b", words)
    )


def cells(grid: str) -> list[tuple[int, int]]:
    """The same from the grid, bottom line first: the columns that are neither hatched nor
    wrapped."""
    found = []
    for line in reversed(grid.replace("|", "").split()):
        worked = [len(line) - place for place, c in enumerate(line) if c not in "W/"]
        found.append((min(worked), max(worked)))
    return found


# ---------------------------------------------------------------- what is worked


def test_rows_end_where_they_turn() -> None:
    text, plan = text_of(*piece(HEEL, 8))
    step = plan.pieces[0].steps[1]

    assert columns(text, 8) == cells(HEEL)
    assert [dict(loops)["slate"] for loops in step.worked[0]] == [2, 2, 5, 5, 8, 8]
    assert step.after[0].stitches == 8
    assert (step.after[0].height, step.after[0].most) == (2, 6)
    assert "Row 1 (right side): knit 2, w&t." in text
    assert "w&t: wrap and turn" in text
    assert "Rows that turn early" in text


def test_the_double_stitch_of_german_short_rows_begins_the_row_after_the_turn() -> None:
    text, _ = text_of(*piece("........\n........\n////d...\n////....\n", 8))

    assert "Row 1 (right side): knit 4, turn." in text
    assert "Row 2 (wrong side): ds, purl 3." in text
    assert columns(text, 8) == [(1, 4), (1, 4), (1, 8), (1, 8)]


WINGS = "...|....|..\n...|....|..\n//.|....|..\n//.|....|//\n//.|....|//\n//.|....|..\n"


@pytest.mark.parametrize("across", [1, 2, 3])
def test_beside_a_repeat_the_rows_turn_in_the_edges(across: int) -> None:
    text, _ = text_of(*piece(WINGS, 5 + 4 * across))
    wide = "\n".join(
        f"{left}{middle * across}{right}"
        for left, middle, right in (line.split("|") for line in WINGS.split())
    )

    assert columns(text, 5 + 4 * across) == cells(wide)
    assert "to last 3 stitches, knit 1, turn" in text


def test_a_chart_may_begin_on_the_wrong_side() -> None:
    grid = "........\n........\n....////\n....W///\n"
    more: Data = {"first row": "wrong side"}
    text, _ = text_of(*piece(grid, 8, before=1, **more))

    assert "Row 1 (wrong side): purl 4, w&t." in text
    assert "Row 2 (right side): knit 4." in text
    assert columns(text, 8) == cells(grid)


@settings(deadline=None, max_examples=30)
@given(st.integers(3, 12), st.lists(st.integers(1, 11), min_size=1, max_size=4), st.booleans())
def test_any_short_rows_from_one_edge_are_worked_as_drawn(
    width: int, turns: list[int], wrapped: bool
) -> None:
    lines = []
    for turn in turns:
        worked = min(turn, width - 1)
        left = width - worked
        lines.append(f"{'/' * (left - 1)}{'W' if wrapped else '/'}{'.' * worked}")
        lines.append(f"{'/' * left}{'.' * worked}")
    lines += ["." * width] * 2
    grid = "\n".join(reversed(lines)) + "\n"
    text, plan = text_of(*piece(grid, width))

    assert columns(text, width) == cells(grid)
    assert plan.pieces[0].steps[1].after[0].stitches == width
    assert plan.pieces[0].steps[1].after[0].height == 2


# ---------------------------------------------------------------- what is refused


@pytest.mark.parametrize(
    ("grid", "cast_on", "words"),
    [
        (
            "........\n........\n//......\n//W.....\n",
            8,
            "row 2 of the chart leaves 2 stitches before its first one, and row 1 turns 3 stitches",
        ),
        ("........\n./......\n./......\n", 8, "leaves stitches on the needle among those"),
        ("........\n///.....\n/W......\n", 8, "row 2 of the chart leaves 3 stitches"),
        ("//......\n........\n", 8, "row 2 of the chart leaves 2 stitches before its first one"),
        ("//W.....\n........\n........\n", 8, "the last, turns 3 stitches before its end"),
        ("///.....\nW//.....\n", 8, "leaves stitches on the needle among those"),
        ("///.....\n//W.....\n", 16, "worked 2 times side by side"),
    ],
)
def test_rows_that_do_not_meet_at_a_turn_are_refused(grid: str, cast_on: int, words: str) -> None:
    found = fault(*piece(grid, cast_on))

    assert found.id == "chart.turn"
    assert words in found.message
    assert found.help


def test_rows_turn_early_in_rows_alone() -> None:
    assert "worked in rounds" in fault(*piece(HEEL, 8, flat=False)).message
    assert "right-side rows" in fault(*piece(HEEL, 8, rows="right side")).message


def test_a_count_that_changes_beside_a_turn_is_still_proved() -> None:
    """A cell beyond the turn is a stitch of the row: the yarn over of row 2 makes one too many."""
    grid = "........\n........\n///o....\n//W.....\n"
    source, files = piece(grid, 8)
    source["charts"]["heel"]["legend"]["o"] = "yo"
    found = fault(source, files)

    assert found.id == "chart.count"
    assert "1 yo" in found.message


# ---------------------------------------------------------------- how it looks


def spec() -> ChartSpec:
    return pages(*piece(HEEL, 8))["heel"].spec


def test_cells_beyond_a_turn_say_so_without_a_colour() -> None:
    """Their own mark on the turning stitch and grey cells beyond it: common practice, no source;
    a sign besides colour is asked by WCAG 2.2, success criterion 1.4.1."""
    beyond, wrapped = symbol_of("not worked"), symbol_of("wrap and turn")
    key = legend(spec())

    assert beyond.shade
    assert beyond.strokes
    assert beyond.shade != symbol_of("no stitch").shade
    assert wrapped.strokes
    assert isinstance(key, DefinitionList)
    told = {plain(each.term): plain(each.meaning) for each in key.entries}
    assert "hatched cell" in told["not worked"]
    assert "stays on the needle" in told["not worked"]
    assert "w&t" in told["wrap and turn"]


def test_the_cover_shows_no_holes_where_rows_turn_early() -> None:
    text, _ = text_of(*piece(HEEL, 8))

    assert "Plain knitted fabric in one yarn" in text
