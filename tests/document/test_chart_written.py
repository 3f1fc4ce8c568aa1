"""The written rows say all that the chart shows, in the direction it is worked."""

import re
from typing import Literal

import pytest
from hypothesis import given

from bindoff.document.charts.spec import ChartSpec, RepeatBox
from bindoff.document.charts.written import (
    RepeatedRuns,
    Run,
    WrittenRow,
    alt_text,
    directions,
    introduction,
    row_words,
    span_of_numbers,
    written_blocks,
    written_rows,
)
from bindoff.document.tree import ItemList, Paragraph, plain
from tests.document.chart_cases import (
    CABLE,
    KNIT,
    NO_STITCH,
    PURL,
    RIGHT_DECREASE,
    YARN_OVER,
    chart,
    expanded,
    specs,
)


def said(spec: ChartSpec, **more: bool) -> list[str]:
    return [plain(row_words(row, spec, **more)) for row in written_rows(spec)]


@given(specs())
def test_the_grid_comes_back_from_the_written_rows(spec: ChartSpec) -> None:
    assert expanded(written_rows(spec)) == spec.rows


@given(specs())
def test_the_rows_are_numbered_without_gaps(spec: ChartSpec) -> None:
    numbers = [n for row in written_rows(spec) for n in range(row.first, row.last + 1)]

    assert numbers == list(range(spec.first_row, spec.first_row + spec.height))


@given(specs())
def test_the_bases_come_back_too(spec: ChartSpec) -> None:
    bases = [row.base for row in written_rows(spec) for _ in range(row.first, row.last + 1)]

    assert bases == (list(spec.base) or [""] * spec.height)


def _read(words: str, width: int) -> list[str]:
    """The yarns of a row of ``width`` stitches from its sentence, as a knitter reads it, who works
    what stands after an asterisk as often as it fits: an independent way back."""
    parts = re.split(r"\*(.*); repeat from \* to (?:end|last (?:(\d+) stitches|(stitch)))", words)
    if len(parts) == 1:
        return _runs_of(words)
    before, inside, several, one, after = parts
    first, repeated, last = _runs_of(before), _runs_of(inside), _runs_of(after)
    assert len(last) == (int(several) if several else 1 if one else 0)
    times, over = divmod(width - len(first) - len(last), len(repeated))
    assert over == 0
    return first + repeated * times + last


def _runs_of(words: str) -> list[str]:
    """The yarns of a list of runs and brackets, one by one."""
    stitches: list[str] = []
    for bracket, times, run in re.findall(r"\[([^]]*)\] (\d+) times|(\d+ \w+)", words):
        runs = re.findall(r"(\d+) (\w+)", bracket or run)
        worked = [yarn for count, yarn in runs for _ in range(int(count))]
        stitches += worked * int(times or 1)
    return stitches


@given(specs().filter(lambda spec: spec.keys[0].colour is not None))
def test_the_grid_comes_back_from_the_plain_sentences(spec: ChartSpec) -> None:
    word = {key.said(): key.key for key in spec.keys}
    found: list[tuple[str, ...]] = []
    for row in written_rows(spec):
        head, _, words = plain(row_words(row, spec)).partition(": ")
        worked = tuple(word[yarn] for yarn in _read(words, spec.width))
        assert head.lower().startswith(spec.row_name)
        rightwards = row.direction == "left to right"
        found += [worked if rightwards else worked[::-1]] * (row.last - row.first + 1)

    assert tuple(found) == spec.rows


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("tttfftttt", "4 tar, 2 foam, 3 tar"),
        ("tttttttt", "8 tar"),
        ("tfftfftff", "[2 foam, 1 tar] 3 times"),
        ("tftf", "1 foam, 1 tar, 1 foam, 1 tar"),
        ("rtftftftr", "1 rust, 1 tar, [1 foam, 1 tar] 3 times, 1 rust"),
        ("tfttfttfttft", "[1 tar, 1 foam, 1 tar] 4 times"),
    ],
)
def test_a_round_is_said_from_right_to_left_and_no_longer_than_need_be(
    line: str, words: str
) -> None:
    assert said(chart(line)) == [f"Round 1 (reading right to left): {words}."]


