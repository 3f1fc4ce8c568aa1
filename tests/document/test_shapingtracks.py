"""Tracks to tick: their boxes are the rows of the pace that the words tell."""

import re
from collections.abc import Iterator
from typing import Any

import pytest

from bindoff.document.drawing import Drawing, Label, Rect
from bindoff.document.tree import Blocks, Figure, ItemList, Table
from tests.document.patterns import built, data, flat, printed

NARROW = "k1, k2tog, k to last 3 stitches, ssk, k1"
PACE = re.compile(r"every (?:(\d+)\w\w |(other) )?\w+ (once|twice|(\d+) times)")
TIMES = {"once": 1, "twice": 2}


def steps_with(
    taper: dict[str, Any], around: bool = False, sizes: int = 2, cast_on: str | int = "n"
) -> Blocks:
    """All blocks of the steps of a pattern that is shaped so."""
    steps = [{"cast on": cast_on}, {"taper": NARROW, **taper}, {"bind off": "all"}]
    source = data(steps, sizes)
    document, _ = built(source if around else flat(source))
    items = [
        each
        for block in document.blocks
        if isinstance(block, ItemList) and block.ordered
        for each in block.items
    ]
    return tuple(block for item in items for block in item.blocks)


def tracks(blocks: Blocks) -> list[Figure]:
    return [block for block in blocks if isinstance(block, Figure)]


def shaped(pace: str) -> Iterator[int]:
    """The shaping rows of a pace in words: ``the first row, then every 4th row 3 times``."""
    at = 0
    for part in pace.split(", then "):
        if part.startswith("the first"):
            at += 1
            yield at
        elif found := re.fullmatch(
            r"every (?:(\d+)\w\w |(other) )?\w+ (once|twice|(\d+) times)", part
        ):
            step = int(found[1]) if found[1] else 2 if found[2] else 1
            for _ in range(TIMES.get(found[3], 0) or int(found[4])):
                at += step
                yield at


@pytest.mark.parametrize("around", [False, True])
def test_a_track_has_the_rows_of_the_pace_and_the_stitches_after_them(around: bool) -> None:
    """The words of the table are read again, and each row takes two stitches away."""
    blocks = steps_with(
        {"to": "n - 8", "over": [14, 17]} | ({} if around else {"every": 2}), around
    )
    (table,) = (each for each in blocks if isinstance(each, Table))
    (track,) = tracks(blocks)

    assert blocks.index(track) == blocks.index(table) + 1
    told = re.findall(r"\d+ ro\w+ in all in size (\w+), shaping in (.*?)\.", track.alt)
    for row, (size, said) in zip(table.rows, told, strict=True):
        rows = [int(each) for each in re.findall(r"(\d+), \d+ stitch", said)]
        after = [int(each) for each in re.findall(r"\d+, (\d+) stitch", said)]
        assert size == printed(row.cells[0])
        assert rows == [*shaped(printed(row.cells[1]))]
        assert after == [*range(after[0], after[0] - 2 * len(rows), -2)]
        assert after[-1] == int(printed(row.cells[3]))


def test_sizes_that_share_a_track_are_named_in_one_sentence() -> None:
    (track,) = tracks(steps_with({"to": 20, "over": [14, 14, 17]}, sizes=3, cast_on=28))
    (run,) = tracks(steps_with({"to": 20, "over": [14, 14, 14, 17]}, sizes=4, cast_on=28))

    assert re.findall(r"in all in (.+?), shaping", track.alt) == ["sizes A and B", "size C"]
    assert re.findall(r"in all in (.+?), shaping", run.alt) == ["sizes A to C", "size D"]


def test_each_row_has_its_box_and_those_of_shaping_rows_are_bold() -> None:
    (track,) = tracks(steps_with({"to": "n - 8", "over": 30}, sizes=1))
    assert isinstance(track.picture, Drawing)
    labels = [shape for shape in track.picture.shapes if isinstance(shape, Label)]
    numbers = [int(each.text) for each in labels if not each.bold]
    bold = [int(each.text) for each in labels if each.bold]

    assert "size" not in track.alt
    assert len(bold) == 4
    boxes = [shape for shape in track.picture.shapes if isinstance(shape, Rect)]
    assert sum(each.width > 0.5 for each in boxes) == len(bold)
    assert {*range(1, 31)} <= {*numbers, *bold}
    assert track.picture.width <= 126.25


def test_a_long_pace_is_worked_by_its_words() -> None:
    assert not tracks(steps_with({"to": "n - 8", "over": 120}))


def test_a_track_in_several_lines_has_lines_of_like_length() -> None:
    """25 boxes, of which 24 have room side by side: no single one begins a line of its own."""
    (track,) = tracks(steps_with({"to": "n - 8", "over": 25}, around=True, sizes=1))
    assert isinstance(track.picture, Drawing)
    boxes = [shape for shape in track.picture.shapes if isinstance(shape, Rect)]
    lines = [each for each in boxes if each.width < 0.5]

    assert [round(each.w / each.h) for each in lines] == [13, 12]