def test_equal_rounds_are_said_once() -> None:
    spec = chart("tff", "ttf", "ttf", "ttf", "fff", first_row=4)

    assert said(spec, direction=False) == [
        "Round 4: 3 foam.",
        "Rounds 5–7: 1 foam, 2 tar.",
        "Round 8: 2 foam, 1 tar.",
    ]


def test_flat_rows_are_said_in_the_direction_each_is_worked() -> None:
    spec = chart("ttf", "ttf", worked="flat")

    assert said(spec) == [
        "Row 1 (right side, reading right to left): 1 foam, 2 tar.",
        "Row 2 (wrong side, reading left to right): 2 tar, 1 foam.",
    ]


def test_flat_rows_that_read_alike_both_ways_are_said_once() -> None:
    assert said(chart("tft", "tft", worked="flat")) == ["Rows 1–2: 1 tar, 1 foam, 1 tar."]


def test_a_wrong_side_row_says_the_stitch_that_looks_like_the_chart() -> None:
    """A chart shows the right side: an empty square is knit on it and purl on the wrong side."""
    spec = chart("kkpp", "kkpp", keys=(KNIT, PURL), worked="flat")

    assert said(spec, direction=False) == [
        "Row 1 (right side): purl 2, knit 2.",
        "Row 2 (wrong side): purl 2, knit 2.",
    ]
    assert said(chart("kk", "kk", keys=(KNIT,), worked="flat"), direction=False) == [
        "Row 1 (right side): knit 2.",
        "Row 2 (wrong side): purl 2.",
    ]


def test_a_repeat_box_is_said_with_asterisks() -> None:
    """The trade's notation: `*k1, yo, k2tog; repeat from *`."""
    keys = (KNIT, YARN_OVER, RIGHT_DECREASE)
    box = RepeatBox(2, 4, 1, 2, "3-stitch repeat")
    spec = chart("kkkkk", "k/okk", keys=keys, worked="flat", repeats=(box,))

    assert said(spec, direction=False) == [
        "Row 1 (right side): knit 1, *knit 1, yo, k2tog; repeat from * to last stitch, knit 1.",
        "Row 2 (wrong side): purl 1, *purl 3; repeat from * to last stitch, purl 1.",
    ]
    assert "A bold box marks the 3-stitch repeat" in directions(spec)


def test_a_repeat_box_to_the_end_says_so() -> None:
    spec = chart("tf", repeats=(RepeatBox(1, 2, 1, 1, "2-stitch repeat"),))

    assert said(spec, direction=False) == ["Round 1: *1 foam, 1 tar; repeat from * to end."]


def test_cells_without_a_stitch_are_not_worked_or_counted() -> None:
    spec = chart("nknk", "nnnn", keys=(KNIT, NO_STITCH))

    assert said(spec, direction=False, count=True) == [
        "Round 1: no stitches (0 stitches).",
        "Round 2: knit 2 (2 stitches).",
    ]
    assert expanded(written_rows(spec)) == spec.rows


def test_a_cable_counts_once_for_all_its_stitches() -> None:
    spec = chart("cccccccck", keys=(KNIT, CABLE))

    assert said(spec, direction=False, count=True) == [
        "Round 1: knit 1, 2/2 right cross 2 times (9 stitches)."
    ]


def test_the_base_colour_is_said_and_parts_rounds_that_differ_in_it() -> None:
    spec = chart("tf", "tf", base=("t", "r"))

    assert said(spec, direction=False) == [
        "Round 1 (base tar): 1 foam, 1 tar.",
        "Round 2 (base rust): 1 foam, 1 tar.",
    ]


def test_the_data_of_a_row() -> None:
    assert written_rows(chart("tft", worked="flat", first_right_side=False)) == (
        WrittenRow(
            1,
            1,
            "left to right",
            False,
            (RepeatedRuns((Run("t", 1), Run("f", 1), Run("t", 1))),),
        ),
    )


@pytest.mark.parametrize(
    ("first_row", "first_right_side", "odd_side"),
    [(1, True, "right-side"), (1, False, "wrong-side"), (2, True, "wrong-side")],
)
def test_the_directions_name_the_odd_rows(
    first_row: int, first_right_side: bool, odd_side: str
) -> None:
    spec = chart("tf", worked="flat", first_row=first_row, first_right_side=first_right_side)

    assert f"{odd_side} rows (odd numbers)" in directions(spec)


def test_the_directions_for_the_round() -> None:
    assert directions(chart("tf", first_row=13)) == (
        "In the drawing, start at the bottom with round 13. Read every round from right to left."
    )


@pytest.mark.parametrize("worked", ["round", "flat"])
def test_written_rows_need_no_directions_of_the_drawing(worked: Literal["round", "flat"]) -> None:
    """They are in working order: who turned them as a drawing is read would mirror the picture."""
    box = RepeatBox(1, 2, 1, 2, "2-stitch repeat")
    spec = chart("tf", "ff", worked=worked, first_row=13, repeats=(box,))
    lead, _ = written_blocks(spec)

    assert isinstance(lead, Paragraph)
    words = plain(lead.children)
    assert "order in which you work its stitches" in words
    assert words.endswith(f"Begin with {spec.row_name} 13.")
    for drawn in ("right to left", "left to right", "bottom", "upwards", "box"):
        assert drawn not in words


def test_the_blocks_are_an_introduction_and_one_entry_for_each_written_row() -> None:
    spec = chart("tf", "ff")
    first, second = written_blocks(spec)

    assert isinstance(first, Paragraph)
    assert plain(first.children) == introduction(spec)
    assert isinstance(second, ItemList)
    assert len(second.items) == 2


def test_rows_that_are_read_as_those_of_the_chart_before_say_so_and_where_they_begin() -> None:
    first, _ = written_blocks(chart("tf", first_row=7), again=True)

    assert isinstance(first, Paragraph)
    assert plain(first.children) == (
        "Each round is in working order, as those of the chart before. Begin with round 7."
    )


def test_alt_text_says_what_the_chart_shows_how_large_it_is_and_where_the_words_are() -> None:
    assert alt_text(chart("tft", "fff"), "below the chart") == (
        "Chart Test: 3 stitches by 2 rounds, worked in the round. It shows tar and foam. "
        "The same in words: below the chart."
    )
    assert alt_text(chart("t", worked="flat")) == (
        "Chart Test: 1 stitch by 1 row, worked flat. It shows tar."
    )


def test_spans_of_numbers() -> None:
    assert span_of_numbers("stitch", 1, 40) == "stitches 1–40"
    assert span_of_numbers("row", 3, 3) == "row 3"


def test_a_wide_chart_tells_where_each_run_lies() -> None:
    """By the numbers below the drawing, which run from right to left: a right-side row counts up
    and a wrong-side row down."""
    line = "f" * 20 + "t" + "r" * 43
    spec = chart(line, line, worked="flat")
    first, second = written_rows(spec)

    assert plain(row_words(first, spec, direction=False)) == (
        "Row 1 (right side): 43 rust (1 to 43), 1 tar (44), 20 foam (45 to 64)."
    )
    assert plain(row_words(second, spec, direction=False)) == (
        "Row 2 (wrong side): 20 foam (64 to 45), 1 tar (44), 43 rust (43 to 1)."
    )
    assert "in parentheses are the stitches of the chart" in introduction(spec)


def test_a_bracket_of_a_wide_chart_has_one_place() -> None:
    spec = chart("r" * 5 + "tf" * 30)
    (row,) = written_rows(spec)

    assert plain(row_words(row, spec, direction=False)) == (
        "Round 1: [1 foam, 1 tar] 30 times (1 to 60), 5 rust (61 to 65)."
    )


def test_a_narrow_chart_tells_no_places() -> None:
    spec = chart("r" * 60)
    (row,) = written_rows(spec)
    assert "(" not in plain(row_words(row, spec, direction=False))
